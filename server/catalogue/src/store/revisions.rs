//! The history: what was published, reading it back, what differs, and going back.

use sprag_proto::v1 as pb;

use super::changes::Mode;
use super::draft::Publication;
use super::fold::{self, Fold};
use super::record::{Entry, Manifest};
use super::rows::{self, Row, Walk};
use super::{Published, Store};
use crate::error::{ReadError, WriteError};

/// A published state of the catalogue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revision {
    /// Its number; 0 = nothing published yet.
    pub number: u64,
    /// The number of the one before.
    pub parent: u64,
    /// Parts in it.
    pub part_count: u64,
    /// Digest of its content.
    pub digest: [u8; 32],
    /// Who published it.
    pub author: String,
    /// Why.
    pub note: String,
    /// When, in seconds since 1970-01-01 UTC, as the caller gave it.
    pub created_unix: i64,
    /// Parts that were new.
    pub added: u64,
    /// Parts whose content differed.
    pub changed: u64,
    /// Parts that went.
    pub removed: u64,
    /// Statements, rulings, interfaces and aliases in it.
    pub record_count: u64,
}

impl TryFrom<Manifest> for Revision {
    type Error = ReadError;

    fn try_from(manifest: Manifest) -> Result<Self, ReadError> {
        let digest = manifest.digest.as_slice().try_into().map_err(|_| ReadError::Mismatch {
            what: format!("digest of revision {}", manifest.revision),
            wanted: "32 bytes".into(),
            found: format!("{} bytes", manifest.digest.len()),
        })?;
        Ok(Self {
            number: manifest.revision,
            parent: manifest.parent,
            part_count: manifest.part_count,
            digest,
            author: manifest.author,
            note: manifest.note,
            created_unix: manifest.created_unix,
            added: manifest.added,
            changed: manifest.changed,
            removed: manifest.removed,
            record_count: manifest.record_count,
        })
    }
}

/// A whole revision, verified.
#[derive(Debug, Clone, PartialEq)]
pub struct Loaded {
    /// Which.
    pub revision: Revision,
    /// Its parts, in order of stock number.
    pub parts: Vec<(String, pb::Part)>,
    /// Its statements, rulings, interfaces and aliases, in order of type and id.
    pub records: Vec<pb::Record>,
}

/// How a part differs between two revisions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// It is new.
    Added,
    /// Its content differs.
    Changed,
    /// It is gone.
    Removed,
}

impl Store {
    /// The published revision.
    ///
    /// # Errors
    /// Damage; the engine.
    pub fn head(&self) -> Result<Revision, ReadError> {
        self.watch(
            fold::head(self.engine())
                .and_then(|head| fold::manifest(self.engine(), head.revision)?.try_into()),
        )
    }

    /// The revisions that are kept, oldest first; revision 0 is the empty one of a new store.
    ///
    /// # Errors
    /// Damage; the engine.
    pub fn revisions(&self) -> Result<Vec<Revision>, ReadError> {
        let manifests = self.watch(fold::manifests(self.engine()))?;
        manifests.into_iter().map(TryInto::try_into).collect()
    }

    /// The published revision with all its parts: about 2.5 KiB a part in memory, so use [`Store::for_each_row`] for a large
    /// catalogue.
    ///
    /// # Errors
    /// A row that is missing or damaged, a count or digest that does not match; the engine. Never a part of the answer.
    pub fn load(&self) -> Result<Loaded, ReadError> {
        self.load_revision(self.head()?.number)
    }

    /// A revision that is kept, with all its parts.
    ///
    /// # Errors
    /// As [`Store::load`]; no such revision.
    pub fn load_revision(&self, revision: u64) -> Result<Loaded, ReadError> {
        let (mut parts, mut records) = (Vec::new(), Vec::new());
        let revision = self.for_each_row(revision, |row| match row {
            Row::Part(part) => parts.push((part.sku.clone(), part)),
            Row::Record(record) => records.push(record),
        })?;
        Ok(Loaded { revision, parts, records })
    }

    /// Visits the records of a revision, then its parts in order of stock number, without holding them all. Only when this
    /// returns `Ok` may what was visited be used: counts and digest are known at the end.
    ///
    /// # Errors
    /// As [`Store::load_revision`].
    pub fn for_each_row(&self, revision: u64, mut visit: impl FnMut(Row)) -> Result<Revision, ReadError> {
        let mut rows = Walk::of(self.engine());
        let manifest = self.watch(fold::for_each_entry(self.engine(), revision, |sku, entry| {
            let (key, sealed) = rows.next(&sku, &entry.row)?;
            visit(rows::open(&key, &sealed)?);
            Ok::<(), ReadError>(())
        }))?;
        manifest.try_into()
    }

    /// Visits the records and parts that differ between two revisions, by their keys: see [`crate::records::read_key`].
    ///
    /// # Errors
    /// No such revision; damage; the engine.
    pub fn diff(&self, from: u64, to: u64, mut visit: impl FnMut(&str, Change)) -> Result<(), ReadError> {
        let (from, to) = (Fold::of(self.engine(), from)?, Fold::of(self.engine(), to)?);
        self.watch(fold::join(from, to, |sku, before, after| {
            match (before, after) {
                (None, Some(_)) => visit(sku, Change::Added),
                (Some(_), None) => visit(sku, Change::Removed),
                (Some(before), Some(after)) if before.row != after.row => visit(sku, Change::Changed),
                _ => {}
            }
            Ok(())
        }))
    }

    /// Publishes a new revision with the content of an older one.
    ///
    /// # Errors
    /// No such revision; another change is under way; damage; the engine.
    pub fn rollback(&self, revision: u64, publication: Publication) -> Result<Published, WriteError> {
        let mut draft = self.begin_publish(Mode::Full)?;
        self.watch(fold::for_each_entry(self.engine(), revision, |sku, entry| {
            draft.put_entry(&sku, &Entry { fresh: false, ..entry })
        }))?;
        draft.finish(publication)
    }
}
