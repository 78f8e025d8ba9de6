//! The names of records, and the keys under which they are stored.

use sprag_proto::v1 as pb;
use sprag_proto::v1::record::Record as Which;

/// Stands before the key of a record. Stock numbers hold no control characters, so the two never meet.
const MARK: char = '\u{1}';

/// What a record is called in files and messages.
pub fn type_name(found: pb::RecordType) -> &'static str {
    match found {
        pb::RecordType::Unspecified => "record",
        pb::RecordType::Interface => "interface",
        pb::RecordType::Alias => "alias",
        pb::RecordType::Statement => "statement",
        pb::RecordType::Ruling => "ruling",
    }
}

/// The name of a record; an empty record has none.
pub fn name_of(record: &pb::Record) -> Option<pb::RecordName> {
    let (found, id) = match record.record.as_ref()? {
        Which::Interface(found) => {
            (pb::RecordType::Interface, format!("{}/{}", found.interface_class, found.key))
        }
        Which::Alias(found) => (pb::RecordType::Alias, found.alias_id.clone()),
        Which::Statement(found) => (pb::RecordType::Statement, found.statement_id.clone()),
        Which::Ruling(found) => (pb::RecordType::Ruling, found.ruling_id.clone()),
    };
    Some(pb::RecordName { r#type: found.into(), id })
}

/// The stock numbers that a record speaks of, with the paths of the fields.
pub fn named_skus(record: &pb::Record) -> Vec<(String, String)> {
    let (name, pair) = match record.record.as_ref() {
        Some(Which::Statement(found)) => ("statement", [&found.part, &found.other]),
        Some(Which::Ruling(found)) => ("ruling", [&found.part, &found.other]),
        _ => return Vec::new(),
    };
    let named = ["part", "other"].into_iter().zip(pair).filter_map(|(field, selector)| {
        match selector.as_ref()?.parts.as_ref()? {
            pb::part_selector::Parts::Sku(sku) => Some((format!("{name}.{field}.sku"), sku.clone())),
            _ => None,
        }
    });
    named.collect()
}

/// The key of a record in a revision: interfaces first, since the others speak of them, each type in order of id.
pub fn write_key(name: &pb::RecordName) -> String {
    format!("{MARK}{}/{}", name.r#type, name.id)
}

/// The name behind a key; `None` for the key of a part, which is its stock number.
pub fn read_key(key: &str) -> Option<pb::RecordName> {
    let (found, id) = key.strip_prefix(MARK)?.split_once('/')?;
    Some(pb::RecordName { r#type: found.parse().ok()?, id: id.to_owned() })
}
