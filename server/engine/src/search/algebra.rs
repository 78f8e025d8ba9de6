//! What costs are: how they add up along a way, and how ways are chosen between.

use std::fmt::Debug;
use std::marker::PhantomData;

use super::fold::Fold;

/// An idempotent semiring: `plus` adds along a way, `choose` keeps the best of several ways.
pub trait Algebra {
    /// A cost.
    type Value: Clone + Debug + PartialEq;
    /// Memory that is used again and again.
    type Scratch: Default;

    /// What nothing costs.
    fn free() -> Self::Value;

    /// No way.
    fn none() -> Self::Value;

    /// There is no way.
    fn is_none(value: &Self::Value) -> bool;

    /// One after the other.
    fn plus(one: &Self::Value, other: &Self::Value, scratch: &mut Self::Scratch) -> Self::Value;

    /// The best of both.
    fn choose(into: &mut Self::Value, other: &Self::Value);

    /// Folds a group of tuples into one block of an intermediate result: `out` is the best, over the members, of the
    /// sum of block and factor.
    fn fold(fold: &Fold<'_, Self::Value>, out: &mut [Self::Value], scratch: &mut Self::Scratch);

    /// The best over rows of the sum of each row's terms.
    fn best<'a>(
        rows: impl Iterator<Item = &'a [&'a Self::Value]>,
        scratch: &mut Self::Scratch,
    ) -> Self::Value
    where
        Self::Value: 'a;
}

/// A cost with a total order, which adding keeps.
pub trait Cost: Copy + Ord + Debug {
    /// What nothing costs.
    const FREE: Self;
    /// Dearer than every way. Sums of a few hundred of them must not overflow.
    const NONE: Self;

    /// Adds up.
    #[must_use]
    fn plus(self, other: Self) -> Self;

    /// Takes back what was added.
    #[must_use]
    fn minus(self, other: Self) -> Self;

    /// There is no way at this cost.
    fn is_none(self) -> bool;
}

/// Stands for "no way" in costs of one number. Real costs, and what they may be below zero, stay within half of it.
const NEVER: i64 = 1 << 54;

impl Cost for i64 {
    const FREE: Self = 0;
    const NONE: Self = NEVER;

    fn plus(self, other: Self) -> Self {
        self + other
    }

    fn minus(self, other: Self) -> Self {
        self - other
    }

    fn is_none(self) -> bool {
        self >= NEVER / 2
    }
}

/// Several numbers, the first counts most.
impl<const N: usize> Cost for [i64; N] {
    const FREE: Self = [0; N];
    const NONE: Self = [NEVER; N];

    fn plus(mut self, other: Self) -> Self {
        for (own, other) in self.iter_mut().zip(other) {
            *own += other;
        }
        self
    }

    fn minus(mut self, other: Self) -> Self {
        for (own, other) in self.iter_mut().zip(other) {
            *own -= other;
        }
        self
    }

    fn is_none(self) -> bool {
        self.iter().any(|number| *number >= NEVER / 2)
    }
}

/// The least cost.
#[derive(Debug)]
pub struct Cheapest<C>(PhantomData<C>);

impl<C: Cost> Algebra for Cheapest<C> {
    type Value = C;
    type Scratch = ();

    fn free() -> C {
        C::FREE
    }

    fn none() -> C {
        C::NONE
    }

    fn is_none(value: &C) -> bool {
        (*value).is_none()
    }

    fn plus(one: &C, other: &C, (): &mut ()) -> C {
        one.plus(*other)
    }

    fn choose(into: &mut C, other: &C) {
        *into = (*into).min(*other);
    }

    fn fold(fold: &Fold<'_, C>, out: &mut [C], (): &mut ()) {
        for (block, factor) in fold.members() {
            fold.each(block, factor, |cell, own, other| {
                if let Some(other) = other {
                    let sum = own.plus(*other);
                    if let Some(out) = out.get_mut(cell)
                        && sum < *out
                    {
                        *out = sum;
                    }
                }
            });
        }
    }

    fn best<'a>(rows: impl Iterator<Item = &'a [&'a C]>, (): &mut ()) -> C
    where
        C: 'a,
    {
        rows.map(|terms| terms.iter().fold(C::FREE, |sum, term| sum.plus(**term))).min().unwrap_or(C::NONE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_way_stays_no_way_however_often_it_is_added() {
        let never = (0..300).fold(0_i64, |sum, _| sum.plus(i64::NONE));
        assert!(Cheapest::<i64>::is_none(&never) && never > 0);
        let vector = (0..300).fold([0_i64; 4], |sum, _| sum.plus(<[i64; 4]>::NONE));
        assert!(Cheapest::<[i64; 4]>::is_none(&vector));
    }

    #[test]
    fn the_first_number_counts_most() {
        let mut best = [1, 500, 3];
        Cheapest::<[i64; 3]>::choose(&mut best, &[2, 1, 1]);
        assert_eq!(best, [1, 500, 3]);
        Cheapest::<[i64; 3]>::choose(&mut best, &[1, 500, 2]);
        assert_eq!(best, [1, 500, 2]);
    }
}
