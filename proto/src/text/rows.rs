//! Rows of a CSV file: one part each, kinds sharing the columns.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use prost_reflect::{DynamicMessage, Value};
use serde_json::Value as Json;

use super::dictionary::{Shape, Written, kinds, shape};
use super::fault::{Fault, Faults, Wrong, listed, nearest, quoted};
use super::{finished, money, sugar, walk};
use crate::v1;

/// Columns that are no attributes, and the fields of Part that some of them fill.
const PLAIN: [&str; 9] =
    ["sku", "gtin", "brand_id", "maker_part_number", "name", "kind", "price", "currency", "stock"];

/// Every spelling of every attribute of every kind, with the name that tells which spellings mean the same.
static ATTRIBUTES: LazyLock<HashMap<&'static str, &'static str>> = LazyLock::new(|| {
    let mut known = HashMap::new();
    for (_, shape) in kinds() {
        for (field, attribute) in shape.attributes() {
            for spelling in shape.spellings_of(&field) {
                known.insert(spelling, attribute.base.as_str());
            }
        }
    }
    known
});

/// Every column that a file of parts may have: the plain ones, then each spelling of each attribute.
pub fn columns() -> Vec<&'static str> {
    let mut attributes: Vec<&str> = ATTRIBUTES.keys().copied().collect();
    attributes.sort_unstable();
    PLAIN.into_iter().chain(attributes).collect()
}

/// A column name as it is looked up: without a byte order mark and blanks, capitals alone lowered.
fn folded(name: &str) -> String {
    let name = name.trim_start_matches('\u{feff}').trim();
    if ATTRIBUTES.contains_key(name) { name.to_owned() } else { name.to_lowercase() }
}

/// Checks the header of a CSV file: unknown columns, columns that say the same twice, and missing ones.
///
/// A file needs `sku` and `kind`.
pub fn check_header(header: &[String]) -> Vec<Fault> {
    let mut faults = Faults::default();
    let mut seen: HashMap<&str, String> = HashMap::new();
    let known = columns();
    for name in header {
        let column = folded(name);
        faults.inside(name.trim_start_matches('\u{feff}').trim(), |faults| {
            let plain = PLAIN.iter().copied().find(|plain| *plain == column);
            let Some(meaning) = plain.or_else(|| ATTRIBUTES.get(column.as_str()).copied()) else {
                return faults.add(unknown_column(&column, &known));
            };
            match seen.get(meaning) {
                Some(other) => {
                    let found = format!("says the same as the column {}", quoted(other));
                    faults.add(Wrong::new(found, "keep one of them"));
                }
                None => {
                    seen.insert(meaning, column.clone());
                }
            }
        });
    }
    for needed in ["sku", "kind"] {
        if !seen.contains_key(needed) {
            faults.add(Wrong::new(
                format!("no column {}", quoted(needed)),
                "a file of parts needs sku and kind",
            ));
        }
    }
    faults.into_list()
}

fn unknown_column(column: &str, known: &[&str]) -> Wrong {
    let near = nearest(column, known.iter().copied());
    let wanted = match near {
        Some(_) => "no kind of part has such an attribute".to_owned(),
        None => format!("use one of {}, or the name of an attribute", listed(PLAIN)),
    };
    Wrong::new("unknown column", wanted).near_if(near)
}

/// Reads one row: empty cells are not set.
///
/// Paths in faults are the names of the columns.
///
/// # Errors
///
/// All that is wrong with the row, at most [`super::FAULTS_MAX`].
pub fn catalogued_part_from_row(
    header: &[String],
    cells: &[String],
) -> Result<v1::CataloguedPart, Vec<Fault>> {
    let mut faults = Faults::default();
    let row = Row::new(header, cells, &mut faults);
    let price = row.price(&mut faults);
    let (Some(part_shape), Some(row_shape)) = (shape("sprag.v1.Part"), shape("sprag.v1.CataloguedPart"))
    else {
        return finished(None, faults);
    };
    let mut part = DynamicMessage::new(part_shape.descriptor.clone());
    row.plain(part_shape, &mut part, &mut faults);
    row.kind(part_shape, &mut part, &mut faults);
    let mut message = DynamicMessage::new(row_shape.descriptor.clone());
    if let Some(stock) = row.cell("stock") {
        row.set(row_shape, "stock", "stock", stock, &mut message, &mut faults);
    }
    message.set_field_by_name("part", Value::Message(part.clone()));
    if faults.len() == 0 {
        sugar::finish(part_shape, &part, &mut faults);
        sugar::finish(row_shape, &message, &mut faults);
    }
    let read: Option<v1::CataloguedPart> = message.transcode_to().ok();
    finished(read.map(|read| v1::CataloguedPart { price, ..read }), faults)
}

/// The cells of one row that are not empty, by column.
struct Row<'a> {
    cells: Vec<(String, &'a str)>,
}

impl<'a> Row<'a> {
    fn new(header: &[String], cells: &'a [String], faults: &mut Faults) -> Self {
        if cells.len() != header.len() {
            let found = format!("a row of {} cells", cells.len());
            faults.add(Wrong::new(found, format!("give {} cells, as the header has", header.len())));
        }
        let mut seen = HashSet::new();
        let mut kept = Vec::new();
        for (name, cell) in header.iter().zip(cells).map(|(name, cell)| (folded(name), cell.trim())) {
            if cell.is_empty() {
                continue;
            }
            let meaning = ATTRIBUTES.get(name.as_str()).map_or(name.clone(), |base| (*base).to_owned());
            if !seen.insert(meaning) {
                let wrong =
                    Wrong::new(quoted(cell), "another column of this row says the same: keep one of them");
                faults.inside(&name, |faults| faults.add(wrong));
            }
            kept.push((name, cell));
        }
        Self { cells: kept }
    }

    fn cell(&self, column: &str) -> Option<&'a str> {
        self.cells.iter().find(|(name, _)| name == column).map(|(_, cell)| *cell)
    }

    /// Sets one field from a cell.
    fn set(
        &self,
        shape: &'static Shape,
        column: &str,
        field: &str,
        cell: &str,
        message: &mut DynamicMessage,
        faults: &mut Faults,
    ) {
        let Some((field, written)) = shape.field(field) else { return };
        let cell = Json::String(cell.to_owned());
        faults.inside(column, |faults| walk::set(message, shape, &field, written, &cell, faults, 0));
    }

    fn price(&self, faults: &mut Faults) -> Option<v1::Money> {
        let price = self.cell("price")?;
        let read = match self.cell("currency") {
            Some(code) => money::amount(price, code),
            None => money::from_text(price),
        };
        let wrong = |wanted: String| {
            let wanted = match self.cell("currency") {
                Some(_) => wanted,
                None => format!("{wanted}, or fill the column currency"),
            };
            Wrong::new(quoted(price), wanted)
        };
        faults.inside("price", |faults| faults.keep(read.map_err(wrong)))
    }

    /// The columns that every kind has.
    fn plain(&self, shape: &'static Shape, part: &mut DynamicMessage, faults: &mut Faults) {
        for field in ["sku", "name"] {
            if let Some(cell) = self.cell(field) {
                self.set(shape, field, field, cell, part, faults);
            }
        }
        if let (Some(cell), Some((field, _))) = (self.cell("gtin"), shape.field("gtins")) {
            let list = cell.split_whitespace().map(|gtin| Json::String(gtin.to_owned())).collect();
            let list = Json::Array(list);
            faults
                .inside("gtin", |faults| walk::set(part, shape, &field, Written::Declared, &list, faults, 0));
        }
        if let (Some(maker_part), Some((field, _))) = (self.maker_part(faults), shape.field("maker_part")) {
            part.set_field(&field, Value::Message(maker_part));
        }
    }

    /// The maker's number; a maker without a number names no part and is not kept.
    fn maker_part(&self, faults: &mut Faults) -> Option<DynamicMessage> {
        let number = self.cell("maker_part_number")?;
        let shape = shape("sprag.v1.MakerPartNumber")?;
        let mut message = DynamicMessage::new(shape.descriptor.clone());
        self.set(shape, "maker_part_number", "number", number, &mut message, faults);
        match self.cell("brand_id") {
            Some(brand) => self.set(shape, "brand_id", "brand_id", brand, &mut message, faults),
            None => {
                let wrong = Wrong::new("nothing", "a maker's part number needs the maker: fill brand_id");
                faults.inside("brand_id", |faults| faults.add(wrong));
            }
        }
        Some(message)
    }

    /// The kind and its attributes.
    fn kind(&self, shape: &'static Shape, part: &mut DynamicMessage, faults: &mut Faults) {
        let Some(cell) = self.cell("kind") else {
            return faults
                .inside("kind", |faults| faults.add(Wrong::new("nothing", "give the kind of part")));
        };
        let Some((name, kind)) = kind_called(cell) else {
            let names = || kinds().iter().map(|(name, _)| name.as_str());
            let wrong = Wrong::new(quoted(cell), format!("give one of {}", listed(names())));
            return faults.inside("kind", |faults| faults.add(wrong.near_if(nearest(cell, names()))));
        };
        let mut message = DynamicMessage::new(kind.descriptor.clone());
        for (column, cell) in self.cells.iter().filter(|(name, _)| !PLAIN.contains(&name.as_str())) {
            let attribute = kind.field(column).filter(|(field, _)| kind.attribute(field).is_some());
            match attribute {
                Some(_) => self.set(kind, column, column, cell, &mut message, faults),
                None if ATTRIBUTES.contains_key(column.as_str()) => {
                    let wanted =
                        format!("a {} has no such attribute: leave the cell empty", name.replace('_', " "));
                    let names = kind.spellings();
                    let mut names: Vec<&str> = names.collect();
                    names.sort_unstable();
                    let wrong = Wrong::new(quoted(cell), wanted).near_if(nearest(column, names));
                    faults.inside(column, |faults| faults.add(wrong));
                }
                None => faults.inside(column, |faults| faults.add(unknown_column(column, &columns()))),
            }
        }
        if let Some((field, _)) = shape.field(name) {
            part.set_field(&field, Value::Message(message));
        }
    }
}

/// The kind that a cell names: "rear_derailleur", "rear-derailleur" or the trade's own "rear derailleur".
fn kind_called(cell: &str) -> Option<(&'static str, &'static Shape)> {
    let fold = |text: &str| text.to_lowercase().replace(['-', ' '], "_");
    let folded = fold(cell);
    let called = |name: &str, shape: &Shape| {
        fold(name) == folded || shape.kind.as_ref().is_some_and(|kind| fold(&kind.label) == folded)
    };
    kinds().iter().find(|(name, shape)| called(name, shape)).map(|(name, shape)| (name.as_str(), *shape))
}
