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
mod tests {
    use super::*;
    use crate::build::{Build, Item, assemble};
    use crate::explain;
    use crate::fit::book::{Book, Selector, pair_alone};
    use crate::fit::reason::Reason;
    use crate::fit::registry::rules;
    use crate::fit::rule::Judgement;
    use crate::fit::slot::Slot;
    use crate::part::Part;
    use crate::part::interface::Interfaces;

    fn day(text: &str) -> Date {
        Date::parse(text).expect("a day")
    }

    fn saying(id: &str, level: Level, says: Outcome, mating: &'static Mating) -> Saying {
        Saying {
            id: id.into(),
            level,
            decides: vec![(mating.code, None)],
            says,
            text: "a reason".into(),
            source: String::new(),
            author: "the head mechanic".into(),
            date: day("2026-01-01"),
            until: (level == Level::Ruling).then(|| day("2026-12-31")),
            needed: None,
            articles: 0,
        }
    }

    /// The parts that meet in a rule, with nothing known of them but that a saying speaks of their kinds.
    fn bike(rule: &Rule, book: &Book) -> Assembly {
        let kinds =
            rule.slots.iter().filter(|slot| **slot != Slot::Use).filter_map(|slot| slot.kinds().first());
        let items = kinds.enumerate().map(|(index, kind)| {
            let mut part = Part::new(*kind);
            book.mark(&mut part, crate::fit::book::Identity::default());
            Item { id: format!("{index}"), end: None, quantity: 1, part: Arc::new(part) }
        });
        // Two parts of one kind would be crowded at the same place, so the bike is put together without looking.
        let mut assembly = assemble(&Build::default(), &[]).expect("an empty bike");
        assembly.placed = items
            .map(|item| Placed {
                id: item.id,
                end: None,
                quantity: 1,
                part: item.part,
                parent: None,
                change: None,
                all_rings: false,
            })
            .collect();
        assembly
    }

    /// What becomes of a reason of a rule when the two parts are spoken of.
    fn heard(
        (mating, rule): (&'static Mating, &'static Rule),
        reason: &'static Reason,
        sayings: &[Saying],
        practice: Practice,
    ) -> Finding {
        let kinds: Vec<Kind> =
            rule.slots.iter().filter(|slot| **slot != Slot::Use).map(|slot| slot.kinds()[0]).collect();
        let selector = |kind: Option<&Kind>| Selector::Pattern(*kind.expect("a slot"), Vec::new());
        let pair = (selector(kinds.first()), selector(kinds.last()));
        let book = Book::new(sayings.iter().map(|saying| (saying.clone(), pair.0.clone(), pair.1.clone())));
        let assembly = bike(rule, &book);
        let grounds = Grounds {
            interfaces: Interfaces::standard_ref(),
            practice,
            book: &book,
            as_of: day("2026-11-25"),
        };
        let items: Vec<Option<usize>> = (0..assembly.placed.len()).map(Some).collect();
        let judgement = Judgement::from(reason);
        let found = Finding {
            mating,
            rule,
            outcome: judgement.outcome(practice),
            judgements: vec![judgement],
            missing: Vec::new(),
            items: items.clone(),
            touched: true,
            heard: None,
        };
        let hearing = Hearing::of(&assembly, &grounds);
        let meeting = Meeting { mating, rule, items: &items, touched: true };
        match hearing {
            Some(hearing) => hearing.hear(meeting, Some(found)).expect("a finding"),
            None => found,
        }
    }

    #[test]
    fn a_ruling_softens_no_reason_of_injury_and_hides_no_caution() {
        let mut walked = 0;
        for (mating, rule) in rules() {
            for reason in rule.reasons.iter().filter(|reason| reason.hazard == Hazard::Injury) {
                for says in [Outcome::Fits, Outcome::ExtraPart, Outcome::Caveat] {
                    let ruling = saying("soft", Level::Ruling, says, mating);
                    let found = heard((mating, rule), reason, &[ruling], Practice::Workshop);
                    let name = format!("{}/{}/{}", mating.code, rule.code, reason.code);
                    assert_eq!(
                        found.outcome,
                        reason.outcome.max(if pair_alone(rule) { says } else { Outcome::Fits }),
                        "{name}"
                    );
                    assert_eq!(found.hazard(), Hazard::Injury, "{name}");
                    assert!(
                        found.outcome == Outcome::Fits || explain::caution(&found).contains("hurt"),
                        "{name}"
                    );
                    if reason.outcome > Outcome::Caveat && pair_alone(rule) {
                        let states: Vec<State> = found
                            .heard
                            .iter()
                            .flat_map(|heard| &heard.rulings)
                            .map(|(_, state)| *state)
                            .collect();
                        assert_eq!(states, [State::RefusedInjury], "{name}");
                        assert_eq!(found.reason(), reason.code, "{name}");
                    }
                    walked += 1;
                }
            }
        }
        assert!(walked > 200, "only {walked} reasons of injury");
    }

    fn a_reason(
        wanted: impl Fn(&Rule, &Reason) -> bool,
    ) -> ((&'static Mating, &'static Rule), &'static Reason) {
        rules()
            .filter(|(_, rule)| pair_alone(rule) && rule.slots[0] != rule.slots[1])
            .find_map(|(mating, rule)| {
                let reason = rule.reasons.iter().find(|reason| wanted(rule, reason))?;
                Some(((mating, rule), *reason))
            })
            .expect("a rule with such a reason")
    }

    fn harmless_no() -> ((&'static Mating, &'static Rule), &'static Reason) {
        a_reason(|rule, reason| {
            reason.outcome == Outcome::DoesNotFit
                && reason.hazard == Hazard::None
                && worst_hazard(rule) == Hazard::None
        })
    }

    fn states(found: &Finding) -> Vec<State> {
        found.heard.iter().flat_map(|heard| &heard.rulings).map(|(_, state)| *state).collect()
    }

    #[test]
    fn a_ruling_softens_a_harmless_no_to_a_caveat_and_only_in_workshop_practice() {
        let (at, no) = harmless_no();
        let ruling = || saying("soft", Level::Ruling, Outcome::Fits, at.0);
        let soft = heard(at, no, &[ruling()], Practice::Workshop);
        assert_eq!((soft.outcome, soft.evidence()), (Outcome::Caveat, Some(Evidence::HouseRuling)));
        assert_eq!((soft.reason(), states(&soft)), ("ruled-fits", vec![State::Applied]));
        let kept = heard(at, no, &[ruling()], Practice::Maker);
        assert_eq!((kept.outcome, kept.reason()), (Outcome::DoesNotFit, no.code));
        assert_eq!(states(&kept), [State::RefusedPractice]);
    }

    #[test]
    fn a_ruling_past_its_last_day_or_before_its_first_is_told_and_not_applied() {
        let (at, no) = harmless_no();
        let dated = |date: &str, until: &str| Saying {
            date: day(date),
            until: Some(day(until)),
            ..saying("dated", Level::Ruling, Outcome::Caveat, at.0)
        };
        for (date, until, state) in [
            ("2025-01-01", "2026-11-24", State::Expired),
            ("2025-01-01", "2026-11-25", State::Applied),
            ("2026-11-25", "2026-11-25", State::Applied),
            ("2026-11-26", "2027-11-25", State::NotYet),
        ] {
            let found = heard(at, no, &[dated(date, until)], Practice::Workshop);
            assert_eq!(states(&found), [state], "{date} to {until}");
            assert_eq!(found.outcome == Outcome::Caveat, state == State::Applied, "{date} to {until}");
        }
    }

    #[test]
    fn a_statement_beats_what_is_computed_and_its_caution_stays() {
        let (at, injury) =
            a_reason(|_, reason| reason.outcome == Outcome::DoesNotFit && reason.hazard == Hazard::Injury);
        let works = saying("works", Level::Statement, Outcome::Fits, at.0);
        let found = heard(at, injury, &[works], Practice::Maker);
        assert_eq!((found.outcome, found.evidence()), (Outcome::Fits, Some(Evidence::Statement)));
        assert!(found.hazard() == Hazard::Injury && explain::caution(&found).contains("hurt"));
        let (at, fits) = a_reason(|_, reason| reason.outcome == Outcome::Fits);
        let no = saying("no", Level::Statement, Outcome::DoesNotFit, at.0);
        let found = heard(at, fits, &[no], Practice::Workshop);
        assert_eq!((found.outcome, found.reason()), (Outcome::DoesNotFit, "stated-does-not-fit"));
    }

    #[test]
    fn a_ruling_makes_a_statement_stricter_and_softens_it_only_where_nobody_is_hurt() {
        let (at, fits) = a_reason(|_, reason| reason.outcome == Outcome::Fits);
        let works = saying("works", Level::Statement, Outcome::Fits, at.0);
        let strict = saying("strict", Level::Ruling, Outcome::DoesNotFit, at.0);
        let found = heard(at, fits, &[works, strict], Practice::Maker);
        assert_eq!((found.outcome, found.reason()), (Outcome::DoesNotFit, "ruled-does-not-fit"));
        // Why a maker says no is not told: where the rule knows of injury, that may be it.
        for hurts in [true, false] {
            let (at, fits) = a_reason(|rule, reason| {
                reason.outcome == Outcome::Fits && (worst_hazard(rule) == Hazard::Injury) == hurts
            });
            let no = saying("no", Level::Statement, Outcome::DoesNotFit, at.0);
            let soft = saying("soft", Level::Ruling, Outcome::Caveat, at.0);
            let found = heard(at, fits, &[no, soft], Practice::Workshop);
            let (outcome, state) = if hurts {
                (Outcome::DoesNotFit, State::RefusedInjury)
            } else {
                (Outcome::Caveat, State::Applied)
            };
            assert_eq!((found.outcome, states(&found)), (outcome, vec![state]));
        }
    }

    #[test]
    fn what_names_articles_goes_before_patterns_and_the_stricter_before_the_milder() {
        let (at, no) = harmless_no();
        let mild =
            |id: &str, articles| Saying { articles, ..saying(id, Level::Ruling, Outcome::Caveat, at.0) };
        let strict =
            |id: &str, articles| Saying { articles, ..saying(id, Level::Ruling, Outcome::DoesNotFit, at.0) };
        let closer = heard(at, no, &[strict("a", 0), mild("b", 2)], Practice::Workshop);
        assert_eq!(
            (closer.outcome, states(&closer)),
            (Outcome::Caveat, vec![State::Superseded, State::Applied])
        );
        let equal = heard(at, no, &[strict("a", 1), mild("b", 1)], Practice::Workshop);
        assert_eq!(
            (equal.outcome, states(&equal)),
            (Outcome::DoesNotFit, vec![State::Agrees, State::Superseded])
        );
    }
}
