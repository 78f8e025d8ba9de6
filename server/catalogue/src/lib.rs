//! The catalogue: the durable store of parts by revision and of the shelf.
//!
//! The query path never touches it: a server loads the published revision once, answers from memory, and comes back to
//! publish, to change the shelf and to write checkpoints. All calls block; run them off the asynchronous threads.

pub mod convert;
mod error;
mod event;
mod export;
mod import;
mod live;
pub mod records;
mod report;
mod shelf;
mod snapshot;
pub mod store;

pub use error::{Corrupt, FileError, OpenError, ReadError, WriteError};
pub use event::{Attempt, Event};
pub use import::{ImportError, ImportOptions};
pub use live::{Catalogue, View};
pub use shelf::LiveShelf;
pub use snapshot::{Snapshot, Stocked};
pub use store::{
    Change, Changes, Checkpoint, Draft, Loaded, Mode, Money, Options, Pruned, Publication, Published,
    RecordChanges, RequestId, Revision, Row, Shelf, ShelfEntry, Store, Summary, TrialCommand, restore,
    trial_open, trial_report,
};
