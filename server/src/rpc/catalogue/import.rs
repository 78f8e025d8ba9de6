//! Imports: the bytes of a file as they arrive, handed to the catalogue's reader off the async threads.

use std::io::{self, Read};

use sprag_catalogue::{ImportError, ImportOptions};
use sprag_proto::v1 as pb;
use sprag_proto::v1::import_parts_request::Piece;
use tokio::sync::mpsc;
use tonic::{Status, Streaming};

use super::CatalogueRpc;
use crate::rpc::now_unix;
use crate::rpc::status::{Refusal, out_of_order};

/// A stream that sends nothing for this long has broken off; only one import runs at a time.
const IDLE: std::time::Duration = std::time::Duration::from_secs(30);

/// What arrives of an import. The end is told: a caller who goes away in the middle closes the channel without it.
enum Arriving {
    Bytes(Vec<u8>),
    End,
    Broken(String),
}

/// The bytes of an import as they arrive.
struct Chunks {
    arriving: mpsc::Receiver<Arriving>,
    current: Vec<u8>,
    read: usize,
    ended: bool,
}

impl Read for Chunks {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let broken = |why: String| io::Error::new(io::ErrorKind::ConnectionAborted, why);
        while self.read == self.current.len() && !self.ended {
            match self.arriving.blocking_recv() {
                None => return Err(broken("the import broke off before its end".to_owned())),
                Some(Arriving::Broken(why)) => return Err(broken(why)),
                Some(Arriving::End) => self.ended = true,
                Some(Arriving::Bytes(chunk)) => {
                    self.current = chunk;
                    self.read = 0;
                }
            }
        }
        let left = &self.current[self.read..];
        let count = left.len().min(buffer.len());
        buffer[..count].copy_from_slice(&left[..count]);
        self.read += count;
        Ok(count)
    }
}

/// Reads a file of parts as it arrives.
pub(super) async fn import_parts(
    service: &CatalogueRpc,
    mut pieces: Streaming<pb::ImportPartsRequest>,
) -> Result<pb::ImportPartsResponse, Status> {
    let first = pieces.message().await?.and_then(|message| message.piece);
    let Some(Piece::Header(header)) = first else {
        return Err(out_of_order("the first message of an import must be its header"));
    };
    let options = ImportOptions { header, now_unix: now_unix() };
    let (sender, arriving) = mpsc::channel(4);
    let work = service.blocking(move |catalogue| {
        let source = Chunks { arriving, current: Vec::new(), read: 0, ended: false };
        catalogue.import(source, &options).map_err(import_status)
    });
    let feed = async move {
        loop {
            let piece = match tokio::time::timeout(IDLE, pieces.message()).await {
                Err(_) => Arriving::Broken("nothing arrived for 30 seconds".to_owned()),
                Ok(Ok(None)) => Arriving::End,
                Ok(Ok(Some(pb::ImportPartsRequest { piece: Some(Piece::Chunk(bytes)) }))) => {
                    Arriving::Bytes(bytes)
                }
                Ok(Ok(Some(_))) => Arriving::Broken("after the header, only chunks may follow".to_owned()),
                Ok(Err(status)) => Arriving::Broken(status.message().to_owned()),
            };
            let last = !matches!(piece, Arriving::Bytes(_));
            if sender.send(piece).await.is_err() || last {
                return;
            }
        }
    };
    let (response, ()) = tokio::join!(work, feed);
    response
}

pub(super) fn import_status(error: ImportError) -> Status {
    match error {
        ImportError::Write(error) => Refusal::Write(error).into(),
        ImportError::Read(error) => Refusal::Read(error).into(),
        ImportError::Source(error) => out_of_order(&error.to_string()),
        ImportError::Header(fault) => Refusal::Invalid(vec![fault]).into(),
    }
}
