//! # Rotor in caliper
//!
//! ## What it checks
//! The thickness of the rotor against the one that the caliper is made for.
//!
//! ## Why it matters
//! A thin rotor lets the pistons travel further; a thick one may not run free between new pads.
//!
//! ## Numbers
//! * 1.8 mm is usual, some calipers are made for 2.0 mm; within 0.1 mm the thickness is the same (threshold reasoned).
//! * The rotor's own least thickness, often 1.5 to 1.8 mm, is printed on it.
//!
//! ## Sources
//! From memory.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Judgement, Mating, Rule};
use crate::fit::slot::Slot::{Brake, Rotor};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "rotor-in-caliper",
    title: "Rotor in caliper",
    file: include_str!("rotor_in_caliper.rs"),
    source: "from memory",
    rules: &[THICKNESS],
};

const RIGHT: Reason = Reason::fits("right", "the caliper is made for this rotor thickness")
    .geometry()
    .note("replace the rotor at the least thickness printed on it");
const THIN: Reason = Reason::caveat(
    "thin",
    "the rotor is {short} thinner than the caliper is made for: the pads travel further and wear must be watched",
)
.geometry()
.damage();
const THICK: Reason = Reason::unclear(
    "thick",
    "the rotor is {over} thicker than the caliper is made for: ask whether its maker lists the pair",
)
.geometry()
.damage()
.remedies(&[Remedy::replace(Kind::Rotor, "a rotor of the thickness that the caliper is made for")]);

const THICKNESS: Rule = Rule {
    code: "thickness",
    slots: &[Rotor, Brake],
    inputs: &[(Rotor, attr::ROTOR_THICKNESS.attribute()), (Brake, attr::ROTOR_THICKNESS.attribute())],
    reasons: &[&RIGHT, &THIN, &THICK],
    judge: |given| {
        let rotor = given.num(Rotor, attr::ROTOR_THICKNESS);
        let caliper = given.num(Brake, attr::ROTOR_THICKNESS);
        let over = rotor? - caliper?;
        let reason = if over.at_most(-101)? {
            &THIN
        } else if over.at_most(100)? {
            &RIGHT
        } else {
            &THICK
        };
        Ok(Judgement::from(reason).with("short", -over).with("over", over))
    },
};
