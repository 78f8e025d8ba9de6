//! The search over repairs: complete and upgrade.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

use super::goal::Goal;
use super::market::{Offer, PRICE_UNKNOWN};
use super::obstacle::{self, Obstacle};
use super::option::{Found, Step};
use super::{Advice, Ask, Objective};
use crate::build::{Assembly, Change};
use crate::fit::Outcome;
use crate::part::Kind;

/// Ways looked at for each option that is wanted, so that alternatives with fewer drawbacks come up beside the cheapest.
const POOL: usize = 8;
/// Bikes waiting to be judged at most: bounds the memory of a search.
const NODES_MAX: usize = 200_000;
/// More changes than this are never proposed.
const CHANGES_MAX: usize = 8;

/// Finds the ways to make a bike work and reach a goal; where there is none, says why.
pub fn repair(ask: &Ask<'_>, basket: &[Change], goal: &Goal) -> Advice {
    let mut search = Search::new(ask, basket, goal, BTreeSet::new());
    search.run();
    let mut advice = Advice { unfinished: search.unfinished, steps: search.steps, ..Advice::default() };
    if search.found.is_empty() && !search.unfinished {
        if let Some(wish) = blocking_wish(ask, basket, goal, &mut advice.steps) {
            advice.obstacles.push(wish);
            return advice;
        }
        let (obstacles, near_misses, steps) = obstacle::explain(ask, basket, goal, &search.blamed);
        advice.obstacles = obstacles;
        advice.near_misses = near_misses;
        advice.steps += steps;
    }
    advice.options = search.into_options();
    advice
}

/// The budget, as a cause of failure beside the rules.
pub const BUDGET: &str = "budget";
/// What is to be kept, as a cause of failure beside the rules.
pub const KEEP: &str = "keep";

/// A single wish without which there is a way: then it is the only reason that there is none.
fn blocking_wish(ask: &Ask<'_>, basket: &[Change], goal: &Goal, steps: &mut u64) -> Option<Obstacle> {
    let mut opens = |relaxed: &Ask<'_>| {
        let mut search = Search::new(relaxed, basket, goal, BTreeSet::new());
        search.run();
        *steps += search.steps;
        !search.found.is_empty()
    };
    let wish = |cause: &str| Some(Obstacle { cause: cause.to_owned(), example: None });
    if ask.budget.is_some() && opens(&Ask { budget: None, options_max: 1, ..ask.again() }) {
        return wish(BUDGET);
    }
    if !ask.keep.is_empty() && opens(&Ask { keep: Vec::new(), options_max: 1, ..ask.again() }) {
        return wish(KEEP);
    }
    None
}

/// The goal, as a cause of failure beside the rules.
pub const GOAL: &str = "goal";

/// A node: some steps, and the items that were decided to stay.
struct Node {
    steps: Vec<Step>,
    kept: BTreeSet<String>,
}

/// One search. Causes that are ignored count as met: that is how obstacles are found.
pub struct Search<'a> {
    ask: &'a Ask<'a>,
    basket: &'a [Change],
    goal: &'a Goal,
    ignored: BTreeSet<String>,
    candidates: BTreeMap<Kind, Vec<Offer>>,
    nodes: Vec<Option<Node>>,
    queue: BinaryHeap<Reverse<(i64, i64, i64, usize)>>,
    seen: BTreeSet<Vec<(String, String)>>,
    /// The ways found so far.
    pub found: Vec<Found>,
    /// Causes of failure met on the way: rules as "mating/rule", and the goal.
    pub blamed: BTreeSet<String>,
    /// Steps or time ran out.
    pub unfinished: bool,
    /// Bikes judged.
    pub steps: u64,
}

impl<'a> Search<'a> {
    /// A search from the bike with its basket.
    pub fn new(ask: &'a Ask<'a>, basket: &'a [Change], goal: &'a Goal, ignored: BTreeSet<String>) -> Self {
        Self {
            ask,
            basket,
            goal,
            ignored,
            candidates: BTreeMap::new(),
            nodes: Vec::new(),
            queue: BinaryHeap::new(),
            seen: BTreeSet::new(),
            found: Vec::new(),
            blamed: BTreeSet::new(),
            unfinished: false,
            steps: 0,
        }
    }

    /// Takes nodes in order of cost until there are enough options or nothing is left.
    pub fn run(&mut self) {
        self.push(Node { steps: Vec::new(), kept: BTreeSet::new() });
        while let Some(Reverse((_, _, _, index))) = self.queue.pop() {
            let Some(node) = self.nodes.get_mut(index).and_then(Option::take) else { continue };
            if self.is_idle(&node) {
                continue;
            }
            if self.steps >= self.ask.steps_max || (self.ask.cancelled)() {
                self.unfinished = true;
                return;
            }
            self.steps += 1;
            let Some(found) = Found::judge(self.ask, self.basket, &node.steps) else { continue };
            self.visit(node, found);
            let firm = self.found.iter().filter(|found| !found.conditional).count();
            if firm >= self.ask.options_max.saturating_mul(if self.ask.options_max == 1 { 1 } else { POOL }) {
                return;
            }
        }
    }

    /// A way is known that no continuation of this node can beat: without drawbacks, with no more changes and no
    /// higher price; or, where changes count most, with two changes fewer.
    fn is_idle(&self, node: &Node) -> bool {
        let price: i64 = node.steps.iter().map(|step| step.offer.price_rank()).sum();
        let changes = node.steps.len();
        self.found.iter().filter(|found| !found.conditional).any(|found| {
            let plain = found.answer.verdict.headline < Outcome::Caveat && found.extras_can_be_had();
            let cheaper = found.steps.len() <= changes && found.price.is_some_and(|known| known <= price);
            let far_fewer =
                self.ask.objective == Objective::FewestChanges && found.steps.len() + 2 <= changes;
            (plain && cheaper && self.ask.objective != Objective::LowestMass) || far_fewer
        })
    }

    fn visit(&mut self, node: Node, found: Found) {
        let goal_met = self.ignored.contains(GOAL) || self.goal.reached(&found.assembly);
        let failing = self.first_failure(&found);
        let works = self.works(&found) && goal_met;
        if works && self.within_budget(&found) && (!found.conditional || !self.beaten(&found)) {
            self.found.push(found.clone());
        }
        // A goal is reached by its own parts first: on a half-known bike any open question would come before it.
        let untouched = node.steps.is_empty() && self.basket.is_empty();
        let failing = if untouched && !goal_met { None } else { failing };
        let blocked = match (failing, goal_met) {
            (None, true) => return,
            (Some(failure), _) => failure,
            (None, false) => {
                self.blamed.insert(GOAL.to_owned());
                gearing_items(&found.assembly)
            }
        };
        if node.steps.len() >= CHANGES_MAX {
            return;
        }
        let mut kept = node.kept.clone();
        for item in blocked {
            let Some(name) = self.free_item(&found.assembly, &item, &node, &kept) else { continue };
            self.branch(&found.assembly, &name, &node, &kept);
            // Any further way keeps this item: ways that change it have just been tried.
            kept.insert(name);
        }
    }

    /// No touched mating fails, but for causes that are ignored.
    fn works(&self, found: &Found) -> bool {
        found
            .answer
            .touched()
            .all(|finding| finding.outcome != Outcome::DoesNotFit || self.ignored.contains(&cause(finding)))
    }

    /// The items of the first mating that fails or is open, as far as it is not ignored.
    fn first_failure(&mut self, found: &Found) -> Option<Vec<String>> {
        let failing: Vec<_> = found
            .answer
            .touched()
            .filter(|finding| {
                finding.outcome >= Outcome::NotEnoughData && !self.ignored.contains(&cause(finding))
            })
            .collect();
        let first = failing.first()?;
        self.blamed.insert(cause(first));
        Some(first.items.iter().flatten().map(|place| found.assembly.placed[*place].id.clone()).collect())
    }

    /// The item of the bike behind a part that meets: itself, or the composite part that brought it.
    fn free_item(
        &self,
        assembly: &Assembly,
        item: &str,
        node: &Node,
        kept: &BTreeSet<String>,
    ) -> Option<String> {
        let mut placed = assembly.find(item)?;
        while let Some(parent) = &placed.parent {
            placed = assembly.find(parent)?;
        }
        let kind = placed.part.kind.name();
        let fixed = placed.change.is_some()
            || kept.contains(&placed.id)
            || node.steps.iter().any(|step| step.replaces == placed.id)
            || self.ask.keep.iter().any(|keep| *keep == placed.id || keep == kind);
        (!fixed).then(|| placed.id.clone())
    }

    fn branch(&mut self, assembly: &Assembly, name: &str, node: &Node, kept: &BTreeSet<String>) {
        let Some(kind) = assembly.find(name).map(|placed| placed.part.kind) else { return };
        for wanted in stand_in_kinds(kind) {
            let ask = self.ask;
            let offers = self.candidates.entry(*wanted).or_insert_with(|| {
                ask.market.candidates(*wanted, ask.out_of_stock_allowed).into_iter().cloned().collect()
            });
            for offer in offers.clone() {
                let mut steps = node.steps.clone();
                steps.push(Step { replaces: name.to_owned(), offer });
                self.push(Node { steps, kept: kept.clone() });
            }
        }
    }

    fn push(&mut self, node: Node) {
        if self.nodes.len() >= NODES_MAX {
            self.unfinished = true;
            return;
        }
        let name =
            |step: &Step| format!("{}\n{}\n{}", step.offer.part.sku, step.offer.part.name, step.offer.owned);
        let mut signature: Vec<(String, String)> =
            node.steps.iter().map(|step| (step.replaces.clone(), name(step))).collect();
        signature.sort();
        if !self.seen.insert(signature) {
            return;
        }
        let changes = i64::try_from(node.steps.len()).unwrap_or(i64::MAX);
        let price: i64 = node.steps.iter().map(|step| step.offer.price_rank()).sum();
        if self.ask.budget.is_some_and(|budget| price > budget) {
            return;
        }
        let mass: i64 = node.steps.iter().map(|step| step.offer.mass_g().unwrap_or(0)).sum();
        let (first, second, third) = match self.ask.objective {
            Objective::FewestChanges => (changes, price, mass),
            Objective::LowestPrice => (price, changes, mass),
            Objective::LowestMass => (mass, changes, price),
        };
        self.nodes.push(Some(node));
        self.queue.push(Reverse((first, second, third, self.nodes.len() - 1)));
    }

    fn within_budget(&self, found: &Found) -> bool {
        self.ask.budget.is_none_or(|budget| found.price.is_some_and(|price| price <= budget))
    }

    /// A way without questions and with no more changes and no higher price is there already.
    fn beaten(&self, found: &Found) -> bool {
        self.found.iter().any(|known| {
            !known.conditional
                && known.steps.len() <= found.steps.len()
                && known.price.unwrap_or(PRICE_UNKNOWN) <= found.price.unwrap_or(PRICE_UNKNOWN)
        })
    }

    fn into_options(self) -> Vec<Found> {
        let Self { ask, mut found, .. } = self;
        let beaten: Vec<bool> =
            found.iter().map(|option| found.iter().any(|other| other.beats(option))).collect();
        let mut beaten = beaten.into_iter();
        found.retain(|_| !beaten.next().unwrap_or(false));
        found.sort_by_cached_key(|option| option.rank(ask.objective));
        found.truncate(ask.options_max);
        for option in &mut found {
            let changed: BTreeSet<&str> = option.steps.iter().map(|step| step.replaces.as_str()).collect();
            option.stays = option
                .assembly
                .placed
                .iter()
                .filter(|placed| placed.change.is_none() && placed.parent.is_none() && !placed.all_rings)
                .filter(|placed| !changed.contains(placed.id.as_str()))
                .map(|placed| placed.id.clone())
                .collect();
        }
        found
    }
}

/// The cause behind a finding: "mating/rule".
pub fn cause(finding: &crate::fit::check::Finding) -> String {
    format!("{}/{}", finding.mating.code, finding.rule.code)
}

/// The items that decide the gearing.
fn gearing_items(assembly: &Assembly) -> Vec<String> {
    let gearing = |kind| matches!(kind, Kind::Cassette | Kind::Freewheel | Kind::Crankset | Kind::Chainring);
    assembly
        .placed
        .iter()
        .filter(|placed| gearing(placed.part.kind) && !placed.all_rings)
        .map(|placed| placed.id.clone())
        .collect()
}

/// The kinds that can stand in for a part of a kind. A hub or body is renewed alone or with a whole wheel.
fn stand_in_kinds(kind: Kind) -> &'static [Kind] {
    match kind {
        Kind::Cassette => &[Kind::Cassette],
        Kind::Freewheel => &[Kind::Freewheel],
        Kind::FreehubBody => &[Kind::FreehubBody, Kind::Wheel],
        Kind::Hub => &[Kind::Wheel],
        Kind::Wheel => &[Kind::Wheel],
        Kind::Lockring => &[Kind::Lockring],
        Kind::Chain => &[Kind::Chain],
        Kind::QuickLink => &[Kind::QuickLink],
        Kind::RearDerailleur => &[Kind::RearDerailleur],
        Kind::RearShifter => &[Kind::RearShifter],
        Kind::Chainring => &[Kind::Chainring],
        Kind::Crankset => &[Kind::Crankset],
        Kind::BrakeShiftLever => &[Kind::BrakeShiftLever],
        Kind::FrontDerailleur => &[Kind::FrontDerailleur],
        Kind::FrontShifter => &[Kind::FrontShifter],
        Kind::BottomBracket => &[Kind::BottomBracket],
        Kind::Hanger => &[Kind::Hanger],
        Kind::Rotor => &[Kind::Rotor],
        Kind::BrakeCaliper => &[Kind::BrakeCaliper],
        Kind::BrakeLever => &[Kind::BrakeLever],
        Kind::BrakePads => &[Kind::BrakePads],
        Kind::Tyre => &[Kind::Tyre],
        Kind::Tube => &[Kind::Tube],
        Kind::Pedal => &[Kind::Pedal],
        // Frames, forks, hub gears and motors are not proposed: that is another bike.
        _ => &[],
    }
}
