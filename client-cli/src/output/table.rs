//! Plain tables that stay readable without colour.

use comfy_table::{ContentArrangement, Table, presets};
use sprag_proto::v1 as pb;

/// Width of a terminal, where COLUMNS tells it.
fn width() -> u16 {
    std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok()).unwrap_or(100)
}

/// A table with a header line.
pub fn table<const N: usize>(header: [&str; N]) -> Table {
    let mut table = Table::new();
    table.load_style(presets::ASCII_BORDERS_ONLY_CONDENSED);
    table.set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(width());
    table.set_header(header);
    table
}

/// A verdict in words.
pub fn verdict(value: i32) -> &'static str {
    match pb::Verdict::try_from(value) {
        Ok(pb::Verdict::Fits) => "fits",
        Ok(pb::Verdict::FitsWithExtraParts) => "fits with extra parts",
        Ok(pb::Verdict::WorksWithCaveat) => "works with a caveat",
        Ok(pb::Verdict::NotEnoughData) => "not enough data",
        Ok(pb::Verdict::DoesNotFit) => "does not fit",
        _ => "unknown",
    }
}

/// A number with its unit.
pub fn number(value: i64, unit: i32) -> String {
    let unit = pb::Unit::try_from(unit).unwrap_or(pb::Unit::Unspecified);
    sprag_proto::text::human(unit, value)
}

/// A price; nothing where it is not known.
pub fn price(money: Option<&pb::Money>) -> String {
    money.map_or_else(|| "price not known".to_owned(), sprag_proto::text::money_to_text)
}

/// A kind in words.
pub fn words(code: &str) -> String {
    code.replace('_', " ")
}
