//! Making a store: always in a temporary folder beside the wanted one, verified, then renamed, so it is whole or not there.

use std::path::Path;

use super::checkpoint_file::{self, Filler};
use super::digest::SetDigest;
use super::engine::{Batch, KeyValueStore, Tree};
use super::record::{Acknowledged, HEAD, Head, Manifest, SCHEMA_VERSION, revision_key};
use super::shelf::{self, Shelf};
use super::sled_engine::SledEngine;
use super::verify::Summary;
use super::witness::Witness;
use super::{envelope, files, marker, trial};
use crate::error::OpenError;

/// Makes an empty store: revision 0, nothing on the shelf.
pub(crate) fn create(path: &Path) -> Result<(), OpenError> {
    build_and_rename(path, |folder| make(folder, fill_empty)).map(|_| ())
}

/// Makes a new store from a checkpoint or backup file. Offline: the folder must be missing or empty.
///
/// # Errors
/// The folder is not empty; the file does not verify; the engine; the system.
pub fn restore(checkpoint: &Path, path: &Path) -> Result<Summary, OpenError> {
    build_and_rename(path, |folder| from_checkpoint(checkpoint, folder, None))
}

fn build_and_rename(
    path: &Path,
    build: impl FnOnce(&Path) -> Result<(), OpenError>,
) -> Result<Summary, OpenError> {
    marker::check_empty(path)?;
    let temporary = files::beside(path, ".creating");
    files::remove_folder(&temporary)?;
    let built = build(&temporary).and_then(|()| trial::trial_open(&temporary)).and_then(|summary| {
        marker::write_clean(&temporary)?;
        files::rename(&temporary, path)?;
        Ok(summary)
    });
    if built.is_err() {
        // The first error is the one to tell.
        let _ = files::remove_folder(&temporary);
    }
    built
}

/// Builds a store in `folder` from a checkpoint; numbers that were acknowledged are not given out again.
pub(crate) fn from_checkpoint(
    checkpoint: &Path,
    folder: &Path,
    acknowledged: Option<&Acknowledged>,
) -> Result<(), OpenError> {
    make(folder, |store| {
        let mut filler = Filler::new(store, acknowledged);
        checkpoint_file::read(checkpoint, |piece| filler.take(piece))?;
        filler.finish()
    })
}

/// Writes folder, engine, record of what is acknowledged and marker, in this order.
fn make(
    folder: &Path,
    fill: impl FnOnce(&dyn KeyValueStore) -> Result<Acknowledged, OpenError>,
) -> Result<(), OpenError> {
    let data = folder.join(files::DATA);
    files::make_folder(&data)?;
    let engine = SledEngine::open(&data)?;
    let acknowledged = fill(&engine)?;
    engine.flush()?;
    drop(engine);
    SledEngine::await_release(&data)?;
    Witness::open(folder)?.record(|last| *last = acknowledged)?;
    marker::write_store_marker(folder)?;
    Ok(files::sync_folder_of(&data)?)
}

fn fill_empty(store: &dyn KeyValueStore) -> Result<Acknowledged, OpenError> {
    shelf::fill(store, &Shelf::default())?;
    let digest = SetDigest::default().to_bytes().to_vec();
    let manifest = Manifest {
        schema_version: SCHEMA_VERSION,
        is_base: true,
        digest: digest.clone(),
        ..Manifest::default()
    };
    let mut batch = Batch::default();
    batch.put(Tree::Manifests, revision_key(0), envelope::seal_message(&manifest));
    batch.put(Tree::Meta, HEAD, envelope::seal_message(&Head::default()));
    store.apply(batch)?;
    Ok(Acknowledged { digest, ..Acknowledged::default() })
}
