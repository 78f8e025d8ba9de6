//! sprag catalogue.

use std::fmt::Write;
use std::io::{Read, Write as _};
use std::path::{Path, PathBuf};

use anyhow::{Context, bail};
use sprag_proto::v1 as pb;
use sprag_proto::v1::import_parts_request::Piece;
use tokio_stream::StreamExt;

use crate::args::{Catalogue, Format, Publish};
use crate::connect::Service;
use crate::output::table::{price, table, words};
use crate::{files, output};

use super::records;

/// Bytes of a file sent at once.
const CHUNK: usize = 256 << 10;

/// Carries out a command on the catalogue.
pub async fn catalogue(given: Catalogue, service: &Service, format: Format) -> anyhow::Result<u8> {
    match given {
        Catalogue::Import {
            file,
            full,
            everything,
            supplier,
            skip_bad_rows,
            publish: Publish { validate_only, request_id, author, note },
        } => {
            let mode = match (full, everything) {
                (_, true) => pb::ImportMode::Everything,
                (true, false) => pb::ImportMode::Full,
                (false, false) => pb::ImportMode::Delta,
            };
            let header = pb::ImportHeader {
                format: file_format(&file)?.into(),
                mode: mode.into(),
                supplier,
                validate_only,
                skip_bad_rows,
                request_id,
                file_name: file
                    .file_name()
                    .map(|name| name.to_string_lossy().into_owned())
                    .unwrap_or_default(),
                author,
                note,
            };
            import(&file, header, service, format).await
        }
        Catalogue::Show { part } => {
            let request = pb::GetPartRequest { reference: Some(reference(&part)?) };
            let answer = service.catalogue(false).await?.get_part(request).await?.into_inner();
            output::print(&answer, format, |answer| answer.part.as_ref().map(show).unwrap_or_default())?;
            Ok(0)
        }
        Catalogue::List { kind, in_stock, limit } => list(kind, in_stock, limit, service, format).await,
        Catalogue::Export { file } => export(file, service).await,
        Catalogue::Shelf { sku, price, stock } => shelf(sku, price.as_deref(), stock, service, format).await,
        Catalogue::Revision => {
            let answer =
                service.catalogue(false).await?.get_revision(pb::GetRevisionRequest {}).await?.into_inner();
            output::print(&answer, format, |answer| {
                answer.revision.as_ref().map(revision).unwrap_or_default()
            })?;
            Ok(0)
        }
        Catalogue::Statements(asked) => {
            records::records(asked, pb::RecordType::Statement, service, format).await
        }
        Catalogue::Rulings(asked) => records::records(asked, pb::RecordType::Ruling, service, format).await,
        Catalogue::Aliases(asked) => records::records(asked, pb::RecordType::Alias, service, format).await,
        Catalogue::Interfaces { own: Some(asked), .. } => {
            records::records(asked, pb::RecordType::Interface, service, format).await
        }
        Catalogue::Interfaces { class, own: None } => {
            let request = pb::ListInterfacesRequest { interface_class: class };
            let answer = service.catalogue(false).await?.list_interfaces(request).await?.into_inner();
            output::print(&answer, format, interfaces)?;
            Ok(0)
        }
    }
}

fn file_format(file: &Path) -> anyhow::Result<pb::FileFormat> {
    match file.extension().map(|extension| extension.to_string_lossy().to_lowercase()).as_deref() {
        Some("csv") => Ok(pb::FileFormat::Csv),
        Some("ndjson" | "jsonl") => Ok(pb::FileFormat::Ndjson),
        _ => bail!("{}: the name of an import must end in .csv, .ndjson or .jsonl", file.display()),
    }
}

async fn import(
    file: &Path,
    header: pb::ImportHeader,
    service: &Service,
    format: Format,
) -> anyhow::Result<u8> {
    let mut source = std::fs::File::open(file).with_context(|| format!("cannot read {}", file.display()))?;
    let mut client = service.catalogue(true).await?;
    let name = file.display().to_string();
    let header = pb::ImportPartsRequest { piece: Some(Piece::Header(header)) };
    let (failed, failure) = std::sync::mpsc::channel();
    let chunks = std::iter::from_fn(move || {
        let mut chunk = vec![0; CHUNK];
        match source.read(&mut chunk) {
            Ok(0) => None,
            Ok(read) => {
                chunk.truncate(read);
                Some(pb::ImportPartsRequest { piece: Some(Piece::Chunk(chunk)) })
            }
            Err(error) => {
                let _ = failed.send(error);
                // A second header is refused, so that half a file is never taken for a whole one.
                Some(pb::ImportPartsRequest { piece: Some(Piece::Header(pb::ImportHeader::default())) })
            }
        }
    });
    let answer = client.import_parts(tokio_stream::iter(std::iter::once(header).chain(chunks))).await;
    if let Ok(error) = failure.try_recv() {
        return Err(error).with_context(|| format!("cannot read {name}"));
    }
    let answer = answer?.into_inner();
    output::print(&answer, format, |answer| report(answer, &name))?;
    let bad = answer.report.as_ref().is_some_and(|report| report.rows_bad > 0);
    Ok(u8::from(bad))
}

/// The report of an import of a file.
pub fn report(answer: &pb::ImportPartsResponse, name: &str) -> String {
    let mut out = String::new();
    let report = answer.report.clone().unwrap_or_default();
    for fault in &report.faults {
        let severity = if fault.severity == i32::from(pb::Severity::Error) { "error" } else { "warning" };
        let column = if fault.column.is_empty() { String::new() } else { format!(", {}", fault.column) };
        let near = if fault.nearest.is_empty() {
            String::new()
        } else {
            format!("; did you mean \"{}\"?", fault.nearest)
        };
        let _ = writeln!(
            out,
            "{name}, row {}{column}: {severity}: {}; {}{near}",
            fault.row, fault.value, fault.text
        );
    }
    if report.faults_left_off > 0 {
        let _ = writeln!(out, "... and {} more faults", report.faults_left_off);
    }
    let _ =
        writeln!(out, "{} rows read: {} good, {} bad", report.rows_read, report.rows_good, report.rows_bad);
    let revision = answer.revision.clone().unwrap_or_default();
    let records = [report.records_added, report.records_changed, report.records_removed];
    if answer.published {
        let _ = writeln!(
            out,
            "published revision {}: {} parts added, {} changed, {} removed; {} in all",
            revision.revision,
            report.parts_added,
            report.parts_changed,
            report.parts_removed,
            revision.part_count
        );
        if records != [0, 0, 0] {
            let [added, changed, removed] = records;
            let _ = writeln!(
                out,
                "statements, rulings, interfaces, aliases: {added} added, {changed} changed, {removed} removed; \
                 {} in all",
                revision.record_count
            );
        }
    } else {
        let _ = writeln!(out, "nothing was published; revision {} stands", revision.revision);
    }
    out
}

fn reference(given: &str) -> anyhow::Result<pb::get_part_request::Reference> {
    use pb::get_part_request::Reference;
    Ok(if let Some(gtin) = given.strip_prefix("gtin:") {
        Reference::Gtin(gtin.to_owned())
    } else if let Some(number) = given.strip_prefix("maker:") {
        Reference::MakerPart(files::maker_part(number)?)
    } else {
        Reference::Sku(given.to_owned())
    })
}

/// A part as its canonical JSON, under a line with price and stock: every attribute with its name on the wire.
fn show(found: &pb::CataloguedPart) -> String {
    let part = found.part.clone().unwrap_or_default();
    let stock = found.stock.map_or_else(|| "stock not known".to_owned(), |stock| format!("{stock} in stock"));
    let head = format!("{}  {}  ({stock}, {})\n", part.sku, part.name, price(found.price.as_ref()));
    head + &sprag_proto::json::to_json(&part, true).unwrap_or_default()
}

async fn list(
    kind: String,
    in_stock: bool,
    limit: usize,
    service: &Service,
    format: Format,
) -> anyhow::Result<u8> {
    let mut client = service.catalogue(false).await?;
    let mut all = pb::ListPartsResponse::default();
    while all.parts.len() < limit {
        let page_size = i32::try_from((limit - all.parts.len()).min(1000)).unwrap_or(1000);
        let request = pb::ListPartsRequest {
            page_size,
            page_token: all.next_page_token.clone(),
            kind: kind.clone(),
            in_stock,
        };
        let page = client.list_parts(request).await?.into_inner();
        all.parts.extend(page.parts);
        all.basis = page.basis;
        all.next_page_token = page.next_page_token;
        if all.next_page_token.is_empty() {
            break;
        }
    }
    output::print(&all, format, |all| {
        let mut lines = table(["SKU", "kind", "name", "stock", "price"]);
        for found in &all.parts {
            let part = found.part.clone().unwrap_or_default();
            let stock = found.stock.map(|stock| stock.to_string()).unwrap_or_default();
            lines.add_row([part.sku.clone(), kind_of(&part), part.name, stock, price(found.price.as_ref())]);
        }
        let more = if all.next_page_token.is_empty() { "" } else { "\nthere are more; raise --limit" };
        format!("{lines}{more}")
    })?;
    Ok(0)
}

/// The kind of a part, by the name of its field in the canonical JSON.
fn kind_of(part: &pb::Part) -> String {
    let json = sprag_proto::json::to_json(part, false).unwrap_or_default();
    let value: serde_json::Value = serde_json::from_str(&json).unwrap_or_default();
    let common = ["sku", "gtins", "makerPart", "name"];
    let kind = value
        .as_object()
        .and_then(|fields| fields.keys().find(|field| !common.contains(&field.as_str())).cloned());
    words(&snake(&kind.unwrap_or_default()))
}

fn snake(camel: &str) -> String {
    let mut out = String::new();
    for letter in camel.chars() {
        if letter.is_uppercase() {
            out.push('_');
        }
        out.extend(letter.to_lowercase());
    }
    out
}

async fn export(file: Option<PathBuf>, service: &Service) -> anyhow::Result<u8> {
    let mut client = service.catalogue(true).await?;
    let mut pieces = client.export_parts(pb::ExportPartsRequest {}).await?.into_inner();
    let mut out: Box<dyn std::io::Write> = match &file {
        Some(path) => {
            Box::new(std::fs::File::create(path).with_context(|| format!("cannot write {}", path.display()))?)
        }
        None => Box::new(std::io::stdout().lock()),
    };
    while let Some(piece) = pieces.next().await {
        out.write_all(&piece?.chunk)?;
    }
    out.flush()?;
    Ok(0)
}

async fn shelf(
    sku: String,
    price: Option<&str>,
    stock: Option<i64>,
    service: &Service,
    format: Format,
) -> anyhow::Result<u8> {
    if price.is_none() && stock.is_none() {
        bail!("nothing to set: give --price or --stock");
    }
    let price = price.map(sprag_proto::text::money_from_text).transpose();
    let price = price.map_err(|wanted| anyhow::anyhow!("--price: {wanted}"))?;
    let request = pb::UpdateShelfRequest { entries: vec![pb::ShelfEntry { sku, price, stock }] };
    let answer = service.catalogue(false).await?.update_shelf(request).await?.into_inner();
    output::print(&answer, format, |answer| format!("done; the shelf is at {}", answer.shelf_sequence))?;
    Ok(0)
}

fn revision(found: &pb::Revision) -> String {
    format!(
        "revision {}: {} parts, {} statements, rulings, interfaces and aliases, digest {}\n{} {}",
        found.revision, found.part_count, found.record_count, found.digest, found.author, found.note
    )
}

fn interfaces(answer: &pb::ListInterfacesResponse) -> String {
    let mut lines = table(["class", "key", "what it is", "takes too"]);
    for found in &answer.interfaces {
        lines.add_row([
            found.interface_class.clone(),
            found.key.clone(),
            found.description.clone(),
            found.accepts.join(", "),
        ]);
    }
    lines.to_string()
}
