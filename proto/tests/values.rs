//! How values of attributes are read from text.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use serde_json::{Value, json};
use sprag_proto::text::{Fault, part_from_json};
use sprag_proto::v1::{
    Absent, Cassette, Chainring, FlagValue, IntegerList, IntegerRange, IntegerValue, KeyList, KeyValue,
    ListValue, Origin, RearDerailleur, Rim, integer_value, key_value, part::Kind,
};

fn kind(value: Value) -> Result<Kind, Vec<Fault>> {
    part_from_json(&value).map(|part| part.kind.expect("a part that was read has a kind"))
}

fn cassette(value: Value) -> Result<Cassette, Vec<Fault>> {
    kind(json!({ "cassette": value })).map(|kind| match kind {
        Kind::Cassette(cassette) => cassette,
        other => panic!("not a cassette: {other:?}"),
    })
}

fn rim(value: Value) -> Result<Rim, Vec<Fault>> {
    kind(json!({ "rim": value })).map(|kind| match kind {
        Kind::Rim(rim) => rim,
        other => panic!("not a rim: {other:?}"),
    })
}

fn derailleur(value: Value) -> Result<RearDerailleur, Vec<Fault>> {
    kind(json!({ "rear_derailleur": value })).map(|kind| match kind {
        Kind::RearDerailleur(derailleur) => derailleur,
        other => panic!("not a derailleur: {other:?}"),
    })
}

fn exact(value: i64) -> Option<IntegerValue> {
    Some(IntegerValue { set: Some(integer_value::Set::Exact(value)), origin: 0 })
}

fn length(value: Value) -> Option<IntegerValue> {
    cassette(value.clone()).unwrap_or_else(|faults| panic!("{value}: {faults:?}")).required_length_um
}

/// The only fault, as it is shown.
fn fault<T: std::fmt::Debug>(result: Result<T, Vec<Fault>>) -> String {
    let faults = result.expect_err("this must not be read");
    assert_eq!(faults.len(), 1, "{faults:?}");
    faults[0].to_string()
}

#[test]
fn a_length_has_many_spellings() {
    for value in [
        json!({"required_length_um": 34900}),
        json!({"requiredLengthUm": 34900}),
        json!({"required_length_um": "34900"}),
        json!({"required_length_um": "34900 um"}),
        json!({"required_length_mm": 34.9}),
        json!({"required_length_mm": "34.9"}),
        json!({"required_length_mm": " 34.90 mm "}),
        json!({"required_length_cm": 3.49}),
        json!({"required_length": "34.9 mm"}),
        json!({"required_length": "34.9mm"}),
        json!({"required_length": "3.49 cm"}),
        json!({"required_length": "34900 µm"}),
        json!({"required_length_um": {"exact": "34900"}}),
        json!({"required_length_um": {"exact": 34900}}),
    ] {
        assert_eq!(length(value.clone()), exact(34_900), "{value}");
    }
    // 1.375 in, by the inch of 25.4 mm.
    assert_eq!(length(json!({"required_length_in": 1.375})), exact(34_925));
    assert_eq!(length(json!({"required_length": "1.375 in"})), exact(34_925));
    // 11/8 in is the same.
    assert_eq!(length(json!({"required_length": "11/8 in"})), exact(34_925));
    assert_eq!(length(json!({"required_length": "11/8\""})), exact(34_925));
}

#[test]
fn what_remains_possible_is_a_set() {
    let set = |set, origin: Origin| Some(IntegerValue { set: Some(set), origin: origin.into() });
    let between = integer_value::Set::Between(IntegerRange { low: 31_500, high: 32_800 });
    let one_of = integer_value::Set::OneOf(IntegerList { values: vec![33_900, 34_900] });
    let stated = Origin::Unspecified;
    for (value, wanted) in [
        (json!({"required_length_mm": "31.5..32.8"}), set(between.clone(), stated)),
        (json!({"required_length": "31.5..32.8 mm"}), set(between.clone(), stated)),
        (json!({"required_length": "31.5 mm .. 32.8 mm"}), set(between.clone(), stated)),
        (json!({"required_length": "3.15 cm..32.8 mm"}), set(between.clone(), stated)),
        (json!({"required_length_mm": "31.5..32.8?"}), set(between.clone(), Origin::Inferred)),
        (
            json!({"required_length_um": {"between": {"low": 31500, "high": "32800"}, "origin": "measured"}}),
            set(between, Origin::Measured),
        ),
        (json!({"required_length_mm": "33.9|34.9"}), set(one_of.clone(), stated)),
        (json!({"required_length": "33.9 | 34.9 mm"}), set(one_of.clone(), stated)),
        (json!({"required_length_mm": [33.9, "34.9"]}), set(one_of.clone(), stated)),
        (
            json!({"required_length_um": {"oneOf": {"values": [33900, "34900"]}, "origin": "ORIGIN_INFERRED"}}),
            set(one_of, Origin::Inferred),
        ),
        (json!({"required_length": "none"}), set(integer_value::Set::Absent(Absent {}), stated)),
        (json!({"required_length_mm": "Absent"}), set(integer_value::Set::Absent(Absent {}), stated)),
        (json!({"required_length_um": {"absent": {}}}), set(integer_value::Set::Absent(Absent {}), stated)),
        (json!({"required_length_mm": "34.9?"}), set(integer_value::Set::Exact(34_900), Origin::Inferred)),
        (json!({"required_length": "unknown"}), None),
        (json!({"required_length": "unknown?"}), None),
        (json!({"required_length_mm": ""}), None),
        (json!({"required_length_mm": null}), None),
        (json!({}), None),
    ] {
        assert_eq!(length(value.clone()), wanted, "{value}");
    }
}

#[test]
fn a_length_without_a_unit_says_which_names_exist() {
    assert_eq!(
        fault(cassette(json!({"required_length": 34.9}))),
        "cassette.required_length: 34.9 without a unit; name the unit: use required_length_mm, required_length_um, \
         required_length_cm, required_length_in, or write \"34.9 mm\""
    );
    assert!(fault(cassette(json!({"required_length": "34.9"}))).contains("without a unit"));
    assert!(fault(cassette(json!({"mass": 250}))).contains("use mass_g, mass_kg, or write \"250 g\""));
}

#[test]
fn a_unit_must_not_contradict_the_name() {
    let said = fault(cassette(json!({"required_length_um": "34.9 mm"})));
    assert!(said.contains("the name of the field says um"), "{said}");
    let said = fault(cassette(json!({"required_length_mm": {"exact": 34900}})));
    assert!(said.contains("call the field required_length_um"), "{said}");
    let said = fault(cassette(json!({"required_length": "34.9 furlongs"})));
    assert!(said.contains("\"furlongs\" is no unit of it"), "{said}");
}

#[test]
fn numbers_must_be_whole_and_possible() {
    let said = fault(cassette(json!({"required_length_mm": 34.9004})));
    assert!(said.contains("whole number of um"), "{said}");
    assert_eq!(
        fault(cassette(json!({"required_length_mm": 41}))),
        "cassette.required_length_mm: 41 mm; outside the possible range: 28 to 40 mm"
    );
    assert!(fault(cassette(json!({"required_length_um": 34.9}))).contains("whole number of um"));
    assert!(fault(cassette(json!({"smallest_cog": -11}))).contains("8 to 60 teeth"));
    assert!(fault(cassette(json!({"smallest_cog": 11.5}))).contains("whole number of teeth"));
    assert!(fault(cassette(json!({"smallest_cog": true}))).contains("from 8 to 60 teeth"));
    assert!(fault(cassette(json!({"smallest_cog": "eleven"}))).contains("from 8 to 60 teeth"));
    assert!(fault(cassette(json!({"required_length_mm": "32.8..31.5"}))).contains("lower value first"));
    assert!(fault(cassette(json!({"required_length_mm": "34,9"}))).contains("did you mean \"34.9\""));
    assert!(
        fault(cassette(json!({"required_length_mm": "31.5-32.8"}))).contains("did you mean \"31.5..32.8\"")
    );
    assert!(fault(cassette(json!({"smallest_cog": [11, 99]}))).contains("8 to 60 teeth"));
    assert!(fault(cassette(json!({"smallest_cog": "11|"}))).contains("from 8 to 60 teeth"));
    assert!(fault(cassette(json!({"smallest_cog": []}))).contains("1 to 64 values"));
    assert!(fault(cassette(json!({"smallest_cog": "?"}))).contains("before the question mark"));
    assert!(fault(cassette(json!({"smallest_cog": 1e300}))).contains("too large"));
    assert!(fault(cassette(json!({"smallest_cog": u64::MAX}))).contains("too large"));
    assert_eq!(cassette(json!({"smallest_cog": 11.0})).unwrap().smallest_cog, exact(11));
    assert_eq!(cassette(json!({"smallest_cog": "11t"})).unwrap().smallest_cog, exact(11));
    assert_eq!(cassette(json!({"smallest_cog": "11 teeth"})).unwrap().smallest_cog, exact(11));
}

/// 1 bar = 100 kPa, 1 psi = 6.894757 kPa (SI guides of national metrology institutes); a ratio of 1.7 is 1700
/// thousandths by definition.
#[test]
fn other_quantities_have_their_units() {
    assert_eq!(rim(json!({"max_pressure_bar": 5.5})).unwrap().max_pressure_kpa, exact(550));
    assert_eq!(rim(json!({"max_pressure": "5.5 bar"})).unwrap().max_pressure_kpa, exact(550));
    assert_eq!(rim(json!({"max_pressure": "80 psi"})).unwrap().max_pressure_kpa, exact(552));
    assert_eq!(rim(json!({"max_pressure_kpa": 550, "mass_kg": 0.45})).unwrap().mass_g, exact(450));
    assert_eq!(derailleur(json!({"shift_ratio": 1.7})).unwrap().shift_ratio_permille, exact(1700));
    assert_eq!(derailleur(json!({"shift_ratio": "1.7"})).unwrap().shift_ratio_permille, exact(1700));
    assert_eq!(derailleur(json!({"shift_ratio_permille": 1700})).unwrap().shift_ratio_permille, exact(1700));
    assert!(fault(derailleur(json!({"shift_ratio": 1700}))).contains("0.8 to 2.2"));
    assert_eq!(
        kind(json!({"lockring": {"torque": "40 N m"}})),
        Ok(Kind::Lockring(sprag_proto::v1::Lockring { torque_nm: exact(40), ..Default::default() }))
    );
    let ring = kind(json!({"chainring": {"ring_offset_mm": -3}}));
    assert_eq!(ring, Ok(Kind::Chainring(Chainring { ring_offset_um: exact(-3000), ..Default::default() })));
}

/// 21 = 3 x 7: how bikes are sold (common practice, no source).
#[test]
fn the_speed_of_a_bike_is_not_the_number_of_cogs() {
    for value in [json!("21-speed"), json!(21), json!("21 speed"), json!("21")] {
        let said = fault(cassette(json!({ "cog_count": value })));
        assert!(said.contains("the number of cogs at the rear wheel alone"), "{said}");
        assert!(said.contains("21 = 3 x 7 means 7 cogs"), "{said}");
        assert!(said.ends_with("did you mean \"7\"?"), "{said}");
    }
    let said = fault(cassette(json!({"cog_count": 18})));
    assert!(said.contains("18 = 3 x 6 means 6 cogs, or 18 = 2 x 9 means 9 cogs"), "{said}");
    assert!(!said.contains("did you mean"), "{said}");
    assert!(fault(cassette(json!({"cog_count": "10-speed"}))).contains("10 = 2 x 5 means 5 cogs"));
    assert!(fault(cassette(json!({"cog_count": 0}))).contains("1 to 14"));
    assert_eq!(cassette(json!({"cog_count": "7"})).unwrap().cog_count, exact(7));
}

#[test]
fn lists_have_several_separators_and_one_order() {
    let cogs = |value: Value| cassette(json!({ "cogs": value })).map(|cassette| cassette.cogs);
    let eight = Some(ListValue { values: vec![11, 13, 15, 18, 21, 24, 28, 32], origin: 0 });
    for value in [
        json!([11, 13, 15, 18, 21, 24, 28, 32]),
        json!("11-13-15-18-21-24-28-32"),
        json!("11,13, 15,18,21,24,28,32"),
        json!("11 13 15 18 21 24 28 32"),
        json!({"values": ["11", 13, 15, 18, 21, 24, 28, 32]}),
    ] {
        assert_eq!(cogs(value.clone()), Ok(eight.clone()), "{value}");
    }
    let inferred = ListValue { values: vec![17, 19], origin: Origin::Inferred.into() };
    assert_eq!(cogs(json!("17,19?")), Ok(Some(inferred)));
    assert_eq!(cogs(json!("unknown")), Ok(None));
    for value in [json!("11-34"), json!("11..34"), json!("11-34T")] {
        let said = fault(cogs(value));
        let wanted = "two numbers name only the ends: give smallest_cog and largest_cog, or every cog";
        assert!(said.contains(wanted), "{said}");
    }
    let said = fault(cogs(json!([32, 28, 24, 21, 18, 15, 13, 11])));
    assert!(said.contains("smallest first, each once: 11-13-15-18-21-24-28-32"), "{said}");
    assert!(fault(cogs(json!("11,11,13"))).contains("each once: 11-13"));
    assert!(fault(cogs(json!([]))).contains("an empty list"));
    assert!(fault(cogs(json!([11, -13]))).contains("8 to 60 teeth"));
    assert!(fault(cogs(json!("-11-13"))).contains("give a list of numbers"));
    assert!(fault(cogs(json!("none"))).contains("from 8 to 60 teeth"));
    assert!(fault(cogs(json!(11))).contains("give a list of numbers"));
    assert!(fault(cogs(json!(vec![11; 10_000]))).contains("at most 64"));
    assert!(fault(cogs(json!("11,".repeat(100_000)))).contains("at most 64"));
}

/// Ratios of a common three-gear hub: 3:4, 1:1, 4:3 (published tooth counts of its planetary set).
#[test]
fn rings_and_hub_ratios_are_lists_too() {
    let rings = |value: Value| kind(json!({"crankset": {"rings": value}}));
    for value in [json!("50/34"), json!("50-34"), json!([50, 34])] {
        let Ok(Kind::Crankset(crankset)) = rings(value) else { panic!("not read") };
        assert_eq!(crankset.rings, Some(ListValue { values: vec![50, 34], origin: 0 }));
    }
    assert!(fault(rings(json!("34/50"))).contains("largest first, each once: 50-34"));
    let hub = kind(json!({"gear_hub": {"hub_ratios": "0.75, 1, 1.333"}}));
    let Ok(Kind::GearHub(hub)) = hub else { panic!("not read") };
    assert_eq!(hub.hub_ratios_permille, Some(ListValue { values: vec![750, 1000, 1333], origin: 0 }));
}

#[test]
fn words_are_checked_and_keys_are_lowered() {
    let key = |set, origin: i32| Some(KeyValue { set: Some(set), origin });
    let fixing = |value: Value| cassette(json!({ "cog_fixing": value })).map(|cassette| cassette.cog_fixing);
    assert_eq!(fixing(json!("Loose")), Ok(key(key_value::Set::Exact("loose".into()), 0)));
    assert_eq!(
        fixing(json!("carrier?")),
        Ok(key(key_value::Set::Exact("carrier".into()), Origin::Inferred.into()))
    );
    let both = key_value::Set::OneOf(KeyList { values: vec!["loose".into(), "carrier".into()] });
    assert_eq!(fixing(json!("loose|carrier")), Ok(key(both.clone(), 0)));
    assert_eq!(fixing(json!(["loose", "carrier"])), Ok(key(both.clone(), 0)));
    assert_eq!(fixing(json!({"oneOf": {"values": ["loose", "carrier"]}})), Ok(key(both, 0)));
    assert_eq!(fixing(json!("none")), Ok(key(key_value::Set::Absent(Absent {}), 0)));
    assert_eq!(fixing(json!("unknown")), Ok(None));
    assert_eq!(
        fault(fixing(json!("carier"))),
        "cassette.cog_fixing: \"carier\"; give one of loose, carrier, one-piece; did you mean \"carrier\"?"
    );
    assert!(fault(fixing(json!(7))).contains("number 7; give one of loose"));
    let family = cassette(json!({"mount_family": "Nine-Spline"})).unwrap().mount_family;
    assert_eq!(family, key(key_value::Set::Exact("nine-spline".into()), 0));
    let hanger = |value: &str| kind(json!({"hanger": {"hanger_id": value}}));
    assert!(hanger("D-123").is_ok());
    assert!(fault(hanger("D 123/4")).contains("did you mean \"d-123-4\"?"));
}

#[test]
fn flags_are_yes_or_no() {
    let flag = |value: Value| cassette(json!({ "cut_down": value })).map(|cassette| cassette.cut_down);
    let set = |exact, origin: i32| Ok(Some(FlagValue { exact: Some(exact), origin }));
    assert_eq!(flag(json!(true)), set(true, 0));
    assert_eq!(flag(json!("no")), set(false, 0));
    assert_eq!(flag(json!("TRUE")), set(true, 0));
    assert_eq!(flag(json!("yes?")), set(true, Origin::Inferred.into()));
    assert_eq!(
        flag(json!({"exact": false, "origin": "ORIGIN_MEASURED"})),
        set(false, Origin::Measured.into())
    );
    assert_eq!(flag(json!("unknown")), Ok(None));
    assert_eq!(flag(json!(null)), Ok(None));
    for value in [json!(1), json!("maybe"), json!("none"), json!([true])] {
        assert!(fault(flag(value)).contains("give true or false"));
    }
}

#[test]
fn the_object_form_is_exact_about_its_members() {
    let length = |value: Value| cassette(json!({ "required_length_um": value }));
    assert!(fault(length(json!({"exakt": 34900}))).contains("did you mean \"exact\"?"));
    assert!(fault(length(json!({}))).contains("an object without a value"));
    assert!(fault(length(json!({"exact": 34900, "absent": {}}))).contains("several values at once"));
    assert!(fault(length(json!({"between": {"low": 30000}}))).contains("a range without its limits"));
    assert!(fault(length(json!({"between": {"low": 32000, "high": 31000}}))).contains("lower value first"));
    assert!(
        fault(length(json!({"exact": 34900, "origin": "guessed"}))).contains("stated, measured, inferred")
    );
    assert!(fault(length(json!({"oneOf": {"values": []}}))).contains("1 to 64 values"));
    assert!(fault(length(json!({"exact": 99000}))).contains("28 to 40 mm"));
}
