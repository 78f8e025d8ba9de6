//! What a draft changes, found by walking its entries beside its parent's.

use super::digest::SetDigest;
use super::engine::KeyValueStore;
use super::fold::{self, Fold, Layer};
use super::record::Entry;
use crate::error::{ReadError, WriteError};

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
}

/// Compares a draft with its parent; refuses a GTIN on two parts.
pub(crate) fn between(
    store: &dyn KeyValueStore,
    parent: u64,
    draft: u64,
    mode: Mode,
) -> Result<Changes, WriteError> {
    let mut changes = Changes { added: 0, changed: 0, removed: 0, part_count: 0, digest: [0; 32] };
    let mut digest = SetDigest::default();
    // All GTINs as numbers: 8 bytes a part, and names are looked up only when two are equal.
    let mut gtins = Vec::new();
    walk(store, parent, draft, mode, |sku, before, after| {
        match (&before, &after) {
            (None, Some(_)) => changes.added += 1,
            (Some(_), None) => changes.removed += 1,
            (Some(one), Some(other)) if one.row != other.row => changes.changed += 1,
            _ => {}
        }
        if let Some(after) = after {
            changes.part_count += 1;
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

/// Every part before and after.
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
