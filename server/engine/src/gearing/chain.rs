//! Chain length: the loop around two sprockets and the count of links to order.
//!
//! A link is one pitch of 12.7 mm; an inner and an outer link together are 25.4 mm. A chain that is too short
//! for the largest ring with the largest cog destroys the derailleur or its hanger, so counts are rounded up
//! and a chain that misses the need by a fraction of a link is too short. The maker's own instruction for the
//! derailleur decides, and the bench method with both largest sprockets confirms.

use std::f64::consts::{PI, SQRT_2};

use super::fault::{Fault, whole};
use super::set::Gearset;
use super::sprocket::PITCH_MM;

/// Smallest and largest distance from bottom bracket to rear axle answered, in micrometres.
pub const STAY_UM: (u32, u32) = (300_000, 1_200_000);
/// Largest growth of that distance answered, in micrometres.
pub const MAX_GROWTH_UM: u32 = 60_000;
/// Most links of a chain answered.
pub const MAX_LINKS: u16 = 300;

/// Millionths of a pitch: lengths are rounded to these before anything is decided.
const MICRO: i64 = 1_000_000;
/// Links added to the loop over both largest sprockets.
const EXTRA_LINKS: i64 = 2;
/// A need this far above an even count is still met by it, in millionths of a link: 0.05 of a pair, our own
/// choice.
const ROUNDING_TOLERANCE: i64 = MICRO / 10;
/// Two links in micrometres.
const PAIR_UM: u32 = 25_400;

/// Distance from the bottom bracket to the rear axle, 300 to 1200 mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stay(u32);

impl Stay {
    /// From micrometres.
    ///
    /// # Errors
    /// Outside 300 to 1200 mm.
    pub fn from_um(field: &str, um: u32) -> Result<Self, Fault> {
        whole(field, um, STAY_UM.0, STAY_UM.1, "um").map(Self)
    }

    /// In micrometres.
    #[must_use]
    pub const fn um(self) -> u32 {
        self.0
    }

    /// In pitches of the chain.
    fn pitches(self) -> f64 {
        f64::from(self.0) / 1000.0 / PITCH_MM
    }
}

/// Length of the loop in pitches by the handbook's closed form, 2K + (N+n)/2 + (N-n)^2/(4 pi^2 K).
///
/// Within 0.01 pitch of [`loop_pitches`] for bicycles.
#[must_use]
pub fn loop_pitches_handbook(front: u16, rear: u16, stay: Stay) -> f64 {
    let (k, sum, difference) = (stay.pitches(), f64::from(front) + f64::from(rear), difference(front, rear));
    2.0 * k + sum / 2.0 + difference.powi(2) / (4.0 * PI * PI * k)
}

/// Exact length in pitches of the open loop on the arc circles of both sprockets.
#[must_use]
pub fn loop_pitches(front: u16, rear: u16, stay: Stay) -> f64 {
    let (k, sum, difference) = (stay.pitches(), f64::from(front) + f64::from(rear), difference(front, rear));
    // No more than 1 for any sprockets that fit between the axles.
    let angle = (difference / (2.0 * PI * k)).clamp(-1.0, 1.0).asin();
    2.0 * k * angle.cos() + sum / 2.0 + difference * angle / PI
}

/// The exact loop in millionths of a pitch, for decisions.
pub(crate) fn loop_micro(front: u16, rear: u16, stay: Stay) -> i64 {
    (loop_pitches(front, rear, stay) * MICRO as f64).round() as i64
}

/// Centre distance in mm at which a loop of `links` pitches is tight, the inverse of the handbook's form.
///
/// # Errors
/// More than 300 links, or too few to reach around both sprockets.
pub fn centre_distance_mm(links: u16, front: u16, rear: u16) -> Result<f64, Fault> {
    let (sum, difference) = (f64::from(front) + f64::from(rear), difference(front, rear));
    let least = (sum / 2.0 + difference.abs() * SQRT_2 / PI).ceil().min(f64::from(MAX_LINKS)) as u32;
    whole("links", links.into(), least.max(1), MAX_LINKS.into(), "links")?;
    let s = f64::from(links) - sum / 2.0;
    let root = (s * s - 2.0 * difference.powi(2) / (PI * PI)).max(0.0).sqrt();
    Ok((s + root) / 4.0 * PITCH_MM)
}

/// Links that a growing axle distance adds: twice the growth, rounded up to whole pairs.
#[must_use]
pub fn growth_links(growth_um: u32) -> u16 {
    let pairs = growth_um.min(MAX_GROWTH_UM).saturating_mul(2).div_ceil(PAIR_UM);
    u16::try_from(pairs * 2).unwrap_or(u16::MAX)
}

/// The even count for a loop plus two links: 2 ceil((L + 2) / 2 - 0.05).
#[must_use]
pub fn workshop_links(front: u16, rear: u16, stay: Stay) -> u16 {
    even_up(loop_micro(front, rear, stay) + EXTRA_LINKS * MICRO)
}

fn even_up(micro_links: i64) -> u16 {
    let pairs = (micro_links - ROUNDING_TOLERANCE).max(0) as u64;
    u16::try_from(pairs.div_ceil(2 * MICRO as u64) * 2).unwrap_or(u16::MAX)
}

fn difference(front: u16, rear: u16) -> f64 {
    f64::from(front) - f64::from(rear)
}

/// Chain of a build with a derailleur.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChainNeed {
    /// Loop over the largest ring and the largest cog, pitches, nothing added.
    pub big_big_pitches: f64,
    /// The same by the handbook's form.
    pub big_big_handbook_pitches: f64,
    /// Loop over the smallest ring and the smallest cog, pitches.
    pub small_small_pitches: f64,
    /// Links added for the growth of the axle distance.
    pub growth_links: u16,
    /// Links needed, even: what is ordered, and the least that a chain must have.
    pub links: u16,
    /// What the rounding gives away: `links` less the unrounded need, in pitches; as little as -0.1.
    pub rounding_pitches: f64,
}

/// Length of chain that a set needs: largest ring with largest cog plus two links, rounded up to even.
///
/// `stay` is taken at rest; `growth_um` is how much the distance grows at full compression, 0 if rigid.
#[must_use]
pub fn chain_need(set: &Gearset, stay: Stay, growth_um: u32) -> ChainNeed {
    let ((small_ring, big_ring), (small_cog, big_cog)) = (set.ring_span(), set.cog_span());
    let growth_links = growth_links(growth_um);
    let rounded = workshop_links(big_ring, big_cog, stay);
    let big_big_pitches = loop_pitches(big_ring, big_cog, stay);
    ChainNeed {
        big_big_pitches,
        big_big_handbook_pitches: loop_pitches_handbook(big_ring, big_cog, stay),
        small_small_pitches: loop_pitches(small_ring, small_cog, stay),
        growth_links,
        links: rounded.saturating_add(growth_links),
        rounding_pitches: f64::from(rounded) - big_big_pitches - EXTRA_LINKS as f64,
    }
}

/// Whether a chain of a stated length reaches around the largest ring and the largest cog.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// It does; so many links can be taken out.
    LongEnough {
        /// Links above the need.
        spare: u16,
    },
    /// It does not: danger for derailleur, hanger and rider.
    TooShort {
        /// Links below the need.
        missing: u16,
    },
}

/// Holds a chain's links against the need. A new chain is cut to length, never stretched.
///
/// An odd count cannot be joined without an offset link, so its last link does not count.
#[must_use]
pub fn reach(links: u16, need: &ChainNeed) -> Reach {
    let usable = links - links % 2;
    match usable.checked_sub(need.links) {
        Some(spare) => Reach::LongEnough { spare },
        None => Reach::TooShort { missing: need.links - usable },
    }
}

/// An even chain on one ring and one cog without derailleur, and where the axle must stand for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DirectChain {
    /// Even count of links.
    pub links: u16,
    /// Distance from bottom bracket to axle at which it is tight, mm.
    pub centre_mm: f64,
}

/// The axle distance for a chain of so many links; an odd link does not count.
///
/// # Errors
/// As [`centre_distance_mm`].
pub fn direct_chain(links: u16, front: u16, rear: u16) -> Result<DirectChain, Fault> {
    let links = links - links % 2;
    Ok(DirectChain { links, centre_mm: centre_distance_mm(links, front, rear)? })
}

/// The two even chains around a nominal axle distance: at most as long as the loop, and longer.
///
/// The axle must be able to move to the distance in the dropout, the eccentric or the sliding plate.
#[must_use]
pub fn direct_chains(front: u16, rear: u16, stay: Stay) -> [DirectChain; 2] {
    let below = u16::try_from(loop_micro(front, rear, stay) / (2 * MICRO) * 2).unwrap_or(MAX_LINKS - 2);
    [below, below.saturating_add(2)].map(|links| {
        // Both counts surround the loop of a distance that was checked, so both reach around the sprockets.
        let nominal = DirectChain { links, centre_mm: f64::from(stay.um()) / 1000.0 };
        direct_chain(links, front, rear).unwrap_or(nominal)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn stay(mm: u32) -> Stay {
        Stay::from_um("stay", mm * 1000).unwrap()
    }

    fn need(rings: &[u16], cogs: &[u16], mm: u32, growth_um: u32) -> ChainNeed {
        chain_need(&Gearset::plain(rings, cogs).unwrap(), stay(mm), growth_um)
    }

    #[test]
    fn a_fraction_of_a_link_short_is_too_short() {
        let need = need(&[32], &[10, 51], 435, 0);
        assert_eq!(need.links, 114);
        assert_eq!(reach(112, &need), Reach::TooShort { missing: 2 });
        assert_eq!(reach(114, &need), Reach::LongEnough { spare: 0 });
        assert_eq!(reach(115, &need), Reach::LongEnough { spare: 0 });
        assert_eq!(reach(113, &need), Reach::TooShort { missing: 2 });
        assert_eq!(reach(0, &need), Reach::TooShort { missing: 114 });
    }

    #[test]
    fn a_hair_over_an_even_count_is_not_two_more_links() {
        assert_eq!(even_up(112_004_000), 112);
        assert_eq!(even_up(112_100_000), 112);
        assert_eq!(even_up(112_100_001), 114);
    }

    #[test]
    fn growth_is_rounded_up_to_pairs() {
        assert_eq!([0, 1, 10_000, 12_700, 12_701, 30_000].map(growth_links), [0, 2, 2, 2, 4, 6]);
        assert_eq!(growth_links(u32::MAX), growth_links(MAX_GROWTH_UM));
        assert_eq!(need(&[32], &[10, 51], 435, 10_000).links, 116);
    }

    #[test]
    fn too_few_links_to_reach_around_are_refused() {
        assert!(centre_distance_mm(40, 50, 34).is_err());
        assert!(centre_distance_mm(0, 0, 0).is_err());
        assert!(centre_distance_mm(u16::MAX, 50, 34).is_err());
        assert!(centre_distance_mm(50, 50, 34).unwrap().is_finite());
    }

    proptest! {
        #[test]
        fn both_forms_agree_and_invert(
            front in 18_u16..=80,
            rear in 8_u16..=60,
            um in 380_000_u32..=800_000,
        ) {
            let stay = Stay::from_um("stay", um).unwrap();
            let exact = loop_pitches(front, rear, stay);
            let handbook = loop_pitches_handbook(front, rear, stay);
            prop_assert!((exact - handbook).abs() < 0.06);
            let mirrored = loop_pitches(rear, front, stay);
            prop_assert!((exact - mirrored).abs() < 1e-9);
            let [below, above] = direct_chains(front, rear, stay);
            prop_assert!(below.links % 2 == 0 && above.links == below.links + 2);
            let mm = f64::from(um) / 1000.0;
            prop_assert!(below.centre_mm < mm + 0.5 && above.centre_mm > mm - 0.5);
        }

        #[test]
        fn a_larger_cog_or_a_longer_stay_never_needs_fewer_links(
            front in 18_u16..=80, rear in 8_u16..=59, um in 300_000_u32..=1_199_000, growth in 0_u32..=60_000,
        ) {
            let (near, far) = (Stay::from_um("stay", um).unwrap(), Stay::from_um("stay", um + 1000).unwrap());
            prop_assert!(workshop_links(front, rear, near) <= workshop_links(front, rear + 1, near));
            prop_assert!(workshop_links(front, rear, near) <= workshop_links(front, rear, far));
            let set = Gearset::plain(&[front], &[rear, rear + 1]).unwrap();
            let need = chain_need(&set, near, growth);
            prop_assert!(need.links.is_multiple_of(2));
            prop_assert!(need.rounding_pitches >= -0.1000011 && need.rounding_pitches <= 1.9000011);
        }
    }
}
