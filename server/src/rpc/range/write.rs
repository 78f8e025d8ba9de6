//! The gears of one bike as a message.

use sprag_catalogue::LiveShelf;
use sprag_engine::gearing::chain::{DirectChain, Reach};
use sprag_engine::gearing::chainline::{AlignedBy, Alignment};
use sprag_engine::gearing::shift::RingChange;
use sprag_engine::gearing::table::{NearDuplicate, Overlap};
use sprag_engine::gearing::wheel::RolloutSource;
use sprag_engine::gearing::wrap::{Wrap, growth_teeth};
use sprag_engine::gearing::{ChainAnswer, Gear, GearLine, Gearset, RangeAnswer, RangeInput, Ratio, inertia};
use sprag_proto::v1 as pb;

use super::asked::Asked;
use super::compared::known_price;
use super::{Answered, hill};

const LENGTH_CAUTION: &str = "a chain too short for largest ring with largest cog can tear the derailleur off: wrap both on the bike without the derailleur before cutting, and follow the derailleur maker";
const PRIMARY_CAUTION: &str = "a ratio of ring to cog below what the hub's maker allows can break the hub inside: the hub's own manual decides, ask a qualified mechanic";

fn write_ratio(ratio: Ratio) -> pb::Ratio {
    // Terms are bounded by the engine's limits on teeth and internal ratios, far below i64.
    pb::Ratio {
        numerator: i64::try_from(ratio.num()).unwrap_or(i64::MAX),
        denominator: i64::try_from(ratio.den()).unwrap_or(i64::MAX),
    }
}

/// Writes the answer for one bike.
pub fn write(found: &Answered, asked: &Asked, shelf: &LiveShelf) -> pb::GearingAnswer {
    let Answered { answer, gearing, .. } = found;
    let whole = !gearing.cog_ends_only;
    let slack: &[(u16, u16)] = match &answer.wrap {
        Some(Wrap::Short { slack, .. }) => slack,
        _ => &[],
    };
    let gears = answer.gears.iter().enumerate().map(|(index, line)| {
        let mut gear = write_gear(line, answer, asked, slack);
        let step = index.checked_sub(1).and_then(|below| answer.steps.get(below)).filter(|_| whole);
        gear.step_percent = step.map(|step| step.percent);
        gear.cadence_change_percent = step.map(|step| step.cadence_percent);
        gear
    });
    pb::GearingAnswer {
        build_id: found.build_id.clone(),
        gears: gears.collect(),
        range: Some(pb::GearingRange {
            cogs_percent: 100.0 * answer.ranges.cogs.as_f64(),
            rings_percent: 100.0 * answer.ranges.rings.as_f64(),
            internal_percent: 100.0 * answer.ranges.internal.as_f64(),
            overall_percent: answer.ranges.overall_percent(),
            mean_step_percent: answer.mean_step_percent.filter(|_| whole).unwrap_or(0.0),
        }),
        overlaps: overlaps(answer),
        near_duplicates: near_duplicates(answer),
        roll_out: answer.rollout.map(|rollout| pb::RollOut {
            circumference_um: rollout.circumference.um().into(),
            source: if found.nominal { pb::RollOutSource::Nominal } else { roll_out_source(rollout.source) }
                .into(),
            uncertainty_permille: rollout.uncertainty_permille.into(),
        }),
        wrap: Some(pb::Wrap {
            needed_teeth: answer.wrap_needed.into(),
            capacity_teeth: gearing.input.wrap_capacity.map(Into::into),
            growth_teeth: growth_teeth(gearing.input.growth_um),
        }),
        chain: write_chain(answer, &gearing.input),
        crossed_by: match answer.aligned_by {
            AlignedBy::ChainAngle => pb::CrossedBy::Angle,
            AlignedBy::RuleOfThumb => pb::CrossedBy::RuleOfThumb,
        }
        .into(),
        hill: answer
            .hill
            .as_ref()
            .zip(asked.hill.as_ref())
            .map(|(found, asked)| hill::write(found, asked, answer)),
        known_mass_g: gearing.known_mass_g,
        notes: found.notes.clone(),
        distinct_gears: if whole { count(answer.distinct) } else { 0 },
        shift_order: whole.then(|| shift_order(answer)),
        primary: Some(primary(answer, &gearing.input)),
        cog_mass: cog_mass(found),
        known_price: known_price(&found.assembly, shelf),
    }
}

fn count(value: usize) -> i32 {
    // There are at most 10 000 gears.
    i32::try_from(value).unwrap_or(i32::MAX)
}

fn overlaps(answer: &RangeAnswer) -> Vec<pb::Overlap> {
    let write = |overlap: &Overlap| pb::Overlap {
        larger_ring: overlap.big_ring.into(),
        smaller_ring: overlap.small_ring.into(),
        low_ratio: overlap.low.as_f64(),
        high_ratio: overlap.high.as_f64(),
        hole: overlap.hole,
    };
    answer.overlaps.iter().rev().map(write).collect()
}

fn near_duplicates(answer: &RangeAnswer) -> Vec<pb::NearDuplicate> {
    let write = |pair: &NearDuplicate| {
        let lower = answer.gears.get(pair.lower)?.gear;
        let higher = answer.gears.get(pair.lower + 1)?.gear;
        Some(pb::NearDuplicate {
            lower_ring: lower.ring.into(),
            lower_cog: lower.cog.into(),
            higher_ring: higher.ring.into(),
            higher_cog: higher.cog.into(),
            difference_percent: pair.percent,
        })
    };
    answer.near_duplicates.iter().filter_map(write).collect()
}

fn shift_order(answer: &RangeAnswer) -> pb::ShiftOrder {
    let places = |order: &[usize]| order.iter().map(|place| count(*place)).collect();
    let (order, changes) = match &answer.crossover {
        Some(found) => (&*found.order, &*found.changes),
        None => (&[][..], &[][..]),
    };
    let change = |change: &RingChange| pb::RingChange {
        from_gear: count(change.from),
        to_gear: count(change.to),
        rear_shifts: count(change.rear_shifts),
        compensating_shifts: count(change.compensating_shifts),
    };
    pb::ShiftOrder {
        crossover: places(order),
        ring_changes: changes.iter().map(change).collect(),
        sequential: places(&answer.sequential),
    }
}

fn primary(answer: &RangeAnswer, input: &RangeInput) -> pb::PrimaryRatio {
    let below_limit = answer.primary.below_limit;
    pb::PrimaryRatio {
        lowest: Some(write_ratio(answer.primary.lowest)),
        least_allowed: input.min_primary.map(write_ratio),
        below_limit,
        caution: if below_limit { PRIMARY_CAUTION.into() } else { String::new() },
    }
}

/// Mass and turning of the cogs, where their mass and teeth are known.
pub fn cog_mass(found: &Answered) -> Option<pb::CogMass> {
    let mass_mg = found.gearing.cog_mass_g?.checked_mul(1000)?;
    let turning = inertia::even_cassette(found.answer.set.cogs(), mass_mg)
        .ok()
        .filter(|_| !found.gearing.cog_ends_only);
    // The rim lies at the bead seat.
    let rim_um = found.gearing.input.tyre.map(|tyre| u32::from(tyre.bsd_mm()) * 500);
    let rolling_um = found.answer.rollout.map(|rollout| {
        // A circumference of at most 3.5 m.
        (f64::from(rollout.circumference.um()) / std::f64::consts::TAU).round() as u32
    });
    Some(pb::CogMass {
        mass_g: f64::from(mass_mg) / 1000.0,
        at_rim_g: turning.zip(rim_um).and_then(|(turning, radius)| turning.mass_at_radius_g(radius).ok()),
        effective_g: turning
            .zip(rolling_um)
            .and_then(|(turning, radius)| turning.effective_mass_g(mass_mg, radius).ok()),
    })
}

fn internal(ratios: &[Ratio], index: usize) -> Option<pb::Ratio> {
    ratios.get(index).filter(|_| ratios.len() > 1).map(|ratio| write_ratio(*ratio))
}

/// Writes a gear by its name.
pub fn name(gear: &Gear, set: &Gearset) -> pb::GearName {
    pb::GearName {
        ring: gear.ring.into(),
        cog: gear.cog.into(),
        ratio: gear.ratio.as_f64(),
        hub_ratio: internal(set.hub_ratios(), gear.hub_index),
        crank_ratio: internal(set.crank_ratios(), gear.crank_index),
    }
}

fn roll_out_source(source: RolloutSource) -> pb::RollOutSource {
    match source {
        RolloutSource::Caller => pb::RollOutSource::Caller,
        RolloutSource::Chart => pb::RollOutSource::Chart,
        RolloutSource::Formula => pb::RollOutSource::Formula,
    }
}

fn write_gear(line: &GearLine, answer: &RangeAnswer, asked: &Asked, slack: &[(u16, u16)]) -> pb::Gear {
    let gear = line.gear;
    let speeds = line.road.as_ref().map(|road| {
        let pairs = asked.cadences_rpm.iter().zip(&road.speeds_kmh);
        pairs
            .map(|(cadence, speed)| pb::SpeedAtCadence { cadence_rpm: (*cadence).into(), speed_kmh: *speed })
            .collect()
    });
    let cadences = line.road.as_ref().map(|road| {
        let pairs = asked.speeds_m_per_h.iter().zip(&road.cadences_rpm);
        pairs
            .map(|(speed, cadence)| pb::CadenceAtSpeed {
                speed_kmh: f64::from(*speed) / 1000.0,
                cadence_rpm: *cadence,
            })
            .collect()
    });
    pb::Gear {
        ring: gear.ring.into(),
        cog: gear.cog.into(),
        hub_ratio: internal(answer.set.hub_ratios(), gear.hub_index),
        crank_ratio: internal(answer.set.crank_ratios(), gear.crank_index),
        exact_ratio: Some(write_ratio(gear.ratio)),
        ratio: gear.ratio.as_f64(),
        development_m: line.road.as_ref().map(|road| road.development_m),
        gear_inches: line.road.as_ref().map(|road| road.gear_inches),
        step_percent: None,
        cadence_change_percent: None,
        speeds: speeds.unwrap_or_default(),
        cadences: cadences.unwrap_or_default(),
        crossed: line.combination.alignment == Alignment::Crossed,
        chain_angle_degrees: line.combination.angle_deg,
        slack: slack.contains(&(gear.ring, gear.cog)),
    }
}

fn write_chain(answer: &RangeAnswer, input: &RangeInput) -> Option<pb::ChainLength> {
    let mut written = pb::ChainLength {
        links_present: input.chain_links.map(Into::into),
        links_per_mm: 2.0 / 12.7,
        caution: LENGTH_CAUTION.into(),
        ..pb::ChainLength::default()
    };
    match answer.chain.as_ref()? {
        ChainAnswer::Derailleur { need, reach } => {
            written.big_big_links = need.big_big_pitches;
            written.small_small_links = need.small_small_pitches;
            written.links = need.links.into();
            written.growth_links = need.growth_links.into();
            written.rounding_links = need.rounding_pitches;
            match reach {
                None => {}
                Some(Reach::LongEnough { spare }) => {
                    (written.long_enough, written.spare_links) = (Some(true), Some((*spare).into()));
                }
                Some(Reach::TooShort { missing }) => {
                    (written.long_enough, written.missing_links) = (Some(false), Some((*missing).into()));
                }
            }
        }
        found @ ChainAnswer::Direct { chains, own } => {
            written.links = found.links().into();
            let chain =
                |chain: &DirectChain| pb::DirectChain { links: chain.links.into(), axle_mm: chain.centre_mm };
            written.direct = chains.iter().map(chain).collect();
            // How far the axle can move is not known, so a chain between the two is neither.
            let present = input.chain_links.map(|links| links - links % 2);
            written.long_enough = match (own, present) {
                (None, Some(_)) => Some(false),
                (Some(own), _) if own.links >= chains[1].links => Some(true),
                (Some(own), _) if own.links < chains[0].links => Some(false),
                _ => None,
            };
        }
    }
    Some(written)
}
