//! The book: what makers state and what the shop has ruled of pairs of parts.
//!
//! It is compiled once for each revision. Every group of parts that some statement or ruling speaks of (an article, a
//! pattern) gets a number, its mark; each part carries the marks of the groups that it belongs to. So a check looks up
//! pairs of small numbers, and only where both parts carry any: a bike of parts that nothing is said of costs nothing.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use super::date::Date;
use super::extras::Trait;
use super::outcome::Outcome;
use super::rule::{Mating, Rule};
use super::slot::Slot;
use crate::part::{Attribute, Kind, Part, Set};

/// What an attribute must be: one of these ranges, limits included. A word or key is a range of one.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Wanted {
    /// The attribute.
    pub attribute: Attribute,
    /// The ranges.
    pub ranges: Vec<(i64, i64)>,
}

impl Wanted {
    /// Everything that remains possible is wanted. What is not known is not.
    fn holds(&self, part: &Part) -> bool {
        let within = |low: i64, high: i64| self.ranges.iter().any(|(from, to)| *from <= low && high <= *to);
        match part.judged(self.attribute) {
            Set::Exact(value) => within(*value, *value),
            Set::Between(low, high) => within(*low, *high),
            Set::OneOf(values) => values.iter().all(|value| within(*value, *value)),
            Set::Unknown | Set::Absent | Set::List(_) => false,
        }
    }
}

/// Which parts are meant.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Selector {
    /// The article with a stock number.
    Sku(String),
    /// The article with a GTIN of 14 digits.
    Gtin(String),
    /// The article with a maker's number, both as they are compared.
    MakerPart(String, String),
    /// Parts of a kind of which all of this is known.
    Pattern(Kind, Vec<Wanted>),
}

/// By what an article is known.
#[derive(Clone, Copy, Debug, Default)]
pub struct Identity<'a> {
    /// Its stock number; empty = none.
    pub sku: &'a str,
    /// Its GTINs, of 14 digits.
    pub gtins: &'a [String],
    /// Its maker and the maker's number, both as they are compared.
    pub maker_part: Option<(&'a str, &'a str)>,
}

/// Who says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// A maker states it.
    Statement,
    /// The shop has ruled it.
    Ruling,
}

/// A further part that is needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Needed {
    /// Its kind.
    pub kind: Kind,
    /// What it must be.
    pub traits: Vec<Trait>,
}

/// A statement or a ruling on a pair of parts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Saying {
    /// Its name.
    pub id: String,
    /// Who says it.
    pub level: Level,
    /// Codes of the matings that it decides, or of single rules of them.
    pub decides: Vec<(&'static str, Option<&'static str>)>,
    /// What it comes to; never "not enough data".
    pub says: Outcome,
    /// What is stated, or why it was ruled.
    pub text: String,
    /// Where it is stated; empty for a ruling.
    pub source: String,
    /// Who entered or decided it.
    pub author: String,
    /// From when on.
    pub date: Date,
    /// The last day on which it counts; `None` = for good.
    pub until: Option<Date>,
    /// The further part, where one is needed.
    pub needed: Option<Needed>,
    /// How many of the two are named as articles, and not by what they are: what is closer goes before what is general.
    pub articles: u8,
}

impl Saying {
    /// It speaks of a rule. That two parts work says nothing of rules in which more than the two meet.
    fn speaks_of(&self, mating: &Mating, rule: &Rule) -> bool {
        let named = self
            .decides
            .iter()
            .any(|(known, only)| *known == mating.code && only.is_none_or(|only| only == rule.code));
        named && (self.says == Outcome::DoesNotFit || pair_alone(rule))
    }
}

/// Nothing but two parts meet in a rule.
pub fn pair_alone(rule: &Rule) -> bool {
    rule.slots.len() == 2 && !rule.slots.contains(&Slot::Use)
}

/// Statements and rulings, for look-up.
#[derive(Clone, Debug, Default)]
pub struct Book {
    skus: BTreeMap<String, u32>,
    gtins: BTreeMap<String, u32>,
    maker_parts: BTreeMap<String, BTreeMap<String, u32>>,
    patterns: BTreeMap<Kind, Vec<(Vec<Wanted>, u32)>>,
    pairs: BTreeMap<(u32, u32), Vec<Arc<Saying>>>,
}

impl Book {
    /// A book in which nothing stands.
    pub fn empty() -> &'static Self {
        static EMPTY: LazyLock<Book> = LazyLock::new(Book::default);
        &EMPTY
    }

    /// A book of sayings with the parts that each speaks of; the order does not matter.
    pub fn new(sayings: impl IntoIterator<Item = (Saying, Selector, Selector)>) -> Self {
        let sayings: Vec<_> = sayings.into_iter().collect();
        let mut marks: BTreeMap<&Selector, u32> = BTreeMap::new();
        for (_, one, other) in &sayings {
            marks.insert(one, 0);
            marks.insert(other, 0);
        }
        for (number, mark) in (0..).zip(marks.values_mut()) {
            *mark = number;
        }
        let mut book = Self::default();
        for (selector, mark) in &marks {
            book.register(selector, *mark);
        }
        for (saying, one, other) in &sayings {
            let (one, other) = (marks[one], marks[other]);
            let pair = (one.min(other), one.max(other));
            book.pairs.entry(pair).or_default().push(Arc::new(saying.clone()));
        }
        book
    }

    fn register(&mut self, selector: &Selector, mark: u32) {
        match selector {
            Selector::Sku(sku) => {
                self.skus.insert(sku.clone(), mark);
            }
            Selector::Gtin(gtin) => {
                self.gtins.insert(gtin.clone(), mark);
            }
            Selector::MakerPart(brand, number) => {
                self.maker_parts.entry(brand.clone()).or_default().insert(number.clone(), mark);
            }
            Selector::Pattern(kind, traits) => {
                self.patterns.entry(*kind).or_default().push((traits.clone(), mark));
            }
        }
    }

    /// Nothing is said of anything.
    pub fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }

    /// Gives a part and what it brings along their marks. To be done once for each part, and again with another book.
    pub fn mark(&self, part: &mut Part, identity: Identity<'_>) {
        if self.is_empty() {
            return part.set_marks(&|_| Vec::new());
        }
        part.set_marks(&|part| self.by_pattern(part));
        let own = identity.maker_part.and_then(|(brand, number)| self.maker_parts.get(brand)?.get(number));
        let named = self.skus.get(identity.sku).into_iter().chain(own);
        let gtins = identity.gtins.iter().filter_map(|gtin| self.gtins.get(gtin));
        let more: Vec<u32> = named.chain(gtins).copied().collect();
        part.add_marks(&more);
    }

    fn by_pattern(&self, part: &Part) -> Vec<u32> {
        let patterns = self.patterns.get(&part.kind).into_iter().flatten();
        patterns
            .filter(|(traits, _)| traits.iter().all(|wanted| wanted.holds(part)))
            .map(|(_, mark)| *mark)
            .collect()
    }

    /// What is said of a rule between parts with these marks.
    pub(super) fn on<'a>(
        &'a self,
        mating: &'a Mating,
        rule: &'a Rule,
        one: &'a [u32],
        other: &'a [u32],
    ) -> impl Iterator<Item = &'a Arc<Saying>> {
        let pairs = one.iter().flat_map(move |a| other.iter().map(move |b| (*a.min(b), *a.max(b))));
        pairs
            .filter_map(|pair| self.pairs.get(&pair))
            .flatten()
            .filter(|saying| saying.speaks_of(mating, rule))
    }
}
