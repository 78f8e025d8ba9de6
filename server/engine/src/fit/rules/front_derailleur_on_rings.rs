//! # Front derailleur on rings
//!
//! ## What it checks
//! The difference of the rings against the capacity, the outer ring against the window that the cage is curved for, the
//! step from outer to middle ring, the number of rings, and the width of the cage against the chain.
//!
//! ## Why it matters
//! A cage that is too short drags on the chain, one that is curved for a larger ring shifts poorly and drops the chain,
//! a narrow one rubs.
//!
//! ## Numbers
//! * Difference of largest and smallest ring at most the capacity: usual 16 on road doubles, 20 to 22 on triples, 10 to
//!   18 on mountain doubles.
//! * An outer ring up to four teeth below the window still works in one expert's experience; low direct mounts cannot be
//!   lowered and keep to their window.
//! * Least step from outer to middle ring: 12 in one family; one built for 11 worked at 10, so one tooth less is a
//!   caveat.
//! * Cages are made for a number of cogs; one more or less is usually tolerable.
//!
//! ## Exceptions
//! * A derailleur for three rings serves two within its limit screws. One ring needs none.
//!
//! ## Sources
//! A national cycling charity's magazine (2012/13), a bicycle glossary, front-derailleur guides; usual capacities from
//! memory.

use super::known;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop};
use crate::fit::slot::Slot::{Chain, FrontDerailleur, OtherRing, Ring, Rings};
use crate::part::word::RingPosition;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "front-derailleur-on-rings",
    title: "Front derailleur on rings",
    file: include_str!("front_derailleur_on_rings.rs"),
    source: "a national cycling charity's magazine, a bicycle glossary, front-derailleur guides",
    rules: &[CAPACITY, LARGEST, SMALLEST, STEP, NUMBER, CAGE],
};

const DERAILLEUR: [Remedy; 2] = [
    Remedy::replace(Kind::FrontDerailleur, "a front derailleur made for these rings"),
    Remedy::replace(Kind::Chainring, "rings that the derailleur is made for"),
];

/// One ring needs no front derailleur.
fn several(given: &Given<'_>) -> Result<(), Stop> {
    if given.num(Rings, attr::RING_COUNT)?.equals(1)? { Err(Stop::Silent) } else { Ok(()) }
}

// Capacity.

const WITHIN: Reason =
    Reason::fits("within-capacity", "the difference of the rings is within the capacity").limit();
const OVER: Reason = Reason::no(
    "over-capacity",
    "the rings differ by {need}, the derailleur takes {limit}: the chain drags on the bottom of the cage",
)
.limit()
.remedies(&DERAILLEUR);

const CAPACITY: Rule = Rule {
    code: "capacity",
    slots: &[FrontDerailleur, Rings],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (Rings, attr::SMALLEST_RING.attribute()),
        (FrontDerailleur, attr::FRONT_CAPACITY.attribute()),
    ],
    reasons: &[&WITHIN, &OVER],
    judge: |given| {
        several(given)?;
        let largest = given.num(Rings, attr::LARGEST_RING);
        let smallest = given.num(Rings, attr::SMALLEST_RING);
        let limit = given.num(FrontDerailleur, attr::FRONT_CAPACITY);
        let (need, limit) = (largest? - smallest?, limit?);
        let reason = if (need - limit).at_most(0)? { &WITHIN } else { &OVER };
        Ok(Judgement::from(reason).with("need", need).with("limit", limit).with("margin", limit - need))
    },
};

// Window of the outer ring.

const NOT_TOO_LARGE: Reason = Reason::fits("not-too-large", "the outer ring is within the cage").limit();
const TOO_LARGE: Reason =
    Reason::no("too-large", "the outer ring of {ring} is {over} over the largest that the cage takes")
        .limit()
        .remedies(&DERAILLEUR);

const LARGEST: Rule = Rule {
    code: "largest-ring",
    slots: &[FrontDerailleur, Rings],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (FrontDerailleur, attr::MAX_RING.attribute()),
    ],
    reasons: &[&NOT_TOO_LARGE, &TOO_LARGE],
    judge: |given| {
        several(given)?;
        let ring = given.num(Rings, attr::LARGEST_RING);
        let limit = given.num(FrontDerailleur, attr::MAX_RING);
        let (ring, limit) = (ring?, limit?);
        let reason = if (ring - limit).at_most(0)? { &NOT_TOO_LARGE } else { &TOO_LARGE };
        Ok(Judgement::from(reason).with("ring", ring).with("limit", limit).with("over", ring - limit))
    },
};

const CURVE_SUITS: Reason = Reason::fits("curve-suits", "the cage is curved for this outer ring").limit();
const CURVE_NEAR: Reason = Reason::caveat(
    "curve-near",
    "the cage is curved for {limit} and more: with {ring} it must be lowered and shifts less well",
)
.limit()
.tolerated();
const CURVE_OTHER: Reason = Reason::no(
    "curve-other",
    "the outer ring of {ring} is {short} below the smallest that the cage is curved for",
)
.limit()
.remedies(&DERAILLEUR);

const SMALLEST: Rule = Rule {
    code: "smallest-outer-ring",
    slots: &[FrontDerailleur, Rings],
    inputs: &[
        (Rings, attr::RING_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (FrontDerailleur, attr::MIN_OUTER_RING.attribute()),
        (FrontDerailleur, attr::FRONT_MOUNT.attribute()),
    ],
    reasons: &[&CURVE_SUITS, &CURVE_NEAR, &CURVE_OTHER],
    judge: smallest,
};

fn smallest(given: &Given<'_>) -> Judged {
    several(given)?;
    let ring = given.num(Rings, attr::LARGEST_RING);
    let limit = given.num(FrontDerailleur, attr::MIN_OUTER_RING);
    let (ring, limit) = (ring?, limit?);
    let short = limit - ring;
    let reason = if short.at_most(0)? {
        &CURVE_SUITS
    } else if short.at_most(4)? {
        let mount = given.key(FrontDerailleur, attr::FRONT_MOUNT)?;
        // Cannot be lowered.
        let fixed = given.name(mount).starts_with("low-direct");
        if fixed { &CURVE_OTHER } else { &CURVE_NEAR }
    } else {
        &CURVE_OTHER
    };
    Ok(Judgement::from(reason).with("ring", ring).with("limit", limit).with("short", short))
}

// Step from outer to middle ring.

const STEP_ENOUGH: Reason = Reason::fits("step-enough", "outer and middle ring are far enough apart").limit();
const STEP_SHORT: Reason = Reason::caveat(
    "step-short",
    "outer and middle ring are one tooth nearer than the derailleur asks for: one such set worked",
)
.limit()
.tolerated();
const STEP_TOO_SMALL: Reason = Reason::no(
    "step-too-small",
    "outer and middle ring differ by {step}, the derailleur needs {need}: the inner plate hits the middle ring",
)
.limit()
.remedies(&DERAILLEUR);

const STEP: Rule = Rule {
    code: "ring-step",
    slots: &[FrontDerailleur, Ring, OtherRing],
    inputs: &[
        (Ring, attr::RING_POSITION.attribute()),
        (OtherRing, attr::RING_POSITION.attribute()),
        (Ring, attr::TEETH.attribute()),
        (OtherRing, attr::TEETH.attribute()),
        (FrontDerailleur, attr::MIN_RING_STEP.attribute()),
    ],
    reasons: &[&STEP_ENOUGH, &STEP_SHORT, &STEP_TOO_SMALL],
    judge: |given| {
        // Rings of unknown place are not paired: the other rules still see them.
        let outer = known::word(given, Ring, attr::RING_POSITION);
        let middle = known::word(given, OtherRing, attr::RING_POSITION);
        if (outer, middle) != (Some(RingPosition::Outer), Some(RingPosition::Middle)) {
            return Err(Stop::Silent);
        }
        let outer = given.num(Ring, attr::TEETH);
        let middle = given.num(OtherRing, attr::TEETH);
        let need = given.num(FrontDerailleur, attr::MIN_RING_STEP);
        let (step, need) = (outer? - middle?, need?);
        let short = need - step;
        let reason = if short.at_most(0)? {
            &STEP_ENOUGH
        } else if short.at_most(1)? {
            &STEP_SHORT
        } else {
            &STEP_TOO_SMALL
        };
        Ok(Judgement::from(reason).with("step", step).with("need", need))
    },
};

// Number of rings.

const SAME_NUMBER: Reason = Reason::fits("same-number", "the derailleur is made for this number of rings");
const MADE_FOR_MORE: Reason = Reason::caveat(
    "made-for-more-rings",
    "made for three rings, the derailleur serves two within its limit screws; the deep inner plate shifts less well",
);
const MADE_FOR_FEWER: Reason = Reason::no(
    "made-for-fewer-rings",
    "made for two rings, the derailleur neither swings nor reaches far enough for three",
)
.remedies(&DERAILLEUR);

const NUMBER: Rule = Rule {
    code: "number-of-rings",
    slots: &[FrontDerailleur, Rings],
    inputs: &[(FrontDerailleur, attr::RING_COUNT.attribute()), (Rings, attr::RING_COUNT.attribute())],
    reasons: &[&SAME_NUMBER, &MADE_FOR_MORE, &MADE_FOR_FEWER],
    judge: |given| {
        let rings = given.num(Rings, attr::RING_COUNT);
        let made_for = given.num(FrontDerailleur, attr::RING_COUNT);
        let rings = rings?;
        if rings.equals(1)? {
            return Err(Stop::Silent);
        }
        let more = made_for? - rings;
        let reason = if more.equals(0)? {
            &SAME_NUMBER
        } else if more.at_least(1)? {
            &MADE_FOR_MORE
        } else {
            &MADE_FOR_FEWER
        };
        Ok(Judgement::from(reason).with("rings", rings))
    },
};

// Width of the cage.

const CAGE_SUITS: Reason = Reason::fits("cage-suits", "the cage is made for chains of this width");
const CAGE_NARROW: Reason = Reason::caveat(
    "cage-narrow",
    "the cage is made for {cage} cogs, the chain for {chain}: the wider chain rubs in many gears",
)
.strong()
.remedies(&[Remedy::replace(Kind::FrontDerailleur, "a front derailleur for the chain's number of cogs")]);
const CAGE_WIDE: Reason = Reason::caveat(
    "cage-wide",
    "the cage is made for {cage} cogs, the chain for {chain}: the narrower chain needs more swing and may fall between",
)
.remedies(&[Remedy::replace(Kind::FrontDerailleur, "a front derailleur for the chain's number of cogs")]);

const CAGE: Rule = Rule {
    code: "cage-width",
    slots: &[FrontDerailleur, Chain],
    inputs: &[(FrontDerailleur, attr::DECLARED_SPEEDS.attribute()), (Chain, attr::CHAIN_SPEED.attribute())],
    reasons: &[&CAGE_SUITS, &CAGE_NARROW, &CAGE_WIDE],
    judge: |given| {
        let cage = given.num(FrontDerailleur, attr::DECLARED_SPEEDS);
        let chain = given.num(Chain, attr::CHAIN_SPEED);
        let (cage, chain) = (cage?, chain?);
        let narrow = cage - chain;
        let reason = if narrow.within(-1, 1)? {
            &CAGE_SUITS
        } else if narrow.at_least(2)? {
            &CAGE_NARROW
        } else {
            &CAGE_WIDE
        };
        Ok(Judgement::from(reason).with("cage", cage).with("chain", chain))
    },
};
