//! Answers as tables and sentences.

pub mod check;
pub mod csv;
pub mod picture;
pub mod range;
pub mod recommend;
pub mod records;
pub mod table;

use std::io::Write;

use prost::{Message, Name};
use sprag_proto::json::to_json;

use crate::args::Format;

/// Prints an answer in the form that was asked for.
pub fn print<M: Message + Name>(
    message: &M,
    format: Format,
    text: impl FnOnce(&M) -> String,
) -> anyhow::Result<()> {
    let written = match format {
        Format::Json => to_json(message, true).map_err(|fault| anyhow::anyhow!("{fault}"))?,
        // Only range has CSV, which it writes itself.
        Format::Table | Format::Csv => text(message),
    };
    let mut out = std::io::stdout().lock();
    writeln!(out, "{}", written.trim_end())?;
    Ok(())
}
