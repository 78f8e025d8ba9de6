//! # Pads in brake
//!
//! ## What it checks
//! The outline or holder of the pads, their compound against the rotor, and their compound against the rim.
//!
//! ## Why it matters
//! Pads made for light alloy overheat and tear a carbon track; sintered pads wear a rotor that allows resin only, and
//! either fails without warning.
//!
//! ## Numbers
//! None: outlines and compounds are equal, allowed or not.
//!
//! ## Exceptions
//! * Finned and unfinned pads of one outline interchange; four-piston outlines differ from two-piston ones: the key is
//!   the outline.
//! * Carbon pads on an aluminium track work, but never go back on carbon: metal chips stay in them.
//! * Steel rims take the pads made for aluminium.
//!
//! ## Sources
//! Pad guides; rim pads common practice.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Brake, BrakePads, Rim, Rotor};
use crate::part::word::{PadCompound, RimMaterial};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "pads-in-brake",
    title: "Pads in brake",
    file: include_str!("pads_in_brake.rs"),
    source: "pad guides",
    rules: &[SHAPE, ON_ROTOR, ON_RIM],
};

const BED_IN: &str = "bed new pads in with repeated light stops before relying on the brake";

const SAME_SHAPE: Reason =
    Reason::fits("same-shape", "the pads have the outline or holder that the brake takes");
const OTHER_SHAPE: Reason = Reason::no("other-shape", "the pads have another outline or holder")
    .injury()
    .remedies(&[Remedy::replace(Kind::BrakePads, "pads of the brake's own outline")]);

const SHAPE: Rule = Rule {
    code: "shape",
    slots: &[BrakePads, Brake],
    inputs: &[(BrakePads, attr::PAD_SHAPE.attribute()), (Brake, attr::PAD_SHAPE.attribute())],
    reasons: &[&SAME_SHAPE, &OTHER_SHAPE],
    judge: |given| {
        let pads = given.free_key(BrakePads, attr::PAD_SHAPE);
        let brake = given.free_key(Brake, attr::PAD_SHAPE);
        say(if pads? == brake? { &SAME_SHAPE } else { &OTHER_SHAPE })
    },
};

const ROTOR_ALLOWS: Reason =
    Reason::fits("rotor-allows", "the rotor allows the compound of the pads").note(BED_IN);
const RESIN_ONLY: Reason =
    Reason::no("resin-only", "the rotor is marked for resin pads only").injury().remedies(&[
        Remedy::replace(Kind::BrakePads, "resin pads"),
        Remedy::replace(Kind::Rotor, "a rotor that allows metal pads"),
    ]);

const ON_ROTOR: Rule = Rule {
    code: "on-rotor",
    slots: &[BrakePads, Rotor],
    inputs: &[(BrakePads, attr::PAD_COMPOUND.attribute()), (Rotor, attr::RESIN_ONLY.attribute())],
    reasons: &[&ROTOR_ALLOWS, &RESIN_ONLY],
    judge: |given| match given.word(BrakePads, attr::PAD_COMPOUND)? {
        PadCompound::Resin => say(&ROTOR_ALLOWS),
        // Rim pads do not meet a rotor; their holder is judged by the shape.
        PadCompound::RimAluminium | PadCompound::RimCarbon => Err(Stop::Silent),
        PadCompound::Sintered | PadCompound::SemiMetallic => {
            let resin_only = given.flag(Rotor, attr::RESIN_ONLY)?;
            say(if resin_only { &RESIN_ONLY } else { &ROTOR_ALLOWS })
        }
    },
};

const RIM_SUITS: Reason =
    Reason::fits("rim-suits", "the pads are made for the material of the brake track").note(BED_IN);
const BURNS_CARBON: Reason = Reason::no(
    "aluminium-pads-on-carbon",
    "pads made for aluminium overheat a carbon track: it can fail at speed",
)
.injury()
.remedies(&[Remedy::replace(Kind::BrakePads, "pads that the rim maker lists for its carbon track")]);
const CHIPS: Reason = Reason::caveat(
    "carbon-pads-on-metal",
    "carbon pads work on a metal track but wear fast; never put them back on carbon afterwards, metal chips stay in them",
)
.injury();

const ON_RIM: Rule = Rule {
    code: "on-rim",
    slots: &[BrakePads, Rim],
    inputs: &[(BrakePads, attr::PAD_COMPOUND.attribute()), (Rim, attr::RIM_MATERIAL.attribute())],
    reasons: &[&RIM_SUITS, &BURNS_CARBON, &CHIPS],
    judge: |given| {
        let compound = given.word(BrakePads, attr::PAD_COMPOUND)?;
        // Disc pads do not meet the rim; a disc rim has no brake track.
        let rim_pads = matches!(compound, PadCompound::RimAluminium | PadCompound::RimCarbon);
        if !rim_pads || given.known_absent(Rim, attr::RIM_MATERIAL) {
            return Err(Stop::Silent);
        }
        say(match (compound, given.word(Rim, attr::RIM_MATERIAL)?) {
            (PadCompound::RimAluminium, RimMaterial::Carbon) => &BURNS_CARBON,
            (PadCompound::RimCarbon, RimMaterial::Aluminium | RimMaterial::Steel) => &CHIPS,
            _ => &RIM_SUITS,
        })
    },
};
