//! Further parts that make a build work: what they must be, and what already serves.

use super::book::Saying;
use super::check::{Answer, Finding};
use super::outcome::Outcome;
use super::reason::{Extra, Source};
use super::rule::Judgement;
use crate::build::{Assembly, Item};
use crate::part::interface::Interfaces;
use crate::part::{Attribute, Form, Kind, Part, Set};

/// What an extra part must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trait {
    /// The attribute.
    pub attribute: Attribute,
    /// Lowest value that serves.
    pub low: i64,
    /// Highest value that serves.
    pub high: i64,
}

/// A further part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExtraPart {
    /// Its kind.
    pub kind: Kind,
    /// What it must be.
    pub traits: Vec<Trait>,
    /// How many.
    pub quantity: u32,
    /// The rule that asks for it: "mating/rule".
    pub rule: String,
    /// Useful, but the set works without it.
    pub optional: bool,
    /// The item of the build, basket or owned spares that serves.
    pub met_by: Option<String>,
}

/// Spacers that exist, thickest first, in micrometres. Source: workshop pages and makers' tables, seen as excerpts.
pub const SPACERS_UM: [i64; 3] = [4_500, 1_850, 1_000];

/// A spacer serves within this much of what is needed (threshold reasoned, as for the body length).
const SPACER_TOLERANCE_UM: i64 = 150;

/// The further parts that an answer asks for; parts of the build and owned spares that serve are used up once.
pub fn extras(
    answer: &Answer,
    assembly: &Assembly,
    owned: &[Item],
    interfaces: &Interfaces,
) -> Vec<ExtraPart> {
    let mut wanted: Vec<ExtraPart> = Vec::new();
    for finding in answer.touched().filter(|finding| finding.outcome < Outcome::NotEnoughData) {
        wanted.extend(finding.decided_by().and_then(|saying| stated_part(saying, finding)));
        // Where several judgements are possible, what each of them needs is named.
        for judgement in &finding.judgements {
            for extra in judgement.reason.extras {
                for part in wanted_parts(extra, judgement, finding, interfaces) {
                    if !wanted.iter().any(|known| {
                        known.kind == part.kind && known.traits == part.traits && known.rule == part.rule
                    }) {
                        wanted.push(part);
                    }
                }
            }
        }
    }
    let mut spares: Vec<(String, &Part, u32)> = assembly
        .placed
        .iter()
        .map(|placed| (placed.id.clone(), &*placed.part, placed.quantity))
        .chain(
            owned
                .iter()
                .map(|item| (format!("owned:{}", owned_name(item)), &*item.part, item.quantity.max(1))),
        )
        .collect();
    for extra in &mut wanted {
        let spare = spares.iter_mut().find(|(_, part, left)| *left >= extra.quantity && serves(part, extra));
        if let Some((name, _, left)) = spare {
            *left -= extra.quantity;
            extra.met_by = Some(name.clone());
        }
    }
    wanted
}

fn owned_name(item: &Item) -> &str {
    if !item.id.is_empty() {
        &item.id
    } else if !item.part.sku.is_empty() {
        &item.part.sku
    } else {
        item.part.kind.name()
    }
}

/// The further part that a statement or ruling asks for.
fn stated_part(saying: &Saying, finding: &Finding) -> Option<ExtraPart> {
    let needed = saying.needed.as_ref()?;
    Some(ExtraPart {
        kind: needed.kind,
        traits: needed.traits.clone(),
        quantity: 1,
        rule: format!("{}/{}", finding.mating.code, finding.rule.code),
        optional: false,
        met_by: None,
    })
}

fn wanted_parts(
    extra: &Extra,
    judgement: &Judgement,
    finding: &Finding,
    interfaces: &Interfaces,
) -> Vec<ExtraPart> {
    let traits: Vec<Trait> = extra
        .traits
        .iter()
        .filter_map(|(attribute, source)| {
            wanted_trait(extra.kind, *attribute, *source, judgement, interfaces)
        })
        .collect();
    let part = ExtraPart {
        kind: extra.kind,
        traits,
        quantity: 1,
        rule: format!("{}/{}", finding.mating.code, finding.rule.code),
        optional: extra.optional,
        met_by: None,
    };
    match part.traits.as_slice() {
        [thickness] if part.kind == Kind::Spacer && thickness.attribute == Attribute::Thickness => {
            let stack = stack(thickness.low, thickness.high);
            if stack.is_empty() {
                return vec![part];
            }
            let mut rings: Vec<ExtraPart> = Vec::new();
            for thickness in stack {
                let traits = vec![Trait { attribute: Attribute::Thickness, low: thickness, high: thickness }];
                match rings.iter_mut().find(|ring| ring.traits == traits) {
                    Some(ring) => ring.quantity += 1,
                    None => rings.push(ExtraPart { traits, ..part.clone() }),
                }
            }
            rings
        }
        _ => vec![part],
    }
}

/// The fewest spacers that exist whose sum is within tolerance of what is needed; empty where there is none.
pub fn stack(low: i64, high: i64) -> Vec<i64> {
    let mut best: Vec<i64> = Vec::new();
    let mut tried: Vec<Vec<i64>> = SPACERS_UM.iter().map(|ring| vec![*ring]).collect();
    for _ in 0..3 {
        let fitting = |stack: &&Vec<i64>| {
            let sum: i64 = stack.iter().sum();
            sum >= high - SPACER_TOLERANCE_UM && sum <= low + SPACER_TOLERANCE_UM
        };
        if let Some(found) = tried.iter().find(fitting) {
            best.clone_from(found);
            break;
        }
        let longer = tried.iter().flat_map(|stack| {
            let thinnest = stack.last().copied().unwrap_or(i64::MAX);
            let rings = SPACERS_UM.iter().filter(move |ring| **ring <= thinnest);
            rings.map(|ring| stack.iter().copied().chain([*ring]).collect::<Vec<_>>()).collect::<Vec<_>>()
        });
        tried = longer.collect();
    }
    best
}

fn wanted_trait(
    kind: Kind,
    attribute: Attribute,
    source: Source,
    judgement: &Judgement,
    interfaces: &Interfaces,
) -> Option<Trait> {
    let (low, high) = match source {
        Source::Number(name) => {
            judgement.figures().find(|figure| figure.name == name).map(|figure| (figure.low, figure.high))?
        }
        Source::Key(class, key) => {
            let key = i64::from(interfaces.find(class, key)?.0);
            (key, key)
        }
        Source::Word(word) => match kind.attribute(attribute)?.form {
            Form::Words(words) => {
                let index = i64::try_from(words.iter().position(|known| *known == word)?).ok()?;
                (index, index)
            }
            _ => return None,
        },
        Source::Fixed(value) => (value, value),
    };
    Some(Trait { attribute, low, high })
}

/// A part does what an extra part must do. What is not known of it does not serve.
pub fn serves(part: &Part, extra: &ExtraPart) -> bool {
    part.kind == extra.kind
        && extra.traits.iter().all(|wanted| {
            let tolerance = if wanted.attribute == Attribute::Thickness { SPACER_TOLERANCE_UM } else { 0 };
            match part.judged(wanted.attribute) {
                Set::Exact(value) => *value >= wanted.low - tolerance && *value <= wanted.high + tolerance,
                _ => false,
            }
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spacers_are_built_from_rings_that_exist() {
        // Sums of the rings in workshop use; source: makers' tables and workshop pages, seen as excerpts.
        assert_eq!(stack(1_850, 1_850), [1_850]);
        assert_eq!(stack(2_850, 2_850), [1_850, 1_000]);
        assert_eq!(stack(6_350, 6_350), [4_500, 1_850]);
        assert_eq!(stack(7_350, 7_350), [4_500, 1_850, 1_000]);
        assert!(stack(700, 700).is_empty());
    }
}
