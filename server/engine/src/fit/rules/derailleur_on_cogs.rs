//! # Rear derailleur on cogs
//!
//! ## What it checks
//! The largest and the smallest cog against the limits of the derailleur, the gap to the upper pulley, the cage
//! against the chain, and the room of a long cage under small wheels.
//!
//! ## Why it matters
//! Over its largest cog the upper pulley hits the cogs: the chain jams and the hanger twists. Under the smallest the
//! chain drops more easily.
//!
//! ## Numbers
//! * over = largest cog - limit. 1 to 2: works with the B-screw turned in. 3 to 4: works on many frames, a longer
//!   B-screw or a hanger extender may be needed. 5 to 8: needs a hanger extender. More: no.
//! * From 3 on that holds only for slant parallelograms on an M10 hanger. Horizontal ones with an offset pulley: 3 is
//!   too much. Coaxial mounts: 1 is too much, they have neither B-adjustment nor extender.
//! * Smallest cog under its limit by 1 or 2: noise and a chain that drops more easily. By 3: no.
//! * Cage: one speed more or less than declared suits; up to 8 speeds the chains are one class.
//!
//! ## Exceptions
//! * Cage length gives capacity, geometry gives the largest cog: neither tells the other.
//! * Limits that a maker does not publish (smallest cog, smallest largest cog) ask no question.
//! * Pulleys over 14 teeth change the gap and the capacity by an amount that is not published.
//!
//! ## Sources
//! Workshop pages, riders' reports and a review of an extension link, seen as excerpts; thresholds reasoned, not a
//! standard; the smallest-cog band from memory.

use crate::fit::num::Num;
use crate::fit::reason::{Extra, Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Chain, Cogs, Frame, RearDerailleur};
use crate::part::interfaces::{HANGER_STANDARD, HANGER_UNIVERSAL, MOUNT_COAXIAL};
use crate::part::units::Teeth;
use crate::part::word::{Cage, Geometry};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "derailleur-on-cogs",
    title: "Rear derailleur on cogs",
    file: include_str!("derailleur_on_cogs.rs"),
    source: "workshop pages and riders' reports, seen as excerpts; thresholds reasoned",
    rules: &[
        LARGEST_COG,
        COAXIAL_COG,
        EXTENDER_ROOM,
        SMALL_LARGEST,
        SMALLEST_COG,
        PULLEY_GAP,
        PULLEYS,
        CAGE_WIDTH,
        CAGE_ROOM,
    ],
};

// Largest cog.

/// Over the limit by up to this, turning in the B-screw is enough.
const OVER_B_SCREW: i64 = 2;
/// Up to this, an extender may be needed.
const OVER_EXTENDER_HELPS: i64 = 4;
/// Up to this, an extender reaches.
const OVER_EXTENDER_REACHES: i64 = 8;

const SMALLER_COGS: Remedy =
    Remedy::replace(Kind::Cassette, "a cassette whose largest cog is within the limit of {limit}");
const LARGER_DERAILLEUR: Remedy =
    Remedy::replace(Kind::RearDerailleur, "a derailleur of the same pull that allows {need}");

const COG_ALLOWED: Reason =
    Reason::fits("largest-cog-allowed", "the derailleur allows the largest cog").limit();
const COG_B_SCREW: Reason = Reason::caveat(
    "largest-cog-by-b-screw",
    "the largest cog is {over} over the limit of {limit}: it usually works with the B-screw turned in, on some frames not",
)
.limit()
.tolerated()
.damage()
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR])
.note("turn the pedals backwards in the largest cog and the smallest ring: the upper pulley must clear the cog");
const COG_FAR_OVER: Reason = Reason::caveat(
    "largest-cog-far-over",
    "the largest cog is {over} over the limit of {limit}: it works on some frames, on others only with a longer B-screw or a hanger extender",
)
.limit()
.tolerated()
.strong()
.damage()
.extras(&[Extra::helpful(Kind::HangerExtender, &[])])
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR])
.note("turn the pedals backwards in the largest cog: a pulley that touches twists the hanger within months");
const COG_EXTENDER: Reason = Reason::extra(
    "largest-cog-by-extender",
    "the largest cog is {over} over the limit of {limit}: a hanger extender lets the derailleur reach it",
    &[Extra::needed(Kind::HangerExtender, &[])],
)
.limit()
.tolerated()
.damage()
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR])
.note("an extender moves the derailleur away from the small cogs too, shifting there gets slower; check the chain length again");
const COG_TOO_LARGE: Reason = Reason::no(
    "largest-cog-too-large",
    "the largest cog has {need}, the derailleur allows {limit}: {over} too many",
)
.limit()
.damage()
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR]);

const LARGEST_COG: Rule = Rule {
    code: "largest-cog",
    slots: &[Cogs, RearDerailleur],
    inputs: &[
        (Cogs, attr::LARGEST_COG.attribute()),
        (RearDerailleur, attr::MAX_COG.attribute()),
        (RearDerailleur, attr::GEOMETRY.attribute()),
        (RearDerailleur, attr::DERAILLEUR_MOUNT.attribute()),
    ],
    reasons: &[&COG_ALLOWED, &COG_B_SCREW, &COG_FAR_OVER, &COG_EXTENDER, &COG_TOO_LARGE],
    judge: largest_cog,
};

fn largest_cog(given: &Given<'_>) -> Judged {
    let need = given.num(Cogs, attr::LARGEST_COG);
    let limit = given.num(RearDerailleur, attr::MAX_COG);
    let (need, limit) = (need?, limit?);
    let over = need - limit;
    if over.at_most(0)? {
        return Ok(Judgement::from(&COG_ALLOWED).with("need", need).with("limit", limit));
    }
    if coaxial(given) {
        return Err(Stop::Silent);
    }
    let reason = if over.at_most(OVER_B_SCREW)? {
        &COG_B_SCREW
    } else if over.at_least(OVER_EXTENDER_REACHES + 1)?
        || given.word(RearDerailleur, attr::GEOMETRY)? != Geometry::Slant
    {
        &COG_TOO_LARGE
    } else if over.at_most(OVER_EXTENDER_HELPS)? {
        &COG_FAR_OVER
    } else {
        &COG_EXTENDER
    };
    Ok(Judgement::from(reason).with("need", need).with("limit", limit).with("over", over))
}

/// Known to sit around the axle; either statement of it is enough.
fn coaxial(given: &Given<'_>) -> bool {
    let geometry = !given.is_missing(RearDerailleur, attr::GEOMETRY)
        && given.word(RearDerailleur, attr::GEOMETRY) == Ok(Geometry::Coaxial);
    let mount = !given.is_missing(RearDerailleur, attr::DERAILLEUR_MOUNT)
        && given
            .key(RearDerailleur, attr::DERAILLEUR_MOUNT)
            .is_ok_and(|mount| given.name(mount) == MOUNT_COAXIAL);
    geometry || mount
}

const COAXIAL_TOO_LARGE: Reason = Reason::no(
    "coaxial-cog-too-large",
    "the largest cog is {over} over the limit of {limit}, and a coaxial mount has neither a B-screw nor room for an extender",
)
.limit()
.damage()
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR]);

const COAXIAL_COG: Rule = Rule {
    code: "coaxial-cog",
    slots: &[Cogs, RearDerailleur],
    inputs: LARGEST_COG.inputs,
    reasons: &[&COAXIAL_TOO_LARGE],
    // The rule above asks for what is missing.
    judge: |given| {
        let (Some(need), Some(limit)) =
            (given.known(Cogs, attr::LARGEST_COG), given.known(RearDerailleur, attr::MAX_COG))
        else {
            return Err(Stop::Silent);
        };
        let over = need - limit;
        if !coaxial(given) || over.at_most(0)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&COAXIAL_TOO_LARGE).with("need", need).with("limit", limit).with("over", over))
    },
};

const NO_EXTENDER: Reason = Reason::no(
    "no-extender-on-this-hanger",
    "the largest cog is {over} over the limit of {limit}, and this derailleur end takes no hanger extender",
)
.limit()
.damage()
.remedies(&[SMALLER_COGS, LARGER_DERAILLEUR]);

const EXTENDER_ROOM: Rule = Rule {
    code: "extender-room",
    slots: &[Cogs, RearDerailleur, Frame],
    inputs: &[
        (Cogs, attr::LARGEST_COG.attribute()),
        (RearDerailleur, attr::MAX_COG.attribute()),
        (Frame, attr::HANGER.attribute()),
    ],
    reasons: &[&NO_EXTENDER],
    // Adds only a refusal to the largest cog: silent unless everything is known.
    judge: |given| {
        let (Some(need), Some(limit)) =
            (given.known(Cogs, attr::LARGEST_COG), given.known(RearDerailleur, attr::MAX_COG))
        else {
            return Err(Stop::Silent);
        };
        let over: Num<Teeth> = need - limit;
        if given.is_missing(Frame, attr::HANGER) || given.known_absent(Frame, attr::HANGER) {
            return Err(Stop::Silent);
        }
        let eye = given.name(given.key(Frame, attr::HANGER)?);
        if eye == HANGER_STANDARD || eye == HANGER_UNIVERSAL || over.at_most(OVER_B_SCREW)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&NO_EXTENDER).with("need", need).with("limit", limit).with("over", over))
    },
};

// Smallest largest cog.

const LARGEST_TOO_SMALL: Reason = Reason::caveat(
    "largest-cog-small",
    "the largest cog is {under} under the {limit} that the derailleur is made for: the pulley tracks far from the cogs and shifts slowly",
)
.limit()
.tolerated();

const SMALL_LARGEST: Rule = Rule {
    code: "small-largest-cog",
    slots: &[Cogs, RearDerailleur],
    inputs: &[(Cogs, attr::LARGEST_COG.attribute()), (RearDerailleur, attr::MIN_LARGEST_COG.attribute())],
    reasons: &[&LARGEST_TOO_SMALL],
    judge: |given| {
        let (Some(cog), Some(limit)) =
            (given.known(Cogs, attr::LARGEST_COG), given.known(RearDerailleur, attr::MIN_LARGEST_COG))
        else {
            return Err(Stop::Silent);
        };
        if (cog - limit).at_least(0)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&LARGEST_TOO_SMALL)
            .with("cog", cog)
            .with("limit", limit)
            .with("under", limit - cog))
    },
};

// Smallest cog.

/// Under the limit by up to this, the small cogs are ridden.
const UNDER_RIDDEN: i64 = 2;

const SMALLEST_UNDER: Reason = Reason::caveat(
    "smallest-cog-under",
    "the smallest cog has {cog}, the derailleur is made for {limit} and more: noisier, and the chain drops more easily",
)
.limit()
.tolerated();
const SMALLEST_TOO_SMALL: Reason = Reason::no(
    "smallest-cog-too-small",
    "the smallest cog has {cog}, the derailleur allows {limit} and more",
)
.limit()
.remedies(&[Remedy::replace(Kind::Cassette, "a cassette that starts at {limit}")]);

const SMALLEST_COG: Rule = Rule {
    code: "smallest-cog",
    slots: &[Cogs, RearDerailleur],
    inputs: &[(Cogs, attr::SMALLEST_COG.attribute()), (RearDerailleur, attr::MIN_COG.attribute())],
    reasons: &[&SMALLEST_UNDER, &SMALLEST_TOO_SMALL],
    judge: |given| {
        let (Some(cog), Some(limit)) =
            (given.known(Cogs, attr::SMALLEST_COG), given.known(RearDerailleur, attr::MIN_COG))
        else {
            return Err(Stop::Silent);
        };
        let under = limit - cog;
        if under.at_most(0)? {
            return Err(Stop::Silent);
        }
        let reason = if under.at_most(UNDER_RIDDEN)? { &SMALLEST_UNDER } else { &SMALLEST_TOO_SMALL };
        Ok(Judgement::from(reason).with("cog", cog).with("limit", limit).with("under", under))
    },
};

// Pulley.

const GAP_STATED: Reason = Reason::fits(
    "pulley-gap",
    "the maker asks for {gap} between the upper pulley and the largest cog",
)
.limit()
.note("set the gap of {gap} with the chain on the largest cog; on a suspended frame with the rider's weight on it");

const PULLEY_GAP: Rule = Rule {
    code: "pulley-gap",
    slots: &[Cogs, RearDerailleur],
    inputs: &[(RearDerailleur, attr::B_GAP.attribute())],
    reasons: &[&GAP_STATED],
    judge: |given| {
        let gap = given.known(RearDerailleur, attr::B_GAP).ok_or(Stop::Silent)?;
        Ok(Judgement::from(&GAP_STATED).with("gap", gap))
    },
};

/// Pulleys above this are not the ones that limits are published for.
const USUAL_PULLEY_TEETH: i64 = 14;

const OVERSIZE_PULLEYS: Reason = Reason::unclear(
    "oversize-pulleys",
    "pulleys of {teeth} change the gap and the capacity by an amount that is not published",
);

const PULLEYS: Rule = Rule {
    code: "pulleys",
    slots: &[Cogs, RearDerailleur],
    inputs: &[(RearDerailleur, attr::PULLEY_TEETH.attribute())],
    reasons: &[&OVERSIZE_PULLEYS],
    judge: |given| {
        let teeth = given.known(RearDerailleur, attr::PULLEY_TEETH).ok_or(Stop::Silent)?;
        if teeth.at_most(USUAL_PULLEY_TEETH)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&OVERSIZE_PULLEYS).with("teeth", teeth))
    },
};

// Cage.

const CAGE_NARROW: Reason =
    Reason::caveat("cage-narrow", "the cage is made for {declared} speeds and rubs on a chain for {chain}");
const CAGE_WIDE: Reason = Reason::caveat(
    "cage-wide",
    "the cage is made for {declared} speeds and guides a chain for {chain} loosely",
);

/// Chains up to this many speeds are one class.
const ONE_CHAIN_CLASS: i64 = 8;

const CAGE_WIDTH: Rule = Rule {
    code: "cage-width",
    slots: &[Chain, RearDerailleur],
    inputs: &[(Chain, attr::CHAIN_SPEED.attribute()), (RearDerailleur, attr::DECLARED_SPEEDS.attribute())],
    reasons: &[&CAGE_NARROW, &CAGE_WIDE],
    // A drawback of known parts: silent unless both are known.
    judge: |given| {
        let (Some(chain), Some(declared)) =
            (given.known(Chain, attr::CHAIN_SPEED), given.known(RearDerailleur, attr::DECLARED_SPEEDS))
        else {
            return Err(Stop::Silent);
        };
        let class = |speeds: i64| speeds.max(ONE_CHAIN_CLASS);
        let step = Num::between(class(chain.low), class(chain.high))
            - Num::<crate::part::units::Count>::between(class(declared.low), class(declared.high));
        if step.within(-1, 1)? {
            return Err(Stop::Silent);
        }
        let reason = if step.at_most(0)? { &CAGE_NARROW } else { &CAGE_WIDE };
        Ok(Judgement::from(reason).with("declared", declared).with("chain", chain))
    },
};

/// Wheels with a smaller bead seat leave little room under a long cage: 20-inch and less.
const SMALL_WHEEL_UM: i64 = 406_000;

const CAGE_LOW: Reason =
    Reason::caveat("long-cage-small-wheel", "a long cage hangs near the ground and the rim of a small wheel");

const CAGE_ROOM: Rule = Rule {
    code: "cage-room",
    slots: &[RearDerailleur, Frame],
    inputs: &[(RearDerailleur, attr::CAGE.attribute()), (Frame, attr::BEAD_SEAT.attribute())],
    reasons: &[&CAGE_LOW],
    judge: |given| {
        let seat = given.known(Frame, attr::BEAD_SEAT).ok_or(Stop::Silent)?;
        let long = !given.is_missing(RearDerailleur, attr::CAGE)
            && given.word(RearDerailleur, attr::CAGE) == Ok(Cage::Long);
        if !long || seat.at_least(SMALL_WHEEL_UM)? {
            return Err(Stop::Silent);
        }
        say(&CAGE_LOW)
    },
};
