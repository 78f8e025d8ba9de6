//! Engine parts to messages.

use sprag_engine::part::interface::{Interfaces, Key};
use sprag_engine::part::{Attribute, Form, Origin, Part, Set, Value};
use sprag_proto::v1 as pb;

/// Writes a number.
pub fn integer(part: &Part, attribute: Attribute) -> Option<pb::IntegerValue> {
    use pb::integer_value::Set as Wire;
    let Value { set, origin } = part.value(attribute);
    let set = match set {
        Set::Unknown | Set::List(_) => return None,
        Set::Absent => Wire::Absent(pb::Absent {}),
        Set::Exact(value) => Wire::Exact(*value),
        Set::OneOf(values) => Wire::OneOf(pb::IntegerList { values: values.to_vec() }),
        Set::Between(low, high) => Wire::Between(pb::IntegerRange { low: *low, high: *high }),
    };
    Some(pb::IntegerValue { set: Some(set), origin: write_origin(*origin) })
}

/// Writes a list.
pub fn list(part: &Part, attribute: Attribute) -> Option<pb::ListValue> {
    match part.value(attribute) {
        Value { set: Set::List(values), origin } => {
            Some(pb::ListValue { values: values.to_vec(), origin: write_origin(*origin) })
        }
        _ => None,
    }
}

/// Writes a yes-or-no attribute.
pub fn flag(part: &Part, attribute: Attribute) -> Option<pb::FlagValue> {
    match part.value(attribute) {
        Value { set: Set::Exact(value), origin } => {
            Some(pb::FlagValue { exact: Some(*value != 0), origin: write_origin(*origin) })
        }
        _ => None,
    }
}

/// Writes a word, an interface key or a free text.
pub fn key(part: &Part, attribute: Attribute) -> Option<pb::KeyValue> {
    use pb::key_value::Set as Wire;
    let Value { set, origin } = part.value(attribute);
    let set = match set {
        Set::Unknown | Set::List(_) | Set::Between(..) => return None,
        Set::Absent => Wire::Absent(pb::Absent {}),
        Set::Exact(value) => Wire::Exact(text(part, attribute, *value)?),
        Set::OneOf(values) => {
            let texts = values.iter().map(|value| text(part, attribute, *value)).collect::<Option<_>>()?;
            Wire::OneOf(pb::KeyList { values: texts })
        }
    };
    Some(pb::KeyValue { set: Some(set), origin: write_origin(*origin) })
}

/// The text behind the integer of a word, key or free text.
pub fn text(part: &Part, attribute: Attribute, value: i64) -> Option<String> {
    match part.kind.attribute(attribute)?.form {
        Form::Words(words) => words.get(usize::try_from(value).ok()?).map(|word| (*word).to_owned()),
        Form::Interface(_) => {
            Interfaces::standard_ref().get(Key(u16::try_from(value).ok()?)).map(|found| found.key.to_owned())
        }
        Form::FreeKey => part.text(value).map(str::to_owned),
        _ => None,
    }
}

fn write_origin(origin: Origin) -> i32 {
    match origin {
        Origin::Stated => pb::Origin::Stated.into(),
        Origin::Measured => pb::Origin::Measured.into(),
        Origin::Inferred => pb::Origin::Inferred.into(),
    }
}
