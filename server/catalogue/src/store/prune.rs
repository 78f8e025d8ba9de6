//! Retention: older revisions go, the oldest that stays becomes a base, and rows that nothing names are removed.
//!
//! Each step may be cut short: it leaves the kept revisions as they were, and what is left over goes at the next opening
//! or the next pruning. The engine does not give the space back to the system; it uses it again.

use super::Store;
use super::engine::{Batch, KeyValueStore, Tree, scan_all};
use super::envelope;
use super::fold::{self, Fold};
use super::record::{Entry, Manifest, delta_key, revision_key};
use super::rows;
use super::unpublished;
use super::verify::prefix;
use crate::error::{ReadError, WriteError};

const BATCH: usize = 500;

/// What went.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Pruned {
    /// Revisions.
    pub revisions: u64,
    /// Rows that no kept revision names.
    pub rows: u64,
}

impl Store {
    /// Keeps the newest `keep` revisions, at least 1. It costs time in proportion to the catalogue, so do it now and then
    /// rather than after each publication.
    ///
    /// # Errors
    /// Another change is under way; damage; the engine.
    pub fn prune(&self, keep: usize) -> Result<Pruned, WriteError> {
        let _writer = self.writer()?;
        self.watch(prune(self.engine(), keep.max(1)))
    }
}

fn prune(store: &dyn KeyValueStore, keep: usize) -> Result<Pruned, WriteError> {
    let manifests = fold::manifests(store)?;
    let surplus = manifests.len().saturating_sub(keep);
    let (gone, kept) = manifests.split_at(surplus);
    let Some(oldest) = kept.first() else { return Ok(Pruned::default()) };
    if !gone.is_empty() {
        make_base(store, oldest, gone)?;
        unpublished::remove_before(store, oldest.revision)?;
    }
    Ok(Pruned { revisions: gone.len() as u64, rows: remove_unnamed_rows(store)? })
}

/// Writes out under a revision what it takes from those before it, then forgets them. Until the last step it reads the
/// same either way.
fn make_base(store: &dyn KeyValueStore, oldest: &Manifest, gone: &[Manifest]) -> Result<(), WriteError> {
    // Whatever is wrong must be found before it is cast into a base.
    fold::for_each_entry(store, oldest.revision, |_, _| Ok::<(), ReadError>(()))?;
    let mut batch = Batch::default();
    let mut fold = Fold::of(store, oldest.revision)?;
    while let Some(item) = fold.next_with_origin() {
        let (sku, entry, own) = item?;
        if own {
            continue;
        }
        let entry = Entry { fresh: false, ..entry };
        batch.put(Tree::Deltas, delta_key(oldest.revision, &sku), envelope::seal_message(&entry));
        if batch.len() >= BATCH {
            store.apply(std::mem::take(&mut batch))?;
            store.flush()?;
        }
    }
    store.apply(batch)?;
    store.flush()?;
    let mut batch = Batch::default();
    let base = Manifest { is_base: true, ..oldest.clone() };
    batch.put(Tree::Manifests, revision_key(oldest.revision), envelope::seal_message(&base));
    for manifest in gone {
        batch.remove(Tree::Manifests, revision_key(manifest.revision));
    }
    store.apply(batch)?;
    Ok(store.flush()?)
}

/// Removes rows that no entry names. Eight bytes of each named hash are held: an equal beginning keeps a row too many,
/// never one too few.
fn remove_unnamed_rows(store: &dyn KeyValueStore) -> Result<u64, WriteError> {
    let mut named = Vec::new();
    for pair in scan_all(store, Tree::Deltas) {
        let (key, value) = pair?;
        let entry: Entry = envelope::open_message(Tree::Deltas, &key, &value)?;
        named.extend(prefix(&entry.row));
    }
    named.sort_unstable();
    named.dedup();
    let mut removed = 0;
    let mut batch = Batch::default();
    for pair in scan_all(store, Tree::Rows) {
        let (key, _) = pair?;
        if rows::hash_of(&key)
            .and_then(|hash| prefix(hash))
            .is_some_and(|prefix| named.binary_search(&prefix).is_ok())
        {
            continue;
        }
        batch.remove(Tree::Rows, key);
        removed += 1;
        if batch.len() >= BATCH {
            store.apply(std::mem::take(&mut batch))?;
        }
    }
    store.apply(batch)?;
    store.flush()?;
    Ok(removed)
}
