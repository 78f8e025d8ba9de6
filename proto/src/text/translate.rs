//! Replaces keys of the interface registry within a part.

use prost_reflect::{DynamicMessage, ReflectMessage, Value};

use super::dictionary::{Form, kinds, shape};
use crate::{POOL, v1};

/// Replaces interface keys of a part, children included: the callback is given the kind as the field name of Part, the
/// attribute without its unit, and the word, and gives the key to put in its place.
///
/// `false` where the part could not be walked; it is then as it was.
pub fn translate(part: &mut v1::Part, replace: &mut impl FnMut(&str, &str, &str) -> Option<String>) -> bool {
    let Some(descriptor) = POOL.get_message_by_name("sprag.v1.Part") else { return false };
    let mut dynamic = DynamicMessage::new(descriptor);
    if dynamic.transcode_from(part).is_err() {
        return false;
    }
    walk(&mut dynamic, replace);
    match dynamic.transcode_to() {
        Ok(translated) => {
            *part = translated;
            true
        }
        Err(_) => false,
    }
}

fn walk(message: &mut DynamicMessage, replace: &mut impl FnMut(&str, &str, &str) -> Option<String>) {
    let descriptor = message.descriptor();
    let Some(shape) = shape(descriptor.full_name()) else { return };
    let kind = kinds().iter().find(|(_, known)| known.descriptor == descriptor).map_or("", |(name, _)| name);
    let fields: Vec<_> = message.fields().map(|(field, _)| field).collect();
    for field in fields {
        let attribute = shape.attribute(&field);
        match (attribute, message.get_field_mut(&field)) {
            (Some(attribute), Value::Message(value)) if attribute.form == Form::Interface => {
                let mut one = |word: &str| replace(kind, &attribute.base, word);
                key(value, &mut one);
            }
            (None, Value::Message(child)) => walk(child, replace),
            (None, Value::List(children)) => {
                for child in children.iter_mut() {
                    if let Value::Message(child) = child {
                        walk(child, replace);
                    }
                }
            }
            _ => {}
        }
    }
}

fn key(value: &mut DynamicMessage, replace: &mut impl FnMut(&str) -> Option<String>) {
    use v1::key_value::Set;
    let Ok(mut read) = value.transcode_to::<v1::KeyValue>() else { return };
    match &mut read.set {
        Some(Set::Exact(word)) => {
            if let Some(key) = replace(word) {
                *word = key;
            }
        }
        Some(Set::OneOf(list)) => {
            for word in &mut list.values {
                if let Some(key) = replace(word) {
                    *word = key;
                }
            }
        }
        Some(Set::Absent(_)) | None => {}
    }
    // The same message goes back to where it came from, so this cannot fail.
    let _ = value.transcode_from(&read);
}
