//! Removing what a draft left behind that was never published.

use std::ops::Bound;

use super::engine::{Batch, KeyValueStore, Tree};
use super::envelope;
use super::fold;
use super::record::{Entry, revision_key};
use super::rows;
use crate::error::{ReadError, WriteError};

/// Removals in one batch.
const BATCH: usize = 500;

/// Removes entries of revisions after the head, and the rows that they brought; returns how many entries.
pub(crate) fn remove(store: &dyn KeyValueStore, head: u64) -> Result<u64, WriteError> {
    remove_entries(store, Bound::Included(revision_key(head + 1).to_vec()), Bound::Unbounded, true)
}

/// Removes entries of revisions before the oldest that is kept; returns how many. Their rows are not touched.
pub(crate) fn remove_before(store: &dyn KeyValueStore, oldest: u64) -> Result<u64, WriteError> {
    remove_entries(store, Bound::Unbounded, Bound::Excluded(revision_key(oldest).to_vec()), false)
}

fn remove_entries(
    store: &dyn KeyValueStore,
    from: Bound<Vec<u8>>,
    to: Bound<Vec<u8>>,
    with_rows: bool,
) -> Result<u64, WriteError> {
    let mut removed = 0;
    let mut batch = Batch::default();
    for pair in store.scan(Tree::Deltas, from, to) {
        let (key, value) = pair.map_err(ReadError::from)?;
        let entry: Entry = envelope::open_message(Tree::Deltas, &key, &value)?;
        // A row that this draft brought is named by nothing else: its content names the part, and one draft runs at a time.
        if with_rows && entry.fresh && !entry.removed {
            let (_, sku) = fold::split_delta_key(&key).map_err(ReadError::from)?;
            batch.remove(Tree::Rows, rows::key(&sku, &entry.row));
        }
        batch.remove(Tree::Deltas, key);
        removed += 1;
        if batch.len() >= BATCH {
            store.apply(std::mem::take(&mut batch))?;
        }
    }
    if removed > 0 {
        store.apply(batch)?;
        store.flush()?;
    }
    Ok(removed)
}
