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
.note("cut to {need} links, and confirm by wrapping the chain around the largest ring and cog without the derailleur; with suspension, at the longest stay");
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

const BIG_BIG: Rule = Rule {
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
    let need = growth.map(|growth| need_links(ring, cog, stay, growth));
    let reason = match (links - need?).at_least(0) {
        Ok(true) => &LONG_ENOUGH,
        Ok(false) => &TOO_SHORT,
        // Asks for the growth, where it is that which leaves it open.
        Err(stop) => return given.num(Frame, attr::CHAIN_GROWTH).and(Err(stop)),
    };
    Ok(Judgement::from(reason).with("links", links).with("need", need?))
}

/// Most that a chainstay grows: the hard limit of the attribute.
const GROWTH_MOST_UM: i64 = 60_000;

fn growth(given: &Given<'_>) -> Result<Num<Micrometres>, Stop> {
    if given.known_absent(Frame, attr::CHAIN_GROWTH) {
        return Ok(Num::exact(0));
    }
    Ok(given.known(Frame, attr::CHAIN_GROWTH).unwrap_or(Num::between(0, GROWTH_MOST_UM)))
}

fn need_links(
    ring: Num<Teeth>,
    cog: Num<Teeth>,
    stay: Num<Micrometres>,
    growth: Num<Micrometres>,
) -> Num<Links> {
    Num::between(
        loop_links(ring.low, cog.low, stay.low) + growth_links(growth.low),
        loop_links(ring.high, cog.high, stay.high) + growth_links(growth.high),
    )
}

// To be replaced by `gearing::chain`, which computes the same: this is the single place.

const PITCH_UM: f64 = 12_700.0;
const PAIR_UM: i64 = 25_400;
/// Links added to the loop.
const SPARE_LINKS: i64 = 2_000_000;
/// A need this little above an even count is met by it: 0.05 of a pair, in millionths of a link.
const ROUNDING: i64 = 100_000;
/// A pair of links in millionths of a link.
const PAIR_MICRO: i64 = 2_000_000;

/// Links for the exact loop around two sprockets and two more, rounded up to even. The loop is rounded to millionths of
/// a link before anything is decided, so that every machine answers alike.
fn loop_links(ring: i64, cog: i64, stay_um: i64) -> i64 {
    use std::f64::consts::PI;
    let stay = stay_um as f64 / PITCH_UM;
    let (sum, difference) = ((ring + cog) as f64, (ring - cog) as f64);
    let angle = (difference / (2.0 * PI * stay)).clamp(-1.0, 1.0).asin();
    let length = 2.0 * stay * angle.cos() + sum / 2.0 + difference * angle / PI;
    let micro = (length * 1e6).round() as i64 + SPARE_LINKS - ROUNDING;
    (micro + PAIR_MICRO - 1) / PAIR_MICRO * 2
}

/// Links for twice the growth, rounded up to pairs.
fn growth_links(growth_um: i64) -> i64 {
    (2 * growth_um + PAIR_UM - 1) / PAIR_UM * 2
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loops_of_the_published_worked_examples() {
        // Computed by the closed form of the chain handbooks; 2 links more, rounded up to even.
        for (ring, cog, stay, links) in
            [(50, 34, 410_000, 110), (32, 51, 435_000, 114), (53, 25, 405_000, 106)]
        {
            assert_eq!(loop_links(ring, cog, stay), links, "{ring} x {cog} at {stay}");
        }
        assert_eq!((growth_links(0), growth_links(10_000), growth_links(12_701)), (0, 2, 4));
    }
}
