//! The committed descriptors hold the whole dictionary.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::HashSet;

use prost::Name;
use sprag_proto::text::{attributes, columns, kind_docs};
use sprag_proto::{DESCRIPTORS, POOL, v1};

#[test]
fn the_committed_descriptor_set_decodes() {
    let pool = prost_reflect::DescriptorPool::decode(DESCRIPTORS).expect("it was written by the generator");
    assert!(pool.get_message_by_name("sprag.v1.Build").is_some());
    for name in [v1::Build::full_name(), v1::CataloguedPart::full_name(), v1::IntegerValue::full_name()] {
        assert!(POOL.get_message_by_name(&name).is_some(), "{name}");
    }
}

#[test]
fn every_attribute_has_question_measure_and_unit() {
    let attributes = attributes();
    assert!(attributes.len() > 200, "{}", attributes.len());
    for attribute in &attributes {
        let name = format!("{}.{}", attribute.kind, attribute.field);
        assert!(attribute.question.ends_with('?'), "{name}: {}", attribute.question);
        assert!(!attribute.measure.is_empty(), "{name}");
        assert!(attribute.spellings.contains(&attribute.field), "{name}");
        let numeric = matches!(attribute.form, "number" | "list");
        assert_eq!(attribute.unit != v1::Unit::Unspecified, numeric, "{name}");
        assert_eq!(attribute.hard.is_some(), numeric, "{name}");
        if let (Some(hard), Some(usual)) = (attribute.hard, attribute.usual) {
            assert!(
                hard.0 < hard.1 && hard.0 <= usual.0 && usual.0 <= usual.1 && usual.1 <= hard.1,
                "{name}"
            );
        }
        assert_eq!(attribute.form == "word", !attribute.words.is_empty(), "{name}");
        assert_eq!(attribute.form == "key", !attribute.interface_class.is_empty(), "{name}");
        let reserved = ["none", "absent", "unknown", ""];
        let plain = |word: &String| !reserved.contains(&word.as_str()) && !word.contains(['|', '?', ' ']);
        assert!(attribute.words.iter().all(plain), "{name}: {:?}", attribute.words);
    }
}

/// Every field of a kind is an attribute or a child, so that nothing escapes the dictionary.
#[test]
fn every_field_of_a_kind_is_an_attribute_or_a_child() {
    let kinds = kind_docs();
    assert_eq!(kinds.last().map(|kind| kind.kind.as_str()), Some("use"));
    let messages: HashSet<String> = kinds.iter().map(|kind| kind.kind.clone()).collect();
    assert_eq!(messages.len(), kinds.len());
    for kind in &kinds {
        assert!(!kind.label.is_empty(), "{}", kind.kind);
        for child in &kind.children {
            let child = child.strip_suffix('s').filter(|one| messages.contains(*one)).unwrap_or(child);
            assert!(messages.contains(child), "{}.{child}", kind.kind);
        }
    }
}

#[test]
fn no_spelling_means_two_things() {
    for kind in kind_docs() {
        let mut seen = HashSet::new();
        for attribute in attributes().iter().filter(|attribute| attribute.kind == kind.kind) {
            for spelling in &attribute.spellings {
                assert!(seen.insert(spelling.clone()), "{}.{spelling}", kind.kind);
            }
            let own = attribute.spellings.iter().filter(|name| **name == attribute.name).count();
            assert_eq!(own, 1, "{}.{}", kind.kind, attribute.name);
        }
    }
    let columns = columns();
    let distinct: HashSet<&str> = columns.iter().copied().collect();
    assert_eq!(distinct.len(), columns.len(), "an attribute is called like a plain column");
}

/// Lists are refused out of order, so each must say its order.
#[test]
fn every_list_attribute_is_one_whose_order_is_known() {
    let mut lists: Vec<String> = attributes()
        .into_iter()
        .filter(|attribute| attribute.form == "list")
        .map(|attribute| attribute.name)
        .collect();
    lists.sort();
    lists.dedup();
    assert_eq!(lists, ["cogs", "hub_ratios", "rings"]);
}
