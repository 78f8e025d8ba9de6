//! In which order a rider goes through the gears.

use super::chainline::Alignments;
use super::set::{Gear, Gearset};
use super::table::GearTable;

/// One change of the chainring on the way up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RingChange {
    /// Index in the sorted list of the gear before.
    pub from: usize,
    /// Index in the sorted list of the gear after.
    pub to: usize,
    /// Rear shifts towards larger cogs that go with it, so that the next gear is the next higher one.
    pub rear_shifts: usize,
    /// Rear shifts whose product comes nearest to the step between the rings: these would keep the gear.
    pub compensating_shifts: usize,
}

/// Crossover order: along the cassette on one ring, then one ring change with a few rear shifts back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Crossover {
    /// Indices into the sorted list, rising gear by gear.
    pub order: Vec<usize>,
    /// The ring changes in it.
    pub changes: Vec<RingChange>,
}

/// Crossover order from the lowest gear up: each ring is kept until its next cog would be crossed.
///
/// `None` for builds with internal ratios, whose rider has more than two levers. `permille` is the tolerance
/// below which two gears count as one.
#[must_use]
pub fn crossover(
    set: &Gearset,
    table: &GearTable,
    alignments: &Alignments,
    permille: u16,
) -> Option<Crossover> {
    if set.hub_ratios().len() > 1 || set.crank_ratios().len() > 1 {
        return None;
    }
    let mut order: Vec<usize> = Vec::with_capacity(table.gears().len());
    let mut changes = Vec::new();
    for ring_index in 0..set.rings().len() {
        let last = order.last().copied();
        let mut first_on_ring = true;
        for (index, gear) in table.gears().iter().enumerate() {
            let usable = gear.ring_index == ring_index && !alignments.crossed(ring_index, gear.cog_index);
            let rises = last.and_then(|last| table.gears().get(last)).is_none_or(|last| {
                gear.ratio > last.ratio && !last.ratio.is_within_permille(gear.ratio, permille)
            });
            if !usable || !rises {
                continue;
            }
            if let (true, Some(from)) = (first_on_ring, last) {
                changes.extend(table.gears().get(from).map(|before| RingChange {
                    from,
                    to: index,
                    rear_shifts: gear.cog_index.saturating_sub(before.cog_index),
                    compensating_shifts: compensating_shifts(set, before, gear.ring),
                }));
            }
            first_on_ring = false;
            order.push(index);
        }
    }
    Some(Crossover { order, changes })
}

/// Rear shifts towards larger cogs whose product comes nearest to the step from the gear's ring to `ring`.
fn compensating_shifts(set: &Gearset, from: &Gear, ring: u16) -> usize {
    // Product over target, the larger over the smaller: terms of at most 60 x 80 teeth, so nothing overflows.
    let away = |cog: u16| {
        let product = u64::from(cog) * u64::from(from.ring);
        let target = u64::from(ring) * u64::from(from.cog);
        (product.max(target), product.min(target))
    };
    let larger = set.cogs().iter().skip(from.cog_index).enumerate();
    let nearer = |&(_, &a): &(usize, &u16), &(_, &b): &(usize, &u16)| {
        let ((a_high, a_low), (b_high, b_low)) = (away(a), away(b));
        (a_high * b_low).cmp(&(b_high * a_low))
    };
    // Of equals the first, which has the fewest shifts.
    larger.min_by(nearer).map_or(0, |(shifts, _)| shifts)
}

/// Order for a shifter that picks ring and cog by itself: crossed combinations left out, sorted by ratio, and
/// of two gears closer than `permille` thousandths the one left out that needs a ring (hub, crank) change
/// from its neighbour. Indices into the sorted list.
#[must_use]
pub fn sequential(table: &GearTable, alignments: &Alignments, permille: u16) -> Vec<usize> {
    let gears = table.gears();
    let usable =
        gears.iter().enumerate().filter(|(_, gear)| !alignments.crossed(gear.ring_index, gear.cog_index));
    let mut kept: Vec<(usize, &Gear)> = Vec::with_capacity(gears.len());
    for (index, gear) in usable {
        let close = kept.last().is_some_and(|(_, last)| {
            last.ratio == gear.ratio || last.ratio.is_within_permille(gear.ratio, permille)
        });
        if !close {
            kept.push((index, gear));
        } else if let [.., (_, before), (at, last)] = kept.as_mut_slice()
            && !same_lever(before, last)
            && same_lever(before, gear)
        {
            (*at, *last) = (index, gear);
        }
    }
    kept.into_iter().map(|(index, _)| index).collect()
}

/// True if a rear shift alone leads from one gear to the other.
fn same_lever(a: &Gear, b: &Gear) -> bool {
    (a.ring_index, a.hub_index, a.crank_index) == (b.ring_index, b.hub_index, b.crank_index)
}

#[cfg(test)]
mod tests {
    use super::super::chainline::align_by_thumb;
    use super::super::ratio::Ratio;
    use super::*;
    use proptest::prelude::*;

    const ELEVEN: [u16; 11] = [11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 32];

    fn parts(rings: &[u16], cogs: &[u16]) -> (Gearset, GearTable, Alignments) {
        let set = Gearset::plain(rings, cogs).unwrap();
        let (table, alignments) = (GearTable::new(&set), align_by_thumb(&set));
        (set, table, alignments)
    }

    fn names(table: &GearTable, order: &[usize]) -> Vec<(u16, u16)> {
        order.iter().map(|&index| (table.gears()[index].ring, table.gears()[index].cog)).collect()
    }

    #[test]
    fn crossover_changes_the_ring_once_with_three_rear_shifts() {
        let (set, table, alignments) = parts(&[34, 50], &ELEVEN);
        let found = crossover(&set, &table, &alignments, 30).unwrap();
        let expected = [32, 28, 24, 21, 19, 17, 15, 14, 13].map(|cog| (34, cog)).into_iter();
        let expected: Vec<_> = expected.chain([17, 15, 14, 13, 12, 11].map(|cog| (50, cog))).collect();
        assert_eq!(names(&table, &found.order), expected);
        assert_eq!(found.changes.len(), 1);
        assert_eq!((found.changes[0].rear_shifts, found.changes[0].compensating_shifts), (3, 4));
    }

    #[test]
    fn sequential_order_prefers_a_rear_shift() {
        let (_, table, alignments) = parts(&[34, 50], &ELEVEN);
        let order = names(&table, &sequential(&table, &alignments, 30));
        // 34x13 and 50x19, 34x14 and 50x21 are near-duplicates; 50x28 and 50x32 are crossed.
        assert!(order.contains(&(34, 19)) && !order.contains(&(50, 28)));
        assert!(order.iter().filter(|gear| matches!(gear, (34, 13) | (50, 19))).count() == 1);
    }

    #[test]
    fn internal_ratios_have_no_crossover_order() {
        let two = [Ratio::ONE, Ratio::new(64, 47).unwrap()];
        let set = Gearset::new(&[34, 50], &[11, 32], &two, &[Ratio::ONE]).unwrap();
        let table = GearTable::new(&set);
        assert_eq!(crossover(&set, &table, &align_by_thumb(&set), 30), None);
        assert_eq!(sequential(&table, &align_by_thumb(&set), 0).len(), 8);
    }

    proptest! {
        #[test]
        fn orders_rise_and_leave_crossed_gears_out(
            rings in proptest::collection::btree_set(20_u16..=60, 1..=3),
            cogs in proptest::collection::btree_set(9_u16..=52, 1..=12),
            permille in 0_u16..60,
        ) {
            let (rings, cogs): (Vec<_>, Vec<_>) = (rings.into_iter().collect(), cogs.into_iter().collect());
            let (set, table, alignments) = parts(&rings, &cogs);
            let across = crossover(&set, &table, &alignments, permille).unwrap();
            let orders = [sequential(&table, &alignments, permille), across.order];
            for order in orders {
                let gears: Vec<&Gear> = order.iter().map(|&index| &table.gears()[index]).collect();
                prop_assert!(gears.windows(2).all(|pair| pair[0].ratio < pair[1].ratio));
                prop_assert!(gears.iter().all(|gear| !alignments.crossed(gear.ring_index, gear.cog_index)));
            }
        }
    }
}
