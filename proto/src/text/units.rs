//! Units: what the integers count, and the other ways to write them.

use super::decimal::{Decimal, Unfit};
use super::fault::{Wrong, listed, quoted, shown};
use crate::v1::Unit;

/// One way to write a quantity: the written number times `times / over` is the attribute's integer.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Measure {
    /// Ending of a field name, without its underscore; empty = none.
    pub suffix: &'static str,
    /// As sentences write it.
    pub word: &'static str,
    /// Further spellings after a number, lower case, without spaces.
    spellings: &'static [&'static str],
    times: i128,
    over: i128,
    /// The result is rounded to the nearest integer; otherwise it must be whole.
    rounds: bool,
}

const fn exact(
    suffix: &'static str,
    word: &'static str,
    spellings: &'static [&'static str],
    times: i128,
) -> Measure {
    Measure { suffix, word, spellings, times, over: 1, rounds: false }
}

/// What the integers of an attribute count.
#[derive(Debug)]
pub(crate) struct Quantity {
    /// As the field names it; its suffix is empty for plain counts.
    pub own: &'static Measure,
    /// As people write it.
    pub human: &'static Measure,
    /// What a number without any unit means, where that is clear.
    pub bare: Option<&'static Measure>,
    /// Every way to write it.
    pub measures: &'static [Measure],
}

/// Micrometres. One inch is 25.4 mm exactly.
static LENGTH: [Measure; 4] = [
    exact("mm", "mm", &[], 1000),
    exact("um", "um", &["µm", "μm"], 1),
    exact("cm", "cm", &[], 10_000),
    Measure {
        suffix: "in",
        word: "in",
        spellings: &["inch", "inches", "\""],
        times: 25_400,
        over: 1,
        rounds: true,
    },
];
static MASS: [Measure; 2] = [exact("g", "g", &["gram", "grams"], 1), exact("kg", "kg", &[], 1000)];
static HEAVY: [Measure; 1] = [exact("kg", "kg", &[], 1)];
static RATIO: [Measure; 2] = [exact("", "", &[], 1000), exact("permille", "permille", &["‰"], 1)];
static TORQUE: [Measure; 1] = [exact("nm", "N m", &["nm", "n·m"], 1)];
/// Kilopascals. One pound-force per square inch is 6.894757293168 kPa.
static PRESSURE: [Measure; 3] = [
    exact("kpa", "kPa", &[], 1),
    exact("bar", "bar", &[], 100),
    Measure {
        suffix: "psi",
        word: "psi",
        spellings: &[],
        times: 6_894_757_293_168,
        over: 1_000_000_000_000,
        rounds: true,
    },
];
static SPEED: [Measure; 1] = [exact("kmh", "km/h", &["kmh"], 1)];
static ANGLE: [Measure; 2] = [exact("deg", "degrees", &["degree", "°"], 1000), exact("mdeg", "mdeg", &[], 1)];
static COUNT: [Measure; 1] = [exact("", "", &[], 1)];
static TEETH: [Measure; 1] = [exact("", "teeth", &["t", "tooth"], 1)];
static LINKS: [Measure; 1] = [exact("", "links", &["link"], 1)];

/// A quantity that must be written with its unit.
const fn named(measures: &'static [Measure], own: usize) -> Quantity {
    Quantity { own: &measures[own], human: &measures[0], bare: None, measures }
}

/// A quantity for which a number alone is clear.
const fn plain(measures: &'static [Measure], own: usize) -> Quantity {
    Quantity { own: &measures[own], human: &measures[0], bare: Some(&measures[0]), measures }
}

static LENGTH_Q: Quantity = named(&LENGTH, 1);
static MASS_Q: Quantity = named(&MASS, 0);
static HEAVY_Q: Quantity = named(&HEAVY, 0);
static RATIO_Q: Quantity = plain(&RATIO, 1);
static TORQUE_Q: Quantity = named(&TORQUE, 0);
static PRESSURE_Q: Quantity = named(&PRESSURE, 0);
static SPEED_Q: Quantity = named(&SPEED, 0);
static ANGLE_Q: Quantity = named(&ANGLE, 1);
static COUNT_Q: Quantity = plain(&COUNT, 0);
static TEETH_Q: Quantity = plain(&TEETH, 0);
static LINKS_Q: Quantity = plain(&LINKS, 0);

/// What the dictionary's unit means in text; a plain count where it names none.
pub(crate) fn quantity(unit: Unit) -> &'static Quantity {
    match unit {
        Unit::Unspecified | Unit::Count => &COUNT_Q,
        Unit::Teeth => &TEETH_Q,
        Unit::Micrometre => &LENGTH_Q,
        Unit::Gram => &MASS_Q,
        Unit::Permille => &RATIO_Q,
        Unit::Link => &LINKS_Q,
        Unit::Kilopascal => &PRESSURE_Q,
        Unit::NewtonMetre => &TORQUE_Q,
        Unit::KilometrePerHour => &SPEED_Q,
        Unit::Kilogram => &HEAVY_Q,
        Unit::Millidegree => &ANGLE_Q,
    }
}

/// The unit that the ending of a field name tells, for fields that are no attributes.
pub(crate) fn unit_of_name(field: &str) -> Unit {
    let units = [
        Unit::Micrometre,
        Unit::Kilogram,
        Unit::Gram,
        Unit::Permille,
        Unit::Kilopascal,
        Unit::NewtonMetre,
        Unit::KilometrePerHour,
        Unit::Millidegree,
    ];
    let ends = |unit: &Unit| base_name(field, *unit) != field;
    units.into_iter().find(ends).unwrap_or(Unit::Unspecified)
}

/// The name of a field without the ending for its unit.
pub(crate) fn base_name(field: &str, unit: Unit) -> &str {
    let suffix = quantity(unit).own.suffix;
    let base = field.strip_suffix(suffix).and_then(|rest| rest.strip_suffix('_'));
    base.filter(|base| !suffix.is_empty() && !base.is_empty()).unwrap_or(field)
}

impl Measure {
    /// Whether this spelling after a number means this measure.
    fn is_called(&self, spelling: &str) -> bool {
        spelling == self.suffix || spelling == self.word.to_lowercase() || self.spellings.contains(&spelling)
    }

    /// The number of units, or what is wrong with it.
    pub fn units(&self, number: Decimal) -> Result<i64, Unfit> {
        number.scaled(self.times, self.over, self.rounds)
    }
}

impl Quantity {
    /// The measure that a spelling after a number means.
    pub fn called(&self, spelling: &str) -> Option<&'static Measure> {
        let folded: String = spelling.to_lowercase().split_whitespace().collect();
        self.measures.iter().find(|measure| !folded.is_empty() && measure.is_called(&folded))
    }

    /// An integer of this quantity as people write it, without its unit.
    pub fn number(&self, value: i64) -> String {
        let times = self.human.times.unsigned_abs();
        let (whole, rest) =
            (u128::from(value.unsigned_abs()) / times, u128::from(value.unsigned_abs()) % times);
        let sign = if value < 0 { "-" } else { "" };
        if rest == 0 {
            return format!("{sign}{whole}");
        }
        let width = times.ilog10() as usize;
        let fraction = format!("{rest:0width$}");
        format!("{sign}{whole}.{}", fraction.trim_end_matches('0'))
    }

    /// An integer of this quantity as people write it, with its unit.
    pub fn human(&self, value: i64) -> String {
        format!("{} {}", self.number(value), self.human.word).trim_end().to_owned()
    }

    /// A range as people write it: "28 to 40 mm".
    pub fn range(&self, (low, high): (i64, i64)) -> String {
        format!("{} to {}", self.number(low), self.human(high))
    }

    /// What to write for a number without a unit: the endings of the field name, or the unit after the number.
    pub fn say_unit(&self, base: &str, written: &str) -> Wrong {
        let suffixes: Vec<String> =
            self.measures.iter().map(|measure| format!("{base}_{}", measure.suffix)).collect();
        let names = listed(suffixes.iter().map(String::as_str));
        let example = format!("{} {}", shown(written), self.human.word);
        Wrong::new(
            format!("{} without a unit", shown(written)),
            format!("name the unit: use {names}, or write \"{example}\""),
        )
    }

    /// Says that a unit is none of this quantity.
    pub fn strange_unit(&self, written: &str, spelling: &str) -> Wrong {
        let words: Vec<&str> =
            self.measures.iter().map(|measure| measure.word).filter(|word| !word.is_empty()).collect();
        let wanted = match words.is_empty() {
            true => "give a plain number, with nothing after it".to_owned(),
            false => format!("give a number with one of these units: {}", listed(words)),
        };
        Wrong::new(quoted(written), format!("\"{}\" is no unit of it: {wanted}", shown(spelling)))
    }
}

/// An integer of the dictionary as people write it: 34900 micrometres are "34.9 mm", 1700 permille "1.7".
pub fn human(unit: Unit, value: i64) -> String {
    quantity(unit).human(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn integers_read_as_people_write_them() {
        assert_eq!(human(Unit::Micrometre, 34_900), "34.9 mm");
        assert_eq!(human(Unit::Micrometre, -3_000), "-3 mm");
        assert_eq!(human(Unit::Micrometre, i64::MIN), "-9223372036854775.808 mm");
        assert_eq!(human(Unit::Permille, 1_700), "1.7");
        assert_eq!(human(Unit::Teeth, 11), "11 teeth");
        assert_eq!(human(Unit::Millidegree, 2_050), "2.05 degrees");
        assert_eq!(quantity(Unit::Micrometre).range((28_000, 40_000)), "28 to 40 mm");
    }

    #[test]
    fn names_tell_their_unit() {
        assert_eq!(unit_of_name("roll_out_um"), Unit::Micrometre);
        assert_eq!(unit_of_name("system_mass_kg"), Unit::Kilogram);
        assert_eq!(unit_of_name("quantity"), Unit::Unspecified);
        assert_eq!(base_name("required_length_um", Unit::Micrometre), "required_length");
        assert_eq!(base_name("cogs", Unit::Teeth), "cogs");
    }

    /// Conversion factors as the SI brochure and its national guides publish them: 1 bar = 100 kPa,
    /// 1 psi = 6.894 757 kPa.
    #[test]
    fn pressures_convert() {
        let quantity = quantity(Unit::Kilopascal);
        let kpa = |text: &str, unit: &str| {
            let measure = quantity.called(unit)?;
            measure.units(Decimal::parse(text)?).ok()
        };
        assert_eq!(kpa("5.5", "bar"), Some(550));
        assert_eq!(kpa("85", "psi"), Some(586));
        assert_eq!(kpa("100", "PSI"), Some(689));
        assert_eq!(kpa("500", "kPa"), Some(500));
        assert_eq!(kpa("5.555", "bar"), None);
    }
}
