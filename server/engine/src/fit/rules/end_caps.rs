//! # End caps in frame or fork
//!
//! ## What it checks
//! The width and axle that loose end caps make against the dropouts.
//!
//! ## Why it matters
//! Caps for another width or axle leave the wheel loose in its dropouts.
//!
//! ## Numbers
//! * Within 0.5 mm the width is the same (threshold reasoned, not a standard).
//!
//! ## Exceptions
//! * Caps are specific to a hub: whether they go on this one is the hub maker's list.
//!
//! ## Sources
//! Axle guides of a magazine, a wheel builder and shop blogs.

use super::hub_in_frame::width_inputs;
use crate::fit::Slot;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule};
use crate::fit::slot::Slot::{EndCaps, Fork, Frame};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "end-caps",
    title: "End caps in frame or fork",
    file: include_str!("end_caps.rs"),
    source: "axle guides of a magazine, a wheel builder and shop blogs",
    rules: &[IN_FRAME, IN_FORK],
};

const SUIT: Reason = Reason::fits("suit", "the end caps make the width and axle of the dropouts");
const OTHER: Reason =
    Reason::no("other", "the end caps make {width} where {need} is needed, or another axle")
        .injury()
        .remedies(&[Remedy::replace(
            Kind::EndCaps,
            "the caps that the hub maker lists for the width and axle of the dropouts",
        )]);

const IN_FRAME: Rule = Rule {
    code: "in-frame",
    slots: &[EndCaps, Frame],
    inputs: &width_inputs(EndCaps, Frame),
    reasons: &[&SUIT, &OTHER],
    judge: |given| suit(given, Frame),
};

const IN_FORK: Rule = Rule {
    code: "in-fork",
    slots: &[EndCaps, Fork],
    inputs: &width_inputs(EndCaps, Fork),
    reasons: &[&SUIT, &OTHER],
    judge: |given| suit(given, Fork),
};

fn suit(given: &Given<'_>, ends: Slot) -> Judged {
    let width = given.num(EndCaps, attr::OVER_LOCKNUT);
    let axle = given.key(EndCaps, attr::AXLE);
    let need = given.num(ends, attr::DROPOUT_WIDTH);
    let ends_axle = given.key(ends, attr::AXLE);
    let (width, axle, need, ends_axle) = (width?, axle?, need?, ends_axle?);
    let suit = given.accepts(ends_axle, axle) && (width - need).within(-500, 500)?;
    Ok(Judgement::from(if suit { &SUIT } else { &OTHER }).with("width", width).with("need", need))
}
