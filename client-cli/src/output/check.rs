//! Answers to checks.

use std::fmt::Write;

use sprag_proto::v1 as pb;

use super::records::said;
use super::table::{number, verdict, words};

/// Width of a line of prose.
const WIDTH: usize = 100;

/// A whole answer.
pub fn check(answer: &pb::CheckResponse) -> String {
    let mut out = String::new();
    let mut headline = verdict(answer.verdict).to_uppercase();
    if answer.extra_parts_needed && answer.verdict != i32::from(pb::Verdict::FitsWithExtraParts) {
        headline.push_str(", and needs extra parts");
    }
    let _ = writeln!(out, "{headline}");
    for applied in &answer.applied_changes {
        let _ = match (applied.fitted.is_empty(), applied.removed.is_empty()) {
            (true, _) => writeln!(out, "  taken off: {}", applied.removed.join(", ")),
            (false, true) => writeln!(out, "  fitted: {}", applied.fitted),
            (false, false) => {
                writeln!(out, "  fitted: {} (in the place of {})", applied.fitted, applied.removed.join(", "))
            }
        };
    }
    findings(&mut out, &answer.findings);
    let open = answer.verdict == i32::from(pb::Verdict::NotEnoughData);
    if open && answer.findings.is_empty() {
        wrapped(
            &mut out,
            "  ",
            "nothing that is known meets: see below what was not checked or is not judged",
        );
    }
    extras(&mut out, &answer.extra_parts);
    questions(&mut out, &answer.questions);
    let mut section = |title: &str, lines: Vec<String>| {
        if !lines.is_empty() {
            let _ = writeln!(out, "\n{title}");
            for line in lines {
                wrapped(&mut out, "  - ", &line);
            }
        }
    };
    section("Must change too", answer.must_change.clone());
    section(
        "May stay",
        if answer.may_stay.is_empty() { Vec::new() } else { vec![answer.may_stay.join(", ")] },
    );
    section("When assembling", answer.assembly_notes.iter().map(|note| note.text.clone()).collect());
    section("Caution", answer.cautions.clone());
    section(
        "Not judged",
        answer.not_judged.iter().map(|found| format!("{}: {}", found.item_id, found.text)).collect(),
    );
    section("Not checked, since parts are not in the build", not_checked(&answer.not_checked));
    section("Was so before, and does not count", before(&answer.pre_existing));
    if let Some(basis) = &answer.basis {
        let _ = writeln!(
            out,
            "\nBasis: catalogue revision {}, shelf {}, rules {}, limits as {}, on {}",
            basis.catalogue_revision,
            basis.shelf_sequence,
            basis.ruleset_version,
            basis.limit_practice,
            basis.as_of_date
        );
    }
    out
}

/// What was so before: one line for each trouble, and one for all matings of which too little is known.
fn before(findings: &[pb::Finding]) -> Vec<String> {
    let open = |finding: &&pb::Finding| finding.outcome == i32::from(pb::Verdict::NotEnoughData);
    let mut lines: Vec<String> = findings.iter().filter(|finding| !open(finding)).map(one_line).collect();
    let unknown = findings.iter().filter(open).count();
    if unknown > 0 {
        lines.push(format!("{unknown} meetings of parts of which too little is known"));
    }
    lines
}

fn one_line(finding: &pb::Finding) -> String {
    format!("{}: {} ({})", verdict(finding.outcome), finding.text, finding.items.join(" with "))
}

/// Findings, worst first.
pub fn findings(out: &mut String, findings: &[pb::Finding]) {
    for finding in findings {
        let strong = if finding.strong { ", seriously" } else { "" };
        let over = if finding.tolerated { ", over a published limit" } else { "" };
        let _ = writeln!(
            out,
            "\n  {}{strong}{over}  [{}]  {}",
            verdict(finding.outcome),
            finding.rule,
            finding.items.join(" with ")
        );
        wrapped(out, "    ", &finding.text);
        said(out, finding);
        if !finding.numbers.is_empty() {
            let numbers: Vec<String> = finding.numbers.iter().map(figure).collect();
            wrapped(out, "    ", &numbers.join(", "));
        }
        for remedy in &finding.remedies {
            wrapped(out, "    > ", &remedy.text);
        }
    }
}

fn figure(found: &pb::Number) -> String {
    match found.high {
        Some(high) => format!(
            "{} {} to {}",
            words_of(&found.name),
            number(found.value, found.unit),
            number(high, found.unit)
        ),
        None => format!("{} {}", words_of(&found.name), number(found.value, found.unit)),
    }
}

fn words_of(name: &str) -> String {
    name.replace(['_', '-'], " ")
}

/// Extra parts, with what is on the shelf.
pub fn extras(out: &mut String, extras: &[pb::ExtraPart]) {
    if extras.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nExtra parts");
    extra_lines(out, "  ", extras);
}

/// Extra parts, one in a line.
pub fn extra_lines(out: &mut String, indent: &str, extras: &[pb::ExtraPart]) {
    for extra in extras {
        let optional = if extra.optional { " (optional)" } else { "" };
        let from = match (extra.met_by.as_str(), extra.skus_in_stock.as_slice()) {
            ("", []) => "none on the shelf".to_owned(),
            ("", skus) => format!("on the shelf: {}", skus.join(", ")),
            (item, _) => format!("already there: {item}"),
        };
        let _ = writeln!(out, "{indent}{} x {}{optional}: {from}", extra.quantity, extra.text);
    }
}

/// Questions with the values that would pass.
pub fn questions(out: &mut String, questions: &[pb::Question]) {
    if questions.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nFind out first");
    for (index, question) in (1..).zip(questions) {
        let _ = writeln!(out, "  {index}. {} [{}: {}]", question.text, question.item_id, question.attribute);
        wrapped(out, "     ", &question.how_to_measure);
        let passing = passing(question);
        if !passing.is_empty() {
            wrapped(out, "     would pass: ", &passing);
        }
        if !question.hint.is_empty() {
            wrapped(out, "     hint: ", &question.hint);
        }
    }
}

fn passing(question: &pb::Question) -> String {
    let range = |range: &pb::PassingRange| {
        if range.low == range.high {
            number(range.low, question.unit)
        } else {
            format!("{} to {}", number(range.low, question.unit), number(range.high, question.unit))
        }
    };
    let ranges = question.passing_ranges.iter().map(range);
    ranges.chain(question.passing_keys.iter().cloned()).collect::<Vec<_>>().join(", ")
}

fn not_checked(found: &[pb::NotChecked]) -> Vec<String> {
    let one = |found: &pb::NotChecked| {
        let missing: Vec<String> = found.missing_kinds.iter().map(|kind| words(kind)).collect();
        format!("{}: no {}", found.mating.replace('-', " "), missing.join(", "))
    };
    found.iter().map(one).collect()
}

/// Breaks prose into lines; continuation lines are indented as far as the first.
pub fn wrapped(out: &mut String, first: &str, text: &str) {
    let indent = " ".repeat(first.chars().count());
    let mut line = first.to_owned();
    let mut empty = true;
    for word in text.split_whitespace() {
        if !empty && line.chars().count() + 1 + word.chars().count() > WIDTH {
            let _ = writeln!(out, "{line}");
            line.clone_from(&indent);
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    let _ = writeln!(out, "{line}");
}
