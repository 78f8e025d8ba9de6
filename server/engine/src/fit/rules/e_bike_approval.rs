//! # E-bike approval
//!
//! ## What it checks
//! Who must approve a part on a bike with a motor, and the rating of tyres on fast ones.
//!
//! ## Why it matters
//! A part that fits may still end the vehicle's approval. These findings are legal cautions beside the verdict, not a
//! matter of fit; only the rating of the tyre is.
//!
//! ## Numbers
//! * Help up to 25 km/h: frame, fork, brake system and a wheel with hub motor need the vehicle maker's approval; crank,
//!   wheel without motor, chain and tyres that of the vehicle's or the part's maker; rings, cassettes and sprockets are
//!   free within the sizes of the series.
//! * Help beyond 25 km/h: the bike is a motor vehicle; only original parts, or parts with a certificate for it.
//!
//! ## Exceptions
//! * Laws differ between countries and editions change: ask the bike maker.
//! * Without a motor, or with an unknown one, there is nothing to say.
//!
//! ## Sources
//! A guideline of German trade associations for pedelecs up to 25 km/h and a motor maker's manual, both read as excerpts.

use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{
    AnyHub, Brake, BrakeLever, Cassette, Chain, Crankset, Fork, Frame, Rim, Ring, Rotor, Sprocket, Tyre, Use,
};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "e-bike-approval",
    title: "E-bike approval",
    file: include_str!("e_bike_approval.rs"),
    source: "a guideline of German trade associations and a motor maker's manual, seen as excerpts",
    rules: &[
        FRAME,
        FORK,
        BRAKE,
        LEVER,
        ROTOR,
        CRANKSET,
        HUB,
        RIM,
        TYRE,
        CHAIN,
        RING,
        CASSETTE,
        SPROCKET,
        TYRE_RATING,
    ],
};

const VEHICLE_MAKER: Reason = Reason::fits(
    "vehicle-maker-approves",
    "on a bike with help up to 25 km/h this part needs the approval of the vehicle's maker",
)
.note("legal caution: ask the bike maker before fitting it");
const EITHER_MAKER: Reason = Reason::fits(
    "vehicle-or-part-maker-approves",
    "on a bike with help up to 25 km/h this part needs the approval of the vehicle's or the part's maker",
)
.note("legal caution: ask the bike maker or the part's maker before fitting it");
const SERIES_RANGE: Reason = Reason::fits(
    "free-within-series",
    "on a bike with help up to 25 km/h this part is free while its size stays within the range of the series",
)
.note("legal caution: a size outside the series range needs the bike maker's word");
const TYPE_APPROVAL: Reason = Reason::fits(
    "type-approval",
    "a bike with help beyond 25 km/h is a motor vehicle: only original parts, or parts with a certificate for it",
)
.note("legal caution: another part ends the type approval");

/// The caution for a part, by the speed up to which the motor helps.
fn approval(given: &Given<'_>, slow: &'static Reason) -> Judged {
    let limit = given.known(Use, attr::ASSIST_LIMIT).ok_or(Stop::Silent)?;
    say(if limit.at_most(25)? { slow } else { &TYPE_APPROVAL })
}

macro_rules! approvals {
    ($($name:ident = $code:literal, $slot:ident, $slow:ident;)*) => {$(
        const $name: Rule = Rule {
            code: $code,
            slots: &[$slot, Use],
            inputs: &[(Use, attr::ASSIST_LIMIT.attribute())],
            reasons: &[&$slow, &TYPE_APPROVAL],
            judge: |given| approval(given, &$slow),
        };
    )*};
}

approvals! {
    FRAME = "frame", Frame, VEHICLE_MAKER;
    FORK = "fork", Fork, VEHICLE_MAKER;
    BRAKE = "brake", Brake, VEHICLE_MAKER;
    LEVER = "brake-lever", BrakeLever, VEHICLE_MAKER;
    ROTOR = "rotor", Rotor, VEHICLE_MAKER;
    CRANKSET = "crankset", Crankset, EITHER_MAKER;
    RIM = "rim", Rim, EITHER_MAKER;
    TYRE = "tyre", Tyre, EITHER_MAKER;
    CHAIN = "chain", Chain, EITHER_MAKER;
    RING = "chainring", Ring, SERIES_RANGE;
    CASSETTE = "cassette", Cassette, SERIES_RANGE;
    SPROCKET = "sprocket", Sprocket, SERIES_RANGE;
}

const HUB: Rule = Rule {
    code: "hub",
    slots: &[AnyHub, Use],
    inputs: &[(Use, attr::ASSIST_LIMIT.attribute()), (Use, attr::HUB_MOTOR.attribute())],
    reasons: &[&VEHICLE_MAKER, &EITHER_MAKER, &TYPE_APPROVAL],
    judge: |given| {
        let in_hub = given.is_known(Use, attr::HUB_MOTOR);
        approval(given, if in_hub { &VEHICLE_MAKER } else { &EITHER_MAKER })
    },
};

const RATED: Reason = Reason::fits("rated", "the tyre carries the rating that fast e-bikes ask for");
const NOT_RATED: Reason = Reason::no(
    "not-rated",
    "the tyre lacks the load and speed rating that a bike with help beyond 25 km/h asks for",
)
.injury()
.remedies(&[Remedy::replace(Kind::Tyre, "a tyre with the rating that the bike maker asks for")]);

const TYRE_RATING: Rule = Rule {
    code: "tyre-rating",
    slots: &[Tyre, Use],
    inputs: &[(Use, attr::ASSIST_LIMIT.attribute()), (Tyre, attr::E_BIKE_RATED.attribute())],
    reasons: &[&RATED, &NOT_RATED],
    judge: |given| {
        let limit = given.known(Use, attr::ASSIST_LIMIT).ok_or(Stop::Silent)?;
        if limit.at_most(25)? {
            return Err(Stop::Silent);
        }
        say(if given.flag(Tyre, attr::E_BIKE_RATED)? { &RATED } else { &NOT_RATED })
    },
};
