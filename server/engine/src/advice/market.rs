//! What can be bought: parts with price and stock, and classes of parts that no rule can tell apart.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::fit::registry;
use crate::part::{Attribute, Kind, Part, Set};

/// A part with its price and stock.
#[derive(Clone, Debug)]
pub struct Offer {
    /// The part.
    pub part: Arc<Part>,
    /// Price in minor units of the market's currency; `None` = unknown.
    pub price: Option<i64>,
    /// Pieces in stock; owned spares count as stock.
    pub stock: i64,
    /// The customer owns it.
    pub owned: bool,
}

impl Offer {
    /// Mass in grams, where it is known exactly.
    pub fn mass_g(&self) -> Option<i64> {
        self.part.exact(Attribute::Mass)
    }

    /// Price for ranking: what is not known ranks behind everything that is.
    pub fn price_rank(&self) -> i64 {
        self.price.unwrap_or(PRICE_UNKNOWN)
    }

    fn mass_rank(&self) -> i64 {
        self.mass_g().unwrap_or(i64::MAX / 4)
    }
}

/// Stands for an unknown price in sums: dearer than anything that is known.
pub const PRICE_UNKNOWN: i64 = 1 << 40;

/// Everything that can be bought or is owned, by kind, in order of SKU.
#[derive(Clone, Debug, Default)]
pub struct Market {
    by_kind: BTreeMap<Kind, Vec<Offer>>,
}

impl Market {
    /// A market of these offers; the order does not matter.
    pub fn new(offers: impl IntoIterator<Item = Offer>) -> Self {
        let mut by_kind: BTreeMap<Kind, Vec<Offer>> = BTreeMap::new();
        for offer in offers {
            by_kind.entry(offer.part.kind).or_default().push(offer);
        }
        for offers in by_kind.values_mut() {
            offers.sort_by(|a, b| a.part.sku.cmp(&b.part.sku).then(b.owned.cmp(&a.owned)));
        }
        Self { by_kind }
    }

    /// The offers of a kind, in order of SKU.
    pub fn of_kind(&self, kind: Kind) -> &[Offer] {
        self.by_kind.get(&kind).map_or(&[], Vec::as_slice)
    }

    /// The offers of a kind that are worth trying: of each class of parts that no rule can tell apart, those that no
    /// other one beats on both price and mass.
    pub fn candidates(&self, kind: Kind, out_of_stock_allowed: bool) -> Vec<&Offer> {
        let mut classes: BTreeMap<ClassKey, Vec<&Offer>> = BTreeMap::new();
        for offer in self.of_kind(kind).iter().filter(|offer| out_of_stock_allowed || offer.stock > 0) {
            classes.entry(ClassKey::of(&offer.part)).or_default().push(offer);
        }
        let mut candidates: Vec<&Offer> = classes.into_values().flat_map(front).collect();
        candidates
            .sort_by(|a, b| a.price_rank().cmp(&b.price_rank()).then_with(|| a.part.sku.cmp(&b.part.sku)));
        candidates
    }
}

/// The offers that no other one beats on both price and mass; of equals the first by SKU.
fn front(mut offers: Vec<&Offer>) -> Vec<&Offer> {
    offers.sort_by_key(|offer| (offer.price_rank(), offer.mass_rank()));
    let mut lightest = i64::MAX;
    offers.retain(|offer| {
        let better = offer.mass_rank() < lightest;
        lightest = lightest.min(offer.mass_rank());
        better
    });
    offers
}

/// What findings can rest on of a part: the values of every attribute that some rule reads, the lists that gearing
/// reads, and the marks of statements and rulings that speak of it; children included.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ClassKey(Vec<(Attribute, Set)>, Vec<u32>, Vec<ClassKey>);

impl ClassKey {
    /// The key of a part.
    pub fn of(part: &Part) -> Self {
        let values = part
            .values()
            .filter(|(spec, _)| is_read(part.kind, spec.attribute))
            .map(|(spec, value)| (spec.attribute, value.judged().clone()))
            .collect();
        Self(values, part.marks().to_vec(), part.children().map(|(_, child)| Self::of(child)).collect())
    }
}

fn is_read(kind: Kind, attribute: Attribute) -> bool {
    matches!(attribute, Attribute::Cogs | Attribute::Rings | Attribute::Teeth)
        || registry::rules()
            .flat_map(|(_, rule)| rule.inputs)
            .any(|(slot, input)| *input == attribute && slot.kinds().contains(&kind))
}
