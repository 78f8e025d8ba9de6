//! # Drivetrain under motor and load
//!
//! ## What it checks
//! Parts that wear or fail sooner under a motor at the cranks, a tandem or a heavy load.
//!
//! ## Why it matters
//! A motor at the cranks drives the chain with more than the rider's torque: chains last about half as long, and a chain
//! or ratchet that fails under it throws the rider.
//!
//! ## Numbers
//! * A load counts from more than 160 kg of bike, rider and load together (threshold reasoned, not a standard).
//! * Smallest cogs of 10 teeth and fewer wear first.
//!
//! ## Exceptions
//! * A hub motor leaves the chain as on an ordinary bike.
//! * Bikes with help beyond 25 km/h are motor vehicles, derailleur and shifter included; the other cautions on approval
//!   are those of "e-bike approval".
//! * No recognised standard grades chains by torque: "e-bike rated" is a maker's claim.
//!
//! ## Sources
//! Riders' reports and a first ride of a thick-cog group, seen as excerpts; a guideline of German trade associations on
//! pedelecs, seen as an excerpt; common practice, no source.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Body, Cassette, Chain, Cogs, Freewheel, RearDerailleur, RearShifter, Use};
use crate::part::interfaces::PROFILE_THICK;
use crate::part::word::{BodyMaterial, CogFixing};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "motor-and-load",
    title: "Drivetrain under motor and load",
    file: include_str!("motor_and_load.rs"),
    source: "riders' reports and a trade guideline, seen as excerpts; common practice",
    rules: &[
        SOFT_SPLINES,
        LIGHT_COGS,
        PLAIN_CHAIN,
        SMALL_COG,
        MULTI_SHIFT,
        THICK_COGS,
        APPROVAL_FREEWHEEL,
        APPROVAL_DERAILLEUR,
        APPROVAL_SHIFTER,
    ],
};

const MID_MOTOR: Input = (Use, attr::MID_MOTOR.attribute());
const SYSTEM_MASS: Input = (Use, attr::SYSTEM_MASS.attribute());
const TANDEM: Input = (Use, attr::TANDEM.attribute());
const ASSIST_LIMIT: Input = (Use, attr::ASSIST_LIMIT.attribute());

/// More than this in all counts as a load.
const LOADED_MASS_KG: i64 = 160;

/// Known to carry a motor at the cranks or a load. Everything here is a drawback of known facts, never a question.
fn loaded(given: &Given<'_>) -> Result<(), Stop> {
    let mass = given.known(Use, attr::SYSTEM_MASS).map(|mass| mass.at_least(LOADED_MASS_KG + 1));
    if given.is_known(Use, attr::MID_MOTOR) || mass == Some(Ok(true)) { Ok(()) } else { Err(Stop::Silent) }
}

fn only_if(known: bool, reason: &'static Reason) -> Judged {
    if known { say(reason) } else { Err(Stop::Silent) }
}

// Wear and strength.

const SPLINES_SHEAR: Reason = Reason::caveat(
    "loose-cogs-on-soft-splines-under-load",
    "loose cogs on light-alloy splines under a motor, a tandem or a load: notches are certain, and splines have been seen to shear",
)
.damage()
.strong()
.remedies(&[
    Remedy::replace(Kind::Cassette, "a cassette with cogs on carriers or in one piece"),
    Remedy::replace(Kind::FreehubBody, "a steel body, if the hub maker offers one for this very hub"),
]);

const SOFT_SPLINES: Rule = Rule {
    code: "soft-splines",
    slots: &[Cassette, Body, Use],
    inputs: &[
        (Cassette, attr::COG_FIXING.attribute()),
        (Body, attr::BODY_MATERIAL.attribute()),
        MID_MOTOR,
        SYSTEM_MASS,
        TANDEM,
    ],
    reasons: &[&SPLINES_SHEAR],
    judge: |given| {
        if !given.is_known(Use, attr::TANDEM) {
            loaded(given)?;
        }
        if given.is_missing(Cassette, attr::COG_FIXING) || given.is_missing(Body, attr::BODY_MATERIAL) {
            return Err(Stop::Silent);
        }
        let loose = given.word(Cassette, attr::COG_FIXING)? == CogFixing::Loose;
        let soft = given.word(Body, attr::BODY_MATERIAL)? == BodyMaterial::LightAlloy;
        only_if(loose && soft, &SPLINES_SHEAR)
    },
};

const LIGHT_COGS_WEAR: Reason =
    Reason::caveat("light-alloy-cogs-under-load", "light-alloy cogs wear quickly under a motor or a load");

const LIGHT_COGS: Rule = Rule {
    code: "light-alloy-cogs",
    slots: &[Cassette, Use],
    inputs: &[(Cassette, attr::LIGHT_ALLOY_COGS.attribute()), MID_MOTOR, SYSTEM_MASS],
    reasons: &[&LIGHT_COGS_WEAR],
    judge: |given| {
        loaded(given)?;
        only_if(given.is_known(Cassette, attr::LIGHT_ALLOY_COGS), &LIGHT_COGS_WEAR)
    },
};

const CHAIN_WEARS: Reason = Reason::caveat(
    "chain-not-rated-under-load",
    "the maker does not rate the chain for motors: it wears sooner under one, or under a load",
);

const PLAIN_CHAIN: Rule = Rule {
    code: "chain-rating",
    slots: &[Chain, Use],
    inputs: &[(Chain, attr::E_BIKE_RATED.attribute()), MID_MOTOR, SYSTEM_MASS],
    reasons: &[&CHAIN_WEARS],
    judge: |given| {
        loaded(given)?;
        let plain = !given.is_missing(Chain, attr::E_BIKE_RATED)
            && given.flag(Chain, attr::E_BIKE_RATED) == Ok(false);
        only_if(plain, &CHAIN_WEARS)
    },
};

/// Cogs up to this wear first.
const SMALL_COG_TEETH: i64 = 10;

const SMALL_COG_WEARS: Reason =
    Reason::caveat("small-cog-under-load", "cogs of 10 teeth and fewer wear quickly under a motor or a load");

const SMALL_COG: Rule = Rule {
    code: "smallest-cog",
    slots: &[Cogs, Use],
    inputs: &[(Cogs, attr::SMALLEST_COG.attribute()), MID_MOTOR, SYSTEM_MASS],
    reasons: &[&SMALL_COG_WEARS],
    judge: |given| {
        loaded(given)?;
        let cog = given.known(Cogs, attr::SMALLEST_COG).ok_or(Stop::Silent)?;
        only_if(cog.at_most(SMALL_COG_TEETH)?, &SMALL_COG_WEARS)
    },
};

const SHIFTS_ACROSS: Reason = Reason::caveat(
    "multi-shift-with-motor",
    "the lever moves several cogs per stroke: shifting across cogs under motor torque breaks chains",
)
.damage()
.remedies(&[
    Remedy::act("shift-singly", "shifting one cog at a time with the pedals eased"),
    Remedy::replace(Kind::RearShifter, "a shifter of the same group that moves one cog per stroke"),
]);

const MULTI_SHIFT: Rule = Rule {
    code: "multi-shift",
    slots: &[RearShifter, Use],
    inputs: &[(RearShifter, attr::MULTI_SHIFT.attribute()), MID_MOTOR],
    reasons: &[&SHIFTS_ACROSS],
    judge: |given| {
        let motor = given.is_known(Use, attr::MID_MOTOR);
        only_if(motor && given.is_known(RearShifter, attr::MULTI_SHIFT), &SHIFTS_ACROSS)
    },
};

const HEAVY_COGS: Reason = Reason::fits(
    "thick-cogs-heavy",
    "thick cogs last longer and weigh some 200 g more than a light 12-speed set",
);

const THICK_COGS: Rule = Rule {
    code: "thick-cogs",
    slots: &[Cogs, Use],
    inputs: &[(Cogs, attr::CHAIN_PROFILE.attribute()), MID_MOTOR, SYSTEM_MASS],
    reasons: &[&HEAVY_COGS],
    judge: |given| {
        loaded(given)?;
        if given.is_missing(Cogs, attr::CHAIN_PROFILE) || given.known_absent(Cogs, attr::CHAIN_PROFILE) {
            return Err(Stop::Silent);
        }
        only_if(given.name(given.key(Cogs, attr::CHAIN_PROFILE)?) == PROFILE_THICK, &HEAVY_COGS)
    },
};

// Approval of the parts that "e-bike approval" leaves free up to 25 km/h.

/// Up to this the bike is an ordinary one with a motor that helps.
const PEDELEC_KMH: i64 = 25;

const TYPE_APPROVAL: Reason = Reason::fits(
    "type-approval",
    "a bike with help beyond 25 km/h is a motor vehicle: only original parts, or parts with a certificate for it",
)
.note("legal caution: another part ends the type approval");

fn approval(given: &Given<'_>) -> Judged {
    let limit = given.known(Use, attr::ASSIST_LIMIT).ok_or(Stop::Silent)?;
    only_if(limit.at_least(PEDELEC_KMH + 1)?, &TYPE_APPROVAL)
}

macro_rules! approvals {
    ($($name:ident = $code:literal, $slot:ident;)*) => {$(
        const $name: Rule = Rule {
            code: $code,
            slots: &[$slot, Use],
            inputs: &[ASSIST_LIMIT],
            reasons: &[&TYPE_APPROVAL],
            judge: approval,
        };
    )*};
}

approvals! {
    APPROVAL_FREEWHEEL = "type-approval-freewheel", Freewheel;
    APPROVAL_DERAILLEUR = "type-approval-derailleur", RearDerailleur;
    APPROVAL_SHIFTER = "type-approval-shifter", RearShifter;
}
