//! What to find out: the missing values, in the order that settles most, with the values that would pass.

use std::collections::BTreeMap;

use super::check::{Answer, Finding, part_at};
use super::evaluate::{evaluate_states, states};
use super::outcome::{Hazard, Outcome, Practice};
use super::rule::Point;
use crate::build::Assembly;
use crate::part::interface::Interfaces;
use crate::part::{Attribute, AttributeSpec, Form, Part, Unit};

/// A value worth finding out.
#[derive(Clone, Debug)]
pub struct Question {
    /// Place of the item in the assembly; `None` = the use of the bike.
    pub place: Option<usize>,
    /// The attribute.
    pub attribute: Attribute,
    /// Values that would pass every rule that waits for this value alone, as ranges of integers in order; empty where
    /// it depends on other missing values too, or where none would pass.
    pub passing: Vec<(i64, i64)>,
    /// Codes of the rules that it would settle: "mating/rule".
    pub rules: Vec<String>,
    /// At least one rule waits for this value alone.
    pub alone: bool,
    hazard: Hazard,
}

/// The questions of an answer: those that settle most come first, then those about hazards.
pub fn questions(
    answer: &Answer,
    assembly: &Assembly,
    interfaces: &Interfaces,
    practice: Practice,
) -> Vec<Question> {
    let mut waiting: BTreeMap<(Option<usize>, Attribute), Vec<&Finding>> = BTreeMap::new();
    let open = answer.touched().filter(|finding| finding.outcome == Outcome::NotEnoughData);
    for finding in open {
        for missing in &finding.missing {
            waiting.entry(*missing).or_default().push(finding);
        }
    }
    let mut questions: Vec<Question> = waiting
        .into_iter()
        .map(|((place, attribute), findings)| {
            let alone: Vec<&&Finding> = findings
                .iter()
                // One that was made without the rule's other parts cannot be tried with values.
                .filter(|finding| {
                    finding.missing.len() == 1 && finding.items.len() == finding.rule.slots.len()
                })
                .collect();
            Question {
                place,
                attribute,
                passing: passing(place, attribute, &alone, assembly, interfaces, practice),
                rules: findings
                    .iter()
                    .map(|found| format!("{}/{}", found.mating.code, found.rule.code))
                    .collect(),
                alone: !alone.is_empty(),
                hazard: findings.iter().map(|found| found.hazard()).max().unwrap_or(Hazard::None),
            }
        })
        .collect();
    questions.sort_by(|a, b| {
        b.rules
            .len()
            .cmp(&a.rules.len())
            .then_with(|| b.alone.cmp(&a.alone))
            .then_with(|| b.hazard.cmp(&a.hazard))
    });
    questions
}

/// Values that pass every rule that waits for this one alone.
fn passing(
    place: Option<usize>,
    attribute: Attribute,
    alone: &[&&Finding],
    assembly: &Assembly,
    interfaces: &Interfaces,
    practice: Practice,
) -> Vec<(i64, i64)> {
    let Some(spec) = part_at(assembly, place).kind.attribute(attribute) else { return Vec::new() };
    if alone.is_empty() {
        return Vec::new();
    }
    let (candidates, width) = candidates(spec, interfaces);
    let mut ranges: Vec<(i64, i64)> = Vec::new();
    for candidate in candidates {
        let passes = alone.iter().all(|finding| {
            outcome_with(finding, place, attribute, candidate, assembly, interfaces, practice)
                .is_none_or(|outcome| outcome <= Outcome::Caveat)
        });
        if !passes {
            continue;
        }
        match ranges.last_mut() {
            Some((_, high)) if candidate - *high == width && spec.unit != Unit::None => *high = candidate,
            _ => ranges.push((candidate, candidate)),
        }
    }
    ranges
}

/// The values to try, with the distance between neighbours. Lengths are tried in hundredths of a millimetre or, over
/// wide ranges, coarser.
fn candidates(spec: &AttributeSpec, interfaces: &Interfaces) -> (Vec<i64>, i64) {
    const TRIED_MAX: i64 = 2000;
    match spec.form {
        Form::Integer => {
            let (low, high) = spec.hard;
            let fine = if spec.unit == Unit::Micrometres { 10 } else { 1 };
            let width = fine.max((high - low + TRIED_MAX - 1) / TRIED_MAX / fine * fine);
            let tried = (0..).map(|step| low + step * width).take_while(|value| *value <= high).collect();
            (tried, width)
        }
        Form::Flag => (vec![0, 1], 1),
        Form::Words(words) => ((0..).take(words.len()).collect(), 1),
        Form::Interface(class) => (interfaces.of_class(class).map(|(key, _)| i64::from(key.0)).collect(), 1),
        Form::FreeKey | Form::List => (Vec::new(), 1),
    }
}

fn outcome_with(
    finding: &Finding,
    place: Option<usize>,
    attribute: Attribute,
    candidate: i64,
    assembly: &Assembly,
    interfaces: &Interfaces,
    practice: Practice,
) -> Option<Outcome> {
    let parts: Vec<&Part> = finding.items.iter().map(|item| part_at(assembly, *item)).collect();
    let tried: Vec<Vec<Point>> = finding
        .rule
        .inputs
        .iter()
        .map(|input| {
            let slot = finding.rule.slots.iter().position(|slot| *slot == input.0);
            let here = slot.and_then(|index| finding.items.get(index).copied());
            if input.1 == attribute && here == Some(place) {
                vec![Point::Value(candidate, candidate)]
            } else {
                states(finding.rule, *input, &parts)
            }
        })
        .collect();
    evaluate_states(finding.rule, &tried, interfaces, practice).outcome(practice)
}
