//! Builds: the parts on one bike, changes to it, and what composite parts bring along.

mod apply;
mod today;

use std::sync::Arc;

use crate::part::{Kind, Part};

pub use apply::{Applied, Fault, assemble};
pub use today::learn;

/// An end of the bike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// At the front wheel.
    Front,
    /// At the rear wheel.
    Rear,
}

/// A part in its place on a bike, as the caller gives it.
#[derive(Clone, Debug)]
pub struct Item {
    /// Name within the build; empty = the name of its kind.
    pub id: String,
    /// Which end; `None` = rear, for kinds that have an end.
    pub end: Option<End>,
    /// How many.
    pub quantity: u32,
    /// What it is.
    pub part: Arc<Part>,
}

/// The parts on one bike.
#[derive(Clone, Debug)]
pub struct Build {
    /// The parts.
    pub items: Vec<Item>,
    /// How it is used: a part of kind `Use`.
    pub usage: Arc<Part>,
}

impl Default for Build {
    fn default() -> Self {
        Self { items: Vec::new(), usage: Arc::new(Part::new(Kind::Use)) }
    }
}

/// One change to a build.
#[derive(Clone, Debug, Default)]
pub struct Change {
    /// The caller's name of it.
    pub id: String,
    /// The part to fit; `None` = only take off.
    pub fit: Option<Item>,
    /// The item that goes; `None` = whatever sits in the place of the new part.
    pub replaces: Option<String>,
    /// Items that sit on the replaced part and move over to the new one.
    pub moves: Vec<String>,
}

/// A part on the bike after the changes.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Name within the build.
    pub id: String,
    /// Which end, for kinds that have one.
    pub end: Option<End>,
    /// How many.
    pub quantity: u32,
    /// What it is.
    pub part: Arc<Part>,
    /// The composite part that brought it.
    pub parent: Option<String>,
    /// The change that fitted it.
    pub change: Option<usize>,
    /// It stands for all rings of the bike together.
    pub all_rings: bool,
}

/// A bike, opened into its parts.
#[derive(Clone, Debug)]
pub struct Assembly {
    /// The parts.
    pub placed: Vec<Placed>,
    /// How it is used.
    pub usage: Arc<Part>,
    /// What the changes did, in their order.
    pub applied: Vec<Applied>,
    /// Nothing was changed: everything counts as touched.
    pub unchanged: bool,
    /// Teeth by which the changes let the largest ring and the largest cog grow together; 0 where that is not known.
    pub big_big_growth: i64,
}

impl Assembly {
    /// The part with a name.
    pub fn find(&self, id: &str) -> Option<&Placed> {
        self.placed.iter().find(|placed| placed.id == id)
    }

    /// The parts of a kind.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &Placed> {
        self.placed.iter().filter(move |placed| placed.part.kind == kind && !placed.all_rings)
    }

    /// All rings of the bike together.
    pub fn rings(&self) -> Option<&Placed> {
        self.placed.iter().find(|placed| placed.all_rings)
    }
}

/// The end at which a kind sits when the caller does not say.
pub fn default_end(kind: Kind) -> Option<End> {
    match kind {
        Kind::Fork => Some(End::Front),
        Kind::Frame
        | Kind::Wheel
        | Kind::Hub
        | Kind::GearHub
        | Kind::FreehubBody
        | Kind::Rim
        | Kind::Tyre
        | Kind::Tube
        | Kind::Axle
        | Kind::EndCaps
        | Kind::Rotor
        | Kind::BrakeCaliper
        | Kind::BrakeLever
        | Kind::BrakeShiftLever
        | Kind::BrakeAdapter
        | Kind::BrakePads => Some(End::Rear),
        _ => None,
    }
}
