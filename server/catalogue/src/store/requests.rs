//! The outcomes of the last requests that published, so that a repeated request publishes once.

use super::Published;
use super::changes::RecordChanges;
use super::draft::RequestId;
use super::engine::{Batch, KeyValueStore, Pair, Tree, scan_prefix};
use super::envelope;
use super::record::{self, RequestRow};
use crate::error::{Corrupt, ReadError, WriteError};

/// How many are kept.
pub(crate) const KEPT: usize = 1000;
const BY_ID: &[u8] = b"id/";
const BY_ORDER: &[u8] = b"order/";

fn id_key(id: &str) -> Vec<u8> {
    [BY_ID, id.as_bytes()].concat()
}

/// What a request id has published, if it is among those kept.
pub(crate) fn look_up(
    store: &dyn KeyValueStore,
    id: &str,
) -> Result<Option<(RequestId, Published)>, ReadError> {
    let key = id_key(id);
    let Some(row) = record::read::<RequestRow>(store, Tree::Requests, &key)? else { return Ok(None) };
    let short = || Corrupt::new(Tree::Requests.name(), &key, "wanted two digests of 32 bytes".into());
    let content = row.content.as_slice().try_into().map_err(|_| short())?;
    let digest = row.digest.as_slice().try_into().map_err(|_| short())?;
    let published = Published {
        revision: row.revision,
        digest,
        part_count: row.part_count,
        added: row.added,
        changed: row.changed,
        removed: row.removed,
        records: RecordChanges {
            count: row.record_count,
            added: row.records_added,
            changed: row.records_changed,
            removed: row.records_removed,
        },
    };
    Ok(Some((RequestId { id: id.into(), content }, published)))
}

/// The outcome of the same request; an error when its id came with another content.
pub(crate) fn earlier(
    store: &dyn KeyValueStore,
    request: &RequestId,
) -> Result<Option<Published>, WriteError> {
    match look_up(store, &request.id)? {
        None => Ok(None),
        Some((known, published)) if known == *request => Ok(Some(published)),
        Some(_) => Err(WriteError::RequestReused { id: request.id.clone() }),
    }
}

/// Adds an outcome to a batch, and the removal of those that are then too old.
pub(crate) fn remember(
    store: &dyn KeyValueStore,
    batch: &mut Batch,
    request: &RequestId,
    published: &Published,
) -> Result<(), WriteError> {
    let order: Vec<Pair> = scan_prefix(store, Tree::Requests, BY_ORDER).collect::<Result<_, _>>()?;
    for (key, value) in order.iter().take((order.len() + 1).saturating_sub(KEPT)) {
        let id = envelope::open(Tree::Requests, key, value)?;
        batch.remove(Tree::Requests, [BY_ID, id].concat());
        batch.remove(Tree::Requests, key.clone());
    }
    put(batch, &request.id, &row(request, published));
    Ok(())
}

/// The stored form of an outcome.
pub(crate) fn row(request: &RequestId, published: &Published) -> RequestRow {
    RequestRow {
        content: request.content.to_vec(),
        revision: published.revision,
        digest: published.digest.to_vec(),
        part_count: published.part_count,
        added: published.added,
        changed: published.changed,
        removed: published.removed,
        record_count: published.records.count,
        records_added: published.records.added,
        records_changed: published.records.changed,
        records_removed: published.records.removed,
    }
}

/// Adds an outcome and its place in the order to a batch.
pub(crate) fn put(batch: &mut Batch, id: &str, row: &RequestRow) {
    // A revision is published by one request at most, so its number is the order.
    let order_key = [BY_ORDER, &record::revision_key(row.revision)].concat();
    batch.put(Tree::Requests, order_key, envelope::seal(id.as_bytes()));
    batch.put(Tree::Requests, id_key(id), envelope::seal_message(row));
}

/// Every outcome that is kept, oldest first.
pub(crate) fn all(store: &dyn KeyValueStore) -> Result<Vec<(RequestId, Published)>, ReadError> {
    let mut found = Vec::new();
    for pair in scan_prefix(store, Tree::Requests, BY_ORDER) {
        let (key, value) = pair?;
        let id = envelope::open(Tree::Requests, &key, &value)?;
        let id = str::from_utf8(id)
            .map_err(|_| Corrupt::new(Tree::Requests.name(), &key, "wanted an id in UTF-8".into()))?;
        found
            .push(look_up(store, id)?.ok_or_else(|| ReadError::Missing { what: format!("request {id:?}") })?);
    }
    Ok(found)
}
