//! Lists of numbers that belong together: cogs, rings, hub ratios.

use serde_json::{Map, Value as Json};

use super::dictionary::Written;
use super::fault::{Wrong, quoted};
use super::hints::{self, Order};
use super::number::{Reader, known_text};
use super::scalar::{VALUES_MAX, describe, origin_of, unknown_member};
use super::units::quantity;
use crate::v1::ListValue;

/// Reads a list; `None` = not set.
pub(crate) fn read(reader: Reader<'_>, value: &Json) -> Result<Option<ListValue>, Wrong> {
    match value {
        Json::Null => Ok(None),
        Json::Array(items) => from_items(reader, items).map(|values| Some(ListValue { values, origin: 0 })),
        Json::String(text) => from_text(reader, text),
        Json::Object(members) => from_object(reader, members).map(Some),
        other => Err(Wrong::new(describe(other), wanted(reader))),
    }
}

fn wanted(reader: Reader<'_>) -> String {
    let order = match hints::order(reader.base) {
        Some(Order::LargestFirst) => ", largest first",
        _ => ", smallest first",
    };
    format!("give a list of numbers{order}, as [11, 13, 15] or \"11-13-15\"")
}

fn from_items(reader: Reader<'_>, items: &[Json]) -> Result<Vec<i64>, Wrong> {
    counted(reader, items.len())?;
    ordered(reader, items.iter().map(|item| reader.scalar(item)).collect::<Result<_, _>>()?)
}

fn counted(reader: Reader<'_>, count: usize) -> Result<(), Wrong> {
    match count {
        0 => Err(Wrong::new("an empty list", format!("leave the field out, or {}", wanted(reader)))),
        1..=VALUES_MAX => Ok(()),
        _ => Err(Wrong::new(format!("a list of {count}"), format!("give at most {VALUES_MAX} numbers"))),
    }
}

fn from_text(reader: Reader<'_>, text: &str) -> Result<Option<ListValue>, Wrong> {
    let Some((text, origin)) = known_text(text)? else { return Ok(None) };
    if text.contains("..") {
        let every = Wrong::new(quoted(text), wanted(reader));
        return Err(hints::only_ends(reader.base, text).unwrap_or(every));
    }
    let separator = |character: char| matches!(character, ',' | ';' | '/' | '-') || character.is_whitespace();
    let pieces: Vec<&str> =
        text.split(separator).filter(|piece| !piece.is_empty()).take(VALUES_MAX + 1).collect();
    counted(reader, pieces.len())?;
    let dashed = text.contains('-') && !text.starts_with('-');
    if let (2, true, Some(wrong)) = (pieces.len(), dashed, hints::only_ends(reader.base, text)) {
        return Err(wrong);
    }
    if text.starts_with('-') {
        return Err(Wrong::new(quoted(text), wanted(reader)));
    }
    let values = pieces.into_iter().map(|piece| reader.text(piece, None)).collect::<Result<_, _>>()?;
    Ok(Some(ListValue { values: ordered(reader, values)?, origin: origin.into() }))
}

fn from_object(reader: Reader<'_>, members: &Map<String, Json>) -> Result<ListValue, Wrong> {
    let own = quantity(reader.unit).own;
    if reader.written != Written::Declared && !own.suffix.is_empty() {
        let found = "an object under a name without the declared unit";
        return Err(Wrong::new(found, format!("call the field {}_{}", reader.base, own.suffix)));
    }
    let mut read = ListValue::default();
    for (name, value) in members {
        match (name.as_str(), value) {
            (_, Json::Null) => {}
            ("origin", value) => read.origin = origin_of(value)?.into(),
            ("values", Json::Array(items)) => read.values = from_items(reader, items)?,
            _ => return Err(unknown_member(name, value, &["values", "origin"])),
        }
    }
    counted(reader, read.values.len())?;
    Ok(read)
}

/// Refuses a list out of its declared order, and shows it sorted.
fn ordered(reader: Reader<'_>, values: Vec<i64>) -> Result<Vec<i64>, Wrong> {
    let Some(order) = hints::order(reader.base) else { return Ok(values) };
    let mut sorted = values.clone();
    sorted.sort_unstable();
    sorted.dedup();
    let first = match order {
        Order::SmallestFirst => "smallest first, each once",
        Order::LargestFirst => {
            sorted.reverse();
            "largest first, each once"
        }
    };
    if sorted == values {
        return Ok(values);
    }
    let text = |values: &[i64]| {
        let quantity = quantity(reader.unit);
        let (numbers, dash) =
            (values.iter().map(|value| quantity.number(*value)), values.iter().all(|value| *value >= 0));
        numbers.collect::<Vec<_>>().join(if dash { "-" } else { ", " })
    };
    Err(Wrong::new(text(&values), format!("give them {first}: {}", text(&sorted))).near(text(&sorted)))
}
