//! # Lever on brake
//!
//! ## What it checks
//! Cable or fluid on both sides, and with a cable the pull class of lever and brake.
//!
//! ## Why it matters
//! A short-pull lever on a long-arm brake reaches the bar before the pads bite. A long-pull lever on a short-arm brake
//! feels firm in the stand and is too weak on the road. Both assemble without any trouble, and both are unsafe.
//!
//! ## Numbers
//! * Cable per full stroke: long about 15 mm (linear-pull rim brakes, mountain mechanical disc), short about 7 mm
//!   (cantilever, older road caliper, U-brake, roller, mini linear-pull), newer road about 8 mm.
//! * 7 against 8 mm is tolerable with care.
//!
//! ## Exceptions
//! * A pull-changing pulley joins the classes; it is a remedy, not a pass.
//! * Generations of one maker may be approved in one direction only: a stored statement of the maker decides then.
//!
//! ## Sources
//! Reference article on mechanical brake compatibility; a magazine article on lever feel.

use super::known;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Brake, BrakeLever};
use crate::part::word::{BrakeActuation, LeverPull};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "lever-on-brake",
    title: "Lever on brake",
    file: include_str!("lever_on_brake.rs"),
    source: "reference article on mechanical brake compatibility",
    rules: &[ACTUATION, PULL],
};

const CAUTION: &str = "a qualified mechanic checks lever travel and braking force before the first ride";

const SAME_WAY: Reason = Reason::fits("same-way", "lever and brake are worked in the same way");
const OTHER_WAY: Reason =
    Reason::no("other-way", "one is worked by cable, the other by fluid").injury().remedies(&[
        Remedy::replace(Kind::BrakeLever, "a lever that works as the brake does"),
        Remedy::replace(Kind::BrakeCaliper, "a brake that works as the lever does"),
    ]);

const ACTUATION: Rule = Rule {
    code: "actuation",
    slots: &[BrakeLever, Brake],
    inputs: &[(BrakeLever, attr::BRAKE_ACTUATION.attribute()), (Brake, attr::BRAKE_ACTUATION.attribute())],
    reasons: &[&SAME_WAY, &OTHER_WAY],
    judge: |given| {
        let lever = given.word(BrakeLever, attr::BRAKE_ACTUATION);
        let brake = given.word(Brake, attr::BRAKE_ACTUATION);
        say(if lever? == brake? { &SAME_WAY } else { &OTHER_WAY })
    },
};

const SAME_PULL: Reason =
    Reason::fits("same-pull", "the lever pulls the cable that the brake needs").note(CAUTION);
const NEAR_PULL: Reason = Reason::caveat(
    "near-pull",
    "7 and 8 mm of pull are near each other: tolerable with care, with the pads set close",
)
.injury()
.note(CAUTION);
const PULLS_TOO_LITTLE: Reason = Reason::no(
    "pulls-too-little",
    "the lever pulls too little cable for this brake: it reaches the bar before the pads bite",
)
.injury()
.remedies(&REMEDIES);
const PULLS_TOO_MUCH: Reason = Reason::no(
    "pulls-too-much",
    "the lever pulls too much cable for this brake: it feels firm in the stand and brakes too weakly on the road",
)
.injury()
.remedies(&REMEDIES);

const REMEDIES: [Remedy; 3] = [
    Remedy::act("cable-travel-pulley", "a pulley that changes the cable travel to what the brake needs"),
    Remedy::replace(Kind::BrakeCaliper, "a brake for the lever's pull, such as one with short arms"),
    Remedy::replace(Kind::BrakeLever, "a lever with the pull that the brake needs"),
];

const PULL: Rule = Rule {
    code: "pull",
    slots: &[BrakeLever, Brake],
    inputs: &[
        (BrakeLever, attr::BRAKE_ACTUATION.attribute()),
        (Brake, attr::BRAKE_ACTUATION.attribute()),
        (BrakeLever, attr::LEVER_PULL.attribute()),
        (Brake, attr::LEVER_PULL.attribute()),
    ],
    reasons: &[&SAME_PULL, &NEAR_PULL, &PULLS_TOO_LITTLE, &PULLS_TOO_MUCH],
    judge: |given| {
        for slot in [BrakeLever, Brake] {
            let hydraulic =
                known::word(given, slot, attr::BRAKE_ACTUATION) == Some(BrakeActuation::Hydraulic);
            if hydraulic || given.known_absent(slot, attr::LEVER_PULL) {
                return Err(Stop::Silent);
            }
        }
        let lever = given.word(BrakeLever, attr::LEVER_PULL);
        let brake = given.word(Brake, attr::LEVER_PULL);
        say(match (lever?, brake?) {
            (lever, brake) if lever == brake => &SAME_PULL,
            (LeverPull::Long, _) => &PULLS_TOO_MUCH,
            (_, LeverPull::Long) => &PULLS_TOO_LITTLE,
            _ => &NEAR_PULL,
        })
    },
};
