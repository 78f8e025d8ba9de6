//! Single values of the wire: numbers, text, yes or no, words of an enum.

use prost_reflect::{EnumDescriptor, FieldDescriptor, Kind, Value};
use serde_json::Value as Json;

use super::dictionary::Written;
use super::fault::{Wrong, listed, nearest, quoted, shown};
use super::gtin::gtin14;
use super::number::Reader;
use super::units::{base_name, unit_of_name};
use super::word::{kebab, yes_or_no};
use crate::v1::Origin;

/// Values that a list or a set of possibilities may have.
pub(crate) const VALUES_MAX: usize = 64;
/// Characters that a text may have.
const TEXT_MAX: usize = 1000;

/// Reads a single value that is no message.
pub(crate) fn read(field: &FieldDescriptor, written: Written, value: &Json) -> Result<Value, Wrong> {
    match field.kind() {
        Kind::Bool => boolean(value).map(Value::Bool),
        Kind::String => text(field, value).map(Value::String),
        Kind::Enum(names) => word(&names, value).map(Value::EnumNumber),
        Kind::Double => float(value).map(Value::F64),
        Kind::Int32 | Kind::Sint32 | Kind::Sfixed32 => {
            fits(integer(field, written, value)?, i32::MIN, i32::MAX, Value::I32)
        }
        Kind::Int64 | Kind::Sint64 | Kind::Sfixed64 => integer(field, written, value).map(Value::I64),
        Kind::Uint32 | Kind::Fixed32 => fits(integer(field, written, value)?, u32::MIN, u32::MAX, Value::U32),
        Kind::Uint64 | Kind::Fixed64 => fits(integer(field, written, value)?, u64::MIN, u64::MAX, Value::U64),
        Kind::Float | Kind::Bytes | Kind::Message(_) => {
            Err(Wrong::new(describe(value), "this field cannot be written as text"))
        }
    }
}

fn fits<T>(value: i64, low: T, high: T, wrap: impl Fn(T) -> Value) -> Result<Value, Wrong>
where
    T: TryFrom<i64> + std::fmt::Display,
{
    let wrong = || Wrong::new(value.to_string(), format!("give a whole number from {low} to {high}"));
    T::try_from(value).map(wrap).map_err(|_| wrong())
}

fn integer(field: &FieldDescriptor, written: Written, value: &Json) -> Result<i64, Wrong> {
    let unit = unit_of_name(field.name());
    Reader { base: base_name(field.name(), unit), unit, written, hard: None }.scalar(value)
}

fn boolean(value: &Json) -> Result<bool, Wrong> {
    let read = match value {
        Json::Bool(value) => Some(*value),
        Json::String(text) => yes_or_no(text),
        _ => None,
    };
    read.ok_or_else(|| Wrong::new(describe(value), "give true or false"))
}

fn float(value: &Json) -> Result<f64, Wrong> {
    let number = value.as_f64().or_else(|| value.as_str()?.trim().parse().ok());
    number.filter(|number| number.is_finite()).ok_or_else(|| Wrong::new(describe(value), "give a number"))
}

fn text(field: &FieldDescriptor, value: &Json) -> Result<String, Wrong> {
    let Json::String(text) = value else {
        let wrong = Wrong::new(describe(value), "give text, in quotes");
        return Err(match value {
            Json::Number(number) => wrong.near(number.to_string()),
            _ => wrong,
        });
    };
    let text = text.trim();
    if text.chars().count() > TEXT_MAX {
        return Err(Wrong::new(quoted(text), format!("give at most {TEXT_MAX} characters")));
    }
    if text.chars().any(|character| character.is_control() && !matches!(character, '\n' | '\t')) {
        return Err(Wrong::new(quoted(text), "give text without control characters"));
    }
    match field.name() {
        "gtin" | "gtins" if !text.is_empty() => {
            gtin14(text).map_err(|wanted| Wrong::new(quoted(text), wanted))
        }
        "brand_id" if !text.is_empty() => kebab(text),
        _ => Ok(text.to_owned()),
    }
}

/// A word of an enum: its full name, its short name in any case, or its number.
fn word(names: &EnumDescriptor, value: &Json) -> Result<i32, Wrong> {
    let prefix = prefix_of(names);
    let short = |name: &str| name.strip_prefix(&prefix).unwrap_or(name).to_lowercase();
    let shorts: Vec<String> =
        names.values().filter(|value| value.number() != 0).map(|value| short(value.name())).collect();
    let found = match value {
        Json::String(text) => {
            let folded = text.trim().to_lowercase().replace(['-', ' '], "_");
            let called = |name: &str| name.to_lowercase() == folded || short(name) == folded;
            names.values().find(|value| called(value.name()))
        }
        Json::Number(number) => {
            number.as_i64().and_then(|number| names.get_value(i32::try_from(number).ok()?))
        }
        _ => None,
    };
    found.map(|value| value.number()).ok_or_else(|| {
        let near = value.as_str().and_then(|text| nearest(text, shorts.iter().map(String::as_str)));
        Wrong::new(describe(value), format!("give one of {}", listed(shorts.iter().map(String::as_str))))
            .near_if(near)
    })
}

/// What the names of an enum begin with: "POSITION_".
fn prefix_of(names: &EnumDescriptor) -> String {
    let zero = names.get_value(0).map(|value| value.name().to_owned()).unwrap_or_default();
    zero.strip_suffix("UNSPECIFIED").unwrap_or_default().to_owned()
}

/// The origin of a value: "stated", "measured", "inferred", or its full name.
pub(crate) fn origin_of(value: &Json) -> Result<Origin, Wrong> {
    let words = ["stated", "measured", "inferred"];
    let found = value.as_str().and_then(|text| match text.trim() {
        "stated" => Some(Origin::Stated),
        "measured" => Some(Origin::Measured),
        "inferred" => Some(Origin::Inferred),
        full => Origin::from_str_name(full),
    });
    found.ok_or_else(|| {
        let near = value.as_str().and_then(|text| nearest(text, words));
        Wrong::new(format!("origin {}", describe(value)), format!("give one of {}", listed(words)))
            .near_if(near)
    })
}

/// Says that the object form of a value has no such member, or that the member has the wrong type.
pub(crate) fn unknown_member(name: &str, value: &Json, names: &[&str]) -> Wrong {
    let known = names.contains(&name) || name == "one_of";
    let found = match known {
        true => format!("{name} is {}", describe(value)),
        false => format!("unknown member {}", quoted(name)),
    };
    let near = if known { None } else { nearest(name, names.iter().copied()) };
    Wrong::new(found, format!("an object has {}", listed(names.iter().copied()))).near_if(near)
}

/// A JSON value in a few words.
pub(crate) fn describe(value: &Json) -> String {
    match value {
        Json::Null => "null".to_owned(),
        Json::Bool(value) => value.to_string(),
        Json::Number(number) => format!("number {}", shown(&number.to_string())),
        Json::String(text) => quoted(text),
        Json::Array(items) => format!("a list of {}", items.len()),
        Json::Object(_) => "an object".to_owned(),
    }
}
