//! The gears of a build: every ring with every cog and every internal ratio.

use super::fault::{Fault, Faults, whole};
use super::ratio::{Ratio, check_internal};

/// Most gears answered: rings x cogs x hub ratios x crank ratios.
pub const MAX_GEARS: usize = 10_000;
/// Smallest and largest chainring, in teeth.
pub const RING_TEETH: (u16, u16) = (18, 80);
/// Smallest and largest cog, in teeth.
pub const COG_TEETH: (u16, u16) = (8, 60);

const MAX_RINGS: usize = 3;
const MAX_COGS: usize = 14;
/// Largest term of an internal ratio in lowest terms; 34255/95216 is in use.
const MAX_TERM: u64 = 100_000;
/// Largest term of the hub times largest term of the crank: with the limits on teeth it keeps every range in
/// 64 bits.
const MAX_TERM_PRODUCT: u64 = 60_000_000;

/// One gear of a build.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Gear {
    /// Teeth of the chainring.
    pub ring: u16,
    /// Teeth of the cog.
    pub cog: u16,
    /// Position of the ring, 0 = smallest.
    pub ring_index: usize,
    /// Position of the cog, 0 = smallest.
    pub cog_index: usize,
    /// Index into the hub ratios.
    pub hub_index: usize,
    /// Index into the crank ratios.
    pub crank_index: usize,
    /// Wheel turns per crank turn, internal ratios included.
    pub ratio: Ratio,
}

/// Rings, cogs and internal ratios of a build, checked.
///
/// Internal ratios multiply the ratio and nothing else: chain length, wrap and chainline see the teeth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gearset {
    rings: Vec<u16>,
    cogs: Vec<u16>,
    hub_ratios: Vec<Ratio>,
    crank_ratios: Vec<Ratio>,
}

impl Gearset {
    /// Checks and keeps the lists.
    ///
    /// - `rings`: 1 to 3, 18 to 80 teeth, any order, no two alike;
    /// - `cogs`: 1 to 14, 8 to 60 teeth, smallest first, strictly rising;
    /// - `hub_ratios`, `crank_ratios`: wheel turns per cog turn and ring turns per crank turn, lowest first,
    ///   strictly rising, `[Ratio::ONE]` where there are none; 1/10 to 10, in lowest terms with terms of up to
    ///   100 000, and 60 000 000 for the largest of the hub times the largest of the crank.
    ///
    /// # Errors
    /// Every fault found: empty or too long lists, teeth out of range, doubles, cogs out of order, over
    /// 10 000 gears.
    pub fn new(
        rings: &[u16],
        cogs: &[u16],
        hub_ratios: &[Ratio],
        crank_ratios: &[Ratio],
    ) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let mut rings_sorted = rings.get(..MAX_RINGS.min(rings.len())).unwrap_or_default().to_vec();
        rings_sorted.sort_unstable();
        if check_count(&mut faults, "rings", rings.len(), MAX_RINGS) {
            check_teeth(&mut faults, "rings", rings, RING_TEETH);
            check_doubles(&mut faults, "rings", &rings_sorted);
        }
        if check_count(&mut faults, "cogs", cogs.len(), MAX_COGS) {
            check_teeth(&mut faults, "cogs", cogs, COG_TEETH);
            check_rising(&mut faults, "cogs", cogs);
        }
        let hub_term = check_ratios(&mut faults, "hub_ratios", hub_ratios, MAX_TERM);
        check_ratios(&mut faults, "crank_ratios", crank_ratios, MAX_TERM_PRODUCT / hub_term);
        let lengths = [rings.len(), cogs.len(), hub_ratios.len(), crank_ratios.len()];
        let gears = lengths.iter().fold(1_usize, |product, &length| product.saturating_mul(length));
        if gears > MAX_GEARS {
            faults.push(Fault::TooMany { field: "gears".into(), found: gears, max: MAX_GEARS });
        }
        if !faults.is_empty() {
            return Err(faults.into_vec());
        }
        Ok(Self {
            rings: rings_sorted,
            cogs: cogs.to_vec(),
            hub_ratios: hub_ratios.to_vec(),
            crank_ratios: crank_ratios.to_vec(),
        })
    }

    /// Rings and cogs without internal ratios.
    ///
    /// # Errors
    /// As [`Gearset::new`].
    pub fn plain(rings: &[u16], cogs: &[u16]) -> Result<Self, Vec<Fault>> {
        Self::new(rings, cogs, &[Ratio::ONE], &[Ratio::ONE])
    }

    /// Chainrings in teeth, smallest first.
    #[must_use]
    pub fn rings(&self) -> &[u16] {
        &self.rings
    }

    /// Cogs in teeth, smallest first.
    #[must_use]
    pub fn cogs(&self) -> &[u16] {
        &self.cogs
    }

    /// Ratios of the hub, lowest first.
    #[must_use]
    pub fn hub_ratios(&self) -> &[Ratio] {
        &self.hub_ratios
    }

    /// Ratios of the crank, lowest first.
    #[must_use]
    pub fn crank_ratios(&self) -> &[Ratio] {
        &self.crank_ratios
    }

    /// Smallest and largest ring, in teeth.
    #[must_use]
    pub fn ring_span(&self) -> (u16, u16) {
        span(&self.rings)
    }

    /// Smallest and largest cog, in teeth.
    #[must_use]
    pub fn cog_span(&self) -> (u16, u16) {
        span(&self.cogs)
    }

    /// Lowest F/R without internal ratios: what a maker's minimum primary ratio is held against.
    #[must_use]
    pub fn lowest_primary(&self) -> Ratio {
        teeth_ratio(self.ring_span().0, self.cog_span().1)
    }

    /// Every gear, by ring, cog, crank ratio and hub ratio.
    #[must_use]
    pub fn gears(&self) -> Vec<Gear> {
        let internal = self.hub_ratios.len() * self.crank_ratios.len();
        let mut gears = Vec::with_capacity(self.rings.len() * self.cogs.len() * internal);
        for (ring_index, &ring) in self.rings.iter().enumerate() {
            for (cog_index, &cog) in self.cogs.iter().enumerate() {
                for (crank_index, &crank) in self.crank_ratios.iter().enumerate() {
                    for (hub_index, &hub) in self.hub_ratios.iter().enumerate() {
                        let ratio = product(teeth_ratio(ring, cog), crank, hub);
                        gears.push(Gear { ring, cog, ring_index, cog_index, hub_index, crank_index, ratio });
                    }
                }
            }
        }
        gears
    }
}

/// F/R of two sprockets. A count of zero teeth, which no checked set holds, counts as one.
pub(crate) fn teeth_ratio(front: u16, rear: u16) -> Ratio {
    Ratio::new(u64::from(front.max(1)), u64::from(rear.max(1))).unwrap_or(Ratio::ONE)
}

/// The limits on teeth and on the terms of internal ratios keep this within 64 bits.
fn product(primary: Ratio, crank: Ratio, hub: Ratio) -> Ratio {
    primary.times(crank).and_then(|ratio| ratio.times(hub)).unwrap_or(primary)
}

fn span(sorted: &[u16]) -> (u16, u16) {
    (sorted.first().copied().unwrap_or(1), sorted.last().copied().unwrap_or(1))
}

/// True if the list may be looked into entry by entry.
fn check_count(faults: &mut Faults, field: &str, found: usize, max: usize) -> bool {
    if found == 0 {
        faults.push(Fault::Empty { field: field.into() });
    } else if found > max {
        faults.push(Fault::TooMany { field: field.into(), found, max });
    }
    (1..=max).contains(&found)
}

fn check_teeth(faults: &mut Faults, field: &str, teeth: &[u16], (min, max): (u16, u16)) {
    for (index, &count) in teeth.iter().enumerate() {
        faults.take_one(whole(&format!("{field}[{index}]"), count.into(), min.into(), max.into(), "teeth"));
    }
}

/// Returns the largest term found, at least 1 and at most `MAX_TERM`.
fn check_ratios(faults: &mut Faults, field: &str, list: &[Ratio], max_term: u64) -> u64 {
    let mut largest = 1;
    if check_count(faults, field, list.len(), MAX_GEARS) {
        for (index, &ratio) in list.iter().enumerate() {
            faults.take_one(check_internal(&format!("{field}[{index}]"), ratio, max_term.min(MAX_TERM)));
            largest = largest.max(ratio.num()).max(ratio.den());
        }
        check_rising(faults, field, list);
    }
    largest.min(MAX_TERM)
}

fn check_doubles<T: Ord + ToString>(faults: &mut Faults, field: &str, sorted: &[T]) {
    for pair in sorted.windows(2) {
        if let [a, b] = pair
            && a == b
        {
            faults.push(Fault::Duplicate { field: field.into(), value: b.to_string() });
        }
    }
}

fn check_rising<T: Ord + Copy + ToString>(faults: &mut Faults, field: &str, list: &[T]) {
    let mut sorted = list.to_vec();
    sorted.sort_unstable();
    check_doubles(faults, field, &sorted);
    if !list.is_sorted() {
        let names: Vec<String> = sorted.iter().take(MAX_COGS).map(T::to_string).collect();
        let more = if sorted.len() > MAX_COGS { ", ..." } else { "" };
        faults.push(Fault::Unordered { field: field.into(), sorted: names.join(", ") + more });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rings_come_in_any_order() {
        let set = Gearset::plain(&[50, 34], &[11, 34]).unwrap();
        assert_eq!(set.rings(), [34, 50]);
        assert_eq!(set.gears().len(), 4);
        assert_eq!(set.lowest_primary(), Ratio::ONE);
    }

    #[test]
    fn cogs_out_of_order_are_told_the_right_order() {
        let faults = Gearset::plain(&[50], &[34, 11, 20]).unwrap_err();
        assert_eq!(faults, [Fault::Unordered { field: "cogs".into(), sorted: "11, 20, 34".into() }]);
    }

    #[test]
    fn all_faults_are_told_at_once() {
        let faults = Gearset::new(&[50, 50, 10], &[7, 61], &[], &[Ratio::ONE]).unwrap_err();
        let codes: Vec<_> = faults.iter().map(|fault| (fault.field(), fault.code())).collect();
        let expected = [
            ("rings[2]", "out-of-range"),
            ("rings", "duplicate"),
            ("cogs[0]", "out-of-range"),
            ("cogs[1]", "out-of-range"),
            ("hub_ratios", "empty"),
        ];
        assert_eq!(codes, expected);
    }

    #[test]
    fn oversized_lists_are_refused_without_looking_into_them() {
        let many = vec![11_u16; 1_000_000];
        let faults = Gearset::plain(&many, &many).unwrap_err();
        assert_eq!(faults.iter().filter(|fault| fault.code() == "too-many").count(), 3);
        assert!(faults.len() < 5);
    }

    #[test]
    fn the_widest_terms_allowed_stay_exact() {
        let hub = [Ratio::new(10_007, 99_991).unwrap(), Ratio::new(99_989, 10_007).unwrap()];
        let crank = [Ratio::new(60, 599).unwrap(), Ratio::new(593, 60).unwrap()];
        let set = Gearset::new(&[19, 79], &[9, 59], &hub, &crank).unwrap();
        let gears = set.gears();
        let low = gears.iter().map(|gear| gear.ratio).min().unwrap();
        let high = gears.iter().map(|gear| gear.ratio).max().unwrap();
        let range = high.over(low).unwrap();
        assert_eq!(crate::gearing::table::ranges(&set).overall, range);
        let finer = [Ratio::new(61, 601).unwrap()];
        let faults = Gearset::new(&[19], &[9], &hub, &finer).unwrap_err();
        assert_eq!(faults[0].field(), "crank_ratios[0].term");
    }

    #[test]
    fn a_product_over_the_limit_is_refused() {
        let hub: Vec<Ratio> = (1000..1400).filter_map(|n| Ratio::new(n, 1000)).collect();
        let faults = Gearset::new(
            &[30, 40],
            &[11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24],
            &hub,
            &[Ratio::ONE],
        )
        .unwrap_err();
        assert_eq!(faults, [Fault::TooMany { field: "gears".into(), found: 11_200, max: MAX_GEARS }]);
    }
}
