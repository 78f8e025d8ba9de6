//! Checkpoints: verified copies beside the store, written while it serves.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::Store;
use super::checkpoint_file::{self, Opening, Piece, RequestPiece, ShelfPiece, Writer};
use super::engine::Tree;
use super::fold;
use super::record::Manifest;
use super::rows::{self, Row, Walk};
use super::{envelope, files, requests, shelf};
use crate::error::{FileError, OpenError, WriteError};

/// How many are kept.
const KEPT: usize = 3;
const ENDING: &str = ".checkpoint";

/// A checkpoint that was written and read back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checkpoint {
    /// The file.
    pub path: PathBuf,
    /// The revision in it.
    pub revision: u64,
    /// Parts in it.
    pub part_count: u64,
    /// The shelf's sequence number in it.
    pub shelf_sequence: u64,
}

impl Store {
    /// Writes the published revision, the shelf and the outcomes of requests into `<path>.checkpoints/`, reads the file
    /// back, and keeps the newest three. Older revisions are not in it.
    ///
    /// # Errors
    /// A publication is under way; damage; the engine; the system.
    pub fn checkpoint(&self) -> Result<Checkpoint, WriteError> {
        let folder = files::beside(&self.path, ".checkpoints");
        files::make_folder(&folder)?;
        let older = list(&folder)?;
        let number = older.last().map_or(0, |(number, _)| *number) + 1;
        let checkpoint = self.backup(&folder.join(format!("{number:012}{ENDING}")))?;
        let surplus = (older.len() + 1).saturating_sub(KEPT);
        for (_, path) in older.into_iter().take(surplus) {
            files::remove_file(&path)?;
        }
        Ok(checkpoint)
    }

    /// Writes the same into a file of the caller's choice, which must not be there.
    ///
    /// # Errors
    /// The file is there; a publication is under way; damage; the engine; the system.
    pub fn backup(&self, path: &Path) -> Result<Checkpoint, WriteError> {
        if path.exists() {
            return Err(FileError::new("cannot write over", path, io::ErrorKind::AlreadyExists.into()).into());
        }
        let _writer = self.writer()?;
        let temporary = files::beside(path, ".tmp");
        let written = self.watch(self.write_checkpoint(&temporary)).and_then(|(manifest, shelf_sequence)| {
            check_file(&temporary)?;
            files::rename(&temporary, path)?;
            let (revision, part_count) = (manifest.revision, manifest.part_count);
            Ok(Checkpoint { path: path.to_path_buf(), revision, part_count, shelf_sequence })
        });
        if written.is_err() {
            // The first error is the one to tell.
            let _ = files::remove_file(&temporary);
        }
        written
    }

    fn write_checkpoint(&self, path: &Path) -> Result<(Manifest, u64), WriteError> {
        let failed = |error| WriteError::from(FileError::new("cannot write", path, error));
        let store = self.engine();
        let head = fold::head(store)?;
        let shelf = {
            let _turn = self.shelf.pause();
            shelf::read_shelf(store)?
        };
        let mut writer = Writer::create(path).map_err(failed)?;
        let (manifest, shelf_sequence) = (fold::manifest(store, head.revision)?, shelf.sequence);
        writer
            .put(Piece::Opening(Opening { manifest, floor: head.floor, shelf_sequence }))
            .map_err(failed)?;
        let mut rows = Walk::of(store);
        let manifest = fold::for_each_entry(store, head.revision, |sku, entry| {
            let (key, sealed) = rows.next(&sku, &entry.row)?;
            let row = rows::open(&key, &sealed)?;
            let payload = envelope::open(Tree::Rows, &key, &sealed)?.to_vec();
            let piece = match row {
                Row::Part(_) => Piece::Row(payload),
                Row::Record(_) => Piece::Record(payload),
            };
            writer.put(piece).map_err(failed)
        })?;
        for entry in shelf.entries {
            let (currency_code, minor_units) =
                entry.price.map(|price| (price.currency_code, price.minor_units)).unwrap_or_default();
            let piece = ShelfPiece { sku: entry.sku, currency_code, minor_units, stock: entry.stock };
            writer.put(Piece::Shelf(piece)).map_err(failed)?;
        }
        for (request, published) in requests::all(store)? {
            let row = requests::row(&request, &published);
            writer.put(Piece::Request(RequestPiece { id: request.id, row })).map_err(failed)?;
        }
        writer.finish().map_err(failed)?;
        Ok((manifest, shelf_sequence))
    }
}

/// Reads a file back that was just written.
fn check_file(path: &Path) -> Result<(), WriteError> {
    checkpoint_file::read(path, |_| Ok(())).map_err(|error| match error {
        OpenError::File(error) => error.into(),
        other => FileError::new("cannot verify", path, io::Error::other(other.to_string())).into(),
    })
}

/// Checkpoints in a folder with their numbers, oldest first; none where there is no folder.
pub(crate) fn list(folder: &Path) -> Result<Vec<(u64, PathBuf)>, FileError> {
    let failed = |error| FileError::new("cannot list", folder, error);
    let items = match fs::read_dir(folder) {
        Ok(items) => items,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(failed(error)),
    };
    let mut found = Vec::new();
    for item in items {
        let path = item.map_err(failed)?.path();
        let number = path.file_name().and_then(|name| name.to_str()?.strip_suffix(ENDING)?.parse().ok());
        found.extend(number.map(|number| (number, path)));
    }
    found.sort();
    Ok(found)
}
