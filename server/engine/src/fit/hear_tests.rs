//! What is heard never takes a hazard away.

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
    let kinds = rule.slots.iter().filter(|slot| **slot != Slot::Use).filter_map(|slot| slot.kinds().first());
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
    let grounds =
        Grounds { interfaces: Interfaces::standard_ref(), practice, book: &book, as_of: day("2026-11-25") };
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

fn a_reason(wanted: impl Fn(&Rule, &Reason) -> bool) -> ((&'static Mating, &'static Rule), &'static Reason) {
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
    let mild = |id: &str, articles| Saying { articles, ..saying(id, Level::Ruling, Outcome::Caveat, at.0) };
    let strict =
        |id: &str, articles| Saying { articles, ..saying(id, Level::Ruling, Outcome::DoesNotFit, at.0) };
    let closer = heard(at, no, &[strict("a", 0), mild("b", 2)], Practice::Workshop);
    assert_eq!((closer.outcome, states(&closer)), (Outcome::Caveat, vec![State::Superseded, State::Applied]));
    let equal = heard(at, no, &[strict("a", 1), mild("b", 1)], Practice::Workshop);
    assert_eq!(
        (equal.outcome, states(&equal)),
        (Outcome::DoesNotFit, vec![State::Agrees, State::Superseded])
    );
}
