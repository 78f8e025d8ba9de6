//! # Hub in fork
//!
//! ## What it checks
//! Width over the locknuts and axle standard of the front hub against the fork.
//!
//! ## Why it matters
//! A front wheel that comes out throws the rider. A thru-axle hub in open dropouts has nothing that holds it there.
//!
//! ## Numbers
//! * 100 mm is one hub width for quick release, 12 and 15 mm axles: listed end caps convert it.
//! * 110 x 15 and 110 x 20 mm are different hubs; 100 in 110 mm needs a listed kit with a rotor spacer.
//! * The other numbers are those of "hub in frame"; a fork is never spread.
//!
//! ## Sources
//! Axle guides of a magazine, a wheel builder and shop blogs; tolerances reasoned, not a standard.

use super::hub_in_frame::{FORK_REASONS, width, width_inputs};
use crate::fit::rule::{Input, Mating, Rule};
use crate::fit::slot::Slot::{Fork, Hub};
use crate::part::attr;

/// The mating.
pub const MATING: Mating = Mating {
    code: "hub-in-fork",
    title: "Hub in fork",
    file: include_str!("hub_in_fork.rs"),
    source: "axle guides of a magazine, a wheel builder and shop blogs",
    rules: &[WIDTH],
};

const HUB_WIDTH: [Input; 4] = width_inputs(Hub, Fork);

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Hub, Fork],
    inputs: &[
        HUB_WIDTH[0],
        HUB_WIDTH[1],
        HUB_WIDTH[2],
        HUB_WIDTH[3],
        (Hub, attr::END_CAPS.attribute()),
        (Hub, attr::WIDENING_KIT.attribute()),
    ],
    reasons: FORK_REASONS,
    judge: |given| width(given, Hub, Fork),
};
