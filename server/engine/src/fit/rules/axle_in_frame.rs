//! # Thru-axle in frame
//!
//! ## What it checks
//! Diameter, thread pitch and length of a thru-axle against the frame, and its diameter against the hub.
//!
//! ## Why it matters
//! A thru-axle of the right diameter with another thread strips the frame or comes loose; a short one holds by a few
//! turns. Equal hub width says nothing of the axle.
//!
//! ## Numbers
//! * Thread pitches in use: 1.0, 1.5 and 1.75 mm; no mixing.
//! * Length under the head within 1 mm of what the frame takes (threshold reasoned, not a standard).
//!
//! ## Exceptions
//! * Quick-release skewers and nutted axles are judged by their standard alone.
//! * The shape under the head (flat, cone, washer) is not recorded: compare it with the old axle.
//!
//! ## Sources
//! Axle guides of a magazine, a wheel builder and shop blogs; pitches from memory.

use crate::fit::Slot;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{AnyHub, Axle, Frame};
use crate::part::interfaces::{AXLE_NUTTED, AXLE_QUICK_FRONT, AXLE_QUICK_REAR};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "axle-in-frame",
    title: "Thru-axle in frame",
    file: include_str!("axle_in_frame.rs"),
    source: "axle guides of a magazine, a wheel builder and shop blogs",
    rules: &[STANDARD, PITCH, LENGTH, HUB],
};

const AXLE: [Remedy; 1] = [Remedy::replace(
    Kind::Axle,
    "the axle that the maker of frame or fork lists: diameter, length, thread and head",
)];

pub(super) const SAME_AXLE: Reason = Reason::fits("same-axle", "the axle is of the standard of the dropouts");
pub(super) const OTHER_AXLE: Reason =
    Reason::no("other-axle", "the axle is of another standard than the dropouts").injury().remedies(&AXLE);
pub(super) const SAME_PITCH: Reason = Reason::fits("same-pitch", "the threads have the same pitch");
pub(super) const OTHER_PITCH: Reason = Reason::no(
    "other-pitch",
    "the axle has a pitch of {pitch}, the dropout one of {need}: it strips the thread or works loose",
)
.injury()
.remedies(&AXLE);
pub(super) const RIGHT_LENGTH: Reason =
    Reason::fits("right-length", "the axle has the length that is needed")
        .geometry()
        .note("compare the shape under the head with the old axle");
pub(super) const TOO_SHORT: Reason =
    Reason::no("too-short", "the axle is {short} too short: too few threads hold it")
        .geometry()
        .injury()
        .remedies(&AXLE);
pub(super) const TOO_LONG: Reason =
    Reason::no("too-long", "the axle is {over} too long: it bottoms or sticks out before it clamps")
        .geometry()
        .injury()
        .remedies(&AXLE);

/// Inputs of the standard of an axle in dropouts.
pub(super) const fn standard_inputs(ends: Slot) -> [Input; 2] {
    [(Axle, attr::AXLE.attribute()), (ends, attr::AXLE.attribute())]
}

/// Inputs of the thread of an axle in dropouts.
pub(super) const fn pitch_inputs(ends: Slot) -> [Input; 4] {
    let [axle, other] = standard_inputs(ends);
    [axle, other, (Axle, attr::THRU_AXLE_PITCH.attribute()), (ends, attr::THRU_AXLE_PITCH.attribute())]
}

/// Inputs of the length of an axle in dropouts.
pub(super) const fn length_inputs(ends: Slot) -> [Input; 4] {
    let [axle, other] = standard_inputs(ends);
    [axle, other, (Axle, attr::AXLE_LENGTH.attribute()), (ends, attr::AXLE_LENGTH.attribute())]
}

pub(super) const STANDARD_REASONS: &[&Reason] = &[&SAME_AXLE, &OTHER_AXLE];
pub(super) const PITCH_REASONS: &[&Reason] = &[&SAME_PITCH, &OTHER_PITCH];
pub(super) const LENGTH_REASONS: &[&Reason] = &[&RIGHT_LENGTH, &TOO_SHORT, &TOO_LONG];

const STANDARD: Rule = Rule {
    code: "standard",
    slots: &[Axle, Frame],
    inputs: &standard_inputs(Frame),
    reasons: STANDARD_REASONS,
    judge: |given| standard(given, Frame),
};

const PITCH: Rule = Rule {
    code: "thread",
    slots: &[Axle, Frame],
    inputs: &pitch_inputs(Frame),
    reasons: PITCH_REASONS,
    judge: |given| pitch(given, Frame),
};

const LENGTH: Rule = Rule {
    code: "length",
    slots: &[Axle, Frame],
    inputs: &length_inputs(Frame),
    reasons: LENGTH_REASONS,
    judge: |given| length(given, Frame),
};

const HUB: Rule = Rule {
    code: "in-hub",
    slots: &[Axle, AnyHub],
    inputs: &[(Axle, attr::AXLE.attribute()), (AnyHub, attr::AXLE.attribute())],
    reasons: STANDARD_REASONS,
    judge: |given| standard(given, AnyHub),
};

/// The axle against the standard of the dropouts.
pub(super) fn standard(given: &Given<'_>, ends: Slot) -> Judged {
    let axle = given.key(Axle, attr::AXLE);
    let need = given.key(ends, attr::AXLE);
    say(if given.accepts(need?, axle?) { &SAME_AXLE } else { &OTHER_AXLE })
}

/// Thread and length matter for thru-axles of the right standard only; the standard is judged by its own rule.
fn is_thru(given: &Given<'_>, ends: Slot) -> Result<(), Stop> {
    let axle = given.key(Axle, attr::AXLE);
    let need = given.key(ends, attr::AXLE);
    let (axle, need) = (axle?, need?);
    let open = matches!(given.name(axle), AXLE_QUICK_FRONT | AXLE_QUICK_REAR | AXLE_NUTTED);
    if open || !given.accepts(need, axle) { Err(Stop::Silent) } else { Ok(()) }
}

/// The thread of the axle against the dropout's.
pub(super) fn pitch(given: &Given<'_>, ends: Slot) -> Judged {
    is_thru(given, ends)?;
    let pitch = given.num(Axle, attr::THRU_AXLE_PITCH);
    let need = given.num(ends, attr::THRU_AXLE_PITCH);
    let (pitch, need) = (pitch?, need?);
    let reason = if (pitch - need).equals(0)? { &SAME_PITCH } else { &OTHER_PITCH };
    Ok(Judgement::from(reason).with("pitch", pitch).with("need", need))
}

/// The length of the axle against what the dropouts take.
pub(super) fn length(given: &Given<'_>, ends: Slot) -> Judged {
    is_thru(given, ends)?;
    let length = given.num(Axle, attr::AXLE_LENGTH);
    let need = given.num(ends, attr::AXLE_LENGTH);
    let (length, need) = (length?, need?);
    let over = length - need;
    let reason = if over.at_most(-1_001)? {
        &TOO_SHORT
    } else if over.at_most(1_000)? {
        &RIGHT_LENGTH
    } else {
        &TOO_LONG
    };
    Ok(Judgement::from(reason).with("need", need).with("short", -over).with("over", over))
}
