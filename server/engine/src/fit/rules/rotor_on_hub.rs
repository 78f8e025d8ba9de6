//! # Rotor on hub
//!
//! ## What it checks
//! The seat of the rotor on the hub, and the largest rotor that the hub maker allows, where one is stated.
//!
//! ## Why it matters
//! A rotor that is not seated, or larger than the hub's spokes and seat are made for, takes the brake away.
//!
//! ## Numbers
//! * Six bolts M5 on a 44 mm circle, or splines with a lockring.
//!
//! ## Exceptions
//! * One way: a six-bolt rotor goes on a splined seat with an adapter; a splined rotor never goes on six bolts.
//! * The lockring has an internal tool fitting up to 12 mm axles and external notches with 15 and 20 mm ones; the pins
//!   of some adapters touch the notched ring.
//!
//! ## Sources
//! Articles on rotor and hub interfaces; SAE J2696:2012 standardises them (abstract only seen); circle from memory.

use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{AnyHub, Hub, Rotor};
use crate::part::interfaces::{ROTOR_SIX_BOLT, ROTOR_SPLINED};
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "rotor-on-hub",
    title: "Rotor on hub",
    file: include_str!("rotor_on_hub.rs"),
    source: "articles on rotor and hub interfaces",
    rules: &[SEAT, SIZE],
};

const ROTOR: [Remedy; 2] = [
    Remedy::replace(Kind::Rotor, "a rotor for the seat of this hub"),
    Remedy::replace(Kind::Wheel, "a wheel with the seat of this rotor"),
];

const SEATED: Reason = Reason::fits("seated", "the hub has the seat of the rotor")
    .note("rotor bolts and lockrings to the torque printed on them; keep rotor and pads free of grease");
const ADAPTER: Reason = Reason::extra(
    "six-bolt-on-splines",
    "a six-bolt rotor goes on the splined seat with an adapter and a lockring",
    &[Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("rotor-adapter"))])],
)
.injury()
.note("with a 15 or 20 mm axle take the externally notched lockring, and check that the adapter's pins clear it");
const NO_WAY: Reason =
    Reason::no("other-seat", "the rotor does not go on the seat of this hub, and no adapter makes it")
        .injury()
        .remedies(&ROTOR);
const NO_SEAT: Reason = Reason::no("no-seat", "the hub is made for a rim brake and has no rotor seat")
    .injury()
    .remedies(&[Remedy::replace(Kind::Wheel, "a wheel whose hub has a rotor seat")]);

const SEAT: Rule = Rule {
    code: "seat",
    slots: &[Rotor, AnyHub],
    inputs: &[(Rotor, attr::ROTOR_MOUNT.attribute()), (AnyHub, attr::ROTOR_MOUNT.attribute())],
    reasons: &[&SEATED, &ADAPTER, &NO_WAY, &NO_SEAT],
    judge: |given| {
        if given.known_absent(AnyHub, attr::ROTOR_MOUNT) {
            return say(&NO_SEAT);
        }
        let rotor = given.key(Rotor, attr::ROTOR_MOUNT);
        let hub = given.key(AnyHub, attr::ROTOR_MOUNT);
        let (rotor, hub) = (rotor?, hub?);
        if given.accepts(hub, rotor) {
            return say(&SEATED);
        }
        let adaptable = given.name(rotor) == ROTOR_SIX_BOLT && given.name(hub) == ROTOR_SPLINED;
        say(if adaptable { &ADAPTER } else { &NO_WAY })
    },
};

const ALLOWED: Reason = Reason::fits("allowed", "the hub maker allows this rotor").limit();
const OVER: Reason =
    Reason::no("over-limit", "the rotor of {rotor} is over the {limit} that the hub maker allows")
        .limit()
        .injury()
        .remedies(&[Remedy::replace(Kind::Rotor, "a rotor of {limit} or less")]);

const SIZE: Rule = Rule {
    code: "size",
    slots: &[Rotor, Hub],
    inputs: &[(Rotor, attr::ROTOR.attribute()), (Hub, attr::MAX_ROTOR.attribute())],
    reasons: &[&ALLOWED, &OVER],
    // Most hub makers state no limit; silent unless one is stated.
    judge: |given| {
        let limit = given.known(Hub, attr::MAX_ROTOR).ok_or(Stop::Silent)?;
        let rotor = given.num(Rotor, attr::ROTOR)?;
        let reason = if (rotor - limit).at_most(0)? { &ALLOWED } else { &OVER };
        Ok(Judgement::from(reason).with("rotor", rotor).with("limit", limit))
    },
};
