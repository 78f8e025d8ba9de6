//! Gears as tables and a chart.

use std::fmt::Write;

use comfy_table::CellAlignment;
use sprag_proto::v1 as pb;

use super::check::wrapped;
use super::table::{price, table};

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
    shifts(out, build);
    mass_and_price(out, build);
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
                " to order (largest with largest {:.2}, smallest with smallest {:.2}, {:.2} given away by rounding)",
                chain.big_big_links, chain.small_small_links, chain.rounding_links
            );
        }
        if chain.growth_links > 0 {
            let _ = write!(out, ", {} of them for the suspension", chain.growth_links);
        }
        out.push('\n');
        for chain in &chain.direct {
            let _ = writeln!(out, "  {} links with the axle at {:.1} mm", chain.links, chain.axle_mm);
        }
        if let Some(present) = chain.links_present {
            let _ = match (chain.long_enough, chain.missing_links, chain.spare_links) {
                (Some(false), Some(missing), _) => {
                    writeln!(out, "THE CHAIN OF {present} LINKS IS TOO SHORT, by {missing}")
                }
                (Some(false), None, _) => writeln!(out, "THE CHAIN OF {present} LINKS IS TOO SHORT"),
                (Some(true), _, Some(spare)) => {
                    writeln!(out, "The chain of {present} links is long enough, with {spare} to spare")
                }
                (Some(true), _, None) => writeln!(out, "The chain of {present} links is long enough"),
                (None, _, _) => {
                    writeln!(out, "Whether the chain of {present} links fits depends on the axle")
                }
            };
        }
        wrapped(out, "Caution: ", &chain.caution);
    }
}

fn climb(out: &mut String, hill: &pb::HillAnswer) {
    let _ = writeln!(
        out,
        "Hill: the lowest gear holds {:.1} % at {:.1} km/h, {:.0} m of height an hour",
        hill.gradient_held_percent, hill.speed_kmh, hill.climb_m_per_h
    );
    if let (Some(ratio), Some(enough)) = (hill.ratio_needed, hill.low_enough) {
        let verdict = if enough { "the lowest gear is low enough" } else { "the lowest gear is too high" };
        let road = match (hill.development_needed_m, hill.gear_inches_needed) {
            (Some(metres), Some(inches)) => format!(" ({metres:.2} m, {inches:.1} inches)"),
            _ => String::new(),
        };
        let _ = writeln!(out, "The gradient asked for needs a ratio of {ratio:.3}{road}: {verdict}");
    }
    if hill.low_enough == Some(false) {
        for cog in &hill.cogs_needed {
            let made = if cog.not_made { ", which is not made: a smaller ring is needed" } else { "" };
            let _ = writeln!(out, "  with {} T in front a cog of {} T{made}", cog.ring, cog.teeth);
        }
    }
    if hill.cure == Some(false) {
        let _ = writeln!(out, "No gear is the cure: less load, more power or a push is");
    } else if hill.below_balance_speed {
        let _ = writeln!(out, "At this speed balance limits, not gearing: a lower gear is no cure");
    }
    if hill.front_wheel_lifts {
        let _ = writeln!(out, "On a gradient this steep the front wheel lifts");
    }
    wrapped(out, "  ", &hill.validity);
}

fn shifts(out: &mut String, build: &pb::GearingAnswer) {
    let gear = |place: i32| usize::try_from(place).ok().and_then(|place| build.gears.get(place));
    if let Some(order) = &build.shift_order {
        for change in &order.ring_changes {
            if let (Some(from), Some(to)) = (gear(change.from_gear), gear(change.to_gear)) {
                let _ = writeln!(
                    out,
                    "Ring change {} -> {}, with {} rear shifts back ({} would keep the gear)",
                    combination(from),
                    combination(to),
                    change.rear_shifts,
                    change.compensating_shifts
                );
            }
        }
    }
    if build.distinct_gears > 0 {
        let _ = writeln!(out, "{} gears, {} of them distinct", build.gears.len(), build.distinct_gears);
    }
    if let Some(primary) = build.primary.as_ref().filter(|primary| primary.below_limit) {
        wrapped(out, "THE HUB IS OVERLOADED: ", &primary.caution);
    }
}

fn mass_and_price(out: &mut String, build: &pb::GearingAnswer) {
    if let Some(cogs) = &build.cog_mass {
        let _ = write!(out, "Cogs {:.0} g", cogs.mass_g);
        if let Some(effective) = cogs.effective_g {
            let _ = write!(out, "; turning included they feel like {effective:.1} g");
        }
        if let Some(rim) = cogs.at_rim_g {
            let _ = write!(out, "; they turn like {rim:.1} g at the rim");
        }
        out.push('\n');
    }
    if build.known_price.is_some() {
        let _ = writeln!(out, "Parts with a known price: {}", price(build.known_price.as_ref()));
    }
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
        "  beyond the other's ends: {} gears gained below, {} above; {} lost below, {} above",
        difference.gained_low, difference.gained_high, difference.lost_low, difference.lost_high
    );
    if let Some(links) = difference.links {
        let _ = writeln!(out, "  chain {links:+} links");
    }
    for (what, gears) in [("gained", &difference.gained), ("lost", &difference.lost)] {
        if !gears.is_empty() {
            let names: Vec<String> = gears
                .iter()
                .map(|gear| format!("{} x {} ({:.2})", gear.ring, gear.cog, gear.ratio))
                .collect();
            wrapped(out, &format!("  {what}: "), &names.join(", "));
        }
    }
    if difference.mass_g != 0 {
        let _ = writeln!(out, "  mass {:+} g, as far as it is known", difference.mass_g);
    }
    if let Some(cogs) = difference.cog_mass.as_ref().filter(|cogs| cogs.mass_g.abs() > 0.0) {
        let felt = cogs.effective_g.map(|felt| format!(", felt {felt:+.1} g with their turning"));
        let _ = writeln!(out, "  cogs {:+.0} g{}", cogs.mass_g, felt.unwrap_or_default());
    }
    if difference.price.is_some() {
        let _ = writeln!(out, "  price of the new parts {}", price(difference.price.as_ref()));
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
