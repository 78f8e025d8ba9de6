//! Laws of single rules.

use std::collections::{BTreeMap, BTreeSet};

use sprag_engine::fit::evaluate::{Ruling, evaluate};
use sprag_engine::fit::registry::rules;
use sprag_engine::fit::rule::Rule;
use sprag_engine::fit::{Hazard, Mating, Outcome, Practice};
use sprag_engine::part::Part;
use sprag_engine::part::interface::Interfaces;

use super::random::{Random, narrowed, part, scramble_undeclared};

/// Random parts tried for each rule.
const TRIES: u64 = 800;

fn outcome(rule: &'static Rule, parts: &[Part], practice: Practice) -> Option<Outcome> {
    let parts: Vec<&Part> = parts.iter().collect();
    evaluate(rule, &parts, Interfaces::standard_ref(), practice).outcome(practice)
}

fn parts(rule: &'static Rule, random: &mut Random) -> Vec<Part> {
    rule.slots.iter().map(|slot| part(rule, *slot, random)).collect()
}

/// Runs a trial for each rule with random parts.
fn for_random_parts(mut trial: impl FnMut(&'static Mating, &'static Rule, Vec<Part>, &mut Random)) {
    for (place, (mating, rule)) in (0_u64..).zip(rules()) {
        for seed in 0..TRIES {
            let mut random = Random(place * 1_000_003 + seed);
            let parts = parts(rule, &mut random);
            trial(mating, rule, parts, &mut random);
        }
    }
}

fn settled(outcome: Option<Outcome>) -> bool {
    outcome.is_some_and(|outcome| outcome != Outcome::NotEnoughData)
}

#[test]
fn more_knowledge_never_turns_one_settled_outcome_into_another() {
    for_random_parts(|mating, rule, parts, random| {
        for practice in [Practice::Maker, Practice::Workshop] {
            let before = outcome(rule, &parts, practice);
            if !settled(before) {
                continue;
            }
            for (slot, attribute) in rule.inputs {
                let place = rule.slots.iter().position(|found| found == slot).expect("a declared slot");
                let Some(known) = narrowed(&parts[place], *attribute, random) else { continue };
                let mut narrower = parts.clone();
                narrower[place] = known;
                let after = outcome(rule, &narrower, practice);
                assert!(
                    after == before || !settled(after),
                    "{}/{}: {before:?} became {after:?} when {attribute:?} became {:?}\nfrom {parts:#?}",
                    mating.code,
                    rule.code,
                    narrower[place].value(*attribute),
                );
            }
        }
    });
}

#[test]
fn what_is_not_declared_changes_nothing() {
    for_random_parts(|mating, rule, parts, random| {
        let before = outcome(rule, &parts, Practice::Workshop);
        let mut scrambled = parts.clone();
        for (slot, part) in rule.slots.iter().zip(&mut scrambled) {
            scramble_undeclared(part, rule, *slot, random);
        }
        let after = outcome(rule, &scrambled, Practice::Workshop);
        assert_eq!(before, after, "{}/{}", mating.code, rule.code);
    });
}

#[test]
fn maker_practice_is_never_more_lenient_than_workshop_practice() {
    for_random_parts(|mating, rule, parts, _| {
        let maker = outcome(rule, &parts, Practice::Maker);
        let workshop = outcome(rule, &parts, Practice::Workshop);
        assert!(maker >= workshop, "{}/{}: maker {maker:?}, workshop {workshop:?}", mating.code, rule.code);
    });
}

#[test]
fn what_is_not_known_is_never_a_fit() {
    // A rule that only adds a note for the assembly judges nothing.
    let only_notes = |rule: &Rule| {
        rule.reasons.iter().all(|reason| reason.outcome == Outcome::Fits && !reason.note.is_empty())
    };
    for (mating, rule) in rules().filter(|(_, rule)| !only_notes(rule)) {
        let unknown: Vec<Part> =
            rule.slots.iter().flat_map(|slot| slot.kinds().first()).map(|kind| Part::new(*kind)).collect();
        let found = outcome(rule, &unknown, Practice::Workshop);
        assert!(
            matches!(found, None | Some(Outcome::NotEnoughData)),
            "{}/{} says {found:?} of parts of which nothing is known",
            mating.code,
            rule.code
        );
    }
}

#[test]
fn a_hazard_of_injury_is_never_softened() {
    for (mating, rule) in rules() {
        for reason in rule.reasons.iter().filter(|reason| reason.hazard == Hazard::Injury) {
            assert!(
                !reason.tolerated,
                "{}/{}: {} is softened by practice",
                mating.code, rule.code, reason.code
            );
        }
    }
    for_random_parts(|mating, rule, parts, _| {
        let parts: Vec<&Part> = parts.iter().collect();
        let ruling = |practice| evaluate(rule, &parts, Interfaces::standard_ref(), practice);
        let (Ruling::Settled(maker), Ruling::Settled(workshop)) =
            (ruling(Practice::Maker), ruling(Practice::Workshop))
        else {
            return;
        };
        let refused = |judged: &[sprag_engine::fit::rule::Judgement], practice| {
            judged.iter().any(|found| {
                found.reason.hazard == Hazard::Injury && found.outcome(practice) == Outcome::DoesNotFit
            })
        };
        assert_eq!(
            refused(&maker, Practice::Maker),
            refused(&workshop, Practice::Workshop),
            "{}/{}: practice changes a refusal that protects from injury",
            mating.code,
            rule.code
        );
    });
}

#[test]
fn a_rule_gives_only_the_reasons_that_it_declares() {
    let mut given: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    let mut outcomes: BTreeSet<Outcome> = BTreeSet::new();
    for_random_parts(|mating, rule, parts, _| {
        let parts: Vec<&Part> = parts.iter().collect();
        let ruling = evaluate(rule, &parts, Interfaces::standard_ref(), Practice::Workshop);
        outcomes.extend(ruling.outcome(Practice::Workshop));
        let Ruling::Settled(judgements) = ruling else { return };
        for judgement in judgements {
            let code = judgement.reason.code;
            assert!(
                rule.reasons.iter().any(|reason| reason.code == code),
                "{}/{}: {code}",
                mating.code,
                rule.code
            );
            given.entry(format!("{}/{}", mating.code, rule.code)).or_default().insert(code);
        }
    });
    // A test of the generator: it reaches every outcome, and nearly every reason.
    assert_eq!(outcomes.len(), 5, "random parts reach only {outcomes:?}");
    let declared: usize = rules().map(|(_, rule)| rule.reasons.len()).sum();
    let reached: usize = given.values().map(BTreeSet::len).sum();
    let missed: Vec<String> = rules()
        .flat_map(|(mating, rule)| {
            let name = format!("{}/{}", mating.code, rule.code);
            let reached = given.get(&name).cloned().unwrap_or_default();
            rule.reasons
                .iter()
                .filter(|reason| !reached.contains(reason.code))
                .map(|reason| format!("{name}: {}", reason.code))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(
        reached * 10 >= declared * 7,
        "random parts reach {reached} of {declared} reasons; not {missed:#?}"
    );
}
