//! Two builds side by side: what the rider gains and loses.

use super::range::{GearLine, RangeAnswer};
use super::ratio::{Ratio, percent_step};
use super::set::Gear;

/// What changes from a first build to a second. Every number is zero and every list empty for a build and
/// itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// Change of the lowest gear's ratio, percent; negative = lower, easier.
    pub low_percent: f64,
    /// Change of the highest gear's ratio, percent.
    pub high_percent: f64,
    /// Change of the development of the lowest and highest gear, percent, if both wheels are known. It
    /// differs from the change of the ratios where the wheel changes too.
    pub road_percent: Option<(f64, f64)>,
    /// Change of the overall range, in points of percent (500 % to 510 % is 10).
    pub range_points: f64,
    /// Change of the geometric mean step, in points of percent; `None` if either has one gear only.
    pub mean_step_points: Option<f64>,
    /// Change of the largest step, in points of percent; `None` if either has one gear only.
    pub largest_step_points: Option<f64>,
    /// Ratios of the second that the first does not have, lowest first.
    pub gained: Vec<Gear>,
    /// Ratios of the first that the second does not have, lowest first.
    pub lost: Vec<Gear>,
    /// Change of the number of gears that differ by more than the tolerance.
    pub distinct: i32,
    /// Change of the take-up asked of the derailleur, teeth.
    pub wrap: i32,
    /// Change of the links of chain to order, if both stays are known.
    pub links: Option<i32>,
}

/// What changes from `before` to `after`.
#[must_use]
pub fn compare(before: &RangeAnswer, after: &RangeAnswer) -> Difference {
    let links = before.chain.as_ref().zip(after.chain.as_ref());
    Difference {
        low_percent: percent_step(before.lowest(), after.lowest()),
        high_percent: percent_step(before.highest(), after.highest()),
        road_percent: road_percent(before, after),
        range_points: after.ranges.overall_percent() - before.ranges.overall_percent(),
        mean_step_points: before.mean_step_percent.zip(after.mean_step_percent).map(|(a, b)| b - a),
        largest_step_points: largest_step(before).zip(largest_step(after)).map(|(a, b)| b - a),
        gained: without(&after.gears, &before.gears),
        lost: without(&before.gears, &after.gears),
        distinct: signed(before.distinct, after.distinct),
        wrap: signed(before.wrap_needed.into(), after.wrap_needed.into()),
        links: links.map(|(a, b)| signed(a.links().into(), b.links().into())),
    }
}

fn signed(before: usize, after: usize) -> i32 {
    // Both count gears, teeth or links, of which there are at most 65 535.
    let whole = |count: usize| i32::try_from(count).unwrap_or(i32::MAX);
    whole(after) - whole(before)
}

fn road_percent(before: &RangeAnswer, after: &RangeAnswer) -> Option<(f64, f64)> {
    let (old, new) = (before.rollout?.circumference, after.rollout?.circumference);
    let wheel = f64::from(new.um()) / f64::from(old.um());
    let change = |a: Ratio, b: Ratio| {
        // (1 + step) x wheel - 1, written so that equal wheels leave the step as it is.
        let step = percent_step(a, b);
        step * wheel + (wheel - 1.0) * 100.0
    };
    Some((change(before.lowest(), after.lowest()), change(before.highest(), after.highest())))
}

fn largest_step(answer: &RangeAnswer) -> Option<f64> {
    answer.steps.iter().map(|step| step.percent).reduce(f64::max)
}

/// Gears of the first list whose ratio the second does not hold; both are sorted. Equal ratios are told once.
fn without(of: &[GearLine], minus: &[GearLine]) -> Vec<Gear> {
    let mut others = minus.iter().map(|line| line.gear.ratio).peekable();
    let mut left: Vec<Gear> = Vec::new();
    for gear in of.iter().map(|line| line.gear) {
        while others.next_if(|&other| other < gear.ratio).is_some() {}
        let told = left.last().is_some_and(|last| last.ratio == gear.ratio);
        if others.peek() != Some(&gear.ratio) && !told {
            left.push(gear);
        }
    }
    left
}

#[cfg(test)]
mod tests {
    use super::super::range::{RangeInput, range};
    use super::*;
    use proptest::prelude::*;

    fn answer(rings: &[u16], cogs: &[u16], rollout_mm: u32) -> RangeAnswer {
        let mut input = RangeInput::new(rings, cogs);
        input.rollout_um = Some(rollout_mm * 1000);
        input.stay_um = Some(435_000);
        range(&input).unwrap()
    }

    #[test]
    fn a_wider_cassette_gains_at_the_low_end() {
        let before = answer(&[32], &[11, 13, 15, 17, 19, 21, 24, 28, 32, 36, 42], 2_300);
        let after = answer(&[32], &[11, 13, 15, 17, 19, 21, 24, 28, 32, 36, 46], 2_300);
        let change = compare(&before, &after);
        assert!((change.low_percent - (42.0 / 46.0 - 1.0) * 100.0).abs() < 1e-12);
        assert!(change.high_percent.abs() < 1e-12);
        assert_eq!(change.gained.iter().map(|gear| gear.cog).collect::<Vec<_>>(), [46]);
        assert_eq!(change.lost.iter().map(|gear| gear.cog).collect::<Vec<_>>(), [42]);
        assert_eq!((change.wrap, change.links), (4, Some(2)));
    }

    #[test]
    fn a_larger_wheel_changes_the_road_and_not_the_ratios() {
        let (before, after) = (answer(&[32], &[11, 42], 2_000), answer(&[32], &[11, 42], 2_200));
        let change = compare(&before, &after);
        assert!(change.low_percent.abs() < 1e-12 && change.gained.is_empty());
        let (low, high) = change.road_percent.unwrap();
        assert!((low - 10.0).abs() < 1e-9 && (high - 10.0).abs() < 1e-9);
    }

    fn teeth(min: u16, max: u16, count: usize) -> impl Strategy<Value = Vec<u16>> {
        proptest::collection::btree_set(min..=max, 1..=count).prop_map(|set| set.into_iter().collect())
    }

    proptest! {
        #[test]
        fn a_build_differs_from_itself_by_nothing(
            rings in teeth(18, 80, 3),
            cogs in teeth(8, 60, 14),
            mm in 300_u32..=3500,
        ) {
            let build = answer(&rings, &cogs, mm);
            let change = compare(&build, &build.clone());
            let numbers = [
                change.low_percent, change.high_percent, change.range_points,
                change.mean_step_points.unwrap_or(0.0), change.largest_step_points.unwrap_or(0.0),
                change.road_percent.unwrap().0, change.road_percent.unwrap().1,
            ];
            prop_assert!(numbers.iter().all(|number| number.abs().to_bits() == 0));
            prop_assert!(change.gained.is_empty() && change.lost.is_empty());
            prop_assert_eq!((change.distinct, change.wrap, change.links), (0, 0, Some(0)));
        }

        #[test]
        fn there_and_back_swaps_gained_and_lost(a in teeth(8, 60, 14), b in teeth(8, 60, 14)) {
            let (first, second) = (answer(&[30, 44], &a, 2_100), answer(&[34], &b, 2_100));
            let (there, back) = (compare(&first, &second), compare(&second, &first));
            prop_assert_eq!(there.gained, back.lost);
            prop_assert_eq!(there.lost, back.gained);
            prop_assert_eq!(there.wrap, -back.wrap);
        }
    }
}
