//! Gears as CSV: a row for each gear of each build.

use std::io::Write;

use sprag_proto::v1 as pb;

/// Writes the gears of all builds. A value that is not known is empty; speeds and cadences have a column for each that
/// was asked for.
///
/// # Errors
/// The output cannot be written.
pub fn gears(answers: &[pb::GearingAnswer], out: impl Write) -> anyhow::Result<()> {
    let mut rows = csv::Writer::from_writer(out);
    // All builds were asked at the same cadences and speeds, but one without a wheel answers none.
    let wheeled = answers.iter().flat_map(|answer| &answer.gears).find(|gear| gear.development_m.is_some());
    let (speeds, cadences) =
        wheeled.map_or((&[][..], &[][..]), |gear| (&gear.speeds[..], &gear.cadences[..]));
    let mut header: Vec<String> = [
        "build",
        "gear",
        "ring",
        "cog",
        "hub_ratio",
        "crank_ratio",
        "ratio",
        "ratio_numerator",
        "ratio_denominator",
        "development_m",
        "gear_inches",
        "step_percent",
        "cadence_change_percent",
        "chain_angle_degrees",
        "crossed",
        "slack",
    ]
    .map(str::to_owned)
    .into();
    header.extend(speeds.iter().map(|speed| format!("kmh_at_{}_rpm", speed.cadence_rpm)));
    header.extend(cadences.iter().map(|cadence| format!("rpm_at_{}_kmh", cadence.speed_kmh)));
    rows.write_record(&header)?;
    for answer in answers {
        for (index, gear) in answer.gears.iter().enumerate() {
            let mut row = row(answer, index, gear);
            row.extend((0..speeds.len()).map(|at| number(gear.speeds.get(at).map(|speed| speed.speed_kmh))));
            let cadence = |at: usize| number(gear.cadences.get(at).map(|cadence| cadence.cadence_rpm));
            row.extend((0..cadences.len()).map(cadence));
            rows.write_record(&row)?;
        }
    }
    Ok(rows.flush()?)
}

fn row(answer: &pb::GearingAnswer, index: usize, gear: &pb::Gear) -> Vec<String> {
    let internal = |ratio: Option<pb::Ratio>| {
        number(ratio.map(|ratio| ratio.numerator as f64 / ratio.denominator as f64))
    };
    let exact = gear.exact_ratio.unwrap_or_default();
    vec![
        answer.build_id.clone(),
        (index + 1).to_string(),
        gear.ring.to_string(),
        gear.cog.to_string(),
        internal(gear.hub_ratio),
        internal(gear.crank_ratio),
        number(Some(gear.ratio)),
        exact.numerator.to_string(),
        exact.denominator.to_string(),
        number(gear.development_m),
        number(gear.gear_inches),
        number(gear.step_percent),
        number(gear.cadence_change_percent),
        number(gear.chain_angle_degrees),
        gear.crossed.to_string(),
        gear.slack.to_string(),
    ]
}

fn number(value: Option<f64>) -> String {
    value.map(|value| format!("{value:.6}")).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_for_each_gear_and_an_empty_cell_for_what_is_not_known() {
        let gear = pb::Gear { ring: 34, cog: 17, ratio: 2.0, ..pb::Gear::default() };
        let plain = pb::GearingAnswer {
            build_id: "plain, old".into(),
            gears: vec![gear.clone()],
            ..Default::default()
        };
        let speeds = vec![pb::SpeedAtCadence { cadence_rpm: 90, speed_kmh: 22.5 }];
        let gear = pb::Gear { development_m: Some(4.2), speeds, ..gear };
        let wheeled =
            pb::GearingAnswer { build_id: "wheeled".into(), gears: vec![gear], ..Default::default() };
        let mut out = Vec::new();
        gears(&[plain, wheeled], &mut out).expect("written");
        let text = String::from_utf8(out).expect("text");
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines.len(), 3);
        assert!(lines[0].ends_with(",slack,kmh_at_90_rpm"));
        assert!(lines[1].starts_with("\"plain, old\",1,34,17,,,2.000000,") && lines[1].ends_with(",false,"));
        assert!(lines[2].ends_with(",false,22.500000"));
    }
}
