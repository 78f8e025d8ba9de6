//! What to fit instead, and what else to change: one search over repairs.
//!
//! A bike that fails, fails somewhere: at a mating, or at a goal. Every way out changes at least one of the parts that
//! meet there. So the search takes the first failure, tries every part on the shelf for every free part of it, and
//! goes on with what still fails. Nodes are taken in order of cost (changes and prices, which only grow along a way), so
//! the first way that is found is the one of least cost. Parts that no rule can tell apart are tried once.
//!
//! What it does not promise: the alternatives beside the first are those that no other one beats among a bounded number
//! of ways; where changes count most, ways with two changes more than a known one are not followed; the mass objective
//! orders by the mass of the new parts. A search that runs out of steps or time says so.

pub mod goal;
pub mod market;
mod obstacle;
mod option;
mod repair;
mod substitute;

use crate::build::{Build, Change, Fault, Item, assemble};
use crate::fit::{Book, Date, Grounds, Practice};
use crate::part::interface::Interfaces;

pub use goal::Goal;
pub use market::{Market, Offer};
pub use obstacle::{NearMiss, Obstacle};
pub use option::{Found, Step, on_shelf};
pub use repair::{BUDGET, KEEP};

/// What counts most among options.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Objective {
    /// Fewest changes, then price, then mass.
    #[default]
    FewestChanges,
    /// Lowest price, then fewest changes, then mass.
    LowestPrice,
    /// Lowest mass, then fewest changes, then price.
    LowestMass,
}

/// What is wanted.
#[derive(Clone, Debug)]
pub enum Wish {
    /// A stand-in for the part of an item.
    Substitute {
        /// The item.
        item: String,
        /// The part that was asked for, where it is not the one on the bike.
        wanted: Option<Item>,
    },
    /// The further changes that make a basket work.
    Complete {
        /// The basket.
        changes: Vec<Change>,
    },
    /// Parts that reach a goal.
    Upgrade {
        /// The goal.
        goal: Goal,
    },
}

/// A request for advice.
pub struct Ask<'a> {
    /// The bike as it is.
    pub build: &'a Build,
    /// What is wanted.
    pub wish: Wish,
    /// What can be bought.
    pub market: &'a Market,
    /// The interfaces.
    pub interfaces: &'a Interfaces,
    /// What makers state and the shop has ruled.
    pub book: &'a Book,
    /// The day of the answer.
    pub as_of: Date,
    /// How limits are held.
    pub practice: Practice,
    /// Items or kinds that must stay.
    pub keep: Vec<String>,
    /// Parts that are out of stock count too.
    pub out_of_stock_allowed: bool,
    /// Spare parts that the customer owns.
    pub owned: Vec<Item>,
    /// What counts most.
    pub objective: Objective,
    /// At most this many options.
    pub options_max: usize,
    /// The most that an option may cost, in minor units.
    pub budget: Option<i64>,
    /// Bikes judged at most.
    pub steps_max: u64,
    /// Asked between steps: `true` stops the search.
    pub cancelled: &'a dyn Fn() -> bool,
}

impl<'a> Ask<'a> {
    /// What its bikes are judged on.
    pub fn grounds(&self) -> Grounds<'a> {
        Grounds { interfaces: self.interfaces, practice: self.practice, book: self.book, as_of: self.as_of }
    }

    /// The same request, to ask again with another wish.
    fn again(&self) -> Self {
        Self {
            build: self.build,
            wish: self.wish.clone(),
            market: self.market,
            interfaces: self.interfaces,
            book: self.book,
            as_of: self.as_of,
            practice: self.practice,
            keep: self.keep.clone(),
            out_of_stock_allowed: self.out_of_stock_allowed,
            owned: self.owned.clone(),
            objective: self.objective,
            options_max: self.options_max,
            budget: self.budget,
            steps_max: self.steps_max,
            cancelled: self.cancelled,
        }
    }
}

/// What a search comes to.
#[derive(Clone, Debug, Default)]
pub struct Advice {
    /// The options, best first; those that depend on open questions come last.
    pub options: Vec<Found>,
    /// Why nothing works.
    pub obstacles: Vec<Obstacle>,
    /// What fails by little.
    pub near_misses: Vec<NearMiss>,
    /// The search ran out of steps or time.
    pub unfinished: bool,
    /// Bikes judged.
    pub steps: u64,
}

/// Answers a request.
pub fn advise(ask: &Ask<'_>) -> Result<Advice, Vec<Fault>> {
    let basket: &[Change] = match &ask.wish {
        Wish::Complete { changes } => changes,
        _ => &[],
    };
    assemble(ask.build, basket)?;
    match &ask.wish {
        Wish::Substitute { item, wanted } => substitute::substitute(ask, item, wanted.as_ref()),
        Wish::Complete { changes } => Ok(repair::repair(ask, changes, &Goal::default())),
        Wish::Upgrade { goal } => Ok(repair::repair(ask, &[], goal)),
    }
}
