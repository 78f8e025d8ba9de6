//! What is known of an attribute: the set of values that remain possible, and where that knowledge comes from.

/// Where a value comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Origin {
    /// Printed on the part or published by its maker.
    #[default]
    Stated,
    /// Measured on the part in hand.
    Measured,
    /// Concluded from something else: a hint, never judged on.
    Inferred,
}

/// The values that remain possible. Words, keys and flags are integers too (see [`super::spec::Form`]).
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Set {
    /// Anything.
    #[default]
    Unknown,
    /// The part has no such thing.
    Absent,
    /// This value.
    Exact(i64),
    /// One of these; sorted, at least two.
    OneOf(Box<[i64]>),
    /// From the first to the second, both included; the first is the smaller.
    Between(i64, i64),
    /// This list.
    List(Box<[i64]>),
}

impl Set {
    /// One of several values; fewer than two collapse.
    pub fn one_of(mut values: Vec<i64>) -> Self {
        values.sort_unstable();
        values.dedup();
        match values.as_slice() {
            [] => Self::Unknown,
            [only] => Self::Exact(*only),
            _ => Self::OneOf(values.into()),
        }
    }

    /// A range; equal ends collapse, swapped ends are put in order.
    pub fn between(low: i64, high: i64) -> Self {
        match low.cmp(&high) {
            std::cmp::Ordering::Less => Self::Between(low, high),
            std::cmp::Ordering::Equal => Self::Exact(low),
            std::cmp::Ordering::Greater => Self::Between(high, low),
        }
    }
}

/// A set of possible values with its origin.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Value {
    /// The values.
    pub set: Set,
    /// Where they come from.
    pub origin: Origin,
}

impl Value {
    /// Stated values.
    pub const fn stated(set: Set) -> Self {
        Self { set, origin: Origin::Stated }
    }

    /// What a rule may judge on: nothing of an inferred value.
    pub fn judged(&self) -> &Set {
        if self.origin == Origin::Inferred { &Set::Unknown } else { &self.set }
    }
}
