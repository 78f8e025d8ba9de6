//! What was acknowledged to callers, kept in a small file beside the engine.
//!
//! A cut log opens as an older state that is consistent in itself. Only something outside the engine can tell that
//! acknowledged changes are gone. Two slots are written in turn, so that a torn write leaves the one before.

use std::fs::{File, OpenOptions};
use std::io::{Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use prost::Message as _;

use super::engine::Tree;
use super::envelope;
use super::files::WITNESS;
use super::record::Acknowledged;
use crate::error::FileError;

const SLOT_BYTES: usize = 512;

/// The open file.
pub(crate) struct Witness {
    path: PathBuf,
    file: File,
    last: Acknowledged,
}

impl Witness {
    /// Opens the file in a store's folder, making it where there is none.
    pub fn open(folder: &Path) -> Result<Self, FileError> {
        let path = folder.join(WITNESS);
        let file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path)
            .map_err(|error| FileError::new("cannot open", &path, error))?;
        let last = read(folder)?.unwrap_or_default();
        Ok(Self { path, file, last })
    }

    /// What was recorded last.
    pub fn last(&self) -> &Acknowledged {
        &self.last
    }

    /// Records what is now acknowledged; durable on return.
    pub fn record(&mut self, change: impl FnOnce(&mut Acknowledged)) -> Result<(), FileError> {
        let mut next = self.last.clone();
        change(&mut next);
        next.generation = self.last.generation + 1;
        self.write(&next).map_err(|error| FileError::new("cannot write", &self.path, error))?;
        self.last = next;
        Ok(())
    }

    fn write(&mut self, next: &Acknowledged) -> std::io::Result<()> {
        let mut slot = next.encode_length_delimited_to_vec();
        slot.resize(SLOT_BYTES - 5, 0);
        let slot = envelope::seal(&slot);
        let offset = if next.generation.is_multiple_of(2) { 0 } else { SLOT_BYTES as u64 };
        self.file.seek(SeekFrom::Start(offset))?;
        self.file.write_all(&slot)?;
        self.file.sync_data()
    }
}

/// The newer slot that is whole; `None` where there is none.
pub(crate) fn read(folder: &Path) -> Result<Option<Acknowledged>, FileError> {
    let path = folder.join(WITNESS);
    let mut bytes = Vec::new();
    match File::open(&path).and_then(|mut file| file.read_to_end(&mut bytes)) {
        Ok(_) => {}
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(FileError::new("cannot read", &path, error)),
    }
    let slots = bytes.chunks_exact(SLOT_BYTES);
    let whole = slots.filter_map(|slot| {
        let payload = envelope::open(Tree::Meta, WITNESS.as_bytes(), slot).ok()?;
        Acknowledged::decode_length_delimited(payload).ok()
    });
    Ok(whole.max_by_key(|slot| slot.generation))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_torn_slot_leaves_the_one_before() {
        let folder = tempfile::tempdir().unwrap();
        assert_eq!(read(folder.path()).unwrap(), None);
        let mut witness = Witness::open(folder.path()).unwrap();
        for revision in 1..=5 {
            witness.record(|last| last.revision = revision).unwrap();
            assert_eq!(read(folder.path()).unwrap().unwrap().revision, revision);
        }
        let path = folder.path().join(WITNESS);
        let mut bytes = std::fs::read(&path).unwrap();
        // Generation 5 is odd, so it stands in the second slot.
        bytes[SLOT_BYTES + 20] ^= 1;
        std::fs::write(&path, &bytes).unwrap();
        assert_eq!(read(folder.path()).unwrap().unwrap().revision, 4);
        assert_eq!(Witness::open(folder.path()).unwrap().last.generation, 4);
        bytes.truncate(SLOT_BYTES / 2);
        std::fs::write(&path, &bytes).unwrap();
        assert_eq!(read(folder.path()).unwrap(), None);
    }
}
