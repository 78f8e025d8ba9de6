//! Statements, rulings, interfaces and aliases: pages, and changes to them.

use sprag_catalogue::records::{UpdateError, name_of, write_key};
use sprag_catalogue::{Catalogue, View};
use sprag_proto::v1 as pb;
use tonic::Status;

use super::import::import_status;
use super::invalid;
use super::page::{read_page_token, write_page_token};
use crate::rpc::now_unix;
use crate::rpc::status::Refusal;

const PAGE_DEFAULT: usize = 100;
const PAGE_MAX: usize = 1000;

/// A page of records in order of type and id.
pub(super) fn list_records(
    view: &View,
    request: &pb::ListRecordsRequest,
) -> Result<pb::ListRecordsResponse, Status> {
    let size = match usize::try_from(request.page_size) {
        Ok(0) => PAGE_DEFAULT,
        Ok(size) => size.min(PAGE_MAX),
        Err(_) => return Err(invalid("page_size", request.page_size.to_string(), "0 or more")),
    };
    let wanted = pb::RecordType::try_from(request.r#type).map_err(|_| {
        invalid("type", request.r#type.to_string(), "interface, alias, statement or ruling; 0 = all")
    })?;
    let filter = format!("{}/records/{}", view.snapshot.revision().digest, request.r#type);
    let start = read_page_token(&request.page_token, &filter)?;
    let keyed = view.snapshot.records().iter().filter_map(|record| Some((name_of(record)?, record)));
    let mut page: Vec<(String, &pb::Record)> = keyed
        .filter(|(name, _)| wanted == pb::RecordType::Unspecified || name.r#type() == wanted)
        .map(|(name, record)| (write_key(&name), record))
        .filter(|(key, _)| start.as_ref().is_none_or(|start| key > start))
        .take(size + 1)
        .collect();
    let more = page.len() > size;
    page.truncate(size);
    let next_page_token = match page.last() {
        Some((key, _)) if more => write_page_token(key, &filter),
        _ => String::new(),
    };
    Ok(pb::ListRecordsResponse {
        records: page.into_iter().map(|(_, record)| record.clone()).collect(),
        next_page_token,
        basis: Some(crate::rpc::basis::basis(view, None)),
    })
}

/// Puts and removes records.
pub(super) fn update_records(
    catalogue: &Catalogue,
    request: &pb::UpdateRecordsRequest,
) -> Result<pb::UpdateRecordsResponse, Status> {
    catalogue.update_records(request, now_unix()).map_err(|error| match error {
        UpdateError::Invalid(faults) => Refusal::Invalid(faults).into(),
        UpdateError::Store(error) => import_status(error),
    })
}
