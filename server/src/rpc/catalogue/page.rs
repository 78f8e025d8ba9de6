//! Page tokens: opaque, and good only for the list and the revision that gave them.

use tonic::Status;

use super::invalid;

/// An opaque token: the last SKU, bound to revision and filter, in hexadecimal.
pub(super) fn write_page_token(sku: &str, filter: &str) -> String {
    format!("{filter}\n{sku}").bytes().map(|byte| format!("{byte:02x}")).collect()
}

pub(super) fn read_page_token(token: &str, filter: &str) -> Result<Option<String>, Status> {
    if token.is_empty() {
        return Ok(None);
    }
    let wrong = || {
        invalid("page_token", "another token", "the token of a previous page of the same list and revision")
    };
    let bytes: Option<Vec<u8>> = (0..token.len())
        .step_by(2)
        .map(|place| u8::from_str_radix(token.get(place..place + 2)?, 16).ok())
        .collect();
    let text = bytes.and_then(|bytes| String::from_utf8(bytes).ok()).ok_or_else(wrong)?;
    let (found, sku) = text.split_once('\n').ok_or_else(wrong)?;
    if found == filter { Ok(Some(sku.to_owned())) } else { Err(wrong()) }
}
