//! What a bike that rides today tells: limits that nobody stated are at least as wide as what they carry.
//!
//! This is workshop knowledge, not a published limit, so it is used under workshop practice only. Limits of strength
//! (rotors, pressure) are never concluded from riding.

use std::sync::Arc;

use super::Assembly;
use crate::part::{Attribute, Kind, Origin, Set, Value};

/// Which way a limit points.
#[derive(Clone, Copy)]
enum Reach {
    /// The limit is at least what is fitted.
    AtLeast,
    /// The limit is at most what is fitted.
    AtMost,
}

/// Fills in limits that are not known, of parts that stay on the bike, from what they carried before the changes.
pub fn learn(after: &mut Assembly, before: &Assembly) {
    let ends = Carried::of(before);
    let learned: [(Kind, Attribute, Reach, Option<i64>); 11] = [
        (Kind::RearDerailleur, Attribute::MaxCog, Reach::AtLeast, ends.largest_cog),
        (Kind::RearDerailleur, Attribute::MinLargestCog, Reach::AtMost, ends.largest_cog),
        (Kind::RearDerailleur, Attribute::MinCog, Reach::AtMost, ends.smallest_cog),
        (Kind::RearDerailleur, Attribute::Capacity, Reach::AtLeast, ends.wrap()),
        (Kind::RearDerailleur, Attribute::MaxFrontDifference, Reach::AtLeast, ends.ring_difference()),
        (Kind::FrontDerailleur, Attribute::FrontCapacity, Reach::AtLeast, ends.ring_difference()),
        (Kind::FrontDerailleur, Attribute::MaxRing, Reach::AtLeast, ends.largest_ring),
        (Kind::FrontDerailleur, Attribute::MinOuterRing, Reach::AtMost, ends.largest_ring),
        (Kind::Frame, Attribute::MaxSingleRing, Reach::AtLeast, ends.single_ring),
        (Kind::Frame, Attribute::MaxOuterRing, Reach::AtLeast, ends.outer_ring),
        (Kind::Frame, Attribute::MaxTyre, Reach::AtLeast, ends.rear_tyre),
    ];
    for (kind, attribute, reach, carried) in learned {
        if let Some(carried) = carried {
            tell(after, before, kind, attribute, reach, carried);
        }
    }
}

fn tell(
    after: &mut Assembly,
    before: &Assembly,
    kind: Kind,
    attribute: Attribute,
    reach: Reach,
    carried: i64,
) {
    let Some(spec) = kind.attribute(attribute) else { return };
    for placed in after.placed.iter_mut().filter(|placed| placed.part.kind == kind && placed.change.is_none())
    {
        let was_there =
            before.placed.iter().any(|old| Arc::ptr_eq(&old.part, &placed.part) || old.part == placed.part);
        if !was_there || placed.part.judged(attribute) != &Set::Unknown {
            continue;
        }
        let set = match reach {
            Reach::AtLeast if carried <= spec.hard.1 => Set::between(carried.max(spec.hard.0), spec.hard.1),
            Reach::AtMost if carried >= spec.hard.0 => Set::between(spec.hard.0, carried.min(spec.hard.1)),
            _ => continue,
        };
        let mut part = (*placed.part).clone();
        part.set(attribute, Value { set, origin: Origin::Measured });
        placed.part = Arc::new(part);
    }
}

/// What the bike carried before the changes.
#[derive(Default)]
struct Carried {
    largest_cog: Option<i64>,
    smallest_cog: Option<i64>,
    largest_ring: Option<i64>,
    smallest_ring: Option<i64>,
    single_ring: Option<i64>,
    outer_ring: Option<i64>,
    rear_tyre: Option<i64>,
}

impl Carried {
    fn of(before: &Assembly) -> Self {
        let mut carried = Self::default();
        let cogs = before.placed.iter().find(|p| matches!(p.part.kind, Kind::Cassette | Kind::Freewheel));
        if let Some(cogs) = cogs {
            carried.largest_cog = cogs.part.exact(Attribute::LargestCog);
            carried.smallest_cog = cogs.part.exact(Attribute::SmallestCog);
        }
        if let Some(rings) = before.rings() {
            carried.largest_ring = rings.part.exact(Attribute::LargestRing);
            carried.smallest_ring = rings.part.exact(Attribute::SmallestRing);
            match rings.part.exact(Attribute::RingCount) {
                Some(1) => carried.single_ring = carried.largest_ring,
                Some(_) => carried.outer_ring = carried.largest_ring,
                None => {}
            }
        }
        let tyre = before.of_kind(Kind::Tyre).find(|tyre| tyre.end == Some(super::End::Rear));
        carried.rear_tyre = tyre.and_then(|tyre| tyre.part.exact(Attribute::TyreWidth));
        carried
    }

    fn ring_difference(&self) -> Option<i64> {
        Some(self.largest_ring? - self.smallest_ring?)
    }

    fn wrap(&self) -> Option<i64> {
        Some(self.ring_difference()? + self.largest_cog? - self.smallest_cog?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::{Build, Change, Item, assemble};
    use crate::fit::check::check;
    use crate::fit::{Grounds, Outcome, Practice};
    use crate::part::interface::Interfaces;
    use crate::part::{Part, derive};

    fn item(mut part: Part) -> Item {
        derive::derive(&mut part);
        Item { id: String::new(), end: None, quantity: 1, part: Arc::new(part) }
    }

    fn cassette(cogs: &[i64]) -> Item {
        item(Part::new(Kind::Cassette).with(Attribute::Cogs, Set::List(cogs.into())))
    }

    /// The outcome for the largest cog after fitting other cogs to a bike that rides today.
    fn largest_cog(cogs: &[i64]) -> Option<Outcome> {
        let derailleur = item(Part::new(Kind::RearDerailleur));
        let build = Build { items: vec![cassette(&[11, 15, 20, 26, 32]), derailleur], ..Build::default() };
        let change = Change { id: "new".into(), fit: Some(cassette(cogs)), ..Change::default() };
        let before = assemble(&build, &[]).expect("a bike");
        let mut after = assemble(&build, &[change]).expect("a bike");
        learn(&mut after, &before);
        let answer = check(&after, &Grounds::bare(Interfaces::standard_ref(), Practice::Workshop));
        let found = answer.touched().find(|finding| finding.rule.code == "largest-cog");
        found.map(|finding| finding.outcome)
    }

    #[test]
    fn a_derailleur_that_reaches_a_cog_today_reaches_a_smaller_one() {
        assert_eq!(largest_cog(&[12, 14, 17, 21, 25]), Some(Outcome::Fits));
        assert_eq!(largest_cog(&[11, 15, 20, 26, 36]), Some(Outcome::NotEnoughData));
    }
}
