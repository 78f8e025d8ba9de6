//! Chain to be taken up by the derailleur's cage, held against its capacity.

use super::chain::{Stay, loop_micro};
use super::set::Gearset;

/// Millionths of a pitch in a pitch.
const MICRO: i64 = 1_000_000;
/// One tooth of difference is half a pitch of chain: 6.35 mm.
const TOOTH_UM: u32 = 6_350;

/// Teeth of take-up that the gears ask for: (largest - smallest ring) + (largest - smallest cog).
#[must_use]
pub fn wrap_needed(set: &Gearset) -> u16 {
    let ((small_ring, big_ring), (small_cog, big_cog)) = (set.ring_span(), set.cog_span());
    (big_ring - small_ring) + (big_cog - small_cog)
}

/// Teeth of take-up that a growing axle distance asks for on top: 2 g / 6.35 mm.
#[must_use]
pub fn growth_teeth(growth_um: u32) -> f64 {
    2.0 * f64::from(growth_um) / f64::from(TOOTH_UM)
}

/// What was used to find the gears in which the chain hangs slack.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlackBy {
    /// The length of the loops, for a known distance from bottom bracket to axle.
    Loops,
    /// Differences of teeth, where that distance is not known.
    Teeth,
}

/// How a derailleur's capacity meets the need.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wrap {
    /// Enough, the growth of the axle distance included.
    Enough {
        /// Teeth to spare, growth left out.
        spare: u16,
    },
    /// Enough at rest, but not with the growth on top: look at the smallest sprockets with the suspension
    /// extended.
    EnoughAtRest {
        /// Teeth to spare at rest.
        spare: u16,
    },
    /// Too little.
    Short {
        /// Teeth missing.
        missing: u16,
        /// Ring and cog, in teeth, of each combination in which the chain hangs slack. Never using them is
        /// the condition under which the rest works; it is a warning, not a pass. Empty where the exact loops
        /// just fit although the count of teeth does not.
        slack: Vec<(u16, u16)>,
        /// How the combinations were found.
        by: SlackBy,
    },
}

/// Holds a capacity, in teeth, against the set. `stay` refines which gears hang slack; `growth_um` is the
/// growth of the axle distance at full compression, micrometres.
#[must_use]
pub fn judge_wrap(set: &Gearset, capacity: u16, stay: Option<Stay>, growth_um: u32) -> Wrap {
    let needed = wrap_needed(set);
    let Some(spare) = capacity.checked_sub(needed) else {
        let (slack, by) = slack_gears(set, capacity, stay);
        return Wrap::Short { missing: needed - capacity, slack, by };
    };
    // Twice the growth against the spare teeth, both in micrometres of chain.
    if u64::from(growth_um) * 2 > u64::from(spare) * u64::from(TOOTH_UM) {
        Wrap::EnoughAtRest { spare }
    } else {
        Wrap::Enough { spare }
    }
}

/// Combinations whose chain is longer than the cage can take up: twice the loop's shortening from largest
/// ring and largest cog exceeds the capacity.
fn slack_gears(set: &Gearset, capacity: u16, stay: Option<Stay>) -> (Vec<(u16, u16)>, SlackBy) {
    let (big_ring, big_cog) = (set.ring_span().1, set.cog_span().1);
    let taken_up = |ring: u16, cog: u16| match stay {
        Some(stay) => 2 * (loop_micro(big_ring, big_cog, stay) - loop_micro(ring, cog, stay)),
        None => i64::from((big_ring - ring) + (big_cog - cog)) * MICRO,
    };
    let limit = i64::from(capacity) * MICRO;
    let pairs = set.rings().iter().flat_map(|&ring| set.cogs().iter().map(move |&cog| (ring, cog)));
    let slack = pairs.filter(|&(ring, cog)| taken_up(ring, cog) > limit).collect();
    (slack, if stay.is_some() { SlackBy::Loops } else { SlackBy::Teeth })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn compact() -> Gearset {
        Gearset::plain(&[34, 50], &[11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 34]).unwrap()
    }

    #[test]
    fn short_capacity_names_the_gears_that_hang() {
        let by_teeth = judge_wrap(&compact(), 36, None, 0);
        let slack = vec![(34, 11), (34, 12), (34, 13)];
        assert_eq!(by_teeth, Wrap::Short { missing: 3, slack: slack.clone(), by: SlackBy::Teeth });
        let stay = Stay::from_um("stay", 410_000).unwrap();
        let by_loops = judge_wrap(&compact(), 36, Some(stay), 0);
        assert_eq!(by_loops, Wrap::Short { missing: 3, slack, by: SlackBy::Loops });
    }

    #[test]
    fn growth_turns_enough_into_a_caveat_and_never_into_a_refusal() {
        assert_eq!(judge_wrap(&compact(), 42, None, 9_525), Wrap::Enough { spare: 3 });
        assert_eq!(judge_wrap(&compact(), 42, None, 9_526), Wrap::EnoughAtRest { spare: 3 });
        assert_eq!(judge_wrap(&compact(), 39, None, u32::MAX), Wrap::EnoughAtRest { spare: 0 });
    }

    proptest! {
        #[test]
        fn more_capacity_never_leaves_more_gears_slack(
            a in 0_u16..60,
            b in 0_u16..60,
            um in 380_000_u32..500_000,
        ) {
            let stay = Stay::from_um("stay", um).unwrap();
            let count = |capacity| match judge_wrap(&compact(), capacity, Some(stay), 0) {
                Wrap::Short { slack, .. } => slack.len(),
                _ => 0,
            };
            prop_assert!(count(a.min(b)) >= count(a.max(b)));
        }
    }
}
