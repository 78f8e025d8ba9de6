//! The catalogue service.

use std::io::{self, Read};
use std::time::{SystemTime, UNIX_EPOCH};

use sprag_catalogue::store::{Money, ShelfEntry};
use sprag_catalogue::{Catalogue, ImportError, ImportOptions, View};
use sprag_engine::part::Kind;
use sprag_engine::part::interface::Interfaces;
use sprag_proto::text::{Fault, gtin14, minor_digits, nearest};
use sprag_proto::v1 as pb;
use sprag_proto::v1::catalogue_service_server::CatalogueService;
use sprag_proto::v1::import_parts_request::Piece;
use tokio::sync::mpsc;
use tokio_stream::Stream;
use tonic::{Request, Response, Status, Streaming};

use super::Shared;
use super::status::{Refusal, broken, out_of_order};

/// Near spellings looked for in one request: each costs a walk over the catalogue.
const NEAR_HINTS_MAX: usize = 3;
const PAGE_DEFAULT: usize = 100;
const PAGE_MAX: usize = 1000;
const SHELF_ENTRIES_MAX: usize = 1000;
const STOCK_MAX: i64 = 1_000_000;
/// Bytes of an export sent at once.
const CHUNK: usize = 256 << 10;
/// A stream that sends nothing for this long has broken off; only one import runs at a time.
const IDLE: std::time::Duration = std::time::Duration::from_secs(30);

/// Parts and shelf.
#[derive(Clone)]
pub struct CatalogueRpc {
    shared: Shared,
}

impl CatalogueRpc {
    /// The service over shared state.
    pub fn new(shared: Shared) -> Self {
        Self { shared }
    }

    fn view(&self) -> Result<View, Status> {
        Ok(self.shared.catalogue()?.view())
    }

    /// Runs blocking work on the catalogue off the async threads.
    async fn blocking<T: Send + 'static>(
        &self,
        work: impl FnOnce(&Catalogue) -> Result<T, Status> + Send + 'static,
    ) -> Result<T, Status> {
        self.shared.catalogue()?;
        let shared = self.shared.clone();
        tokio::task::spawn_blocking(move || work(shared.catalogue()?))
            .await
            .map_err(|_| broken("the work failed"))?
    }
}

fn invalid(path: impl Into<String>, found: impl Into<String>, wanted: impl Into<String>) -> Status {
    Refusal::Invalid(vec![Fault {
        path: path.into(),
        found: found.into(),
        wanted: wanted.into(),
        nearest: None,
    }])
    .into()
}

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

type Pieces = std::pin::Pin<Box<dyn Stream<Item = Result<pb::ExportPartsResponse, Status>> + Send>>;

#[tonic::async_trait]
impl CatalogueService for CatalogueRpc {
    type ExportPartsStream = Pieces;

    async fn import_parts(
        &self,
        request: Request<Streaming<pb::ImportPartsRequest>>,
    ) -> Result<Response<pb::ImportPartsResponse>, Status> {
        let mut pieces = request.into_inner();
        let first = pieces.message().await?.and_then(|message| message.piece);
        let Some(Piece::Header(header)) = first else {
            return Err(out_of_order("the first message of an import must be its header"));
        };
        let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_secs();
        let options = ImportOptions { header, now_unix: i64::try_from(now).unwrap_or(i64::MAX) };
        let (sender, arriving) = mpsc::channel(4);
        let work = self.blocking(move |catalogue| {
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
                    Ok(Ok(Some(_))) => {
                        Arriving::Broken("after the header, only chunks may follow".to_owned())
                    }
                    Ok(Err(status)) => Arriving::Broken(status.message().to_owned()),
                };
                let last = !matches!(piece, Arriving::Bytes(_));
                if sender.send(piece).await.is_err() || last {
                    return;
                }
            }
        };
        let (response, ()) = tokio::join!(work, feed);
        Ok(Response::new(response?))
    }

    async fn get_part(
        &self,
        request: Request<pb::GetPartRequest>,
    ) -> Result<Response<pb::GetPartResponse>, Status> {
        use pb::get_part_request::Reference;
        let view = self.view()?;
        let (found, name, near) = match request.into_inner().reference {
            None => return Err(invalid("reference", "nothing", "sku, gtin or maker_part")),
            Some(Reference::Sku(sku)) => {
                let found = view.snapshot.by_sku(&sku);
                let near = if found.is_none() { view.snapshot.near_sku(&sku) } else { None };
                (found, sku, near)
            }
            Some(Reference::Gtin(gtin)) => {
                let gtin = gtin14(&gtin).map_err(|wanted| invalid("gtin", format!("{gtin:?}"), wanted))?;
                (view.snapshot.by_gtin(&gtin), gtin, None)
            }
            Some(Reference::MakerPart(number)) => {
                let found = view.snapshot.by_maker_part(&number.brand_id, &number.number);
                (found, format!("{} {}", number.brand_id, number.number), None)
            }
        };
        let name: String = name.chars().take(100).collect();
        let stocked = found.ok_or(Refusal::NotFound { what: "part", name, nearest: near })?;
        let part = Some(view.catalogued(stocked));
        Ok(Response::new(pb::GetPartResponse { part, basis: Some(super::basis::basis(&view, None)) }))
    }

    async fn list_parts(
        &self,
        request: Request<pb::ListPartsRequest>,
    ) -> Result<Response<pb::ListPartsResponse>, Status> {
        let request = request.into_inner();
        let view = self.view()?;
        let size = match usize::try_from(request.page_size) {
            Ok(0) => PAGE_DEFAULT,
            Ok(size) => size.min(PAGE_MAX),
            Err(_) => return Err(invalid("page_size", request.page_size.to_string(), "0 or more")),
        };
        let kind = read_kind(&request.kind)?;
        let filter = format!("{}/{}/{}", view.snapshot.revision().digest, request.kind, request.in_stock);
        let start = read_page_token(&request.page_token, &filter)?;
        let parts = view.snapshot.parts();
        // A page starts after the last SKU of the one before.
        let from =
            start.map_or(0, |sku| view.snapshot.place_of(&sku).map_or_else(|place| place, |place| place + 1));
        let wanted = |stocked: &&sprag_catalogue::Stocked| {
            kind.is_none_or(|kind| stocked.part.kind == kind)
                && (!request.in_stock
                    || view.shelf.stock(&stocked.message.sku).is_some_and(|stock| stock > 0))
        };
        let mut page: Vec<&sprag_catalogue::Stocked> =
            parts[from..].iter().filter(wanted).take(size + 1).collect();
        let more = page.len() > size;
        page.truncate(size);
        let next_page_token = match page.last() {
            Some(last) if more => write_page_token(&last.message.sku, &filter),
            _ => String::new(),
        };
        Ok(Response::new(pb::ListPartsResponse {
            parts: page.into_iter().map(|stocked| view.catalogued(stocked)).collect(),
            next_page_token,
            basis: Some(super::basis::basis(&view, None)),
        }))
    }

    async fn export_parts(
        &self,
        _request: Request<pb::ExportPartsRequest>,
    ) -> Result<Response<Self::ExportPartsStream>, Status> {
        let view = self.view()?;
        let (sender, pieces) = mpsc::channel(4);
        tokio::task::spawn_blocking(move || {
            let mut chunk = String::new();
            for line in view.export() {
                match line {
                    Ok(line) => chunk.push_str(&line),
                    Err(fault) => {
                        let _ = sender.blocking_send(Err(broken(&fault.to_string())));
                        return;
                    }
                }
                if chunk.len() >= CHUNK {
                    let full = std::mem::take(&mut chunk).into_bytes();
                    if sender.blocking_send(Ok(pb::ExportPartsResponse { chunk: full })).is_err() {
                        return;
                    }
                }
            }
            if !chunk.is_empty() {
                let _ = sender.blocking_send(Ok(pb::ExportPartsResponse { chunk: chunk.into_bytes() }));
            }
        });
        Ok(Response::new(Box::pin(tokio_stream::wrappers::ReceiverStream::new(pieces))))
    }

    async fn update_shelf(
        &self,
        request: Request<pb::UpdateShelfRequest>,
    ) -> Result<Response<pb::UpdateShelfResponse>, Status> {
        let entries = read_shelf(&request.into_inner(), &self.view()?)?;
        let sequence = self
            .blocking(move |catalogue| {
                catalogue.update_shelf(&entries).map_err(|error| Refusal::Write(error).into())
            })
            .await?;
        let shelf_sequence = i64::try_from(sequence).unwrap_or(i64::MAX);
        Ok(Response::new(pb::UpdateShelfResponse { shelf_sequence }))
    }

    async fn list_interfaces(
        &self,
        request: Request<pb::ListInterfacesRequest>,
    ) -> Result<Response<pb::ListInterfacesResponse>, Status> {
        let class = request.into_inner().interface_class;
        let interfaces = Interfaces::standard_ref();
        let found: Vec<pb::Interface> = interfaces
            .of_class(&class)
            .map(|(_, found)| pb::Interface {
                key: found.key.to_owned(),
                interface_class: found.class.to_owned(),
                description: found.description.to_owned(),
                accepts: found.accepts.iter().map(|key| (*key).to_owned()).collect(),
                source: found.source.to_owned(),
            })
            .collect();
        if found.is_empty() {
            let mut classes: Vec<&str> = interfaces.of_class("").map(|(_, found)| found.class).collect();
            classes.dedup();
            let near = nearest(&class, classes.iter().copied());
            return Err(Refusal::NotFound { what: "interface class", name: class, nearest: near }.into());
        }
        Ok(Response::new(pb::ListInterfacesResponse { interfaces: found }))
    }

    async fn get_revision(
        &self,
        _request: Request<pb::GetRevisionRequest>,
    ) -> Result<Response<pb::GetRevisionResponse>, Status> {
        let view = self.view()?;
        Ok(Response::new(pb::GetRevisionResponse {
            revision: Some(view.snapshot.revision().clone()),
            basis: Some(super::basis::basis(&view, None)),
        }))
    }
}

fn import_status(error: ImportError) -> Status {
    match error {
        ImportError::Write(error) => Refusal::Write(error).into(),
        ImportError::Read(error) => Refusal::Read(error).into(),
        ImportError::Source(error) => out_of_order(&error.to_string()),
        ImportError::Header(fault) => Refusal::Invalid(vec![fault]).into(),
    }
}

fn read_kind(name: &str) -> Result<Option<Kind>, Status> {
    if name.is_empty() {
        return Ok(None);
    }
    let kinds = || sprag_engine::part::KINDS.iter().map(|spec| spec.name);
    Kind::named(name).map(Some).ok_or_else(|| {
        let fault = Fault {
            path: "kind".into(),
            found: format!("{name:?}"),
            wanted: "a kind of part".into(),
            nearest: nearest(name, kinds()),
        };
        Refusal::Invalid(vec![fault]).into()
    })
}

/// An opaque token: the last SKU, bound to revision and filter, in hexadecimal.
fn write_page_token(sku: &str, filter: &str) -> String {
    format!("{filter}\n{sku}").bytes().map(|byte| format!("{byte:02x}")).collect()
}

fn read_page_token(token: &str, filter: &str) -> Result<Option<String>, Status> {
    if token.is_empty() {
        return Ok(None);
    }
    let wrong = || {
        invalid("page_token", "another token", "the token of a previous page of the same list and revision")
    };
    let bytes: Option<Vec<u8>> = (0..token.len())
        .step_by(2)
        .map(|place| u8::from_str_radix(token.get(place..place + 2)?, 16).ok())
        .collect();
    let text = bytes.and_then(|bytes| String::from_utf8(bytes).ok()).ok_or_else(wrong)?;
    let (found, sku) = text.split_once('\n').ok_or_else(wrong)?;
    if found == filter { Ok(Some(sku.to_owned())) } else { Err(wrong()) }
}

fn read_shelf(request: &pb::UpdateShelfRequest, view: &View) -> Result<Vec<ShelfEntry>, Status> {
    let mut faults = Vec::new();
    let mut unknown = Vec::new();
    if request.entries.is_empty() || request.entries.len() > SHELF_ENTRIES_MAX {
        return Err(invalid("entries", format!("{} entries", request.entries.len()), "1 to 1000"));
    }
    let mut fault = |path: String, found: String, wanted: &str| {
        faults.push(Fault { path, found, wanted: wanted.into(), nearest: None });
    };
    for (index, entry) in request.entries.iter().enumerate() {
        let at = format!("entries[{index}]");
        if view.snapshot.by_sku(&entry.sku).is_none() {
            unknown.push(Fault {
                path: format!("{at}.sku"),
                found: format!(
                    "no part {:?} in the catalogue",
                    entry.sku.chars().take(100).collect::<String>()
                ),
                wanted: "a part of the catalogue".into(),
                nearest: if unknown.len() < NEAR_HINTS_MAX {
                    view.snapshot.near_sku(&entry.sku)
                } else {
                    None
                },
            });
        }
        if let Some(stock) = entry.stock.filter(|stock| !(0..=STOCK_MAX).contains(stock)) {
            fault(format!("{at}.stock"), stock.to_string(), "0 to 1 000 000");
        }
        if let Some(price) = &entry.price {
            if minor_digits(&price.currency_code).is_none() {
                fault(
                    format!("{at}.price.currency_code"),
                    format!("{:?}", price.currency_code),
                    "an ISO 4217 code",
                );
            }
            if price.minor_units < 0 {
                fault(format!("{at}.price.minor_units"), price.minor_units.to_string(), "0 or more");
            }
        }
    }
    if !faults.is_empty() {
        return Err(Refusal::Invalid(faults).into());
    }
    if !unknown.is_empty() {
        return Err(Refusal::UnknownParts(unknown).into());
    }
    let write = |entry: &pb::ShelfEntry| ShelfEntry {
        sku: entry.sku.clone(),
        price: entry.price.as_ref().map(|price| Money {
            currency_code: price.currency_code.clone(),
            minor_units: price.minor_units,
        }),
        stock: entry.stock.and_then(|stock| u64::try_from(stock).ok()),
    };
    Ok(request.entries.iter().map(write).collect())
}
