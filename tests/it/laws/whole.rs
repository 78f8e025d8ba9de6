//! Laws of whole checks.

use std::collections::BTreeSet;
use std::sync::Arc;

use sprag_engine::build::{Build, Change, Item, assemble};
use sprag_engine::fit::check::{Answer, Finding, check};
use sprag_engine::fit::outcome::Verdict;
use sprag_engine::fit::question::questions;
use sprag_engine::fit::{Grounds, Outcome, Practice};
use sprag_engine::part::Part;
use sprag_engine::part::interface::Interfaces;

use super::random::{Random, bike};

const BIKES: u64 = 150;

fn build(parts: &[Part]) -> Build {
    let items = parts
        .iter()
        .map(|part| Item { id: String::new(), end: None, quantity: 1, part: Arc::new(part.clone()) })
        .collect();
    Build { items, ..Build::default() }
}

fn judged(build: &Build, changes: &[Change]) -> Answer {
    let assembly = assemble(build, changes).expect("random bikes can be assembled");
    check(&assembly, &Grounds::bare(Interfaces::standard_ref(), Practice::Workshop))
}

fn said(answer: &Answer) -> BTreeSet<String> {
    let reasons = |finding: &Finding| {
        finding.judgements.iter().map(|judgement| judgement.reason.code).collect::<Vec<_>>().join("+")
    };
    answer
        .findings
        .iter()
        .map(|finding| {
            format!(
                "{}/{} {:?} {}",
                finding.mating.code,
                finding.rule.code,
                finding.outcome,
                reasons(finding)
            )
        })
        .collect()
}

#[test]
fn the_order_of_parts_never_matters() {
    for seed in 0..BIKES {
        let mut random = Random(seed);
        let mut parts = bike(&mut random);
        let before = judged(&build(&parts), &[]);
        for place in (1..parts.len()).rev() {
            parts.swap(place, random.below(place + 1));
        }
        let after = judged(&build(&parts), &[]);
        assert_eq!(before.verdict, after.verdict);
        assert_eq!(said(&before), said(&after));
    }
}

#[test]
fn equal_parts_are_interchangeable() {
    for seed in 0..BIKES {
        let parts = bike(&mut Random(seed));
        let mut renamed = parts.clone();
        for part in &mut renamed {
            part.sku = "ANOTHER".into();
            part.name = "another name".into();
        }
        assert_eq!(said(&judged(&build(&parts), &[])), said(&judged(&build(&renamed), &[])));
    }
}

#[test]
fn only_what_a_change_touches_counts() {
    for seed in 0..BIKES {
        let parts = bike(&mut Random(seed));
        let Some((first, rest)) = parts.split_first() else { continue };
        let bike = build(rest);
        let fit = Item { id: String::new(), end: None, quantity: 1, part: Arc::new(first.clone()) };
        let change = Change { id: "new".into(), fit: Some(fit), ..Change::default() };
        let answer = judged(&bike, &[change]);
        let counted: Verdict = answer.touched().map(|finding| finding.outcome).collect();
        if answer.touched().next().is_some() {
            assert_eq!(answer.verdict, counted);
        } else {
            assert_eq!(answer.verdict.headline, Outcome::NotEnoughData, "nothing was judged");
        }
        assert!(
            answer
                .findings
                .iter()
                .filter(|finding| !finding.touched)
                .all(|finding| !finding.items.is_empty())
        );
    }
}

#[test]
fn a_question_names_values_that_pass() {
    let mut tried = 0;
    for seed in 0..BIKES {
        let parts = bike(&mut Random(seed));
        let assembly = assemble(&build(&parts), &[]).expect("random bikes can be assembled");
        let answer = check(&assembly, &Grounds::bare(Interfaces::standard_ref(), Practice::Workshop));
        for question in questions(&answer, &assembly, Interfaces::standard_ref(), Practice::Workshop) {
            let (Some(place), Some((value, _))) = (question.place, question.passing.first().copied()) else {
                continue;
            };
            let placed = &assembly.placed[place];
            let Some(index) = assembly
                .placed
                .iter()
                .filter(|other| !other.all_rings && other.parent.is_none())
                .position(|other| other.id == placed.id)
            else {
                continue;
            };
            if placed.all_rings || placed.parent.is_some() {
                continue;
            }
            let mut answered = parts.clone();
            answered[index].set(
                question.attribute,
                sprag_engine::part::Value::stated(sprag_engine::part::Set::Exact(value)),
            );
            let after = judged(&build(&answered), &[]);
            let waited: Vec<&Finding> = answer
                .findings
                .iter()
                .filter(|finding| finding.missing == [(Some(place), question.attribute)])
                .collect();
            for finding in &after.findings {
                let same = |waiting: &&&Finding| {
                    waiting.mating.code == finding.mating.code
                        && waiting.rule.code == finding.rule.code
                        && waiting.items == finding.items
                };
                if waited.iter().any(|waiting| same(&waiting)) {
                    tried += 1;
                    let name = format!("{}/{}", finding.mating.code, finding.rule.code);
                    assert!(
                        finding.outcome <= Outcome::Caveat,
                        "{name} with {:?} = {value}",
                        question.attribute
                    );
                }
            }
        }
    }
    assert!(tried > 20, "only {tried} answers were tried");
}
