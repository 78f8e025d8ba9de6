//! Parts: one by its identifiers, pages, and the export.

use sprag_catalogue::View;
use sprag_engine::part::Kind;
use sprag_proto::text::{Fault, gtin14, nearest};
use sprag_proto::v1 as pb;
use tokio::sync::mpsc;
use tonic::Status;

use super::page::{read_page_token, write_page_token};
use super::{Pieces, invalid};
use crate::rpc::status::{Refusal, broken};

const PAGE_DEFAULT: usize = 100;
const PAGE_MAX: usize = 1000;
/// Bytes of an export sent at once.
const CHUNK: usize = 256 << 10;

/// One part by SKU, GTIN or maker's number.
pub(super) fn get_part(view: &View, request: pb::GetPartRequest) -> Result<pb::GetPartResponse, Status> {
    use pb::get_part_request::Reference;
    let (found, name, near) = match request.reference {
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
    Ok(pb::GetPartResponse { part, basis: Some(crate::rpc::basis::basis(view, None)) })
}

/// A page of parts in order of SKU.
pub(super) fn list_parts(
    view: &View,
    request: &pb::ListPartsRequest,
) -> Result<pb::ListPartsResponse, Status> {
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
            && (!request.in_stock || view.shelf.stock(&stocked.message.sku).is_some_and(|stock| stock > 0))
    };
    let mut page: Vec<&sprag_catalogue::Stocked> =
        parts[from..].iter().filter(wanted).take(size + 1).collect();
    let more = page.len() > size;
    page.truncate(size);
    let next_page_token = match page.last() {
        Some(last) if more => write_page_token(&last.message.sku, &filter),
        _ => String::new(),
    };
    Ok(pb::ListPartsResponse {
        parts: page.into_iter().map(|stocked| view.catalogued(stocked)).collect(),
        next_page_token,
        basis: Some(crate::rpc::basis::basis(view, None)),
    })
}

/// Every part as whole lines of NDJSON.
pub(super) fn export_parts(view: View) -> Pieces {
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
    Box::pin(tokio_stream::wrappers::ReceiverStream::new(pieces))
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
