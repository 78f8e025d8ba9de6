//! sprag catalogue statements, rulings, interfaces and aliases.

use std::path::Path;

use anyhow::{Context, bail};
use serde_json::Value as Json;
use sprag_proto::v1 as pb;
use sprag_proto::v1::import_parts_request::Piece;

use super::catalogue::report;
use crate::args::{Format, Publish, Records};
use crate::connect::Service;
use crate::output;

/// Bytes of a file sent at once.
const CHUNK: usize = 256 << 10;
/// What a line of a file may be, by the name that the API gives it.
const NAMES: [&str; 4] = ["interface", "alias", "statement", "ruling"];

/// Lists, imports or removes records of one type.
pub async fn records(
    asked: Records,
    found: pb::RecordType,
    service: &Service,
    format: Format,
) -> anyhow::Result<u8> {
    match asked {
        Records::List => list(found, service, format).await,
        Records::Import { file, publish: Publish { validate_only, request_id, author, note } } => {
            let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            let header = pb::ImportHeader {
                format: pb::FileFormat::Ndjson.into(),
                mode: pb::ImportMode::Delta.into(),
                validate_only,
                request_id,
                file_name: name,
                author,
                note,
                ..pb::ImportHeader::default()
            };
            import(&file, header, found, service, format).await
        }
        Records::Remove { ids, publish: Publish { validate_only, request_id, author, note } } => {
            let remove = ids.into_iter().map(|id| pb::RecordName { r#type: found.into(), id }).collect();
            let request =
                pb::UpdateRecordsRequest { put: Vec::new(), remove, validate_only, request_id, author, note };
            let answer = service.catalogue(false).await?.update_records(request).await?.into_inner();
            output::print(&answer, format, output::records::updated)?;
            Ok(0)
        }
    }
}

async fn list(found: pb::RecordType, service: &Service, format: Format) -> anyhow::Result<u8> {
    let mut client = service.catalogue(false).await?;
    let mut all = pb::ListRecordsResponse::default();
    loop {
        let request = pb::ListRecordsRequest {
            page_size: 1000,
            page_token: all.next_page_token.clone(),
            r#type: found.into(),
        };
        let page = client.list_records(request).await?.into_inner();
        all.records.extend(page.records);
        all.basis = page.basis;
        all.next_page_token = page.next_page_token;
        if all.next_page_token.is_empty() {
            break;
        }
    }
    output::print(&all, format, output::records::list)?;
    Ok(0)
}

async fn import(
    file: &Path,
    header: pb::ImportHeader,
    found: pb::RecordType,
    service: &Service,
    format: Format,
) -> anyhow::Result<u8> {
    let text = std::fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))?;
    let name = found.as_str_name().trim_start_matches("RECORD_TYPE_").to_lowercase();
    let mut lines = String::with_capacity(text.len());
    for (row, line) in (1..).zip(text.lines()) {
        let line = named(line, &name).with_context(|| format!("{}, row {row}", file.display()))?;
        lines.push_str(&line);
        lines.push('\n');
    }
    let name = header.file_name.clone();
    let head = pb::ImportPartsRequest { piece: Some(Piece::Header(header)) };
    let chunks: Vec<pb::ImportPartsRequest> = lines
        .as_bytes()
        .chunks(CHUNK)
        .map(|chunk| pb::ImportPartsRequest { piece: Some(Piece::Chunk(chunk.to_vec())) })
        .collect();
    let mut client = service.catalogue(true).await?;
    let answer =
        client.import_parts(tokio_stream::iter(std::iter::once(head).chain(chunks))).await?.into_inner();
    output::print(&answer, format, |answer| report(answer, &name))?;
    let bad = answer.report.as_ref().is_some_and(|report| report.rows_bad > 0);
    Ok(u8::from(bad))
}

/// A line as the service wants it: the fields under the name of what they are. A line that is no JSON is the service's to
/// refuse.
fn named(line: &str, name: &str) -> anyhow::Result<String> {
    let Ok(Json::Object(members)) = serde_json::from_str::<Json>(line) else { return Ok(line.to_owned()) };
    if members.contains_key(name) {
        return Ok(line.to_owned());
    }
    // A statement names a "part" too, so only what cannot be a field of these tells other lines apart.
    let other = NAMES.iter().copied().chain(["sku"]).find(|other| members.contains_key(*other));
    if let Some(other) = other {
        bail!("this is no {name}, it has {other:?}; import mixed files with `sprag catalogue import`");
    }
    Ok(serde_json::json!({ name: members }).to_string())
}
