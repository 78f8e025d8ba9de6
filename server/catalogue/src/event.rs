//! What happened while a store was opened, as data: the caller decides how loud each is.

use std::fmt;
use std::path::PathBuf;

/// Which copy of the files was examined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Attempt {
    /// As found.
    AsFound,
    /// Without the engine's snapshot files.
    WithoutSnapshots,
    /// Without the engine's snapshot and settings files.
    WithoutSettings,
    /// Built anew from a checkpoint.
    Checkpoint,
}

impl fmt::Display for Attempt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::AsFound => "the files as found",
            Self::WithoutSnapshots => "the files without the engine's snapshots",
            Self::WithoutSettings => "the files without the engine's snapshots and settings",
            Self::Checkpoint => "a checkpoint",
        })
    }
}

/// One thing worth telling the operator.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Event {
    /// The store must be examined before it is used.
    Suspect {
        /// Why.
        why: String,
    },
    /// An earlier exchange of files was interrupted and has been undone.
    HalfSwapUndone {
        /// From where the files came back.
        from: PathBuf,
    },
    /// A copy did not verify.
    TrialFailed {
        /// Which.
        attempt: Attempt,
        /// Wanted and found.
        why: String,
    },
    /// A copy verified and is in use.
    Recovered {
        /// Which.
        attempt: Attempt,
        /// Where the files as found are kept; `None` when the copy is equal in all that was acknowledged.
        kept: Option<PathBuf>,
    },
    /// What was acknowledged before is not known, so nobody can tell whether something is missing.
    AcknowledgedUnknown,
    /// Acknowledged changes are gone: the checkpoint is older.
    ChangesLost {
        /// Revision that callers were told of.
        acknowledged_revision: u64,
        /// Revision in use.
        revision: u64,
        /// Shelf sequence that callers were told of.
        acknowledged_shelf: u64,
        /// Shelf sequence of the checkpoint.
        shelf_sequence: u64,
    },
    /// A checkpoint could not be used.
    CheckpointRefused {
        /// The file.
        path: PathBuf,
        /// Wanted and found.
        why: String,
    },
    /// Entries that were never published, or that are no longer kept, are removed.
    LeftoversRemoved {
        /// How many.
        entries: u64,
    },
    /// An older revision no longer verifies; the published one does.
    HistoryDamaged {
        /// What does not match.
        why: String,
    },
}

impl Event {
    /// Something is lost or damaged, or may be: to be told as an error.
    #[must_use]
    pub fn is_grave(&self) -> bool {
        !matches!(
            self,
            Self::LeftoversRemoved { .. } | Self::Recovered { kept: None, .. } | Self::Suspect { .. }
        )
    }
}

impl fmt::Display for Event {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Suspect { why } => write!(f, "the store is examined before it is used: {why}"),
            Self::HalfSwapUndone { from } => {
                write!(f, "an exchange of files was interrupted; they are back from {}", from.display())
            }
            Self::TrialFailed { attempt, why } => write!(f, "{attempt} did not verify: {why}"),
            Self::Recovered { attempt, kept } => {
                write!(f, "in use, and verified: {attempt}")?;
                match kept {
                    Some(kept) => write!(f, "; the files as found are kept in {}", kept.display()),
                    None => Ok(()),
                }
            }
            Self::AcknowledgedUnknown => f.write_str(
                "the record of what was acknowledged cannot be read, so whether changes are missing is not known",
            ),
            Self::ChangesLost { acknowledged_revision, revision, acknowledged_shelf, shelf_sequence } => write!(
                f,
                "acknowledged changes are lost: wanted revision {acknowledged_revision} and shelf \
                 {acknowledged_shelf}, found revision {revision} and shelf {shelf_sequence} in the checkpoint"
            ),
            Self::CheckpointRefused { path, why } => {
                write!(f, "the checkpoint {} cannot be used: {why}", path.display())
            }
            Self::LeftoversRemoved { entries } => {
                write!(f, "{entries} entries that belong to no kept revision are removed")
            }
            Self::HistoryDamaged { why } => write!(f, "an older revision is damaged, the current one is not: {why}"),
        }
    }
}
