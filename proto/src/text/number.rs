//! Numbers: one, one of several, between two, or none.

use serde_json::{Map, Value as Json};

use super::decimal::{Decimal, Unfit};
use super::dictionary::{Attribute, Written};
use super::fault::{Wrong, quoted};
use super::hints;
use super::scalar::{VALUES_MAX, describe, origin_of, unknown_member};
use super::units::{Measure, Quantity, quantity};
use crate::v1::{Absent, IntegerList, IntegerRange, IntegerValue, Origin, Unit, integer_value::Set};

/// How the numbers of one field are to be read.
#[derive(Clone, Copy)]
pub(crate) struct Reader<'a> {
    /// Name of the field without its unit.
    pub base: &'a str,
    pub unit: Unit,
    pub written: Written,
    /// Values outside are refused.
    pub hard: Option<(i64, i64)>,
}

impl<'a> Reader<'a> {
    pub fn of(attribute: &'a Attribute, written: Written) -> Self {
        Self { base: &attribute.base, unit: attribute.unit, written, hard: Some(attribute.hard) }
    }

    fn quantity(self) -> &'static Quantity {
        quantity(self.unit)
    }

    /// The measure of a number that stands alone.
    fn alone(self) -> Option<&'static Measure> {
        match self.written {
            Written::Declared => Some(self.quantity().own),
            Written::With(measure) => Some(measure),
            Written::Bare => self.quantity().bare,
        }
    }

    /// One number, as a JSON number or as text.
    pub fn scalar(self, value: &Json) -> Result<i64, Wrong> {
        match value {
            Json::Number(number) => self.alone_number(&number.to_string()),
            Json::String(text) => self.text(text, None),
            other => Err(Wrong::new(describe(other), self.wanted())),
        }
    }

    /// One number in text, with or without its unit; `unit` is what a number without one takes from its neighbour.
    pub fn text(self, text: &str, unit: Option<&'static Measure>) -> Result<i64, Wrong> {
        let text = text.trim();
        let (digits, spelling) = split_unit(text);
        if hints::asks_for_cogs(self.base) && !spelling.is_empty() {
            return Err(hints::cog_count(
                text,
                Decimal::parse(digits).and_then(|number| number.scaled(1, 1, false).ok()),
            ));
        }
        if digits.is_empty() {
            return Err(Wrong::new(quoted(text), self.wanted()));
        }
        let Some(number) = Decimal::parse(digits) else {
            return self.fraction_or_fault(text, digits, spelling);
        };
        let measure = match (spelling, unit) {
            ("", None) => return self.alone_number(digits),
            ("", Some(measure)) => measure,
            _ => self.measure(text, spelling)?,
        };
        self.units(text, number, measure)
    }

    /// The measure that stands after a number; it must not contradict the name of the field.
    fn measure(self, text: &str, spelling: &str) -> Result<&'static Measure, Wrong> {
        let quantity = self.quantity();
        let measure = quantity.called(spelling).ok_or_else(|| quantity.strange_unit(text, spelling))?;
        match (self.written, self.alone()) {
            (Written::Bare, _) => Ok(measure),
            (_, Some(named)) if named == measure => Ok(measure),
            (_, Some(named)) => {
                let wanted = format!(
                    "the name of the field says {}: write that, or call the field {}",
                    named.word, self.base
                );
                Err(Wrong::new(quoted(text), wanted))
            }
            (_, None) => Ok(measure),
        }
    }

    fn alone_number(self, digits: &str) -> Result<i64, Wrong> {
        let measure = self.alone().ok_or_else(|| self.quantity().say_unit(self.base, digits))?;
        let number = Decimal::parse(digits).ok_or_else(|| {
            Wrong::new(format!("number {digits}"), format!("it is too large or too long; {}", self.wanted()))
        })?;
        self.units(digits, number, measure)
    }

    fn units(self, text: &str, number: Decimal, measure: &Measure) -> Result<i64, Wrong> {
        let quantity = self.quantity();
        let own = if quantity.own.word.is_empty() { "units" } else { quantity.own.word };
        let value = measure.units(number).map_err(|unfit| match unfit {
            Unfit::NotWhole => Wrong::new(quoted(text), format!("give a whole number of {own}")),
            Unfit::TooLarge => Wrong::new(quoted(text), format!("it is too large; {}", self.wanted())),
        })?;
        self.in_range(value)
    }

    fn in_range(self, value: i64) -> Result<i64, Wrong> {
        match self.hard {
            Some((low, high)) if !(low..=high).contains(&value) => {
                if hints::asks_for_cogs(self.base) && value > high {
                    return Err(hints::cog_count(&value.to_string(), Some(value)));
                }
                let range = self.quantity().range((low, high));
                Err(Wrong::new(self.quantity().human(value), format!("outside the possible range: {range}")))
            }
            _ => Ok(value),
        }
    }

    fn fraction_or_fault(self, text: &str, digits: &str, spelling: &str) -> Result<i64, Wrong> {
        let measure = if spelling.is_empty() { self.alone() } else { Some(self.measure(text, spelling)?) };
        if let (Some(measure), Some(number)) = (measure, Decimal::fraction(digits))
            && measure.suffix == "in"
        {
            return self.units(text, number, measure);
        }
        let wrong = Wrong::new(quoted(text), self.wanted());
        let comma = digits.replacen(',', ".", 1);
        if digits.contains(',') && Decimal::parse(&comma).is_some() {
            return Err(Wrong::new(quoted(text), "write a decimal point").near(text.replacen(',', ".", 1)));
        }
        match digits.get(1..).and_then(|rest| rest.find('-')).map(|at| at + 1) {
            Some(at) => {
                let range =
                    format!("{}..{}", digits.get(..at).unwrap_or(""), digits.get(at + 1..).unwrap_or(""));
                Err(Wrong::new(quoted(text), "write a range with two dots")
                    .near(format!("{range} {spelling}").trim_end()))
            }
            None => Err(wrong),
        }
    }

    /// What a number of this field looks like, in one clause.
    pub fn wanted(self) -> String {
        let unit = self.alone().unwrap_or(self.quantity().human).word;
        let unit = if unit.is_empty() { String::new() } else { format!(" of {unit}") };
        match self.hard {
            Some(range) => format!("give a number{unit}, from {}", self.quantity().range(range)),
            None => format!("give a number{unit}"),
        }
    }

    /// What is known of a number; `None` = not set.
    pub fn value(self, value: &Json) -> Result<Option<IntegerValue>, Wrong> {
        let exactly = |set| Ok(Some(IntegerValue { set: Some(set), origin: 0 }));
        match value {
            Json::Null => Ok(None),
            Json::Number(_) => exactly(Set::Exact(self.scalar(value)?)),
            Json::String(text) => self.set_text(text),
            Json::Array(items) => exactly(Set::OneOf(self.one_of(items)?)),
            Json::Object(members) => self.object(members).map(Some),
            Json::Bool(_) => Err(Wrong::new(describe(value), self.wanted())),
        }
    }

    fn one_of(self, items: &[Json]) -> Result<IntegerList, Wrong> {
        if items.is_empty() || items.len() > VALUES_MAX {
            let found = format!("a list of {}", items.len());
            return Err(Wrong::new(found, format!("give 1 to {VALUES_MAX} values, one of which is right")));
        }
        Ok(IntegerList { values: items.iter().map(|item| self.scalar(item)).collect::<Result<_, _>>()? })
    }

    fn set_text(self, text: &str) -> Result<Option<IntegerValue>, Wrong> {
        let Some((text, origin)) = known_text(text)? else { return Ok(None) };
        let set = if is_absent(text) {
            Set::Absent(Absent {})
        } else if let Some((low, high)) = text.split_once("..") {
            Set::Between(self.between(text, low, high)?)
        } else if text.contains('|') {
            let pieces: Vec<&str> = text.split('|').collect();
            if pieces.len() > VALUES_MAX {
                return Err(Wrong::new(quoted(text), format!("give at most {VALUES_MAX} values")));
            }
            let unit = self.shared_unit(text, pieces.last().copied())?;
            let values = pieces.into_iter().map(|piece| self.text(piece, unit)).collect::<Result<_, _>>()?;
            Set::OneOf(IntegerList { values })
        } else {
            Set::Exact(self.text(text, None)?)
        };
        Ok(Some(IntegerValue { set: Some(set), origin: origin.into() }))
    }

    fn between(self, text: &str, low: &str, high: &str) -> Result<IntegerRange, Wrong> {
        let unit = self.shared_unit(text, Some(high))?;
        self.ordered(self.text(low, unit)?, self.text(high, unit)?)
    }

    fn ordered(self, low: i64, high: i64) -> Result<IntegerRange, Wrong> {
        if low > high {
            let quantity = self.quantity();
            let found = format!("{} to {}", quantity.number(low), quantity.human(high));
            return Err(Wrong::new(found, "give the lower value first"));
        }
        Ok(IntegerRange { low, high })
    }

    /// The unit after the last number holds for those before it that have none: "31.5..32.8 mm".
    fn shared_unit(self, text: &str, last: Option<&str>) -> Result<Option<&'static Measure>, Wrong> {
        match split_unit(last.unwrap_or("").trim()).1 {
            "" => Ok(None),
            _ if hints::asks_for_cogs(self.base) => Ok(None),
            spelling => self.measure(text, spelling).map(Some),
        }
    }

    /// The form of the wire: {"exact": 1} and its like, with numbers in the declared unit.
    fn object(self, members: &Map<String, Json>) -> Result<IntegerValue, Wrong> {
        if self.written != Written::Declared && !self.quantity().own.suffix.is_empty() {
            let name = format!("{}_{}", self.base, self.quantity().own.suffix);
            let found = "an object under a name without the declared unit";
            return Err(Wrong::new(
                found,
                format!("the object form counts {}: call the field {name}", self.quantity().own.word),
            ));
        }
        let mut read = IntegerValue::default();
        let mut sets = 0;
        for (name, value) in members.iter().filter(|(_, value)| !value.is_null()) {
            sets += usize::from(name != "origin");
            match (name.as_str(), value) {
                ("origin", value) => read.origin = origin_of(value)?.into(),
                ("exact", value) => read.set = Some(Set::Exact(self.scalar(value)?)),
                ("absent", Json::Object(_)) => read.set = Some(Set::Absent(Absent {})),
                ("between", Json::Object(range)) => read.set = Some(Set::Between(self.range_object(range)?)),
                ("oneOf" | "one_of", Json::Array(items)) => read.set = Some(Set::OneOf(self.one_of(items)?)),
                ("oneOf" | "one_of", Json::Object(list)) => match list.get("values") {
                    Some(Json::Array(items)) if list.len() == 1 => {
                        read.set = Some(Set::OneOf(self.one_of(items)?))
                    }
                    _ => {
                        return Err(Wrong::new(
                            "an object without its list",
                            "write {\"oneOf\": {\"values\": [1, 2]}}",
                        ));
                    }
                },
                _ => {
                    return Err(unknown_member(
                        name,
                        value,
                        &["exact", "oneOf", "between", "absent", "origin"],
                    ));
                }
            }
        }
        one_member(sets, "exact, oneOf, between and absent")?;
        Ok(read)
    }

    fn range_object(self, range: &Map<String, Json>) -> Result<IntegerRange, Wrong> {
        let [low, high] = ["low", "high"].map(|name| range.get(name).unwrap_or(&Json::Null));
        if range.len() > 2 || low.is_null() || high.is_null() {
            return Err(Wrong::new(
                "a range without its limits",
                "write {\"between\": {\"low\": 1, \"high\": 2}}",
            ));
        }
        self.ordered(self.scalar(low)?, self.scalar(high)?)
    }
}

/// Refuses none or several of the members that exclude each other.
pub(crate) fn one_member(count: usize, names: &str) -> Result<(), Wrong> {
    match count {
        1 => Ok(()),
        0 => Err(Wrong::new("an object without a value", format!("give one of {names}"))),
        _ => Err(Wrong::new("several values at once", format!("give only one of {names}"))),
    }
}

/// The text of a value without the mark for "inferred"; `None` = not known.
pub(crate) fn known_text(text: &str) -> Result<Option<(&str, Origin)>, Wrong> {
    let trimmed = text.trim();
    if trimmed.is_empty() || trimmed.eq_ignore_ascii_case("unknown") {
        return Ok(None);
    }
    match trimmed.strip_suffix('?').map(str::trim_end) {
        None => Ok(Some((trimmed, Origin::Unspecified))),
        Some("") => Err(Wrong::new(
            "\"?\"",
            "put the inferred value before the question mark, or leave the field out",
        )),
        Some(rest) if rest.eq_ignore_ascii_case("unknown") => Ok(None),
        Some(rest) => Ok(Some((rest, Origin::Inferred))),
    }
}

/// Whether a text says that the part has no such thing.
pub(crate) fn is_absent(text: &str) -> bool {
    text.eq_ignore_ascii_case("none") || text.eq_ignore_ascii_case("absent")
}

/// The number at the start of a text, and what follows it.
fn split_unit(text: &str) -> (&str, &str) {
    let end = text.find(|character: char| !matches!(character, '0'..='9' | '.' | ',' | '-' | '+' | '/'));
    let (digits, rest) = text.split_at(end.unwrap_or(text.len()));
    let kept = digits.trim_end_matches('-');
    // "21-speed": the dash belongs to the word.
    if kept.is_empty() || rest.is_empty() { (digits, rest.trim()) } else { (kept, rest.trim()) }
}
