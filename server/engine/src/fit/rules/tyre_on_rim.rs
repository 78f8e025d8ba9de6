//! # Tyre on rim
//!
//! ## What it checks
//! The system of tyre and rim, the bead seat diameter, pressure limits, and riding without a tube. The width is judged
//! by "tyre width on rim".
//!
//! ## Why it matters
//! A tyre of another system or bead seat can blow off at speed. Equal numbers prove nothing: a tubular marked 28-622
//! passes every size test on a rim that does not hold it.
//!
//! ## Numbers
//! * Bead seats must be equal: 622 and 630, or 559 and 571 mm, never go together.
//! * Straight-side rims: tubeless-ready tyres whose maker approves such rims, at most 5 bar (500 kPa, 72.5 psi)
//!   whatever the sidewall says; the lowest limit of tyre, rim and these 500 kPa holds. A tube changes nothing.
//!
//! ## Exceptions
//! * Some off-road straight-side rims are listed by their maker for ordinary tyres at low pressure: a stored statement
//!   of the maker decides then.
//! * Old straight-side rims take wired-on tyres at low pressure only.
//! * Tubeless-ready tyres with a tube on an ordinary hooked rim are fine.
//!
//! ## Sources
//! ISO 5775 overview; a tyre maker's page on straight-side rims; a rim maker's compatibility statement; a page on
//! clincher tyres on tubular rims.

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy, Source};
use crate::fit::rule::{Given, Input};
use crate::fit::rule::{Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Rim, Tyre};
use crate::part::units::Kilopascals;
use crate::part::word::{RimSystem, TyreSystem};
use crate::part::{Attribute, Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "tyre-on-rim",
    title: "Tyre on rim",
    file: include_str!("tyre_on_rim.rs"),
    source: "ISO 5775 overview; statements of a tyre maker and a rim maker",
    rules: &[SYSTEM, BEAD_SEAT, PRESSURE, LEAST_PRESSURE, WITHOUT_TUBE],
};

/// Highest pressure on a straight-side rim, in kilopascals: 5 bar.
pub const STRAIGHT_SIDE_MAX_KPA: i64 = 500;

const TYRE: [Remedy; 1] =
    [Remedy::replace(Kind::Tyre, "a tyre of the rim's system and bead seat that both makers allow")];

// System.

const HELD: Reason = Reason::fits("held", "the rim holds this kind of tyre");
const TUBULAR_MIXED: Reason = Reason::no(
    "tubular-mixed",
    "one is tubular, the other is not: nothing holds the tyre, whatever the size says",
)
.injury()
.remedies(&TYRE);
const NOT_TUBELESS: Reason =
    Reason::no("wired-on-straight-side", "an ordinary wired-on tyre does not belong on a straight-side rim")
        .injury()
        .remedies(&TYRE);
const NOT_APPROVED: Reason = Reason::no(
    "not-approved",
    "the tyre maker does not approve straight-side rims for this tyre; a tube does not change that",
)
.injury()
.remedies(&TYRE);
const LOW_PRESSURE: Reason =
    Reason::caveat("old-straight-side", "an old straight-side rim holds the tyre at low pressure only")
        .injury();
const SOLID: Reason =
    Reason::unclear("solid", "solid tyres are made for listed rims only: ask their maker").injury();

const SYSTEM_INPUTS: [Input; 2] =
    [(Tyre, attr::TYRE_SYSTEM.attribute()), (Rim, attr::RIM_SYSTEM.attribute())];

const SYSTEM: Rule = Rule {
    code: "system",
    slots: &[Tyre, Rim],
    inputs: &[SYSTEM_INPUTS[0], SYSTEM_INPUTS[1], (Tyre, attr::STRAIGHT_SIDE_APPROVED.attribute())],
    reasons: &[&HELD, &TUBULAR_MIXED, &NOT_TUBELESS, &NOT_APPROVED, &LOW_PRESSURE, &SOLID],
    judge: system,
};

fn system(given: &Given<'_>) -> Judged {
    let tyre = given.word(Tyre, attr::TYRE_SYSTEM);
    let rim = given.word(Rim, attr::RIM_SYSTEM);
    let (tyre, rim) = (tyre?, rim?);
    say(match (tyre, rim) {
        (TyreSystem::Tubular, RimSystem::Tubular) => &HELD,
        (TyreSystem::Tubular, _) | (_, RimSystem::Tubular) => &TUBULAR_MIXED,
        (TyreSystem::Solid, _) => &SOLID,
        (_, RimSystem::Hooked) => &HELD,
        (_, RimSystem::OldStraightSide) => &LOW_PRESSURE,
        (TyreSystem::WiredOn, RimSystem::StraightSide) => &NOT_TUBELESS,
        (TyreSystem::TubelessReady, RimSystem::StraightSide) => {
            if given.flag(Tyre, attr::STRAIGHT_SIDE_APPROVED)? { &HELD } else { &NOT_APPROVED }
        }
    })
}

// Bead seat.

const SAME_SEAT: Reason = Reason::fits("same-seat", "the bead seats are equal").geometry();
const OTHER_SEAT: Reason = Reason::no(
    "other-seat",
    "the tyre is made for a bead seat of {tyre}, the rim has {rim}: forced on or loose, it comes off",
)
.geometry()
.injury()
.remedies(&TYRE);

const BEAD_SEAT: Rule = Rule {
    code: "bead-seat",
    slots: &[Tyre, Rim],
    inputs: &[(Tyre, attr::BEAD_SEAT.attribute()), (Rim, attr::BEAD_SEAT.attribute())],
    reasons: &[&SAME_SEAT, &OTHER_SEAT],
    judge: |given| {
        let tyre = given.num(Tyre, attr::BEAD_SEAT);
        let rim = given.num(Rim, attr::BEAD_SEAT);
        let (tyre, rim) = (tyre?, rim?);
        let reason = if (tyre - rim).equals(0)? { &SAME_SEAT } else { &OTHER_SEAT };
        Ok(Judgement::from(reason).with("tyre", tyre).with("rim", rim))
    },
};

// Pressure.

const LIMIT: Reason = Reason::fits("limit", "inflate to {limit} at most: the lowest limit holds")
    .limit()
    .note("the lowest of the limits of tyre and rim holds, and 5 bar on a straight-side rim, whatever the sidewall says");

type Pressure = Num<Kilopascals>;

fn lower(one: Pressure, other: Pressure) -> Pressure {
    Num::between(one.low.min(other.low), one.high.min(other.high))
}

const PRESSURE: Rule = Rule {
    code: "pressure",
    slots: &[Tyre, Rim],
    inputs: &[
        (Rim, attr::RIM_SYSTEM.attribute()),
        (Tyre, attr::MAX_PRESSURE.attribute()),
        (Rim, attr::MAX_PRESSURE.attribute()),
    ],
    reasons: &[&LIMIT],
    judge: |given| {
        // On hooked rims few limits are printed; on straight-side ones none may be missing.
        if given.word(Rim, attr::RIM_SYSTEM)? != RimSystem::StraightSide {
            let tyre = given.known(Tyre, attr::MAX_PRESSURE).ok_or(Stop::Silent)?;
            let rim = given.known(Rim, attr::MAX_PRESSURE).ok_or(Stop::Silent)?;
            return Ok(Judgement::from(&LIMIT).with("limit", lower(tyre, rim)));
        }
        let tyre = given.num(Tyre, attr::MAX_PRESSURE);
        let rim = given.num(Rim, attr::MAX_PRESSURE);
        let limit = lower(lower(tyre?, rim?), Num::exact(STRAIGHT_SIDE_MAX_KPA));
        Ok(Judgement::from(&LIMIT).with("limit", limit))
    },
};

const ENOUGH: Reason =
    Reason::fits("least-pressure-allowed", "the rim allows the least pressure that the tyre needs").limit();
const NEEDS_MORE: Reason =
    Reason::no("needs-more-pressure", "the tyre needs {need} at least, the rim allows {limit} at most")
        .limit()
        .injury()
        .remedies(&TYRE);

const LEAST_PRESSURE: Rule = Rule {
    code: "least-pressure",
    slots: &[Tyre, Rim],
    inputs: &[
        (Tyre, attr::MIN_PRESSURE.attribute()),
        (Rim, attr::RIM_SYSTEM.attribute()),
        (Rim, attr::MAX_PRESSURE.attribute()),
    ],
    reasons: &[&ENOUGH, &NEEDS_MORE],
    judge: |given| {
        let need = given.known(Tyre, attr::MIN_PRESSURE).ok_or(Stop::Silent)?;
        let straight = given.word(Rim, attr::RIM_SYSTEM)? == RimSystem::StraightSide;
        let limit = if straight {
            lower(given.num(Rim, attr::MAX_PRESSURE)?, Num::exact(STRAIGHT_SIDE_MAX_KPA))
        } else {
            given.known(Rim, attr::MAX_PRESSURE).ok_or(Stop::Silent)?
        };
        let reason = if (need - limit).at_most(0)? { &ENOUGH } else { &NEEDS_MORE };
        Ok(Judgement::from(reason).with("need", need).with("limit", limit))
    },
};

// Without a tube.

const TAPE_AND_VALVE: Reason = Reason::extra(
    "tape-and-valve",
    "tyre and rim are tubeless-ready: rim tape and a tubeless valve make the rim air-tight",
    &[
        Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("rim-tape"))]),
        Extra::needed(Kind::Fitting, &[(Attribute::Fitting, Source::Word("tubeless-valve"))]),
    ],
)
.injury();
const NOT_TUBELESS_READY: Reason = Reason::no(
    "not-tubeless-ready",
    "without a tube both tyre and rim must be tubeless-ready: this pair burps or blows off",
)
.injury()
.remedies(&[
    Remedy::act("fit-tube", "a tube in the tyre, where the system allows it"),
    Remedy::replace(Kind::Tyre, "a tubeless-ready tyre, on a tubeless-ready rim"),
]);

const WITHOUT_TUBE: Rule = Rule {
    code: "without-tube",
    slots: &[Tyre, Rim],
    inputs: &[
        (Tyre, attr::WITHOUT_TUBE.attribute()),
        (Tyre, attr::TYRE_SYSTEM.attribute()),
        (Rim, attr::TUBELESS_READY.attribute()),
    ],
    reasons: &[&TAPE_AND_VALVE, &NOT_TUBELESS_READY],
    judge: |given| {
        if !given.is_known(Tyre, attr::WITHOUT_TUBE) {
            return Err(Stop::Silent);
        }
        let tyre = given.word(Tyre, attr::TYRE_SYSTEM);
        let rim = given.flag(Rim, attr::TUBELESS_READY);
        let (tyre, rim) = (tyre?, rim?);
        if matches!(tyre, TyreSystem::Tubular | TyreSystem::Solid) {
            return Err(Stop::Silent);
        }
        say(if tyre == TyreSystem::TubelessReady && rim { &TAPE_AND_VALVE } else { &NOT_TUBELESS_READY })
    },
};
