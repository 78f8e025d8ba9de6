//! Days of the calendar, for what counts from one day to another.

use std::fmt;

/// A day of the Gregorian calendar, from 0001-01-01 to 9999-12-31.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

impl Date {
    /// The first day of the count that computers keep.
    pub const EPOCH: Self = Self { year: 1970, month: 1, day: 1 };

    /// A day as ISO 8601 writes it, "2026-11-25"; `None` for anything else and for days that do not exist.
    pub fn parse(text: &str) -> Option<Self> {
        let digits = |range: std::ops::Range<usize>| {
            let part = text.get(range)?;
            part.bytes().all(|byte| byte.is_ascii_digit()).then(|| part.parse::<u16>().ok())?
        };
        let dashes = text.len() == 10 && text.get(4..5) == Some("-") && text.get(7..8) == Some("-");
        let (year, month, day) = (digits(0..4)?, digits(5..7)?, digits(8..10)?);
        let (month, day) = (u8::try_from(month).ok()?, u8::try_from(day).ok()?);
        let exists = year > 0 && (1..=12).contains(&month) && (1..=days_in(year, month)).contains(&day);
        (dashes && exists).then_some(Self { year, month, day })
    }

    /// The day of a moment in seconds since 1970-01-01 UTC; moments before it, or after the year 9999, are the nearest day
    /// that there is.
    pub fn of_unix(seconds: i64) -> Self {
        let mut days = seconds.max(0) / 86_400;
        let mut year = 1970_u16;
        loop {
            let length = if is_leap(year) { 366 } else { 365 };
            if days < length {
                break;
            }
            if year == 9999 {
                return Self { year, month: 12, day: 31 };
            }
            days -= length;
            year += 1;
        }
        let mut month = 1_u8;
        while days >= i64::from(days_in(year, month)) {
            days -= i64::from(days_in(year, month));
            month += 1;
        }
        // What is left is less than a month.
        Self { year, month, day: u8::try_from(days).unwrap_or(0) + 1 }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

const fn is_leap(year: u16) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

const fn days_in(year: u16, month: u8) -> u8 {
    match month {
        2 if is_leap(year) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_fall_on_the_days_of_the_civil_calendar() {
        // Seconds since the epoch of well-known moments: the billionth second, the last second of 32-bit clocks, and
        // both sides of a leap day in a year that a hundred divides. Source: the civil calendar, computed.
        let days = [
            (0, "1970-01-01"),
            (86_399, "1970-01-01"),
            (951_782_400, "2000-02-29"),
            (951_868_800, "2000-03-01"),
            (1_000_000_000, "2001-09-09"),
            (2_147_483_647, "2038-01-19"),
            (4_107_542_399, "2100-02-28"),
            (4_107_542_400, "2100-03-01"),
            (i64::MAX, "9999-12-31"),
            (-1, "1970-01-01"),
        ];
        for (seconds, day) in days {
            assert_eq!(Date::of_unix(seconds).to_string(), day);
            assert_eq!(Date::parse(day), Some(Date::of_unix(seconds)));
        }
    }

    #[test]
    fn only_days_that_exist_are_read() {
        for text in [
            "",
            "2026-1-2",
            "2026-02-29",
            "2100-02-29",
            "2026-13-01",
            "2026-00-10",
            "0000-01-01",
            "26-11-25",
            "2026/11/25",
            "2026-11-25 ",
            "+026-11-25",
            "2026-11-2x",
            "２０２６-11-25",
        ] {
            assert_eq!(Date::parse(text), None, "{text}");
        }
        assert!(Date::parse("2024-02-29") < Date::parse("2024-03-01"));
    }
}
