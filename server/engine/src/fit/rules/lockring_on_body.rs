//! # Lockring on body and cassette
//!
//! ## What it checks
//! The thread of the lockring against body and cassette, its flange against the smallest cog, and its torque.
//!
//! ## Why it matters
//! A lockring that does not hold lets the smallest cog walk out: it freewheels or jams against the frame.
//!
//! ## Numbers
//! * Threads are equal or do not go: nine-spline bodies 30.5 x 1 mm, eight-spline ones 27 x 1 or 26 x 1 mm.
//! * Flange: a ring for 11T goes on an 11T cog; one for 12T and more is too wide there, the chain climbs on it. A smaller
//!   flange on a larger cog holds with little overlap.
//! * Torque: 40 N.m nominal, 30 to 50 is usual; the value printed on the ring wins.
//!
//! ## Exceptions
//! * The 23-spline body has a ring of its own: its bore is too small for 30.5 mm.
//! * A lockring that bottoms on the body before it clamps means a missing spacer, not a wrong ring.
//!
//! ## Sources
//! Torque printed on rings, from a forum and a shop column seen as excerpts; threads and flanges from memory; the bore of
//! the 23-spline body computed.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Body, Cassette, Lockring};
use crate::part::of::Word;
use crate::part::units::Teeth;
use crate::part::word::LockringSize;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "lockring-on-body",
    title: "Lockring on body and cassette",
    file: include_str!("lockring_on_body.rs"),
    source: "torque printed on rings; threads and flanges from memory",
    rules: &[BODY_THREAD, CASSETTE_THREAD, FLANGE, TORQUE],
};

const RIGHT_RING: Remedy = Remedy::replace(Kind::Lockring, "the lockring of this body and this smallest cog");

// Thread.

const THREAD_RIGHT: Reason = Reason::fits("thread-right", "the lockring has the thread of the body").note(
    "tighten the lockring to the value printed on it, 40 N.m is nominal, on a lightly greased thread, then check that no cog rocks",
);
const THREAD_WRONG: Reason =
    Reason::no("thread-wrong", "the lockring has another thread than the body and does not hold")
        .injury()
        .remedies(&[RIGHT_RING]);

const BODY_THREAD: Rule = Rule {
    code: "body-thread",
    slots: &[Lockring, Body],
    inputs: &[(Lockring, attr::LOCKRING_THREAD.attribute()), (Body, attr::LOCKRING_THREAD.attribute())],
    reasons: &[&THREAD_RIGHT, &THREAD_WRONG],
    judge: |given| {
        let ring = given.key(Lockring, attr::LOCKRING_THREAD);
        let body = given.key(Body, attr::LOCKRING_THREAD);
        let (ring, body) = (ring?, body?);
        say(if given.accepts(body, ring) { &THREAD_RIGHT } else { &THREAD_WRONG })
    },
};

const CASSETTE_WANTS_OTHER: Reason =
    Reason::no("cassette-wants-another-thread", "the cassette is made for a lockring of another thread")
        .injury()
        .remedies(&[RIGHT_RING]);

const CASSETTE_THREAD: Rule = Rule {
    code: "cassette-thread",
    slots: &[Lockring, Cassette],
    inputs: &[(Lockring, attr::LOCKRING_THREAD.attribute()), (Cassette, attr::LOCKRING_THREAD.attribute())],
    reasons: &[&CASSETTE_WANTS_OTHER],
    // Few cassettes state it; the thread of the body is what decides.
    judge: |given| {
        if given.is_missing(Lockring, attr::LOCKRING_THREAD)
            || given.is_missing(Cassette, attr::LOCKRING_THREAD)
            || given.known_absent(Cassette, attr::LOCKRING_THREAD)
        {
            return Err(Stop::Silent);
        }
        let ring = given.key(Lockring, attr::LOCKRING_THREAD)?;
        let cassette = given.key(Cassette, attr::LOCKRING_THREAD)?;
        if ring == cassette { Err(Stop::Silent) } else { say(&CASSETTE_WANTS_OTHER) }
    },
};

// Flange.

const FLANGE_RIGHT: Reason = Reason::fits("flange-right", "the flange suits the smallest cog");
const FLANGE_SMALL: Reason = Reason::caveat(
    "flange-small",
    "the flange is made for a smaller cog than {cog}: it holds, with little overlap",
)
.remedies(&[RIGHT_RING]);
const FLANGE_LARGE: Reason =
    Reason::no("flange-large", "the flange is too wide for a cog of {cog}: the chain climbs on it")
        .injury()
        .remedies(&[RIGHT_RING]);

/// Smallest cog of the first size class: 10 teeth and fewer.
const FIRST_CLASS_COG: i64 = 10;
/// Smallest cog of the last size class: 12 teeth and more.
const LAST_CLASS_COG: i64 = 12;

const FLANGE: Rule = Rule {
    code: "flange",
    slots: &[Lockring, Cassette],
    inputs: &[(Lockring, attr::LOCKRING_SIZE.attribute()), (Cassette, attr::SMALLEST_COG.attribute())],
    reasons: &[&FLANGE_RIGHT, &FLANGE_SMALL, &FLANGE_LARGE],
    judge: |given| {
        let size = given.word(Lockring, attr::LOCKRING_SIZE);
        let cog = given.num(Cassette, attr::SMALLEST_COG);
        let (size, cog): (LockringSize, Num<Teeth>) = (size?, cog?);
        let class = |teeth: i64| teeth.clamp(FIRST_CLASS_COG, LAST_CLASS_COG) - FIRST_CLASS_COG;
        let step = Num::<Teeth>::exact(size.index()) - Num::between(class(cog.low), class(cog.high));
        let reason = if step.at_least(1)? {
            &FLANGE_LARGE
        } else if step.equals(0)? {
            &FLANGE_RIGHT
        } else {
            &FLANGE_SMALL
        };
        Ok(Judgement::from(reason).with("cog", cog))
    },
};

// Torque.

const TORQUE_PRINTED: Reason = Reason::fits("torque-printed", "the lockring is tightened to {torque}")
    .note("the lockring is tightened to the {torque} printed on it");
const TORQUE: Rule = Rule {
    code: "torque",
    slots: &[Lockring, Cassette],
    inputs: &[(Lockring, attr::TORQUE.attribute())],
    reasons: &[&TORQUE_PRINTED],
    // Where it is not known, the note beside the thread names the usual one.
    judge: |given| {
        let torque = given.known(Lockring, attr::TORQUE).ok_or(Stop::Silent)?;
        Ok(Judgement::from(&TORQUE_PRINTED).with("torque", torque))
    },
};
