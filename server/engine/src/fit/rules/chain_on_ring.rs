//! # Chain on chainring
//!
//! ## What it checks
//! The profile of the chain and its generation against the ring, its inner plates against the teeth, and a chain
//! narrower than several rings are spaced for.
//!
//! ## Why it matters
//! A chain that does not seat on the ring rides up and drops the drive under load.
//!
//! ## Numbers
//! * inner width - tooth: from 0.10 mm clear, from 0.05 mm tight, below too thick. Teeth of 1/8 in measure 2.91 mm, of
//!   3/32 in 2.07 to 2.28 mm, of geared rings 1.6 to 2.1 mm.
//! * Narrow-wide rings of 9 to 11 speeds take normal chains of 9 to 11; a 12-speed chain drops a little more easily.
//!
//! ## Exceptions
//! * Rings are more forgiving than cogs: one made for a narrower chain takes a wider one.
//! * Extended inner plates run on plain rings, and foul the wide teeth of foreign narrow-wide ones.
//! * The smaller rollers of a 12-speed chain seat on a single flat-top ring; flat-top rollers never on ordinary rings.
//! * A narrow-wide ring has an even number of teeth; an odd one is a slip in the data, looked for at import.
//!
//! ## Sources
//! Workshop pages, a columnist's trial and measured teeth, seen as excerpts; geared teeth from memory; thresholds
//! reasoned, not a standard.

use super::chain_profile::{NORMAL_UP_TO, Profile, known_flat, profile};
use super::{known, tooth_width};
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Chain, Ring, Rings};
use crate::part::interfaces::{
    PROFILE_EXTENDED, RING_EXTENDED, RING_FLAT_TOP, RING_FLAT_TOP_OR_NORMAL, RING_NORMAL,
};
use crate::part::units::Count;
use crate::part::word::{RingPosition, ToothProfile};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "chain-on-ring",
    title: "Chain on chainring",
    file: include_str!("chain_on_ring.rs"),
    source: "workshop pages and measured teeth, seen as excerpts; thresholds reasoned",
    rules: &[PROFILE, GENERATION, WIDTH, RING_SPACING],
};

const INPUTS: &[Input] = &[
    (Chain, attr::CHAIN_SPEED.attribute()),
    (Chain, attr::CHAIN_PROFILE.attribute()),
    (Chain, attr::INNER_WIDTH.attribute()),
    (Ring, attr::RING_SPEED_CLASS.attribute()),
    (Ring, attr::RING_PROFILE.attribute()),
    (Ring, attr::TOOTH_PROFILE.attribute()),
    (Ring, attr::TOOTH_THICKNESS.attribute()),
    (Ring, attr::RING_POSITION.attribute()),
];

const RIGHT_RING: Remedy = Remedy::replace(Kind::Chainring, "a ring made for this chain profile");
const RIGHT_CHAIN: Remedy = Remedy::replace(Kind::Chain, "a chain that both ring and cogs take");

// Profile.

const PROFILE_TAKEN: Reason = Reason::fits("profile-taken", "the ring takes this chain profile");
const PLATES_ON_PLAIN: Reason =
    Reason::fits("extended-plates-on-plain-ring", "extended inner plates run on plain and ramped rings");
const PLATES_ON_NARROW_WIDE: Reason = Reason::caveat(
    "extended-plates-on-narrow-wide",
    "extended inner plates foul the wide teeth of a narrow-wide ring that is not made for them: better avoided",
)
.damage()
.remedies(&[RIGHT_RING]);
const SMALL_ROLLERS: Reason = Reason::caveat(
    "normal-chain-on-flat-top-ring",
    "the smaller rollers of a normal 12-speed chain seat on a single flat-top ring, as a workshop has tried; no maker claims it",
)
.tolerated()
.remedies(&[RIGHT_RING]);
const LARGE_ROLLERS: Reason =
    Reason::no("flat-top-chain-on-other-ring", "the rollers of a flat-top chain do not seat on this ring")
        .injury()
        .remedies(&[RIGHT_RING, RIGHT_CHAIN]);
const PROFILE_CLOSED: Reason =
    Reason::no("ring-profile-differs", "the ring is made for another chain profile")
        .remedies(&[RIGHT_RING, RIGHT_CHAIN]);
const PROFILE_CONTRADICTORY: Reason = Reason::unclear(
    "profile-contradicts-speed",
    "the stated profile does not exist at the stated number of speeds: one of the two is wrong",
);

const PROFILE: Rule = Rule {
    code: "profile",
    slots: &[Chain, Ring],
    inputs: INPUTS,
    reasons: &[
        &PROFILE_TAKEN,
        &PLATES_ON_PLAIN,
        &PLATES_ON_NARROW_WIDE,
        &SMALL_ROLLERS,
        &LARGE_ROLLERS,
        &PROFILE_CLOSED,
        &PROFILE_CONTRADICTORY,
    ],
    judge: judge_profile,
};

/// What is known of the ring's profile.
#[derive(Clone, Copy, PartialEq, Eq)]
enum RingProfile<'a> {
    Ordinary,
    Stated(crate::part::interface::Key, &'a str),
    Contradictory,
}

fn judge_profile(given: &Given<'_>) -> Judged {
    let chain = profile(given, Chain, attr::CHAIN_SPEED);
    // An ordinary chain on a ring of which nothing is stated: the generation asks.
    let unstated =
        given.is_missing(Ring, attr::RING_PROFILE) && given.is_missing(Ring, attr::RING_SPEED_CLASS);
    let below_twelve =
        given.known(Chain, attr::CHAIN_SPEED).is_some_and(|speed| speed.at_most(NORMAL_UP_TO) == Ok(true));
    if unstated && below_twelve && chain.is_ok_and(Profile::normal) {
        return Err(Stop::Silent);
    }
    let ring = ring_profile(given);
    let (chain, ring) = (chain?, ring?);
    if chain == Profile::Contradictory || ring == RingProfile::Contradictory {
        return say(&PROFILE_CONTRADICTORY);
    }
    if taken(given, chain, ring) {
        return say(&PROFILE_TAKEN);
    }
    let name = match ring {
        RingProfile::Stated(_, name) => name,
        RingProfile::Ordinary | RingProfile::Contradictory => RING_NORMAL,
    };
    if chain.flat() {
        return say(&LARGE_ROLLERS);
    }
    if chain.normal() && name == RING_FLAT_TOP {
        let twelve = given.num(Chain, attr::CHAIN_SPEED);
        let position = given.word(Ring, attr::RING_POSITION);
        let single = position? == RingPosition::Single;
        return say(if single && twelve?.equals(12)? { &SMALL_ROLLERS } else { &PROFILE_CLOSED });
    }
    if chain.name() == PROFILE_EXTENDED && matches!(name, RING_NORMAL | RING_FLAT_TOP_OR_NORMAL) {
        let narrow_wide = given.word(Ring, attr::TOOTH_PROFILE)? == ToothProfile::NarrowWide;
        return say(if narrow_wide { &PLATES_ON_NARROW_WIDE } else { &PLATES_ON_PLAIN });
    }
    say(&PROFILE_CLOSED)
}

fn ring_profile<'a>(given: &Given<'a>) -> Result<RingProfile<'a>, Stop> {
    let low = match given.known(Ring, attr::RING_SPEED_CLASS) {
        Some(class) => class.at_most(NORMAL_UP_TO)?,
        None => false,
    };
    if low && given.is_missing(Ring, attr::RING_PROFILE) {
        return Ok(RingProfile::Ordinary);
    }
    let key = given.key(Ring, attr::RING_PROFILE)?;
    let name = given.name(key);
    Ok(if low && name != RING_NORMAL { RingProfile::Contradictory } else { RingProfile::Stated(key, name) })
}

fn taken(given: &Given<'_>, chain: Profile<'_>, ring: RingProfile<'_>) -> bool {
    match (ring, chain) {
        (RingProfile::Stated(ring, _), Profile::Stated(chain, _)) => given.accepts(ring, chain),
        (RingProfile::Stated(_, name), _) => {
            matches!(name, RING_NORMAL | RING_EXTENDED | RING_FLAT_TOP_OR_NORMAL)
        }
        (_, chain) => chain.normal(),
    }
}

// Generation.

/// Chains and rings up to this many speeds are one class.
const WIDE_CLASS: i64 = 8;
/// From this number of speeds on a part is made for gears.
const GEARED_FROM: i64 = 5;

const GENERATION_SUITS: Reason =
    Reason::fits("ring-suits-chain", "the ring suits a chain of this number of speeds");
const GENERATION_GEARED: Reason = Reason::fits(
    "one-of-several-rings",
    "one of several rings takes any derailleur chain of up to 11 speeds: rings are more forgiving than cogs",
);
const GENERATION_LATER: Reason = Reason::caveat(
    "later-chain-on-narrow-wide",
    "a chain for {chain} speeds on a narrow-wide ring for {ring}: usually fine, it drops a little more easily",
)
.remedies(&[RIGHT_RING]);

/// One of several rings under a derailleur chain of up to 11 speeds: such rings take any of these chains.
fn geared(given: &Given<'_>, chain: Result<Num<Count>, Stop>) -> Result<bool, Stop> {
    let several =
        known::word(given, Ring, attr::RING_POSITION).is_some_and(|place| place != RingPosition::Single);
    Ok(several && chain.is_ok_and(|chain| chain.within(GEARED_FROM, NORMAL_UP_TO) == Ok(true)))
}

const GENERATION: Rule = Rule {
    code: "generation",
    slots: &[Chain, Ring],
    inputs: INPUTS,
    reasons: &[&GENERATION_SUITS, &GENERATION_GEARED, &GENERATION_LATER],
    judge: |given| {
        if known_flat(given, Chain) || decided_otherwise(given)? {
            return Err(Stop::Silent);
        }
        let chain = given.num(Chain, attr::CHAIN_SPEED);
        if given.is_missing(Ring, attr::RING_SPEED_CLASS) && geared(given, chain)? {
            return say(&GENERATION_GEARED);
        }
        let ring = given.num(Ring, attr::RING_SPEED_CLASS);
        let (chain, ring) = (chain?, ring?);
        // Single-speed parts are a matter of width alone.
        if chain.at_most(GEARED_FROM - 1)? || ring.at_most(GEARED_FROM - 1)? {
            return Err(Stop::Silent);
        }
        let later = chain.at_least(NORMAL_UP_TO + 1)? && ring.at_most(NORMAL_UP_TO)?;
        if later && extended(given) {
            return Err(Stop::Silent);
        }
        let narrow_wide = later && given.word(Ring, attr::TOOTH_PROFILE)? == ToothProfile::NarrowWide;
        let reason = if narrow_wide { &GENERATION_LATER } else { &GENERATION_SUITS };
        Ok(Judgement::from(reason).with("chain", chain).with("ring", ring))
    },
};

/// Width or profile already decides, where a number of speeds is not stated.
fn decided_otherwise(given: &Given<'_>) -> Result<bool, Stop> {
    let classed =
        !given.is_missing(Chain, attr::CHAIN_SPEED) && !given.is_missing(Ring, attr::RING_SPEED_CLASS);
    if classed {
        return Ok(false);
    }
    let width = !given.is_missing(Chain, attr::INNER_WIDTH) && !given.is_missing(Ring, attr::TOOTH_THICKNESS);
    let chain_profile = match given.known(Chain, attr::CHAIN_SPEED) {
        Some(speed) => speed.at_most(NORMAL_UP_TO)? || !given.is_missing(Chain, attr::CHAIN_PROFILE),
        None => !given.is_missing(Chain, attr::CHAIN_PROFILE),
    };
    Ok(width || (chain_profile && !given.is_missing(Ring, attr::RING_PROFILE)))
}

fn extended(given: &Given<'_>) -> bool {
    !given.is_missing(Chain, attr::CHAIN_PROFILE)
        && given.key(Chain, attr::CHAIN_PROFILE).is_ok_and(|key| given.name(key) == PROFILE_EXTENDED)
}

// Width.

const WIDTH: Rule = Rule {
    code: "width",
    slots: &[Chain, Ring],
    inputs: INPUTS,
    reasons: tooth_width::REASONS,
    judge: |given| {
        let known =
            !given.is_missing(Chain, attr::INNER_WIDTH) && !given.is_missing(Ring, attr::TOOTH_THICKNESS);
        // Geared rings and chains are judged by their generation, where nobody measured.
        if !known && (geared_ring(given)? && geared_chain(given)? || ring_unstated(given)) {
            return Err(Stop::Silent);
        }
        let inner = given.num(Chain, attr::INNER_WIDTH);
        let tooth = given.num(Ring, attr::TOOTH_THICKNESS);
        tooth_width::judge(inner?, tooth?)
    },
};

fn geared_ring(given: &Given<'_>) -> Result<bool, Stop> {
    let class = given.known(Ring, attr::RING_SPEED_CLASS);
    let geared = class.map_or(Ok(false), |class: Num<Count>| class.at_least(GEARED_FROM))?;
    Ok(geared || class.is_none() && !given.is_missing(Ring, attr::RING_PROFILE))
}

fn geared_chain(given: &Given<'_>) -> Result<bool, Stop> {
    let speed = given.known(Chain, attr::CHAIN_SPEED);
    let geared = speed.map_or(Ok(false), |speed: Num<Count>| speed.at_least(GEARED_FROM))?;
    Ok(geared || speed.is_none() && !given.is_missing(Chain, attr::CHAIN_PROFILE))
}

/// Nothing is stated by which the ring could be placed: the generation asks for its class.
fn ring_unstated(given: &Given<'_>) -> bool {
    given.is_missing(Ring, attr::RING_SPEED_CLASS)
        && given.is_missing(Ring, attr::RING_PROFILE)
        && given.is_missing(Ring, attr::TOOTH_THICKNESS)
}

// Ring spacing.

const NARROWER_THAN_RINGS: Reason = Reason::caveat(
    "chain-narrower-than-rings",
    "the chain is made for {chain} speeds, the rings are spaced for {ring}: it may wedge between two rings or ride on top of the inner one",
)
.damage()
.remedies(&[RIGHT_CHAIN]);

const RING_SPACING: Rule = Rule {
    code: "ring-spacing",
    slots: &[Chain, Ring, Rings],
    inputs: &[
        (Chain, attr::CHAIN_SPEED.attribute()),
        (Chain, attr::CHAIN_PROFILE.attribute()),
        (Ring, attr::RING_SPEED_CLASS.attribute()),
        (Rings, attr::RING_COUNT.attribute()),
    ],
    reasons: &[&NARROWER_THAN_RINGS],
    // A drawback of known parts: silent unless all are known.
    judge: |given| {
        let chain = given.known(Chain, attr::CHAIN_SPEED).ok_or(Stop::Silent)?;
        let ring = given.known(Ring, attr::RING_SPEED_CLASS).ok_or(Stop::Silent)?;
        let count = given.known(Rings, attr::RING_COUNT).ok_or(Stop::Silent)?;
        if known_flat(given, Chain) || count.equals(1)? || ring.at_most(GEARED_FROM - 1)? {
            return Err(Stop::Silent);
        }
        if chain.at_most(WIDE_CLASS)? || (chain - ring).at_most(0)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&NARROWER_THAN_RINGS).with("chain", chain).with("ring", ring))
    },
};
