//! One bike's gears against another's.

use sprag_catalogue::LiveShelf;
use sprag_engine::build::{Assembly, Placed};
use sprag_engine::gearing::{RangeAnswer, Ratio, bike, compare, range};
use sprag_proto::v1 as pb;

use super::{Answered, write as gears};

/// Writes what changes from the first bike to another.
pub fn write(first: &Answered, other: &Answered, shelf: &LiveShelf) -> pb::GearingDifference {
    let mut written = difference_of(&first.answer, &other.answer);
    written.build_id.clone_from(&other.build_id);
    written.against_build_id.clone_from(&first.build_id);
    written.mass_g = other.gearing.known_mass_g - first.gearing.known_mass_g;
    written.price = price_of_new(&first.assembly, &other.assembly, shelf);
    let masses = gears::cog_mass(first).zip(gears::cog_mass(other));
    written.cog_mass = masses.map(|(before, after)| pb::CogMass {
        mass_g: after.mass_g - before.mass_g,
        at_rim_g: after.at_rim_g.zip(before.at_rim_g).map(|(after, before)| after - before),
        effective_g: after.effective_g.zip(before.effective_g).map(|(after, before)| after - before),
    });
    if first.gearing.cog_ends_only || other.gearing.cog_ends_only {
        written = pb::GearingDifference {
            mean_step_points: 0.0,
            largest_step_points: 0.0,
            distinct_gears: 0,
            gained: Vec::new(),
            lost: Vec::new(),
            ..written
        };
    }
    written
}

fn difference_of(first: &RangeAnswer, other: &RangeAnswer) -> pb::GearingDifference {
    let found = compare(first, other);
    let count = |answer: &RangeAnswer, test: &dyn Fn(Ratio) -> bool| {
        i32::try_from(answer.gears.iter().filter(|line| test(line.gear.ratio)).count()).unwrap_or(i32::MAX)
    };
    pb::GearingDifference {
        lowest_percent: found.low_percent,
        highest_percent: found.high_percent,
        range_points: found.range_points,
        mean_step_points: found.mean_step_points.unwrap_or(0.0),
        wrap_teeth: found.wrap,
        links: found.links,
        gained_low: count(other, &|ratio| ratio < first.lowest()),
        gained_high: count(other, &|ratio| ratio > first.highest()),
        lost_low: count(first, &|ratio| ratio < other.lowest()),
        lost_high: count(first, &|ratio| ratio > other.highest()),
        gained: found.gained.iter().map(|gear| gears::name(gear, &other.set)).collect(),
        lost: found.lost.iter().map(|gear| gears::name(gear, &first.set)).collect(),
        largest_step_points: found.largest_step_points.unwrap_or(0.0),
        distinct_gears: found.distinct,
        lowest_development_percent: found.road_percent.map(|(low, _)| low),
        highest_development_percent: found.road_percent.map(|(_, high)| high),
        ..pb::GearingDifference::default()
    }
}

/// The gearing of a bike before and after; `None` where one of them is not known.
pub fn difference(before: &Assembly, after: &Assembly) -> Option<pb::GearingDifference> {
    let answer = |assembly: &Assembly| range(&bike::of(assembly).ok()?.input).ok();
    Some(difference_of(&answer(before)?, &answer(after)?))
}

/// The parts of a bike that are articles of their own, not brought along by another one.
fn articles(assembly: &Assembly) -> impl Iterator<Item = &Placed> {
    assembly.placed.iter().filter(|placed| placed.parent.is_none() && !placed.all_rings)
}

/// Price of the parts whose price is known; `None` where there is none, or where currencies differ.
pub fn known_price(assembly: &Assembly, shelf: &LiveShelf) -> Option<pb::Money> {
    let priced =
        articles(assembly).filter_map(|placed| Some((shelf.price(&placed.part.sku)?, placed.quantity)));
    sum(priced)
}

/// Price of the parts that the other bike has and the first has not; `None` where a price is not known, currencies
/// differ, or nothing is new.
fn price_of_new(first: &Assembly, other: &Assembly, shelf: &LiveShelf) -> Option<pb::Money> {
    let mut there: Vec<(&Placed, u32)> = articles(first).map(|placed| (placed, placed.quantity)).collect();
    let mut new = Vec::new();
    for placed in articles(other) {
        let mut wanted = placed.quantity;
        for (_, left) in there.iter_mut().filter(|(same, _)| same.part == placed.part) {
            let taken = wanted.min(*left);
            (wanted, *left) = (wanted - taken, *left - taken);
        }
        if wanted > 0 {
            new.push((shelf.price(&placed.part.sku)?, wanted));
        }
    }
    sum(new.into_iter())
}

fn sum<'a>(priced: impl Iterator<Item = (&'a pb::Money, u32)>) -> Option<pb::Money> {
    let mut total: Option<pb::Money> = None;
    for (price, quantity) in priced {
        let amount = price.minor_units.checked_mul(quantity.into())?;
        let sum = total.get_or_insert_with(|| pb::Money { minor_units: 0, ..price.clone() });
        if sum.currency_code != price.currency_code {
            return None;
        }
        sum.minor_units = sum.minor_units.checked_add(amount)?;
    }
    total
}
