//! Import of parts from NDJSON and CSV: every row is checked, and all rows are published or none.

use std::collections::HashMap;
use std::io::{self, BufRead, BufReader, Read};

use sha2::{Digest, Sha256};
use sprag_proto::text::{self, Fault};
use sprag_proto::v1 as pb;
use thiserror::Error;

use crate::convert;
use crate::error::{ReadError, WriteError};
use crate::live::Catalogue;
use crate::records::{BadRows, Others, RecordRows, unknown_sku};
use crate::report::{FaultList, count, count_records};
use crate::snapshot::write_revision;
use crate::store::{Draft, Mode, Money, Publication, RequestId, ShelfEntry};

/// Longest line of NDJSON and largest row of CSV, bytes.
const LINE_MAX: usize = 1 << 20;
/// Revisions kept for looking back.
const REVISIONS_KEPT: usize = 10;
/// Shelf entries written at once.
const SHELF_BATCH: usize = 1000;

/// How to import.
#[derive(Clone, Debug, Default)]
pub struct ImportOptions {
    /// The header of the request.
    pub header: pb::ImportHeader,
    /// Now, in seconds since 1970-01-01 UTC: the catalogue has no clock.
    pub now_unix: i64,
}

/// Why an import could not be carried out at all.
#[derive(Debug, Error)]
pub enum ImportError {
    /// The store could not write.
    #[error("{0}")]
    Write(#[from] WriteError),
    /// The store could not read.
    #[error("{0}")]
    Read(#[from] ReadError),
    /// The file could not be read.
    #[error("the file could not be read: {0}")]
    Source(#[from] io::Error),
    /// The header asks for something that does not exist.
    #[error("{0}")]
    Header(Fault),
}

impl Catalogue {
    /// Imports a file. Bad rows are in the report; nothing is published when there are any, unless they may be skipped.
    ///
    /// # Errors
    /// The file or the store failed; nothing is published then.
    pub fn import(
        &self,
        source: impl Read,
        options: &ImportOptions,
    ) -> Result<pb::ImportPartsResponse, ImportError> {
        let header = &options.header;
        let (mode, others) = match pb::ImportMode::try_from(header.mode) {
            Ok(pb::ImportMode::Full) => (Mode::Full, Others::PutAgain),
            Ok(pb::ImportMode::Everything) => (Mode::Full, Others::Go),
            Ok(_) => (Mode::Delta, Others::Stay),
            Err(_) => {
                let found = header.mode.to_string();
                return Err(ImportError::Header(fault("header.mode", &found, "delta, full or everything")));
            }
        };
        let draft = self.store.begin_publish(mode)?;
        let records = RecordRows::new(&*self.published()?, others);
        let mut import = Import::new(draft, records, &header.supplier);
        let mut source = Hashing { source, hasher: Sha256::new() };
        match pb::FileFormat::try_from(header.format) {
            Ok(pb::FileFormat::Ndjson) => import.ndjson(BufReader::new(&mut source))?,
            Ok(pb::FileFormat::Csv) => import.csv(&mut source)?,
            _ => {
                return Err(ImportError::Header(fault(
                    "header.format",
                    &header.format.to_string(),
                    "ndjson or csv",
                )));
            }
        }
        io::copy(&mut source, &mut io::sink())?;
        let content: [u8; 32] = source.hasher.finalize().into();
        self.conclude(import, content, options)
    }

    fn conclude(
        &self,
        mut import: Import<'_>,
        content: [u8; 32],
        options: &ImportOptions,
    ) -> Result<pb::ImportPartsResponse, ImportError> {
        let header = &options.header;
        import.take_records()?;
        self.warn_of_unknown_skus(&mut import);
        let changes = match import.draft.preview() {
            Ok(changes) => changes,
            Err(WriteError::DuplicateGtin { gtin, skus }) => {
                import.shared_gtin(gtin, &skus);
                return self.told(import.report, import.faults, false);
            }
            Err(error) => return Err(error.into()),
        };
        let Import { draft, mut report, mut faults, shelf, .. } = import;
        count(&mut report, changes.added, changes.changed, changes.removed);
        count_records(&mut report, changes.records);
        let whole = [pb::ImportMode::Full, pb::ImportMode::Everything].map(i32::from);
        if whole.contains(&header.mode) && report.rows_good == 0 && report.rows_bad == 0 {
            report.rows_bad = 1;
            let nothing = fault("", "no rows", "at least one part: a full import removes all others");
            faults.push(1, "", nothing, true);
        }
        let refused = report.rows_bad > 0 && !header.skip_bad_rows;
        let unreadable = report.rows_good == 0 && report.rows_bad > 0;
        if refused || unreadable || header.validate_only {
            return self.told(report, faults, false);
        }
        let request = Some(&header.request_id)
            .filter(|id| !id.is_empty())
            .map(|id| RequestId { id: id.clone(), content });
        let publication = Publication {
            author: header.author.clone(),
            note: header.note.clone(),
            created_unix: options.now_unix,
            request,
        };
        let own = draft.revision();
        let done = draft.finish(publication)?;
        // A repeated request answers as it did the first time, and changes nothing: prices may have moved on.
        count(&mut report, done.added, done.changed, done.removed);
        count_records(&mut report, done.records);
        if done.revision == own {
            for batch in shelf.chunks(SHELF_BATCH) {
                self.update_shelf(batch)?;
            }
            self.reload()?;
            self.keep_copies();
        }
        self.told(report, faults, true)
    }

    /// Writes a checkpoint beside the store and folds old revisions away. What was published stands without either.
    pub(crate) fn keep_copies(&self) {
        let copied = self.store.checkpoint().map(|_| ());
        let pruned = self.store.prune(REVISIONS_KEPT).map(|_| ());
        for failed in [copied, pruned].into_iter().filter_map(Result::err) {
            (self.on_trouble)(&failed.to_string());
        }
    }

    /// Records may speak of parts that are not there yet; more often the number is misspelt.
    fn warn_of_unknown_skus(&self, import: &mut Import<'_>) {
        let snapshot = self.view().snapshot;
        for (row, path, sku) in import.records.named_skus() {
            if !import.rows_by_sku.contains_key(&sku) && snapshot.by_sku(&sku).is_none() {
                let found = unknown_sku(row, path, &sku, &snapshot);
                let nearest = Some(found.nearest).filter(|near| !near.is_empty());
                let fault = Fault { path: found.column, found: found.value, wanted: found.text, nearest };
                import.faults.push(row, &sku, fault, false);
            }
        }
    }

    /// The answer to an import.
    fn told(
        &self,
        mut report: pb::ImportReport,
        faults: FaultList,
        published: bool,
    ) -> Result<pb::ImportPartsResponse, ImportError> {
        faults.report(&mut report);
        let revision = Some(write_revision(&self.store.head()?));
        Ok(pb::ImportPartsResponse { report: Some(report), published, revision })
    }
}

fn fault(path: &str, found: &str, wanted: &str) -> Fault {
    Fault { path: path.into(), found: found.into(), wanted: wanted.into(), nearest: None }
}

/// Computes the digest of everything that is read.
struct Hashing<R> {
    source: R,
    hasher: Sha256,
}

impl<R: Read> Read for Hashing<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let read = self.source.read(buffer)?;
        self.hasher.update(&buffer[..read]);
        Ok(read)
    }
}

/// One import under way.
struct Import<'a> {
    draft: Draft<'a>,
    report: pb::ImportReport,
    faults: FaultList,
    shelf: Vec<ShelfEntry>,
    rows_by_sku: HashMap<String, i64>,
    records: RecordRows,
    supplier: String,
}

impl<'a> Import<'a> {
    fn new(draft: Draft<'a>, records: RecordRows, supplier: &str) -> Self {
        Self {
            draft,
            report: pb::ImportReport::default(),
            faults: FaultList::default(),
            shelf: Vec::new(),
            rows_by_sku: HashMap::new(),
            records,
            supplier: supplier.to_owned(),
        }
    }

    fn ndjson(&mut self, mut source: impl BufRead) -> Result<(), ImportError> {
        let mut line = Vec::new();
        for row in 1_i64.. {
            line.clear();
            let limit = u64::try_from(LINE_MAX).unwrap_or(u64::MAX) + 1;
            if source.by_ref().take(limit).read_until(b'\n', &mut line)? == 0 {
                break;
            }
            if line.len() > LINE_MAX {
                self.bad(row, "", vec![fault("", "a longer line", "at most 1 MiB in a line")]);
                // Where the next line starts cannot be told without reading on without bound.
                break;
            }
            if line.iter().all(u8::is_ascii_whitespace) {
                continue;
            }
            self.report.rows_read += 1;
            match serde_json::from_slice(&line) {
                Err(error) => {
                    self.bad(row, "", vec![fault("", &error.to_string(), "one JSON object in a line")])
                }
                Ok(value) => match text::record_from_json(&value) {
                    Some(record) => self.record(row, record),
                    None => self.row(row, text::catalogued_part_from_json(&value), sku_of(&value))?,
                },
            }
        }
        Ok(())
    }

    fn csv(&mut self, source: impl Read) -> Result<(), ImportError> {
        let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(source);
        let header: Vec<String> = match reader.headers() {
            Ok(header) => header.iter().map(str::to_owned).collect(),
            Err(error) => return self.csv_error(&error, 1),
        };
        let faults = text::check_header(&header);
        if !faults.is_empty() {
            self.bad(1, "", faults);
            return Ok(());
        }
        let sku_column = header.iter().position(|name| name.eq_ignore_ascii_case("sku"));
        let mut record = csv::StringRecord::new();
        loop {
            let row = i64::try_from(reader.position().line()).unwrap_or(i64::MAX);
            match reader.read_record(&mut record) {
                Ok(false) => return Ok(()),
                Ok(true) => {
                    self.report.rows_read += 1;
                    let cells: Vec<String> = record.iter().map(str::to_owned).collect();
                    let sku = sku_column.and_then(|column| cells.get(column).cloned()).unwrap_or_default();
                    let row = record.position().map_or(row, |at| i64::try_from(at.line()).unwrap_or(row));
                    self.row(row, text::catalogued_part_from_row(&header, &cells), sku)?;
                }
                Err(error) => {
                    self.report.rows_read += 1;
                    self.csv_error(&error, row)?;
                    if matches!(error.kind(), csv::ErrorKind::Io(_)) {
                        return Ok(());
                    }
                }
            }
        }
    }

    fn csv_error(&mut self, error: &csv::Error, row: i64) -> Result<(), ImportError> {
        if let csv::ErrorKind::Io(source) = error.kind() {
            return Err(io::Error::new(source.kind(), error.to_string()).into());
        }
        let row = error.position().map_or(row, |at| i64::try_from(at.line()).unwrap_or(row));
        self.bad(row, "", vec![fault("", &error.to_string(), "as many cells as the header, in UTF-8")]);
        Ok(())
    }

    /// A row that is a statement, ruling, interface or alias.
    fn record(&mut self, row: i64, read: Result<pb::Record, Vec<Fault>>) {
        let taken = read.and_then(|record| self.records.add(row, record).map_err(|fault| vec![fault]));
        if let Err(faults) = taken {
            self.bad(row, "", faults);
        }
    }

    /// Tells of bad records, which were left out.
    fn bad_records(&mut self, bad: BadRows) {
        for (row, faults) in bad {
            self.bad(row, "", faults);
        }
    }

    /// Checks what is left of the records, and puts them into the draft.
    fn take_records(&mut self) -> Result<(), WriteError> {
        let (_, bad) = self.records.registry();
        self.bad_records(bad);
        self.report.rows_good += self.records.count();
        self.records.put(&mut self.draft)
    }

    fn row(
        &mut self,
        row: i64,
        read: Result<pb::CataloguedPart, Vec<Fault>>,
        sku: String,
    ) -> Result<(), ImportError> {
        let catalogued = match read {
            Ok(catalogued) => catalogued,
            Err(faults) => {
                self.bad(row, &sku, faults);
                return Ok(());
            }
        };
        let mut part = catalogued.part.unwrap_or_default();
        let (registry, bad) = self.records.registry();
        let read = convert::part_in(&part, "", registry, &self.supplier);
        if read.is_ok() {
            convert::translate(&mut part, registry, &self.supplier);
        }
        self.bad_records(bad);
        if let Err(faults) = read {
            self.bad(row, &sku, faults);
            return Ok(());
        }
        if let Some(earlier) = self.rows_by_sku.get(&part.sku) {
            let found = format!("{:?}, which row {earlier} has too", part.sku);
            self.bad(row, &sku, vec![fault("sku", &found, "each SKU once in a file")]);
            return Ok(());
        }
        for warning in text::warnings(&part) {
            self.faults.push(row, &part.sku, warning, false);
        }
        match self.draft.put(&part) {
            Ok(()) => {}
            Err(
                error @ (WriteError::Sku { .. }
                | WriteError::ControlCharacter { .. }
                | WriteError::TooLarge { .. }
                | WriteError::Gtin { .. }),
            ) => {
                self.bad(
                    row,
                    &sku,
                    vec![fault("", &error.to_string(), "a part within the limits of the store")],
                );
                return Ok(());
            }
            Err(error) => return Err(error.into()),
        }
        self.rows_by_sku.insert(part.sku.clone(), row);
        self.report.rows_good += 1;
        if catalogued.price.is_some() || catalogued.stock.is_some() {
            self.shelf.push(ShelfEntry {
                sku: part.sku,
                price: catalogued.price.map(|price| Money {
                    currency_code: price.currency_code,
                    minor_units: price.minor_units,
                }),
                stock: catalogued.stock.and_then(|stock| u64::try_from(stock).ok()),
            });
        }
        Ok(())
    }

    /// One GTIN on two parts: told at the last of their rows.
    fn shared_gtin(&mut self, gtin: u64, skus: &[String]) {
        let rows = skus.iter().filter_map(|sku| Some((*self.rows_by_sku.get(sku)?, sku.clone())));
        let (row, sku) = rows.max().unwrap_or_default();
        if row > 0 {
            self.report.rows_good -= 1;
        }
        let found = format!("{gtin:014} on {}", skus.join(" and "));
        self.bad(row, &sku, vec![fault("gtins", &found, "one part for each GTIN")]);
    }

    fn bad(&mut self, row: i64, sku: &str, faults: Vec<Fault>) {
        self.report.rows_bad += 1;
        for found in faults {
            self.faults.push(row, sku, found, true);
        }
    }
}

/// The SKU of a JSON row, wherever it can be read.
fn sku_of(value: &serde_json::Value) -> String {
    let here = value.get("sku").or_else(|| value.get("part").and_then(|part| part.get("sku")));
    here.and_then(serde_json::Value::as_str).unwrap_or_default().to_owned()
}
