//! Statements and rulings: what is said of a pair of parts.

use sprag_engine::fit::book::{Level, Needed, Saying, Selector, pair_alone};
use sprag_engine::fit::extras::Trait;
use sprag_engine::fit::registry::{MATINGS, rules};
use sprag_engine::fit::{Mating, Outcome, Rule};
use sprag_engine::part::Kind;
use sprag_engine::part::interface::Interfaces;
use sprag_proto::text::nearest;
use sprag_proto::v1 as pb;

use super::selector;
use super::text::{Checker, or_nothing, quoted};

const RULES_MAX: usize = 16;
const TEXT_MAX: usize = 500;

/// What statements and rulings have in common, by the names of the fields that differ.
pub struct Said<'a> {
    level: Level,
    id: (&'static str, &'a str),
    part: Option<&'a pb::PartSelector>,
    other: Option<&'a pb::PartSelector>,
    rules: &'a [String],
    verdict: i32,
    text: (&'static str, &'a str),
    needed: Option<&'a pb::NeededPart>,
    source: Option<&'a str>,
    author: &'a str,
    date: &'a str,
    until: Option<&'a str>,
}

impl<'a> From<&'a pb::Statement> for Said<'a> {
    fn from(found: &'a pb::Statement) -> Self {
        Self {
            level: Level::Statement,
            id: ("statement_id", &found.statement_id),
            part: found.part.as_ref(),
            other: found.other.as_ref(),
            rules: &found.rules,
            verdict: found.verdict,
            text: ("text", &found.text),
            needed: found.needed.as_ref(),
            source: Some(&found.source),
            author: &found.author,
            date: &found.date,
            until: None,
        }
    }
}

impl<'a> From<&'a pb::Ruling> for Said<'a> {
    fn from(found: &'a pb::Ruling) -> Self {
        Self {
            level: Level::Ruling,
            id: ("ruling_id", &found.ruling_id),
            part: found.part.as_ref(),
            other: found.other.as_ref(),
            rules: &found.rules,
            verdict: found.verdict,
            text: ("reason", &found.reason),
            needed: found.needed.as_ref(),
            source: None,
            author: &found.author,
            date: &found.date,
            until: Some(&found.valid_until),
        }
    }
}

/// Reads a statement or ruling; `None` where something is wrong.
pub fn read(
    said: &Said<'_>,
    interfaces: &Interfaces,
    checker: &mut Checker,
) -> Option<(Saying, Selector, Selector)> {
    let before = checker.count();
    checker.id(said.id.0, said.id.1);
    checker.line(said.text.0, said.text.1, TEXT_MAX);
    checker.line("author", said.author, 100);
    if let Some(source) = said.source {
        checker.line("source", source, 300);
    }
    let date = checker.date("date", said.date);
    let until = said.until.map(|until| checker.date("valid_until", until));
    if let (Some(date), Some(Some(until))) = (date, until)
        && until < date
    {
        checker.fault("valid_until", &until.to_string(), &format!("{date}, its first day, or later"));
    }
    let part = selector::read("part", said.part, interfaces, checker);
    let other = selector::read("other", said.other, interfaces, checker);
    let says = verdict(said.verdict, checker);
    let needed = needed(said, says, interfaces, checker);
    let decides = decides(said.rules, says, [part.as_ref(), other.as_ref()], checker);
    if checker.count() > before {
        return None;
    }
    let (part, other) = (part?, other?);
    let articles = [&part, &other].into_iter().filter(|one| !matches!(one, Selector::Pattern(..))).count();
    let saying = Saying {
        id: said.id.1.to_owned(),
        level: said.level,
        decides,
        says: says?,
        text: said.text.1.trim().to_owned(),
        source: said.source.unwrap_or_default().to_owned(),
        author: said.author.to_owned(),
        date: date?,
        until: until.flatten(),
        needed,
        articles: u8::try_from(articles).unwrap_or(u8::MAX),
    };
    Some((saying, part, other))
}

fn verdict(found: i32, checker: &mut Checker) -> Option<Outcome> {
    let outcome = match pb::Verdict::try_from(found) {
        Ok(pb::Verdict::Fits) => Some(Outcome::Fits),
        Ok(pb::Verdict::FitsWithExtraParts) => Some(Outcome::ExtraPart),
        Ok(pb::Verdict::WorksWithCaveat) => Some(Outcome::Caveat),
        Ok(pb::Verdict::DoesNotFit) => Some(Outcome::DoesNotFit),
        Ok(pb::Verdict::Unspecified | pb::Verdict::NotEnoughData) | Err(_) => None,
    };
    if outcome.is_none() {
        let shown = pb::Verdict::try_from(found)
            .map_or_else(|_| found.to_string(), |word| word.as_str_name().to_owned());
        checker.fault("verdict", &shown, "fits, fits with extra parts, works with a caveat, or does not fit");
    }
    outcome
}

fn needed(
    said: &Said<'_>,
    says: Option<Outcome>,
    interfaces: &Interfaces,
    checker: &mut Checker,
) -> Option<Needed> {
    let Some(found) = said.needed else {
        if says == Some(Outcome::ExtraPart) {
            checker.fault("needed", "nothing", "the further part, since the verdict is that one is needed");
        }
        return None;
    };
    if says.is_some_and(|says| says != Outcome::ExtraPart) {
        checker.fault("needed", "a further part", "the verdict fits with extra parts, or nothing here");
    }
    let kind = selector::kind("needed.kind", &found.kind, checker)?;
    let wanted = selector::traits("needed", kind, &found.traits, interfaces, checker);
    let mut traits = Vec::with_capacity(wanted.len());
    for (index, one) in wanted.iter().enumerate() {
        match one.ranges.as_slice() {
            [(low, high)] => traits.push(Trait { attribute: one.attribute, low: *low, high: *high }),
            _ => checker.fault(&format!("needed.traits[{index}].keys"), "several", "exactly one"),
        }
    }
    Some(Needed { kind, traits })
}

/// The matings and rules that are named.
fn decides(
    named: &[String],
    says: Option<Outcome>,
    pair: [Option<&Selector>; 2],
    checker: &mut Checker,
) -> Vec<(&'static str, Option<&'static str>)> {
    if named.is_empty() || named.len() > RULES_MAX {
        checker.fault("rules", &format!("{} of them", named.len()), "1 to 16 matings or rules");
    }
    let mut decides = Vec::new();
    for (index, code) in named.iter().enumerate().take(RULES_MAX) {
        let path = format!("rules[{index}]");
        let Some((mating, rule)) = find(code) else {
            checker.near(&path, &or_nothing(code), "the code of a mating or rule", near_code(code));
            continue;
        };
        let meant: Vec<&Rule> = rule.map_or_else(|| mating.rules.iter().collect(), |rule| vec![rule]);
        if says.is_some_and(|says| says != Outcome::DoesNotFit) && !meant.iter().any(|rule| pair_alone(rule))
        {
            let wanted = "a rule in which only two parts meet: that the two work does not settle it";
            checker.fault(&path, &quoted(code), wanted);
        }
        let meets =
            |kind: Kind| meant.iter().any(|rule| rule.slots.iter().any(|slot| slot.kinds().contains(&kind)));
        for selector in pair.into_iter().flatten() {
            // A composite part brings others, and may be meant by any of them.
            if let Selector::Pattern(kind, _) = selector
                && kind.spec().children.is_empty()
                && !meets(*kind)
            {
                checker.fault(
                    &path,
                    &quoted(code),
                    &format!("a rule in which a {} meets something", kind.label()),
                );
            }
        }
        decides.push((mating.code, rule.map(|rule| rule.code)));
    }
    decides
}

/// A mating by its code, or a rule by "mating/rule".
fn find(code: &str) -> Option<(&'static Mating, Option<&'static Rule>)> {
    let (mating, rule) = code.split_once('/').map_or((code, None), |(mating, rule)| (mating, Some(rule)));
    let mating = MATINGS.iter().copied().find(|found| found.code == mating)?;
    match rule {
        None => Some((mating, None)),
        Some(code) => Some((mating, Some(mating.rules.iter().find(|rule| rule.code == code)?))),
    }
}

fn near_code(code: &str) -> Option<String> {
    let all: Vec<String> = rules().map(|(mating, rule)| format!("{}/{}", mating.code, rule.code)).collect();
    nearest(code, MATINGS.iter().map(|mating| mating.code).chain(all.iter().map(String::as_str)))
}
