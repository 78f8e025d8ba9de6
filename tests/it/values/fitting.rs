//! Parts and verdicts in few words, for tables of check values.
#![allow(clippy::expect_used, clippy::panic)] // helpers of tests stand outside the test functions

use sprag_engine::fit::evaluate::{Ruling, evaluate};
use sprag_engine::fit::registry;
use sprag_engine::fit::{Outcome, Practice, Slot, Verdict};
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{Attribute, Form, Kind, Part, Set};

/// A value of an attribute as a table writes it.
#[derive(Clone, Copy, Debug)]
pub enum Is {
    /// This number.
    Number(i64),
    /// This interface key or word.
    Named(&'static str),
    /// Yes or no.
    Flag(bool),
    /// The part has no such thing.
    Absent,
}

/// A number.
pub const fn n(value: i64) -> Is {
    Is::Number(value)
}

/// An interface key or a word.
pub const fn k(name: &'static str) -> Is {
    Is::Named(name)
}

/// Yes or no.
pub const fn f(flag: bool) -> Is {
    Is::Flag(flag)
}

/// A part with attributes. Names that the kind does not know fail the test.
#[track_caller]
pub fn part(kind: Kind, values: &[(Attribute, Is)]) -> Part {
    values.iter().fold(Part::new(kind), |part, (attribute, value)| with(&part, *attribute, *value))
}

/// The same part with one attribute more.
#[track_caller]
pub fn with(part: &Part, attribute: Attribute, value: Is) -> Part {
    let spec =
        part.kind.attribute(attribute).unwrap_or_else(|| panic!("{:?} has no {attribute:?}", part.kind));
    let set = match (value, &spec.form) {
        (Is::Number(number), _) => Set::Exact(number),
        (Is::Flag(flag), _) => Set::Exact(flag.into()),
        (Is::Absent, _) => Set::Absent,
        (Is::Named(name), Form::Interface(class)) => {
            let key = Interfaces::standard_ref().find(class, name);
            Set::Exact(key.unwrap_or_else(|| panic!("no key {name} in {class}")).0.into())
        }
        (Is::Named(name), Form::Words(words)) => {
            let index = words.iter().position(|word| *word == name);
            let index = index.unwrap_or_else(|| panic!("no word {name} among {words:?}"));
            Set::Exact(i64::try_from(index).expect("few words"))
        }
        (Is::Named(name), form) => panic!("{name} is not for {form:?}"),
    };
    part.clone().with(attribute, set)
}

/// What the rules of some matings say of some parts.
#[derive(Debug)]
pub struct Said {
    /// The merged verdict; `None` where every rule is silent.
    pub verdict: Option<Verdict>,
    /// Codes of the reasons given.
    pub reasons: Vec<&'static str>,
    figures: Vec<(&'static str, i64)>,
}

impl Said {
    /// The headline.
    pub fn headline(&self) -> Option<Outcome> {
        self.verdict.map(|verdict| verdict.headline)
    }

    /// The first number of a name.
    #[track_caller]
    pub fn figure(&self, name: &str) -> i64 {
        let found = self.figures.iter().find(|(known, _)| *known == name);
        found.unwrap_or_else(|| panic!("no {name} in {:?} of {:?}", self.figures, self.reasons)).1
    }
}

/// Judges parts by the rules of matings under a practice; rules without their parts are left out.
#[track_caller]
pub fn judge(matings: &[&str], parts: &[&Part], practice: Practice) -> Said {
    let nothing = Part::new(Kind::Use);
    let mut said = Said { verdict: None, reasons: Vec::new(), figures: Vec::new() };
    for code in matings {
        let mating = registry::find(code).unwrap_or_else(|| panic!("no mating {code}"));
        for rule in mating.rules {
            let filled: Option<Vec<&Part>> = rule
                .slots
                .iter()
                .map(|slot| {
                    let found = parts.iter().copied().find(|part| slot.kinds().contains(&part.kind));
                    found.or((*slot == Slot::Use).then_some(&nothing))
                })
                .collect();
            let Some(filled) = filled else { continue };
            let ruling = evaluate(rule, &filled, Interfaces::standard_ref(), practice);
            if let Some(outcome) = ruling.outcome(practice) {
                said.verdict = Some(said.verdict.unwrap_or_default().and(outcome));
            }
            if let Ruling::Settled(judgements) = ruling {
                for judgement in &judgements {
                    said.reasons.push(judgement.reason.code);
                    said.figures.extend(judgement.figures().map(|figure| (figure.name, figure.low)));
                }
            }
        }
    }
    said
}

/// The headline under workshop practice.
#[track_caller]
pub fn workshop(matings: &[&str], parts: &[&Part]) -> Option<Outcome> {
    judge(matings, parts, Practice::Workshop).headline()
}

/// The headline under maker practice.
#[track_caller]
pub fn maker(matings: &[&str], parts: &[&Part]) -> Option<Outcome> {
    judge(matings, parts, Practice::Maker).headline()
}
