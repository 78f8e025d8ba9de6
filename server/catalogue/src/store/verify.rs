//! Reading everything back. Nothing here trusts the engine: it has been seen to open damaged files with fewer rows.

use super::digest::hex;
use super::engine::{EngineError, KeyValueStore, Tree, scan_all};
use super::record::{self, Acknowledged, SHELF, ShelfTotals};
use super::{fold, requests, rows, shelf};
use crate::error::ReadError;

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Summary {
    /// The published revision.
    pub revision: u64,
    /// Parts in it.
    pub part_count: u64,
    /// Digest of its content, hexadecimal.
    pub digest: String,
    /// The shelf's sequence number.
    pub shelf_sequence: u64,
    /// Entries on the shelf.
    pub shelf_entries: u64,
    /// What does not match in older revisions; the published state does not depend on it.
    pub history_faults: Vec<String>,
}

/// Verifies the published state; faults of older revisions are listed.
pub(crate) fn verify(
    store: &dyn KeyValueStore,
    acknowledged: Option<&Acknowledged>,
) -> Result<Summary, ReadError> {
    check_acknowledged(store, acknowledged)?;
    let head = fold::head(store)?.revision;
    let rows = whole_rows(store)?;
    let mut history_faults = Vec::new();
    for manifest in fold::manifests(store)? {
        if manifest.revision != head
            && let Err(error) = check_revision(store, manifest.revision, &rows)
        {
            if let ReadError::Engine(_) = error {
                return Err(error);
            }
            history_faults.push(format!("revision {}: {error}", manifest.revision));
        }
    }
    let manifest = check_revision(store, head, &rows)?;
    let shelf = shelf::read_shelf(store)?;
    requests::all(store)?;
    Ok(Summary {
        revision: head,
        part_count: manifest.part_count,
        digest: hex(&manifest.digest),
        shelf_sequence: shelf.sequence,
        shelf_entries: shelf.entries.len() as u64,
        history_faults,
    })
}

/// The published state must not be older than what callers were told.
pub(crate) fn check_acknowledged(
    store: &dyn KeyValueStore,
    acknowledged: Option<&Acknowledged>,
) -> Result<(), ReadError> {
    let head = fold::head(store)?.revision;
    let manifest = fold::manifest(store, head)?;
    let totals: ShelfTotals = record::read_required(store, Tree::Meta, SHELF)?;
    let Some(acknowledged) = acknowledged else { return Ok(()) };
    let at_least = |what: &str, wanted: u64, found: u64| {
        if found >= wanted {
            return Ok(());
        }
        let (wanted, found) = (format!("{wanted} or later, as acknowledged"), found.to_string());
        Err(ReadError::Mismatch { what: what.into(), wanted, found })
    };
    at_least("published revision", acknowledged.revision, head)?;
    at_least("shelf sequence", acknowledged.shelf_sequence, totals.sequence)?;
    if head == acknowledged.revision {
        fold::check("acknowledged digest", &hex(&acknowledged.digest), &hex(&manifest.digest))?;
    }
    Ok(())
}

/// Beginnings of the content hashes of all rows that are whole, in order: 8 bytes a row.
fn whole_rows(store: &dyn KeyValueStore) -> Result<Vec<u64>, EngineError> {
    let mut whole = Vec::new();
    for pair in scan_all(store, Tree::Rows) {
        let (key, sealed) = pair?;
        if rows::open(&key, &sealed).is_ok() {
            whole.extend(rows::hash_of(&key).and_then(|hash| prefix(hash)));
        }
    }
    whole.sort_unstable();
    Ok(whole)
}

fn check_revision(
    store: &dyn KeyValueStore,
    revision: u64,
    rows: &[u64],
) -> Result<record::Manifest, ReadError> {
    fold::for_each_entry(store, revision, |sku, entry| {
        if prefix(&entry.row).is_some_and(|prefix| rows.binary_search(&prefix).is_ok()) {
            return Ok(());
        }
        Err(ReadError::Missing { what: format!("a whole row of part {sku} in revision {revision}") })
    })
}

/// The first 8 bytes of a content hash; `None` for the empty one of a removed part.
pub(crate) fn prefix(row: &[u8]) -> Option<u64> {
    row.first_chunk::<8>().map(|bytes| u64::from_be_bytes(*bytes))
}
