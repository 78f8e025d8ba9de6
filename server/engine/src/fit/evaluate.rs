//! Judges over sets of possible values: one outcome for all of them is an answer, differing outcomes are not.

use std::cell::Cell;

use super::outcome::{Outcome, Practice};
use super::rule::{Given, Judgement, Point, Rule, Stop};
use crate::part::interface::Interfaces;
use crate::part::{Form, Part, Set};

/// More combinations of possible values than this are not walked: the rule is undecided.
const COMBINATIONS_MAX: usize = 4096;

/// Whole-number ranges up to this many values are walked one by one, wider ones as a range.
const RANGE_WALKED: i64 = 12;

/// What a rule comes to over everything that remains possible.
#[derive(Clone, Debug, PartialEq)]
pub enum Ruling {
    /// One outcome for every possibility; the judgements differ in reason or numbers.
    Settled(Vec<Judgement>),
    /// The outcome depends on what is not known. Bits of inputs, in declared order.
    Open {
        /// Inputs of which nothing is known.
        missing: u32,
        /// Inputs of which too little is known.
        vague: u32,
    },
    /// The rule has nothing to say of these parts.
    Silent,
}

impl Ruling {
    /// The outcome; `None` where the rule is silent.
    pub fn outcome(&self, practice: Practice) -> Option<Outcome> {
        match self {
            Self::Settled(judgements) => judgements.iter().map(|found| found.outcome(practice)).max(),
            Self::Open { .. } => Some(Outcome::NotEnoughData),
            Self::Silent => None,
        }
    }
}

/// Judges a rule over parts, given in the order of its slots.
pub fn evaluate(rule: &'static Rule, parts: &[&Part], interfaces: &Interfaces, practice: Practice) -> Ruling {
    let states: Vec<Vec<Point>> = rule.inputs.iter().map(|input| states(rule, *input, parts)).collect();
    evaluate_states(rule, &states, interfaces, practice)
}

/// Judges a rule over the states that each of its inputs may be in.
pub fn evaluate_states(
    rule: &'static Rule,
    states: &[Vec<Point>],
    interfaces: &Interfaces,
    practice: Practice,
) -> Ruling {
    let vague = (0_u32..)
        .zip(states)
        .filter(|(_, states)| {
            states.len() > 1 || matches!(states[..], [Point::Value(low, high)] if low != high)
        })
        .fold(0, |bits, (index, _)| bits | 1 << index);
    let combinations = states.iter().try_fold(1_usize, |all, states| all.checked_mul(states.len()));
    if combinations.is_none_or(|all| all > COMBINATIONS_MAX) {
        return Ruling::Open { missing: 0, vague };
    }
    let mut walk = Walk { settled: Vec::new(), silent: false, missing: 0, open: false, read: 0 };
    let mut points: Vec<Point> = states.iter().map(|states| states[0]).collect();
    let mut places = vec![0_usize; states.len()];
    loop {
        walk.judge(rule, &points, interfaces);
        // Advances like an odometer; stops after the last combination.
        let Some(turned) = (0..states.len()).find(|index| places[*index] + 1 < states[*index].len()) else {
            break;
        };
        for index in 0..turned {
            places[index] = 0;
            points[index] = states[index][0];
        }
        places[turned] += 1;
        points[turned] = states[turned][places[turned]];
    }
    walk.ruling(vague, practice)
}

struct Walk {
    settled: Vec<Judgement>,
    silent: bool,
    missing: u32,
    open: bool,
    read: u32,
}

impl Walk {
    fn judge(&mut self, rule: &'static Rule, points: &[Point], interfaces: &Interfaces) {
        let given =
            Given { inputs: rule.inputs, points, interfaces, read: Cell::new(0), missing: Cell::new(0) };
        match (rule.judge)(&given) {
            Ok(judgement) => {
                if !self.settled.contains(&judgement) {
                    self.settled.push(judgement);
                }
            }
            Err(Stop::Silent) => self.silent = true,
            Err(Stop::Missing) => {
                self.open = true;
                self.missing |= given.missing.get();
            }
            Err(Stop::Undecided) => self.open = true,
        }
        self.read |= given.read.get();
    }

    fn ruling(mut self, vague: u32, practice: Practice) -> Ruling {
        let mut outcomes = self.settled.iter().map(|found| found.outcome(practice));
        let first = outcomes.next();
        let differ = outcomes.any(|outcome| Some(outcome) != first);
        let silent_beside = self.silent && first.is_some_and(|outcome| outcome != Outcome::Fits);
        if self.open || differ || silent_beside {
            return Ruling::Open { missing: self.missing, vague: vague & self.read };
        }
        if self.settled.is_empty() {
            return Ruling::Silent;
        }
        self.settled.sort_by(|a, b| {
            a.reason
                .code
                .cmp(b.reason.code)
                .then_with(|| a.figures().map(|f| f.low).cmp(b.figures().map(|f| f.low)))
        });
        Ruling::Settled(self.settled)
    }
}

/// The states that an input may be in.
pub fn states(
    rule: &'static Rule,
    (slot, attribute): (super::slot::Slot, crate::part::Attribute),
    parts: &[&Part],
) -> Vec<Point> {
    let Some(part) = rule.slots.iter().position(|found| *found == slot).and_then(|index| parts.get(index))
    else {
        return vec![Point::Missing];
    };
    let numeric = part.kind.attribute(attribute).is_some_and(|spec| spec.form == Form::Integer);
    match part.judged(attribute) {
        Set::Unknown | Set::List(_) => vec![Point::Missing],
        Set::Absent => vec![Point::Absent],
        Set::Exact(value) => vec![Point::Value(*value, *value)],
        Set::OneOf(values) => values.iter().map(|value| Point::Value(*value, *value)).collect(),
        Set::Between(low, high) if numeric && high - low < RANGE_WALKED => {
            (*low..=*high).map(|value| Point::Value(value, value)).collect()
        }
        Set::Between(low, high) => vec![Point::Value(*low, *high)],
    }
}
