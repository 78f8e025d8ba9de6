//! # Ring beside the stay
//!
//! ## What it checks
//! The largest ring against what the frame maker says clears the stay: alone, or as the outer of several.
//!
//! ## Why it matters
//! A ring or its chain that touches the stay saws through it.
//!
//! ## Numbers
//! * Makers' limits hold at a chainline; each millimetre of chainline further in costs room. At least 3 mm stay free
//!   between ring or chain and stay.
//!
//! ## Exceptions
//! * A two-speed crank in overdrive counts with its real teeth, not with the larger ring that it stands for.
//!
//! ## Sources
//! Chainline articles (3 mm); frame makers' limits.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule};
use crate::fit::slot::Slot::{Frame, Rings};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "ring-clearance",
    title: "Ring beside the stay",
    file: include_str!("ring_clearance.rs"),
    source: "frame makers' limits; chainline articles",
    rules: &[CLEARANCE],
};

const CLEARS: Reason = Reason::fits("clears", "the ring is within what clears the frame")
    .limit()
    .note("keep 3 mm between ring or chain and stay");
const TOO_LARGE: Reason =
    Reason::no("too-large", "the ring of {ring} is {over} over the {limit} that clears the frame")
        .limit()
        .damage()
        .remedies(&[
            Remedy::replace(Kind::Chainring, "a ring of {limit} or less"),
            Remedy::replace(
                Kind::Crankset,
                "a crank with a chainline further out, if the frame maker allows it",
            ),
        ]);

const CLEARANCE: Rule = Rule {
    code: "clearance",
    slots: &[Rings, Frame],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (Frame, attr::MAX_SINGLE_RING.attribute()),
        (Frame, attr::MAX_OUTER_RING.attribute()),
    ],
    reasons: &[&CLEARS, &TOO_LARGE],
    judge: clearance,
};

fn clearance(given: &Given<'_>) -> Judged {
    let count = given.num(Rings, attr::RING_COUNT);
    let ring = given.num(Rings, attr::LARGEST_RING);
    let alone = count?.equals(1)?;
    let limit = given.num(Frame, if alone { attr::MAX_SINGLE_RING } else { attr::MAX_OUTER_RING });
    let (ring, limit) = (ring?, limit?);
    let over = ring - limit;
    let reason = if over.at_most(0)? { &CLEARS } else { &TOO_LARGE };
    Ok(Judgement::from(reason).with("ring", ring).with("limit", limit).with("over", over))
}
