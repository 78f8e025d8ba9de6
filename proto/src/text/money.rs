//! Money: text to integer minor units and back, exactly.

use super::decimal::Decimal;
use super::fault::quoted;
use crate::v1::Money;

pub(crate) const WANTED: &str = "give an amount with its currency as \"39.90 EUR\"";

/// Codes without decimals, in ISO 4217 list A.1 as published on 2026-01-01.
const NO_DECIMALS: [&str; 17] = [
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF",
    "XOF", "XPF",
];
/// Codes with three decimals, in the same list.
const THREE_DECIMALS: [&str; 7] = ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];
/// Codes with four decimals, in the same list.
const FOUR_DECIMALS: [&str; 2] = ["CLF", "UYW"];
/// Metals, baskets and test codes: no price is in them.
const NO_MINOR_UNIT: [&str; 13] =
    ["XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS", "XUA", "XXX"];

/// Decimals of a currency by ISO 4217; `None` where the code is not three capital letters or has no minor unit.
/// A code that the list does not name is taken to have two.
pub fn minor_digits(code: &str) -> Option<u32> {
    let letters = code.len() == 3 && code.bytes().all(|byte| byte.is_ascii_uppercase());
    match code {
        _ if !letters || NO_MINOR_UNIT.contains(&code) => None,
        _ if NO_DECIMALS.contains(&code) => Some(0),
        _ if THREE_DECIMALS.contains(&code) => Some(3),
        _ if FOUR_DECIMALS.contains(&code) => Some(4),
        _ => Some(2),
    }
}

/// Reads a decimal amount of 0 or more in a currency: ("39.90", "EUR") is 3990 minor units.
///
/// # Errors
///
/// One clause that says what would be right.
pub fn amount(text: &str, code: &str) -> Result<Money, String> {
    let (text, code) = (text.trim(), code.trim());
    let digits = digits_of(code)?;
    let Some(number) = Decimal::parse(text) else {
        return Err("give the amount as digits with a decimal point, such as 1234.50".to_owned());
    };
    let minor_units = number.scaled(10_i128.pow(digits), 1, false).map_err(|unfit| match unfit {
        super::decimal::Unfit::NotWhole => format!("{code} has {digits} decimals at most"),
        super::decimal::Unfit::TooLarge => "the amount is too large".to_owned(),
    })?;
    check(code, minor_units)?;
    Ok(Money { currency_code: code.to_owned(), minor_units })
}

/// Reads "39.90 EUR" or "EUR 39.90".
///
/// # Errors
///
/// One clause that says what would be right.
pub fn from_text(text: &str) -> Result<Money, String> {
    let mut words = text.split_whitespace();
    let (Some(first), Some(second), None) = (words.next(), words.next(), words.next()) else {
        return Err(WANTED.to_owned());
    };
    if first.starts_with(|character: char| character.is_alphabetic()) {
        amount(second, first)
    } else {
        amount(first, second)
    }
}

/// Money as text: "39.90 EUR", "1500 JPY".
pub fn to_text(money: &Money) -> String {
    let digits = minor_digits(&money.currency_code).unwrap_or(0);
    let power = 10_u64.pow(digits);
    let (whole, rest) = (money.minor_units.unsigned_abs() / power, money.minor_units.unsigned_abs() % power);
    let sign = if money.minor_units < 0 { "-" } else { "" };
    match digits {
        0 => format!("{sign}{whole} {}", money.currency_code),
        digits => format!("{sign}{whole}.{rest:0width$} {}", money.currency_code, width = digits as usize),
    }
}

/// Checks an amount in minor units.
pub(crate) fn check(code: &str, minor_units: i64) -> Result<(), String> {
    digits_of(code)?;
    if minor_units < 0 { Err("give an amount of 0 or more".to_owned()) } else { Ok(()) }
}

fn digits_of(code: &str) -> Result<u32, String> {
    minor_digits(code).ok_or_else(|| {
        let upper = code.to_uppercase();
        match minor_digits(&upper) {
            Some(_) => format!("write the currency in capitals: {upper}"),
            None => format!("{} is no currency code: give three capital letters such as EUR", quoted(code)),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 4217 list A.1 as published on 2026-01-01.
    #[test]
    fn currencies_have_the_decimals_of_the_published_list() {
        for code in [
            "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV",
            "XAF", "XOF", "XPF",
        ] {
            assert_eq!(minor_digits(code), Some(0), "{code}");
        }
        for code in ["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"] {
            assert_eq!(minor_digits(code), Some(3), "{code}");
        }
        for code in ["CLF", "UYW"] {
            assert_eq!(minor_digits(code), Some(4), "{code}");
        }
        // Two decimals although their subunit is a fifth.
        for code in ["EUR", "USD", "GBP", "CHF", "MRU", "MGA"] {
            assert_eq!(minor_digits(code), Some(2), "{code}");
        }
        for code in ["XAU", "XXX", "XTS", "eur", "EURO", "", "E1R", "ЕUR"] {
            assert_eq!(minor_digits(code), None, "{code}");
        }
    }

    #[test]
    fn amounts_are_exact() {
        let minor = |text: &str| from_text(text).map(|money| money.minor_units);
        assert_eq!(minor("39.90 EUR"), Ok(3990));
        assert_eq!(minor("EUR 39.9"), Ok(3990));
        assert_eq!(minor("0.07 EUR"), Ok(7));
        assert_eq!(minor("1500 JPY"), Ok(1500));
        assert_eq!(minor("1.234 KWD"), Ok(1234));
        assert_eq!(minor("1.2345 CLF"), Ok(12345));
        assert_eq!(minor("92233720368547758.07 EUR"), Ok(i64::MAX));
    }

    #[test]
    fn what_is_no_amount_says_what_would_be_right() {
        let wanted = |text: &str| from_text(text).unwrap_err();
        assert_eq!(wanted("39.905 EUR"), "EUR has 2 decimals at most");
        assert_eq!(wanted("1500.5 JPY"), "JPY has 0 decimals at most");
        assert_eq!(wanted("39.90"), WANTED);
        assert_eq!(wanted("39.90 eur"), "write the currency in capitals: EUR");
        assert!(wanted("39,90 EUR").contains("decimal point"));
        assert!(wanted("1,234.50 EUR").contains("decimal point"));
        assert!(wanted("-1 EUR").contains("0 or more"));
        assert!(wanted("92233720368547758.08 EUR").contains("too large"));
        assert!(wanted("1 €").contains("three capital letters"));
    }

    #[test]
    fn money_reads_back_as_it_was_written() {
        for text in ["39.90 EUR", "0.07 EUR", "1500 JPY", "1.234 KWD", "0.0001 CLF"] {
            assert_eq!(from_text(text).map(|money| to_text(&money)), Ok(text.to_owned()));
        }
    }
}
