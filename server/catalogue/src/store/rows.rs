//! The rows: each distinct content of a part or record, stored once whatever revisions name it.
//!
//! A row's key is the stock number, or the key of a record, a zero byte and the SHA-256 of the encoded message. With the stock number in front, rows lie
//! in the order in which revisions are read: a whole revision is one walk through them instead of a search for each part.

use std::iter::Peekable;

use sprag_proto::v1 as pb;

use super::digest::{hex, sha256};
use super::engine::{KeyValueStore, Scan, Tree, scan_all};
use super::envelope;
use super::record;
use crate::error::{Corrupt, ReadError};
use crate::records;

const HASH_BYTES: usize = 32;

/// What a row holds.
// Rows are handed over one by one and taken apart at once: a box for each part of a large catalogue would cost more.
#[allow(clippy::large_enum_variant)]
#[derive(Debug, Clone, PartialEq)]
pub enum Row {
    /// A part.
    Part(pb::Part),
    /// A statement, ruling, interface or alias.
    Record(pb::Record),
}

impl Row {
    /// Its key in a revision: the stock number, or the key of the record.
    pub fn key(&self) -> String {
        match self {
            Self::Part(part) => part.sku.clone(),
            Self::Record(record) => {
                records::name_of(record).map(|name| records::write_key(&name)).unwrap_or_default()
            }
        }
    }

    /// Decodes what stands under a key.
    fn decode(key: &[u8], payload: &[u8]) -> Result<Self, Corrupt> {
        let is_record = key
            .split(|byte| *byte == 0)
            .next()
            .is_some_and(|name| str::from_utf8(name).is_ok_and(|name| records::read_key(name).is_some()));
        if is_record {
            return record::decode(Tree::Rows, key, payload).map(Self::Record);
        }
        record::decode(Tree::Rows, key, payload).map(Self::Part)
    }
}

/// Key of a row; a stock number holds no control characters, so the zero byte ends it.
pub(crate) fn key(sku: &str, hash: &[u8]) -> Vec<u8> {
    [sku.as_bytes(), &[0], hash].concat()
}

/// The content hash in a row's key.
pub(crate) fn hash_of(key: &[u8]) -> Option<&[u8; HASH_BYTES]> {
    key.last_chunk()
}

/// Checks a stored row against its key and decodes it.
pub(crate) fn open(key: &[u8], sealed: &[u8]) -> Result<Row, ReadError> {
    let payload = envelope::open(Tree::Rows, key, sealed)?;
    let found = sha256(payload);
    if hash_of(key) != Some(&found) {
        let why = format!("wanted the content hash of its key, found {}", hex(&found));
        return Err(Corrupt::new(Tree::Rows.name(), key, why).into());
    }
    let row = Row::decode(key, payload)?;
    if self::key(&row.key(), &found) != key {
        let why = format!("wanted what its key names, found {:?}", row.key());
        return Err(Corrupt::new(Tree::Rows.name(), key, why).into());
    }
    Ok(row)
}

/// Walks the rows in step with a revision's entries.
pub(crate) struct Walk<'a>(Peekable<Scan<'a>>);

impl<'a> Walk<'a> {
    pub fn of(store: &'a dyn KeyValueStore) -> Self {
        Self(scan_all(store, Tree::Rows).peekable())
    }

    /// The stored row of the next entry; they must be asked for in order of stock number.
    pub fn next(&mut self, sku: &str, hash: &[u8]) -> Result<(Vec<u8>, Vec<u8>), ReadError> {
        let wanted = key(sku, hash);
        while self.0.next_if(|pair| pair.as_ref().is_ok_and(|(key, _)| *key < wanted)).is_some() {}
        let found = self.0.next_if(|pair| !pair.as_ref().is_ok_and(|(key, _)| *key != wanted));
        found
            .transpose()?
            .ok_or_else(|| ReadError::Missing { what: format!("the row of {sku:?} at {}", hex(hash)) })
    }
}
