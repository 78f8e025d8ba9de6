//! Rules: pure judges of one mating each, over the attributes that they declare.

use std::cell::Cell;

use super::num::Num;
use super::outcome::{Outcome, Practice};
use super::reason::Reason;
use super::slot::Slot;
use crate::part::interface::{Interfaces, Key};
use crate::part::of::{Flag, FreeKey, InterfaceKey, Of, Word};
use crate::part::units::Measure;
use crate::part::{Attribute, Unit};

/// A place where parts meet, with its rules and its page.
#[derive(Debug)]
pub struct Mating {
    /// Code, kebab-case; the name of its file.
    pub code: &'static str,
    /// Title.
    pub title: &'static str,
    /// The source of its file: the page is its header.
    pub file: &'static str,
    /// Where the rules come from, in one line.
    pub source: &'static str,
    /// Its rules.
    pub rules: &'static [Rule],
}

impl Mating {
    /// The page: the header of the file.
    pub fn page(&self) -> String {
        let header = self.file.lines().take_while(|line| line.starts_with("//!"));
        header
            .map(|line| line.trim_start_matches("//!").trim_start_matches(' '))
            .collect::<Vec<_>>()
            .join("\n")
    }
}

/// What a rule reads: an attribute of the part in a slot.
pub type Input = (Slot, Attribute);

/// One judge of a mating.
#[derive(Debug)]
pub struct Rule {
    /// Code within the mating, kebab-case.
    pub code: &'static str,
    /// The parts that must be there.
    pub slots: &'static [Slot],
    /// What it reads; it is handed only these.
    pub inputs: &'static [Input],
    /// Every reason that it can give.
    pub reasons: &'static [&'static Reason],
    /// The judge. It sees one possible state of the parts at a time.
    pub judge: fn(&Given<'_>) -> Judged,
}

/// What a judge gives back.
pub type Judged = Result<Judgement, Stop>;

/// Why a judge gives no judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stop {
    /// A value that it needs is not known.
    Missing,
    /// A number is not known exactly enough.
    Undecided,
    /// The rule has nothing to say of these parts.
    Silent,
}

/// A number behind a judgement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// What it counts.
    pub unit: Unit,
    /// Lowest possible value.
    pub low: i64,
    /// Highest possible value.
    pub high: i64,
}

/// A reason with its numbers. Made without allocating, since searches make millions.
#[derive(Clone, Copy, Debug)]
pub struct Judgement {
    /// The reason.
    pub reason: &'static Reason,
    figures: [Option<Figure>; 5],
}

impl PartialEq for Judgement {
    fn eq(&self, other: &Self) -> bool {
        // Codes are unique within a rule, and judgements of different rules are never compared.
        self.reason.code == other.reason.code && self.figures == other.figures
    }
}

impl Judgement {
    /// The outcome under a limit practice.
    pub fn outcome(&self, practice: Practice) -> Outcome {
        if self.reason.tolerated && practice == Practice::Maker {
            Outcome::DoesNotFit
        } else {
            self.reason.outcome
        }
    }

    /// Adds a number; a sixth is left out.
    #[must_use]
    pub fn with<U: Measure>(mut self, name: &'static str, number: Num<U>) -> Self {
        if let Some(free) = self.figures.iter_mut().find(|slot| slot.is_none()) {
            *free = Some(Figure { name, unit: number.unit(), low: number.low, high: number.high });
        }
        self
    }

    /// The numbers.
    pub fn figures(&self) -> impl Iterator<Item = &Figure> {
        self.figures.iter().flatten()
    }
}

impl From<&'static Reason> for Judgement {
    fn from(reason: &'static Reason) -> Self {
        Self { reason, figures: [None; 5] }
    }
}

/// Says a reason without numbers.
pub fn say(reason: &'static Reason) -> Judged {
    Ok(Judgement::from(reason))
}

/// One input in one possible state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Point {
    /// Not known.
    Missing,
    /// The part has no such thing.
    Absent,
    /// Known to lie between these.
    Value(i64, i64),
}

/// What a judge is given: its declared inputs in one possible state.
#[derive(Debug)]
pub struct Given<'a> {
    /// The declared inputs.
    pub(super) inputs: &'static [Input],
    /// Their states, in the same order.
    pub(super) points: &'a [Point],
    /// The interfaces.
    pub(super) interfaces: &'a Interfaces,
    /// Inputs read so far, as bits.
    pub(super) read: Cell<u32>,
    /// Inputs found missing so far, as bits.
    pub(super) missing: Cell<u32>,
}

impl<'a> Given<'a> {
    fn point(&self, slot: Slot, attribute: Attribute) -> Result<(i64, i64), Stop> {
        match self.state(slot, attribute) {
            Point::Value(low, high) => Ok((low, high)),
            Point::Missing | Point::Absent => {
                self.note(&self.missing, slot, attribute);
                Err(Stop::Missing)
            }
        }
    }

    fn state(&self, slot: Slot, attribute: Attribute) -> Point {
        self.note(&self.read, slot, attribute);
        let index = self.inputs.iter().position(|input| *input == (slot, attribute));
        debug_assert!(index.is_some(), "{slot:?} {attribute:?} is read but not declared");
        index.and_then(|index| self.points.get(index).copied()).unwrap_or(Point::Missing)
    }

    fn note(&self, bits: &Cell<u32>, slot: Slot, attribute: Attribute) {
        if let Some(index) = self.inputs.iter().position(|input| *input == (slot, attribute)) {
            bits.set(bits.get() | 1 << index);
        }
    }

    /// A number.
    pub fn num<U: Measure>(&self, slot: Slot, of: Of<U>) -> Result<Num<U>, Stop> {
        self.point(slot, of.attribute()).map(|(low, high)| Num::between(low, high))
    }

    /// A number, where it is known at all; never a reason to ask.
    pub fn known<U: Measure>(&self, slot: Slot, of: Of<U>) -> Option<Num<U>> {
        match self.state(slot, of.attribute()) {
            Point::Value(low, high) => Some(Num::between(low, high)),
            Point::Missing | Point::Absent => None,
        }
    }

    /// An interface key.
    pub fn key(&self, slot: Slot, of: Of<InterfaceKey>) -> Result<Key, Stop> {
        let (value, _) = self.point(slot, of.attribute())?;
        u16::try_from(value).map(Key).map_err(|_| Stop::Missing)
    }

    /// A free text, good for equality.
    pub fn free_key(&self, slot: Slot, of: Of<FreeKey>) -> Result<i64, Stop> {
        self.point(slot, of.attribute()).map(|(value, _)| value)
    }

    /// A word.
    pub fn word<W: Word>(&self, slot: Slot, of: Of<W>) -> Result<W, Stop> {
        let (value, _) = self.point(slot, of.attribute())?;
        W::from_index(value).ok_or(Stop::Missing)
    }

    /// Yes or no.
    pub fn flag(&self, slot: Slot, of: Of<Flag>) -> Result<bool, Stop> {
        self.point(slot, of.attribute()).map(|(value, _)| value != 0)
    }

    /// Known to be so; never a reason to ask.
    pub fn is_known(&self, slot: Slot, of: Of<Flag>) -> bool {
        matches!(self.state(slot, of.attribute()), Point::Value(low, _) if low != 0)
    }

    /// The part has no such thing: known to be absent. Not known is a reason to ask.
    pub fn is_absent<T>(&self, slot: Slot, of: Of<T>) -> Result<bool, Stop> {
        match self.state(slot, of.attribute()) {
            Point::Absent => Ok(true),
            Point::Value(..) => Ok(false),
            Point::Missing => {
                self.note(&self.missing, slot, of.attribute());
                Err(Stop::Missing)
            }
        }
    }

    /// Known to be absent; never a reason to ask.
    pub fn known_absent<T>(&self, slot: Slot, of: Of<T>) -> bool {
        self.state(slot, of.attribute()) == Point::Absent
    }

    /// Not known at all.
    pub fn is_missing<T>(&self, slot: Slot, of: Of<T>) -> bool {
        self.state(slot, of.attribute()) == Point::Missing
    }

    /// A provider takes a consumer.
    pub fn accepts(&self, provider: Key, consumer: Key) -> bool {
        self.interfaces.accepts(provider, consumer)
    }

    /// Name of a key.
    pub fn name(&self, key: Key) -> &'a str {
        self.interfaces.name(key)
    }
}
