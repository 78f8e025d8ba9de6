//! # Pedals on crank
//!
//! ## What it checks
//! The thread of the pedal axle against the thread in the crank.
//!
//! ## Why it matters
//! A pedal of another thread strips the arm or breaks out under the rider.
//!
//! ## Numbers
//! * 9/16 in x 20 tpi on three-piece cranks, 1/2 in x 20 tpi on one-piece cranks, 14 x 1.25 mm on old French ones.
//!
//! ## Exceptions
//! * The left pedal has a left-hand thread; the pair is not interchangeable from side to side.
//!
//! ## Sources
//! Common practice, no source.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Mating, Rule, say};
use crate::fit::slot::Slot::{Crankset, Pedal};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "pedal-on-crank",
    title: "Pedals on crank",
    file: include_str!("pedal_on_crank.rs"),
    source: "common practice, no source",
    rules: &[THREAD],
};

const SAME: Reason = Reason::fits("same-thread", "the crank has the thread of the pedals")
    .note("right pedal right-hand thread, left pedal left-hand thread; grease and start by hand");
const OTHER: Reason =
    Reason::no("other-thread", "the crank has another thread than the pedals: never force them")
        .injury()
        .remedies(&[Remedy::replace(Kind::Pedal, "pedals with the thread of the crank")]);

const THREAD: Rule = Rule {
    code: "thread",
    slots: &[Pedal, Crankset],
    inputs: &[(Pedal, attr::PEDAL_THREAD.attribute()), (Crankset, attr::PEDAL_THREAD.attribute())],
    reasons: &[&SAME, &OTHER],
    judge: |given| {
        let pedal = given.key(Pedal, attr::PEDAL_THREAD);
        let crank = given.key(Crankset, attr::PEDAL_THREAD);
        say(if given.accepts(crank?, pedal?) { &SAME } else { &OTHER })
    },
};
