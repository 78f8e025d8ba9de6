//! What must hold of every attribute, and of any text.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use proptest::prelude::*;
use serde_json::{Value, json};
use sprag_proto::json::to_json;
use sprag_proto::text::{
    AttributeDoc, FAULTS_MAX, attributes, build_from_json, catalogued_part_from_json,
    catalogued_part_from_row, check_header, gtin14, human, money_from_text, part_from_json,
};
use sprag_proto::v1::{Part, Use};

/// The attributes of parts; the use of a bike is read as a message of its own.
fn of_parts() -> Vec<AttributeDoc> {
    attributes().into_iter().filter(|attribute| attribute.kind != "use").collect()
}

/// Some value of an attribute, as people write it.
fn sample(attribute: &AttributeDoc) -> Value {
    match attribute.form {
        "number" => json!(attribute.hard.expect("a number has a range").0),
        "list" => json!([attribute.usual.expect("a list has a range").0]),
        "yes-no" => json!("no?"),
        "word" => json!(attribute.words[0]),
        _ => json!("some-key|other-key"),
    }
}

#[test]
fn every_attribute_is_read_and_canonical_json_reads_back() {
    for attribute in of_parts() {
        let value = json!({&attribute.kind: {&attribute.field: sample(&attribute)}});
        let part: Part = part_from_json(&value).unwrap_or_else(|faults| panic!("{value}: {faults:?}"));
        let text = to_json(&part, false).expect("a part is described");
        let canonical: Value = serde_json::from_str(&text).expect("it is JSON");
        let camel = canonical.as_object().and_then(|part| part.values().next()).and_then(Value::as_object);
        assert_eq!(camel.map(serde_json::Map::len), Some(1), "{text}");
        assert_eq!(part_from_json(&canonical), Ok(part), "{text}");
    }
    let usage: Result<Use, _> =
        sprag_proto::text::message_from_json(&json!({"tandem": "no", "system_mass_kg": 120}));
    assert!(usage.is_ok());
}

/// What `human` writes is what the reader takes under the name without a unit.
#[test]
fn numbers_as_people_write_them_read_back() {
    for attribute in of_parts().iter().filter(|attribute| attribute.form == "number") {
        let (low, high) = attribute.hard.expect("a number has a range");
        for value in [low, high, low + (high - low) / 3] {
            let read = |name: &str, value: Value| part_from_json(&json!({&attribute.kind: {name: value}}));
            let text = human(attribute.unit, value);
            let declared = read(&attribute.field, json!(value));
            assert!(declared.is_ok(), "{}.{}: {value}", attribute.kind, attribute.field);
            assert_eq!(
                read(&attribute.name, json!(text)),
                declared,
                "{}.{}: {text}",
                attribute.kind,
                attribute.name
            );
        }
        for beyond in [low - 1, high + 1] {
            let value = json!({&attribute.kind: {&attribute.field: beyond}});
            let faults = part_from_json(&value).expect_err("outside the hard range");
            assert_eq!(faults.len(), 1, "{value}: {faults:?}");
        }
    }
}

/// Rows and lines say the same of one attribute.
#[test]
fn a_cell_reads_like_a_member() {
    for attribute in of_parts() {
        let text = match sample(&attribute) {
            Value::String(text) => text,
            Value::Array(items) => items[0].to_string(),
            other => other.to_string(),
        };
        let header = ["sku", "kind", &attribute.field].map(str::to_owned);
        assert_eq!(check_header(&header), []);
        let row = catalogued_part_from_row(&header, &["A".to_owned(), attribute.kind.clone(), text.clone()]);
        let line = json!({"sku": "A", &attribute.kind: {&attribute.field: text}});
        assert_eq!(row, catalogued_part_from_json(&line), "{line}");
        assert!(row.is_ok(), "{line}: {row:?}");
    }
}

/// Any JSON of bounded size, with names that are half right.
fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        any_text().prop_map(Value::from),
    ];
    leaf.prop_recursive(5, 60, 8, |inner| {
        prop_oneof![
            proptest::collection::vec(inner.clone(), 0..8).prop_map(Value::from),
            proptest::collection::vec((any_name(), inner), 0..8)
                .prop_map(|members| Value::Object(members.into_iter().collect())),
        ]
    })
}

fn any_name() -> impl Strategy<Value = String> {
    prop_oneof![
        proptest::sample::select(vec![
            "parts",
            "use",
            "wheel_size",
            "sku",
            "gtin",
            "cassette",
            "wheel",
            "hub",
            "described",
            "part",
            "price",
            "cogs",
            "cog_count",
            "mass",
            "mass_kg",
            "required_length_in",
            "exact",
            "oneOf",
            "between",
            "low",
            "high",
            "values",
            "origin",
            "absent",
            "quantity",
            "position",
            "chainrings",
            "crankset",
            "hub_ratios",
        ])
        .prop_map(str::to_owned),
        any::<String>(),
    ]
}

/// Text near to what is valid, and any other.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof!["[-+0-9.,/|?e ]{0,30}(mm|in|kg|speed|EUR|T|µm)?", "[a-z|? -]{0,20}", any::<String>()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_json_makes_the_reader_panic(value in any_json()) {
        for faults in [build_from_json(&value).err(), part_from_json(&value).err(), catalogued_part_from_json(&value).err()] {
            prop_assert!(faults.is_none_or(|faults| (1..=FAULTS_MAX).contains(&faults.len())));
        }
    }

    #[test]
    fn no_text_makes_an_attribute_panic(text in any_text(), pick in any::<proptest::sample::Index>()) {
        let attributes = of_parts();
        let attribute = &attributes[pick.index(attributes.len())];
        for name in [&attribute.field, &attribute.name] {
            let value = json!({&attribute.kind: {name: text}});
            match part_from_json(&value) {
                // What was read is possible, so its canonical form reads back.
                Ok(part) => {
                    let canonical = serde_json::from_str(&to_json(&part, false).unwrap()).unwrap();
                    prop_assert_eq!(part_from_json(&canonical), Ok(part));
                }
                Err(faults) => {
                    let told = faults[0].to_string();
                    prop_assert!(!told.chars().any(char::is_control), "{}", told);
                }
            }
        }
    }

    #[test]
    fn no_row_makes_the_reader_panic(cells in proptest::collection::vec((any_name(), any_text()), 0..12)) {
        let (header, cells): (Vec<String>, Vec<String>) = cells.into_iter().unzip();
        let _ = check_header(&header);
        let _ = catalogued_part_from_row(&header, &cells);
        let header = ["sku", "kind", "cogs", "mass"].map(str::to_owned);
        let row: Vec<String> = ["A".to_owned(), "cassette".to_owned()].into_iter().chain(cells).take(4).collect();
        let _ = catalogued_part_from_row(&header, &row);
    }

    #[test]
    fn money_and_gtins_do_not_panic(text in any_text()) {
        let _ = money_from_text(&text);
        if let Ok(gtin) = gtin14(&text) {
            prop_assert_eq!(gtin.len(), 14);
            prop_assert_eq!(gtin14(&gtin), Ok(gtin));
        }
    }
}
