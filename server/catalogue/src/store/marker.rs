//! The marker files of a store's folder: what it is, who has it open, and how it was closed.

use std::fmt::Write as _;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::Path;

use super::files::{self, CLEAN, DATA, LOCK, MARKER, WITNESS};
use crate::error::{FileError, OpenError};

/// Format of the folder that this version writes and reads.
const FORMAT: u32 = 1;
const FIRST_LINE: &str = "sprag store, format ";

/// Writes the marker that makes a folder a store.
pub(crate) fn write_store_marker(path: &Path) -> Result<(), FileError> {
    files::write_whole(&path.join(MARKER), format!("{FIRST_LINE}{FORMAT}\n").as_bytes())
}

/// Refuses a folder that is not a store of this format.
pub(crate) fn check_store_marker(path: &Path) -> Result<(), OpenError> {
    let Some(text) = files::read_text(&path.join(MARKER))? else {
        let found = if path.exists() { format!("no file {MARKER} in it") } else { "no such folder".into() };
        return Err(OpenError::NotAStore { path: path.to_path_buf(), found });
    };
    let found = text.lines().next().and_then(|line| line.strip_prefix(FIRST_LINE)).unwrap_or("not named");
    if found == FORMAT.to_string() {
        return Ok(());
    }
    Err(OpenError::Format { path: path.to_path_buf(), wanted: FORMAT, found: found.into() })
}

/// Refuses a folder that has anything in it.
pub(crate) fn check_empty(path: &Path) -> Result<(), OpenError> {
    let mut items = match fs::read_dir(path) {
        Ok(items) => items,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(error) => return Err(FileError::new("cannot list", path, error).into()),
    };
    match items.next() {
        None => Ok(()),
        Some(item) => {
            let found =
                item.map_or_else(|_| "something".into(), |item| item.file_name().display().to_string());
            Err(OpenError::NotEmpty { path: path.to_path_buf(), found })
        }
    }
}

/// Takes the folder for this process; the lock goes with the file.
pub(crate) fn lock(path: &Path) -> Result<File, OpenError> {
    let name = path.join(LOCK);
    let failed = |error| FileError::new("cannot lock", &name, error);
    let file = OpenOptions::new().create(true).write(true).truncate(false).open(&name).map_err(failed)?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => Err(OpenError::Busy { path: path.to_path_buf() }),
        Err(TryLockError::Error(error)) => Err(failed(error).into()),
    }
}

/// Lists the files as they are now, with size and CRC32C: what the clean marker holds.
fn inventory(path: &Path) -> Result<String, FileError> {
    let mut text = String::from("closed cleanly; size, CRC32C and name of each file\n");
    let mut names: Vec<_> =
        files::list(&path.join(DATA))?.into_iter().map(|name| Path::new(DATA).join(name)).collect();
    names.push(WITNESS.into());
    for name in names {
        let (size, checksum) = files::checksum(&path.join(&name))?;
        // Writing into a String cannot fail.
        let _ = writeln!(text, "{size} {checksum:08x} {}", name.display());
    }
    Ok(text)
}

/// Says that the store was closed in order.
pub(crate) fn write_clean(path: &Path) -> Result<(), FileError> {
    let inventory = inventory(path)?;
    files::write_whole(&path.join(CLEAN), inventory.as_bytes())
}

/// Why the store is suspect; `None` when every file is as the last process left it.
pub(crate) fn why_suspect(path: &Path) -> Result<Option<String>, FileError> {
    let Some(marker) = files::read_text(&path.join(CLEAN))? else {
        return Ok(Some("it was not closed in order".into()));
    };
    let found = match inventory(path) {
        Ok(found) => found,
        Err(error) if error.source.kind() == io::ErrorKind::NotFound => {
            return Ok(Some(format!("a file is missing: {}", error.path.display())));
        }
        Err(error) => return Err(error),
    };
    if found == marker {
        return Ok(None);
    }
    let wanted = marker.lines().find(|line| !found.lines().any(|other| other == *line));
    let extra = found.lines().find(|line| !marker.lines().any(|other| other == *line));
    Ok(Some(format!(
        "its files changed since it was closed: wanted {:?}, found {:?}",
        wanted.unwrap_or("no more files"),
        extra.unwrap_or("no such file")
    )))
}

/// From here on only an orderly close makes the store clean again.
pub(crate) fn remove_clean(path: &Path) -> Result<(), FileError> {
    files::remove_file(&path.join(CLEAN))
}
