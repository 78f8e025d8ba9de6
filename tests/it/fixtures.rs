//! Fixtures of the rules, as tables, and what is said to each, word for word.
//!
//! `cases/rules/MATING.toml` has a table for each rule; in it, a list of fixtures under each outcome. A fixture names
//! parts by their kind (several of a kind as a list); parts at the front wheel stand under `front`, the use of the bike
//! under `use`, and `maker = true` holds every published limit. What is said to them stands in `MATING.txt` beside it:
//!
//!     SPRAG_WRITE_SNAPSHOTS=1 cargo test -p sprag-tests --test it fixtures
//!
//! writes these anew. Read them aloud: a customer should understand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // helpers stand outside the test functions

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use serde_json::{Map, Value as Json, json};
use sprag_engine::explain;
use sprag_engine::fit::check::Finding;
use sprag_engine::fit::evaluate::{Ruling, evaluate};
use sprag_engine::fit::rule::Judgement;
use sprag_engine::fit::{Mating, Outcome, registry};
use sprag_engine::part::Part;
use sprag_engine::part::interface::Interfaces;

use crate::field_cases::data::Practice;
use crate::field_cases::judge::{Answered, answer, code};

/// Matings whose fixtures are still to be written. It only ever gets shorter.
const WITHOUT: &[&str] = &[
    "cassette-on-body",
    "cut-down-cassette",
    "lockring-on-body",
    "freewheel-on-hub",
    "chain-on-cogs",
    "chain-on-single-cog",
    "chain-on-ring",
    "quick-link-on-chain",
    "chain-length",
    "derailleur-on-cogs",
    "derailleur-capacity",
    "derailleur-on-hanger",
    "shifter-on-derailleur",
    "indexing",
    "shifter-positions",
    "friction-shifter",
    "chain-retention",
    "axle-in-fork",
    "axle-in-frame",
    "hub-in-fork",
    "hub-in-frame",
    "brake-on-frame",
    "brake-on-fork",
    "brake-fluid",
    "lever-on-brake",
    "pads-in-brake",
    "rotor-in-caliper",
    "tyre-on-rim",
    "tyre-width-on-rim",
    "tube-in-tyre",
    "tyre-in-frame",
    "tyre-in-fork",
    "rim-brake-on-rim",
    "pedal-on-crank",
    "bottom-bracket-in-shell",
    "crank-on-bottom-bracket",
    "crank-in-frame",
    "chainring-on-crank",
    "ring-clearance",
    "front-derailleur-on-frame",
    "front-derailleur-on-rings",
    "front-shifter-on-derailleur",
    "gear-hub",
    "sprocket-line",
    "e-bike-approval",
    "motor-and-load",
    "end-caps",
];

/// Outcomes as the tables name them; under "silent" stands what a rule has nothing to say of.
const OUTCOMES: [(&str, Option<Outcome>); 6] = [
    ("fits", Some(Outcome::Fits)),
    ("fits_with_extra_parts", Some(Outcome::ExtraPart)),
    ("works_with_caveat", Some(Outcome::Caveat)),
    ("not_enough_data", Some(Outcome::NotEnoughData)),
    ("does_not_fit", Some(Outcome::DoesNotFit)),
    ("silent", None),
];

/// Rule, outcome, fixtures.
type Table = BTreeMap<String, BTreeMap<String, Vec<Map<String, Json>>>>;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("cases/rules")
}

fn table(mating: &Mating) -> Option<Table> {
    let text = std::fs::read_to_string(folder().join(format!("{}.toml", mating.code))).ok()?;
    Some(toml::from_str(&text).unwrap_or_else(|fault| panic!("{}: {fault}", mating.code)))
}

/// The parts of a fixture, each in its place.
fn parts(fixture: &Map<String, Json>, front: bool) -> Vec<Json> {
    let mut parts = Vec::new();
    for (kind, value) in fixture {
        match (kind.as_str(), value) {
            ("use" | "maker", _) => {}
            ("front", Json::Object(inner)) => parts.extend(self::parts(inner, true)),
            (_, Json::Array(several)) => parts.extend(several.iter().map(|part| json!({ kind: part }))),
            (_, part) => parts.push(json!({ kind: part })),
        }
    }
    if front {
        for part in &mut parts {
            part["position"] = "front".into();
        }
    }
    parts
}

fn asked(fixture: &Map<String, Json>) -> Answered {
    let mut build = json!({ "parts": parts(fixture, false) });
    if let Some(usage) = fixture.get("use") {
        build["use"] = usage.clone();
    }
    let practice = if fixture.contains_key("maker") { Practice::Maker } else { Practice::Workshop };
    answer(&json!({ "build": build }), practice).unwrap_or_else(|fault| panic!("{fixture:?}: {fault}"))
}

/// What a rule says, with everything that stands beside it; ways out and notes once for each reason.
fn say(
    out: &mut String,
    rule: &str,
    finding: &Finding,
    answered: &Answered,
    told: &mut BTreeSet<&'static str>,
) {
    let outcome =
        explain::words(OUTCOMES.iter().find(|(_, known)| *known == Some(finding.outcome)).unwrap().0);
    let reasons: Vec<&str> = finding.judgements.iter().map(|judged| judged.reason.code).collect();
    let reasons = if reasons.is_empty() { "-".to_owned() } else { reasons.join(", ") };
    writeln!(out, "{rule} | {outcome} | {reasons} | {}", explain::finding(finding, &answered.assembly))
        .unwrap();
    for extra in answered.extras_of(&code(finding)) {
        writeln!(out, "    needs: {extra}").unwrap();
    }
    for judged in &finding.judgements {
        if told.insert(judged.reason.code) {
            beside(out, judged);
        }
    }
    let caution = explain::caution(finding);
    if !caution.is_empty() && told.insert(caution) {
        writeln!(out, "    caution: {caution}").unwrap();
    }
}

fn beside(out: &mut String, judged: &Judgement) {
    for remedy in judged.reason.remedies {
        writeln!(out, "    way out: {}", explain::fill(remedy.text, judged)).unwrap();
    }
    if !judged.reason.note.is_empty() {
        writeln!(out, "    note: {}", judged.reason.note).unwrap();
    }
}

/// Judges every fixture of a mating: the page of what is said, and what is wrong.
fn judged(mating: &'static Mating, table: &Table) -> (String, Vec<String>) {
    let mut page = format!("{}\n", mating.title);
    let mut wrong = Vec::new();
    for unknown in table.keys().filter(|name| mating.rules.iter().all(|rule| rule.code != **name)) {
        wrong.push(format!("{}: no rule {unknown}", mating.code));
    }
    for rule in mating.rules {
        let name = format!("{}/{}", mating.code, rule.code);
        let fixtures = table.get(rule.code);
        let mut told = BTreeSet::new();
        let mut given = BTreeSet::new();
        page.push('\n');
        for (word, outcome) in OUTCOMES {
            for fixture in fixtures.and_then(|fixtures| fixtures.get(word)).into_iter().flatten() {
                let answered = asked(fixture);
                let found: Vec<&Finding> =
                    answered.answer.touched().filter(|found| code(found) == name).collect();
                if found.iter().map(|found| found.outcome).max() != outcome {
                    let shown = Json::Object(fixture.clone());
                    wrong.push(format!("{name}: {word} expected of {shown}, said:\n{}", answered.text()));
                }
                for finding in found {
                    say(&mut page, rule.code, finding, &answered, &mut told);
                    given.extend(finding.judgements.iter().map(|judged| judged.reason.code));
                }
            }
        }
        for unknown in fixtures.into_iter().flat_map(BTreeMap::keys) {
            if OUTCOMES.iter().all(|(word, _)| word != unknown) {
                wrong.push(format!("{name}: no outcome {unknown}"));
            }
        }
        let never = rule.reasons.iter().filter(|reason| !given.contains(reason.code));
        wrong.extend(never.map(|reason| format!("{name}: no fixture gives {}", reason.code)));
        let asks = fixtures.is_some_and(|fixtures| fixtures.contains_key("not_enough_data"));
        if !asks && asks_when_nothing_is_known(rule) {
            wrong.push(format!("{name}: no fixture has too little data"));
        }
    }
    (page, wrong)
}

fn asks_when_nothing_is_known(rule: &'static sprag_engine::fit::rule::Rule) -> bool {
    let parts: Vec<Part> = rule.slots.iter().map(|slot| Part::new(slot.kinds()[0])).collect();
    let parts: Vec<&Part> = parts.iter().collect();
    let ruling = evaluate(rule, &parts, Interfaces::standard_ref(), sprag_engine::fit::Practice::Workshop);
    matches!(ruling, Ruling::Open { .. })
}

#[test]
fn fixtures_are_judged_as_their_tables_say_and_reach_every_reason() {
    let mut wrong = Vec::new();
    for mating in registry::MATINGS {
        if let Some(table) = table(mating) {
            wrong.extend(judged(mating, &table).1);
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn what_is_said_to_fixtures_stands_as_it_was_read() {
    let write = std::env::var_os("SPRAG_WRITE_SNAPSHOTS").is_some();
    let mut changed = String::new();
    for mating in registry::MATINGS {
        let Some(table) = table(mating) else { continue };
        let (page, _) = judged(mating, &table);
        let path = folder().join(format!("{}.txt", mating.code));
        if write {
            std::fs::write(&path, &page).expect("a folder to write to");
        }
        let kept = std::fs::read_to_string(&path).unwrap_or_default();
        if kept == page {
            continue;
        }
        writeln!(changed, "{}:", mating.code).unwrap();
        let (before, after): (BTreeSet<&str>, BTreeSet<&str>) =
            (kept.lines().collect(), page.lines().collect());
        before.difference(&after).for_each(|line| writeln!(changed, "  - {line}").unwrap());
        after.difference(&before).for_each(|line| writeln!(changed, "  + {line}").unwrap());
    }
    assert!(changed.is_empty(), "\n{changed}Read it aloud, then write it with SPRAG_WRITE_SNAPSHOTS=1.");
}

#[test]
fn every_mating_has_fixtures() {
    let without: Vec<&str> =
        registry::MATINGS.iter().filter(|mating| table(mating).is_none()).map(|mating| mating.code).collect();
    assert_eq!(without, WITHOUT);
}
