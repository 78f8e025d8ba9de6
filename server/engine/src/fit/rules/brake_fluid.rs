//! # Brake fluid
//!
//! ## What it checks
//! The fluid class of lever and caliper, and within mineral oil the oil that the makers prescribe.
//!
//! ## Why it matters
//! Mineral-oil systems have other seals than glycol ones: the wrong fluid swells and destroys them and the brake
//! fails, often only after days.
//!
//! ## Numbers
//! * Glycol is one class: DOT 3, DOT 4 and DOT 5.1. DOT 5 is silicone and mixes with nothing.
//! * Mineral oils are not standardised: the maker's own oil is required. Oils of two makers, or low-viscosity and
//!   ordinary oil of one maker, are never more than a caveat.
//!
//! ## Exceptions
//! * A maker that sold both kinds: the kind is that of the model; where it is unknown nothing is confirmed.
//! * Hose fittings and olives are specific to a family and are not judged; nor are lever bore against piston area.
//!
//! ## Sources
//! Articles on brake fluids; hose fittings common practice.

use super::known;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Brake, BrakeLever};
use crate::part::word::{BrakeActuation, Fluid};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "brake-fluid",
    title: "Brake fluid of lever and caliper",
    file: include_str!("brake_fluid.rs"),
    source: "articles on brake fluids",
    rules: &[CLASS, OIL],
};

const CAUTION: &str =
    "the fluid printed on the lever lid decides; a qualified mechanic fills and bleeds the brake";

const REMEDIES: [Remedy; 2] = [
    Remedy::replace(Kind::BrakeCaliper, "a caliper of the lever's maker and fluid"),
    Remedy::replace(Kind::BrakeLever, "a lever of the caliper's maker and fluid"),
];

const SAME_CLASS: Reason =
    Reason::fits("same-class", "lever and caliper use the same class of fluid").note(CAUTION);
const OTHER_CLASS: Reason = Reason::no(
    "other-class",
    "lever and caliper use fluids of different classes: the wrong one destroys the seals and the brake fails",
)
.injury()
.remedies(&REMEDIES)
.note(CAUTION);

/// A cable on either side: fluid does not come into it, and the actuation is judged elsewhere.
fn hydraulic(given: &Given<'_>) -> Result<(), Stop> {
    let mut cable = given.known_absent(BrakeLever, attr::FLUID) || given.known_absent(Brake, attr::FLUID);
    for slot in [BrakeLever, Brake] {
        cable |= known::word(given, slot, attr::BRAKE_ACTUATION) == Some(BrakeActuation::Cable);
    }
    if cable { Err(Stop::Silent) } else { Ok(()) }
}

const CLASS: Rule = Rule {
    code: "class",
    slots: &[BrakeLever, Brake],
    inputs: &[
        (BrakeLever, attr::BRAKE_ACTUATION.attribute()),
        (Brake, attr::BRAKE_ACTUATION.attribute()),
        (BrakeLever, attr::FLUID.attribute()),
        (Brake, attr::FLUID.attribute()),
    ],
    reasons: &[&SAME_CLASS, &OTHER_CLASS],
    judge: |given| {
        hydraulic(given)?;
        let lever = given.word(BrakeLever, attr::FLUID);
        let brake = given.word(Brake, attr::FLUID);
        let same = class(lever?) == class(brake?);
        say(if same { &SAME_CLASS } else { &OTHER_CLASS })
    },
};

fn class(fluid: Fluid) -> Fluid {
    if fluid == Fluid::MineralLowViscosity { Fluid::Mineral } else { fluid }
}

const SAME_OIL: Reason =
    Reason::fits("same-oil", "lever and caliper are made for the same oil").note(CAUTION);
const OTHER_OIL: Reason = Reason::caveat(
    "other-oil",
    "both use mineral oil, but mineral oils are not standardised: these two are made for different ones",
)
.injury()
.strong()
.remedies(&REMEDIES)
.note(CAUTION);

const OIL: Rule = Rule {
    code: "mineral-oil",
    slots: &[BrakeLever, Brake],
    inputs: &[
        (BrakeLever, attr::BRAKE_ACTUATION.attribute()),
        (Brake, attr::BRAKE_ACTUATION.attribute()),
        (BrakeLever, attr::FLUID.attribute()),
        (Brake, attr::FLUID.attribute()),
        (BrakeLever, attr::FLUID_MAKER.attribute()),
        (Brake, attr::FLUID_MAKER.attribute()),
    ],
    reasons: &[&SAME_OIL, &OTHER_OIL],
    judge: |given| {
        hydraulic(given)?;
        let lever = given.word(BrakeLever, attr::FLUID);
        let brake = given.word(Brake, attr::FLUID);
        let (lever, brake) = (lever?, brake?);
        if class(lever) != Fluid::Mineral || class(brake) != Fluid::Mineral {
            return Err(Stop::Silent);
        }
        if lever != brake {
            return say(&OTHER_OIL);
        }
        let lever = given.free_key(BrakeLever, attr::FLUID_MAKER);
        let brake = given.free_key(Brake, attr::FLUID_MAKER);
        say(if lever? == brake? { &SAME_OIL } else { &OTHER_OIL })
    },
};
