//! sprag attributes: the dictionary, without asking a service.

use std::fmt::Write;
use std::io::Write as _;

use anyhow::bail;
use sprag_proto::text::{AttributeDoc, attributes, human, kind_docs, nearest};

use crate::args::Format;
use crate::output::check::wrapped;

/// Shows the attributes of one kind or of all.
pub fn show(kind: Option<&str>, format: Format) -> anyhow::Result<u8> {
    let kinds = kind_docs();
    if let Some(kind) = kind
        && kinds.iter().all(|known| known.kind != kind)
    {
        let names: Vec<&str> = kinds.iter().map(|known| known.kind.as_str()).collect();
        let hint = nearest(kind, names.iter().copied())
            .map(|near| format!("; did you mean {near:?}?"))
            .unwrap_or_default();
        bail!("no kind is called {kind:?}{hint} Kinds: {}", names.join(", "));
    }
    let found: Vec<AttributeDoc> =
        attributes().into_iter().filter(|attribute| kind.is_none_or(|kind| attribute.kind == kind)).collect();
    let text = match format {
        Format::Json => serde_json::to_string_pretty(&found.iter().map(json).collect::<Vec<_>>())?,
        Format::Table | Format::Csv => table(&found),
    };
    writeln!(std::io::stdout().lock(), "{}", text.trim_end())?;
    Ok(0)
}

fn table(found: &[AttributeDoc]) -> String {
    let mut out = String::new();
    let mut kind = "";
    for attribute in found {
        if attribute.kind != kind {
            kind = &attribute.kind;
            let _ = writeln!(out, "\n{kind}");
        }
        let mut values = attribute.form.to_owned();
        if let Some((low, high)) = attribute.hard {
            let _ = write!(values, ", {} to {}", human(attribute.unit, low), human(attribute.unit, high));
        }
        if !attribute.words.is_empty() {
            let _ = write!(values, ": {}", attribute.words.join(", "));
        }
        if !attribute.interface_class.is_empty() {
            let _ = write!(values, " of class {}", attribute.interface_class);
        }
        let _ = writeln!(out, "  {}  ({values})", attribute.spellings.join(" or "));
        wrapped(&mut out, "      ", &format!("{} {}", attribute.question, attribute.measure));
    }
    out
}

fn json(attribute: &AttributeDoc) -> serde_json::Value {
    serde_json::json!({
        "kind": attribute.kind,
        "attribute": attribute.name,
        "field": attribute.field,
        "form": attribute.form,
        "unit": attribute.unit.as_str_name(),
        "hardRange": attribute.hard,
        "usualRange": attribute.usual,
        "words": attribute.words,
        "interfaceClass": attribute.interface_class,
        "question": attribute.question,
        "howToMeasure": attribute.measure,
        "spellings": attribute.spellings,
    })
}
