//! Conversions between kind messages and engine parts.

use std::fmt::Write;

use crate::dictionary::camel;
use crate::model::{Form, Kind, Model};

pub fn generate(model: &Model) -> String {
    let mut out = String::from(
        "//! Conversions between kind messages and engine parts, attribute by attribute.\n//!\n//! Generated from proto/sprag/v1 by sprag-codegen; do not edit.\n\n#![allow(clippy::too_many_lines)]\n\n\
         use sprag_engine::part::{Attribute, Kind};\nuse sprag_proto::v1 as pb;\n\n\
         use super::decode::Reader;\n\n",
    );
    let (usage, parts) = model.kinds.split_last().map_or((None, &[][..]), |(last, rest)| (Some(last), rest));
    reading_parts(&mut out, parts);
    for kind in parts.iter().chain(usage) {
        reader(&mut out, kind);
    }
    out
}

fn reading_parts(out: &mut String, kinds: &[Kind]) {
    out.push_str("/// Reads the kind of a part with its attributes.\npub fn read_kind(kind: &pb::part::Kind, reader: &mut Reader<'_>) {\nmatch kind {\n");
    for kind in kinds {
        let _ = writeln!(out, "pb::part::Kind::{}(message) => reader.inside({:?}, |reader| read_{}(message, reader)),", kind.message, kind.name, kind.name);
    }
    out.push_str("}\n}\n\n/// The engine's kind of a message.\npub fn kind_of(kind: &pb::part::Kind) -> Kind {\nmatch kind {\n");
    for kind in kinds {
        let _ = writeln!(out, "pb::part::Kind::{}(_) => Kind::{},", kind.message, kind.message);
    }
    out.push_str("}\n}\n\n");
}

fn reader(out: &mut String, kind: &Kind) {
    let _ = writeln!(out, "/// Reads the attributes of a {}.\npub fn read_{}(message: &pb::{}, reader: &mut Reader<'_>) {{", kind.label, kind.name, kind.message);
    let _ = writeln!(out, "reader.begin(Kind::{});", kind.message);
    for attribute in &kind.attributes {
        let call = match attribute.form {
            Form::Integer => "integer",
            Form::List => "list",
            Form::Flag => "flag",
            _ => "key",
        };
        let _ = writeln!(
            out,
            "reader.{call}(Attribute::{}, {:?}, message.{}.as_ref());",
            camel(&attribute.name),
            attribute.field,
            attribute.field
        );
    }
    for child in &kind.children {
        let (field, reads) = (&child.field, snake(&child.message));
        if child.repeated {
            let _ = writeln!(out, "for (index, child) in message.{field}.iter().enumerate() {{\nreader.child({field:?}, Some(index), |reader| read_{reads}(child, reader));\n}}");
        } else {
            let _ = writeln!(out, "if let Some(child) = &message.{field} {{\nreader.child({field:?}, None, |reader| read_{reads}(child, reader));\n}}");
        }
    }
    out.push_str("}\n\n");
}

fn snake(message: &str) -> String {
    let mut out = String::new();
    for (index, letter) in message.chars().enumerate() {
        if letter.is_uppercase() && index > 0 {
            out.push('_');
        }
        out.extend(letter.to_lowercase());
    }
    out
}
