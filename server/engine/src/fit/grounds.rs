//! What a judgement rests on, besides the parts.

use super::book::Book;
use super::date::Date;
use super::outcome::Practice;
use crate::part::interface::Interfaces;

/// What a judgement rests on, besides the parts: the same parts on the same grounds give the same answer.
#[derive(Clone, Copy, Debug)]
pub struct Grounds<'a> {
    /// The interfaces.
    pub interfaces: &'a Interfaces,
    /// How limits are held.
    pub practice: Practice,
    /// What makers state and the shop has ruled.
    pub book: &'a Book,
    /// The day: rulings count up to their last one.
    pub as_of: Date,
}

impl<'a> Grounds<'a> {
    /// Grounds on which nothing is stated or ruled.
    pub fn bare(interfaces: &'a Interfaces, practice: Practice) -> Self {
        Self { interfaces, practice, book: Book::empty(), as_of: Date::EPOCH }
    }
}
