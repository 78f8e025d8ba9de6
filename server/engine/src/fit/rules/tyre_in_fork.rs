//! # Tyre in fork
//!
//! ## What it checks
//! The width of the tyre against the widest that the fork maker allows, and the bead seat of the rim against the one
//! that the fork was made for.
//!
//! ## Why it matters
//! A tyre that catches in the crown stops the front wheel at once.
//!
//! ## Numbers
//! Those of "tyre in frame".
//!
//! ## Sources
//! Those of "tyre in frame".

use super::tyre_in_frame::{SEAT_REASONS, WIDTH_REASONS, bead_seat, seat_inputs, width, width_inputs};
use crate::fit::rule::{Mating, Rule};
use crate::fit::slot::Slot::{Fork, Rim, Tyre};

/// The mating.
pub const MATING: Mating = Mating {
    code: "tyre-in-fork",
    title: "Tyre in fork",
    file: include_str!("tyre_in_fork.rs"),
    source: "EN 14781 clause 4.10.2 as quoted on a forum; fork makers' limits",
    rules: &[WIDTH, BEAD_SEAT],
};

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Tyre, Fork],
    inputs: &width_inputs(Fork),
    reasons: WIDTH_REASONS,
    judge: |given| width(given, Fork),
};

const BEAD_SEAT: Rule = Rule {
    code: "bead-seat",
    slots: &[Rim, Fork],
    inputs: &seat_inputs(Fork),
    reasons: SEAT_REASONS,
    judge: |given| bead_seat(given, Fork),
};
