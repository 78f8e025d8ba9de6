//! A small shop with invented makers, a nine-speed touring bike, and the words to ask about it.

use serde_json::{Value as Json, json};
use sprag_proto::text;
use sprag_proto::v1 as pb;

/// A row of the catalogue: stock number, price in cents, stock, and what the part is.
fn row(sku: &str, cents: i64, stock: i64, part: Json) -> Json {
    let mut row = json!({
        "sku": sku, "name": format!("Part {sku}"), "stock": stock,
        "price": {"currency_code": "EUR", "minor_units": cents},
        "maker_part": {"brand_id": "fernhollow", "number": format!("FH {sku}")},
    });
    for (field, value) in part.as_object().expect("a kind with its attributes") {
        row[field] = value.clone();
    }
    row
}

fn cassette(pattern: &str, length: &str, speeds: i64, cogs: &[i64], mass: i64) -> Json {
    let pitch = if speeds == 9 { "4.34 mm" } else { "3.95 mm" };
    json!({"cassette": {
        "mount_family": pattern, "required_length": length, "cogs": cogs, "cog_count": cogs.len(),
        "chain_class": speeds, "cog_pitch": pitch, "chain_profile": "normal", "lockring_thread": "m30.5x1",
        "lockring_size": "11t", "mass_g": mass,
    }})
}

fn chain(speed: i64, links: i64) -> Json {
    let width = if speed == 9 { "6.6 mm" } else { "5.9 mm" };
    json!({"chain": {
        "chain_speed": speed, "labelled_6_7_8": false, "outer_width": width, "inner_width": "2.18 mm",
        "chain_profile": "normal", "link_count": links, "cut_to_length": false, "worn": false, "mass_g": 290,
    }})
}

fn derailleur(speeds: i64, cogs: [i64; 2], capacity: i64, family: &str, mass: i64) -> Json {
    json!({"rear_derailleur": {
        "max_cog": cogs[1], "min_largest_cog": cogs[0], "min_cog": 11, "capacity": capacity,
        "max_front_difference": 22, "declared_speeds": speeds, "cage": "long", "geometry": "slant",
        "clutch": false, "pull_family": family, "derailleur_mount": "m10-bolt", "limit_screws": true,
        "reversed_spring": false, "pulley_teeth": 11, "mass_g": mass,
    }})
}

fn shifter(positions: i64, family: &str) -> Json {
    let pitch = if positions == 9 { "4.34 mm" } else { "3.95 mm" };
    json!({"rear_shifter": {
        "positions": positions, "pull_family": family, "cog_pitch": pitch, "friction": false,
        "multi_shift": true, "mass_g": 142,
    }})
}

fn wheel(pattern: &str, length: &str) -> Json {
    json!({"wheel": {"mass_g": 1100, "hub": {
        "hub_thread": "none", "over_locknut": "135 mm", "axle": "quick-release-10", "rotor_mount": "none",
        "freehub_body": {
            "mount_family": pattern, "body_length": length, "min_cog": 11, "body_material": "steel",
            "lockring_thread": "m30.5x1",
        },
    }}})
}

fn link(speed: i64) -> Json {
    json!({"quick_link": {"chain_speed": speed, "chain_profile": "normal", "reusable": true, "used": false,
        "mass_g": 3}})
}

/// The shop's parts.
pub fn rows() -> Vec<Json> {
    let nine = |cogs: &[i64], mass| cassette("spline-9", "34.9 mm", 9, cogs, mass);
    vec![
        row("CS-1128", 2490, 4, nine(&[11, 12, 13, 14, 16, 18, 21, 24, 28], 280)),
        row("CS-1132", 2990, 8, nine(&[11, 12, 14, 16, 18, 21, 24, 28, 32], 315)),
        row("CS-1134", 3190, 6, nine(&[11, 13, 15, 17, 20, 23, 26, 30, 34], 335)),
        row("CS-1136", 3390, 0, nine(&[11, 13, 15, 17, 20, 23, 26, 30, 36], 350)),
        row("CS-1146", 4590, 3, nine(&[11, 13, 15, 18, 22, 27, 33, 39, 46], 450)),
        row(
            "CS-10-1134",
            3990,
            5,
            cassette("spline-9", "34.9 mm", 10, &[11, 13, 15, 17, 19, 21, 23, 26, 30, 34], 340),
        ),
        row(
            "CS-23-1134",
            5990,
            2,
            cassette("spline-23", "32.5 mm", 10, &[11, 13, 15, 17, 19, 21, 23, 26, 30, 34], 340),
        ),
        row(
            "CS-1132-S",
            2790,
            2,
            cassette("spline-9", "33.05 mm", 9, &[11, 12, 14, 16, 18, 21, 24, 28, 32], 300),
        ),
        row("CH-9", 1890, 10, chain(9, 118)),
        row("CH-10", 2290, 7, chain(10, 118)),
        row("QL-9", 220, 20, link(9)),
        row("QL-10", 250, 20, link(10)),
        row("RD-32", 3290, 5, derailleur(9, [27, 32], 45, "a-r1.7", 320)),
        row("RD-36", 4590, 3, derailleur(9, [28, 36], 47, "a-r1.7", 330)),
        row("RD-46", 6490, 4, derailleur(9, [36, 46], 51, "a-r1.7", 365)),
        row("RD-B-46", 5490, 4, derailleur(9, [36, 46], 51, "b-r1.1", 360)),
        row("SH-9", 2790, 6, shifter(9, "a-r1.7")),
        row("SH-10", 3990, 2, shifter(10, "a-r1.7")),
        row("SH-B-9", 2990, 2, shifter(9, "b-r1.1")),
        row("WH-9", 6900, 6, wheel("spline-9", "34.9 mm")),
        row("WH-23", 22900, 2, wheel("spline-23", "32.5 mm")),
        row(
            "SPC-185",
            220,
            30,
            json!({"spacer": {"mount_family": "spline-9", "thickness": "1.85 mm", "mass_g": 4}}),
        ),
        row(
            "LR-11",
            490,
            14,
            json!({"lockring": {"lockring_thread": "m30.5x1", "lockring_size": "11t", "torque_nm": 40}}),
        ),
        row("AC-CABLE", 350, 40, json!({"accessory": {"mass_g": 18}})),
    ]
}

/// A described part under its name.
pub fn named(id: &str, kind: &str, attributes: Json) -> Json {
    json!({"id": id, kind: attributes})
}

/// A part of the shop under its name.
pub fn stock(id: &str, sku: &str) -> Json {
    json!({"id": id, "sku": sku})
}

/// The touring bike: nine speeds, a short chain's worth of everything, and it rides.
pub fn tourer() -> Vec<Json> {
    vec![
        named(
            "frame",
            "frame",
            json!({"hanger": "m10-eye", "axle": "quick-release-10", "dropout_width": "135 mm",
                "chainstay": "440 mm", "chain_growth": "none", "frame_material": "steel",
                "max_outer_ring": 48}),
        ),
        stock("wheel", "WH-9"),
        stock("cassette", "CS-1132"),
        stock("lockring", "LR-11"),
        named(
            "chain",
            "chain",
            json!({"chain_speed": 9, "outer_width": "6.6 mm", "inner_width": "2.18 mm",
                "chain_profile": "normal", "link_count": 112, "cut_to_length": true, "worn": false}),
        ),
        stock("link", "QL-9"),
        stock("derailleur", "RD-32"),
        stock("shifter", "SH-9"),
        named(
            "crankset",
            "crankset",
            json!({"rings": [46, 30], "ring_count": 2, "ring_mount": "bcd-94x5", "chainline": "45 mm",
                "spindle": "square-jis", "chainrings": [
                    {"teeth": 46, "ring_position": "outer", "tooth_profile": "ramped",
                        "tooth_thickness": "1.9 mm", "ring_speed_class": 9, "ring_mount": "bcd-94x5"},
                    {"teeth": 30, "ring_position": "inner", "tooth_profile": "plain",
                        "tooth_thickness": "1.9 mm", "ring_speed_class": 9, "ring_mount": "bcd-94x5"}]}),
        ),
    ]
}

/// A build of parts.
pub fn build(parts: &[Json]) -> pb::Build {
    let build = json!({"build_id": "bike on file", "parts": parts,
        "use": {"mid_motor": false, "hub_motor": false, "tandem": false, "rough_ground": false,
            "system_mass_kg": 100}});
    text::build_from_json(&build).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

/// The touring bike as a build.
pub fn touring_bike() -> pb::Build {
    build(&tourer())
}

/// A message as people write it.
pub fn message<M: prost::Message + prost::Name + Default>(json: Json) -> M {
    text::message_from_json(&json).unwrap_or_else(|faults| panic!("{faults:#?}"))
}

/// A change that fits a part.
pub fn fit(part: Json) -> pb::Change {
    message(json!({"change_id": "basket", "fit": part}))
}

/// A change that fits a part in the place of an item.
pub fn instead_of(item: &str, part: Json) -> pb::Change {
    pb::Change { replaces: item.into(), ..fit(part) }
}

/// A change that takes an item off.
pub fn take_off(item: &str) -> pb::Change {
    pb::Change { change_id: "taken off".into(), replaces: item.into(), ..pb::Change::default() }
}

/// The part of a stock number.
pub fn sku(sku: &str) -> Json {
    json!({"sku": sku})
}

/// The question what changes do to a build.
pub fn ask(build: pb::Build, changes: impl IntoIterator<Item = pb::Change>) -> pb::CheckRequest {
    pb::CheckRequest {
        build: Some(build),
        changes: changes.into_iter().collect(),
        ..pb::CheckRequest::default()
    }
}

/// Rules with reasons, in the order of an answer.
pub fn reasons(answer: &pb::CheckResponse) -> Vec<String> {
    answer.findings.iter().map(|finding| format!("{} {}", finding.rule, finding.reason)).collect()
}

/// The finding with a reason.
pub fn finding<'a>(answer: &'a pb::CheckResponse, reason: &str) -> &'a pb::Finding {
    let found = answer.findings.iter().find(|finding| finding.reason == reason);
    found.unwrap_or_else(|| panic!("no {reason} among {:?}", reasons(answer)))
}

/// A number behind a finding.
pub fn number(finding: &pb::Finding, name: &str) -> i64 {
    let found = finding.numbers.iter().find(|number| number.name == name);
    found.unwrap_or_else(|| panic!("no {name} among {:?}", finding.numbers)).value
}
