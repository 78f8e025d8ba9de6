//! How builds, parts and rows are read, and how all faults are told at once.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use serde_json::{Value, json};
use sprag_proto::json::to_json;
use sprag_proto::text::{
    FAULTS_MAX, Fault, build_from_json, catalogued_part_from_json, catalogued_part_from_row, check_header,
    message_from_json, part_from_json, warnings,
};
use sprag_proto::v1::{self, fitted_part, integer_value, part::Kind, wheel_size};

fn said(faults: &[Fault]) -> Vec<String> {
    faults.iter().map(ToString::to_string).collect()
}

fn faults<T: std::fmt::Debug>(result: Result<T, Vec<Fault>>) -> Vec<String> {
    said(&result.expect_err("this must not be read"))
}

#[test]
fn a_build_reads_with_every_short_form() {
    let build = build_from_json(&json!({
        "build_id": "bike 7",
        "parts": [
            {"id": "cassette", "position": "rear", "cassette": {"cogs": "11-13-15-18-21-24-28-32", "mass": "310 g"}},
            {"sku": "CH-1", "quantity": 2},
            {"gtin": "6291041500213"},
            {"maker_part": {"brand_id": "Northfell", "number": "RD 9"}},
            {"item_id": "wheel", "position": "POSITION_FRONT",
             "described": {"wheel": {"rim": {"bead_seat_mm": 622}, "mass_kg": 1.2}}},
        ],
        "use": {"tandem": true, "assist_limit": "25 km/h"},
        "wheel_size": "37-622",
    }))
    .expect("the build is well written");
    assert_eq!(build.build_id, "bike 7");
    assert_eq!(build.parts.len(), 5);
    assert_eq!(build.parts[0].item_id, "cassette");
    assert_eq!(build.parts[0].position(), v1::Position::Rear);
    let Some(fitted_part::Part::Described(described)) = &build.parts[0].part else { panic!("not described") };
    let Some(Kind::Cassette(cassette)) = &described.kind else { panic!("no cassette") };
    assert_eq!(cassette.cogs.as_ref().map(|cogs| cogs.values.len()), Some(8));
    assert_eq!(build.parts[1].quantity, 2);
    assert_eq!(build.parts[2].part, Some(fitted_part::Part::Gtin("06291041500213".into())));
    let maker_part = v1::MakerPartNumber { brand_id: "northfell".into(), number: "RD 9".into() };
    assert_eq!(build.parts[3].part, Some(fitted_part::Part::MakerPart(maker_part)));
    assert_eq!(build.parts[4].position(), v1::Position::Front);
    assert_eq!(build.r#use.and_then(|usage| usage.tandem).and_then(|flag| flag.exact), Some(true));
    let size = Some(v1::WheelSize { size: Some(wheel_size::Size::TyreDesignation("37-622".into())) });
    assert_eq!(build.wheel_size, size);
}

#[test]
fn wheel_sizes_have_short_forms() {
    let size = |value: Value| message_from_json::<v1::WheelSize>(&value).map(|size| size.size);
    let marking = Ok(Some(wheel_size::Size::TyreDesignation("37-622".into())));
    assert_eq!(size(json!("37-622")), marking);
    assert_eq!(size(json!({"tyre": "37-622"})), marking);
    assert_eq!(size(json!({"tyreDesignation": "37-622"})), marking);
    for value in
        [json!({"roll_out_mm": 2105}), json!({"roll_out": "2105 mm"}), json!({"rollOutUm": "2105000"})]
    {
        assert_eq!(size(value), Ok(Some(wheel_size::Size::RollOutUm(2_105_000))));
    }
    assert_eq!(faults(size(json!({"tyre": "37-622", "roll_out_mm": 2105}))).len(), 1);
}

#[test]
fn every_fault_is_told_with_its_place() {
    let told = faults(build_from_json(&json!({
        "parts": [
            {"cassette": {"cogs": "11-34", "required_length": 34.9}},
            {"sku": "A", "gtin": "6291041500213"},
            {"casette": {}},
            {"position": "aft", "chain": {"chain_speed": 99}},
            {},
            "chain",
        ],
        "use": {"tandem": "perhaps"},
        "weel_size": "37-622",
    })));
    let wanted = [
        "parts[0].cassette.cogs: \"11-34\"; two numbers name only the ends",
        "parts[0].cassette.required_length: 34.9 without a unit",
        "parts[1].sku: given together with \"gtin\"; give only one of them",
        "parts[2].casette: unknown name; a fitted part has no such field; did you mean \"cassette\"?",
        "parts[3].chain.chain_speed: 99; outside the possible range: 1 to 13",
        "parts[3].position: \"aft\"; give one of front, rear",
        "parts[4]: nothing says what it is; give sku, gtin, maker_part, or a kind",
        "parts[5]: \"chain\"; give an object",
        "use.tandem: \"perhaps\"; give true or false",
        "weel_size: unknown name; Build has no such field; did you mean \"wheel_size\"?",
    ];
    assert_eq!(told.len(), wanted.len(), "{told:#?}");
    for start in wanted {
        assert!(told.iter().any(|told| told.starts_with(start)), "{start}: {told:#?}");
    }
}

#[test]
fn a_name_with_no_near_spelling_lists_what_there_is() {
    let told = faults(part_from_json(&json!({"chain": {"colour": "blue"}})));
    assert_eq!(told.len(), 1);
    assert!(
        told[0].starts_with("chain.colour: unknown name; \"chain\" has chain_speed, labelled_6_7_8"),
        "{told:?}"
    );
    let told = faults(part_from_json(&json!({"cassette": {"required_lenght_mm": 34.9}})));
    assert!(told[0].ends_with("did you mean \"required_length_mm\"?"), "{told:?}");
}

#[test]
fn two_names_for_one_field_are_refused() {
    let told = faults(part_from_json(&json!({"chain": {"mass_g": 250, "mass_kg": 0.25}})));
    assert_eq!(told, ["chain.mass_kg: given together with \"mass_g\"; give only one of them"]);
    let told = faults(part_from_json(&json!({"chain": {}, "tyre": {}})));
    assert_eq!(told, ["tyre: given together with \"chain\"; give only one of them"]);
    let told = faults(build_from_json(&json!({"parts": [{"chain": {}, "tyre": {}}]})));
    assert_eq!(told, ["parts[0].tyre: given together with \"chain\"; give only one of them"]);
    let told = faults(build_from_json(&json!({"parts": [{"chain": {}, "described": {"tyre": {}}}]})));
    assert_eq!(told, ["parts[0].described: given together with \"chain\"; give only one of them"]);
}

#[test]
fn a_fitted_part_takes_no_other_field_of_a_part() {
    let told = faults(build_from_json(&json!({"parts": [{"chain": {}, "name": "a chain"}]})));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("parts[0].name: unknown name"), "{told:?}");
}

#[test]
fn a_line_of_an_import_is_flat_or_nested() {
    let flat = json!({"sku": "C-1", "gtin": "7300011000017", "name": "Eight", "cassette": {"cog_count": 8},
                      "price": "39.90 EUR", "stock": 3});
    let nested = json!({"part": {"sku": "C-1", "gtins": ["07300011000017"], "name": "Eight",
                        "cassette": {"cogCount": {"exact": "8"}}},
                        "price": {"currencyCode": "EUR", "minorUnits": "3990"}, "stock": "3"});
    let flat = catalogued_part_from_json(&flat).expect("the flat line is well written");
    assert_eq!(catalogued_part_from_json(&nested), Ok(flat.clone()));
    assert_eq!(flat.price, Some(v1::Money { currency_code: "EUR".into(), minor_units: 3990 }));
    assert_eq!(flat.stock, Some(3));
    assert_eq!(flat.part.expect("there is a part").gtins, ["07300011000017"]);

    let told = faults(catalogued_part_from_json(&json!({"chain": {}, "price": "39.905 EUR", "stock": 1.5})));
    assert_eq!(told.len(), 2, "{told:?}");
    assert!(told.iter().any(|told| told.contains("EUR has 2 decimals at most")));
    let told = faults(catalogued_part_from_json(&json!({"stock": -1})));
    assert_eq!(told.len(), 3, "{told:?}");
    let told = faults(catalogued_part_from_json(&json!({"part": {"sku": "A", "chain": {}}, "sku": "B"})));
    assert_eq!(told.len(), 1, "{told:?}");
    let told = faults(catalogued_part_from_json(&json!({"sku": 471, "chain": {}})));
    assert_eq!(told, ["sku: number 471; give text, in quotes; did you mean \"471\"?"]);
    let told =
        faults(catalogued_part_from_json(&json!({"sku": "A", "chain": {}, "gtins": ["6291041500214"]})));
    assert!(told[0].starts_with("gtins[0]: \"6291041500214\"; its check digit does not match"), "{told:?}");
    let told =
        faults(catalogued_part_from_json(&json!({"sku": "A", "chain": {}, "price": {"minor_units": 5}})));
    assert!(told[0].starts_with("price: "), "{told:?}");
}

#[test]
fn canonical_json_reads_back() {
    let part = part_from_json(&json!({
        "sku": "W-1",
        "maker_part": {"brand_id": "northfell", "number": "28"},
        "wheel": {
            "mass": "900..1100 g",
            "hub": {"spoke_count": "32|36", "axle": "a|b?", "freehub_body": {"body_length": "34.9 mm?"}},
            "cassette": {"cogs": "11-12-13", "cut_down": "yes?", "groove_depth": "none"},
        },
    }))
    .expect("the part is well written");
    for pretty in [false, true] {
        let text = to_json(&part, pretty).expect("a part is described");
        let value: Value = serde_json::from_str(&text).expect("it is JSON");
        assert_eq!(part_from_json(&value), Ok(part.clone()), "{text}");
    }
    let build = v1::FittedPart { position: v1::Position::Rear.into(), ..Default::default() };
    assert_eq!(to_json(&build, false).as_deref(), Ok("{\"position\":\"POSITION_REAR\"}"));
}

#[test]
fn an_undescribed_detail_is_an_error_and_no_panic() {
    use sprag_proto::google::rpc::Status;
    let detail = prost_types::Any { type_url: "type.example/unknown.Type".into(), value: vec![1] };
    let status = Status { code: 3, message: "x".into(), details: vec![detail] };
    assert!(to_json(&status, false).is_err());
}

#[test]
fn other_requests_are_read_in_the_same_way() {
    let request: v1::CheckRequest = message_from_json(&json!({
        "build": {"parts": [{"chain": {"chain_speed": 8}}]},
        "changes": [{"fit": {"sku": "C-1"}, "moves": ["lockring"]}],
        "limit_practice": "maker",
        "worksToday": true,
    }))
    .expect("the request is well written");
    assert_eq!(request.limit_practice(), v1::LimitPractice::Maker);
    assert!(request.works_today);
    let range: v1::RangeRequest =
        message_from_json(&json!({"cadences_rpm": [60, "90"], "speeds_kmh": [25, 30.5]}))
            .expect("well written");
    assert_eq!((range.cadences_rpm, range.speeds_kmh), (vec![60, 90], vec![25.0, 30.5]));
    let told = faults(message_from_json::<v1::RangeRequest>(&json!({"cadences_rpm": [3_000_000_000_u32]})));
    assert!(
        told[0].starts_with("cadences_rpm[0]: 3000000000; give a whole number from -2147483648"),
        "{told:?}"
    );
    let recommend: v1::RecommendRequest =
        message_from_json(&json!({"budget": "150 EUR", "objective": "lowest-price"})).expect("well written");
    assert_eq!(recommend.budget.as_ref().map(|budget| budget.minor_units), Some(15_000));
    assert_eq!(recommend.objective(), v1::Objective::LowestPrice);
}

#[test]
fn values_outside_the_usual_range_are_flagged() {
    let part = part_from_json(
        &json!({"wheel": {"cassette": {"required_length_mm": "29..36", "cogs": [8, 60], "mass_g": 300}}}),
    );
    let part = part.unwrap_or_else(|faults| panic!("{faults:?}"));
    let told = said(&warnings(&part));
    assert_eq!(told.len(), 3, "{told:?}");
    assert!(told.contains(
        &"wheel.cassette.required_length_um: 29 mm; usual is 30.4 to 38 mm: look again".to_owned()
    ));
    let fine = part_from_json(&json!({"cassette": {"required_length_mm": 34.9}})).expect("well written");
    assert_eq!(warnings(&fine), []);
}

fn strings(cells: &[&str]) -> Vec<String> {
    cells.iter().map(|cell| (*cell).to_owned()).collect()
}

#[test]
fn a_row_of_a_file_is_a_part() {
    let header = strings(&[
        "\u{feff}SKU",
        "kind",
        "gtin",
        "brand_id",
        "maker_part_number",
        "name",
        "price",
        "currency",
        "stock",
        "cogs",
        "mass_kg",
        "required_length",
        "cut_down",
        "chain_speed",
        "groove_depth",
    ]);
    assert_eq!(check_header(&header), []);
    let cells = strings(&[
        "C-1",
        "Cassette",
        "6291041500213 7300011000017",
        "Northfell",
        "CS 8",
        "Eight",
        "39.90",
        "EUR",
        "3",
        "11-13-15",
        "0.31",
        "30.4|34.9 mm",
        "FALSE",
        "",
        "deep?",
    ]);
    let row = catalogued_part_from_row(&header, &cells).expect("the row is well written");
    assert_eq!(row.price, Some(v1::Money { currency_code: "EUR".into(), minor_units: 3990 }));
    assert_eq!(row.stock, Some(3));
    let part = row.part.expect("there is a part");
    assert_eq!(part.gtins, ["06291041500213", "07300011000017"]);
    assert_eq!(
        part.maker_part,
        Some(v1::MakerPartNumber { brand_id: "northfell".into(), number: "CS 8".into() })
    );
    let Some(Kind::Cassette(cassette)) = part.kind else { panic!("no cassette") };
    assert_eq!(cassette.mass_g.and_then(|mass| mass.set), Some(integer_value::Set::Exact(310)));
    assert_eq!(cassette.cut_down.and_then(|flag| flag.exact), Some(false));

    let bare = catalogued_part_from_row(&strings(&["sku", "kind"]), &strings(&["R-1", "rear derailleur"]));
    assert!(matches!(bare.map(|row| row.part.and_then(|part| part.kind)), Ok(Some(Kind::RearDerailleur(_)))));
}

#[test]
fn a_row_tells_all_its_faults_by_column() {
    let header = strings(&[
        "sku",
        "kind",
        "gtin",
        "maker_part_number",
        "price",
        "stock",
        "cogs",
        "mass_g",
        "torque_nm",
    ]);
    let cells = strings(&["", "casette", "6291041500214 x", "CS 8", "39.90", "many", "11-34", "250.5", "40"]);
    let told = faults(catalogued_part_from_row(&header, &cells));
    for start in [
        "kind: \"casette\"; give one of cassette, freewheel",
        "gtin[0]: \"6291041500214\"; its check digit",
        "gtin[1]: \"x\"; a GTIN has digits only",
        "brand_id: nothing; a maker's part number needs the maker",
        "price: \"39.90\"; give an amount with its currency",
        "stock: \"many\"; give a number",
    ] {
        assert!(told.iter().any(|told| told.starts_with(start)), "{start}: {told:#?}");
    }
    let cells = strings(&["C-1", "cassette", "", "", "", "", "11-34", "250.5", "40"]);
    let told = faults(catalogued_part_from_row(&header, &cells));
    assert_eq!(told.len(), 3, "{told:#?}");
    assert!(told[0].starts_with("cogs: \"11-34\"; two numbers name only the ends"), "{told:#?}");
    assert!(told[1].starts_with("mass_g: \"250.5\"; give a whole number of g"), "{told:#?}");
    assert!(told[2].starts_with("torque_nm: \"40\"; a cassette has no such attribute"), "{told:#?}");
    let told = faults(catalogued_part_from_row(&header, &strings(&["", "cassette"])));
    assert!(told[0].contains("a row of 2 cells; give 9 cells"), "{told:#?}");
    let told = faults(catalogued_part_from_row(&strings(&["sku", "kind"]), &strings(&["", "chain"])));
    assert_eq!(told, ["sku: nothing; give the stock number: a catalogue needs it"]);
}

#[test]
fn a_header_is_checked_once() {
    let told = said(&check_header(&strings(&["sku", "sku", "mass_g", "mass_kg", "coggs", "rrp_net", ""])));
    for start in [
        "sku: says the same as the column \"sku\"",
        "mass_kg: says the same as the column \"mass_g\"",
        "coggs: unknown column; no kind of part has such an attribute; did you mean \"cogs\"?",
        "rrp_net: unknown column; use one of sku, gtin",
        "no column \"kind\"",
    ] {
        assert!(told.iter().any(|told| told.starts_with(start)), "{start}: {told:#?}");
    }
    assert_eq!(told.len(), 6, "{told:#?}");
}

#[test]
fn hostile_input_is_refused_in_bounds() {
    let mut deep = json!({});
    for _ in 0..200 {
        deep = json!({ "wheel": deep });
    }
    assert!(build_from_json(&deep).is_err());
    assert!(part_from_json(&deep).is_err());
    assert!(build_from_json(&json!({"parts": vec![json!({}); 100_000]})).is_err());
    let strange: serde_json::Map<String, Value> =
        (0..10_000).map(|at| (format!("x{at}"), json!(at))).collect();
    let told = part_from_json(&Value::Object(strange)).expect_err("nothing in it is known");
    assert_eq!(told.len(), FAULTS_MAX);
    let told = faults(part_from_json(&json!({"chain": {"\u{1b}[31m\u{202e}ключ": 1}})));
    assert!(!told[0].contains('\u{1b}'), "{told:?}");
    let told = faults(part_from_json(&json!({"name": "x".repeat(1_000_000), "chain": {}})));
    assert!(told[0].len() < 300, "{told:?}");
    let told = faults(part_from_json(&json!({"name": "x".repeat(201), "chain": {}})));
    assert_eq!(told, ["name: 201 characters; give at most 200"]);
    assert!(part_from_json(&json!({"name": "a\u{0}b", "chain": {}})).is_err());
    // JSON itself knows neither of these.
    for text in ["{\"chain\": {\"mass_g\": NaN}}", "{\"chain\": {\"mass_g\": 1e400}}"] {
        assert!(serde_json::from_str::<Value>(text).is_err());
    }
    for value in [json!(null), json!([]), json!(1), json!("x"), json!(true)] {
        assert!(build_from_json(&value).is_err(), "{value}");
        assert!(catalogued_part_from_json(&value).is_err(), "{value}");
    }
}
