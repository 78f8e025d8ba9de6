//! The engine's view of the dictionary.

use std::fmt::Write;

use crate::model::{Attribute, Form, Model};

pub fn generate(model: &Model) -> String {
    let mut out = String::from(
        "//! Kinds, attributes, words, ranges and questions.\n//!\n//! Generated from proto/sprag/v1 by sprag-codegen; do not edit.\n\n#![allow(clippy::too_many_lines)]\n\n\
         use crate::part::spec::{AttributeSpec, Child, Form, KindSpec, Unit};\n\n",
    );
    kinds(&mut out, model);
    attributes(&mut out, model);
    typed(&mut out, model);
    words(&mut out, model);
    specs(&mut out, model);
    out
}

fn kinds(out: &mut String, model: &Model) {
    out.push_str("/// What the trade calls a part.\n#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]\n#[repr(u8)]\npub enum Kind {\n");
    for kind in &model.kinds {
        let _ = writeln!(out, "/// {}.\n{},", sentence(&kind.label), kind.message);
    }
    out.push_str("}\n\n");
}

fn attributes(out: &mut String, model: &Model) {
    out.push_str("/// A stated or measured property of a part.\n#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]\n#[repr(u16)]\npub enum Attribute {\n");
    for (name, attribute) in model.attributes() {
        let _ = writeln!(out, "/// {}\n{},", attribute.question, camel(name));
    }
    out.push_str("}\n\n/// Every attribute.\npub const ATTRIBUTES: &[Attribute] = &[\n");
    for name in model.attributes().keys() {
        let _ = writeln!(out, "Attribute::{},", camel(name));
    }
    out.push_str("];\n\nimpl Attribute {\n/// Name as in files and answers, without its unit.\npub const fn name(self) -> &'static str {\nmatch self {\n");
    for name in model.attributes().keys() {
        let _ = writeln!(out, "Self::{} => {name:?},", camel(name));
    }
    out.push_str("}\n}\n}\n\n");
}

/// Typed handles, so that a rule cannot mix teeth and micrometres.
fn typed(out: &mut String, model: &Model) {
    out.push_str("/// Typed handles of the attributes: a rule reads with these and cannot mix units.\npub mod attr {\nuse super::{Attribute, word};\nuse crate::part::of::{Flag, FreeKey, InterfaceKey, List, Of};\nuse crate::part::units::*;\n\n");
    for (name, attribute) in model.attributes() {
        let kind = match &attribute.form {
            Form::Integer => unit_type(&attribute.unit).to_owned(),
            Form::List => "List".into(),
            Form::Flag => "Flag".into(),
            Form::Words(_) => format!("word::{}", camel(name)),
            Form::Interface(_) => "InterfaceKey".into(),
            Form::FreeKey => "FreeKey".into(),
        };
        let _ = writeln!(
            out,
            "/// {}\npub const {}: Of<{kind}> = Of::new(Attribute::{});",
            attribute.question,
            name.to_uppercase(),
            camel(name)
        );
    }
    out.push_str("}\n\n");
}

fn words(out: &mut String, model: &Model) {
    out.push_str("/// The closed sets of words.\npub mod word {\nuse crate::part::of::Word;\n\n");
    for (name, attribute) in model.attributes() {
        let Form::Words(words) = &attribute.form else { continue };
        let _ = writeln!(out, "/// {}\n#[derive(Clone, Copy, Debug, PartialEq, Eq)]\npub enum {} {{", attribute.question, camel(name));
        for word in words {
            let _ = writeln!(out, "/// {word:?}\n{},", word_variant(word));
        }
        let _ = writeln!(out, "}}\n\nimpl Word for {} {{\nfn from_index(index: i64) -> Option<Self> {{\nmatch index {{", camel(name));
        for (index, word) in words.iter().enumerate() {
            let _ = writeln!(out, "{index} => Some(Self::{}),", word_variant(word));
        }
        out.push_str("_ => None,\n}\n}\n\nfn index(self) -> i64 {\nself as i64\n}\n}\n\n");
    }
    out.push_str("}\n\n");
}

fn specs(out: &mut String, model: &Model) {
    out.push_str("/// Every kind with its attributes; indexed by `Kind as usize`.\npub static KINDS: &[KindSpec] = &[\n");
    for kind in &model.kinds {
        let _ = writeln!(
            out,
            "KindSpec {{ kind: Kind::{}, name: {:?}, label: {:?}, place: {:?}, not_judged: {:?}, attributes: &[",
            kind.message, kind.name, kind.label, kind.place, kind.not_judged
        );
        for attribute in &kind.attributes {
            spec(out, attribute);
        }
        out.push_str("], children: &[\n");
        for child in &kind.children {
            let _ = writeln!(out, "Child {{ name: {:?}, kind: Kind::{} }},", child.field, child.message);
        }
        out.push_str("] },\n");
    }
    out.push_str("];\n");
}

fn spec(out: &mut String, attribute: &Attribute) {
    let form = match &attribute.form {
        Form::Integer => "Form::Integer".into(),
        Form::List => "Form::List".into(),
        Form::Flag => "Form::Flag".into(),
        Form::Words(words) => format!("Form::Words(&{words:?})"),
        Form::Interface(class) => format!("Form::Interface({class:?})"),
        Form::FreeKey => "Form::FreeKey".to_string(),
    };
    let _ = writeln!(
        out,
        "AttributeSpec {{ attribute: Attribute::{}, field: {:?}, form: {form}, unit: Unit::{}, hard: {:?}, usual: {:?}, question: {:?}, measure: {:?} }},",
        camel(&attribute.name),
        attribute.field,
        unit_type(&attribute.unit),
        attribute.hard,
        attribute.usual,
        attribute.question,
        attribute.measure
    );
}

pub fn unit_type(unit: &str) -> &'static str {
    match unit {
        "COUNT" => "Count",
        "TEETH" => "Teeth",
        "MICROMETRE" => "Micrometres",
        "GRAM" => "Grams",
        "PERMILLE" => "Permille",
        "LINK" => "Links",
        "KILOPASCAL" => "Kilopascals",
        "NEWTON_METRE" => "NewtonMetres",
        "KILOMETRE_PER_HOUR" => "KilometresPerHour",
        "KILOGRAM" => "Kilograms",
        "MILLIDEGREE" => "Millidegrees",
        _ => "None",
    }
}

pub fn camel(name: &str) -> String {
    name.split(['_', '-']).map(capital).collect()
}

fn capital(part: &str) -> String {
    let mut letters = part.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// "11t" starts with a digit, which Rust does not allow.
fn word_variant(word: &str) -> String {
    let camel = camel(word);
    if camel.starts_with(|first: char| first.is_ascii_digit()) { format!("N{camel}") } else { camel }
}

fn sentence(label: &str) -> String {
    capital(label)
}

