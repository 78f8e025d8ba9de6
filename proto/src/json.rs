//! Messages as canonical protobuf JSON.

use prost::{Message, Name};
use prost_reflect::DynamicMessage;

use crate::POOL;
use crate::text::Fault;

/// A message as canonical protobuf JSON: lowerCamelCase names, full names of enum values, 64-bit integers as text,
/// fields with their default left out.
///
/// # Errors
///
/// Where the message holds a detail (`google.protobuf.Any`) whose type the descriptors do not know.
pub fn to_json<M: Message + Name>(message: &M, pretty: bool) -> Result<String, Fault> {
    let fault = |found: String| Fault {
        path: M::full_name(),
        found,
        wanted: "every message within must be described in the descriptor set".to_owned(),
        nearest: None,
    };
    let descriptor =
        POOL.get_message_by_name(&M::full_name()).ok_or_else(|| fault("no descriptor".to_owned()))?;
    let mut dynamic = DynamicMessage::new(descriptor);
    dynamic.transcode_from(message).map_err(|error| fault(error.to_string()))?;
    let json = if pretty { serde_json::to_string_pretty(&dynamic) } else { serde_json::to_string(&dynamic) };
    json.map_err(|error| fault(error.to_string()))
}
