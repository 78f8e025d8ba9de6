//! What a draft changes, found by walking its entries beside its parent's.

use super::digest::SetDigest;
use super::engine::KeyValueStore;
use super::fold::{self, Fold, Layer};
use super::record::Entry;
use crate::error::{ReadError, WriteError};
use crate::records;

/// What a draft holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// The whole catalogue: parts that are not put go.
    Full,
    /// Changes to the catalogue: parts that are not put stay.
    Delta,
}

/// What publishing would change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changes {
    /// Parts that are new.
    pub added: u64,
    /// Parts whose content differs.
    pub changed: u64,
    /// Parts that go.
    pub removed: u64,
    /// Parts afterwards.
    pub part_count: u64,
    /// Digest of the content afterwards; equal content has an equal digest, whatever its revision.
    pub digest: [u8; 32],
    /// What it does to statements, rulings, interfaces and aliases.
    pub records: RecordChanges,
}

/// What publishing would change of statements, rulings, interfaces and aliases.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RecordChanges {
    /// Those that are new.
    pub added: u64,
    /// Those whose content differs.
    pub changed: u64,
    /// Those that go.
    pub removed: u64,
    /// Those that are there afterwards.
    pub count: u64,
}

impl RecordChanges {
    fn see(&mut self, before: Option<&Entry>, after: Option<&Entry>) {
        count(before, after, [&mut self.added, &mut self.changed, &mut self.removed, &mut self.count]);
    }
}

/// Counts one entry as added, changed or removed, and as there afterwards.
fn count(before: Option<&Entry>, after: Option<&Entry>, [added, changed, removed, all]: [&mut u64; 4]) {
    match (before, after) {
        (None, Some(_)) => *added += 1,
        (Some(_), None) => *removed += 1,
        (Some(one), Some(other)) if one.row != other.row => *changed += 1,
        _ => {}
    }
    *all += u64::from(after.is_some());
}

/// Compares a draft with its parent; refuses a GTIN on two parts.
pub(crate) fn between(
    store: &dyn KeyValueStore,
    parent: u64,
    draft: u64,
    mode: Mode,
) -> Result<Changes, WriteError> {
    let records = RecordChanges::default();
    let mut changes = Changes { added: 0, changed: 0, removed: 0, part_count: 0, digest: [0; 32], records };
    let mut digest = SetDigest::default();
    // All GTINs as numbers: 8 bytes a part, and names are looked up only when two are equal.
    let mut gtins = Vec::new();
    walk(store, parent, draft, mode, |sku, before, after| {
        if records::read_key(sku).is_some() {
            changes.records.see(before.as_ref(), after.as_ref());
        } else {
            let Changes { added, changed, removed, part_count, .. } = &mut changes;
            count(before.as_ref(), after.as_ref(), [added, changed, removed, part_count]);
        }
        if let Some(after) = after {
            digest.add(sku.as_bytes(), &after.row);
            gtins.extend(after.gtins);
        }
    })?;
    changes.digest = digest.to_bytes();
    gtins.sort_unstable();
    let twice = gtins.windows(2).find_map(|pair| match pair {
        [one, other] if one == other => Some(*one),
        _ => None,
    });
    let Some(gtin) = twice else { return Ok(changes) };
    let mut skus = Vec::new();
    walk(store, parent, draft, mode, |sku, _, after| {
        if after.is_some_and(|after| after.gtins.contains(&gtin)) {
            skus.push(sku.to_owned());
        }
    })?;
    Err(WriteError::DuplicateGtin { gtin, skus })
}

/// Every part and record before and after.
fn walk(
    store: &dyn KeyValueStore,
    parent: u64,
    draft: u64,
    mode: Mode,
    mut visit: impl FnMut(&str, Option<Entry>, Option<Entry>),
) -> Result<(), ReadError> {
    fold::join(Fold::of(store, parent)?, Layer::of(store, draft), |sku, before, said| {
        let after = match (said, mode) {
            (Some(said), _) => Some(said).filter(|said| !said.removed),
            (None, Mode::Full) => None,
            (None, Mode::Delta) => before.clone(),
        };
        visit(sku, before, after);
        Ok(())
    })
}
