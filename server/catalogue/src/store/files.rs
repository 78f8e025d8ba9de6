//! Small file operations that are safe over a crash, and the names inside a store's folder.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

use crate::error::FileError;

/// Says that the folder is a store, and in which format.
pub(crate) const MARKER: &str = "STORE";
/// Says that the last process closed it, and lists the files as it left them.
pub(crate) const CLEAN: &str = "CLEAN";
/// What was acknowledged.
pub(crate) const WITNESS: &str = "ACKNOWLEDGED";
/// Held by the process that has it open.
pub(crate) const LOCK: &str = "LOCK";
/// The engine's own folder.
pub(crate) const DATA: &str = "data";

/// A sibling of the store's folder: its name with something appended.
pub(crate) fn beside(path: &Path, suffix: &str) -> PathBuf {
    let mut name = path.file_name().map_or_else(|| OsString::from("store"), OsString::from);
    name.push(suffix);
    path.with_file_name(name)
}

/// Writes a file whole: into a temporary name, synced, renamed, folder synced.
pub(crate) fn write_whole(path: &Path, content: &[u8]) -> Result<(), FileError> {
    let temporary = beside(path, ".tmp");
    let failed = |error| FileError::new("cannot write", &temporary, error);
    let mut file = File::create(&temporary).map_err(failed)?;
    file.write_all(content).map_err(failed)?;
    file.sync_all().map_err(failed)?;
    rename(&temporary, path)
}

/// Renames and makes it last.
pub(crate) fn rename(from: &Path, to: &Path) -> Result<(), FileError> {
    fs::rename(from, to).map_err(|error| FileError::new("cannot rename to", to, error))?;
    sync_folder_of(to)
}

/// Makes the names in the folder of `path` last.
pub(crate) fn sync_folder_of(path: &Path) -> Result<(), FileError> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    File::open(folder)
        .and_then(|file| file.sync_all())
        .map_err(|error| FileError::new("cannot sync", folder, error))
}

/// Reads a text file; `None` where there is none.
pub(crate) fn read_text(path: &Path) -> Result<Option<String>, FileError> {
    match fs::read(path) {
        Ok(bytes) => Ok(Some(String::from_utf8_lossy(&bytes).into_owned())),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(FileError::new("cannot read", path, error)),
    }
}

/// Removes a file; it need not be there.
pub(crate) fn remove_file(path: &Path) -> Result<(), FileError> {
    match fs::remove_file(path) {
        Ok(()) => sync_folder_of(path),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(()),
        Err(error) => Err(FileError::new("cannot remove", path, error)),
    }
}

/// Removes a folder with all that is in it; it need not be there.
pub(crate) fn remove_folder(path: &Path) -> Result<(), FileError> {
    match fs::remove_dir_all(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(FileError::new("cannot remove", path, error))
        }
        _ => Ok(()),
    }
}

/// Makes a folder and those above it.
pub(crate) fn make_folder(path: &Path) -> Result<(), FileError> {
    fs::create_dir_all(path).map_err(|error| FileError::new("cannot make", path, error))
}

/// Files under a folder, by path relative to it, in order.
pub(crate) fn list(folder: &Path) -> Result<Vec<PathBuf>, FileError> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(current) = open.pop() {
        let failed = |error| FileError::new("cannot list", &current, error);
        for item in fs::read_dir(&current).map_err(failed)? {
            let item = item.map_err(failed)?;
            if item.file_type().map_err(failed)?.is_dir() {
                open.push(item.path());
            } else if let Ok(relative) = item.path().strip_prefix(folder) {
                found.push(relative.to_path_buf());
            }
        }
    }
    found.sort();
    Ok(found)
}

/// Copies the files under a folder that `wanted` names, synced.
pub(crate) fn copy_folder(from: &Path, to: &Path, wanted: &dyn Fn(&Path) -> bool) -> Result<(), FileError> {
    make_folder(to)?;
    for relative in list(from)?.into_iter().filter(|relative| wanted(relative)) {
        let target = to.join(&relative);
        if let Some(folder) = target.parent() {
            make_folder(folder)?;
        }
        fs::copy(from.join(&relative), &target)
            .map_err(|error| FileError::new("cannot copy to", &target, error))?;
        OpenOptions::new()
            .read(true)
            .open(&target)
            .and_then(|file| file.sync_all())
            .map_err(|error| FileError::new("cannot sync", &target, error))?;
    }
    Ok(())
}

/// Size in bytes and CRC32C of a file.
pub(crate) fn checksum(path: &Path) -> Result<(u64, u32), FileError> {
    let failed = |error| FileError::new("cannot read", path, error);
    let mut file = File::open(path).map_err(failed)?;
    let mut buffer = vec![0; 256 * 1024];
    let (mut size, mut checksum) = (0_u64, 0_u32);
    loop {
        let read = match file.read(&mut buffer) {
            Ok(0) => return Ok((size, checksum)),
            Ok(read) => read,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            Err(error) => return Err(failed(error)),
        };
        let piece = buffer.get(..read).unwrap_or_default();
        checksum = crc32c::crc32c_append(checksum, piece);
        size += piece.len() as u64;
    }
}
