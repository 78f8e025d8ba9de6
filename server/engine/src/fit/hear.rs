//! Hears what makers state and the shop has ruled where parts meet, before and after the rule itself is asked.
//!
//! A statement decides: no computation overrules it. A ruling comes after statement and rule; it may make stricter, and
//! it may soften what nobody can be hurt by. What can hurt keeps its hazard, and with it its caution, whatever is said.

use std::cmp::Reverse;
use std::sync::Arc;

use super::book::{Level, Saying};
use super::check::{Finding, worst_hazard};
use super::date::Date;
use super::grounds::Grounds;
use super::outcome::{Evidence, Hazard, Outcome, Practice};
use super::rule::{Mating, Rule};
use crate::build::{Assembly, Placed};
use crate::part::Kind;

/// Places of two parts, the lower one first.
type Pair = (usize, usize);

/// What became of a ruling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// The finding says what it says.
    Applied,
    /// The finding is no worse than it allows, and stands.
    Agrees,
    /// Another ruling speaks of these parts more closely, or is stricter.
    Superseded,
    /// It is past its last day.
    Expired,
    /// Its first day is still to come.
    NotYet,
    /// It would soften what someone could be hurt by.
    RefusedInjury,
    /// It would soften, and maker practice holds every limit.
    RefusedPractice,
}

/// What was heard where parts meet.
#[derive(Clone, Debug)]
pub struct Heard {
    /// The maker's statement.
    pub statement: Option<Arc<Saying>>,
    /// The rulings, in order of their names.
    pub rulings: Vec<(Arc<Saying>, State)>,
    /// What decides; `None` = the rule itself.
    pub decided_by: Option<Arc<Saying>>,
    /// What the rule says by itself, where something else decides; `None` also where it has nothing to say.
    pub computed: Option<Box<Finding>>,
    /// The hazard, which nothing that is said takes away.
    pub hazard: Hazard,
    /// The two parts that are spoken of: their places.
    pair: Pair,
}

impl Heard {
    /// What a finding rests on, where something that is said decides.
    pub fn evidence(&self) -> Option<Evidence> {
        self.decided_by.as_ref().map(|saying| match saying.level {
            Level::Statement => Evidence::Statement,
            Level::Ruling => Evidence::HouseRuling,
        })
    }

    fn computed_outcome(&self) -> Option<Outcome> {
        self.computed.as_ref().map(|found| found.outcome)
    }
}

/// Reason codes of findings that something said decides.
pub fn reason(saying: &Saying) -> &'static str {
    match (saying.level, saying.says) {
        (Level::Statement, Outcome::DoesNotFit) => "stated-does-not-fit",
        (Level::Statement, Outcome::Caveat) => "stated-caveat",
        (Level::Statement, Outcome::ExtraPart) => "stated-extra-parts",
        (Level::Statement, _) => "stated-fits",
        (Level::Ruling, Outcome::DoesNotFit) => "ruled-does-not-fit",
        (Level::Ruling, Outcome::Caveat) => "ruled-caveat",
        (Level::Ruling, Outcome::ExtraPart) => "ruled-extra-parts",
        (Level::Ruling, _) => "ruled-fits",
    }
}

/// The marks of the parts of one bike, and the book that they are looked up in.
pub(super) struct Hearing<'a> {
    grounds: &'a Grounds<'a>,
    marks: Vec<Vec<u32>>,
}

impl<'a> Hearing<'a> {
    /// `None` where nothing is said of any two parts of the bike.
    pub fn of(assembly: &Assembly, grounds: &'a Grounds<'a>) -> Option<Self> {
        if grounds.book.is_empty() {
            return None;
        }
        let marks: Vec<Vec<u32>> = assembly.placed.iter().map(|placed| marks_at(assembly, placed)).collect();
        let spoken_of = marks.iter().filter(|marks| !marks.is_empty()).count();
        (spoken_of > 1).then_some(Self { grounds, marks })
    }

    /// The finding of a meeting, after what is said of it; `found` is what the rule says by itself.
    pub fn hear(&self, meeting: Meeting<'_>, found: Option<Finding>) -> Option<Finding> {
        let Some((pair, sayings)) = self.said(&meeting) else { return found };
        let computed_hazard = found.as_ref().map_or(Hazard::None, Finding::hazard);
        let mut heard = Heard {
            statement: sayings.iter().find(|saying| saying.level == Level::Statement).cloned(),
            rulings: Vec::new(),
            decided_by: None,
            computed: None,
            hazard: computed_hazard,
            pair,
        };
        let mut outcome = found.as_ref().map(|found| found.outcome);
        if let Some(statement) = &heard.statement {
            outcome = Some(statement.says);
            if statement.says == Outcome::DoesNotFit {
                // Why is not told; where the rule knows of injury, that may be it.
                heard.hazard = heard.hazard.max(worst_hazard(meeting.rule));
            }
            heard.decided_by = Some(statement.clone());
        }
        let rulings = sayings.into_iter().filter(|saying| saying.level == Level::Ruling);
        let mut decided = false;
        for ruling in rulings {
            let state = match in_force(&ruling, self.grounds.as_of) {
                Some(state) => state,
                None if decided => State::Superseded,
                None => {
                    decided = true;
                    let (state, result) = apply(&ruling, outcome, heard.hazard, self.grounds.practice);
                    outcome = result;
                    state
                }
            };
            if state == State::Applied {
                heard.decided_by = Some(ruling.clone());
            }
            heard.rulings.push((ruling, state));
        }
        heard.rulings.sort_by(|a, b| a.0.id.cmp(&b.0.id));
        conclude(meeting, found, heard, outcome)
    }

    /// What is said where parts meet, and of which two: what is closer first, then what is stricter.
    fn said(&self, meeting: &Meeting<'_>) -> Option<(Pair, Vec<Arc<Saying>>)> {
        let places: Vec<usize> = meeting.items.iter().flatten().copied().collect();
        let mut pair = None;
        let mut sayings: Vec<Arc<Saying>> = Vec::new();
        for (index, one) in places.iter().enumerate() {
            for other in &places[index + 1..] {
                let (a, b) = (&self.marks[*one], &self.marks[*other]);
                for saying in self.grounds.book.on(meeting.mating, meeting.rule, a, b) {
                    if !sayings.contains(saying) {
                        pair.get_or_insert((*one.min(other), *one.max(other)));
                        sayings.push(saying.clone());
                    }
                }
            }
        }
        sayings.sort_by(|a, b| {
            let rank = |saying: &Saying| (Reverse(saying.articles), Reverse(saying.says));
            rank(a).cmp(&rank(b)).then_with(|| a.id.cmp(&b.id))
        });
        pair.map(|pair| (pair, sayings))
    }
}

/// Parts that meet in a rule.
pub(super) struct Meeting<'a> {
    pub mating: &'static Mating,
    pub rule: &'static Rule,
    pub items: &'a [Option<usize>],
    pub touched: bool,
}

/// Why a ruling does not count on a day; `None` = it counts.
fn in_force(ruling: &Saying, as_of: Date) -> Option<State> {
    if ruling.until.is_some_and(|until| as_of > until) {
        Some(State::Expired)
    } else if as_of < ruling.date {
        Some(State::NotYet)
    } else {
        None
    }
}

/// What a ruling makes of an outcome; `None` = the rule has nothing to say, and no statement has.
fn apply(
    ruling: &Saying,
    outcome: Option<Outcome>,
    hazard: Hazard,
    practice: Practice,
) -> (State, Option<Outcome>) {
    let standing = outcome.unwrap_or(Outcome::Fits);
    if ruling.says > standing {
        return (State::Applied, Some(ruling.says));
    }
    // Softened, it is never better than a caveat.
    let softened = ruling.says.max(Outcome::Caveat);
    if softened >= standing {
        (State::Agrees, outcome)
    } else if hazard == Hazard::Injury {
        (State::RefusedInjury, outcome)
    } else if practice == Practice::Maker {
        (State::RefusedPractice, outcome)
    } else {
        (State::Applied, Some(softened))
    }
}

fn conclude(
    meeting: Meeting<'_>,
    found: Option<Finding>,
    mut heard: Heard,
    outcome: Option<Outcome>,
) -> Option<Finding> {
    if heard.decided_by.is_none() {
        return found.map(|found| Finding { heard: Some(Box::new(heard)), ..found });
    }
    heard.computed = found.map(Box::new);
    Some(Finding {
        mating: meeting.mating,
        rule: meeting.rule,
        outcome: outcome?,
        judgements: Vec::new(),
        missing: Vec::new(),
        items: meeting.items.to_vec(),
        touched: meeting.touched,
        heard: Some(Box::new(heard)),
    })
}

/// One saying may decide several rules of a mating between the same two parts: it is told once, at the rule that says
/// worst by itself.
pub(super) fn told_once(findings: Vec<Finding>) -> Vec<Finding> {
    let mut told: Vec<Finding> = Vec::with_capacity(findings.len());
    for found in findings {
        let decided = |finding: &Finding| {
            finding.heard.as_ref().and_then(|heard| Some((heard.decided_by.clone()?, heard.pair)))
        };
        let mine = decided(&found);
        let same = told.iter_mut().find(|known| mine.is_some() && decided(known) == mine);
        match (same, &found.heard) {
            (Some(known), Some(heard)) => {
                let hazard = known.hazard().max(heard.hazard);
                let before = known.heard.as_ref().and_then(|heard| heard.computed_outcome());
                if heard.computed_outcome() > before {
                    *known = found;
                }
                if let Some(heard) = &mut known.heard {
                    heard.hazard = hazard;
                }
            }
            _ => told.push(found),
        }
    }
    told
}

/// The marks of a part in its place, with those of the composite parts that brought it.
fn marks_at(assembly: &Assembly, placed: &Placed) -> Vec<u32> {
    let mut marks = placed.part.marks().to_vec();
    let mut parent = placed.parent.as_deref();
    if placed.all_rings {
        parent = host_of_all_rings(assembly, placed);
    }
    while let Some(found) = parent.and_then(|name| assembly.find(name)) {
        marks.extend(found.part.marks());
        parent = found.parent.as_deref();
    }
    marks.sort_unstable();
    marks.dedup();
    marks
}

/// The crankset that brought every ring of the bike: what is said of it is said of its rings together.
fn host_of_all_rings<'a>(assembly: &Assembly, rings: &'a Placed) -> Option<&'a str> {
    let host = assembly.of_kind(Kind::Crankset).any(|crankset| crankset.id == rings.id);
    let all = assembly.of_kind(Kind::Chainring).all(|ring| ring.parent.as_deref() == Some(rings.id.as_str()));
    (host && all).then_some(rings.id.as_str())
}

#[cfg(test)]
#[path = "hear_tests.rs"]
mod tests;
