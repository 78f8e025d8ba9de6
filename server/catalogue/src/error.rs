//! What can go wrong, one enum per family of operations; each knows whether trying again helps.

use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

use crate::store::engine::EngineError;

/// A stored value that is not what was written.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("damaged value in {tree} at {key}: {why}")]
pub struct Corrupt {
    /// Name of the tree.
    pub tree: &'static str,
    /// The key, with bytes that are not printable ASCII escaped.
    pub key: String,
    /// Wanted and found.
    pub why: String,
}

impl Corrupt {
    pub(crate) fn new(tree: &'static str, key: &[u8], why: String) -> Self {
        Self { tree, key: key.escape_ascii().to_string(), why }
    }
}

/// A file operation that failed.
#[derive(Debug, Error)]
#[error("{what} {}: {source}", path.display())]
pub struct FileError {
    /// What was tried, as in "cannot write".
    pub what: &'static str,
    /// On which file or folder.
    pub path: PathBuf,
    /// What the system said.
    pub source: io::Error,
}

impl FileError {
    pub(crate) fn new(what: &'static str, path: &Path, source: io::Error) -> Self {
        Self { what, path: path.to_path_buf(), source }
    }

    /// Trying again later may help.
    #[must_use]
    pub fn retryable(&self) -> bool {
        use io::ErrorKind::{Interrupted, ResourceBusy, StorageFull, TimedOut, WouldBlock};
        matches!(self.source.kind(), Interrupted | ResourceBusy | StorageFull | TimedOut | WouldBlock)
    }
}

/// Why a store could not be created, opened or restored.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum OpenError {
    /// Creation over something that is there.
    #[error("wanted a missing or empty folder to create a store in, found {found} in {}", path.display())]
    NotEmpty {
        /// The folder.
        path: PathBuf,
        /// One name that is in it.
        found: String,
    },
    /// Opening where no store was created.
    #[error("wanted a store in {}, found {found}; create one with the init command, or check the path", path.display())]
    NotAStore {
        /// The folder.
        path: PathBuf,
        /// What is there instead.
        found: String,
    },
    /// Written by a later version.
    #[error("wanted a store of format {wanted} in {}, found format {found}; use the version that wrote it", path.display())]
    Format {
        /// The folder.
        path: PathBuf,
        /// What this version reads.
        wanted: u32,
        /// What is there.
        found: String,
    },
    /// Another process has it.
    #[error("wanted the store in {} for this process alone, found it open in another; stop that one first", path.display())]
    Busy {
        /// The folder.
        path: PathBuf,
    },
    /// It does not verify and no checkpoint does.
    #[error(
        "the store in {} is damaged and no checkpoint beside it could stand in; its files are kept as found in {}; \
         tried: {}; restore a backup into a new folder with the restore command and start with that folder",
        path.display(), kept.display(), tried.join("; ")
    )]
    Damaged {
        /// The folder.
        path: PathBuf,
        /// Where the files as found are.
        kept: PathBuf,
        /// What was tried and why each failed.
        tried: Vec<String>,
    },
    /// A checkpoint file that does not verify.
    #[error("the checkpoint {} cannot be used: {why}", path.display())]
    BadCheckpoint {
        /// The file.
        path: PathBuf,
        /// Wanted and found.
        why: String,
    },
    /// Content that does not match its manifest.
    #[error("{0}")]
    Read(#[from] ReadError),
    /// The first records could not be written.
    #[error("{0}")]
    Write(#[from] WriteError),
    /// The operating system said no.
    #[error("{0}")]
    File(#[from] FileError),
    /// The engine said no.
    #[error("{0}")]
    Engine(#[from] EngineError),
}

impl OpenError {
    /// Trying again later may help.
    #[must_use]
    pub fn retryable(&self) -> bool {
        match self {
            Self::Busy { .. } => true,
            Self::Read(error) => error.retryable(),
            Self::Write(error) => error.retryable(),
            Self::File(error) => error.retryable(),
            Self::Engine(error) => error.retryable(),
            _ => false,
        }
    }
}

/// Why stored data could not be read. None of it may be answered from.
#[derive(Debug, Clone, Error)]
#[non_exhaustive]
pub enum ReadError {
    /// One value.
    #[error("{0}")]
    Corrupt(#[from] Corrupt),
    /// A value that must be there.
    #[error("wanted {what}, found nothing")]
    Missing {
        /// What is missing.
        what: String,
    },
    /// The whole does not match its manifest.
    #[error("{what}: wanted {wanted}, found {found}")]
    Mismatch {
        /// What was compared.
        what: String,
        /// As the manifest says.
        wanted: String,
        /// As read.
        found: String,
    },
    /// A revision that is not kept, or never was.
    #[error("wanted revision {wanted}, found only {oldest} to {newest}")]
    NoSuchRevision {
        /// Asked for.
        wanted: u64,
        /// The oldest that is kept.
        oldest: u64,
        /// The newest.
        newest: u64,
    },
    /// The whole can only be read while nobody changes it.
    #[error("wanted to read the whole store, found a change under way; try again when it has ended")]
    ChangeUnderWay,
    /// The engine said no.
    #[error("{0}")]
    Engine(#[from] EngineError),
}

impl ReadError {
    /// Trying again later may help.
    #[must_use]
    pub fn retryable(&self) -> bool {
        match self {
            Self::ChangeUnderWay => true,
            Self::Engine(error) => error.retryable(),
            _ => false,
        }
    }

    /// It speaks of damage, so the store must be examined at its next opening.
    #[must_use]
    pub fn is_damage(&self) -> bool {
        match self {
            Self::NoSuchRevision { .. } | Self::ChangeUnderWay => false,
            Self::Engine(error) => matches!(error, EngineError::Damaged(_)),
            _ => true,
        }
    }
}

/// Why a change was not made. Unless the text says otherwise, nothing changed.
#[derive(Debug, Error)]
#[non_exhaustive]
pub enum WriteError {
    /// Only one change of the catalogue at a time.
    #[error("wanted to change the catalogue, found another change under way; try again when it has ended")]
    AlreadyChanging,
    /// A stock number that cannot be a key.
    #[error("wanted a stock number of 1 to {limit} bytes, found {found} bytes")]
    Sku {
        /// At most, bytes.
        limit: usize,
        /// Found, bytes.
        found: usize,
    },
    /// A stock number that nobody could type.
    #[error("stock number {sku:?}: wanted no control characters, found some")]
    ControlCharacter {
        /// Stock number.
        sku: String,
    },
    /// A part too large for the store.
    #[error("part {sku}: wanted at most {limit} bytes encoded, found {found}")]
    TooLarge {
        /// Stock number.
        sku: String,
        /// At most, bytes.
        limit: usize,
        /// Found, bytes.
        found: usize,
    },
    /// A GTIN that is not a number.
    #[error("part {sku}: wanted a GTIN of 8, 12, 13 or 14 digits, found {found:?}")]
    Gtin {
        /// Stock number.
        sku: String,
        /// As given.
        found: String,
    },
    /// One GTIN on several parts.
    #[error("wanted one part per GTIN, found {gtin:014} on {}", skus.join(" and "))]
    DuplicateGtin {
        /// As 14 digits.
        gtin: u64,
        /// The parts that carry it.
        skus: Vec<String>,
    },
    /// Price or stock out of range.
    #[error("shelf entry {sku}: {why}")]
    ShelfEntry {
        /// Stock number.
        sku: String,
        /// Wanted and found.
        why: String,
    },
    /// A request id used for another file.
    #[error("request id {id:?}: wanted the content it came with first, found another content; use a new id")]
    RequestReused {
        /// The id.
        id: String,
    },
    /// What the change rests on could not be read.
    #[error("{0}")]
    Read(#[from] ReadError),
    /// It is done, but the proof of it beside the engine could not be written; treat it as not acknowledged.
    #[error("the change is made but could not be confirmed on disk: {why}; a repeated request confirms it")]
    Unconfirmed {
        /// What the system or the engine said.
        why: String,
    },
    /// The operating system said no.
    #[error("{0}")]
    File(#[from] FileError),
    /// The engine said no.
    #[error("{0}")]
    Engine(#[from] EngineError),
}

impl WriteError {
    /// Trying again later may help.
    #[must_use]
    pub fn retryable(&self) -> bool {
        match self {
            Self::AlreadyChanging | Self::Unconfirmed { .. } => true,
            Self::Read(error) => error.retryable(),
            Self::File(error) => error.retryable(),
            Self::Engine(error) => error.retryable(),
            _ => false,
        }
    }
}

impl From<Corrupt> for WriteError {
    fn from(corrupt: Corrupt) -> Self {
        Self::Read(corrupt.into())
    }
}

impl From<Corrupt> for OpenError {
    fn from(corrupt: Corrupt) -> Self {
        Self::Read(corrupt.into())
    }
}
