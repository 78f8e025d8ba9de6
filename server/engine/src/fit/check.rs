//! Judges a bike: runs every rule over every meeting of parts, and merges what they say.

use super::book::Saying;
use super::evaluate::{Ruling, evaluate};
use super::grounds::Grounds;
use super::hear::{self, Heard, Hearing, Meeting, told_once};
use super::outcome::{Evidence, Hazard, Outcome, Verdict};
use super::registry;
use super::rule::{Judgement, Mating, Rule};
use super::rules::chain_length;
use super::slot::Slot;
use crate::build::{Assembly, Placed};
use crate::part::{Attribute, Kind, Part, Set};

/// A value that a rule would have needed: place of the item in the assembly, and the attribute.
pub type Missing = (Option<usize>, Attribute);

/// What one rule says of one meeting of parts.
#[derive(Clone, Debug)]
pub struct Finding {
    /// The mating.
    pub mating: &'static Mating,
    /// The rule.
    pub rule: &'static Rule,
    /// What it comes to.
    pub outcome: Outcome,
    /// The judgements; several where a value is not known exactly; none where the outcome is open.
    pub judgements: Vec<Judgement>,
    /// Values that are missing or too vague.
    pub missing: Vec<Missing>,
    /// Places of the items in the assembly, in the order of the rule's slots; `None` = the use of the bike.
    pub items: Vec<Option<usize>>,
    /// A change touched it.
    pub touched: bool,
    /// What makers state and the shop has ruled here.
    pub heard: Option<Box<Heard>>,
}

impl Finding {
    /// The hazard of what it says.
    pub fn hazard(&self) -> Hazard {
        if let Some(heard) = &self.heard {
            return heard.hazard;
        }
        let said = self.judgements.iter().map(|judgement| judgement.reason.hazard);
        let open = self.judgements.is_empty().then(|| worst_hazard(self.rule)).into_iter();
        said.chain(open).max().unwrap_or(Hazard::None)
    }

    /// Its reason code within the rule; the same for all findings that wait for a value.
    pub fn reason(&self) -> &'static str {
        match (self.decided_by(), self.judgements.first()) {
            (Some(saying), _) => hear::reason(saying),
            (None, Some(judgement)) => judgement.reason.code,
            (None, None) => "missing-values",
        }
    }

    /// The statement or ruling that decides, where one does.
    pub fn decided_by(&self) -> Option<&Saying> {
        self.heard.as_ref()?.decided_by.as_deref()
    }

    /// What it rests on; `None` where it waits for a value.
    pub fn evidence(&self) -> Option<Evidence> {
        let heard = self.heard.as_ref().and_then(|heard| heard.evidence());
        heard.or_else(|| self.judgements.first().map(|judgement| judgement.reason.evidence))
    }
}

/// The worst hazard that a rule can tell of.
pub fn worst_hazard(rule: &Rule) -> Hazard {
    rule.reasons.iter().map(|reason| reason.hazard).max().unwrap_or(Hazard::None)
}

/// A mating that was not judged because parts of it are absent.
#[derive(Clone, Debug)]
pub struct NotChecked {
    /// The mating.
    pub mating: &'static Mating,
    /// Places of the items that are there.
    pub items: Vec<usize>,
    /// The slots that nothing fills.
    pub missing: Vec<Slot>,
    /// What the parts that are there bring to it: item and attribute.
    pub asks: Vec<(usize, Attribute)>,
}

/// What a check comes to.
#[derive(Clone, Debug, Default)]
pub struct Answer {
    /// Verdict over the touched matings.
    pub verdict: Verdict,
    /// What the rules say, worst first.
    pub findings: Vec<Finding>,
    /// Matings whose parts are absent.
    pub not_checked: Vec<NotChecked>,
    /// Places of parts of kinds that are not judged.
    pub not_judged: Vec<usize>,
}

impl Answer {
    /// The findings that count.
    pub fn touched(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.touched)
    }
}

/// Judges a bike.
pub fn check(assembly: &Assembly, grounds: &Grounds<'_>) -> Answer {
    let mut answer = Answer::default();
    let hearing = Hearing::of(assembly, grounds);
    for mating in registry::MATINGS {
        let before = answer.findings.len();
        let mut judged = false;
        for rule in mating.rules {
            for items in meetings(rule, assembly) {
                judged = true;
                if of_one_article(assembly, &items) {
                    continue;
                }
                answer.findings.extend(judge(mating, rule, items, assembly, grounds, hearing.as_ref()));
            }
        }
        if hearing.is_some() {
            let own = answer.findings.split_off(before);
            answer.findings.extend(told_once(own));
        }
        if !judged && answer.findings.len() == before {
            answer.not_checked.extend(not_checked(mating, assembly));
        }
    }
    answer.findings.extend(longer_chain(assembly, &answer));
    answer.findings.sort_by(|a, b| b.outcome.cmp(&a.outcome).then_with(|| b.hazard().cmp(&a.hazard())));
    answer.verdict = answer.touched().map(|finding| finding.outcome).collect();
    if answer.touched().next().is_none() {
        // Nothing was judged, which is never a fit.
        answer.verdict = Verdict::default().and(Outcome::NotEnoughData);
    }
    answer.not_judged = (0..assembly.placed.len())
        .filter(|place| !assembly.placed[*place].part.kind.spec().not_judged.is_empty())
        .collect();
    answer
}

/// Every combination of parts that fills the slots of a rule, at one end of the bike.
pub fn meetings(rule: &Rule, assembly: &Assembly) -> Vec<Vec<Option<usize>>> {
    let mut meetings: Vec<Vec<Option<usize>>> = vec![Vec::new()];
    for slot in rule.slots {
        if *slot == Slot::Use {
            meetings.iter_mut().for_each(|meeting| meeting.push(None));
            continue;
        }
        let fillers: Vec<usize> =
            (0..assembly.placed.len()).filter(|place| fills(*slot, &assembly.placed[*place])).collect();
        let mut longer = Vec::new();
        for meeting in &meetings {
            for place in &fillers {
                if same_end(meeting, *place, assembly) {
                    let mut extended = meeting.clone();
                    extended.push(Some(*place));
                    longer.push(extended);
                }
            }
        }
        meetings = longer;
    }
    meetings
}

/// Where the changes ask for a longer chain and nothing told whether the one on the bike is long enough, that is open:
/// a chain too short for the largest ring and cog tears the derailleur off.
fn longer_chain(assembly: &Assembly, answer: &Answer) -> Option<Finding> {
    const RULE: &Rule = &chain_length::BIG_BIG;
    const MATING: &Mating = &chain_length::MATING;
    let same = |finding: &Finding| finding.mating.code == MATING.code && finding.rule.code == RULE.code;
    let told = answer.touched().any(same);
    let place = |fits: &dyn Fn(&Placed) -> bool| assembly.placed.iter().position(fits);
    // A new chain is cut to length when it is fitted.
    let chain = place(&|placed| placed.part.kind == Kind::Chain && placed.change.is_none())?;
    if assembly.big_big_growth <= chain_length::TEETH_IN_RESERVE || told {
        return None;
    }
    let counted = *assembly.placed[chain].part.judged(Attribute::LinkCount) != Set::Unknown;
    let missing = if counted { Vec::new() } else { vec![(Some(chain), Attribute::LinkCount)] };
    let cogs = place(&|placed| fills(Slot::Cogs, placed));
    let items = [Some(chain), cogs].into_iter().filter(Option::is_some).collect();
    Some(Finding {
        mating: MATING,
        rule: RULE,
        outcome: Outcome::NotEnoughData,
        judgements: Vec::new(),
        missing,
        items,
        touched: true,
        heard: None,
    })
}

/// All parts that meet came as one article of the catalogue, or as one crankset of which only the teeth are told: its
/// maker has put them together.
fn of_one_article(assembly: &Assembly, items: &[Option<usize>]) -> bool {
    let rings = assembly.placed.iter().filter(|placed| placed.part.kind == Kind::Chainring);
    let mut members: Vec<&Placed> = Vec::new();
    for place in items.iter().flatten() {
        let placed = &assembly.placed[*place];
        if placed.all_rings {
            members.extend(rings.clone());
        } else {
            members.push(placed);
        }
    }
    if members.iter().all(|placed| placed.parent.is_none()) {
        return false;
    }
    let mut roots = members.iter().map(|placed| root(assembly, placed));
    let Some(first) = roots.next() else { return false };
    let told_by_teeth = first.part.kind == Kind::Crankset && first.part.children().next().is_none();
    let whole = !first.part.sku.is_empty() || told_by_teeth;
    let several = items.iter().flatten().count() > 1;
    whole && several && roots.all(|root| root.id == first.id)
}

/// The article that brought a part.
fn root<'a>(assembly: &'a Assembly, placed: &'a Placed) -> &'a Placed {
    let mut placed = placed;
    while let Some(parent) = placed.parent.as_ref().and_then(|parent| assembly.find(parent)) {
        placed = parent;
    }
    placed
}

/// A part fills a slot.
pub fn fills(slot: Slot, placed: &Placed) -> bool {
    placed.all_rings == (slot == Slot::Rings) && slot.kinds().contains(&placed.part.kind)
}

fn same_end(meeting: &[Option<usize>], place: usize, assembly: &Assembly) -> bool {
    let end = assembly.placed[place].end;
    meeting.iter().flatten().all(|other| match (assembly.placed[*other].end, end) {
        (Some(one), Some(two)) => one == two,
        _ => true,
    })
}

/// The part at a place of a meeting; the use of the bike where there is none.
pub fn part_at(assembly: &Assembly, place: Option<usize>) -> &Part {
    place.map_or(&*assembly.usage, |place| &*assembly.placed[place].part)
}

fn judge(
    mating: &'static Mating,
    rule: &'static Rule,
    items: Vec<Option<usize>>,
    assembly: &Assembly,
    grounds: &Grounds<'_>,
    hearing: Option<&Hearing<'_>>,
) -> Option<Finding> {
    let parts: Vec<&Part> = items.iter().map(|place| part_at(assembly, *place)).collect();
    let touched =
        assembly.unchanged || items.iter().flatten().any(|place| assembly.placed[*place].change.is_some());
    let ruling = evaluate(rule, &parts, grounds.interfaces, grounds.practice);
    let outcome = ruling.outcome(grounds.practice);
    let (judgements, missing) = match ruling {
        Ruling::Settled(judgements) => (judgements, Vec::new()),
        Ruling::Open { missing, vague } => (Vec::new(), named(rule, &items, missing | vague)),
        Ruling::Silent => (Vec::new(), Vec::new()),
    };
    let finding =
        |items, outcome| Finding { mating, rule, outcome, judgements, missing, items, touched, heard: None };
    match hearing {
        None => Some(finding(items, outcome?)),
        Some(hearing) => {
            let found = outcome.map(|outcome| finding(items.clone(), outcome));
            hearing.hear(Meeting { mating, rule, items: &items, touched }, found)
        }
    }
}

/// The items and attributes behind the bits of a rule's inputs.
fn named(rule: &Rule, items: &[Option<usize>], bits: u32) -> Vec<Missing> {
    let marked = rule.inputs.iter().enumerate().filter(|(index, _)| bits & (1 << index) != 0);
    marked
        .map(|(_, (slot, attribute))| {
            let place = rule.slots.iter().position(|found| found == slot).and_then(|index| items.get(index));
            (place.copied().flatten(), *attribute)
        })
        .collect()
}

/// A mating of which some parts are there and some are not.
fn not_checked(mating: &'static Mating, assembly: &Assembly) -> Option<NotChecked> {
    let mut slots: Vec<Slot> = mating.rules.iter().flat_map(|rule| rule.slots).copied().collect();
    slots.sort_unstable();
    slots.dedup();
    slots.retain(|slot| *slot != Slot::Use);
    let mut items = Vec::new();
    let mut missing = Vec::new();
    for slot in &slots {
        let fillers: Vec<usize> =
            (0..assembly.placed.len()).filter(|place| fills(*slot, &assembly.placed[*place])).collect();
        if fillers.is_empty() {
            missing.push(*slot);
        }
        items.extend(fillers);
    }
    items.sort_unstable();
    items.dedup();
    let touched = |place: &usize| assembly.unchanged || assembly.placed[*place].change.is_some();
    if items.is_empty() || !items.iter().any(touched) {
        return None;
    }
    let mut asks: Vec<(usize, Attribute)> = mating
        .rules
        .iter()
        .flat_map(|rule| rule.inputs)
        .flat_map(|(slot, attribute)| {
            let there = items.iter().filter(|place| fills(*slot, &assembly.placed[**place]));
            there.map(|place| (*place, *attribute)).collect::<Vec<_>>()
        })
        .filter(|(place, attribute)| *assembly.placed[*place].part.judged(*attribute) != Set::Unknown)
        .collect();
    asks.sort_unstable();
    asks.dedup();
    Some(NotChecked { mating, items, missing, asks })
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::build::{Build, Change, Item, assemble};
    use crate::fit::Practice;
    use crate::part::derive;
    use crate::part::interface::Interfaces;

    fn item(mut part: Part) -> Item {
        derive::derive(&mut part);
        Item { id: String::new(), end: None, quantity: 1, part: Arc::new(part) }
    }

    fn cassette(cogs: &[i64]) -> Item {
        item(Part::new(Kind::Cassette).with(Attribute::Cogs, Set::List(cogs.into())))
    }

    /// What a bike with a chain of unknown length says of its length when other cogs are fitted.
    fn chain_length(cogs: &[i64]) -> Option<Vec<Missing>> {
        let rings = Part::new(Kind::Crankset).with(Attribute::Rings, Set::List([50, 34].into()));
        let items = vec![cassette(&[12, 15, 19, 25]), item(rings), item(Part::new(Kind::Chain))];
        let change = Change { id: "new".into(), fit: Some(cassette(cogs)), ..Change::default() };
        let assembly = assemble(&Build { items, ..Build::default() }, &[change]).expect("a bike");
        let answer = check(&assembly, &Grounds::bare(Interfaces::standard_ref(), Practice::Workshop));
        let found = answer.touched().find(|finding| finding.rule.code == chain_length::BIG_BIG.code)?;
        assert_eq!(found.outcome, Outcome::NotEnoughData);
        Some(found.missing.iter().map(|(place, attribute)| (*place, *attribute)).collect())
    }

    #[test]
    fn a_much_larger_cog_asks_for_the_length_of_a_chain_that_stays() {
        let asked = chain_length(&[11, 15, 20, 34]).expect("a finding");
        assert!(matches!(asked[..], [(Some(_), Attribute::LinkCount)]), "{asked:?}");
        assert_eq!(chain_length(&[12, 15, 19, 27]), None);
    }
}
