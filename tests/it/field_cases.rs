//! Questions from the field with answers that a careful mechanic signs; each is asked twice.
//!
//! The stated facts alone must give the honest verdict and the right question; with what the case leaves unsaid
//! assumed, each value with its ground, they must give the settled verdict. A case that sprag answers otherwise stays
//! in its file with the reason, and must go on being answered otherwise.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // helpers stand outside the test functions

pub mod data;
mod gears;
pub mod judge;

use std::collections::BTreeSet;

use serde_json::Value as Json;
use sprag_engine::fit::{Outcome, registry};
use sprag_proto::text;

use data::{Case, Expected, Verdict};
use judge::{Answered, answer, request};

/// A question stands among the first where at most this many that are not expected precede it.
const LATE: usize = 3;

/// What is wrong with the answer to the stated facts.
fn stated_faults(expected: &Expected, answered: &Answered) -> Vec<String> {
    let mut faults = Vec::new();
    if let Some(wanted) = expected.verdict_stated
        && !answered.is(wanted)
    {
        faults.push(format!("stated facts: {:?}, expected {wanted:?}", answered.headline()));
    }
    let asked = answered.asked();
    for wanted in &expected.asks {
        let place = asked.iter().position(|asked| asked == wanted);
        let before = asked.iter().take(place.unwrap_or(usize::MAX));
        let late = before.filter(|asked| !expected.asks.contains(asked)).count() > LATE;
        match place {
            None => faults.push(format!("does not ask {wanted}")),
            Some(_) if late => faults.push(format!("asks {wanted} late")),
            Some(_) => {}
        }
    }
    faults
}

/// What is wrong with the settled answer.
fn settled_faults(expected: &Expected, answered: &Answered) -> Vec<String> {
    let mut faults = Vec::new();
    if let Some(wanted) = expected.verdict
        && !expected.also_accept.iter().chain([&wanted]).any(|accepted| answered.is(*accepted))
    {
        faults.push(format!("settled: {:?}, expected {wanted:?}", answered.headline()));
    }
    let fits = expected.verdict == Some(Verdict::Fits);
    let says =
        |rule: &String| answered.findings(rule).any(|finding| fits == (finding.outcome == Outcome::Fits));
    if !expected.rules.is_empty() && !expected.rules.iter().any(says) {
        faults.push(format!("none of {} says it", expected.rules.join(", ")));
    }
    for number in &expected.numbers {
        let figures = || {
            let judgements = answered.findings(&number.rule).flat_map(|finding| &finding.judgements);
            judgements.flat_map(|judgement| judgement.figures())
        };
        let named = |figure: &&_| -> bool {
            let figure: &sprag_engine::fit::rule::Figure = figure;
            figure.name == number.name
        };
        if !figures().filter(named).any(|figure| figure.low == number.value && figure.high == number.value) {
            let found: Vec<i64> = figures().filter(named).map(|figure| figure.low).collect();
            faults.push(format!("{} {}: {found:?}, expected {}", number.rule, number.name, number.value));
        }
    }
    let unnamed = expected.extras.iter().filter(|wanted| !answered.extras.contains(wanted));
    faults.extend(unnamed.map(|wanted| format!("does not name {wanted}")));
    faults
}

/// Everything that is wrong with the answers to a case.
fn faults(case: &Case) -> Vec<String> {
    let mut faults = Vec::new();
    let settled = request(case, true);
    let runs = [(false, request(case, false)), (true, settled.clone())];
    for (with_assumed, request) in runs.into_iter().filter(|_| case.pending.is_none()) {
        let answered = request.and_then(|request| answer(&request, case.practice));
        match answered {
            Err(fault) => faults.push(format!("cannot be read: {fault}")),
            Ok(answered) => {
                let found = if with_assumed {
                    settled_faults(&case.expected, &answered)
                } else {
                    stated_faults(&case.expected, &answered)
                };
                if !found.is_empty() {
                    faults.push(format!("{}\n{}", found.join("\n    "), answered.text()));
                }
            }
        }
    }
    let settled: Json = settled.unwrap_or_default();
    faults.extend(case.expected.gears.iter().filter_map(|printed| gears::disagreement(&settled, printed)));
    faults
}

/// What is wrong with an exception: sprag must go on giving the other answer that is written down.
fn otherwise(case: &Case) -> String {
    let answered = request(case, true).and_then(|request| answer(&request, case.practice));
    let settled = request(case, true).unwrap_or_default();
    let printed = case.expected.gears.iter().find_map(|printed| gears::disagreement(&settled, printed));
    if let Some(fault) = printed {
        return format!("{}: {fault}\n", case.id);
    }
    match answered {
        Ok(answered) if Some(answered.headline()) == case.expected.answered => String::new(),
        Ok(answered) => format!("{}: {:?}\n{}\n", case.id, answered.headline(), answered.text()),
        Err(fault) => format!("{}: {fault}\n", case.id),
    }
}

#[test]
fn every_case_is_answered_as_a_careful_mechanic_would() {
    let mut wrong = String::new();
    for case in data::load().iter() {
        let faults = faults(case);
        match (&case.exception, faults.is_empty()) {
            (None, false) => {
                wrong += &format!("{}: {}\n    {}\n", case.id, case.ask, faults.join("\n    "));
            }
            (Some(_), false) => wrong += &otherwise(case),
            (Some(reason), true) => {
                wrong +=
                    &format!("{}: is answered as expected now, no longer an exception: {reason}\n", case.id);
            }
            (None, true) => {}
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn cases_are_well_formed() {
    let cases = data::load();
    let mut ids = BTreeSet::new();
    for case in &cases {
        assert!(ids.insert(&case.id), "{}: twice", case.id);
        assert!(!case.ask.is_empty() && !case.source.is_empty(), "{}: no question or source", case.id);
        for assumed in &case.assume {
            assert!(!assumed.ground.is_empty(), "{}: {} is assumed without a ground", case.id, assumed.item);
        }
        // A build file and the build of a request are read by two doors.
        let build = text::build_from_json(&case.build);
        assert!(build.is_ok(), "{}: {:?}", case.id, build.err());
        for with_assumed in [false, true] {
            let read = request(case, with_assumed).and_then(|request| judge::assembly(&request, true));
            assert!(read.is_ok(), "{}: {}", case.id, read.err().unwrap_or_default());
        }
    }
}

#[test]
fn no_question_is_lost() {
    // One question may be asked in several forms, told apart by a letter.
    let questions: BTreeSet<String> = data::load()
        .iter()
        .map(|case| case.id.trim_end_matches(|letter: char| letter.is_ascii_lowercase()).to_owned())
        .collect();
    assert_eq!(questions.len(), 66);
}

#[test]
fn most_cases_are_asked_with_the_stated_facts_and_with_the_assumed_ones() {
    let twice = data::load()
        .iter()
        .filter(|case| {
            case.pending.is_none()
                && case.expected.verdict_stated.is_some()
                && case.expected.verdict.is_some()
                && !case.assume.is_empty()
        })
        .count();
    assert!(twice >= 30, "{twice}");
}

#[test]
fn exceptions_and_pending_cases_say_why() {
    for case in data::load() {
        if let Some(reason) = &case.exception {
            println!("{}: {reason}", case.id);
            assert!(reason.len() > 20, "{}: the reason is too short to be one", case.id);
        }
        if let Some(mating) = &case.pending {
            assert!(registry::find(mating).is_none(), "{}: {mating} is judged now", case.id);
        }
    }
}
