//! Lets described parts meet, for check values of single matings.
#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests stand outside the test functions

use std::sync::Arc;

use sprag_engine::build::{Build, End, Item, assemble};
use sprag_engine::fit::check::{Finding, check};
use sprag_engine::fit::{Grounds, Outcome, Practice};
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{Attribute, Form, Kind, Part, Set};

/// What is known of an attribute.
#[derive(Clone, Copy, Debug)]
pub enum Is {
    /// A number, in the unit of the dictionary.
    N(i64),
    /// Millimetres.
    Mm(i64),
    /// A word, an interface key, or a free text.
    W(&'static str),
    /// Yes or no.
    F(bool),
    /// The part has no such thing.
    No,
}

/// A part with what is known of it; everything else is unknown.
#[track_caller]
pub fn part(kind: Kind, known: &[(Attribute, Is)]) -> Part {
    known.iter().fold(Part::new(kind), |mut part, (attribute, is)| {
        let form = kind.attribute(*attribute).unwrap_or_else(|| panic!("{kind:?} has no {attribute:?}")).form;
        let set = match is {
            Is::N(number) => Set::Exact(*number),
            Is::Mm(length) => Set::Exact(length * 1_000),
            Is::F(flag) => Set::Exact(i64::from(*flag)),
            Is::No => Set::Absent,
            Is::W(word) => Set::Exact(match form {
                Form::Words(words) => {
                    let index = words.iter().position(|known| known == word);
                    i64::try_from(index.unwrap_or_else(|| panic!("no word {word}"))).unwrap()
                }
                Form::Interface(class) => {
                    let key = Interfaces::standard_ref().find(class, word);
                    key.unwrap_or_else(|| panic!("no key {word} in {class}")).0.into()
                }
                _ => part.free_key(word),
            }),
        };
        part.with(*attribute, set)
    })
}

/// What a mating says of parts at one end of the bike.
fn findings(mating: &str, end: End, parts: &[Part], practice: Practice) -> Vec<Finding> {
    let items = parts.iter().map(|part| Item {
        id: String::new(),
        end: Some(end),
        quantity: 1,
        part: Arc::new(part.clone()),
    });
    let build = Build { items: items.collect(), ..Build::default() };
    findings_of(mating, &build, practice)
}

/// What a mating says of a build.
pub fn findings_of(mating: &str, build: &Build, practice: Practice) -> Vec<Finding> {
    let assembly = assemble(build, &[]).unwrap();
    let answer = check(&assembly, &Grounds::bare(Interfaces::standard_ref(), practice));
    answer.findings.into_iter().filter(|finding| finding.mating.code == mating).collect()
}

/// The worst outcome of a mating at the rear, under workshop practice.
pub fn rear(mating: &str, parts: &[Part]) -> Option<Outcome> {
    worst(findings(mating, End::Rear, parts, Practice::Workshop))
}

/// The worst outcome of a mating at the front, under workshop practice.
pub fn front(mating: &str, parts: &[Part]) -> Option<Outcome> {
    worst(findings(mating, End::Front, parts, Practice::Workshop))
}

/// The worst outcome of a mating at the rear, under makers' limits.
pub fn by_maker(mating: &str, parts: &[Part]) -> Option<Outcome> {
    worst(findings(mating, End::Rear, parts, Practice::Maker))
}

fn worst(findings: Vec<Finding>) -> Option<Outcome> {
    findings.into_iter().map(|finding| finding.outcome).max()
}

/// A number that a mating gives, in the unit of the dictionary.
#[track_caller]
pub fn number(mating: &str, end: End, name: &str, parts: &[Part]) -> i64 {
    let findings = findings(mating, end, parts, Practice::Workshop);
    let judgements = findings.iter().flat_map(|finding| &finding.judgements);
    let found = judgements.flat_map(|judgement| judgement.figures()).find(|figure| figure.name == name);
    found.unwrap_or_else(|| panic!("{mating} gives no {name}")).low
}
