//! The durable store: parts by revision, the shelf, and the outcomes of requests, on an engine that is not trusted.
//!
//! In a store's folder: `STORE` (what it is), `data/` (the engine's files), `ACKNOWLEDGED` (what callers were told),
//! `LOCK` (held while open) and, while nobody has it open, `CLEAN` (the files as the last process left them). Beside it:
//! `<path>.checkpoints/` and, after damage, `<path>.suspect-<n>/`. So the folder must not be the root of a volume.

mod changes;
mod checkpoint;
mod checkpoint_file;
mod create;
mod digest;
mod draft;
pub mod engine;
mod envelope;
mod files;
mod fold;
mod guard;
mod marker;
mod prune;
mod record;
mod requests;
mod revisions;
mod rows;
mod shelf;
mod sled_engine;
mod trial;
mod unpublished;
mod verify;
mod witness;

use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

pub use changes::{Changes, Mode, RecordChanges};
pub use checkpoint::Checkpoint;
pub use create::restore;
pub use draft::{Draft, Publication, RequestId};
pub use prune::Pruned;
pub use revisions::{Change, Loaded, Revision};
pub use rows::Row;
pub use shelf::{Money, Shelf, ShelfEntry};
pub use trial::{TrialCommand, trial_open, trial_report};
pub use verify::Summary;

use crate::error::{OpenError, ReadError, WriteError};
use crate::event::Event;
use engine::KeyValueStore;
use record::Acknowledged;
use shelf::ShelfState;
use sled_engine::SledEngine;
use witness::Witness;

/// How to open a store.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Examines a suspect store in a process of its own; without it, in this process with panics caught.
    pub trial: Option<TrialCommand>,
}

/// What a publication did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Published {
    /// The new revision's number.
    pub revision: u64,
    /// Digest of its content.
    pub digest: [u8; 32],
    /// Parts in it.
    pub part_count: u64,
    /// Parts that are new.
    pub added: u64,
    /// Parts whose content differs.
    pub changed: u64,
    /// Parts that went.
    pub removed: u64,
    /// What became of statements, rulings, interfaces and aliases.
    pub records: RecordChanges,
}

impl Published {
    fn new(revision: u64, changes: &Changes) -> Self {
        Self {
            revision,
            digest: changes.digest,
            part_count: changes.part_count,
            added: changes.added,
            changed: changes.changed,
            removed: changes.removed,
            records: changes.records,
        }
    }
}

/// An open store; one per folder and process. Share it behind an `Arc`.
pub struct Store {
    path: PathBuf,
    engine: Arc<dyn KeyValueStore>,
    witness: Mutex<Witness>,
    shelf: ShelfState,
    writing: AtomicBool,
    closing: Closing,
}

impl Store {
    /// Makes a new store, with nothing published, and opens it.
    ///
    /// # Errors
    /// The folder is there and not empty; the engine; the system.
    pub fn create(path: &Path) -> Result<Self, OpenError> {
        create::create(path)?;
        Self::open(path, &Options::default(), &|_| {})
    }

    /// Opens a store that was created before; never creates one.
    ///
    /// A store that was not closed in order, or whose files changed since, is examined on a copy first, then without
    /// the engine's snapshots, then replaced by the newest checkpoint that verifies. `on_event` hears of every step.
    ///
    /// # Errors
    /// No store there; open elsewhere; damaged with nothing to put in its place; the engine; the system.
    pub fn open(path: &Path, options: &Options, on_event: &dyn Fn(Event)) -> Result<Self, OpenError> {
        marker::check_store_marker(path)?;
        let lock = marker::lock(path)?;
        guard::undo_half_swap(path, on_event)?;
        let suspicion = marker::why_suspect(path)?;
        marker::remove_clean(path)?;
        let opened = match suspicion {
            None => Self::open_files(path, on_event),
            Some(why) => {
                guard::recover(path, options, why, on_event)?;
                Self::open_files(path, on_event)
            }
        };
        // The engine may still refuse or contradict files that are as they were left: then they are suspect after all.
        let (engine, witness) = match opened {
            Err(error) if guard::is_damage(&error) => {
                guard::recover(path, options, error.to_string(), on_event)?;
                Self::open_files(path, on_event)?
            }
            other => other?,
        };
        let closing = Closing {
            path: path.to_path_buf(),
            engine: Some(Arc::clone(&engine)),
            damaged: AtomicBool::new(false),
            _lock: lock,
        };
        Ok(Self {
            path: path.to_path_buf(),
            engine,
            witness: Mutex::new(witness),
            shelf: ShelfState::default(),
            writing: AtomicBool::new(false),
            closing,
        })
    }

    fn open_files(
        path: &Path,
        on_event: &dyn Fn(Event),
    ) -> Result<(Arc<dyn KeyValueStore>, Witness), OpenError> {
        let engine: Arc<dyn KeyValueStore> = Arc::new(SledEngine::open_existing(&path.join(files::DATA))?);
        verify::check_acknowledged(engine.as_ref(), witness::read(path)?.as_ref())?;
        let head = fold::head(engine.as_ref())?.revision;
        let mut entries = unpublished::remove(engine.as_ref(), head)?;
        if let Some(oldest) = fold::manifests(engine.as_ref())?.first() {
            entries += unpublished::remove_before(engine.as_ref(), oldest.revision)?;
        }
        if entries > 0 {
            on_event(Event::LeftoversRemoved { entries });
        }
        Ok((engine, Witness::open(path)?))
    }

    /// The folder.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Begins a new revision.
    ///
    /// # Errors
    /// Another change is under way; the engine.
    pub fn begin_publish(&self, mode: Mode) -> Result<Draft<'_>, WriteError> {
        let token = self.writer()?;
        Draft::begin(self, token, mode)
    }

    /// The outcome of a request that published, and what came with it; the last 1000 are kept.
    ///
    /// # Errors
    /// Damage; the engine.
    pub fn request(&self, id: &str) -> Result<Option<(RequestId, Published)>, ReadError> {
        self.watch(requests::look_up(self.engine(), id))
    }

    /// Reads everything back and holds it against the manifests, the totals and what was acknowledged.
    ///
    /// # Errors
    /// The first thing of the published state that does not match; older revisions are reported in the summary.
    pub fn verify(&self) -> Result<Summary, ReadError> {
        let _writer = self.writer().map_err(|_| ReadError::ChangeUnderWay)?;
        // The lock keeps the shelf and the record of what was acknowledged in step.
        let _shelf = self.shelf.pause();
        let acknowledged = self.witness.lock().unwrap_or_else(PoisonError::into_inner).last().clone();
        self.watch(verify::verify(self.engine(), Some(&acknowledged)))
    }

    /// Bytes that the engine's files take.
    ///
    /// # Errors
    /// The engine.
    pub fn size_on_disk(&self) -> Result<u64, ReadError> {
        Ok(self.engine().size_on_disk()?)
    }

    /// Flushes and says on disk that the store was closed in order. Dropping does the same but cannot tell of a failure.
    ///
    /// # Errors
    /// The engine; the system. The store is then examined when it is opened next.
    pub fn close(self) -> Result<(), WriteError> {
        let Self { engine, mut closing, .. } = self;
        drop(engine);
        closing.finish()
    }

    fn engine(&self) -> &dyn KeyValueStore {
        self.engine.as_ref()
    }

    /// Records beside the engine what callers may now be told.
    fn acknowledge(&self, change: impl FnOnce(&mut Acknowledged)) -> Result<(), WriteError> {
        let mut witness = self.witness.lock().unwrap_or_else(PoisonError::into_inner);
        witness.record(change).map_err(|error| WriteError::Unconfirmed { why: error.to_string() })
    }

    /// Makes the published revision durable and records it as acknowledged.
    fn confirm_head(&self) -> Result<(), WriteError> {
        let unconfirmed = |error: &dyn std::fmt::Display| WriteError::Unconfirmed { why: error.to_string() };
        self.engine().flush().map_err(|error| unconfirmed(&error))?;
        let head = fold::head(self.engine()).map_err(|error| unconfirmed(&error))?;
        let manifest = fold::manifest(self.engine(), head.revision).map_err(|error| unconfirmed(&error))?;
        self.acknowledge(|last| {
            last.revision = manifest.revision;
            last.digest = manifest.digest;
        })
    }

    /// Takes the right to change the catalogue.
    fn writer(&self) -> Result<WriterToken<'_>, WriteError> {
        match self.writing.compare_exchange(false, true, Ordering::Acquire, Ordering::Relaxed) {
            Ok(_) => Ok(WriterToken(&self.writing)),
            Err(_) => Err(WriteError::AlreadyChanging),
        }
    }

    /// Remembers damage that a result speaks of, so that the next opening examines the store.
    fn watch<T, E>(&self, result: Result<T, E>) -> Result<T, E>
    where
        E: SpeaksOfDamage,
    {
        if let Err(error) = &result
            && error.is_damage()
        {
            self.closing.damaged.store(true, Ordering::Release);
        }
        result
    }
}

/// Errors that can tell whether stored data is damaged.
trait SpeaksOfDamage {
    fn is_damage(&self) -> bool;
}

impl SpeaksOfDamage for ReadError {
    fn is_damage(&self) -> bool {
        Self::is_damage(self)
    }
}

impl SpeaksOfDamage for WriteError {
    fn is_damage(&self) -> bool {
        match self {
            Self::Read(error) => error.is_damage(),
            Self::Engine(error) => matches!(error, engine::EngineError::Damaged(_)),
            _ => false,
        }
    }
}

/// The right to change the catalogue, given back when dropped.
struct WriterToken<'a>(&'a AtomicBool);

impl Drop for WriterToken<'_> {
    fn drop(&mut self) {
        self.0.store(false, Ordering::Release);
    }
}

/// What happens last: the engine's own close, the clean marker, and the lock.
struct Closing {
    path: PathBuf,
    engine: Option<Arc<dyn KeyValueStore>>,
    damaged: AtomicBool,
    _lock: File,
}

impl Closing {
    fn finish(&mut self) -> Result<(), WriteError> {
        let Some(engine) = self.engine.take() else { return Ok(()) };
        engine.flush()?;
        drop(engine);
        SledEngine::await_release(&self.path.join(files::DATA))?;
        if !self.damaged.load(Ordering::Acquire) {
            marker::write_clean(&self.path)?;
        }
        Ok(())
    }
}

impl Drop for Closing {
    fn drop(&mut self) {
        // Without the marker the next opening examines the store: slower, and safe.
        let _ = self.finish();
    }
}
