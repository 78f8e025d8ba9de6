//! sprag range.

use anyhow::{Context, bail};
use sprag_proto::v1 as pb;
use sprag_proto::v1::wheel_size::Size;

use crate::args::{Format, Range};
use crate::connect::Service;
use crate::{files, output};

/// Asks for the gears; with changes before and after, with other builds side by side.
pub async fn range(given: &Range, service: &Service, format: Format) -> anyhow::Result<u8> {
    let wheel = given.wheel.as_deref().map(wheel_size).transpose()?;
    let (build, changes) = files::bike(&given.bike)?;
    if given.bike.build.is_none() {
        bail!("name the bike with --build FILE");
    }
    let named = |mut build: pb::Build, name: String| {
        if build.build_id.is_empty() {
            build.build_id = name;
        }
        if build.wheel_size.is_none() {
            build.wheel_size.clone_from(&wheel);
        }
        build
    };
    let name = given.bike.build.as_deref().map(file_name).unwrap_or_default();
    let before = named(build, name);
    let mut subjects = vec![pb::RangeSubject { build: Some(before.clone()), changes: Vec::new() }];
    if !changes.is_empty() {
        let after = pb::Build { build_id: format!("{} with changes", before.build_id), ..before };
        subjects.push(pb::RangeSubject { build: Some(after), changes });
    }
    for path in &given.versus {
        let build = named(files::build(path)?, file_name(path));
        subjects.push(pb::RangeSubject { build: Some(build), changes: Vec::new() });
    }
    let request = pb::RangeRequest {
        subjects,
        cadences_rpm: given.cadence.clone(),
        speeds_kmh: given.speed.clone(),
        duplicate_tolerance_permille: 0,
        hill: hill(given),
    };
    let answer = service.compatibility().await?.range(service.request(request)).await?.into_inner();
    if let Some(path) = &given.svg {
        output::picture::svg(&answer.answers, path)?;
    }
    if let Some(path) = &given.png {
        output::picture::png(&answer.answers, path)?;
    }
    match format {
        Format::Csv => output::csv::gears(&answer.answers, std::io::stdout().lock())?,
        _ => output::print(&answer, format, output::range::range)?,
    }
    Ok(0)
}

fn file_name(path: &std::path::Path) -> String {
    path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

fn hill(given: &Range) -> Option<pb::Hill> {
    Some(pb::Hill {
        power_w: given.power?,
        system_mass_kg: given.mass?,
        cadence_rpm: given.hill_cadence,
        // Rounded to the tenth of a percent that the request counts in; the service checks the range.
        gradient_permille: given.gradient.map(|percent| (percent * 10.0).round() as i32),
        coefficients: None,
    })
}

/// "37-622", "2105mm" or "27in".
fn wheel_size(given: &str) -> anyhow::Result<pb::WheelSize> {
    let size = if let Some(text) = given.strip_suffix("mm") {
        Size::RollOutUm(
            thousandths(text).with_context(|| format!("{given:?} is no roll-out such as 2105mm"))?,
        )
    } else if let Some(text) = given.strip_suffix("in") {
        let milli_inch =
            thousandths(text).with_context(|| format!("{given:?} is no diameter such as 27in"))?;
        Size::NominalDiameterMilliInch(milli_inch)
    } else {
        Size::TyreDesignation(given.to_owned())
    };
    Ok(pb::WheelSize { size: Some(size) })
}

/// A decimal as thousandths, exactly.
fn thousandths(text: &str) -> Option<i64> {
    let text = text.trim();
    let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
    let digits = fraction.len() <= 3 && fraction.chars().all(|digit| digit.is_ascii_digit());
    let fraction: i64 = format!("{fraction:0<3}").parse().ok().filter(|_| digits)?;
    whole.parse::<i64>().ok().filter(|whole| *whole >= 0)?.checked_mul(1000)?.checked_add(fraction)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wheel_size_says_what_it_is() {
        let size = |given: &str| wheel_size(given).expect("a size").size;
        assert_eq!(size("37-622"), Some(Size::TyreDesignation("37-622".into())));
        assert_eq!(size("2105mm"), Some(Size::RollOutUm(2_105_000)));
        assert_eq!(size("27.5in"), Some(Size::NominalDiameterMilliInch(27_500)));
        assert!(wheel_size("-3mm").is_err());
    }
}
