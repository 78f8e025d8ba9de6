//! The embedded engine. Every call is fenced: a panic inside the library becomes an error and the engine is not used again.

use std::collections::BTreeMap;
use std::fs;
use std::ops::Bound;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use sled::transaction::{ConflictableTransactionError, TransactionError, Transactional};

use super::engine::{Batch, EngineError, KeyValueStore, Pair, Scan, Tree};

/// The library's main file.
const FILE: &str = "db";
/// Enough when the service answers from memory; the library's own default is far larger.
const CACHE_BYTES: u64 = 64 * 1024 * 1024;
/// A handle that was just dropped in this process may hold its lock a moment longer.
const LOCK_PATIENCE: Duration = Duration::from_secs(3);

/// An open database.
pub struct SledEngine {
    db: sled::Db,
    trees: BTreeMap<Tree, sled::Tree>,
    broken: AtomicBool,
}

impl SledEngine {
    /// Opens the files in `folder`, creating them where there are none: the caller has made sure that this is meant.
    ///
    /// # Errors
    /// Busy, damage, input and output.
    pub fn open(folder: &Path) -> Result<Self, EngineError> {
        let start = Instant::now();
        loop {
            match fence(|| Self::open_once(folder)) {
                Err(EngineError::Busy(_)) if start.elapsed() < LOCK_PATIENCE => {
                    thread::sleep(Duration::from_millis(20));
                }
                result => return result,
            }
        }
    }

    /// Opens files that are there; without them the library would make a new, empty database.
    ///
    /// # Errors
    /// As [`Self::open`]; no files.
    pub fn open_existing(folder: &Path) -> Result<Self, EngineError> {
        match fs::metadata(folder.join(FILE)) {
            Ok(file) if file.len() > 0 => {}
            _ => {
                let wanted = folder.join(FILE);
                return Err(EngineError::Damaged(format!("wanted {}, found nothing", wanted.display())));
            }
        }
        let engine = Self::open(folder)?;
        if engine.db.was_recovered() {
            return Ok(engine);
        }
        Err(EngineError::Damaged(format!("wanted a database in {}, found none to recover", folder.display())))
    }

    /// Waits until the files are no longer used: background work may outlive the last handle by a moment.
    ///
    /// # Errors
    /// They are still used after some seconds, or cannot be opened.
    pub fn await_release(folder: &Path) -> Result<(), EngineError> {
        let start = Instant::now();
        loop {
            let file =
                fs::File::open(folder.join(FILE)).map_err(|error| EngineError::Io(error.to_string()))?;
            match file.try_lock() {
                Ok(()) => return Ok(()),
                Err(_) if start.elapsed() < LOCK_PATIENCE => thread::sleep(Duration::from_millis(5)),
                Err(error) => return Err(EngineError::Busy(error.to_string())),
            }
        }
    }

    fn open_once(folder: &Path) -> Result<Self, EngineError> {
        let config = sled::Config::new().path(folder).cache_capacity(CACHE_BYTES).flush_every_ms(None);
        let db = config.open().map_err(translate)?;
        let mut trees = BTreeMap::new();
        for tree in Tree::ALL {
            trees.insert(tree, db.open_tree(tree.name()).map_err(translate)?);
        }
        Ok(Self { db, trees, broken: AtomicBool::new(false) })
    }

    fn tree(&self, tree: Tree) -> Result<&sled::Tree, EngineError> {
        self.trees.get(&tree).ok_or_else(|| EngineError::Io(format!("tree {} is not open", tree.name())))
    }

    fn guarded<T>(&self, work: impl FnOnce() -> Result<T, EngineError>) -> Result<T, EngineError> {
        if self.broken.load(Ordering::Acquire) {
            return Err(EngineError::Damaged(
                "it broke earlier and is not used again until a restart".into(),
            ));
        }
        let panicked = AtomicBool::new(true);
        let result = fence(|| {
            let result = work();
            panicked.store(false, Ordering::Release);
            result
        });
        if panicked.load(Ordering::Acquire) {
            self.broken.store(true, Ordering::Release);
        }
        result
    }

    fn apply_to_many(&self, batches: &BTreeMap<Tree, sled::Batch>) -> Result<(), EngineError> {
        if batches.is_empty() {
            // The library cannot commit nothing.
            return Ok(());
        }
        let mut trees = Vec::with_capacity(batches.len());
        for tree in batches.keys() {
            trees.push(self.tree(*tree)?);
        }
        let result = trees.as_slice().transaction(|views| {
            for (view, batch) in views.iter().zip(batches.values()) {
                view.apply_batch(batch)?;
            }
            Ok::<(), ConflictableTransactionError<()>>(())
        });
        result.map_err(|error| match error {
            TransactionError::Abort(()) => EngineError::Io("the transaction was aborted".into()),
            TransactionError::Storage(error) => translate(error),
        })
    }
}

impl KeyValueStore for SledEngine {
    fn get(&self, tree: Tree, key: &[u8]) -> Result<Option<Vec<u8>>, EngineError> {
        let tree = self.tree(tree)?;
        self.guarded(|| tree.get(key).map(|value| value.map(|value| value.to_vec())).map_err(translate))
    }

    fn scan(&self, tree: Tree, from: Bound<Vec<u8>>, to: Bound<Vec<u8>>) -> Scan<'_> {
        let range = match self.tree(tree).and_then(|tree| self.guarded(|| Ok(tree.range((from, to))))) {
            Ok(range) => range,
            Err(error) => return Box::new(std::iter::once(Err(error))),
        };
        Box::new(FencedScan { engine: self, range, ended: false })
    }

    fn apply(&self, batch: Batch) -> Result<(), EngineError> {
        let mut batches: BTreeMap<Tree, sled::Batch> = BTreeMap::new();
        for write in batch.writes {
            let batch = batches.entry(write.tree).or_default();
            match write.value {
                Some(value) => batch.insert(write.key, value),
                None => batch.remove(write.key),
            }
        }
        self.guarded(|| self.apply_to_many(&batches))
    }

    fn flush(&self) -> Result<(), EngineError> {
        self.guarded(|| self.db.flush().map(|_| ()).map_err(translate))
    }

    fn size_on_disk(&self) -> Result<u64, EngineError> {
        self.guarded(|| self.db.size_on_disk().map_err(translate))
    }
}

/// A range whose every step is fenced; it ends after its first error.
struct FencedScan<'a> {
    engine: &'a SledEngine,
    range: sled::Iter,
    ended: bool,
}

impl Iterator for FencedScan<'_> {
    type Item = Result<Pair, EngineError>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.ended {
            return None;
        }
        let Self { engine, range, ended } = self;
        let step = engine.guarded(|| match range.next() {
            None => Ok(None),
            Some(Ok((key, value))) => Ok(Some((key.to_vec(), value.to_vec()))),
            Some(Err(error)) => Err(translate(error)),
        });
        *ended = !matches!(step, Ok(Some(_)));
        step.transpose()
    }
}

/// Turns a panic of the library into an error.
fn fence<T>(work: impl FnOnce() -> Result<T, EngineError>) -> Result<T, EngineError> {
    catch_unwind(AssertUnwindSafe(work)).unwrap_or_else(|panic| {
        let text = panic
            .downcast_ref::<String>()
            .map(String::as_str)
            .or_else(|| panic.downcast_ref::<&str>().copied())
            .unwrap_or("no text");
        Err(EngineError::Damaged(format!("it panicked: {text}")))
    })
}

fn translate(error: sled::Error) -> EngineError {
    match error {
        sled::Error::Io(error) => {
            let text = error.to_string();
            // The library wraps the system's error in a text, so its kind is lost for a held lock.
            if text.contains("could not acquire lock") {
                EngineError::Busy(text)
            } else if error.kind() == std::io::ErrorKind::StorageFull {
                EngineError::Full(text)
            } else {
                EngineError::Io(text)
            }
        }
        other => EngineError::Damaged(other.to_string()),
    }
}
