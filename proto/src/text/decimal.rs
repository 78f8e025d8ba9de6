//! Exact decimal numbers: no float takes part.

/// Digits that a number may have in all.
const DIGITS_MAX: usize = 24;

/// An exact number: `numerator / denominator`, the latter over 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Decimal {
    numerator: i128,
    denominator: i128,
}

/// Why a number cannot become a count of units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unfit {
    /// It lies between two units.
    NotWhole,
    /// It is beyond 64 bits.
    TooLarge,
}

impl Decimal {
    /// Reads "34.9", "-3", "1e3"; `None` where the text is no such number or has over 24 digits.
    pub fn parse(text: &str) -> Option<Self> {
        let (mantissa, exponent) = match text.split_once(['e', 'E']) {
            Some((mantissa, exponent)) => (mantissa, exponent.parse::<i32>().ok()?),
            None => (text, 0),
        };
        let negative = mantissa.starts_with('-');
        let digits = mantissa.strip_prefix(['-', '+']).unwrap_or(mantissa);
        let (whole, fraction) = digits.split_once('.').unwrap_or((digits, ""));
        let dangling = digits.ends_with('.') || whole.is_empty();
        if dangling || !whole.bytes().chain(fraction.bytes()).all(|byte| byte.is_ascii_digit()) {
            return None;
        }
        let whole = whole.trim_start_matches('0');
        let fraction = fraction.trim_end_matches('0');
        let mut numerator: i128 = 0;
        if whole.len() + fraction.len() > DIGITS_MAX {
            return None;
        }
        for digit in whole.bytes().chain(fraction.bytes()) {
            numerator = numerator * 10 + i128::from(digit - b'0');
        }
        if numerator == 0 {
            return Some(Self { numerator: 0, denominator: 1 });
        }
        let scale = exponent.checked_sub(i32::try_from(fraction.len()).ok()?)?;
        if scale.unsigned_abs() as usize > DIGITS_MAX {
            return None;
        }
        let power = 10_i128.checked_pow(scale.unsigned_abs())?;
        let (mut numerator, denominator) =
            if scale >= 0 { (numerator.checked_mul(power)?, 1) } else { (numerator, power) };
        if negative {
            numerator = -numerator;
        }
        Some(Self { numerator, denominator })
    }

    /// Reads a fraction of whole numbers of at most four digits: "3/32".
    pub fn fraction(text: &str) -> Option<Self> {
        let (above, below) = text.split_once('/')?;
        let whole = |part: &str| {
            let plain = (1..=4).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
            plain.then(|| part.parse::<i128>().ok()).flatten()
        };
        let (numerator, denominator) = (whole(above.trim())?, whole(below.trim())?);
        (denominator > 0).then_some(Self { numerator, denominator })
    }

    /// This number times `times / over`, which must be whole unless `rounds`: then the nearest, halves away from 0.
    pub fn scaled(self, times: i128, over: i128, rounds: bool) -> Result<i64, Unfit> {
        let above = self.numerator.checked_mul(times).ok_or(Unfit::TooLarge)?;
        let below = self.denominator.checked_mul(over).ok_or(Unfit::TooLarge)?;
        let (whole, rest) = (above / below, above % below);
        let value = match rest {
            0 => whole,
            _ if !rounds => return Err(Unfit::NotWhole),
            rest if rest.abs() >= below - rest.abs() => whole + rest.signum(),
            _ => whole,
        };
        i64::try_from(value).map_err(|_| Unfit::TooLarge)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole(text: &str, times: i128) -> Option<i64> {
        Decimal::parse(text)?.scaled(times, 1, false).ok()
    }

    #[test]
    fn decimals_are_exact() {
        assert_eq!(whole("34.9", 1000), Some(34_900));
        assert_eq!(whole("36.75", 1000), Some(36_750));
        assert_eq!(whole("0.1", 10), Some(1));
        assert_eq!(whole("-3", 1000), Some(-3000));
        assert_eq!(whole("+3.50", 10), Some(35));
        assert_eq!(whole("1e3", 1), Some(1000));
        assert_eq!(whole("2.5E-1", 100), Some(25));
        assert_eq!(whole("9223372036854775807", 1), Some(i64::MAX));
        assert_eq!(whole("9223372036854775808", 1), None);
        assert_eq!(whole("34.9004", 1000), None);
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for text in
            ["", ".", "1.", ".5", "-", "1..2", "1,5", "0x10", "NaN", "inf", "1e400", "1e-400", "1e", "e5"]
        {
            assert_eq!(Decimal::parse(text), None, "{text}");
        }
        assert_eq!(Decimal::parse(&"9".repeat(25)), None);
        assert_eq!(Decimal::parse("1e99999999999"), None);
        assert_eq!(Decimal::parse("٣"), None);
    }

    /// One inch is 25.4 mm exactly (international inch, 1959).
    #[test]
    fn inches_round_to_the_nearest_micrometre() {
        let inches = |text: &str| Decimal::parse(text).map(|number| number.scaled(25_400, 1, true));
        assert_eq!(inches("1"), Some(Ok(25_400)));
        assert_eq!(inches("1.375"), Some(Ok(34_925)));
        assert_eq!(inches("0.0001"), Some(Ok(3)));
        assert_eq!(inches("-0.0001"), Some(Ok(-3)));
        assert_eq!(Decimal::fraction("3/32").map(|number| number.scaled(25_400, 1, true)), Some(Ok(2381)));
        assert_eq!(Decimal::fraction("1/0"), None);
        assert_eq!(Decimal::fraction("1/-2"), None);
    }
}
