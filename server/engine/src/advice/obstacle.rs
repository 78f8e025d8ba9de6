//! Why nothing works: a minimal set of causes, and what fails by little.
//!
//! The set is found by a deletion filter: each cause is dropped in turn, and stays dropped while there is still no way
//! (Chinneck and Dravnieks, 1991, for infeasible constraint sets; described from memory). What remains is minimal:
//! drop any one of it and a way opens. That holds as far as the trials go: each may judge a bounded number of bikes, and only
//! the first causes that were met are tried.

use std::collections::BTreeSet;

use super::Ask;
use super::goal::Goal;
use super::market::Offer;
use super::option::{Found, Step};
use super::repair::{Search, cause};
use crate::build::Change;
use crate::fit::Outcome;
use crate::fit::check::Finding;
use crate::part::Kind;

/// One of the reasons why nothing works.
#[derive(Clone, Debug)]
pub struct Obstacle {
    /// The rule that blocks, "mating/rule", or "goal".
    pub cause: String,
    /// A finding that shows it, with its bike; none for the goal.
    pub example: Option<(Finding, crate::build::Assembly)>,
}

/// A part that fails by little.
#[derive(Clone, Debug)]
pub struct NearMiss {
    /// The part.
    pub offer: Offer,
    /// The bike with it.
    pub assembly: crate::build::Assembly,
    /// What stops it.
    pub findings: Vec<Finding>,
}

/// Causes tried at most for a minimal set.
const CAUSES_MAX: usize = 24;
/// Bikes judged at most for each trial.
const TRIAL_STEPS_MAX: u64 = 3_000;
/// Near misses told at most.
const NEAR_MISSES_MAX: usize = 5;

/// A minimal set of causes, near misses, and the bikes judged for them.
pub fn explain(
    ask: &Ask<'_>,
    basket: &[Change],
    goal: &Goal,
    blamed: &BTreeSet<String>,
) -> (Vec<Obstacle>, Vec<NearMiss>, u64) {
    let mut steps = 0;
    let mut dropped: BTreeSet<String> = BTreeSet::new();
    let mut causes: BTreeSet<String> = blamed.clone();
    for tried in blamed.iter().take(CAUSES_MAX) {
        if (ask.cancelled)() {
            break;
        }
        let mut ignored = dropped.clone();
        ignored.insert(tried.clone());
        let trial = trial(ask, basket, goal, ignored.clone(), &mut steps);
        causes.extend(trial.1);
        if !trial.0 {
            dropped = ignored;
        }
    }
    let start = Found::judge(ask, basket, &[]);
    let obstacles = causes
        .into_iter()
        .filter(|found| !dropped.contains(found))
        .map(|found| {
            let example = start.as_ref().and_then(|start| {
                let shows =
                    |finding: &&Finding| cause(finding) == found && finding.outcome >= Outcome::NotEnoughData;
                Some((start.answer.touched().find(shows)?.clone(), start.assembly.clone()))
            });
            Obstacle { cause: found, example }
        })
        .collect();
    let near = near_misses(ask, basket, &mut steps);
    (obstacles, near, steps)
}

/// Whether a way opens when some causes are ignored, and the causes met on the way.
fn trial(
    ask: &Ask<'_>,
    basket: &[Change],
    goal: &Goal,
    ignored: BTreeSet<String>,
    steps: &mut u64,
) -> (bool, BTreeSet<String>) {
    let narrow = Ask { options_max: 1, steps_max: TRIAL_STEPS_MAX, ..ask.again() };
    let mut search = Search::new(&narrow, basket, goal, ignored);
    search.run();
    *steps += search.steps;
    (!search.found.is_empty(), search.blamed.clone())
}

/// Single changes that leave the fewest failures.
fn near_misses(ask: &Ask<'_>, basket: &[Change], steps: &mut u64) -> Vec<NearMiss> {
    let Some(start) = Found::judge(ask, basket, &[]) else { return Vec::new() };
    let mut items: Vec<(String, Kind)> = Vec::new();
    for finding in start.answer.touched().filter(|finding| finding.outcome == Outcome::DoesNotFit) {
        for placed in finding.items.iter().flatten().map(|place| &start.assembly.placed[*place]) {
            let free = placed.change.is_none() && placed.parent.is_none() && !placed.all_rings;
            if free && !items.iter().any(|(name, _)| *name == placed.id) {
                items.push((placed.id.clone(), placed.part.kind));
            }
        }
    }
    let mut misses: Vec<(usize, i64, NearMiss)> = Vec::new();
    for (name, kind) in items {
        for offer in ask.market.candidates(kind, ask.out_of_stock_allowed) {
            if *steps >= ask.steps_max.saturating_mul(2) || (ask.cancelled)() {
                break;
            }
            *steps += 1;
            let step = Step { replaces: name.clone(), offer: offer.clone() };
            let Some(found) = Found::judge(ask, basket, &[step]) else { continue };
            let findings: Vec<Finding> = found
                .answer
                .touched()
                .filter(|finding| finding.outcome == Outcome::DoesNotFit)
                .cloned()
                .collect();
            if !findings.is_empty() {
                let miss = NearMiss { offer: offer.clone(), assembly: found.assembly, findings };
                misses.push((miss.findings.len(), offer.price_rank(), miss));
            }
        }
    }
    misses.sort_by(|a, b| (a.0, a.1, &a.2.offer.part.sku).cmp(&(b.0, b.1, &b.2.offer.part.sku)));
    misses.into_iter().take(NEAR_MISSES_MAX).map(|(_, _, miss)| miss).collect()
}
