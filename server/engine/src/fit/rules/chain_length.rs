//! # Chain length
//!
//! ## What it checks
//! The links of the chain against the loop over the largest ring and the largest cog.
//!
//! ## Why it matters
//! A chain too short for the two largest tears the derailleur off at the first wrong shift and can lock the wheel.
//!
//! ## Numbers
//! * need = 2 x ceil((L + 2) / 2 - 0.05) links of 12.7 mm, with L the exact loop over both sprockets.
//! * Suspension adds twice the growth of the chainstay, rounded up to whole pairs of links (25.4 mm).
//!
//! ## Exceptions
//! * A longer chain is cut: only too few links are wrong.
//! * Coaxial mounts: the chain length sets the gap to the cogs, so only the maker's table for stay, ring and cassette
//!   will do.
//!
//! ## Sources
//! Loop computed; "largest and largest plus two" is common practice, no source. The maker's own instruction decides, and
//! wrapping the chain around both on the bike confirms.

use crate::fit::num::Num;
use crate::fit::reason::{Reason, Remedy};
use crate::fit::rule::{Given, Judged, Judgement, Mating, Rule, Stop, say};
use crate::fit::slot::Slot::{Chain, Cogs, Frame, RearDerailleur, Rings};
use crate::gearing::chain::{Stay, growth_links, workshop_links};
use crate::part::interfaces::MOUNT_COAXIAL;
use crate::part::units::{Links, Micrometres, Teeth};
use crate::part::word::Geometry;
use crate::part::{Kind, attr};

/// The mating.
pub const MATING: Mating = Mating {
    code: "chain-length",
    title: "Chain length",
    file: include_str!("chain_length.rs"),
    source: "loop computed; largest and largest plus two by common practice",
    rules: &[BIG_BIG, COAXIAL_LENGTH],
};

const LONG_ENOUGH: Reason = Reason::fits(
    "long-enough",
    "the chain reaches around the largest ring and the largest cog with two links to spare",
)
.geometry()
.note("cut to {need}, and confirm by wrapping the chain around the largest ring and cog without the derailleur; with suspension, at the longest stay");
const TOO_SHORT: Reason = Reason::no(
    "chain-too-short",
    "the chain has {links}, the largest ring with the largest cog needs {need}: a shift into both tears the derailleur off",
)
.geometry()
.injury()
.remedies(&[
    Remedy::replace(Kind::Chain, "a chain of at least {need}"),
    Remedy::replace(Kind::Cassette, "a smaller largest cog"),
]);

/// Teeth by which the largest ring and cog may grow together before the length of the chain becomes a question: half of
/// the pair of links that workshops add to the least length (threshold reasoned, not a standard).
pub const TEETH_IN_RESERVE: i64 = 2;

/// Largest ring with largest cog.
pub const BIG_BIG: Rule = Rule {
    code: "big-big",
    slots: &[Chain, Rings, Cogs, Frame],
    inputs: &[
        (Chain, attr::LINK_COUNT.attribute()),
        (Rings, attr::LARGEST_RING.attribute()),
        (Cogs, attr::LARGEST_COG.attribute()),
        (Frame, attr::CHAINSTAY.attribute()),
        (Frame, attr::CHAIN_GROWTH.attribute()),
    ],
    reasons: &[&LONG_ENOUGH, &TOO_SHORT],
    judge: big_big,
};

fn big_big(given: &Given<'_>) -> Judged {
    // Nothing to compare where nobody counted.
    let links = given.known(Chain, attr::LINK_COUNT).ok_or(Stop::Silent)?;
    let ring = given.num(Rings, attr::LARGEST_RING);
    let cog = given.num(Cogs, attr::LARGEST_COG);
    let stay = given.num(Frame, attr::CHAINSTAY);
    let (ring, cog, stay) = (ring?, cog?, stay?);
    let growth = growth(given);
    let need = need_links(ring, cog, stay, growth)?;
    let reason = match (links - need).at_least(0) {
        Ok(true) => &LONG_ENOUGH,
        Ok(false) => &TOO_SHORT,
        // Asks for the growth, where it is that which leaves it open.
        Err(stop) => return given.num(Frame, attr::CHAIN_GROWTH).and(Err(stop)),
    };
    Ok(Judgement::from(reason).with("links", links).with("need", need))
}

/// Most that a chainstay grows: the hard limit of the attribute.
const GROWTH_MOST_UM: i64 = 60_000;

fn growth(given: &Given<'_>) -> Num<Micrometres> {
    if given.known_absent(Frame, attr::CHAIN_GROWTH) {
        return Num::exact(0);
    }
    given.known(Frame, attr::CHAIN_GROWTH).unwrap_or(Num::between(0, GROWTH_MOST_UM))
}

fn need_links(
    ring: Num<Teeth>,
    cog: Num<Teeth>,
    stay: Num<Micrometres>,
    growth: Num<Micrometres>,
) -> Result<Num<Links>, Stop> {
    Ok(Num::between(
        links_for(ring.low, cog.low, stay.low, growth.low)?,
        links_for(ring.high, cog.high, stay.high, growth.high)?,
    ))
}

/// Links for the loop, two more and twice the growth; open for sizes that no bicycle has.
fn links_for(ring: i64, cog: i64, stay_um: i64, growth_um: i64) -> Result<i64, Stop> {
    let teeth = |count: i64| u16::try_from(count).map_err(|_| Stop::Undecided);
    let length = |um: i64| u32::try_from(um).map_err(|_| Stop::Undecided);
    let stay = Stay::from_um("chainstay_um", length(stay_um)?).map_err(|_| Stop::Undecided)?;
    let links = workshop_links(teeth(ring)?, teeth(cog)?, stay);
    Ok(i64::from(links) + i64::from(growth_links(length(growth_um)?)))
}

// Coaxial mounts.

const TABLE_NEEDED: Reason = Reason::unclear(
    "length-by-table",
    "with a coaxial mount the chain length sets the gap to the cogs: only the maker's table for stay, ring and cassette gives it",
)
.note("cut the chain to the exact figure of the maker's table");

const COAXIAL_LENGTH: Rule = Rule {
    code: "coaxial-length",
    slots: &[Chain, RearDerailleur],
    inputs: &[
        (Chain, attr::LINK_COUNT.attribute()),
        (RearDerailleur, attr::GEOMETRY.attribute()),
        (RearDerailleur, attr::DERAILLEUR_MOUNT.attribute()),
    ],
    reasons: &[&TABLE_NEEDED],
    judge: |given| {
        if given.is_missing(Chain, attr::LINK_COUNT) {
            return Err(Stop::Silent);
        }
        let geometry = !given.is_missing(RearDerailleur, attr::GEOMETRY)
            && given.word(RearDerailleur, attr::GEOMETRY) == Ok(Geometry::Coaxial);
        let mount = !given.is_missing(RearDerailleur, attr::DERAILLEUR_MOUNT)
            && given
                .key(RearDerailleur, attr::DERAILLEUR_MOUNT)
                .is_ok_and(|mount| given.name(mount) == MOUNT_COAXIAL);
        if geometry || mount { say(&TABLE_NEEDED) } else { Err(Stop::Silent) }
    },
};
