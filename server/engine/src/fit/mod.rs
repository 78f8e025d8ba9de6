//! Whether parts fit: rules, and what they come to.

pub mod book;
pub mod check;
pub mod date;
pub mod evaluate;
pub mod extras;
mod grounds;
pub mod hear;
pub mod num;
pub mod outcome;
pub mod question;
pub mod reason;
pub mod registry;
pub mod rule;
pub mod rules;
pub mod slot;

pub use book::Book;
pub use date::Date;
pub use grounds::Grounds;
pub use outcome::{Evidence, Hazard, Outcome, Practice, Verdict};
pub use rule::{Mating, Rule};
pub use slot::Slot;
