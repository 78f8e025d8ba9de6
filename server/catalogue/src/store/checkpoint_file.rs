//! A checkpoint file: the published revision, the shelf and the outcomes of requests, in one file that verifies itself.
//!
//! A first line of text, then protobuf messages, each after its length: an opening with the manifest, the records and the
//! parts in order of stock number, the shelf, the requests, and a closing with the counts and the SHA-256 of all bytes before it.

use std::fs::File;
use std::io::{self, BufReader, BufWriter, Read, Write};
use std::path::Path;

use prost::{Message, Oneof};
use sha2::{Digest as _, Sha256};

use super::digest::{SetDigest, hex, sha256};
use super::engine::{Batch, KeyValueStore, Tree};
use super::envelope;
use super::record::{self, Acknowledged, HEAD, Head, Manifest, RequestRow, delta_key, revision_key};
use super::rows::{self, Row};
use super::shelf::{self, Shelf, ShelfEntry};
use super::{draft, requests};
use crate::error::{FileError, OpenError};

const FIRST_LINE: &[u8] = b"sprag checkpoint, format 1\n";
/// Longer pieces are damage: no part is as large.
const MAX_PIECE_BYTES: u64 = 1024 * 1024;
/// Two for each part or record.
const BATCH_WRITES: usize = 1_000;

#[derive(Clone, PartialEq, Message)]
struct Envelope {
    #[prost(oneof = "Piece", tags = "1, 2, 3, 4, 5, 6")]
    piece: Option<Piece>,
}

#[derive(Clone, PartialEq, Oneof)]
pub(crate) enum Piece {
    #[prost(message, tag = "1")]
    Opening(Opening),
    /// An encoded part.
    #[prost(bytes, tag = "2")]
    Row(Vec<u8>),
    #[prost(message, tag = "3")]
    Shelf(ShelfPiece),
    #[prost(message, tag = "4")]
    Request(RequestPiece),
    #[prost(message, tag = "5")]
    Closing(Closing),
    /// An encoded statement, ruling, interface or alias.
    #[prost(bytes, tag = "6")]
    Record(Vec<u8>),
}

#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Opening {
    #[prost(message, required, tag = "1")]
    pub manifest: Manifest,
    #[prost(uint64, tag = "2")]
    pub floor: u64,
    #[prost(uint64, tag = "3")]
    pub shelf_sequence: u64,
}

#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct ShelfPiece {
    #[prost(string, tag = "1")]
    pub sku: String,
    #[prost(string, tag = "2")]
    pub currency_code: String,
    #[prost(int64, tag = "3")]
    pub minor_units: i64,
    #[prost(uint64, optional, tag = "4")]
    pub stock: Option<u64>,
}

#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct RequestPiece {
    #[prost(string, tag = "1")]
    pub id: String,
    #[prost(message, required, tag = "2")]
    pub row: RequestRow,
}

#[derive(Clone, PartialEq, Eq, Message)]
pub(crate) struct Closing {
    #[prost(uint64, tag = "1")]
    pub pieces: u64,
    #[prost(bytes = "vec", tag = "2")]
    pub sha256: Vec<u8>,
}

/// Writes a checkpoint file piece by piece.
pub(crate) struct Writer {
    file: BufWriter<File>,
    hash: Sha256,
    pieces: u64,
}

impl Writer {
    pub fn create(path: &Path) -> io::Result<Self> {
        let mut file = BufWriter::new(File::create(path)?);
        file.write_all(FIRST_LINE)?;
        let mut hash = Sha256::new();
        hash.update(FIRST_LINE);
        Ok(Self { file, hash, pieces: 0 })
    }

    pub fn put(&mut self, piece: Piece) -> io::Result<()> {
        let bytes = Envelope { piece: Some(piece) }.encode_length_delimited_to_vec();
        self.hash.update(&bytes);
        self.pieces += 1;
        self.file.write_all(&bytes)
    }

    /// Writes the closing and syncs.
    pub fn finish(mut self) -> io::Result<()> {
        let closing = Closing { pieces: self.pieces, sha256: self.hash.clone().finalize().to_vec() };
        self.put(Piece::Closing(closing))?;
        self.file.into_inner().map_err(io::IntoInnerError::into_error)?.sync_all()
    }
}

/// Reads a checkpoint file. Only when this returns `Ok` may what was visited be used.
pub(crate) fn read(
    path: &Path,
    mut visit: impl FnMut(Piece) -> Result<(), OpenError>,
) -> Result<(), OpenError> {
    let bad = |why: String| OpenError::BadCheckpoint { path: path.to_path_buf(), why };
    let failed = |error| OpenError::from(FileError::new("cannot read", path, error));
    let mut file = BufReader::new(File::open(path).map_err(failed)?);
    let mut first = Vec::new();
    file.by_ref().take(FIRST_LINE.len() as u64).read_to_end(&mut first).map_err(failed)?;
    if first != FIRST_LINE {
        let (wanted, found) = (FIRST_LINE.escape_ascii(), first.escape_ascii());
        return Err(bad(format!("wanted {wanted} at its start, found {found}")));
    }
    let mut hash = Sha256::new();
    hash.update(&first);
    for pieces in 0.. {
        let bytes = read_piece(&mut file).map_err(|error| bad(format!("piece {pieces}: {error}")))?;
        let piece =
            Envelope::decode_length_delimited(bytes.as_slice()).ok().and_then(|envelope| envelope.piece);
        let found = hex(&hash.clone().finalize());
        hash.update(&bytes);
        match piece {
            None => return Err(bad(format!("piece {pieces}: wanted a known message"))),
            Some(Piece::Closing(closing)) => {
                let wanted = (closing.pieces, hex(&closing.sha256));
                if wanted != (pieces, found.clone()) {
                    return Err(bad(format!(
                        "wanted {wanted:?} pieces and SHA-256, found {:?}",
                        (pieces, found)
                    )));
                }
                let mut rest = [0];
                return match file.read(&mut rest).map_err(failed)? {
                    0 => Ok(()),
                    _ => Err(bad("wanted nothing after the closing, found more".into())),
                };
            }
            Some(piece) => visit(piece)?,
        }
    }
    Err(bad("it does not end".into()))
}

/// What a checkpoint file says of itself; the rest is not looked at.
pub(crate) fn opening(path: &Path) -> Result<Opening, OpenError> {
    let bad = |why: String| OpenError::BadCheckpoint { path: path.to_path_buf(), why };
    let failed = |error| OpenError::from(FileError::new("cannot read", path, error));
    let mut file = BufReader::new(File::open(path).map_err(failed)?);
    file.by_ref().take(FIRST_LINE.len() as u64).read_to_end(&mut Vec::new()).map_err(failed)?;
    let bytes = read_piece(&mut file).map_err(failed)?;
    match Envelope::decode_length_delimited(bytes.as_slice()).ok().and_then(|envelope| envelope.piece) {
        Some(Piece::Opening(opening)) => Ok(opening),
        _ => Err(bad("wanted an opening as the first piece".into())),
    }
}

/// The bytes of one piece, with its length before it.
fn read_piece(file: &mut impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let mut length = 0_u64;
    for shift in [0, 7, 14] {
        let mut byte = [0_u8; 1];
        file.read_exact(&mut byte)?;
        let [byte] = byte;
        bytes.push(byte);
        length |= u64::from(byte & 0x7F) << shift;
        if byte & 0x80 == 0 {
            break;
        }
    }
    if length > MAX_PIECE_BYTES {
        return Err(io::Error::other(format!("wanted at most {MAX_PIECE_BYTES} bytes, found {length}")));
    }
    let wanted = bytes.len() as u64 + length;
    file.take(length).read_to_end(&mut bytes)?;
    if bytes.len() as u64 == wanted { Ok(bytes) } else { Err(io::ErrorKind::UnexpectedEof.into()) }
}

/// Puts the pieces of a checkpoint into an empty engine.
pub(crate) struct Filler<'a> {
    store: &'a dyn KeyValueStore,
    acknowledged: Acknowledged,
    opening: Option<Opening>,
    digest: SetDigest,
    parts: u64,
    records: u64,
    shelf: Shelf,
    requests: Batch,
    pending: Batch,
}

impl<'a> Filler<'a> {
    pub fn new(store: &'a dyn KeyValueStore, acknowledged: Option<&Acknowledged>) -> Self {
        Self {
            store,
            acknowledged: acknowledged.cloned().unwrap_or_default(),
            opening: None,
            digest: SetDigest::default(),
            parts: 0,
            records: 0,
            shelf: Shelf::default(),
            requests: Batch::default(),
            pending: Batch::default(),
        }
    }

    pub fn take(&mut self, piece: Piece) -> Result<(), OpenError> {
        match piece {
            Piece::Opening(opening) => self.opening = Some(opening),
            Piece::Row(encoded) => {
                self.take_row(&Row::Part(record::decode(Tree::Rows, b"a part", &encoded)?), &encoded)?;
                self.parts += 1;
            }
            Piece::Record(encoded) => {
                self.take_row(&Row::Record(record::decode(Tree::Rows, b"a record", &encoded)?), &encoded)?;
                self.records += 1;
            }
            Piece::Shelf(piece) => {
                let (currency_code, minor_units) = (piece.currency_code, piece.minor_units);
                let price =
                    (!currency_code.is_empty()).then_some(shelf::Money { currency_code, minor_units });
                self.shelf.entries.push(ShelfEntry { sku: piece.sku, price, stock: piece.stock });
            }
            Piece::Request(piece) => requests::put(&mut self.requests, &piece.id, &piece.row),
            Piece::Closing(_) => {}
        }
        Ok(())
    }

    fn take_row(&mut self, row: &Row, encoded: &[u8]) -> Result<(), OpenError> {
        let revision = self.opening.as_ref().map_or(0, |opening| opening.manifest.revision);
        let hash = sha256(encoded);
        let key = row.key();
        let entry = draft::entry(row, hash)?;
        self.digest.add(key.as_bytes(), &hash);
        self.pending.put(Tree::Deltas, delta_key(revision, &key), envelope::seal_message(&entry));
        self.pending.put(Tree::Rows, rows::key(&key, &hash), envelope::seal(encoded));
        if self.pending.len() >= BATCH_WRITES {
            self.store.apply(std::mem::take(&mut self.pending))?;
            self.store.flush()?;
        }
        Ok(())
    }

    /// Writes what is left and the head; returns what may be acknowledged.
    pub fn finish(mut self) -> Result<Acknowledged, OpenError> {
        let wrong = |wanted: String, found: String| {
            let what = "content of the checkpoint".into();
            OpenError::from(crate::error::ReadError::Mismatch { what, wanted, found })
        };
        let Some(Opening { mut manifest, floor, shelf_sequence }) = self.opening else {
            return Err(wrong("an opening".into(), "none".into()));
        };
        let found = (self.parts, self.records, hex(&self.digest.to_bytes()));
        let wanted = (manifest.part_count, manifest.record_count, hex(&manifest.digest));
        if wanted != found {
            return Err(wrong(format!("{wanted:?}"), format!("{found:?}")));
        }
        manifest.is_base = true;
        self.shelf.sequence = shelf_sequence;
        if self.acknowledged.shelf_sequence > shelf_sequence {
            // Callers have seen higher numbers for another content, so the restored shelf is a new state.
            self.shelf.sequence = self.acknowledged.shelf_sequence + 1;
        }
        shelf::fill(self.store, &self.shelf)?;
        let head = Head { revision: manifest.revision, floor: floor.max(self.acknowledged.revision) };
        let mut batch = self.pending;
        batch.writes.append(&mut self.requests.writes);
        batch.put(Tree::Manifests, revision_key(manifest.revision), envelope::seal_message(&manifest));
        batch.put(Tree::Meta, HEAD, envelope::seal_message(&head));
        self.store.apply(batch)?;
        Ok(Acknowledged {
            revision: manifest.revision,
            digest: manifest.digest,
            shelf_sequence: self.shelf.sequence,
            generation: self.acknowledged.generation,
        })
    }
}
