//! The shelf in memory: price and stock by SKU.

use std::collections::HashMap;

use sprag_proto::v1 as pb;

use crate::store::{Shelf, ShelfEntry};

/// Price and stock of one part.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Entry {
    price: Option<pb::Money>,
    stock: Option<i64>,
}

/// The shelf with its sequence number.
#[derive(Clone, Debug, Default)]
pub struct LiveShelf {
    sequence: u64,
    entries: HashMap<String, Entry>,
}

impl From<Shelf> for LiveShelf {
    fn from(shelf: Shelf) -> Self {
        let mut live = Self::default();
        live.apply(shelf.sequence, &shelf.entries);
        live
    }
}

impl LiveShelf {
    /// Counts the updates.
    pub fn sequence(&self) -> i64 {
        i64::try_from(self.sequence).unwrap_or(i64::MAX)
    }

    /// Price of a part, where it is known.
    pub fn price(&self, sku: &str) -> Option<&pb::Money> {
        self.entries.get(sku)?.price.as_ref()
    }

    /// Stock of a part, where it is known.
    pub fn stock(&self, sku: &str) -> Option<i64> {
        self.entries.get(sku)?.stock
    }

    /// The currency in which most prices are; of equals the first in the alphabet.
    pub fn currency(&self) -> Option<String> {
        let mut counts: HashMap<&str, usize> = HashMap::new();
        for price in self.entries.values().filter_map(|entry| entry.price.as_ref()) {
            *counts.entry(&price.currency_code).or_default() += 1;
        }
        let most = counts.into_iter().max_by(|a, b| a.1.cmp(&b.1).then_with(|| b.0.cmp(a.0)));
        most.map(|(code, _)| code.to_owned())
    }

    /// Takes over durable updates; what is not set stays as it was.
    pub fn apply(&mut self, sequence: u64, entries: &[ShelfEntry]) {
        self.sequence = sequence;
        for update in entries {
            let entry = self.entries.entry(update.sku.clone()).or_default();
            if let Some(price) = &update.price {
                entry.price = Some(pb::Money {
                    currency_code: price.currency_code.clone(),
                    minor_units: price.minor_units,
                });
            }
            if let Some(stock) = update.stock {
                entry.stock = i64::try_from(stock).ok();
            }
        }
    }
}
