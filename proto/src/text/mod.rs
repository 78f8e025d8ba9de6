//! Builds and parts as people write them: TOML, JSON, NDJSON lines and CSV rows, all read in one way.
//!
//! The reader follows the descriptors, so that a new attribute needs no line here. It collects everything that is
//! wrong, and each [`Fault`] names where, what stands there, and what would be right. TOML is converted to JSON values
//! by the caller.
//!
//! # Names
//!
//! A field may be called by its name in the .proto file (`required_length_um`) or by its JSON name
//! (`requiredLengthUm`). A field whose name ends in a unit may also be called by its name with another unit
//! (`required_length_mm`), or without any (`required_length`).
//!
//! | quantity | names may end in | a number under the bare name |
//! |---|---|---|
//! | length | `_um` `_mm` `_cm` `_in` | refused: write `"34.9 mm"` |
//! | mass | `_g` `_kg` | refused: write `"250 g"` |
//! | mass of bike and rider | `_kg` | refused |
//! | torque | `_nm` | refused |
//! | pressure | `_kpa` `_bar` `_psi` | refused |
//! | speed | `_kmh` | refused |
//! | ratio | `_permille` | the ratio itself: `shift_ratio = 1.7` is 1700 permille |
//! | teeth, links, counts | nothing | the number itself |
//!
//! A unit may follow a number in text: `"34.9 mm"`, `"11 teeth"`, `"3/32 in"`. It must not contradict the name.
//! Numbers are read exactly, without floats, and must come to a whole number of the declared unit; only inches and
//! pounds per square inch are rounded to the nearest.
//!
//! # Values of attributes
//!
//! | knowledge | number | word or key | yes or no |
//! |---|---|---|---|
//! | this one | `34.9` | `"hooked"` | `true`, `"yes"` |
//! | one of these | `"11\|12"`, `[11, 12]` | `"deep\|normal"`, `["deep", "normal"]` | |
//! | between | `"31.5..32.8"`, `"31.5..32.8 mm"` | | |
//! | there is none | `"none"`, `"absent"` | the same | |
//! | not known | `"unknown"`, `""`, null, or no field | the same | the same |
//! | inferred: a hint, never judged | `"34.9?"`, `"11\|12?"` | `"deep?"` | `"yes?"` |
//!
//! The form of the wire is taken as well, under the declared name and with numbers in the declared unit:
//! `{"between": {"low": 31500, "high": 32800}, "origin": "measured"}`; its members are `exact`, `oneOf`, `between`,
//! `absent` and `origin` (`stated`, `measured`, `inferred`).
//!
//! Keys are lower case with dashes; capitals are lowered. Keys of the interface registry are checked by the server.
//!
//! Lists are `[11, 13, 15]`, `"11-13-15"`, `"11,13,15"`, `"11 13 15"` or `"50/34"`, in the declared order (cogs
//! smallest first, rings largest first). `cogs = "11-34"` is refused, since it names only the ends.
//!
//! # Shorter forms
//!
//! * A fitted part takes a kind as its field: `cassette = {...}` is `described = { cassette = {...} }`; `id` is
//!   `item_id`. It takes only one of `sku`, `gtin`, `maker_part`, `described` and a kind.
//! * A catalogue row takes the fields of its part directly, beside `price` and `stock`.
//! * `price = "39.90 EUR"` is `{ currency_code = "EUR", minor_units = 3990 }`.
//! * `wheel_size = "37-622"` and `wheel_size = { tyre = "37-622" }` are
//!   `wheel_size = { tyre_designation = "37-622" }`.
//! * Words of an enum may be short: `position = "rear"` is `POSITION_REAR`.
//! * Words of the trade that mean several things (`"11-speed hub"`, `"26 inch"`) are refused with what they may mean.
//! * A GTIN is text, with or without spaces and dashes; its check digit must match, and it is kept with 14 digits.
//!
//! # CSV
//!
//! Columns are `sku`, `gtin` (several with blanks between), `brand_id`, `maker_part_number`, `name`, `kind`, `price`,
//! `currency`, `stock`, and any name of any attribute; `sku` and `kind` must be there. Kinds share the columns; a cell
//! that its kind has no use for must be empty. A price needs its currency, and a maker's number its maker. Parts that open into other parts (a wheel with its hub) need NDJSON.
//!
//! # Bounds
//!
//! At most 200 faults, 24 levels, 1000 items in a list of messages, 64 numbers or keys in a value, 1000 characters in
//! a text.

mod ambiguous;
mod decimal;
mod dictionary;
mod fault;
mod gtin;
mod hints;
mod list;
mod money;
mod number;
mod reference;
mod rows;
mod scalar;
mod sugar;
mod translate;
mod units;
mod walk;
mod word;

use prost::{Message, Name};
use prost_reflect::DynamicMessage;
use serde_json::Value as Json;

pub use ambiguous::{ambiguous, folded_word};
pub use fault::{FAULTS_MAX, Fault, nearest};
pub use gtin::gtin14;
pub use money::{
    amount as money_amount, from_text as money_from_text, minor_digits, to_text as money_to_text,
};
pub use reference::{AttributeDoc, KindDoc, attributes, kind_docs};
pub use rows::{catalogued_part_from_row, check_header, columns};
pub use translate::translate;
pub use units::human;

use dictionary::{Form, shape};
use fault::{Faults, Wrong};

use crate::{POOL, v1};

/// Reads a build, as a build file holds it.
///
/// # Errors
///
/// All that is wrong, at most [`FAULTS_MAX`].
pub fn build_from_json(value: &Json) -> Result<v1::Build, Vec<Fault>> {
    message_from_json(value)
}

/// Reads a part.
///
/// # Errors
///
/// All that is wrong, at most [`FAULTS_MAX`].
pub fn part_from_json(value: &Json) -> Result<v1::Part, Vec<Fault>> {
    message_from_json(value)
}

/// Reads a part with price and stock, as a line of an import holds it.
///
/// # Errors
///
/// All that is wrong, at most [`FAULTS_MAX`].
pub fn catalogued_part_from_json(value: &Json) -> Result<v1::CataloguedPart, Vec<Fault>> {
    message_from_json(value)
}

/// Reads a statement, ruling, interface or alias, as a line of an import holds it: `{"statement": {...}}`. `None` where
/// the line is none, so it should be a part.
///
/// # Errors
///
/// All that is wrong, at most [`FAULTS_MAX`].
pub fn record_from_json(value: &Json) -> Option<Result<v1::Record, Vec<Fault>>> {
    const NAMES: [&str; 4] = ["statement", "ruling", "interface", "alias"];
    let members = value.as_object()?;
    members.keys().any(|name| NAMES.contains(&name.as_str())).then(|| message_from_json(value))
}

/// Reads any message of the API, such as a request.
///
/// # Errors
///
/// All that is wrong, at most [`FAULTS_MAX`].
pub fn message_from_json<M: Message + Name + Default>(value: &Json) -> Result<M, Vec<Fault>> {
    let mut faults = Faults::default();
    let Some(shape) = shape(&M::full_name()) else {
        faults.add(Wrong::new(M::full_name(), "no such message is described"));
        return finished(None, faults);
    };
    let message = walk::message(shape, value, &mut faults, 0);
    finished(message.transcode_to().ok(), faults)
}

/// The message where nothing is wrong, otherwise all that is.
fn finished<M>(message: Option<M>, mut faults: Faults) -> Result<M, Vec<Fault>> {
    match message {
        Some(message) if faults.len() == 0 => Ok(message),
        None if faults.len() == 0 => {
            faults.add(Wrong::new(
                "a message that cannot be encoded",
                "this is a defect of the program: report it",
            ));
            Err(faults.into_list())
        }
        _ => Err(faults.into_list()),
    }
}

/// Values outside their usual range, in a part, a build or any message that holds parts: worth a second look, but
/// possible.
pub fn warnings<M: Message + Name>(message: &M) -> Vec<Fault> {
    let mut faults = Faults::default();
    let Some(descriptor) = POOL.get_message_by_name(&M::full_name()) else { return Vec::new() };
    let mut dynamic = DynamicMessage::new(descriptor);
    if dynamic.transcode_from(message).is_err() {
        return Vec::new();
    }
    walk::visit(&dynamic, &mut faults, &mut |attribute, value, faults| {
        let quantity = attribute.quantity();
        for number in numbers(attribute.form, value) {
            if !(attribute.usual.0..=attribute.usual.1).contains(&number) {
                let wanted = format!("usual is {}: look again", quantity.range(attribute.usual));
                faults.add(Wrong::new(quantity.human(number), wanted));
            }
        }
    });
    faults.into_list()
}

/// The numbers that remain possible.
fn numbers(form: Form, value: &DynamicMessage) -> Vec<i64> {
    use v1::integer_value::Set;
    match form {
        Form::Number => match value.transcode_to::<v1::IntegerValue>().unwrap_or_default().set {
            Some(Set::Exact(number)) => vec![number],
            Some(Set::OneOf(list)) => list.values,
            Some(Set::Between(range)) => vec![range.low, range.high],
            Some(Set::Absent(_)) | None => Vec::new(),
        },
        Form::List => value.transcode_to::<v1::ListValue>().unwrap_or_default().values,
        _ => Vec::new(),
    }
}
