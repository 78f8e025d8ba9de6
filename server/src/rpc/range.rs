//! Gears of one or more bikes: decode, compute, encode.

use sprag_catalogue::View;
use sprag_engine::build::{Assembly, assemble};
use sprag_engine::gearing::chain::Reach;
use sprag_engine::gearing::chainline::{AlignedBy, Alignment};
use sprag_engine::gearing::climb::{Coefficients, Rider};
use sprag_engine::gearing::designation::TyreSize;
use sprag_engine::gearing::sizename::{NameReading, read_name};
use sprag_engine::gearing::wheel::RolloutSource;
use sprag_engine::gearing::wrap::{Wrap, growth_teeth};
use sprag_engine::gearing::{
    ChainAnswer, Fault as GearingFault, GearLine, HillAnswer, HillInput, RangeAnswer, RangeInput, Ratio,
    bike, compare, range,
};
use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use super::decode::{Decoder, build_faults};
use super::status::Refusal;
use crate::ops::limits::Limits;

const CADENCES_DEFAULT: [u16; 2] = [60, 90];
const LENGTH_CAUTION: &str = "a chain too short for largest ring with largest cog can tear the derailleur off: wrap both on the bike without the derailleur before cutting, and follow the derailleur maker";

/// One bike with its gears.
struct Answered {
    build_id: String,
    gearing: bike::BikeGearing,
    answer: RangeAnswer,
    nominal: bool,
    notes: Vec<String>,
}

/// Answers a request.
pub fn answer(request: &pb::RangeRequest, view: &View, limits: Limits) -> Result<pb::RangeResponse, Refusal> {
    if request.subjects.is_empty() || request.subjects.len() > limits.subjects {
        let found = format!("{} builds", request.subjects.len());
        return Err(invalid("subjects", &found, &format!("1 to {}", limits.subjects)));
    }
    let asked = Asked::read(request)?;
    let mut answered = Vec::new();
    for (index, subject) in request.subjects.iter().enumerate() {
        answered.push(one(subject, &format!("subjects[{index}]"), &asked, view, limits)?);
    }
    let differences = match answered.split_first() {
        Some((first, others)) => others.iter().map(|other| write_difference(first, other)).collect(),
        None => Vec::new(),
    };
    Ok(pb::RangeResponse {
        answers: answered.iter().map(|found| write(found, &asked)).collect(),
        differences,
        basis: Some(super::basis::basis(view, None)),
    })
}

fn invalid(path: &str, found: &str, wanted: &str) -> Refusal {
    Refusal::Invalid(vec![Fault {
        path: path.into(),
        found: found.into(),
        wanted: wanted.into(),
        nearest: None,
    }])
}

/// What is asked of every bike alike.
struct Asked {
    cadences_rpm: Vec<u16>,
    speeds_m_per_h: Vec<u32>,
    near_permille: u16,
    hill: Option<HillInput>,
}

impl Asked {
    fn read(request: &pb::RangeRequest) -> Result<Self, Refusal> {
        let mut faults = Vec::new();
        let mut fault = |path: String, found: String, wanted: &str| {
            faults.push(Fault { path, found, wanted: wanted.into(), nearest: None });
        };
        for (path, count) in
            [("cadences_rpm", request.cadences_rpm.len()), ("speeds_kmh", request.speeds_kmh.len())]
        {
            if count > 16 {
                fault(path.into(), format!("{count} values"), "at most 16");
            }
        }
        let mut cadences_rpm = Vec::new();
        for (index, cadence) in request.cadences_rpm.iter().enumerate() {
            match u16::try_from(*cadence).ok().filter(|cadence| (10..=250).contains(cadence)) {
                Some(cadence) => cadences_rpm.push(cadence),
                None => {
                    fault(format!("cadences_rpm[{index}]"), cadence.to_string(), "10 to 250 turns per minute")
                }
            }
        }
        let mut speeds_m_per_h = Vec::new();
        for (index, speed) in request.speeds_kmh.iter().enumerate() {
            if speed.is_finite() && (0.5..=150.0).contains(speed) {
                // Within 500 to 150 000 by the check above.
                speeds_m_per_h.push((speed * 1000.0).round() as u32);
            } else {
                fault(format!("speeds_kmh[{index}]"), speed.to_string(), "0.5 to 150 km/h");
            }
        }
        let near_permille = match request.duplicate_tolerance_permille {
            0 => 30,
            found => u16::try_from(found).ok().filter(|found| *found <= 500).unwrap_or_else(|| {
                fault("duplicate_tolerance_permille".into(), found.to_string(), "1 to 500");
                30
            }),
        };
        let hill = request.hill.as_ref().map(|hill| read_hill(hill, &mut fault));
        if !faults.is_empty() {
            return Err(Refusal::Invalid(faults));
        }
        if cadences_rpm.is_empty() {
            cadences_rpm = CADENCES_DEFAULT.to_vec();
        }
        Ok(Self { cadences_rpm, speeds_m_per_h, near_permille, hill })
    }
}

fn read_hill(hill: &pb::Hill, fault: &mut impl FnMut(String, String, &str)) -> HillInput {
    let mut within = |field: &str, value: i32, low: i32, high: i32, unit: &str| {
        if !(low..=high).contains(&value) {
            fault(format!("hill.{field}"), value.to_string(), &format!("{low} to {high} {unit}"));
        }
        f64::from(value)
    };
    let power_w = within("power_w", hill.power_w, 30, 2000, "W");
    let mass_kg = within("system_mass_kg", hill.system_mass_kg, 20, 500, "kg");
    let cadence_rpm = within("cadence_rpm", hill.cadence_rpm, 20, 150, "turns per minute");
    let gradient = hill
        .gradient_permille
        .map(|gradient| within("gradient_permille", gradient, 1, 400, "permille") / 1000.0);
    let mut coefficients = Coefficients::default();
    if hill.rolling_resistance_e4 != 0 {
        coefficients.rolling =
            within("rolling_resistance_e4", hill.rolling_resistance_e4, 10, 500, "") / 10_000.0;
    }
    if hill.drag_area_cm2 != 0 {
        coefficients.drag_area_m2 =
            within("drag_area_cm2", hill.drag_area_cm2, 1000, 20_000, "cm2") / 10_000.0;
    }
    HillInput { rider: Rider { power_w, mass_kg, cadence_rpm, coefficients }, gradient }
}

fn one(
    subject: &pb::RangeSubject,
    path: &str,
    asked: &Asked,
    view: &View,
    limits: Limits,
) -> Result<Answered, Refusal> {
    let mut decoder = Decoder::new(&view.snapshot, limits);
    let build = decoder.build(subject.build.as_ref(), &format!("{path}.build"), false);
    let changes = decoder.changes(&subject.changes, &format!("{path}.changes"));
    decoder.finish(())?;
    let assembly =
        assemble(&build, &changes).map_err(|faults| build_faults(faults, &format!("{path}.changes")))?;
    let mut gearing = bike::of(&assembly).map_err(|lacks| {
        let fault = |lack: &bike::Lack| Fault {
            path: format!("{path}.build.parts"),
            found: lack.to_string(),
            wanted: "cogs and rings with their teeth".into(),
            nearest: None,
        };
        Refusal::Invalid(lacks.iter().map(fault).collect())
    })?;
    gearing.input.cadences_rpm.clone_from(&asked.cadences_rpm);
    gearing.input.speeds_m_per_h.clone_from(&asked.speeds_m_per_h);
    gearing.input.near_permille = asked.near_permille;
    gearing.input.hill = asked.hill;
    let wheel_path = format!("{path}.build.wheel_size");
    let nominal = read_wheel(
        subject.build.as_ref().and_then(|build| build.wheel_size.as_ref()),
        &mut gearing.input,
        &wheel_path,
    )?;
    let answer = range(&gearing.input).map_err(|faults| gearing_faults(&faults, path))?;
    let mut notes = Vec::new();
    if gearing.cog_ends_only {
        notes.push(
            "only the smallest and the largest cog are known: steps and gears between them are not shown"
                .into(),
        );
    }
    if gearing.input.tyre.is_none() && gearing.input.rollout_um.is_none() {
        notes.push("no wheel size: development, gear inches and speeds need a tyre marking, a roll-out or a nominal diameter".into());
    }
    if gearing.input.stay_um.is_none() {
        notes.push("chainstay length not known: chain length needs it".into());
    }
    let build_id = subject.build.as_ref().map(|build| build.build_id.clone()).unwrap_or_default();
    Ok(Answered { build_id, gearing, answer, nominal, notes })
}

/// Reads the wheel size; tells whether it is a diameter by convention.
fn read_wheel(size: Option<&pb::WheelSize>, input: &mut RangeInput, path: &str) -> Result<bool, Refusal> {
    use pb::wheel_size::Size;
    match size.and_then(|size| size.size.as_ref()) {
        None => Ok(false),
        Some(Size::RollOutUm(um)) => {
            input.rollout_um = Some(length(*um).ok_or_else(|| {
                invalid(
                    &format!("{path}.roll_out_um"),
                    &um.to_string(),
                    "300 000 to 3 500 000 um (300 to 3500 mm)",
                )
            })?);
            Ok(false)
        }
        Some(Size::TyreDesignation(text)) => {
            input.tyre = Some(read_tyre(text, &format!("{path}.tyre_designation"))?);
            Ok(false)
        }
        Some(Size::NominalDiameterMilliInch(milli_inch)) => {
            let at = format!("{path}.nominal_diameter_milli_inch");
            let wrong = || invalid(&at, &milli_inch.to_string(), "4000 to 43 000 (4 to 43 inches)");
            if !(4_000..=43_000).contains(milli_inch) {
                return Err(wrong());
            }
            // Thousandths of an inch to micrometres: 25.4 each; the product is far below the precision of f64.
            let circumference = (*milli_inch as f64) * 25.4 * std::f64::consts::PI;
            input.rollout_um = Some(length(circumference.round() as i64).ok_or_else(wrong)?);
            Ok(true)
        }
    }
}

fn length(um: i64) -> Option<u32> {
    u32::try_from(um).ok().filter(|um| (300_000..=3_500_000).contains(um))
}

/// A tyre by its marking, or by a traditional name that means one bead seat and one width.
fn read_tyre(text: &str, path: &str) -> Result<TyreSize, Refusal> {
    let short: String = text.chars().take(60).collect();
    let marking = text.parse::<TyreSize>();
    let faults = match marking {
        Ok(tyre) => return Ok(tyre),
        Err(faults) => faults,
    };
    match read_name(text) {
        Ok(NameReading::Bsd(bsd)) => match width_of(text) {
            Some(width) => TyreSize::new(width, bsd).map_err(|faults| tyre_fault(path, &short, &faults)),
            None => Err(invalid(
                path,
                &format!("{short:?}, which names bead seat {bsd} but no width in millimetres"),
                &format!("the marking on the tyre, such as \"37-{bsd}\""),
            )),
        },
        Ok(NameReading::Candidates(candidates)) => {
            let listed: Vec<String> = candidates.iter().map(|bsd| format!("xx-{bsd}")).collect();
            Err(invalid(
                path,
                &format!("{short:?}, which can mean several rims"),
                &format!("the marking on the tyre, one of {}", listed.join(", ")),
            ))
        }
        Err(_) => Err(tyre_fault(path, &short, &faults)),
    }
}

/// The width in millimetres of a name such as "700x28C" or "26 x 1.75": metric, or decimal inches rounded.
fn width_of(text: &str) -> Option<u16> {
    let lowered = text.to_lowercase();
    let (_, width) = lowered.split_once(['x', '\u{d7}'])?;
    let width = width.trim().trim_end_matches(['a', 'b', 'c', 'd', '"']).trim();
    if let Ok(millimetres) = width.parse::<u16>() {
        return (18..=132).contains(&millimetres).then_some(millimetres);
    }
    let (whole, fraction) = width.split_once('.')?;
    let thousandths: u32 = format!("{fraction:0<3}").get(..3)?.parse().ok()?;
    let inches = whole.parse::<u32>().ok()?.checked_mul(1000)?.checked_add(thousandths)?;
    u16::try_from((inches * 254 + 5_000) / 10_000).ok().filter(|width| (18..=132).contains(width))
}

fn tyre_fault(path: &str, found: &str, faults: &[GearingFault]) -> Refusal {
    let wanted = faults.first().map(ToString::to_string).unwrap_or_default();
    invalid(path, &format!("{found:?}"), &format!("a marking such as \"37-622\" ({wanted})"))
}

fn gearing_faults(faults: &[GearingFault], path: &str) -> Refusal {
    let fault = |found: &GearingFault| Fault {
        path: format!("{path}.{}", found.field()),
        found: found.to_string(),
        wanted: "what that says".into(),
        nearest: None,
    };
    Refusal::Invalid(faults.iter().map(fault).collect())
}

fn write_ratio(ratio: Ratio) -> pb::Ratio {
    // Terms are bounded by the engine's limits on teeth and internal ratios, far below i64.
    pb::Ratio {
        numerator: i64::try_from(ratio.num()).unwrap_or(i64::MAX),
        denominator: i64::try_from(ratio.den()).unwrap_or(i64::MAX),
    }
}

fn write(found: &Answered, asked: &Asked) -> pb::GearingAnswer {
    let Answered { answer, gearing, .. } = found;
    let slack: &[(u16, u16)] = match &answer.wrap {
        Some(Wrap::Short { slack, .. }) => slack,
        _ => &[],
    };
    let step = |index: usize| index.checked_sub(1).and_then(|below| answer.steps.get(below));
    let gears = answer
        .gears
        .iter()
        .enumerate()
        .map(|(index, line)| {
            let mut gear = write_gear(line, answer, asked, slack);
            gear.step_percent = step(index).filter(|_| !gearing.cog_ends_only).map(|step| step.percent);
            gear
        })
        .collect();
    pb::GearingAnswer {
        build_id: found.build_id.clone(),
        gears,
        range: Some(pb::GearingRange {
            cogs_percent: 100.0 * answer.ranges.cogs.as_f64(),
            rings_percent: 100.0 * answer.ranges.rings.as_f64(),
            internal_percent: 100.0 * answer.ranges.internal.as_f64(),
            overall_percent: answer.ranges.overall_percent(),
            mean_step_percent: answer.mean_step_percent.filter(|_| !gearing.cog_ends_only).unwrap_or(0.0),
        }),
        overlaps: answer
            .overlaps
            .iter()
            .map(|overlap| pb::Overlap {
                larger_ring: overlap.big_ring.into(),
                smaller_ring: overlap.small_ring.into(),
                low_ratio: overlap.low.as_f64(),
                high_ratio: overlap.high.as_f64(),
                hole: overlap.hole,
            })
            .collect(),
        near_duplicates: answer
            .near_duplicates
            .iter()
            .filter_map(|pair| {
                let lower = answer.gears.get(pair.lower)?.gear;
                let higher = answer.gears.get(pair.lower + 1)?.gear;
                Some(pb::NearDuplicate {
                    lower_ring: lower.ring.into(),
                    lower_cog: lower.cog.into(),
                    higher_ring: higher.ring.into(),
                    higher_cog: higher.cog.into(),
                    difference_percent: pair.percent,
                })
            })
            .collect(),
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
        hill: answer.hill.as_ref().map(write_hill),
        known_mass_g: gearing.known_mass_g,
        notes: found.notes.clone(),
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
    let hub_ratios = answer.set.hub_ratios();
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
        hub_ratio: hub_ratios
            .get(gear.hub_index)
            .filter(|_| hub_ratios.len() > 1)
            .map(|ratio| write_ratio(*ratio)),
        exact_ratio: Some(write_ratio(gear.ratio)),
        ratio: gear.ratio.as_f64(),
        development_m: line.road.as_ref().map(|road| road.development_m),
        gear_inches: line.road.as_ref().map(|road| road.gear_inches),
        step_percent: None,
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
            written.too_short = matches!(reach, Some(Reach::TooShort { .. }));
        }
        found @ ChainAnswer::Direct { .. } => written.links = found.links().into(),
    }
    Some(written)
}

fn write_hill(hill: &HillAnswer) -> pb::HillAnswer {
    let held = &hill.held;
    // Rider and rolling resistance are not known better than half a percentage point.
    let gradient = (held.gradient * 200.0).round() / 2.0;
    let needed = hill.needed.as_ref();
    let slow =
        |validity: &sprag_engine::gearing::climb::Validity| validity.walking || validity.balance_limits;
    pb::HillAnswer {
        gradient_held_percent: gradient,
        speed_kmh: held.speed * 3.6,
        ratio_needed: needed.map(|(needed, _)| needed.ratio),
        low_enough: needed.map(|(_, enough)| *enough),
        below_balance_speed: slow(&held.validity) || needed.is_some_and(|(needed, _)| slow(&needed.validity)),
        validity: "steady riding without wind; good to about 0.2 points of gradient for rolling resistance and a tenth for the rider's power; below about 5 km/h balance limits, and a lower gear is no cure".into(),
    }
}

fn write_difference(first: &Answered, other: &Answered) -> pb::GearingDifference {
    let mut written = difference_of(&first.answer, &other.answer);
    written.build_id.clone_from(&other.build_id);
    written.against_build_id.clone_from(&first.build_id);
    written.mass_g = other.gearing.known_mass_g - first.gearing.known_mass_g;
    if first.gearing.cog_ends_only || other.gearing.cog_ends_only {
        written.mean_step_points = 0.0;
    }
    written
}

fn difference_of(first: &RangeAnswer, other: &RangeAnswer) -> pb::GearingDifference {
    let found = compare(first, other);
    let count = |answer: &RangeAnswer, test: &dyn Fn(Ratio) -> bool| {
        i32::try_from(answer.gears.iter().filter(|line| test(line.gear.ratio)).count()).unwrap_or(i32::MAX)
    };
    pb::GearingDifference {
        build_id: String::new(),
        against_build_id: String::new(),
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
        mass_g: 0,
    }
}

/// The gearing of a bike before and after; `None` where one of them is not known.
pub fn difference(before: &Assembly, after: &Assembly) -> Option<pb::GearingDifference> {
    let answer = |assembly: &Assembly| range(&bike::of(assembly).ok()?.input).ok();
    Some(difference_of(&answer(before)?, &answer(after)?))
}
