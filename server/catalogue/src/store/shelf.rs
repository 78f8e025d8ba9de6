//! Price and stock: small, frequent, durable before they are acknowledged, apart from the revisions.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::Store;
use super::digest::{SetDigest, hex, sha256};
use super::draft::check_sku;
use super::engine::{Batch, KeyValueStore, Tree, scan_all};
use super::envelope;
use super::fold::check;
use super::record::{self, SHELF, ShelfRow, ShelfTotals};
use crate::error::{Corrupt, ReadError, WriteError};

/// Money.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Money {
    /// ISO 4217 code.
    pub currency_code: String,
    /// Minor units, 0 or more: cents for EUR, whole yen for JPY.
    pub minor_units: i64,
}

/// Price and stock of one part. In an update, what is not set stays as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShelfEntry {
    /// Stock number.
    pub sku: String,
    /// Price of one piece.
    pub price: Option<Money>,
    /// Pieces in stock.
    pub stock: Option<u64>,
}

/// The whole shelf.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shelf {
    /// Counts the updates.
    pub sequence: u64,
    /// In order of stock number.
    pub entries: Vec<ShelfEntry>,
}

/// Who may change the shelf, and how far it is durable.
#[derive(Debug, Default)]
pub(crate) struct ShelfState {
    change: Mutex<()>,
    applied: AtomicU64,
    durable: Mutex<u64>,
}

impl ShelfState {
    /// Keeps the shelf as it is until the guard is dropped.
    pub fn pause(&self) -> MutexGuard<'_, ()> {
        self.change.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Store {
    /// Sets prices and stocks, all or none; durable on return. Returns the shelf's new sequence number.
    ///
    /// Callers on several threads share one flush: whoever flushes takes along all that was applied before.
    ///
    /// # Errors
    /// An entry that is not valid; damage; the engine.
    pub fn update_shelf(&self, entries: &[ShelfEntry]) -> Result<u64, WriteError> {
        entries.iter().try_for_each(validate)?;
        let sequence = self.watch(self.apply_to_shelf(entries))?;
        let mut durable = self.shelf.durable.lock().unwrap_or_else(PoisonError::into_inner);
        if *durable < sequence {
            let reached = self.shelf.applied.load(Ordering::Acquire).max(sequence);
            self.engine().flush()?;
            self.acknowledge(|last| last.shelf_sequence = reached)?;
            *durable = reached;
        }
        Ok(sequence)
    }

    fn apply_to_shelf(&self, entries: &[ShelfEntry]) -> Result<u64, WriteError> {
        let _turn = self.shelf.pause();
        let totals: ShelfTotals = record::read_required(self.engine(), Tree::Meta, SHELF)?;
        let mut digest = digest_of(&totals)?;
        let mut count = totals.count;
        let mut changed: BTreeMap<&str, (Option<ShelfRow>, ShelfRow)> = BTreeMap::new();
        for entry in entries {
            if !changed.contains_key(entry.sku.as_str()) {
                let before: Option<ShelfRow> =
                    record::read(self.engine(), Tree::Shelf, entry.sku.as_bytes())?;
                changed.insert(&entry.sku, (before.clone(), before.unwrap_or_default()));
            }
            if let Some((_, after)) = changed.get_mut(entry.sku.as_str()) {
                overlay(after, entry);
            }
        }
        let mut batch = Batch::default();
        for (sku, (before, after)) in changed {
            match before {
                Some(before) => digest.subtract(sku.as_bytes(), &content(&before)),
                None => count += 1,
            }
            digest.add(sku.as_bytes(), &content(&after));
            batch.put(Tree::Shelf, sku, envelope::seal_message(&after));
        }
        let sequence = totals.sequence + 1;
        let totals = ShelfTotals { sequence, count, digest: digest.to_bytes().to_vec() };
        batch.put(Tree::Meta, SHELF, envelope::seal_message(&totals));
        self.engine().apply(batch)?;
        self.shelf.applied.store(sequence, Ordering::Release);
        Ok(sequence)
    }

    /// The whole shelf, held against its totals.
    ///
    /// # Errors
    /// Damage; the engine.
    pub fn load_shelf(&self) -> Result<Shelf, ReadError> {
        let _turn = self.shelf.pause();
        self.watch(read_shelf(self.engine()))
    }
}

/// Reads the shelf and holds it against its totals.
pub(crate) fn read_shelf(store: &dyn KeyValueStore) -> Result<Shelf, ReadError> {
    let totals: ShelfTotals = record::read_required(store, Tree::Meta, SHELF)?;
    let mut digest = SetDigest::default();
    let mut entries = Vec::new();
    for pair in scan_all(store, Tree::Shelf) {
        let (key, value) = pair?;
        let row: ShelfRow = envelope::open_message(Tree::Shelf, &key, &value)?;
        digest.add(&key, &content(&row));
        let sku = String::from_utf8(key)
            .map_err(|error| Corrupt::new(Tree::Shelf.name(), error.as_bytes(), "wanted UTF-8".into()))?;
        entries.push(entry(sku, row));
    }
    check("entries on the shelf", &totals.count, &(entries.len() as u64))?;
    check("digest of the shelf", &hex(&totals.digest), &hex(&digest.to_bytes()))?;
    Ok(Shelf { sequence: totals.sequence, entries })
}

/// Writes a whole shelf into an empty store.
pub(crate) fn fill(store: &dyn KeyValueStore, shelf: &Shelf) -> Result<(), WriteError> {
    let mut digest = SetDigest::default();
    for entries in shelf.entries.chunks(500) {
        let mut batch = Batch::default();
        for entry in entries {
            let mut row = ShelfRow::default();
            overlay(&mut row, entry);
            digest.add(entry.sku.as_bytes(), &content(&row));
            batch.put(Tree::Shelf, entry.sku.as_bytes(), envelope::seal_message(&row));
        }
        store.apply(batch)?;
        store.flush()?;
    }
    let (sequence, count) = (shelf.sequence, shelf.entries.len() as u64);
    let totals = ShelfTotals { sequence, count, digest: digest.to_bytes().to_vec() };
    let mut batch = Batch::default();
    batch.put(Tree::Meta, SHELF, envelope::seal_message(&totals));
    store.apply(batch)?;
    Ok(store.flush()?)
}

fn digest_of(totals: &ShelfTotals) -> Result<SetDigest, ReadError> {
    SetDigest::from_bytes(&totals.digest).ok_or_else(|| ReadError::Mismatch {
        what: "digest of the shelf".into(),
        wanted: "32 bytes".into(),
        found: format!("{} bytes", totals.digest.len()),
    })
}

fn content(row: &ShelfRow) -> [u8; 32] {
    sha256(&prost::Message::encode_to_vec(row))
}

fn overlay(row: &mut ShelfRow, entry: &ShelfEntry) {
    if let Some(price) = &entry.price {
        row.currency.clone_from(&price.currency_code);
        row.minor_units = price.minor_units;
    }
    if entry.stock.is_some() {
        row.stock = entry.stock;
    }
}

fn entry(sku: String, row: ShelfRow) -> ShelfEntry {
    let price = Money { currency_code: row.currency, minor_units: row.minor_units };
    ShelfEntry { sku, price: Some(price).filter(|price| !price.currency_code.is_empty()), stock: row.stock }
}

fn validate(entry: &ShelfEntry) -> Result<(), WriteError> {
    check_sku(&entry.sku)?;
    let refused = |why: String| Err(WriteError::ShelfEntry { sku: entry.sku.clone(), why });
    let Some(price) = &entry.price else { return Ok(()) };
    let code = &price.currency_code;
    if code.len() != 3 || !code.bytes().all(|byte| byte.is_ascii_uppercase()) {
        return refused(format!("wanted a currency of three capital letters, found {code:?}"));
    }
    if price.minor_units < 0 {
        return refused(format!("wanted a price of 0 or more minor units, found {}", price.minor_units));
    }
    Ok(())
}
