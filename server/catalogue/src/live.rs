//! The catalogue as a service uses it: the store, and in memory the snapshot and the shelf.

use std::sync::{Arc, Mutex, PoisonError, RwLock};

use sprag_engine::advice::{Market, Offer};
use sprag_engine::fit::{Date, Grounds, Practice};
use sprag_engine::part::Kind;
use sprag_proto::v1 as pb;

use crate::error::{ReadError, WriteError};
use crate::import::ImportError;
use crate::shelf::LiveShelf;
use crate::snapshot::Snapshot;
use crate::store::{Draft, Publication, Published, ShelfEntry, Store};

/// Largest price that is taken for one, in minor units.
const PRICE_MAX: i64 = 10_000_000_000;

/// One consistent view: a whole revision, and the shelf as it was when the view was taken.
#[derive(Clone, Debug)]
pub struct View {
    /// The parts.
    pub snapshot: Arc<Snapshot>,
    /// Price and stock.
    pub shelf: Arc<LiveShelf>,
    /// The day of the answers from it, which whoever asks has to say: the catalogue has no clock.
    pub as_of: Date,
    currency: String,
}

impl View {
    /// The same view for the answers of a day.
    #[must_use]
    pub fn on(self, as_of: Date) -> Self {
        Self { as_of, ..self }
    }

    /// What parts are judged on.
    pub fn grounds(&self, practice: Practice) -> Grounds<'_> {
        let registry = self.snapshot.registry();
        Grounds { interfaces: &registry.interfaces, practice, book: &registry.book, as_of: self.as_of }
    }

    /// The currency that prices are compared in; empty without prices.
    pub fn currency(&self) -> String {
        self.currency.clone()
    }

    /// Every part as an offer. Prices in another currency than most count as unknown.
    pub fn offers(&self) -> impl Iterator<Item = Offer> {
        self.snapshot.parts().iter().map(|stocked| self.offer(stocked))
    }

    /// The offers of some kinds.
    pub fn market_of(&self, kinds: impl IntoIterator<Item = Kind>) -> Market {
        let mut kinds: Vec<Kind> = kinds.into_iter().collect();
        kinds.sort_unstable();
        kinds.dedup();
        Market::new(
            kinds.into_iter().flat_map(|kind| self.snapshot.of_kind(kind)).map(|stocked| self.offer(stocked)),
        )
    }

    fn offer(&self, stocked: &crate::Stocked) -> Offer {
        let sku = stocked.message.sku.as_str();
        let price = self.shelf.price(sku).filter(|price| {
            // An amount beyond any shop's is a slip, and must not upset sums.
            price.currency_code == self.currency && price.minor_units <= PRICE_MAX
        });
        Offer {
            part: stocked.part.clone(),
            price: price.map(|price| price.minor_units),
            stock: self.shelf.stock(sku).unwrap_or(0),
            owned: false,
        }
    }

    /// A part with its price and stock.
    pub fn catalogued(&self, stocked: &crate::Stocked) -> pb::CataloguedPart {
        let sku = stocked.message.sku.as_str();
        pb::CataloguedPart {
            part: Some(stocked.message.clone()),
            price: self.shelf.price(sku).cloned(),
            stock: self.shelf.stock(sku),
        }
    }
}

/// The catalogue, open. Cheap to ask; writing blocks on the disk, so keep it off the async threads.
pub struct Catalogue {
    pub(crate) store: Store,
    view: RwLock<View>,
    /// Hears of trouble that does not undo what was done.
    pub(crate) on_trouble: fn(&str),
    /// Held while the shelf or the snapshot changes, so that memory follows the disk in the same order.
    changing: Mutex<()>,
}

impl Catalogue {
    /// Loads what the store has published; `on_trouble` hears of copies that could not be written.
    ///
    /// # Errors
    /// Anything that does not match what was acknowledged.
    pub fn load(store: Store, on_trouble: fn(&str)) -> Result<Self, ReadError> {
        let snapshot = load_snapshot(&store)?;
        let shelf = LiveShelf::from(store.load_shelf()?);
        let currency = shelf.currency().unwrap_or_default();
        let view =
            View { snapshot: Arc::new(snapshot), shelf: Arc::new(shelf), as_of: Date::EPOCH, currency };
        Ok(Self { store, view: RwLock::new(view), on_trouble, changing: Mutex::new(()) })
    }

    /// The view of this moment.
    pub fn view(&self) -> View {
        self.view.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// What is published, in memory. Ask with a draft in hand: then nothing else is published meanwhile.
    ///
    /// # Errors
    /// A revision is published and not in memory yet: a moment later it is.
    pub(crate) fn published(&self) -> Result<Arc<Snapshot>, WriteError> {
        let snapshot = self.view().snapshot;
        let head = self.store.head()?.number;
        if i64::try_from(head).is_ok_and(|head| head == snapshot.revision().revision) {
            Ok(snapshot)
        } else {
            Err(WriteError::AlreadyChanging)
        }
    }

    /// Publishes a draft and loads it into memory. A repeated request answers as it did the first time.
    ///
    /// # Errors
    /// The store.
    pub(crate) fn publish(
        &self,
        draft: Draft<'_>,
        publication: Publication,
    ) -> Result<Published, ImportError> {
        let own = draft.revision();
        let done = draft.finish(publication)?;
        if done.revision == own {
            self.reload()?;
            self.keep_copies();
        }
        Ok(done)
    }

    /// Loads the head of the store into memory.
    pub(crate) fn reload(&self) -> Result<(), ReadError> {
        let _changing = self.changing.lock().unwrap_or_else(PoisonError::into_inner);
        let snapshot = Arc::new(load_snapshot(&self.store)?);
        self.view.write().unwrap_or_else(PoisonError::into_inner).snapshot = snapshot;
        Ok(())
    }

    /// Sets prices and stocks, all or none; durable when it returns. Gives the new sequence number.
    ///
    /// # Errors
    /// The store; see its texts.
    pub fn update_shelf(&self, entries: &[ShelfEntry]) -> Result<u64, WriteError> {
        let _changing = self.changing.lock().unwrap_or_else(PoisonError::into_inner);
        let sequence = self.store.update_shelf(entries)?;
        let mut view = self.view.write().unwrap_or_else(PoisonError::into_inner);
        // Copies only while some answer still holds the old shelf.
        Arc::make_mut(&mut view.shelf).apply(sequence, entries);
        if view.currency.is_empty() {
            view.currency = view.shelf.currency().unwrap_or_default();
        }
        Ok(sequence)
    }

    /// Flushes and marks the store as closed in order.
    ///
    /// # Errors
    /// The store.
    pub fn close(self) -> Result<(), WriteError> {
        self.store.close()
    }
}

fn load_snapshot(store: &Store) -> Result<Snapshot, ReadError> {
    Snapshot::build(store.load()?).map_err(|faults| ReadError::Mismatch {
        what: "a stored part".into(),
        wanted: "parts that the dictionary of this version takes".into(),
        found: faults.first().map(ToString::to_string).unwrap_or_default(),
    })
}
