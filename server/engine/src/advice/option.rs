//! One way, with what it costs and how it ranks.

use super::market::{Market, Offer, PRICE_UNKNOWN};
use super::{Ask, Objective};
use crate::build::{Assembly, Change, Item, assemble};
use crate::fit::Outcome;
use crate::fit::check::{Answer, check};
use crate::fit::extras::{ExtraPart, extras, serves};
use crate::part::Attribute;

/// One change of an option.
#[derive(Clone, Debug)]
pub struct Step {
    /// The items that go.
    pub replaces: String,
    /// The part to fit.
    pub offer: Offer,
}

/// One way.
#[derive(Clone, Debug)]
pub struct Found {
    /// The changes, basket not included.
    pub steps: Vec<Step>,
    /// The bike with basket and changes.
    pub assembly: Assembly,
    /// Its check.
    pub answer: Answer,
    /// Further small parts, each with the cheapest offer that serves.
    pub extras: Vec<(ExtraPart, Option<Offer>)>,
    /// Price of steps and needed extra parts; `None` where one is unknown.
    pub price: Option<i64>,
    /// Mass change of the bike in grams, where all masses are known.
    pub mass_change_g: Option<i64>,
    /// Items of the bike that stay, of those that were free.
    pub stays: Vec<String>,
    /// It depends on open questions.
    pub conditional: bool,
}

impl Found {
    /// Builds the bike of some steps and judges it; `None` where the steps cannot be applied together.
    pub fn judge(ask: &Ask<'_>, basket: &[Change], steps: &[Step]) -> Option<Self> {
        let mut changes = basket.to_vec();
        changes.extend(steps.iter().map(|step| Change {
            id: format!("step:{}", step.replaces),
            fit: Some(Item {
                id: step.replaces.clone(),
                end: None,
                quantity: 1,
                part: step.offer.part.clone(),
            }),
            replaces: Some(step.replaces.clone()),
            moves: Vec::new(),
        }));
        let assembly = assemble(ask.build, &changes).ok()?;
        let answer = check(&assembly, &ask.grounds());
        let extras = priced(extras(&answer, &assembly, &ask.owned, ask.interfaces), ask.market);
        let price = total(steps, &extras);
        let conditional = answer.touched().any(|finding| finding.outcome == Outcome::NotEnoughData);
        let mass_change_g = mass_change(ask, steps);
        Some(Self {
            steps: steps.to_vec(),
            assembly,
            answer,
            extras,
            price,
            mass_change_g,
            stays: Vec::new(),
            conditional,
        })
    }

    /// No touched mating fails.
    pub fn works(&self) -> bool {
        self.answer.touched().all(|finding| finding.outcome != Outcome::DoesNotFit)
    }

    /// Every extra part that is needed is on the bike, owned, or on the shelf.
    pub fn extras_can_be_had(&self) -> bool {
        self.extras.iter().all(|(extra, offer)| extra.optional || extra.met_by.is_some() || offer.is_some())
    }

    /// How much is to be put up with: serious drawbacks, then drawbacks.
    fn drawbacks(&self) -> (usize, usize) {
        let caveats = self.answer.touched().filter(|finding| finding.outcome == Outcome::Caveat);
        let reasons =
            caveats.flat_map(|finding| &finding.judgements).map(|judgement| judgement.reason.strong);
        let strong: Vec<bool> = reasons.collect();
        (strong.iter().filter(|strong| **strong).count(), strong.len())
    }

    /// As good as another in every respect, and better in one: changes, price, mass, drawbacks.
    pub fn beats(&self, other: &Self) -> bool {
        let measures = |found: &Self| {
            let (strong, all) = found.drawbacks();
            let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
            [
                i64::from(found.conditional),
                i64::from(!found.extras_can_be_had()),
                count(found.steps.len()),
                found.price.unwrap_or(PRICE_UNKNOWN),
                found.mass_change_g.unwrap_or(i64::MAX),
                count(strong),
                count(all),
            ]
        };
        let (own, others) = (measures(self), measures(other));
        own != others && own.iter().zip(others).all(|(own, other)| *own <= other)
    }

    /// Rank among options: total and deterministic.
    pub fn rank(&self, objective: Objective) -> impl Ord + use<> {
        let changes = i64::try_from(self.steps.len()).unwrap_or(i64::MAX);
        let price = self.price.unwrap_or(PRICE_UNKNOWN);
        let mass = self.mass_change_g.unwrap_or(i64::MAX / 4);
        // Among as few changes, drawbacks come after plain fits, and serious drawbacks last.
        let (serious, all) = self.drawbacks();
        let drawbacks = i64::from(all > 0) + i64::from(serious > 0);
        let order = match objective {
            Objective::FewestChanges => (changes, drawbacks, price, mass),
            Objective::LowestPrice => (price, changes, drawbacks, mass),
            Objective::LowestMass => (mass, changes, drawbacks, price),
        };
        let skus: Vec<Box<str>> = self.steps.iter().map(|step| step.offer.part.sku.clone()).collect();
        (self.conditional, !self.extras_can_be_had(), order, self.answer.verdict.headline, skus)
    }
}

/// Each extra part with the cheapest offer on the shelf that serves; none where something serves already.
fn priced(extras: Vec<ExtraPart>, market: &Market) -> Vec<(ExtraPart, Option<Offer>)> {
    extras
        .into_iter()
        .map(|extra| {
            let offer = if extra.met_by.is_some() {
                None
            } else {
                on_shelf(&extra, market).first().map(|found| (*found).clone())
            };
            (extra, offer)
        })
        .collect()
}

/// The offers in stock that serve as an extra part, cheapest first.
pub fn on_shelf<'a>(extra: &ExtraPart, market: &'a Market) -> Vec<&'a Offer> {
    let mut offers: Vec<&Offer> = market
        .of_kind(extra.kind)
        .iter()
        .filter(|offer| offer.stock >= i64::from(extra.quantity) && serves(&offer.part, extra))
        .collect();
    offers.sort_by(|a, b| a.price_rank().cmp(&b.price_rank()).then_with(|| a.part.sku.cmp(&b.part.sku)));
    offers
}

fn total(steps: &[Step], extras: &[(ExtraPart, Option<Offer>)]) -> Option<i64> {
    let parts: Option<i64> = steps.iter().map(|step| step.offer.price).sum();
    let small: Option<i64> = extras
        .iter()
        .filter(|(extra, _)| !extra.optional && extra.met_by.is_none())
        .map(|(extra, offer)| {
            offer.as_ref()?.price.map(|price| price.saturating_mul(i64::from(extra.quantity)))
        })
        .sum();
    Some(parts?.saturating_add(small?))
}

fn mass_change(ask: &Ask<'_>, steps: &[Step]) -> Option<i64> {
    let mut change = 0;
    for step in steps {
        let old = ask.build.items.iter().find(|item| {
            item.id == step.replaces || (item.id.is_empty() && item.part.kind.name() == step.replaces)
        })?;
        change += step.offer.mass_g()? - old.part.exact(Attribute::Mass)?;
    }
    Some(change)
}
