//! Private stored records. Tags are for ever: add fields, never reuse one.

use prost::Message;

use super::engine::{KeyValueStore, Tree};
use super::envelope;
use crate::error::{Corrupt, ReadError};

/// What the manifests of this version say.
pub(crate) const SCHEMA_VERSION: u32 = 1;
/// Longest stock number, bytes.
pub(crate) const MAX_SKU_BYTES: usize = 200;
/// Key of [`Head`].
pub(crate) const HEAD: &[u8] = b"head";
/// Key of [`ShelfTotals`].
pub(crate) const SHELF: &[u8] = b"shelf";

/// Which revision is published.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Head {
    #[prost(uint64, tag = "1")]
    pub revision: u64,
    /// Numbers up to this one were given out, perhaps before a restore: they are never used again.
    #[prost(uint64, tag = "2")]
    pub floor: u64,
}

/// What a revision must hold.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Manifest {
    #[prost(uint32, tag = "1")]
    pub schema_version: u32,
    #[prost(uint64, tag = "2")]
    pub revision: u64,
    #[prost(uint64, tag = "3")]
    pub parent: u64,
    /// Its entries in the deltas are the whole content, so older revisions need not be read.
    #[prost(bool, tag = "4")]
    pub is_base: bool,
    #[prost(uint64, tag = "5")]
    pub part_count: u64,
    #[prost(bytes = "vec", tag = "6")]
    pub digest: Vec<u8>,
    #[prost(string, tag = "7")]
    pub author: String,
    #[prost(string, tag = "8")]
    pub note: String,
    #[prost(int64, tag = "9")]
    pub created_unix: i64,
    #[prost(uint64, tag = "10")]
    pub added: u64,
    #[prost(uint64, tag = "11")]
    pub changed: u64,
    #[prost(uint64, tag = "12")]
    pub removed: u64,
    /// Statements, rulings, interfaces and aliases.
    #[prost(uint64, tag = "13")]
    pub record_count: u64,
}

/// What a revision says of one part or record.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Entry {
    /// SHA-256 of the encoded part or record, which with its key is the key of its row; empty when removed.
    #[prost(bytes = "vec", tag = "1")]
    pub row: Vec<u8>,
    #[prost(fixed64, repeated, tag = "2")]
    pub gtins: Vec<u64>,
    /// The row was written by this revision's draft, so abandoning the draft may remove it.
    #[prost(bool, tag = "3")]
    pub fresh: bool,
    #[prost(bool, tag = "4")]
    pub removed: bool,
}

/// What the shelf must hold.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct ShelfTotals {
    #[prost(uint64, tag = "1")]
    pub sequence: u64,
    #[prost(uint64, tag = "2")]
    pub count: u64,
    #[prost(bytes = "vec", tag = "3")]
    pub digest: Vec<u8>,
}

/// Price and stock of one part.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct ShelfRow {
    /// ISO 4217; empty = no price.
    #[prost(string, tag = "1")]
    pub currency: String,
    #[prost(int64, tag = "2")]
    pub minor_units: i64,
    #[prost(uint64, optional, tag = "3")]
    pub stock: Option<u64>,
}

/// The outcome of a request that published.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct RequestRow {
    #[prost(bytes = "vec", tag = "1")]
    pub content: Vec<u8>,
    #[prost(uint64, tag = "2")]
    pub revision: u64,
    #[prost(bytes = "vec", tag = "3")]
    pub digest: Vec<u8>,
    #[prost(uint64, tag = "4")]
    pub part_count: u64,
    #[prost(uint64, tag = "5")]
    pub added: u64,
    #[prost(uint64, tag = "6")]
    pub changed: u64,
    #[prost(uint64, tag = "7")]
    pub removed: u64,
    #[prost(uint64, tag = "8")]
    pub record_count: u64,
    #[prost(uint64, tag = "9")]
    pub records_added: u64,
    #[prost(uint64, tag = "10")]
    pub records_changed: u64,
    #[prost(uint64, tag = "11")]
    pub records_removed: u64,
}

/// What was acknowledged to callers, kept beside the engine.
#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Acknowledged {
    #[prost(uint64, tag = "1")]
    pub revision: u64,
    #[prost(bytes = "vec", tag = "2")]
    pub digest: Vec<u8>,
    #[prost(uint64, tag = "3")]
    pub shelf_sequence: u64,
    /// Counts the writes of this record; the newer of two slots wins.
    #[prost(uint64, tag = "4")]
    pub generation: u64,
}

/// Key of everything a revision says.
pub(crate) fn revision_key(revision: u64) -> [u8; 8] {
    revision.to_be_bytes()
}

/// Key of what a revision says of one part or record.
pub(crate) fn delta_key(revision: u64, sku: &str) -> Vec<u8> {
    [&revision_key(revision), sku.as_bytes()].concat()
}

/// Reads a record; `None` where the key is not there.
pub(crate) fn read<M: Message + Default>(
    store: &dyn KeyValueStore,
    tree: Tree,
    key: &[u8],
) -> Result<Option<M>, ReadError> {
    match store.get(tree, key)? {
        None => Ok(None),
        Some(sealed) => Ok(Some(envelope::open_message(tree, key, &sealed)?)),
    }
}

/// Reads a record that must be there.
pub(crate) fn read_required<M: Message + Default>(
    store: &dyn KeyValueStore,
    tree: Tree,
    key: &[u8],
) -> Result<M, ReadError> {
    read(store, tree, key)?.ok_or_else(|| ReadError::Missing {
        what: format!("a record in {} at {}", tree.name(), key.escape_ascii()),
    })
}

/// Decodes a payload that was already checked.
pub(crate) fn decode<M: Message + Default>(tree: Tree, key: &[u8], payload: &[u8]) -> Result<M, Corrupt> {
    M::decode(payload).map_err(|error| Corrupt::new(tree.name(), key, format!("wanted a message: {error}")))
}
