//! Walks a JSON value along the descriptors and fills the message.

use prost_reflect::{DynamicMessage, FieldDescriptor, Kind, ReflectMessage, Value};
use serde_json::Value as Json;

use super::ambiguous::ambiguous;
use super::dictionary::{Attribute, Form, Shape, Written, shape};
use super::fault::{Faults, Wrong, quoted};
use super::number::Reader;
use super::scalar::{self, describe};
use super::sugar::{self, Target};
use super::{list, word};

/// Items that a repeated field may have.
const ITEMS_MAX: usize = 1000;
/// Messages within messages.
const DEPTH_MAX: usize = 24;

/// Reads a whole message; what could not be read is in `faults`.
pub(crate) fn message(
    shape: &'static Shape,
    value: &Json,
    faults: &mut Faults,
    depth: usize,
) -> DynamicMessage {
    let before = faults.len();
    let mut filling =
        Filling { shape, message: DynamicMessage::new(shape.descriptor.clone()), claims: Vec::new() };
    if depth >= DEPTH_MAX {
        faults.add(Wrong::new("too many levels", format!("nest at most {DEPTH_MAX} levels")));
        return filling.message;
    }
    match value {
        Json::Object(members) => {
            for (name, value) in members {
                if faults.full() {
                    break;
                }
                faults.inside(name, |faults| filling.member(name, value, faults, depth));
            }
        }
        other => match sugar::short_form(shape, other) {
            Some(result) => {
                if let Some(message) = faults.keep(result) {
                    filling.message = message;
                }
            }
            None => faults.add(Wrong::new(describe(other), sugar::wanted_object(shape))),
        },
    }
    if faults.len() == before {
        sugar::finish(shape, &filling.message, faults);
    }
    filling.message
}

/// A place in a message that only one member may fill.
struct Claim {
    slot: String,
    by: String,
    /// The field through which several members may write: a part within a catalogued part.
    through: Option<u32>,
}

struct Filling {
    shape: &'static Shape,
    message: DynamicMessage,
    claims: Vec<Claim>,
}

impl Filling {
    fn member(&mut self, name: &str, value: &Json, faults: &mut Faults, depth: usize) {
        let Some(target) = sugar::target(self.shape, name) else {
            return faults.add(sugar::unknown_name(self.shape, name));
        };
        if value.is_null() {
            return;
        }
        match target {
            Target::Field(field, written) => {
                if faults.keep(self.claim(&field, name, None)).is_some() {
                    set(&mut self.message, self.shape, &field, written, value, faults, depth);
                }
            }
            Target::Through { outer, shape, field, written } => {
                let claimed = self
                    .claim(&outer, name, Some(outer.number()))
                    .and_then(|()| self.claim(&field, name, None));
                if faults.keep(claimed).is_none() {
                    return;
                }
                if let Some(inner) = self.message.get_field_mut(&outer).as_message_mut() {
                    set(inner, shape, &field, written, value, faults, depth + 1);
                }
            }
        }
    }

    fn claim(&mut self, field: &FieldDescriptor, name: &str, through: Option<u32>) -> Result<(), Wrong> {
        let slot = match field.containing_oneof() {
            Some(oneof) => oneof.full_name().to_owned(),
            None => field.full_name().to_owned(),
        };
        match self.claims.iter().find(|claim| claim.slot == slot) {
            Some(other) if through.is_none() || other.through != through => {
                Err(Wrong::new(format!("given together with \"{}\"", other.by), "give only one of them"))
            }
            Some(_) => Ok(()),
            None => {
                self.claims.push(Claim { slot, by: super::fault::shown(name), through });
                Ok(())
            }
        }
    }
}

/// Sets one field from a JSON value.
pub(crate) fn set(
    message: &mut DynamicMessage,
    shape: &'static Shape,
    field: &FieldDescriptor,
    written: Written,
    value: &Json,
    faults: &mut Faults,
    depth: usize,
) {
    if let Some(attribute) = shape.attribute(field) {
        if let Some(Some(read)) = faults.keep(read_attribute(attribute, field, written, value)) {
            message.set_field(field, Value::Message(read));
        }
        return;
    }
    if field.is_map() {
        return faults.add(Wrong::new(describe(value), "this field cannot be written as text"));
    }
    if !field.is_list() {
        if let Some(read) = single(field, written, value, faults, depth) {
            message.set_field(field, read);
        }
        return;
    }
    let one = [value.clone()];
    let items = match value {
        Json::Array(items) => items.as_slice(),
        // One GTIN is the ordinary case.
        Json::String(_) if field.name() == "gtins" => one.as_slice(),
        other => return faults.add(Wrong::new(describe(other), "give a list")),
    };
    if items.len() > ITEMS_MAX {
        return faults
            .add(Wrong::new(format!("a list of {}", items.len()), format!("give at most {ITEMS_MAX}")));
    }
    let mut read = Vec::new();
    for (index, item) in items.iter().enumerate() {
        read.extend(faults.item(index, |faults| single(field, written, item, faults, depth)));
    }
    message.set_field(field, Value::List(read));
}

fn single(
    field: &FieldDescriptor,
    written: Written,
    value: &Json,
    faults: &mut Faults,
    depth: usize,
) -> Option<Value> {
    let Kind::Message(descriptor) = field.kind() else {
        return faults.keep(scalar::read(field, written, value));
    };
    match shape(descriptor.full_name()) {
        Some(shape) => Some(Value::Message(message(shape, value, faults, depth + 1))),
        None => faults.keep(Err(Wrong::new(describe(value), "this field cannot be written as text"))),
    }
}

/// Reads the value of an attribute; `None` = not set.
pub(crate) fn read_attribute(
    attribute: &Attribute,
    field: &FieldDescriptor,
    written: Written,
    value: &Json,
) -> Result<Option<DynamicMessage>, Wrong> {
    // The registry, whose own keys come first, is the server's: it refuses such words for interfaces.
    if let (Json::String(text), true) = (value, attribute.form != Form::Interface)
        && let Some(candidates) = ambiguous(&attribute.base, text)
    {
        let wanted = format!("this word means several things; write one of {}", candidates.join(", "));
        return Err(Wrong::new(quoted(text), wanted));
    }
    let reader = Reader::of(attribute, written);
    match attribute.form {
        Form::Number => as_dynamic(field, reader.value(value)?),
        Form::List => as_dynamic(field, list::read(reader, value)?),
        Form::Flag => as_dynamic(field, word::flag(value)?),
        Form::Word | Form::Interface | Form::FreeKey => as_dynamic(field, word::key(attribute, value)?),
    }
}

fn as_dynamic<M: prost::Message>(
    field: &FieldDescriptor,
    value: Option<M>,
) -> Result<Option<DynamicMessage>, Wrong> {
    let (Some(value), Kind::Message(descriptor)) = (value, field.kind()) else { return Ok(None) };
    let mut message = DynamicMessage::new(descriptor);
    let moved = message.transcode_from(&value);
    moved.map_err(|error| Wrong::new(format!("a value of {}", field.full_name()), error.to_string()))?;
    Ok(Some(message))
}

/// Calls `visit` for every attribute that is set, children included, with its path.
pub(crate) fn visit(
    message: &DynamicMessage,
    faults: &mut Faults,
    see: &mut impl FnMut(&Attribute, &DynamicMessage, &mut Faults),
) {
    let Some(shape) = shape(message.descriptor().full_name()) else { return };
    for (field, value) in message.fields() {
        faults.inside(field.name(), |faults| match (shape.attribute(&field), value) {
            (Some(attribute), Value::Message(value)) => see(attribute, value, faults),
            (None, Value::Message(child)) => visit(child, faults, see),
            (None, Value::List(children)) => {
                for (index, child) in children.iter().enumerate() {
                    if let Value::Message(child) = child {
                        faults.item(index, |faults| visit(child, faults, see));
                    }
                }
            }
            _ => {}
        });
    }
}
