//! Publishing: rows go to disk in batches under a number that nobody sees, and one small transaction makes them the head.

use sprag_proto::v1 as pb;

use prost::Message as _;

use super::changes::{self, Changes, Mode};
use super::digest;
use super::engine::{Batch, KeyValueStore, Tree};
use super::envelope;
use super::fold::{self, Fold, Layer};
use super::record::{Entry, HEAD, Head, MAX_SKU_BYTES, Manifest, SCHEMA_VERSION, delta_key, revision_key};
use super::requests;
use super::rows::{self, Row};
use super::unpublished;
use super::{Published, Store, WriterToken};
use crate::error::WriteError;
use crate::records;

/// Parts in one batch, followed by a flush: larger ones cost memory, smaller ones time.
const BATCH_PARTS: usize = 500;
/// Largest encoded part, bytes.
const MAX_ROW_BYTES: usize = 256 * 1024;
/// Deltas upon one base: with more of them reading gets slow, so the next one becomes a base.
const MAX_LAYERS: usize = 50;

/// Who publishes, why and when.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Publication {
    /// Who.
    pub author: String,
    /// Why.
    pub note: String,
    /// When, in seconds since 1970-01-01 UTC; the store has no clock of its own.
    pub created_unix: i64,
    /// So that a repeated request publishes once.
    pub request: Option<RequestId>,
}

/// A request id and what came with it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RequestId {
    /// Chosen by the caller.
    pub id: String,
    /// SHA-256 of the file or message.
    pub content: [u8; 32],
}

/// A revision in the making. Nothing of it is visible before [`Draft::finish`]; dropping it abandons it.
pub struct Draft<'a> {
    store: &'a Store,
    token: Option<WriterToken<'a>>,
    mode: Mode,
    parent: Head,
    revision: u64,
    pending: Batch,
    pending_parts: usize,
    done: bool,
}

impl<'a> Draft<'a> {
    pub(super) fn begin(store: &'a Store, token: WriterToken<'a>, mode: Mode) -> Result<Self, WriteError> {
        let parent = fold::head(store.engine())?;
        unpublished::remove(store.engine(), parent.revision)?;
        let revision = parent.revision.max(parent.floor) + 1;
        let (pending, pending_parts) = (Batch::default(), 0);
        Ok(Self { store, token: Some(token), mode, parent, revision, pending, pending_parts, done: false })
    }

    /// The number that it will have.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// Adds a part, or replaces the one with its stock number; the last one put counts.
    ///
    /// # Errors
    /// A stock number of 0 or more than 200 bytes or with a control character, a part of more than 256 KiB, a GTIN that is not a number; the engine.
    pub fn put(&mut self, part: &pb::Part) -> Result<(), WriteError> {
        check_sku(&part.sku)?;
        let gtins = gtins(part)?;
        self.put_row(&part.sku, &part.encode_to_vec(), gtins)
    }

    /// Adds a statement, ruling, interface or alias, or replaces the one with its name.
    ///
    /// # Errors
    /// A name of 0 or more than 200 bytes or with a control character, a record of more than 256 KiB; the engine.
    pub fn put_record(&mut self, record: &pb::Record) -> Result<(), WriteError> {
        let name = records::name_of(record).unwrap_or_default();
        check_sku(&name.id)?;
        self.put_row(&records::write_key(&name), &record.encode_to_vec(), Vec::new())
    }

    fn put_row(&mut self, name: &str, encoded: &[u8], gtins: Vec<u64>) -> Result<(), WriteError> {
        if encoded.len() > MAX_ROW_BYTES {
            return Err(WriteError::TooLarge {
                sku: name.to_owned(),
                limit: MAX_ROW_BYTES,
                found: encoded.len(),
            });
        }
        let hash = digest::sha256(encoded);
        let key = rows::key(name, &hash);
        let fresh = self.engine().get(Tree::Rows, &key)?.is_none();
        if fresh {
            self.pending.put(Tree::Rows, key, envelope::seal(encoded));
        }
        self.put_entry(name, &Entry { row: hash.to_vec(), gtins, fresh, removed: false })
    }

    /// Removes a part; one that is not there stays away.
    ///
    /// # Errors
    /// A stock number of 0 or more than 200 bytes or with a control character; the engine.
    pub fn remove(&mut self, sku: &str) -> Result<(), WriteError> {
        check_sku(sku)?;
        self.put_entry(sku, &Entry { removed: true, ..Entry::default() })
    }

    /// Removes a statement, ruling, interface or alias; one that is not there stays away.
    ///
    /// # Errors
    /// A name of 0 or more than 200 bytes or with a control character; the engine.
    pub fn remove_record(&mut self, name: &pb::RecordName) -> Result<(), WriteError> {
        check_sku(&name.id)?;
        self.put_entry(&records::write_key(name), &Entry { removed: true, ..Entry::default() })
    }

    /// Says something of a part or record whose row is stored already, or is in this batch.
    pub(super) fn put_entry(&mut self, sku: &str, entry: &Entry) -> Result<(), WriteError> {
        self.pending.put(Tree::Deltas, delta_key(self.revision, sku), envelope::seal_message(entry));
        self.pending_parts += 1;
        if self.pending_parts >= BATCH_PARTS { self.write_pending() } else { Ok(()) }
    }

    fn write_pending(&mut self) -> Result<(), WriteError> {
        if self.pending.is_empty() {
            return Ok(());
        }
        self.pending_parts = 0;
        let batch = std::mem::take(&mut self.pending);
        self.engine().apply(batch)?;
        Ok(self.engine().flush()?)
    }

    /// What publishing would change.
    ///
    /// # Errors
    /// Two parts with one GTIN; damage; the engine.
    pub fn preview(&mut self) -> Result<Changes, WriteError> {
        self.write_pending()?;
        self.store.watch(changes::between(self.engine(), self.parent.revision, self.revision, self.mode))
    }

    /// A request with the same id has published the same content before.
    ///
    /// # Errors
    /// A request id that came with another content; damage; the engine.
    pub fn is_repeated(&self, publication: &Publication) -> Result<bool, WriteError> {
        match &publication.request {
            Some(request) => Ok(requests::earlier(self.engine(), request)?.is_some()),
            None => Ok(false),
        }
    }

    /// Publishes. With a request id that has published the same content before, publishes nothing and answers as then.
    ///
    /// # Errors
    /// Two parts with one GTIN; a request id that came with another content; damage; the engine.
    pub fn finish(mut self, publication: Publication) -> Result<Published, WriteError> {
        if let Some(request) = &publication.request
            && let Some(published) = requests::earlier(self.engine(), request)?
        {
            // The first answer may never have been confirmed.
            self.store.confirm_head()?;
            return Ok(published);
        }
        let changes = self.preview()?;
        let is_base = self.mode == Mode::Full || self.become_base_if_due()?;
        let published = Published::new(self.revision, &changes);
        let manifest = Manifest {
            schema_version: SCHEMA_VERSION,
            revision: self.revision,
            parent: self.parent.revision,
            is_base,
            part_count: changes.part_count,
            digest: changes.digest.to_vec(),
            author: publication.author,
            note: publication.note,
            created_unix: publication.created_unix,
            added: changes.added,
            changed: changes.changed,
            removed: changes.removed,
            record_count: changes.records.count,
        };
        let head = Head { revision: self.revision, floor: self.parent.floor };
        let mut batch = Batch::default();
        batch.put(Tree::Manifests, revision_key(self.revision), envelope::seal_message(&manifest));
        batch.put(Tree::Meta, HEAD, envelope::seal_message(&head));
        if let Some(request) = &publication.request {
            requests::remember(self.engine(), &mut batch, request, &published)?;
        }
        // Once this was tried, nothing is taken back here: an engine that reports a failure may have done it all the same.
        // What is then unpublished is removed where the head is read anew.
        self.done = true;
        self.engine().apply(batch)?;
        self.store.confirm_head()?;
        Ok(published)
    }

    /// Says under this revision too what it takes from those before it, when there are many of them.
    fn become_base_if_due(&mut self) -> Result<bool, WriteError> {
        let before = Fold::of(self.engine(), self.parent.revision)?;
        if before.layers() < MAX_LAYERS {
            return Ok(false);
        }
        fold::join(before, Layer::of(self.engine(), self.revision), |sku, before, said| {
            match (before, said) {
                (Some(before), None) => self.put_entry(sku, &Entry { fresh: false, ..before }),
                _ => Ok(()),
            }
        })?;
        self.write_pending()?;
        Ok(true)
    }

    fn engine(&self) -> &'a dyn KeyValueStore {
        self.store.engine()
    }
}

impl Drop for Draft<'_> {
    fn drop(&mut self) {
        if !self.done {
            // What stays behind here is removed when the next draft begins or the store is opened.
            let _ = unpublished::remove(self.engine(), self.parent.revision);
        }
        self.token.take();
    }
}

/// A stock number must be usable as a key.
pub(crate) fn check_sku(sku: &str) -> Result<(), WriteError> {
    if !(1..=MAX_SKU_BYTES).contains(&sku.len()) {
        return Err(WriteError::Sku { limit: MAX_SKU_BYTES, found: sku.len() });
    }
    if sku.contains(char::is_control) {
        return Err(WriteError::ControlCharacter { sku: sku.into() });
    }
    Ok(())
}

/// The part's GTINs as numbers, so that the shorter forms equal the longer ones; check digits are the importer's work.
fn gtins(part: &pb::Part) -> Result<Vec<u64>, WriteError> {
    let mut numbers = Vec::with_capacity(part.gtins.len());
    for gtin in &part.gtins {
        let digits = matches!(gtin.len(), 8 | 12..=14) && gtin.bytes().all(|byte| byte.is_ascii_digit());
        let number = if digits { gtin.parse().ok() } else { None };
        let refused = || WriteError::Gtin { sku: part.sku.clone(), found: gtin.clone() };
        numbers.push(number.ok_or_else(refused)?);
    }
    numbers.sort_unstable();
    numbers.dedup();
    Ok(numbers)
}

/// What a revision says of something whose row is stored already.
pub(crate) fn entry(row: &Row, hash: [u8; 32]) -> Result<Entry, WriteError> {
    let gtins = match row {
        Row::Part(part) => {
            check_sku(&part.sku)?;
            gtins(part)?
        }
        Row::Record(_) => Vec::new(),
    };
    Ok(Entry { row: hash.to_vec(), gtins, fresh: false, removed: false })
}
