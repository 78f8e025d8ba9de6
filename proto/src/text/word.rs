//! Words, keys and yes-or-no.

use serde_json::{Map, Value as Json};

use super::dictionary::{Attribute, Form};
use super::fault::{Wrong, listed, nearest, quoted};
use super::number::{is_absent, known_text, one_member};
use super::scalar::{VALUES_MAX, describe, origin_of, unknown_member};
use crate::v1::{Absent, FlagValue, KeyList, KeyValue, key_value::Set};

/// Characters that a key may have.
const KEY_MAX: usize = 120;

/// Reads a word or key; `None` = not set.
pub(crate) fn key(attribute: &Attribute, value: &Json) -> Result<Option<KeyValue>, Wrong> {
    match value {
        Json::Null => Ok(None),
        Json::String(text) => key_text(attribute, text),
        Json::Array(items) => {
            Ok(Some(KeyValue { set: Some(Set::OneOf(one_of(attribute, items)?)), origin: 0 }))
        }
        Json::Object(members) => key_object(attribute, members).map(Some),
        other => Err(Wrong::new(describe(other), wanted(attribute))),
    }
}

fn wanted(attribute: &Attribute) -> String {
    let words = listed(attribute.options.words.iter().map(String::as_str));
    match attribute.form {
        Form::Word => format!("give one of {words}"),
        Form::Interface => format!("give a key of the class {} as text", attribute.options.interface_class),
        _ => "give a key as text: lower case, digits and dashes".to_owned(),
    }
}

fn key_text(attribute: &Attribute, text: &str) -> Result<Option<KeyValue>, Wrong> {
    let Some((text, origin)) = known_text(text)? else { return Ok(None) };
    let set = if is_absent(text) {
        Set::Absent(Absent {})
    } else if text.contains('|') {
        let pieces: Vec<&str> = text.split('|').take(VALUES_MAX + 1).collect();
        counted(pieces.len())?;
        let values = pieces.into_iter().map(|piece| one(attribute, piece)).collect::<Result<_, _>>()?;
        Set::OneOf(KeyList { values })
    } else {
        Set::Exact(one(attribute, text)?)
    };
    Ok(Some(KeyValue { set: Some(set), origin: origin.into() }))
}

fn counted(count: usize) -> Result<(), Wrong> {
    match count {
        1..=VALUES_MAX => Ok(()),
        _ => Err(Wrong::new(
            format!("a list of {count}"),
            format!("give 1 to {VALUES_MAX} keys, one of which is right"),
        )),
    }
}

fn one_of(attribute: &Attribute, items: &[Json]) -> Result<KeyList, Wrong> {
    counted(items.len())?;
    let values = items.iter().map(|item| one_json(attribute, item)).collect::<Result<_, _>>()?;
    Ok(KeyList { values })
}

fn one_json(attribute: &Attribute, value: &Json) -> Result<String, Wrong> {
    match value {
        Json::String(text) => one(attribute, text),
        other => Err(Wrong::new(describe(other), wanted(attribute))),
    }
}

fn one(attribute: &Attribute, text: &str) -> Result<String, Wrong> {
    let key = text.trim().to_lowercase();
    match attribute.form {
        Form::Word if attribute.options.words.contains(&key) => Ok(key),
        Form::Word => {
            let words = attribute.options.words.iter().map(String::as_str);
            Err(Wrong::new(quoted(text), wanted(attribute)).near_if(nearest(&key, words)))
        }
        // The server knows the registry, and the shop's aliases may be any text.
        Form::Interface
            if !key.is_empty() && key.chars().count() <= KEY_MAX && !key.chars().any(char::is_control) =>
        {
            Ok(key)
        }
        Form::Interface => Err(Wrong::new(quoted(text), wanted(attribute))),
        _ => kebab(text),
    }
}

/// A kebab-case key; upper case is lowered.
pub(crate) fn kebab(text: &str) -> Result<String, Wrong> {
    let key = text.trim().to_lowercase();
    let fine = |character: char| matches!(character, 'a'..='z' | '0'..='9' | '-' | '.');
    let edged = key.starts_with('-') || key.ends_with('-');
    if !key.is_empty() && key.len() <= KEY_MAX && !edged && key.chars().all(fine) {
        return Ok(key);
    }
    let dashed: String =
        key.chars().take(KEY_MAX).map(|character| if fine(character) { character } else { '-' }).collect();
    let words: Vec<&str> = dashed.split('-').filter(|word| !word.is_empty()).collect();
    let near = Some(words.join("-")).filter(|near| !near.is_empty());
    let wanted = format!(
        "give a key of at most {KEY_MAX} characters: lower case a to z, digits, dots, and dashes between words"
    );
    Err(Wrong::new(quoted(text), wanted).near_if(near))
}

fn key_object(attribute: &Attribute, members: &Map<String, Json>) -> Result<KeyValue, Wrong> {
    let mut read = KeyValue::default();
    let mut sets = 0;
    for (name, value) in members.iter().filter(|(_, value)| !value.is_null()) {
        sets += usize::from(name != "origin");
        match (name.as_str(), value) {
            ("origin", value) => read.origin = origin_of(value)?.into(),
            ("exact", value) => read.set = Some(Set::Exact(one_json(attribute, value)?)),
            ("absent", Json::Object(_)) => read.set = Some(Set::Absent(Absent {})),
            ("oneOf" | "one_of", Json::Array(items)) => {
                read.set = Some(Set::OneOf(one_of(attribute, items)?))
            }
            ("oneOf" | "one_of", Json::Object(list)) => match list.get("values") {
                Some(Json::Array(items)) if list.len() == 1 => {
                    read.set = Some(Set::OneOf(one_of(attribute, items)?));
                }
                _ => {
                    return Err(Wrong::new(
                        "an object without its list",
                        "write {\"oneOf\": {\"values\": [\"a\", \"b\"]}}",
                    ));
                }
            },
            _ => return Err(unknown_member(name, value, &["exact", "oneOf", "absent", "origin"])),
        }
    }
    one_member(sets, "exact, oneOf and absent")?;
    Ok(read)
}

const YES_OR_NO: &str = "give true or false, \"yes\" or \"no\"";

/// Reads yes or no; `None` = not set.
pub(crate) fn flag(value: &Json) -> Result<Option<FlagValue>, Wrong> {
    match value {
        Json::Null => Ok(None),
        Json::Bool(exact) => Ok(Some(FlagValue { exact: Some(*exact), origin: 0 })),
        Json::String(text) => {
            let Some((text, origin)) = known_text(text)? else { return Ok(None) };
            let exact = yes_or_no(text).ok_or_else(|| Wrong::new(quoted(text), YES_OR_NO))?;
            Ok(Some(FlagValue { exact: Some(exact), origin: origin.into() }))
        }
        Json::Object(members) => flag_object(members).map(Some),
        other => Err(Wrong::new(describe(other), YES_OR_NO)),
    }
}

fn flag_object(members: &Map<String, Json>) -> Result<FlagValue, Wrong> {
    let mut read = FlagValue::default();
    for (name, value) in members {
        match (name.as_str(), value) {
            (_, Json::Null) => {}
            ("origin", value) => read.origin = origin_of(value)?.into(),
            ("exact", Json::Bool(exact)) => read.exact = Some(*exact),
            _ => return Err(unknown_member(name, value, &["exact", "origin"])),
        }
    }
    match read.exact {
        Some(_) => Ok(read),
        None => Err(Wrong::new("an object without a value", "give exact")),
    }
}

/// Yes or no in words, in any case.
pub(crate) fn yes_or_no(text: &str) -> Option<bool> {
    match text.trim().to_lowercase().as_str() {
        "yes" | "true" => Some(true),
        "no" | "false" => Some(false),
        _ => None,
    }
}
