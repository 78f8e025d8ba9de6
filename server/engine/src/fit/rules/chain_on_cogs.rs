//! # Chain on cogs
//!
//! ## What it checks
//! The speed of the chain against the spacing of the cogs, its profile, its width against the next cog, its inner
//! plates against the teeth, and wide chains under derailleurs.
//!
//! ## Why it matters
//! A chain that is too wide rubs or jams on the next cog; one with other rollers does not seat, rides up on the teeth
//! and drops the drive under load.
//!
//! ## Numbers
//! * step = speed of the chain - class of the cogs. 0: right. 1 or more: floats a little. Less, from 9 speeds on: too wide.
//! * 5 to 8 speeds are one class where the chain is labelled 6/7/8 or measures at most 7.3 mm. The old 7.8 mm chain
//!   belongs to wide-spaced freewheels: it rubs on 7 cogs and does not go on 8.
//! * clearance = cog pitch - (cog thickness + chain width) / 2: from 0.07 mm clear, from 0 tight, below it hits the
//!   next cog. It decides nothing where speed and class are known.
//! * inner width - tooth: from 0.10 mm clear, from 0.05 tight, below too thick.
//!
//! ## Exceptions
//! * Flat-top chains: the profile alone decides, one chain serves 12 and 13 cogs.
//! * The class is what the cogs are spaced for, not their number: cut-down and thick-cog sets differ.
//! * Up to 11 speeds every chain is of normal profile; of 12 and 13 it must be stated.
//! * The old 7-speed cogs of 2.35 mm take any chain labelled 6/7/8, although the gap leaves only 0.03 mm.
//!
//! ## Sources
//! Workshop pages on chain compatibility and a shop's table of outer widths, seen as excerpts; clearances computed,
//! thresholds reasoned, not a standard; plain dimensions follow ISO 9633.

use super::chain_profile::{Profile, known_flat, profile};
use super::tooth_width::{self, EIGHTH_INCH_FROM_UM};
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Chain, Cogs, RearDerailleur};
use crate::part::interfaces::{PROFILE_EXTENDED, PROFILE_FLAT_TOP_MOUNTAIN};
use crate::part::units::{Count, Micrometres};
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "chain-on-cogs",
    title: "Chain on cogs",
    file: include_str!("chain_on_cogs.rs"),
    source: "workshop pages on chain compatibility, seen as excerpts; clearances computed",
    rules: &[PROFILE, CLASS, CLEARANCE, INNER_WIDTH, WIDE_CHAIN, WORN],
};

const CHAIN_SPEED: Input = (Chain, attr::CHAIN_SPEED.attribute());
const CHAIN_PROFILE: Input = (Chain, attr::CHAIN_PROFILE.attribute());
const COG_PROFILE: Input = (Cogs, attr::CHAIN_PROFILE.attribute());
const CHAIN_CLASS: Input = (Cogs, attr::CHAIN_CLASS.attribute());

const RIGHT_CHAIN: Remedy = Remedy::replace(Kind::Chain, "a chain of the cogs' class and profile");

// Profile.

const PROFILE_TAKEN: Reason = Reason::fits("profile-taken", "the cogs are cut for this chain profile");
const PROFILE_MIXED: Reason = Reason::caveat(
    "inner-plates-mixed",
    "chain or cogs are made for extended inner plates and the other is not: it runs, but shifts less well under load",
)
.remedies(&[RIGHT_CHAIN]);
const PROFILE_REPORTED: Reason = Reason::caveat(
    "flat-top-reported",
    "the mountain flat-top chain is reported to run on ordinary 12-speed cogs of its family, not published for them",
)
.tolerated()
.remedies(&[RIGHT_CHAIN]);
const ROLLERS_TOO_LARGE: Reason =
    Reason::no("rollers-too-large", "the rollers of a flat-top chain do not seat between ordinary teeth")
        .injury()
        .remedies(&[RIGHT_CHAIN]);
const ROLLERS_TOO_SMALL: Reason = Reason::no(
    "rollers-too-small",
    "the rollers of this chain sit loose between teeth cut for a flat-top chain",
)
.damage()
.remedies(&[RIGHT_CHAIN]);
const PROFILE_CLOSED: Reason =
    Reason::no("other-profile", "chain and cogs belong to different closed groups").remedies(&[RIGHT_CHAIN]);
const PROFILE_CONTRADICTORY: Reason = Reason::unclear(
    "profile-contradicts-speed",
    "the stated profile does not exist at the stated number of speeds: one of the two is wrong",
);

const PROFILE: Rule = Rule {
    code: "profile",
    slots: &[Chain, Cogs],
    inputs: &[CHAIN_SPEED, CHAIN_PROFILE, COG_PROFILE, CHAIN_CLASS],
    reasons: &[
        &PROFILE_TAKEN,
        &PROFILE_MIXED,
        &PROFILE_REPORTED,
        &ROLLERS_TOO_LARGE,
        &ROLLERS_TOO_SMALL,
        &PROFILE_CLOSED,
        &PROFILE_CONTRADICTORY,
    ],
    judge: |given| {
        let chain = profile(given, Chain, attr::CHAIN_SPEED);
        let cogs = profile(given, Cogs, attr::CHAIN_CLASS);
        let (chain, cogs) = (chain?, cogs?);
        if chain == Profile::Contradictory || cogs == Profile::Contradictory {
            return say(&PROFILE_CONTRADICTORY);
        }
        if profile_taken(given, chain, cogs) {
            return say(&PROFILE_TAKEN);
        }
        if chain.name() == PROFILE_FLAT_TOP_MOUNTAIN && cogs.normal() {
            let twelve = given.num(Cogs, attr::CHAIN_CLASS)?.equals(12)?;
            return say(if twelve { &PROFILE_REPORTED } else { &ROLLERS_TOO_LARGE });
        }
        let plates = |one: Profile, other: Profile| one.name() == PROFILE_EXTENDED && other.normal();
        say(if chain.flat() {
            &ROLLERS_TOO_LARGE
        } else if cogs.flat() {
            &ROLLERS_TOO_SMALL
        } else if plates(chain, cogs) || plates(cogs, chain) {
            &PROFILE_MIXED
        } else {
            &PROFILE_CLOSED
        })
    },
};

fn profile_taken(given: &Given<'_>, chain: Profile, cogs: Profile) -> bool {
    match (cogs, chain) {
        (Profile::Stated(cogs, _), Profile::Stated(chain, _)) if given.accepts(cogs, chain) => true,
        _ => cogs.normal() && chain.normal(),
    }
}

// Class.

/// Chains for up to this many speeds are one class.
const WIDE_CLASS: i64 = 8;
/// Widest chain of that class over the pins.
const WIDE_CLASS_UM: i64 = 7_300;
/// The old chain for wide-spaced freewheels.
const OLD_CHAIN_UM: i64 = 7_800;

const SAME_CLASS: Reason = Reason::fits("same-class", "the cogs are spaced for this chain");
const NARROWER: Reason = Reason::caveat(
    "narrower-chain",
    "the chain is made for {chain} speeds, the cogs are spaced for {cogs}: it floats a little and shifts slightly slower",
)
.remedies(&[RIGHT_CHAIN]);
const MUCH_NARROWER: Reason = Reason::caveat(
    "much-narrower-chain",
    "the chain is made for {chain} speeds, the cogs are spaced for {cogs}: it floats, shifts slower and wears sooner",
)
.strong()
.remedies(&[RIGHT_CHAIN]);
const TOO_WIDE: Reason = Reason::no(
    "chain-too-wide",
    "the chain is too wide for cogs spaced for {cogs} speeds: it rubs or jams on the next cog",
)
.damage()
.remedies(&[
    Remedy::replace(Kind::Chain, "a chain for {cogs} speeds with its quick link"),
    Remedy::replace(Kind::Cassette, "cogs spaced for the chain, with shifter and derailleur to match"),
]);
const OLD_CHAIN_RUBS: Reason = Reason::caveat(
    "old-chain-rubs",
    "the chain of {width} is made for wide-spaced freewheels and rubs on cogs spaced for 7 speeds",
)
.remedies(&[RIGHT_CHAIN]);
const NOT_SHAPED: Reason = Reason::caveat(
    "single-speed-chain",
    "a single-speed chain of this width goes between the cogs but is not shaped to shift",
)
.remedies(&[RIGHT_CHAIN]);
const WIDTH_CONTRADICTORY: Reason = Reason::unclear(
    "width-contradicts-label",
    "a chain of {width} over the pins is not one for 7 or more speeds: measure it again or read the box again",
);

const CLASS: Rule = Rule {
    code: "class",
    slots: &[Chain, Cogs],
    inputs: &[
        CHAIN_SPEED,
        CHAIN_CLASS,
        CHAIN_PROFILE,
        COG_PROFILE,
        (Chain, attr::LABELLED_6_7_8.attribute()),
        (Chain, attr::OUTER_WIDTH.attribute()),
        (Cogs, attr::COG_COUNT.attribute()),
        (Cogs, attr::COG_PITCH.attribute()),
        (Cogs, attr::COG_THICKNESS.attribute()),
    ],
    reasons: &[
        &SAME_CLASS,
        &NARROWER,
        &MUCH_NARROWER,
        &TOO_WIDE,
        &OLD_CHAIN_RUBS,
        &NOT_SHAPED,
        &WIDTH_CONTRADICTORY,
    ],
    judge: class,
};

fn class(given: &Given<'_>) -> Judged {
    if known_flat(given, Chain) || known_flat(given, Cogs) || is_single(given)? {
        return Err(Stop::Silent);
    }
    let cogs = given.num(Cogs, attr::CHAIN_CLASS);
    let speed = given.num(Chain, attr::CHAIN_SPEED);
    let width = given.known(Chain, attr::OUTER_WIDTH);
    let narrow = width.map(|width| width.at_most(WIDE_CLASS_UM)).transpose()?;
    if let (Some(width), Some(false)) = (width, narrow) {
        return wide_chain(given, width, cogs?, speed.ok());
    }
    let (cogs, speed) = (cogs?, speed?);
    let reason = if speed.at_most(WIDE_CLASS)? && cogs.at_most(WIDE_CLASS)? {
        one_class(given, speed, narrow)?
    } else {
        let step = speed - cogs;
        if step.at_most(-1)? {
            if speed.at_least(12)? {
                // A flat-top chain serves 12 and 13 cogs alike: only the profiles can tell.
                let chain = given.key(Chain, attr::CHAIN_PROFILE);
                let cogs = given.key(Cogs, attr::CHAIN_PROFILE);
                chain.and(cogs)?;
            }
            &TOO_WIDE
        } else if step.equals(0)? {
            &SAME_CLASS
        } else if step.at_most(2)? {
            &NARROWER
        } else {
            &MUCH_NARROWER
        }
    };
    let judgement = Judgement::from(reason).with("chain", speed).with("cogs", cogs);
    Ok(match clearance(given) {
        Some(clearance) => judgement.with("clearance", clearance.over(2)),
        None => judgement,
    })
}

/// A single cog has no neighbour.
pub(super) fn is_single(given: &Given<'_>) -> Result<bool, Stop> {
    given.known(Cogs, attr::COG_COUNT).map_or(Ok(false), |count| count.equals(1))
}

/// Chain and cogs of up to 8 speeds: width or label decides.
fn one_class(given: &Given<'_>, speed: Num<Count>, narrow: Option<bool>) -> Result<&'static Reason, Stop> {
    let labelled = given.is_known(Chain, attr::LABELLED_6_7_8) || speed.at_least(7)?;
    if narrow.is_none() && !labelled {
        let width = given.num(Chain, attr::OUTER_WIDTH).map(|_| ());
        let label = given.flag(Chain, attr::LABELLED_6_7_8).map(|_| ());
        width.and(label)?;
        return Err(Stop::Missing);
    }
    Ok(if speed.at_most(4)? { &NOT_SHAPED } else { &SAME_CLASS })
}

/// Over 7.3 mm the width decides, whatever the speed is said to be.
fn wide_chain(
    given: &Given<'_>,
    width: Num<Micrometres>,
    cogs: Num<Count>,
    speed: Option<Num<Count>>,
) -> Judged {
    let contradicted =
        given.is_known(Chain, attr::LABELLED_6_7_8) || speed.map_or(Ok(false), |speed| speed.at_least(7))?;
    let reason = if contradicted {
        &WIDTH_CONTRADICTORY
    } else if cogs.at_least(WIDE_CLASS)? || !width.at_most(OLD_CHAIN_UM)? {
        &TOO_WIDE
    } else if cogs.at_least(7)? {
        &OLD_CHAIN_RUBS
    } else {
        &SAME_CLASS
    };
    let judgement = Judgement::from(reason).with("width", width).with("cogs", cogs);
    Ok(match clearance(given) {
        Some(clearance) => judgement.with("clearance", clearance.over(2)),
        None => judgement,
    })
}

// Clearance.

/// Twice the clearance that is enough: 0.07 mm.
const CLEAR_TWICE_UM: i64 = 140;

/// Twice the room between the chain on one cog and the face of the next, where all three lengths are known.
fn clearance(given: &Given<'_>) -> Option<Num<Micrometres>> {
    let pitch = given.known(Cogs, attr::COG_PITCH)?;
    let cog = given.known(Cogs, attr::COG_THICKNESS)?;
    let width = given.known(Chain, attr::OUTER_WIDTH)?;
    Some(pitch.times(2) - cog - width)
}

const CLEARS: Reason = Reason::fits("clears", "the chain clears the next cog by {clearance}").geometry();
const TIGHT: Reason =
    Reason::caveat("tight", "the chain clears the next cog by only {clearance}: it may rub under load")
        .geometry()
        .remedies(&[RIGHT_CHAIN]);
const HITS: Reason =
    Reason::no("hits-next-cog", "the chain is too wide for this pitch: {clearance} to the next cog")
        .geometry()
        .damage()
        .remedies(&[RIGHT_CHAIN]);

const CLEARANCE: Rule = Rule {
    code: "clearance",
    slots: &[Chain, Cogs],
    inputs: CLASS.inputs,
    reasons: &[&CLEARS, &TIGHT, &HITS],
    // The class decides where it can; this is the coarser judge.
    judge: |given| {
        let classed =
            !given.is_missing(Chain, attr::CHAIN_SPEED) && !given.is_missing(Cogs, attr::CHAIN_CLASS);
        if classed || known_flat(given, Chain) || known_flat(given, Cogs) || is_single(given)? {
            return Err(Stop::Silent);
        }
        let twice = clearance(given).ok_or(Stop::Silent)?;
        let reason = if twice.at_least(CLEAR_TWICE_UM)? {
            &CLEARS
        } else if twice.at_least(0)? {
            &TIGHT
        } else {
            &HITS
        };
        Ok(Judgement::from(reason).with("clearance", twice.over(2)))
    },
};

// Inner width.

/// Thicker cogs of the usual sets than this are the old 7-speed variant.
const THICK_OLD_COG_UM: i64 = 2_290;

const INNER_WIDTH: Rule = Rule {
    code: "inner-width",
    slots: &[Chain, Cogs],
    inputs: &[
        (Chain, attr::INNER_WIDTH.attribute()),
        (Cogs, attr::COG_THICKNESS.attribute()),
        (Cogs, attr::COG_COUNT.attribute()),
        (Chain, attr::LABELLED_6_7_8.attribute()),
        CHAIN_SPEED,
    ],
    reasons: tooth_width::REASONS,
    // Rarely known and rarely wrong under a derailleur: silent unless both are known.
    judge: |given| {
        if is_single(given)? {
            return Err(Stop::Silent);
        }
        let inner = given.known(Chain, attr::INNER_WIDTH).ok_or(Stop::Silent)?;
        let tooth = given.known(Cogs, attr::COG_THICKNESS).ok_or(Stop::Silent)?;
        let labelled = given.is_known(Chain, attr::LABELLED_6_7_8)
            || given
                .known(Chain, attr::CHAIN_SPEED)
                .map_or(Ok(false), |speed| speed.within(6, WIDE_CLASS))?;
        if labelled && tooth.at_least(THICK_OLD_COG_UM)? {
            return Err(Stop::Silent);
        }
        tooth_width::judge(inner, tooth)
    },
};

// Wide chain under a derailleur.

const WIDE_UNDER_DERAILLEUR: Reason = Reason::no(
    "wide-chain-under-derailleur",
    "a chain of {inner} between the plates (1/8 in) does not run through a derailleur",
)
.remedies(&[Remedy::replace(Kind::Chain, "a derailleur chain of the cogs' class")]);

const WIDE_CHAIN: Rule = Rule {
    code: "wide-chain",
    slots: &[Chain, RearDerailleur],
    inputs: &[(Chain, attr::INNER_WIDTH.attribute())],
    reasons: &[&WIDE_UNDER_DERAILLEUR],
    judge: |given| {
        let inner = given.known(Chain, attr::INNER_WIDTH).ok_or(Stop::Silent)?;
        if !inner.at_least(EIGHTH_INCH_FROM_UM)? {
            return Err(Stop::Silent);
        }
        Ok(Judgement::from(&WIDE_UNDER_DERAILLEUR).with("inner", inner))
    },
};

// Wear.

const WORN_CHAIN: Reason = Reason::caveat(
    "worn-chain",
    "the chain is worn: it wears the cogs to its own pitch, and a new chain will then skip on them",
)
.damage()
.remedies(&[Remedy::replace(Kind::Chain, "a new chain, with a new quick link")]);

const WORN: Rule = Rule {
    code: "worn-chain",
    slots: &[Chain, Cogs],
    inputs: &[(Chain, attr::WORN.attribute())],
    reasons: &[&WORN_CHAIN],
    judge: |given| if given.is_known(Chain, attr::WORN) { say(&WORN_CHAIN) } else { Err(Stop::Silent) },
};
