//! Statements, rulings, interfaces and aliases, and how they are shown in findings.

use std::fmt::Write;

use sprag_proto::v1 as pb;
use sprag_proto::v1::record::Record as Which;

use super::check::wrapped;
use super::table::{number, verdict, words};

/// All of a type, with all that is said.
pub fn list(all: &pb::ListRecordsResponse) -> String {
    let mut out = String::new();
    for record in &all.records {
        match &record.record {
            Some(Which::Statement(found)) => statement(&mut out, found),
            Some(Which::Ruling(found)) => ruling(&mut out, found),
            Some(Which::Interface(found)) => interface(&mut out, found),
            Some(Which::Alias(found)) => alias(&mut out, found),
            None => {}
        }
    }
    let _ = writeln!(out, "{} in all", all.records.len());
    out
}

/// What an update did.
pub fn updated(answer: &pb::UpdateRecordsResponse) -> String {
    let counts = format!(
        "{} added, {} changed, {} removed",
        answer.records_added, answer.records_changed, answer.records_removed
    );
    let revision = answer.revision.as_ref().map_or(0, |found| found.revision);
    if answer.published {
        format!("published revision {revision}: {counts}")
    } else {
        format!("nothing was published, revision {revision} stands; it would be {counts}")
    }
}

fn statement(out: &mut String, found: &pb::Statement) {
    pair(out, &found.statement_id, [&found.part, &found.other], found.verdict, &found.rules);
    wrapped(out, "    ", &found.text);
    needed(out, found.needed.as_ref());
    wrapped(out, "    ", &format!("{}; entered by {}, {}", found.source, found.author, found.date));
}

fn ruling(out: &mut String, found: &pb::Ruling) {
    pair(out, &found.ruling_id, [&found.part, &found.other], found.verdict, &found.rules);
    wrapped(out, "    ", &found.reason);
    needed(out, found.needed.as_ref());
    wrapped(out, "    ", &format!("{}, from {} to {}", found.author, found.date, found.valid_until));
}

fn pair(
    out: &mut String,
    id: &str,
    [part, other]: [&Option<pb::PartSelector>; 2],
    found: i32,
    rules: &[String],
) {
    let _ = writeln!(out, "{id}: {}  [{}]", verdict(found), rules.join(", "));
    wrapped(out, "    ", &format!("{} with {}", selector(part.as_ref()), selector(other.as_ref())));
}

fn needed(out: &mut String, found: Option<&pb::NeededPart>) {
    if let Some(found) = found {
        wrapped(out, "    needs: ", &pattern(&found.kind, &found.traits));
    }
}

fn interface(out: &mut String, found: &pb::ShopInterface) {
    let role = match pb::InterfaceRole::try_from(found.role) {
        Ok(pb::InterfaceRole::Provider) => ", takes others",
        Ok(pb::InterfaceRole::Consumer) => ", goes onto others",
        _ => "",
    };
    let _ = writeln!(out, "{}/{}{role}", found.interface_class, found.key);
    wrapped(out, "    ", &found.description);
    let measures: Vec<String> =
        found.dimensions.iter().map(|one| format!("{} {}", one.name, number(one.value, one.unit))).collect();
    if !measures.is_empty() {
        wrapped(out, "    ", &measures.join(", "));
    }
    for (verb, list) in [("takes", &found.accepts), ("taken by", &found.accepted_by)] {
        for other in list {
            wrapped(out, "    ", &format!("{verb} {} ({})", other.key, other.source));
        }
    }
    wrapped(out, "    ", &format!("{}; entered by {}, {}", found.source, found.author, found.date));
}

fn alias(out: &mut String, found: &pb::Alias) {
    let supplier = if found.supplier.is_empty() { String::new() } else { format!(" of {}", found.supplier) };
    let _ = writeln!(
        out,
        "{}: {:?}{supplier} is {} as {} of a {}  ({}, {})",
        found.alias_id,
        found.word,
        found.key,
        words(&found.attribute),
        words(&found.kind),
        found.author,
        found.date
    );
}

fn selector(found: Option<&pb::PartSelector>) -> String {
    use pb::part_selector::Parts;
    match found.and_then(|found| found.parts.as_ref()) {
        Some(Parts::Sku(sku)) => sku.clone(),
        Some(Parts::Gtin(gtin)) => format!("GTIN {gtin}"),
        Some(Parts::MakerPart(number)) => format!("{} {}", number.brand_id, number.number),
        Some(Parts::Pattern(found)) => format!("any {}", pattern(&found.kind, &found.traits)),
        None => "nothing".to_owned(),
    }
}

fn pattern(kind: &str, traits: &[pb::PatternTrait]) -> String {
    let one = |found: &pb::PatternTrait| {
        let value = match (found.low, found.high) {
            _ if !found.keys.is_empty() => found.keys.join(" or "),
            (Some(low), Some(high)) if low == high => low.to_string(),
            (Some(low), Some(high)) => format!("{low} to {high}"),
            (Some(low), None) => format!("from {low}"),
            (None, Some(high)) => format!("up to {high}"),
            (None, None) => String::new(),
        };
        format!("{} {value}", words(&found.attribute))
    };
    let traits: Vec<String> = traits.iter().map(one).collect();
    let kind = words(kind);
    if traits.is_empty() { kind } else { format!("{kind} with {}", traits.join(", ")) }
}

/// What a finding shows of statement and rulings.
pub fn said(out: &mut String, finding: &pb::Finding) {
    if let Some(found) = &finding.statement {
        let head = format!("    statement {}: ", found.statement_id);
        wrapped(out, &head, &format!("{}; entered by {}, {}", found.source, found.author, found.date));
    }
    for found in &finding.rulings {
        let state = match pb::RulingState::try_from(found.state) {
            Ok(pb::RulingState::Applied) => "applied",
            Ok(pb::RulingState::Agrees) => "changes nothing",
            Ok(pb::RulingState::Superseded) => "another one is closer or stricter",
            Ok(pb::RulingState::Expired) => "expired, not applied",
            Ok(pb::RulingState::NotYet) => "not in force yet, not applied",
            Ok(pb::RulingState::RefusedInjury) => "not applied: someone can be hurt",
            Ok(pb::RulingState::RefusedPractice) => "not applied: maker limits are held",
            _ => "unknown",
        };
        let text = format!(
            "{}: {}; {}, from {} to {} ({state})",
            verdict(found.verdict),
            found.reason,
            found.author,
            found.date,
            found.valid_until
        );
        wrapped(out, &format!("    house ruling {}: ", found.ruling_id), &text);
    }
}
