//! Gears as tables and a chart.

use std::fmt::Write;

use comfy_table::CellAlignment;
use sprag_proto::v1 as pb;

use super::check::wrapped;
use super::table::table;

/// Width of the chart in characters.
const CHART: usize = 72;

/// A whole answer.
pub fn range(answer: &pb::RangeResponse) -> String {
    let mut out = String::new();
    for (index, build) in answer.answers.iter().enumerate() {
        if index > 0 {
            out.push('\n');
        }
        one(&mut out, build);
    }
    for difference in &answer.differences {
        compared(&mut out, difference);
    }
    if answer.answers.len() > 1 {
        chart(&mut out, &answer.answers);
    }
    out
}

fn one(out: &mut String, build: &pb::GearingAnswer) {
    let name = if build.build_id.is_empty() { "this build" } else { &build.build_id };
    let _ = writeln!(out, "Gears of {name}, lowest first");
    gears(out, build);
    if let Some(range) = &build.range {
        let _ = write!(out, "Range {:.1} % overall: cogs {:.1} %", range.overall_percent, range.cogs_percent);
        if range.rings_percent > 100.0 {
            let _ = write!(out, ", rings {:.1} %", range.rings_percent);
        }
        if range.internal_percent > 100.0 {
            let _ = write!(out, ", inside the hub or crank {:.1} %", range.internal_percent);
        }
        if range.mean_step_percent > 0.0 {
            let _ = write!(out, "; mean step {:.1} %", range.mean_step_percent);
        }
        out.push('\n');
    }
    if let Some(roll_out) = &build.roll_out {
        let mm = roll_out.circumference_um as f64 / 1000.0;
        let from = match pb::RollOutSource::try_from(roll_out.source) {
            Ok(pb::RollOutSource::Caller) => "as given",
            Ok(pb::RollOutSource::Chart) => "from a published chart",
            Ok(pb::RollOutSource::Formula) => "computed from the tyre's marking",
            _ => "from a diameter by convention",
        };
        let percent = f64::from(roll_out.uncertainty_permille) / 10.0;
        let _ = writeln!(
            out,
            "Roll-out {mm:.0} mm, {from}, good to about {percent} %: ratios and steps are exact, speeds are not"
        );
    }
    wrap_and_chain(out, build);
    if let Some(hill) = &build.hill {
        climb(out, hill);
    }
    for note in &build.notes {
        wrapped(out, "Note: ", note);
    }
}

fn gears(out: &mut String, build: &pb::GearingAnswer) {
    let road = build.roll_out.is_some();
    let mut header = vec!["ring x cog".to_owned(), "ratio".into(), "step %".into()];
    if road {
        header.extend(["metres".to_owned(), "inches".into()]);
        if let Some(first) = build.gears.first() {
            header.extend(first.speeds.iter().map(|speed| format!("km/h at {}", speed.cadence_rpm)));
            header.extend(first.cadences.iter().map(|cadence| format!("rpm at {} km/h", cadence.speed_kmh)));
        }
    }
    header.push(String::new());
    let mut gears = table([]);
    gears.set_header(&header);
    for gear in &build.gears {
        let mut row = vec![combination(gear), format!("{:.3}", gear.ratio)];
        row.push(gear.step_percent.map(|step| format!("{step:.1}")).unwrap_or_default());
        if road {
            row.push(gear.development_m.map(|metres| format!("{metres:.2}")).unwrap_or_default());
            row.push(gear.gear_inches.map(|inches| format!("{inches:.1}")).unwrap_or_default());
            row.extend(gear.speeds.iter().map(|speed| format!("{:.1}", speed.speed_kmh)));
            row.extend(gear.cadences.iter().map(|cadence| format!("{:.0}", cadence.cadence_rpm)));
        }
        row.push(marks(gear));
        gears.add_row(row);
    }
    for column in gears.column_iter_mut().skip(1).take(header.len() - 2) {
        column.set_cell_alignment(CellAlignment::Right);
    }
    let _ = writeln!(out, "{gears}");
}

fn combination(gear: &pb::Gear) -> String {
    match &gear.hub_ratio {
        Some(hub) => {
            format!("{} x {}, hub {:.3}", gear.ring, gear.cog, hub.numerator as f64 / hub.denominator as f64)
        }
        None => format!("{} x {}", gear.ring, gear.cog),
    }
}

fn marks(gear: &pb::Gear) -> String {
    match (gear.crossed, gear.slack) {
        (true, true) => "crossed, slack chain",
        (true, false) => "crossed",
        (false, true) => "slack chain",
        (false, false) => "",
    }
    .to_owned()
}

fn wrap_and_chain(out: &mut String, build: &pb::GearingAnswer) {
    if let Some(wrap) = &build.wrap {
        let against = match wrap.capacity_teeth {
            Some(capacity) if capacity >= wrap.needed_teeth => format!("the derailleur takes up {capacity}"),
            Some(capacity) => {
                format!("the derailleur takes up {capacity}: {} short", wrap.needed_teeth - capacity)
            }
            None => "the derailleur's capacity is not known".to_owned(),
        };
        let _ = writeln!(out, "Wrap needed {} teeth; {against}", wrap.needed_teeth);
    }
    if let Some(chain) = &build.chain {
        let _ = write!(out, "Chain {} links", chain.links);
        if chain.big_big_links > 0.0 {
            let _ = write!(
                out,
                " (largest with largest {:.2}, smallest with smallest {:.2})",
                chain.big_big_links, chain.small_small_links
            );
        }
        if chain.growth_links > 0 {
            let _ = write!(out, ", {} of them for the suspension", chain.growth_links);
        }
        out.push('\n');
        if let (true, Some(present)) = (chain.too_short, chain.links_present) {
            let _ = writeln!(out, "THE CHAIN OF {present} LINKS IS TOO SHORT");
        }
        wrapped(out, "Caution: ", &chain.caution);
    }
}

fn climb(out: &mut String, hill: &pb::HillAnswer) {
    let _ = writeln!(
        out,
        "Hill: the lowest gear holds {:.1} % at {:.1} km/h",
        hill.gradient_held_percent, hill.speed_kmh
    );
    if let (Some(ratio), Some(enough)) = (hill.ratio_needed, hill.low_enough) {
        let verdict = if enough { "the lowest gear is low enough" } else { "the lowest gear is too high" };
        let _ = writeln!(out, "The gradient asked for needs a ratio of {ratio:.3}: {verdict}");
    }
    if hill.below_balance_speed {
        let _ = writeln!(out, "At this speed balance limits, not gearing: a lower gear is no cure");
    }
    wrapped(out, "  ", &hill.validity);
}

fn compared(out: &mut String, difference: &pb::GearingDifference) {
    let _ = writeln!(out, "\n{} against {}", name(&difference.build_id), name(&difference.against_build_id));
    let _ = writeln!(
        out,
        "  lowest gear {:+.1} %, highest gear {:+.1} %, range {:+.1} points, mean step {:+.1} points, wrap {:+} teeth",
        difference.lowest_percent,
        difference.highest_percent,
        difference.range_points,
        difference.mean_step_points,
        difference.wrap_teeth
    );
    let _ = writeln!(
        out,
        "  gained: {} below, {} above; lost: {} below, {} above",
        difference.gained_low, difference.gained_high, difference.lost_low, difference.lost_high
    );
    if let Some(links) = difference.links {
        let _ = writeln!(out, "  chain {links:+} links");
    }
    if difference.mass_g != 0 {
        let _ = writeln!(out, "  mass {:+} g, as far as it is known", difference.mass_g);
    }
}

fn name(build_id: &str) -> &str {
    if build_id.is_empty() { "this build" } else { build_id }
}

/// All gears on one logarithmic scale, a line for each ring; readable without colour.
fn chart(out: &mut String, builds: &[pb::GearingAnswer]) {
    let ratios = builds.iter().flat_map(|build| &build.gears).map(|gear| gear.ratio);
    let (low, high) =
        ratios.fold((f64::MAX, 0.0_f64), |(low, high), ratio| (low.min(ratio), high.max(ratio)));
    if low >= high {
        return;
    }
    let place = |ratio: f64| {
        let share = (ratio / low).ln() / (high / low).ln();
        // Between 0 and CHART - 1, since the share is between 0 and 1.
        (share * (CHART - 1) as f64).round() as usize
    };
    let _ = writeln!(out, "\nRatio, logarithmic, {low:.2} to {high:.2}");
    for build in builds {
        let mut rings: Vec<i32> = build.gears.iter().map(|gear| gear.ring).collect();
        rings.sort_unstable_by(|a, b| b.cmp(a));
        rings.dedup();
        for ring in rings {
            let mut line = vec!['.'; CHART];
            for gear in build.gears.iter().filter(|gear| gear.ring == ring) {
                let mark = if gear.crossed { 'o' } else { '|' };
                if let Some(cell) = line.get_mut(place(gear.ratio)) {
                    *cell = mark;
                }
            }
            let _ = writeln!(
                out,
                "  {} {ring:>3} T {}",
                line.into_iter().collect::<String>(),
                name(&build.build_id)
            );
        }
    }
    let _ = writeln!(out, "  | a gear, o a crossed one; lower gears to the left");
}
