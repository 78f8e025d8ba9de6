//! Recommendations.

use std::fmt::Write;

use sprag_proto::v1 as pb;

use super::check::{extras, findings, questions, wrapped};
use super::table::{price, verdict, words};

/// A whole answer.
pub fn recommend(answer: &pb::RecommendResponse) -> String {
    let mut out = String::new();
    if answer.options.is_empty() {
        let _ = writeln!(out, "NO WAY with what is on the shelf");
    }
    for option in &answer.options {
        one(&mut out, option);
    }
    if !answer.obstacles.is_empty() {
        let _ = writeln!(out, "\nWhy not (drop any one of these and a way opens)");
        for obstacle in &answer.obstacles {
            wrapped(&mut out, "  - ", &format!("{} [{}]", obstacle.text, obstacle.rule));
        }
    }
    if !answer.near_misses.is_empty() {
        let _ = writeln!(out, "\nNear misses");
        for miss in &answer.near_misses {
            let _ = writeln!(out, "  {}", part(miss.part.as_ref()));
            findings(&mut out, &miss.findings);
        }
    }
    if answer.unfinished {
        let _ = writeln!(out, "\nThe search was stopped early: this is the best found so far");
    }
    if let Some(basis) = &answer.basis {
        let _ = writeln!(
            out,
            "\nBasis: catalogue revision {}, shelf {}, rules {}, limits as {}; {} bikes judged",
            basis.catalogue_revision,
            basis.shelf_sequence,
            basis.ruleset_version,
            basis.limit_practice,
            answer.steps
        );
    }
    out
}

fn part(part: Option<&pb::ShelfPart>) -> String {
    part.map(|part| {
        let mass = part.mass_g.map(|mass| format!(", {mass} g")).unwrap_or_default();
        format!(
            "{}  {}  ({} in stock, {}{mass})",
            part.sku,
            part.name,
            part.stock,
            price(part.price.as_ref())
        )
    })
    .unwrap_or_default()
}

fn one(out: &mut String, option: &pb::Option) {
    let conditional =
        if option.conditional_on.is_empty() { "" } else { ", if the questions below are answered well" };
    let _ = writeln!(out, "\n{}. {}{conditional}", option.rank, verdict(option.verdict));
    for step in &option.steps {
        let kind = step.fit.as_ref().map(|fit| words(&fit.kind)).unwrap_or_default();
        let item = if words(&step.replaces) == kind {
            kind
        } else {
            format!("{kind} in the place of {}", step.replaces)
        };
        let _ = writeln!(out, "   {item}: {}", part(step.fit.as_ref()));
    }
    wrapped(out, "   ", &option.text);
    extras(out, &option.extra_parts);
    let mut line = format!("   in all {}", price(option.price.as_ref()));
    if let Some(mass) = option.mass_change_g {
        let _ = write!(line, ", {mass:+} g");
    }
    if let Some(gearing) = &option.gearing {
        let _ = write!(
            line,
            ", lowest gear {:+.1} %, highest gear {:+.1} %",
            gearing.lowest_percent, gearing.highest_percent
        );
    }
    let _ = writeln!(out, "{line}");
    if !option.stays.is_empty() {
        wrapped(out, "   stays: ", &option.stays.join(", "));
    }
    questions(out, &option.conditional_on);
}
