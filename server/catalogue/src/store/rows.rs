//! The rows: each distinct content of a part, stored once whatever revisions name it.
//!
//! A row's key is the stock number, a zero byte and the SHA-256 of the encoded part. With the stock number in front, rows lie
//! in the order in which revisions are read: a whole revision is one walk through them instead of a search for each part.

use std::iter::Peekable;

use sprag_proto::v1 as pb;

use super::digest::{hex, sha256};
use super::engine::{KeyValueStore, Scan, Tree, scan_all};
use super::envelope;
use super::record;
use crate::error::{Corrupt, ReadError};

const HASH_BYTES: usize = 32;

/// Key of a row; a stock number holds no control characters, so the zero byte ends it.
pub(crate) fn key(sku: &str, hash: &[u8]) -> Vec<u8> {
    [sku.as_bytes(), &[0], hash].concat()
}

/// The content hash in a row's key.
pub(crate) fn hash_of(key: &[u8]) -> Option<&[u8; HASH_BYTES]> {
    key.last_chunk()
}

/// Checks a stored row against its key and decodes it.
pub(crate) fn open(key: &[u8], sealed: &[u8]) -> Result<pb::Part, ReadError> {
    let payload = envelope::open(Tree::Rows, key, sealed)?;
    let found = sha256(payload);
    if hash_of(key) != Some(&found) {
        let why = format!("wanted the content hash of its key, found {}", hex(&found));
        return Err(Corrupt::new(Tree::Rows.name(), key, why).into());
    }
    let part: pb::Part = record::decode(Tree::Rows, key, payload)?;
    if self::key(&part.sku, &found) != key {
        let why = format!("wanted the stock number of its key, found {:?}", part.sku);
        return Err(Corrupt::new(Tree::Rows.name(), key, why).into());
    }
    Ok(part)
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
            .ok_or_else(|| ReadError::Missing { what: format!("the row of part {sku} at {}", hex(hash)) })
    }
}
