//! # Chain retention
//!
//! ## What it checks
//! Narrow-wide rings, clutches and guides against the rings and derailleurs on the bike, and derailleurs against
//! back-pedalling.
//!
//! ## Why it matters
//! A chain that drops takes the drive away and can jam between crank and frame.
//!
//! ## Numbers
//! None: what is fitted decides.
//!
//! ## Exceptions
//! * A narrow-wide ring cannot shift: never with a front derailleur or a second ring.
//! * A plain ring is right on single-speed bikes and with gear hubs; alone under a derailleur it drops the chain.
//! * A clutch helps a single ring but is not obligatory.
//! * With a back-pedal brake or a fixed cog the chain pulls backwards: no derailleur.
//!
//! ## Sources
//! Workshop columns and answers on single-ring bikes, seen as excerpts; common practice, no source.

use crate::fit::reason::{Extra, Reason, Remedy};
use crate::fit::rule::{Given, Input, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{FrontDerailleur, GearHub, RearDerailleur, Ring, Rings, Sprocket, Use};
use crate::part::word::ToothProfile;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "chain-retention",
    title: "Chain retention",
    file: include_str!("chain_retention.rs"),
    source: "workshop columns and answers, seen as excerpts; common practice",
    rules: &[
        NARROW_WIDE_SHIFTED,
        NARROW_WIDE_SEVERAL,
        PLAIN_ALONE,
        PLAIN_ROUGH,
        CLUTCH,
        NO_CLUTCH_ROUGH,
        CLUTCH_SHIFTED,
        BACK_PEDAL,
        FIXED_COG,
    ],
};

const TOOTH_PROFILE: Input = (Ring, attr::TOOTH_PROFILE.attribute());
const RING_COUNT: Input = (Rings, attr::RING_COUNT.attribute());
const CLUTCH_FITTED: Input = (RearDerailleur, attr::CLUTCH.attribute());
const ROUGH_GROUND: Input = (Use, attr::ROUGH_GROUND.attribute());

const GUIDE: &[Extra] = &[Extra::needed(Kind::ChainGuide, &[])];
const GUIDE_HELPS: &[Extra] = &[Extra::helpful(Kind::ChainGuide, &[])];
const NARROW_WIDE_RING: Remedy = Remedy::replace(Kind::Chainring, "a narrow-wide ring");
const SHIFTABLE_RING: Remedy = Remedy::replace(Kind::Chainring, "a ring with ramps for shifting");

fn narrow_wide(given: &Given<'_>) -> Result<bool, Stop> {
    if given.is_missing(Ring, attr::TOOTH_PROFILE) {
        return Err(Stop::Silent);
    }
    Ok(given.word(Ring, attr::TOOTH_PROFILE)? == ToothProfile::NarrowWide)
}

fn single_ring(given: &Given<'_>) -> Result<bool, Stop> {
    given.known(Rings, attr::RING_COUNT).ok_or(Stop::Silent)?.equals(1)
}

// Narrow-wide rings that would have to shift.

const CANNOT_SHIFT: Reason = Reason::no(
    "narrow-wide-cannot-shift",
    "a narrow-wide ring holds the chain and cannot shift it to another ring",
)
.remedies(&[
    SHIFTABLE_RING,
    Remedy::act("single-ring", "riding it as a single ring, without the front derailleur"),
]);

const NARROW_WIDE_SHIFTED: Rule = Rule {
    code: "narrow-wide-with-front-derailleur",
    slots: &[Ring, FrontDerailleur],
    inputs: &[TOOTH_PROFILE],
    reasons: &[&CANNOT_SHIFT],
    judge: |given| if narrow_wide(given)? { say(&CANNOT_SHIFT) } else { Err(Stop::Silent) },
};

const NARROW_WIDE_SEVERAL: Rule = Rule {
    code: "narrow-wide-with-other-rings",
    slots: &[Ring, Rings],
    inputs: &[TOOTH_PROFILE, RING_COUNT],
    reasons: &[&CANNOT_SHIFT],
    judge: |given| {
        if narrow_wide(given)? && !single_ring(given)? { say(&CANNOT_SHIFT) } else { Err(Stop::Silent) }
    },
};

// Plain rings alone.

const DROPS: Reason = Reason::caveat(
    "plain-ring-alone",
    "a plain ring alone under a derailleur drops the chain unless a guide holds it",
)
.extras(GUIDE_HELPS)
.remedies(&[NARROW_WIDE_RING]);
const DROPS_ON_ROUGH: Reason = Reason::extra(
    "plain-ring-alone-on-rough-ground",
    "on rough ground a plain ring alone under a derailleur needs a chain guide",
    GUIDE,
)
.remedies(&[NARROW_WIDE_RING]);

const PLAIN_ALONE: Rule = Rule {
    code: "plain-ring-alone",
    slots: &[Ring, Rings, RearDerailleur],
    inputs: &[TOOTH_PROFILE, RING_COUNT],
    reasons: &[&DROPS],
    judge: |given| if !narrow_wide(given)? && single_ring(given)? { say(&DROPS) } else { Err(Stop::Silent) },
};

const PLAIN_ROUGH: Rule = Rule {
    code: "plain-ring-on-rough-ground",
    slots: &[Ring, Rings, RearDerailleur, Use],
    inputs: &[TOOTH_PROFILE, RING_COUNT, ROUGH_GROUND],
    reasons: &[&DROPS_ON_ROUGH],
    judge: |given| {
        let rough = given.is_known(Use, attr::ROUGH_GROUND);
        if rough && !narrow_wide(given)? && single_ring(given)? {
            say(&DROPS_ON_ROUGH)
        } else {
            Err(Stop::Silent)
        }
    },
};

// Clutches.

const CLUTCH_HOLDS: Reason =
    Reason::fits("narrow-wide-with-clutch", "a narrow-wide ring and a clutch hold the chain");
const CLUTCH_MISSING: Reason = Reason::caveat(
    "narrow-wide-without-clutch",
    "a single narrow-wide ring without a clutch holds the chain on paved ground, less well on rough",
);
const CLUTCH_MISSING_ROUGH: Reason = Reason::caveat(
    "no-clutch-on-rough-ground",
    "on rough ground a narrow-wide ring without a clutch drops the chain: a guide is advised",
)
.strong()
.extras(GUIDE_HELPS);
const CLUTCH_FRONT: Reason = Reason::fits(
    "clutch-with-front-derailleur",
    "a clutch derailleur made for several rings works with a front derailleur",
)
.note("front shifting is heavier with the clutch on");

const CLUTCH: Rule = Rule {
    code: "clutch",
    slots: &[Ring, Rings, RearDerailleur],
    inputs: &[TOOTH_PROFILE, RING_COUNT, CLUTCH_FITTED],
    reasons: &[&CLUTCH_HOLDS, &CLUTCH_MISSING],
    // A note on known parts: silent unless the clutch is known.
    judge: |given| {
        if given.is_missing(RearDerailleur, attr::CLUTCH) || !narrow_wide(given)? || !single_ring(given)? {
            return Err(Stop::Silent);
        }
        say(if given.flag(RearDerailleur, attr::CLUTCH)? { &CLUTCH_HOLDS } else { &CLUTCH_MISSING })
    },
};

const NO_CLUTCH_ROUGH: Rule = Rule {
    code: "no-clutch-on-rough-ground",
    slots: &[Ring, Rings, RearDerailleur, Use],
    inputs: &[TOOTH_PROFILE, RING_COUNT, CLUTCH_FITTED, ROUGH_GROUND],
    reasons: &[&CLUTCH_MISSING_ROUGH],
    judge: |given| {
        let without = !given.is_missing(RearDerailleur, attr::CLUTCH)
            && given.flag(RearDerailleur, attr::CLUTCH) == Ok(false);
        let rough = given.is_known(Use, attr::ROUGH_GROUND);
        if without && rough && narrow_wide(given)? && single_ring(given)? {
            say(&CLUTCH_MISSING_ROUGH)
        } else {
            Err(Stop::Silent)
        }
    },
};

const CLUTCH_SHIFTED: Rule = Rule {
    code: "clutch-with-front-derailleur",
    slots: &[FrontDerailleur, RearDerailleur],
    inputs: &[CLUTCH_FITTED, (RearDerailleur, attr::MAX_FRONT_DIFFERENCE.attribute())],
    reasons: &[&CLUTCH_FRONT],
    judge: |given| {
        let difference = given.known(RearDerailleur, attr::MAX_FRONT_DIFFERENCE).ok_or(Stop::Silent)?;
        if given.is_known(RearDerailleur, attr::CLUTCH) && difference.at_least(1)? {
            say(&CLUTCH_FRONT)
        } else {
            Err(Stop::Silent)
        }
    },
};

// Derailleurs and back-pedalling.

const PULLS_BACK: Reason = Reason::no(
    "derailleur-with-back-pedalling",
    "pedalling back pulls the lower run of the chain: it tears a derailleur off",
)
.injury();

const BACK_PEDAL: Rule = Rule {
    code: "back-pedal-brake",
    slots: &[RearDerailleur, GearHub],
    inputs: &[(GearHub, attr::BACK_PEDAL_BRAKE.attribute())],
    reasons: &[&PULLS_BACK],
    judge: |given| {
        if given.is_known(GearHub, attr::BACK_PEDAL_BRAKE) { say(&PULLS_BACK) } else { Err(Stop::Silent) }
    },
};

const FIXED_COG: Rule = Rule {
    code: "fixed-cog",
    slots: &[RearDerailleur, Sprocket],
    inputs: &[(Sprocket, attr::FIXED.attribute())],
    reasons: &[&PULLS_BACK],
    judge: |given| if given.is_known(Sprocket, attr::FIXED) { say(&PULLS_BACK) } else { Err(Stop::Silent) },
};
