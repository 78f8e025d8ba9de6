//! What can be wrong with the numbers that are handed in.

use std::fmt;

/// One thing wrong with an input: which one, what was found, what is allowed.
///
/// `field` is the path of the input inside the question, such as `cogs[3]` or `hill.mass_kg`.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Fault {
    /// The list has no entries.
    Empty {
        /// Path of the input.
        field: String,
    },
    /// The list, or the product of the lists, is longer than is answered.
    TooMany {
        /// Path of the input.
        field: String,
        /// Number of entries found.
        found: usize,
        /// Largest number answered.
        max: usize,
    },
    /// The number lies outside the allowed range, both ends of which are allowed.
    OutOfRange {
        /// Path of the input.
        field: String,
        /// The number found.
        found: f64,
        /// Smallest allowed.
        min: f64,
        /// Largest allowed.
        max: f64,
        /// Unit of the three numbers; empty if they have none.
        unit: &'static str,
    },
    /// The number is not finite.
    NotFinite {
        /// Path of the input.
        field: String,
    },
    /// The value occurs twice.
    Duplicate {
        /// Path of the input.
        field: String,
        /// The value that occurs again.
        value: String,
    },
    /// The list is not in rising order.
    Unordered {
        /// Path of the input.
        field: String,
        /// The list in the order that is right.
        sorted: String,
    },
    /// A text does not have the form that is read.
    Malformed {
        /// Path of the input.
        field: String,
        /// The text found, shortened.
        found: String,
        /// The form that is read.
        expected: &'static str,
    },
    /// An input is missing that another one asks for.
    Missing {
        /// Path of the input.
        field: String,
        /// The input that asks for it.
        needed_by: &'static str,
    },
}

/// Longest piece of a caller's text that a fault repeats, in characters.
const ECHO: usize = 40;

impl Fault {
    /// A text that is not of the form that is read; the text is shortened to 40 characters.
    pub(crate) fn malformed(field: &str, found: &str, expected: &'static str) -> Self {
        let found = found.chars().take(ECHO).flat_map(char::escape_debug).collect();
        Self::Malformed { field: field.into(), found, expected }
    }

    /// Path of the input at fault.
    #[must_use]
    pub fn field(&self) -> &str {
        match self {
            Self::Empty { field }
            | Self::TooMany { field, .. }
            | Self::OutOfRange { field, .. }
            | Self::NotFinite { field }
            | Self::Duplicate { field, .. }
            | Self::Unordered { field, .. }
            | Self::Malformed { field, .. }
            | Self::Missing { field, .. } => field,
        }
    }

    /// Short machine name of the kind of fault.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::Empty { .. } => "empty",
            Self::TooMany { .. } => "too-many",
            Self::OutOfRange { .. } => "out-of-range",
            Self::NotFinite { .. } => "not-finite",
            Self::Duplicate { .. } => "duplicate",
            Self::Unordered { .. } => "unordered",
            Self::Malformed { .. } => "malformed",
            Self::Missing { .. } => "missing",
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty { field } => write!(f, "{field}: empty; give at least one entry"),
            Self::TooMany { field, found, max } => write!(f, "{field}: {found} entries; at most {max}"),
            Self::OutOfRange { field, found, min, max, unit } => {
                let space = if unit.is_empty() { "" } else { " " };
                write!(f, "{field}: {found}{space}{unit}; allowed {min} to {max}{space}{unit}")
            }
            Self::NotFinite { field } => write!(f, "{field}: not a finite number"),
            Self::Duplicate { field, value } => write!(f, "{field}: {value} occurs twice"),
            Self::Unordered { field, sorted } => write!(f, "{field}: not in rising order; sorted: {sorted}"),
            Self::Malformed { field, found, expected } => {
                write!(f, "{field}: \"{found}\" is not read; expected {expected}")
            }
            Self::Missing { field, needed_by } => write!(f, "{field}: missing; {needed_by} needs it"),
        }
    }
}

impl std::error::Error for Fault {}

/// Collects the faults of one question, so that the caller sees all of them at once.
#[derive(Debug, Default)]
pub(crate) struct Faults(Vec<Fault>);

impl Faults {
    pub(crate) fn push(&mut self, fault: Fault) {
        self.0.push(fault);
    }

    /// Keeps the value of a good result and the faults of a bad one.
    pub(crate) fn take<T>(&mut self, result: Result<T, Vec<Fault>>) -> Option<T> {
        result.map_err(|mut faults| self.0.append(&mut faults)).ok()
    }

    /// Keeps the value of a good result and the single fault of a bad one.
    pub(crate) fn take_one<T>(&mut self, result: Result<T, Fault>) -> Option<T> {
        result.map_err(|fault| self.0.push(fault)).ok()
    }

    /// Checks that a whole number lies in `min..=max`.
    pub(crate) fn whole(&mut self, field: &str, found: u32, min: u32, max: u32, unit: &'static str) {
        if let Err(fault) = whole(field, found, min, max, unit) {
            self.push(fault);
        }
    }

    /// Checks that a real number is finite and lies in `min..=max`.
    pub(crate) fn real(&mut self, field: &str, found: f64, min: f64, max: f64, unit: &'static str) {
        if !found.is_finite() {
            self.push(Fault::NotFinite { field: field.into() });
        } else if found < min || found > max {
            self.push(Fault::OutOfRange { field: field.into(), found, min, max, unit });
        }
    }

    /// The value if nothing was collected, else everything that was.
    pub(crate) fn finish<T>(self, value: T) -> Result<T, Vec<Fault>> {
        if self.0.is_empty() { Ok(value) } else { Err(self.0) }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(crate) fn into_vec(self) -> Vec<Fault> {
        self.0
    }
}

/// The number if it lies in `min..=max`.
pub(crate) fn whole(field: &str, found: u32, min: u32, max: u32, unit: &'static str) -> Result<u32, Fault> {
    if (min..=max).contains(&found) {
        return Ok(found);
    }
    let (found, min, max) = (f64::from(found), f64::from(min), f64::from(max));
    Err(Fault::OutOfRange { field: field.into(), found, min, max, unit })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_what_where_and_what_would_be_right() {
        let fault = whole("stay", 12, 300, 1000, "mm").unwrap_err();
        assert_eq!(fault.to_string(), "stay: 12 mm; allowed 300 to 1000 mm");
        assert_eq!((fault.field(), fault.code()), ("stay", "out-of-range"));
    }

    #[test]
    fn echoes_no_more_than_a_short_piece_of_a_text() {
        let fault = Fault::malformed("tyre", &"9".repeat(10_000), "37-622");
        assert!(fault.to_string().len() < 100);
    }

    #[test]
    fn not_a_number_is_named_as_such() {
        let mut faults = Faults::default();
        faults.real("mass", f64::NAN, 0.0, 1.0, "kg");
        faults.real("mass", f64::INFINITY, 0.0, 1.0, "kg");
        assert!(faults.into_vec().iter().all(|fault| fault.code() == "not-finite"));
    }
}
