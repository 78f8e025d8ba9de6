//! # Thru-axle in fork
//!
//! ## What it checks
//! Diameter, thread pitch and length of a thru-axle against the fork.
//!
//! ## Why it matters
//! A front axle that works loose lets the wheel out. Hub width and diameter do not tell its thread or length.
//!
//! ## Numbers
//! Those of "thru-axle in frame".
//!
//! ## Sources
//! Axle guides of a magazine, a wheel builder and shop blogs; pitches from memory.

use super::axle_in_frame::{
    LENGTH_REASONS, PITCH_REASONS, STANDARD_REASONS, length, length_inputs, pitch, pitch_inputs, standard,
    standard_inputs,
};
use crate::fit::rule::{Mating, Rule};
use crate::fit::slot::Slot::{Axle, Fork};

/// The mating.
pub const MATING: Mating = Mating {
    code: "axle-in-fork",
    title: "Thru-axle in fork",
    file: include_str!("axle_in_fork.rs"),
    source: "axle guides of a magazine, a wheel builder and shop blogs",
    rules: &[STANDARD, PITCH, LENGTH],
};

const STANDARD: Rule = Rule {
    code: "standard",
    slots: &[Axle, Fork],
    inputs: &standard_inputs(Fork),
    reasons: STANDARD_REASONS,
    judge: |given| standard(given, Fork),
};

const PITCH: Rule = Rule {
    code: "thread",
    slots: &[Axle, Fork],
    inputs: &pitch_inputs(Fork),
    reasons: PITCH_REASONS,
    judge: |given| pitch(given, Fork),
};

const LENGTH: Rule = Rule {
    code: "length",
    slots: &[Axle, Fork],
    inputs: &length_inputs(Fork),
    reasons: LENGTH_REASONS,
    judge: |given| length(given, Fork),
};
