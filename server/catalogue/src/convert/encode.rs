//! Engine values as text.

use sprag_engine::part::interface::{Interfaces, Key};
use sprag_engine::part::{Attribute, Form, Part};

/// The text behind the integer of a word, key or free text.
pub fn text(part: &Part, attribute: Attribute, value: i64, interfaces: &Interfaces) -> Option<String> {
    match part.kind.attribute(attribute)?.form {
        Form::Words(words) => words.get(usize::try_from(value).ok()?).map(|word| (*word).to_owned()),
        Form::Interface(_) => {
            interfaces.get(Key(u16::try_from(value).ok()?)).map(|found| found.key.clone().into_owned())
        }
        Form::FreeKey => part.text(value).map(str::to_owned),
        _ => None,
    }
}
