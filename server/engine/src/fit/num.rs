//! Numbers that may not be known exactly.

use std::marker::PhantomData;
use std::ops::{Add, Neg, Sub};

use super::rule::Stop;
use crate::part::Unit;
use crate::part::units::Measure;

/// A number of a measure, known to lie from `low` to `high`. Arithmetic keeps every value that is possible, so a
/// comparison answers only what holds for all of them and stops the rule as undecided otherwise.
#[derive(Debug)]
pub struct Num<U> {
    /// Lowest possible value.
    pub low: i64,
    /// Highest possible value.
    pub high: i64,
    measure: PhantomData<fn() -> U>,
}

impl<U> Clone for Num<U> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<U> Copy for Num<U> {}

impl<U> Num<U> {
    /// A number between two limits; the caller gives them in order.
    pub const fn between(low: i64, high: i64) -> Self {
        Self { low, high, measure: PhantomData }
    }

    /// One number.
    pub const fn exact(value: i64) -> Self {
        Self::between(value, value)
    }

    /// At most this?
    pub fn at_most(self, limit: i64) -> Result<bool, Stop> {
        if self.high <= limit {
            Ok(true)
        } else if self.low > limit {
            Ok(false)
        } else {
            Err(Stop::Undecided)
        }
    }

    /// At least this?
    pub fn at_least(self, limit: i64) -> Result<bool, Stop> {
        self.at_most(limit - 1).map(|below| !below)
    }

    /// Between these, both included?
    pub fn within(self, low: i64, high: i64) -> Result<bool, Stop> {
        Ok(self.at_least(low)? && self.at_most(high)?)
    }

    /// Exactly this?
    pub fn equals(self, value: i64) -> Result<bool, Stop> {
        if self.low == value && self.high == value {
            Ok(true)
        } else if self.low > value || self.high < value {
            Ok(false)
        } else {
            Err(Stop::Undecided)
        }
    }

    /// The amount without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        if self.low >= 0 {
            self
        } else if self.high <= 0 {
            -self
        } else {
            Self::between(0, self.high.max(-self.low))
        }
    }

    /// Multiplied by a whole number.
    #[must_use]
    pub fn times(self, factor: i64) -> Self {
        let (a, b) = (self.low.saturating_mul(factor), self.high.saturating_mul(factor));
        Self::between(a.min(b), a.max(b))
    }

    /// Divided by a whole number over zero, rounded to the nearest.
    #[must_use]
    pub fn over(self, divisor: i64) -> Self {
        let round = |value: i64| (value + (divisor / 2) * value.signum()) / divisor;
        Self::between(round(self.low), round(self.high))
    }

    /// The same number counted in another measure.
    pub fn counted_as<V>(self) -> Num<V> {
        Num::between(self.low, self.high)
    }
}

impl<U: Measure> Num<U> {
    /// Its unit.
    pub fn unit(self) -> Unit {
        U::UNIT
    }
}

impl<U> Add for Num<U> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::between(self.low.saturating_add(other.low), self.high.saturating_add(other.high))
    }
}

impl<U> Sub for Num<U> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::between(self.low.saturating_sub(other.high), self.high.saturating_sub(other.low))
    }
}

impl<U> Neg for Num<U> {
    type Output = Self;
    fn neg(self) -> Self {
        Self::between(self.high.saturating_neg(), self.low.saturating_neg())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::units::Micrometres;

    type Length = Num<Micrometres>;

    #[test]
    fn comparisons_answer_only_what_holds_for_every_possible_value() {
        let length = Length::between(3, 7);
        assert_eq!(length.at_most(7), Ok(true));
        assert_eq!(length.at_most(2), Ok(false));
        assert_eq!(length.at_most(5), Err(Stop::Undecided));
        assert_eq!(length.within(0, 9), Ok(true));
        assert_eq!(length.equals(9), Ok(false));
        assert_eq!(length.equals(3), Err(Stop::Undecided));
    }

    #[test]
    fn arithmetic_keeps_every_possible_value() {
        let difference = Length::between(3, 7) - Length::between(1, 5);
        assert_eq!((difference.low, difference.high), (-2, 6));
        assert_eq!((difference.abs().low, difference.abs().high), (0, 6));
        assert_eq!((difference.times(-2).low, difference.times(-2).high), (-12, 4));
    }
}
