//! Stand-ins: parts on the shelf that do the work of one part on this bike.

use super::market::Offer;
use super::obstacle::NearMiss;
use super::option::{Found, Step};
use super::{Advice, Ask};
use crate::build::{Fault, Item, assemble};
use crate::fit::Outcome;
use crate::fit::check::Finding;
use crate::part::{Attribute, Part};

/// Near misses told at most.
const NEAR_MISSES_MAX: usize = 5;

/// Ranks every part of the kind on the shelf that works in the place of an item.
pub fn substitute(ask: &Ask<'_>, item: &str, wanted: Option<&Item>) -> Result<Advice, Vec<Fault>> {
    let bike = assemble(ask.build, &[])?;
    let Some(placed) = bike.find(item) else {
        let known = bike.placed.iter().map(|placed| placed.id.clone()).collect();
        return Err(vec![Fault::NoSuchItem { change: 0, name: item.to_owned(), known }]);
    };
    let model: &Part = wanted.map_or(&placed.part, |wanted| &wanted.part);
    let mut advice = Advice::default();
    let mut misses: Vec<NearMiss> = Vec::new();
    let fitted = placed.part.sku.clone();
    for offer in offers(ask, model).filter(|offer| offer.part.sku != fitted || fitted.is_empty()) {
        if advice.steps >= ask.steps_max || (ask.cancelled)() {
            advice.unfinished = true;
            break;
        }
        advice.steps += 1;
        let step = Step { replaces: item.to_owned(), offer: offer.clone() };
        let Some(mut found) = Found::judge(ask, &[], &[step]) else { continue };
        let over_budget = ask.budget.is_some_and(|budget| found.price.is_none_or(|price| price > budget));
        if over_budget {
            continue;
        }
        if found.works() {
            found.stays = ask
                .build
                .items
                .iter()
                .map(|item| name(item).to_owned())
                .filter(|name| name != item)
                .collect();
            advice.options.push(found);
        } else {
            let findings: Vec<Finding> = found
                .answer
                .touched()
                .filter(|finding| finding.outcome == Outcome::DoesNotFit)
                .cloned()
                .collect();
            misses.push(NearMiss { offer: offer.clone(), assembly: found.assembly, findings });
        }
    }
    advice.options.sort_by_cached_key(|found| {
        let distance = found.steps.first().map_or(i64::MAX, |step| distance(model, &step.offer.part));
        (
            found.conditional,
            !found.extras_can_be_had(),
            found.answer.verdict.headline,
            distance,
            found.rank(ask.objective),
        )
    });
    advice.options.truncate(ask.options_max);
    if advice.options.is_empty() {
        misses.sort_by_key(|miss| {
            (miss.findings.len(), distance(model, &miss.offer.part), miss.offer.part.sku.clone())
        });
        misses.truncate(NEAR_MISSES_MAX);
        advice.near_misses = misses;
    }
    Ok(advice)
}

fn name(item: &Item) -> &str {
    if item.id.is_empty() { item.part.kind.name() } else { &item.id }
}

/// Every offer of the kind but the part itself.
fn offers<'a>(ask: &'a Ask<'_>, model: &Part) -> impl Iterator<Item = &'a Offer> {
    let sku = model.sku.clone();
    ask.market
        .of_kind(model.kind)
        .iter()
        .filter(move |offer| offer.part.sku != sku || sku.is_empty())
        .filter(|offer| ask.out_of_stock_allowed || offer.stock > 0)
}

/// How far a part is from the one that it stands in for, in teeth and positions; mass and price come later.
fn distance(model: &Part, part: &Part) -> i64 {
    const WEIGHED: [(Attribute, i64); 8] = [
        (Attribute::SmallestCog, 2),
        (Attribute::LargestCog, 1),
        (Attribute::CogCount, 4),
        (Attribute::Teeth, 2),
        (Attribute::LargestRing, 2),
        (Attribute::SmallestRing, 2),
        (Attribute::ChainSpeed, 1),
        (Attribute::Positions, 4),
    ];
    WEIGHED
        .iter()
        .map(|(attribute, weight)| match (model.exact(*attribute), part.exact(*attribute)) {
            (Some(one), Some(other)) => (one - other).abs() * weight,
            // Where one is not known nothing can be said against it.
            _ => 0,
        })
        .sum()
}
