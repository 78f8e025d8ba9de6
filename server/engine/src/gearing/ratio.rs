//! Exact positive fractions: wheel turns per crank turn, and internal ratios of hubs and cranks.

use std::cmp::Ordering;
use std::fmt;

use super::fault::Fault;

/// An exact positive fraction in lowest terms.
///
/// Two ratios are compared by cross-multiplication in integers, so that 50/25 and 34/17 are the same gear.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Ratio {
    num: u64,
    den: u64,
}

impl Ratio {
    /// One to one.
    pub const ONE: Self = Self { num: 1, den: 1 };

    /// `num / den` in lowest terms; `None` if either is zero.
    #[must_use]
    pub const fn new(num: u64, den: u64) -> Option<Self> {
        if num == 0 || den == 0 {
            return None;
        }
        let divisor = gcd(num, den);
        Some(Self { num: num / divisor, den: den / divisor })
    }

    /// A ratio printed with three decimals, as hub makers do: `from_thousandths(527)` is 0.527.
    #[must_use]
    pub const fn from_thousandths(thousandths: u64) -> Option<Self> {
        Self::new(thousandths, 1000)
    }

    /// Numerator in lowest terms.
    #[must_use]
    pub const fn num(self) -> u64 {
        self.num
    }

    /// Denominator in lowest terms.
    #[must_use]
    pub const fn den(self) -> u64 {
        self.den
    }

    /// For display and for physics only; never compare it for a decision.
    #[must_use]
    pub fn as_f64(self) -> f64 {
        self.num as f64 / self.den as f64
    }

    /// `self * other`; `None` if the result in lowest terms leaves 64 bits.
    #[must_use]
    pub const fn times(self, other: Self) -> Option<Self> {
        // Most builds have no internal ratio.
        if other.num == 1 && other.den == 1 {
            return Some(self);
        }
        let (a, b) = (gcd(self.num, other.den), gcd(other.num, self.den));
        match ((self.num / a).checked_mul(other.num / b), (self.den / b).checked_mul(other.den / a)) {
            (Some(num), Some(den)) => Some(Self { num, den }),
            _ => None,
        }
    }

    /// `self / other`; `None` if the result in lowest terms leaves 64 bits.
    #[must_use]
    pub const fn over(self, other: Self) -> Option<Self> {
        self.times(Self { num: other.den, den: other.num })
    }

    /// True when `higher` lies less than `permille` thousandths above `self` (or below it).
    #[must_use]
    pub fn is_within_permille(self, higher: Self, permille: u16) -> bool {
        let (low, high) = if self <= higher { (self, higher) } else { (higher, self) };
        // high / low < (1000 + permille) / 1000. The product may leave 128 bits only for ratios far apart
        // or with terms beyond any gear, and then "no" is the safe answer.
        let left = wide(high.num, low.den).checked_mul(1000);
        let right = wide(low.num, high.den).checked_mul(1000 + u128::from(permille));
        matches!((left, right), (Some(left), Some(right)) if left < right)
    }
}

/// Change from `lower` to `higher` in percent of `lower`: the step between two gears.
///
/// Negative if `higher` is the smaller one, exactly zero if both are equal.
#[must_use]
pub fn percent_step(lower: Ratio, higher: Ratio) -> f64 {
    let (high, low) = (wide(higher.num, lower.den), wide(lower.num, higher.den));
    // The difference is taken in integers: no digits are lost when the two are close.
    let size = high.abs_diff(low) as f64 / low as f64 * 100.0;
    if high < low { -size } else { size }
}

/// Change of cadence in percent when shifting from `lower` to `higher` at the same speed; negative when
/// shifting up.
///
/// A step of 20 % lowers the cadence by 16.667 %, not by 20 %.
#[must_use]
pub fn percent_cadence_change(lower: Ratio, higher: Ratio) -> f64 {
    percent_step(higher, lower)
}

/// A ratio as percent: 5.1 is 510 %.
#[must_use]
pub fn as_percent(ratio: Ratio) -> f64 {
    ratio.num as f64 * 100.0 / ratio.den as f64
}

impl Ord for Ratio {
    fn cmp(&self, other: &Self) -> Ordering {
        wide(self.num, other.den).cmp(&wide(other.num, self.den))
    }
}

impl PartialOrd for Ratio {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Ratio {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.num, self.den)
    }
}

/// Checks an internal ratio: 1/10 to 10, with terms of at most `max_term` in lowest terms.
pub(crate) fn check_internal(field: &str, ratio: Ratio, max_term: u64) -> Result<Ratio, Fault> {
    if ratio.num > ratio.den.saturating_mul(10) || ratio.den > ratio.num.saturating_mul(10) {
        let (found, field) = (ratio.as_f64(), field.to_owned());
        return Err(Fault::OutOfRange { field, found, min: 0.1, max: 10.0, unit: "turns per turn" });
    }
    let term = ratio.num.max(ratio.den);
    if term > max_term {
        let (found, max, field) = (term as f64, max_term as f64, format!("{field}.term"));
        return Err(Fault::OutOfRange { field, found, min: 1.0, max, unit: "(term of the fraction)" });
    }
    Ok(ratio)
}

fn wide(a: u64, b: u64) -> u128 {
    u128::from(a) * u128::from(b)
}

const fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn ratio(num: u64, den: u64) -> Ratio {
        Ratio::new(num, den).unwrap()
    }

    #[test]
    fn equal_gears_are_equal() {
        assert_eq!(ratio(50, 25), ratio(34, 17));
        assert_eq!(ratio(50, 25).to_string(), "2/1");
        assert!(ratio(50, 28) > ratio(34, 20));
        assert!(Ratio::new(0, 3).is_none() && Ratio::new(3, 0).is_none());
    }

    #[test]
    fn a_product_that_cancels_does_not_overflow() {
        let big = ratio(u64::MAX, 3);
        assert_eq!(big.times(ratio(3, u64::MAX)), Some(Ratio::ONE));
        assert_eq!(big.times(big), None);
        assert_eq!(big.over(big), Some(Ratio::ONE));
    }

    #[test]
    fn internal_ratios_have_limits() {
        assert!(check_internal("hub", ratio(3315, 11_902), 20_000).is_ok());
        assert_eq!(check_internal("hub", ratio(11, 1), 1000).unwrap_err().code(), "out-of-range");
        assert_eq!(check_internal("hub", ratio(1001, 1000), 1000).unwrap_err().field(), "hub.term");
        assert!(check_internal("hub", ratio(u64::MAX, 1), 1000).is_err());
    }

    proptest! {
        #[test]
        fn order_is_total_and_agrees_with_the_step(
            a in 1u64..=u64::MAX,
            b in 1u64..=u64::MAX,
            c in 1u64..=u64::MAX,
            d in 1u64..=u64::MAX,
        ) {
            let (x, y) = (ratio(a, b), ratio(c, d));
            prop_assert_eq!(x.cmp(&y), y.cmp(&x).reverse());
            let step = percent_step(x, y);
            prop_assert!(step.is_finite());
            prop_assert_eq!(x == y, step.to_bits() == 0);
            prop_assert_eq!(y > x, step > 0.0);
        }

        #[test]
        fn nearness_is_symmetric(
            a in 1u64..5000,
            b in 1u64..5000,
            c in 1u64..5000,
            d in 1u64..5000,
            t in 0u16..500,
        ) {
            let (x, y) = (ratio(a, b), ratio(c, d));
            prop_assert_eq!(x.is_within_permille(y, t), y.is_within_permille(x, t));
        }
    }
}
