//! # Tyre in frame
//!
//! ## What it checks
//! The width of the tyre against the widest that the frame maker allows, and the bead seat of the rim against the one
//! that the frame was made for.
//!
//! ## Why it matters
//! A tyre that touches a stay wears through it, and a stone or a buckle can stop the wheel. Another wheel size moves the
//! brake track, the height of the bottom bracket and the room around the tyre.
//!
//! ## Numbers
//! * A printed greatest width already contains the gap: 4 mm each side and at the top on racing bicycles, 6 mm on
//!   others. It is never subtracted twice.
//! * Real width grows by about 0.4 to 0.5 mm per millimetre of extra rim width: measure the inflated tyre when the
//!   limit was measured and not printed.
//!
//! ## Exceptions
//! * Mudguards need the same gap to the guard and are not judged.
//! * A smaller wheel has the room; whether a larger one has is measured on the bike.
//!
//! ## Sources
//! EN 14781, clause 4.10.2, quoted on a forum (4 mm); a page gives 6 mm as the ISO 4210 figure; growth common practice.

use crate::fit::Slot;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule};
use crate::fit::slot::Slot::{Frame, Rim, Tyre};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "tyre-in-frame",
    title: "Tyre in frame",
    file: include_str!("tyre_in_frame.rs"),
    source: "EN 14781 clause 4.10.2 as quoted on a forum; frame makers' limits",
    rules: &[WIDTH, BEAD_SEAT],
};

const ROOM: Reason = Reason::fits("room", "the tyre is within the width that the maker allows")
    .limit()
    .note("check the gap on each side and at the top with the tyre inflated");
const NO_ROOM: Reason =
    Reason::no("no-room", "the tyre is {over} wider than the {limit} that the maker allows, gap included")
        .limit()
        .damage()
        .remedies(&[Remedy::replace(Kind::Tyre, "a tyre of {limit} or less")]);

pub(super) const WIDTH_REASONS: &[&Reason] = &[&ROOM, &NO_ROOM];

/// Inputs of the room for a tyre.
pub(super) const fn width_inputs(ends: Slot) -> [Input; 2] {
    [(Tyre, attr::TYRE_WIDTH.attribute()), (ends, attr::MAX_TYRE.attribute())]
}

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Tyre, Frame],
    inputs: &width_inputs(Frame),
    reasons: WIDTH_REASONS,
    judge: |given| width(given, Frame),
};

/// The tyre against the greatest width.
pub(super) fn width(given: &Given<'_>, ends: Slot) -> Judged {
    let tyre = given.num(Tyre, attr::TYRE_WIDTH);
    let limit = given.num(ends, attr::MAX_TYRE);
    let (tyre, limit) = (tyre?, limit?);
    let over = tyre - limit;
    let reason = if over.at_most(0)? { &ROOM } else { &NO_ROOM };
    Ok(Judgement::from(reason).with("tyre", tyre).with("limit", limit).with("over", over))
}

const SAME_SIZE: Reason =
    Reason::fits("same-size", "the rim has the bead seat that frame or fork were made for").geometry();
const SMALLER: Reason = Reason::caveat(
    "smaller-wheel",
    "the rim is {move} smaller in radius: the bike sits lower, and a rim brake must reach further down",
)
.geometry();
const LARGER: Reason = Reason::unclear(
    "larger-wheel",
    "the rim is larger in radius than frame or fork were made for: measure the room with the tyre on",
)
.geometry()
.damage();

pub(super) const SEAT_REASONS: &[&Reason] = &[&SAME_SIZE, &SMALLER, &LARGER];

/// Inputs of the wheel size.
pub(super) const fn seat_inputs(ends: Slot) -> [Input; 2] {
    [(Rim, attr::BEAD_SEAT.attribute()), (ends, attr::BEAD_SEAT.attribute())]
}

const BEAD_SEAT: Rule = Rule {
    code: "bead-seat",
    slots: &[Rim, Frame],
    inputs: &seat_inputs(Frame),
    reasons: SEAT_REASONS,
    judge: |given| bead_seat(given, Frame),
};

/// The wheel size against the one that frame or fork were made for.
pub(super) fn bead_seat(given: &Given<'_>, ends: Slot) -> Judged {
    let rim = given.num(Rim, attr::BEAD_SEAT);
    let made_for = given.num(ends, attr::BEAD_SEAT);
    let smaller = made_for? - rim?;
    let reason = if smaller.equals(0)? {
        &SAME_SIZE
    } else if smaller.at_least(1)? {
        &SMALLER
    } else {
        &LARGER
    };
    Ok(Judgement::from(reason).with("move", smaller.over(2)))
}
