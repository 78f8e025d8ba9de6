//! The gears in order: steps, ranges, overlap of the rings, near-duplicates.

use super::ratio::{Ratio, as_percent, percent_cadence_change, percent_step};
use super::set::{Gear, Gearset, teeth_ratio};

/// Two gears closer than this count as one, in thousandths: 3 % is below half of the smallest usual step
/// (common practice).
pub const NEAR_DUPLICATE_PERMILLE: u16 = 30;

/// The gears of a build sorted from the lowest to the highest, and what follows from the order.
#[derive(Debug, Clone, PartialEq)]
pub struct GearTable {
    gears: Vec<Gear>,
}

/// From one gear to the next higher one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Index of the lower gear in the sorted list; the higher one follows it.
    pub lower: usize,
    /// Step in percent of the lower gear.
    pub percent: f64,
    /// Change of cadence at the same speed, percent, never positive: a step of 20 % gives -16.667 %.
    pub cadence_percent: f64,
}

/// Highest over lowest. A single gear has the range 1, which is 100 %.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ranges {
    /// Largest cog over smallest cog.
    pub cogs: Ratio,
    /// Largest ring over smallest ring.
    pub rings: Ratio,
    /// Hub and crank ratios together.
    pub internal: Ratio,
    /// All of it.
    pub overall: Ratio,
}

impl Ranges {
    /// The overall range in percent.
    #[must_use]
    pub fn overall_percent(&self) -> f64 {
        as_percent(self.overall)
    }
}

/// Where the gears of two neighbouring rings overlap, internal ratios left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Overlap {
    /// Teeth of the smaller ring.
    pub small_ring: u16,
    /// Teeth of the larger ring.
    pub big_ring: u16,
    /// Lowest gear of the larger ring.
    pub low: Ratio,
    /// Highest gear of the smaller ring.
    pub high: Ratio,
    /// True when the band is empty: between `high` and `low` there is no gear.
    pub hole: bool,
    /// Gears of the smaller ring inside the band, ends included.
    pub small_ring_gears: usize,
    /// Gears of the larger ring inside the band, ends included.
    pub big_ring_gears: usize,
}

/// Two neighbouring gears that are nearly or exactly the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearDuplicate {
    /// Index of the lower gear in the sorted list; the higher one follows it.
    pub lower: usize,
    /// How far apart, in percent of the lower gear.
    pub percent: f64,
}

impl GearTable {
    /// Sorts the gears of a set. Equal ratios are ordered by ring, then crank, then hub ratio.
    #[must_use]
    pub fn new(set: &Gearset) -> Self {
        let mut gears = set.gears();
        gears.sort_unstable_by_key(|gear| (gear.ratio, gear.ring_index, gear.crank_index, gear.hub_index));
        Self { gears }
    }

    /// Lowest gear first.
    #[must_use]
    pub fn gears(&self) -> &[Gear] {
        &self.gears
    }

    /// The lowest gear.
    #[must_use]
    pub fn lowest(&self) -> Ratio {
        self.gears.first().map_or(Ratio::ONE, |gear| gear.ratio)
    }

    /// The highest gear.
    #[must_use]
    pub fn highest(&self) -> Ratio {
        self.gears.last().map_or(Ratio::ONE, |gear| gear.ratio)
    }

    /// The steps between neighbours, one fewer than there are gears.
    #[must_use]
    pub fn steps(&self) -> Vec<Step> {
        let pairs = self.gears.windows(2).enumerate();
        pairs
            .filter_map(|(lower, pair)| {
                let [low, high] = pair else { return None };
                Some(Step {
                    lower,
                    percent: percent_step(low.ratio, high.ratio),
                    cadence_percent: percent_cadence_change(low.ratio, high.ratio),
                })
            })
            .collect()
    }

    /// The step in percent that, taken each time, would lead from the lowest gear to the highest (the
    /// geometric mean; the mean of the printed steps is another number). `None` for a single gear.
    #[must_use]
    pub fn mean_step_percent(&self) -> Option<f64> {
        let steps = self.gears.len().checked_sub(1).filter(|&steps| steps > 0)?;
        let range = self.highest().as_f64() / self.lowest().as_f64();
        Some((range.ln() / steps as f64).exp_m1() * 100.0)
    }

    /// Neighbouring gears less than `permille` thousandths apart.
    #[must_use]
    pub fn near_duplicates(&self, permille: u16) -> Vec<NearDuplicate> {
        let pairs = self.gears.windows(2).enumerate();
        pairs
            .filter_map(|(lower, pair)| match pair {
                [low, high] if low.ratio.is_within_permille(high.ratio, permille) => {
                    Some(NearDuplicate { lower, percent: percent_step(low.ratio, high.ratio) })
                }
                _ => None,
            })
            .collect()
    }

    /// How many gears remain when each must lie at least `permille` thousandths above the last one kept,
    /// counted from the lowest.
    #[must_use]
    pub fn distinct(&self, permille: u16) -> usize {
        let mut kept: Option<Ratio> = None;
        let mut count = 0;
        for gear in &self.gears {
            // Equal gears are one, whatever the tolerance.
            if kept.is_none_or(|last| last != gear.ratio && !last.is_within_permille(gear.ratio, permille)) {
                kept = Some(gear.ratio);
                count += 1;
            }
        }
        count
    }
}

/// Ranges of a set as exact fractions.
///
/// The overall range is that of the extreme combinations, which are the well aligned ones.
#[must_use]
pub fn ranges(set: &Gearset) -> Ranges {
    let (smallest_cog, largest_cog) = set.cog_span();
    let (smallest_ring, largest_ring) = set.ring_span();
    let cogs = teeth_ratio(largest_cog, smallest_cog);
    let rings = teeth_ratio(largest_ring, smallest_ring);
    // The limits on the terms of internal ratios keep each product within 64 bits.
    let internal = product(span(set.hub_ratios()), span(set.crank_ratios()));
    Ranges { cogs, rings, internal, overall: product(product(cogs, rings), internal) }
}

/// The overlap of each pair of neighbouring rings, smallest pair first.
#[must_use]
pub fn overlaps(set: &Gearset) -> Vec<Overlap> {
    let (smallest_cog, largest_cog) = set.cog_span();
    let inside = |ring: u16, low: Ratio, high: Ratio| {
        set.cogs().iter().filter(|&&cog| (low..=high).contains(&teeth_ratio(ring, cog))).count()
    };
    let pairs = set.rings().windows(2);
    pairs
        .filter_map(|pair| {
            let &[small_ring, big_ring] = pair else { return None };
            let (low, high) = (teeth_ratio(big_ring, largest_cog), teeth_ratio(small_ring, smallest_cog));
            Some(Overlap {
                small_ring,
                big_ring,
                low,
                high,
                hole: high < low,
                small_ring_gears: inside(small_ring, low, high),
                big_ring_gears: inside(big_ring, low, high),
            })
        })
        .collect()
}

fn span(rising: &[Ratio]) -> Ratio {
    match (rising.first(), rising.last()) {
        (Some(&low), Some(&high)) => high.over(low).unwrap_or(Ratio::ONE),
        _ => Ratio::ONE,
    }
}

fn product(a: Ratio, b: Ratio) -> Ratio {
    a.times(b).unwrap_or(a)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn table(rings: &[u16], cogs: &[u16]) -> GearTable {
        GearTable::new(&Gearset::plain(rings, cogs).unwrap())
    }

    #[test]
    fn a_single_gear_has_the_range_of_one_and_no_steps() {
        let set = Gearset::plain(&[44], &[16]).unwrap();
        assert_eq!(ranges(&set).overall, Ratio::ONE);
        let table = GearTable::new(&set);
        assert!(table.steps().is_empty());
        assert_eq!(table.mean_step_percent(), None);
        assert_eq!(table.distinct(30), 1);
    }

    #[test]
    fn equal_gears_are_duplicates_at_any_tolerance_above_zero() {
        let table = table(&[34, 50], &[17, 25]);
        let pairs = table.near_duplicates(1);
        assert_eq!(pairs.len(), 1);
        assert_eq!(pairs[0].percent.to_bits(), 0);
        assert_eq!(table.distinct(0), 3);
    }

    #[test]
    fn rings_too_far_apart_leave_a_hole() {
        let set = Gearset::plain(&[22, 60], &[14, 16]).unwrap();
        let overlap = overlaps(&set)[0];
        assert!(overlap.hole);
        assert_eq!((overlap.small_ring_gears, overlap.big_ring_gears), (0, 0));
    }

    fn cogs() -> impl Strategy<Value = Vec<u16>> {
        proptest::collection::btree_set(8_u16..=60, 1..=13).prop_map(|set| set.into_iter().collect())
    }

    proptest! {
        #[test]
        fn adding_a_cog_never_narrows_the_range(mut list in cogs(), more in 8_u16..=60) {
            let before = ranges(&Gearset::plain(&[34, 50], &list).unwrap());
            if let Err(place) = list.binary_search(&more) {
                list.insert(place, more);
            }
            let after = ranges(&Gearset::plain(&[34, 50], &list).unwrap());
            prop_assert!(after.overall >= before.overall && after.cogs >= before.cogs);
        }

        #[test]
        fn steps_multiply_to_the_range(
            list in cogs(),
            rings in proptest::collection::btree_set(18_u16..=80, 1..=3),
        ) {
            let rings: Vec<u16> = rings.into_iter().collect();
            let set = Gearset::plain(&rings, &list).unwrap();
            let table = GearTable::new(&set);
            let product: f64 = table.steps().iter().map(|step| 1.0 + step.percent / 100.0).product();
            let range = ranges(&set).overall;
            prop_assert!((product / range.as_f64() - 1.0).abs() < 1e-12);
            prop_assert_eq!(table.highest().over(table.lowest()), Some(range));
            prop_assert!(table.steps().iter().all(|step| step.percent >= 0.0 && step.cadence_percent <= 0.0));
        }

        #[test]
        fn a_wider_tolerance_never_finds_fewer_duplicates(list in cogs(), a in 0_u16..500, b in 0_u16..500) {
            let table = table(&[30, 46], &list);
            let (tight, wide) = (a.min(b), a.max(b));
            prop_assert!(table.near_duplicates(tight).len() <= table.near_duplicates(wide).len());
        }
    }
}
