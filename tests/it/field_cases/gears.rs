//! Numbers of the gearing that a case prints.

use serde_json::Value as Json;
use sprag_engine::gearing::chainline::locknut_equivalent_um;
use sprag_engine::gearing::measure::gear_inches_nominal;
use sprag_engine::gearing::ratio::as_percent;
use sprag_engine::gearing::sprocket::Sprocket;
use sprag_engine::gearing::{RangeAnswer, Ratio, bike, range};
use sprag_engine::part::{Attribute, Kind};

use super::data::GearNumber;
use super::judge::assembly;

/// Half of the last printed digit, and what the division itself may lose.
fn tolerance(printed: &str) -> f64 {
    let decimals = printed.split_once('.').map_or(0, |(_, digits)| digits.len());
    0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap_or(0)) + 1e-9
}

/// What is wrong with a printed number; `None` where it agrees.
pub fn disagreement(request: &Json, printed: &GearNumber) -> Option<String> {
    let wanted: f64 = match printed.value.parse() {
        Ok(wanted) => wanted,
        Err(_) => return Some(format!("{:?} is not a number", printed.value)),
    };
    match found(request, printed) {
        Ok(found) if (found - wanted).abs() <= tolerance(&printed.value) => None,
        Ok(found) => Some(format!("{} {}: {found:.4}, printed {}", printed.what, printed.of, printed.value)),
        Err(fault) => Some(format!("{} {}: {fault}", printed.what, printed.of)),
    }
}

fn found(request: &Json, printed: &GearNumber) -> Result<f64, String> {
    if printed.what == "pitch radius change mm" {
        let (one, other) = pair(&printed.of)?;
        return Ok((diameter(one)? - diameter(other)?) / 2.0);
    }
    if printed.what == "sprocket plane from dropout mm" {
        return sprocket_plane(request);
    }
    let answer = gears(request, !printed.before)?;
    Ok(match printed.what.as_str() {
        "ratio" => of_gear(&answer, &printed.of)?.as_f64(),
        "inches" => inches(request, of_gear(&answer, &printed.of)?)?,
        "lowest" => answer.lowest().as_f64(),
        "highest" => answer.highest().as_f64(),
        "lowest inches" => inches(request, answer.lowest())?,
        "highest inches" => inches(request, answer.highest())?,
        "direct inches" => inches(request, answer.primary.lowest)?,
        "range %" => answer.ranges.overall_percent(),
        "cog range %" => as_percent(answer.ranges.cogs),
        "ring range %" => as_percent(answer.ranges.rings),
        "capacity" => f64::from(answer.wrap_needed),
        "cogs" => answer.set.cogs().len() as f64,
        "step after lowest %" => answer.steps.first().ok_or("no steps")?.percent,
        "largest step %" => answer.steps.iter().map(|step| step.percent).fold(0.0, f64::max),
        "lowest change %" => change(gears(request, false)?.lowest(), answer.lowest()),
        "highest change %" => change(gears(request, false)?.highest(), answer.highest()),
        "primary" => answer.primary.lowest.as_f64(),
        "primary below limit" => f64::from(u8::from(answer.primary.below_limit)),
        other => return Err(format!("no such number: {other:?}")),
    })
}

fn gears(request: &Json, changed: bool) -> Result<RangeAnswer, String> {
    let assembly = assembly(request, changed)?;
    let question = bike::of(&assembly).map_err(|lacks| format!("{lacks:?}"))?;
    range(&question.input).map_err(|faults| format!("{faults:?}"))
}

fn pair(text: &str) -> Result<(u16, u16), String> {
    let pair = text.split_once('/').ok_or_else(|| format!("{text:?} is not a pair"))?;
    let number = |text: &str| text.parse::<u16>().map_err(|fault| format!("{text:?}: {fault}"));
    Ok((number(pair.0)?, number(pair.1)?))
}

fn of_gear(answer: &RangeAnswer, of: &str) -> Result<Ratio, String> {
    let (ring, cog) = pair(of)?;
    let line = answer.gears.iter().find(|line| (line.gear.ring, line.gear.cog) == (ring, cog));
    line.map(|line| line.gear.ratio).ok_or_else(|| format!("no gear {of}"))
}

fn diameter(teeth: u16) -> Result<f64, String> {
    Sprocket::new(teeth).map(Sprocket::pitch_diameter_mm).map_err(|fault| format!("{fault:?}"))
}

/// Half the width of the hub less the chainline of the ring.
fn sprocket_plane(request: &Json) -> Result<f64, String> {
    let assembly = assembly(request, true)?;
    let length = |kind, attribute| {
        let part = assembly.of_kind(kind).next().map(|placed| placed.part.exact(attribute));
        part.flatten().and_then(|value| u32::try_from(value).ok()).ok_or("no width or chainline")
    };
    let width = length(Kind::Hub, Attribute::OverLocknut)?;
    let line = length(Kind::Crankset, Attribute::Chainline)?;
    Ok((f64::from(locknut_equivalent_um(width, false)) / 2.0 - f64::from(line)) / 1000.0)
}

/// Gear inches on the wheel of nominal size that the case names.
fn inches(request: &Json, ratio: Ratio) -> Result<f64, String> {
    let size = request["build"]["wheel_size"]["nominal_diameter_milli_inch"].as_u64();
    let quarters = size.and_then(|size| u16::try_from(size / 250).ok()).ok_or("no nominal wheel size")?;
    Ok(gear_inches_nominal(ratio, quarters))
}

fn change(before: Ratio, after: Ratio) -> f64 {
    100.0 * (after.as_f64() / before.as_f64() - 1.0)
}
