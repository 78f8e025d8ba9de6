//! # Quick link on chain
//!
//! ## What it checks
//! The class and the profile of a quick link against its chain, and whether a used one may be closed again.
//!
//! ## Why it matters
//! A link that is too narrow does not close, one that is too wide stands out, rubs and may open: the drive drops under
//! load and the rider falls.
//!
//! ## Numbers
//! * Link and chain of one speed; 6, 7 and 8 speeds are one class.
//!
//! ## Exceptions
//! * A link one class wider closes on the narrower chain and brings the rider home, no more; never on a new chain.
//! * A narrower link never goes on a wider chain.
//! * Flat-top chains: one link serves 12 and 13 speeds, the profile decides.
//! * Many 11- and 12-speed links are single use by their makers. A new chain gets a new link.
//!
//! ## Sources
//! Magazine and forum answers on quick links, seen as excerpts; common practice, no source. The maker's own
//! instructions decide.

use super::chain_profile::{NORMAL_UP_TO, Profile, known_flat, profile};
use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Input, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{self, Chain, QuickLink};
use crate::part::units::Count;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "quick-link-on-chain",
    title: "Quick link on chain",
    file: include_str!("quick_link_on_chain.rs"),
    source: "magazine and forum answers, seen as excerpts; common practice",
    rules: &[CLASS, NEW_CHAIN, PROFILE, REUSE],
};

const RIGHT_LINK: Remedy = Remedy::replace(Kind::QuickLink, "a quick link of the chain's speed and profile");
const SEAT: &str = "close the link under load on the pedal and check that both plates lie flat";

const INPUTS: &[Input] = &[
    (QuickLink, attr::CHAIN_SPEED.attribute()),
    (Chain, attr::CHAIN_SPEED.attribute()),
    (QuickLink, attr::LABELLED_6_7_8.attribute()),
    (Chain, attr::LABELLED_6_7_8.attribute()),
    (QuickLink, attr::CHAIN_PROFILE.attribute()),
    (Chain, attr::CHAIN_PROFILE.attribute()),
    (Chain, attr::CUT_TO_LENGTH.attribute()),
];

// Class.

const LINK_RIGHT: Reason = Reason::fits("link-of-the-class", "the link is made for this chain").note(SEAT);
const LINK_WIDER: Reason = Reason::caveat(
    "link-one-class-wider",
    "the link is made for {link} speeds, the chain for {chain}: it closes and brings the rider home, then the right link goes on",
)
.tolerated()
.strong()
.damage()
.remedies(&[RIGHT_LINK]);
const LINK_FAR_WIDER: Reason = Reason::no(
    "link-too-wide",
    "the link is made for {link} speeds, the chain for {chain}: it stands out, rubs and may open",
)
.injury()
.remedies(&[RIGHT_LINK]);
const LINK_NARROWER: Reason = Reason::no(
    "link-too-narrow",
    "the link is made for {link} speeds, the chain for {chain}: it does not close, or binds",
)
.injury()
.remedies(&[RIGHT_LINK]);

const CLASS: Rule = Rule {
    code: "class",
    slots: &[QuickLink, Chain],
    inputs: INPUTS,
    reasons: &[&LINK_RIGHT, &LINK_WIDER, &LINK_FAR_WIDER, &LINK_NARROWER],
    judge: class,
};

fn class(given: &Given<'_>) -> Judged {
    let (link, chain) = classes(given)?;
    let reason = match chain - link {
        0 => &LINK_RIGHT,
        1 => &LINK_WIDER,
        2.. => &LINK_FAR_WIDER,
        _ => &LINK_NARROWER,
    };
    let count = Num::<Count>::exact;
    Ok(Judgement::from(reason).with("link", count(link)).with("chain", count(chain)))
}

/// Speeds of link and chain, with 5 to 8 as one class; silent between flat-top parts, which their profile decides.
fn classes(given: &Given<'_>) -> Result<(i64, i64), Stop> {
    if known_flat(given, QuickLink) && known_flat(given, Chain) {
        return Err(Stop::Silent);
    }
    let link = class_of(given, QuickLink);
    let chain = class_of(given, Chain);
    Ok((link?, chain?))
}

fn class_of(given: &Given<'_>, slot: Slot) -> Result<i64, Stop> {
    let labelled = given.is_known(slot, attr::LABELLED_6_7_8);
    if labelled && given.is_missing(slot, attr::CHAIN_SPEED) {
        return Ok(8);
    }
    let speeds = given.num(slot, attr::CHAIN_SPEED)?;
    let class = if speeds.within(5, 8)? {
        8
    } else if speeds.low == speeds.high {
        speeds.low
    } else {
        return Err(Stop::Undecided);
    };
    // A label and a speed that contradict one another leave it open.
    if labelled && class != 8 { Err(Stop::Undecided) } else { Ok(class) }
}

const NEW_CHAIN_WRONG_LINK: Reason =
    Reason::no("wrong-link-on-new-chain", "a new chain is never closed with the link of another class")
        .injury()
        .remedies(&[RIGHT_LINK]);

const NEW_CHAIN: Rule = Rule {
    code: "new-chain",
    slots: &[QuickLink, Chain],
    inputs: INPUTS,
    reasons: &[&NEW_CHAIN_WRONG_LINK],
    // Only where the chain is known not to have been cut yet; the class asks for what is missing.
    judge: |given| {
        let fresh = !given.is_missing(Chain, attr::CUT_TO_LENGTH)
            && given.flag(Chain, attr::CUT_TO_LENGTH) == Ok(false);
        let wider = classes(given).is_ok_and(|(link, chain)| chain - link == 1);
        if fresh && wider { say(&NEW_CHAIN_WRONG_LINK) } else { Err(Stop::Silent) }
    },
};

// Profile.

const PROFILE_EQUAL: Reason = Reason::fits("link-profile-equal", "link and chain have the same profile");
const PROFILE_DIFFERS: Reason =
    Reason::no("link-profile-differs", "the link is made for another chain profile: it may open under load")
        .injury()
        .remedies(&[RIGHT_LINK]);
const PROFILE_CONTRADICTORY: Reason = Reason::unclear(
    "profile-contradicts-speed",
    "the stated profile does not exist at the stated number of speeds: one of the two is wrong",
);

const PROFILE: Rule = Rule {
    code: "profile",
    slots: &[QuickLink, Chain],
    inputs: INPUTS,
    reasons: &[&PROFILE_EQUAL, &PROFILE_DIFFERS, &PROFILE_CONTRADICTORY],
    judge: |given| {
        let link = link_profile(given, QuickLink);
        let chain = link_profile(given, Chain);
        let (link, chain) = (link?, chain?);
        if link == Profile::Contradictory || chain == Profile::Contradictory {
            return say(&PROFILE_CONTRADICTORY);
        }
        let equal = match (link, chain) {
            (Profile::Stated(link, _), Profile::Stated(chain, _)) => given.accepts(link, chain),
            _ => false,
        };
        say(if equal || (link.normal() && chain.normal()) { &PROFILE_EQUAL } else { &PROFILE_DIFFERS })
    },
};

/// A part labelled for 6, 7 or 8 speeds is normal too, even where its speed is not stated.
fn link_profile<'a>(given: &Given<'a>, slot: Slot) -> Result<Profile<'a>, Stop> {
    if !given.is_known(slot, attr::LABELLED_6_7_8) {
        return profile(given, slot, attr::CHAIN_SPEED);
    }
    let fast = match given.known(slot, attr::CHAIN_SPEED) {
        Some(speeds) => !speeds.at_most(NORMAL_UP_TO)?,
        None => false,
    };
    if fast {
        return Ok(Profile::Contradictory);
    }
    if given.is_missing(slot, attr::CHAIN_PROFILE) {
        return Ok(Profile::NormalByDefinition);
    }
    let key = given.key(slot, attr::CHAIN_PROFILE)?;
    let stated = Profile::Stated(key, given.name(key));
    Ok(if stated.normal() { stated } else { Profile::Contradictory })
}

// Reuse.

const REUSE_ALLOWED: Reason =
    Reason::fits("reuse-allowed", "its maker allows closing the used link again").note(SEAT);
const REUSE_FORBIDDEN: Reason =
    Reason::no("used-single-use-link", "the link is single use and has been closed before")
        .injury()
        .remedies(&[RIGHT_LINK]);

const REUSE: Rule = Rule {
    code: "reuse",
    slots: &[QuickLink, Chain],
    inputs: &[(QuickLink, attr::USED.attribute()), (QuickLink, attr::REUSABLE.attribute())],
    reasons: &[&REUSE_ALLOWED, &REUSE_FORBIDDEN],
    // New links are the rule: silent unless it is known to have been used.
    judge: |given| {
        if !given.is_known(QuickLink, attr::USED) {
            return Err(Stop::Silent);
        }
        say(if given.flag(QuickLink, attr::REUSABLE)? { &REUSE_ALLOWED } else { &REUSE_FORBIDDEN })
    },
};
