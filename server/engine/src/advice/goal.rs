//! Goals for the gearing, decided on whole numbers.

use crate::build::Assembly;
use crate::part::{Attribute, Kind};

/// Goals; every one that is set must hold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Goal {
    /// The lowest gear is at most this, thousandths.
    pub lowest_ratio_permille_max: Option<i64>,
    /// The highest gear is at least this, thousandths.
    pub highest_ratio_permille_min: Option<i64>,
    /// The overall range is at least this, percent.
    pub range_percent_min: Option<i64>,
}

/// The ends of the gearing: largest and smallest ring, largest and smallest cog.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ends {
    /// Teeth of the largest ring.
    pub largest_ring: i64,
    /// Teeth of the smallest ring.
    pub smallest_ring: i64,
    /// Teeth of the largest cog.
    pub largest_cog: i64,
    /// Teeth of the smallest cog.
    pub smallest_cog: i64,
}

impl Ends {
    /// The ends of a bike's gearing, where all four are known.
    pub fn of(assembly: &Assembly) -> Option<Self> {
        let rings = &assembly.rings()?.part;
        let cogs = assembly
            .placed
            .iter()
            .find(|placed| matches!(placed.part.kind, Kind::Cassette | Kind::Freewheel))
            .map(|placed| &placed.part)?;
        Some(Self {
            largest_ring: rings.exact(Attribute::LargestRing)?,
            smallest_ring: rings.exact(Attribute::SmallestRing)?,
            largest_cog: cogs.exact(Attribute::LargestCog)?,
            smallest_cog: cogs.exact(Attribute::SmallestCog)?,
        })
    }
}

impl Goal {
    /// No goal is set.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The bike reaches the goal; not where its gearing is not known.
    pub fn reached(&self, assembly: &Assembly) -> bool {
        self.is_empty() || Ends::of(assembly).is_some_and(|ends| self.holds(ends))
    }

    fn holds(&self, ends: Ends) -> bool {
        let low = self
            .lowest_ratio_permille_max
            .is_none_or(|max| 1000 * ends.smallest_ring <= max * ends.largest_cog);
        let high = self
            .highest_ratio_permille_min
            .is_none_or(|min| 1000 * ends.largest_ring >= min * ends.smallest_cog);
        let range = self.range_percent_min.is_none_or(|min| {
            100 * ends.largest_ring * ends.largest_cog >= min * ends.smallest_ring * ends.smallest_cog
        });
        low && high && range
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn goals_are_decided_on_whole_numbers() {
        let ends = Ends { largest_ring: 50, smallest_ring: 34, largest_cog: 34, smallest_cog: 11 };
        let low = |max| Goal { lowest_ratio_permille_max: Some(max), ..Goal::default() };
        assert!(low(1000).holds(ends));
        assert!(!low(999).holds(ends));
        // 50/34 x 11-34 is 454.545 %: computed.
        assert!(Goal { range_percent_min: Some(454), ..Goal::default() }.holds(ends));
        assert!(!Goal { range_percent_min: Some(455), ..Goal::default() }.holds(ends));
    }
}
