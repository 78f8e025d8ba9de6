//! The shorter ways to write parts, fitted parts, wheel sizes and money.

use prost_reflect::{DynamicMessage, FieldDescriptor, Kind};
use serde_json::Value as Json;

use super::dictionary::{Shape, Written, kinds, shape};
use super::fault::{Faults, Wrong, listed, nearest, quoted};
use super::money;

/// Characters that the name of a part may have.
const NAME_MAX: usize = 200;
/// Pieces that a shelf may hold.
const STOCK_MAX: i64 = 1_000_000;

/// Where a member goes.
pub(crate) enum Target {
    /// Into a field of the message itself.
    Field(FieldDescriptor, Written),
    /// Into a field of a message within.
    Through { outer: FieldDescriptor, shape: &'static Shape, field: FieldDescriptor, written: Written },
}

/// What a name means within a message.
pub(crate) fn target(within: &'static Shape, name: &str) -> Option<Target> {
    if let Some((field, written)) = within.field(name) {
        return Some(Target::Field(field, written));
    }
    let alias = match (within.descriptor.name(), name) {
        ("FittedPart", "id") => "item_id",
        ("Part", "gtin") => "gtins",
        ("WheelSize", "tyre") => "tyre_designation",
        _ => "",
    };
    if let Some((field, written)) = within.field(alias) {
        return Some(Target::Field(field, written));
    }
    let (outer, inner) = inner(within)?;
    if outer.name() == "described" && !kind_spellings(inner).any(|kind| kind == name) {
        return None;
    }
    match target(inner, name)? {
        Target::Field(field, written) => Some(Target::Through { outer, shape: inner, field, written }),
        Target::Through { .. } => None,
    }
}

/// The part within a message whose members may be written directly.
fn inner(within: &Shape) -> Option<(FieldDescriptor, &'static Shape)> {
    let name = match within.descriptor.name() {
        "FittedPart" => "described",
        "CataloguedPart" => "part",
        _ => return None,
    };
    let field = within.descriptor.get_field_by_name(name)?;
    let Kind::Message(message) = field.kind() else { return None };
    let inner = shape(message.full_name())?;
    Some((field, inner))
}

/// Every spelling of the kinds of part.
fn kind_spellings(part: &Shape) -> impl Iterator<Item = &str> {
    part.spellings().filter(|name| {
        let oneof = part.field(name).and_then(|(field, _)| field.containing_oneof());
        oneof.is_some_and(|oneof| oneof.name() == "kind")
    })
}

/// Says that a message has no such field, with the nearest spelling or, failing that, those that it has.
pub(crate) fn unknown_name(within: &Shape, name: &str) -> Wrong {
    let inner = inner(within).map(|(_, inner)| inner);
    let inner_spellings: Vec<&str> = match (within.descriptor.name(), inner) {
        ("FittedPart", Some(part)) => kind_spellings(part).collect(),
        (_, Some(part)) => part.spellings().collect(),
        (_, None) => Vec::new(),
    };
    let mut known: Vec<&str> = within.spellings().chain(inner_spellings).collect();
    known.sort_unstable();
    let near = nearest(name, known);
    let what = what(within);
    let wanted = match &near {
        Some(_) => format!("{what} has no such field"),
        None => {
            let own = within.names.iter().map(String::as_str).filter(|name| *name != "described");
            let more = inner.into_iter().flat_map(|_| kinds().iter().map(|(name, _)| name.as_str()));
            format!("{what} has {}", listed(own.chain(more)))
        }
    };
    Wrong::new("unknown name", wanted).near_if(near)
}

/// What a message is, for a sentence.
fn what(within: &Shape) -> String {
    match (&within.kind, within.descriptor.name()) {
        (Some(kind), _) => format!("\"{}\"", kind.label),
        (None, "FittedPart") => "a fitted part".to_owned(),
        (None, "CataloguedPart") => "a catalogue row".to_owned(),
        (None, name) => name.to_owned(),
    }
}

/// What to write where an object is wanted.
pub(crate) fn wanted_object(within: &Shape) -> String {
    match within.descriptor.full_name() {
        "sprag.v1.Money" => money::WANTED.to_owned(),
        "sprag.v1.WheelSize" => "give a tyre marking as \"37-622\", or an object with roll_out_mm".to_owned(),
        _ => {
            let names = listed(within.names.iter().take(6).map(String::as_str));
            format!("give an object with fields such as {names}")
        }
    }
}

/// Messages that may be written as text.
pub(crate) fn short_form(within: &Shape, value: &Json) -> Option<Result<DynamicMessage, Wrong>> {
    let Json::String(text) = value else { return None };
    let mut message = DynamicMessage::new(within.descriptor.clone());
    match within.descriptor.full_name() {
        "sprag.v1.Money" => {
            Some(money::from_text(text).map_err(|wanted| Wrong::new(quoted(text), wanted)).map(|money| {
                message.set_field_by_name("currency_code", prost_reflect::Value::String(money.currency_code));
                message.set_field_by_name("minor_units", prost_reflect::Value::I64(money.minor_units));
                message
            }))
        }
        "sprag.v1.WheelSize" => {
            message
                .set_field_by_name("tyre_designation", prost_reflect::Value::String(text.trim().to_owned()));
            Some(Ok(message))
        }
        _ => None,
    }
}

/// Checks what a message must have.
pub(crate) fn finish(within: &Shape, message: &DynamicMessage, faults: &mut Faults) {
    let text = |name: &str| {
        message
            .get_field_by_name(name)
            .and_then(|value| value.as_str().map(str::to_owned))
            .unwrap_or_default()
    };
    let integer =
        |name: &str| message.get_field_by_name(name).and_then(|value| value.as_i64()).unwrap_or_default();
    match within.descriptor.full_name() {
        "sprag.v1.FittedPart" if !has_one_of(message, "part") => {
            faults.add(Wrong::new(
                "nothing says what it is",
                "give sku, gtin, maker_part, or a kind such as cassette = {}",
            ));
        }
        "sprag.v1.Part" => {
            if !has_one_of(message, "kind") {
                faults.add(Wrong::new("nothing says what it is", "give a kind, such as \"cassette\": {}"));
            }
            let length = text("name").chars().count();
            if length > NAME_MAX {
                let wrong = Wrong::new(format!("{length} characters"), format!("give at most {NAME_MAX}"));
                faults.inside("name", |faults| faults.add(wrong));
            }
        }
        "sprag.v1.CataloguedPart" => finish_row(message, integer("stock"), faults),
        "sprag.v1.Money" => {
            if let Err(wanted) = money::check(&text("currency_code"), integer("minor_units")) {
                faults.add(Wrong::new(quoted(&text("currency_code")), wanted));
            }
        }
        _ => {}
    }
}

fn finish_row(message: &DynamicMessage, stock: i64, faults: &mut Faults) {
    let part = message.get_field_by_name("part");
    let part = part.as_ref().and_then(|part| part.as_message());
    let sku = part.and_then(|part| Some(part.get_field_by_name("sku")?.as_str()?.to_owned()));
    if sku.unwrap_or_default().is_empty() {
        faults.inside("sku", |faults| {
            faults.add(Wrong::new("nothing", "give the stock number: a catalogue needs it"))
        });
    }
    if !part.is_some_and(|part| has_one_of(part, "kind")) {
        faults.add(Wrong::new("nothing says what it is", "give a kind, such as \"cassette\": {}"));
    }
    if !(0..=STOCK_MAX).contains(&stock) {
        let wrong = Wrong::new(format!("{stock} pieces"), format!("give 0 to {STOCK_MAX}"));
        faults.inside("stock", |faults| faults.add(wrong));
    }
}

fn has_one_of(message: &DynamicMessage, oneof: &str) -> bool {
    let descriptor = prost_reflect::ReflectMessage::descriptor(message);
    let found = descriptor.oneofs().find(|found| found.name() == oneof);
    found.is_some_and(|found| found.fields().any(|field| message.has_field(&field)))
}
