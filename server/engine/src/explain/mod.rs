//! Facts and conclusions as sentences: the only place in the engine that renders text.

use crate::build::Assembly;
use crate::fit::book::{Level, Saying};
use crate::fit::check::{Finding, part_at};
use crate::fit::extras::ExtraPart;
use crate::fit::hear::Heard;
use crate::fit::rule::{Figure, Judgement};
use crate::fit::{Hazard, Outcome, Slot};
use crate::part::interface::{Interfaces, Key};
use crate::part::{Attribute, Form, Kind, Unit};

/// A number with its unit, as a mechanic would write it.
pub fn number(value: i64, unit: Unit) -> String {
    match unit {
        Unit::None | Unit::Count => value.to_string(),
        Unit::Teeth if value == 1 => "1 tooth".into(),
        Unit::Teeth => format!("{value} teeth"),
        Unit::Micrometres => format!("{} mm", thousandths(value)),
        Unit::Grams => format!("{value} g"),
        Unit::Permille => thousandths(value),
        Unit::Links => format!("{value} links"),
        Unit::Kilopascals => format!("{value} kPa"),
        Unit::NewtonMetres => format!("{value} N m"),
        Unit::KilometresPerHour => format!("{value} km/h"),
        Unit::Kilograms => format!("{value} kg"),
        Unit::Millidegrees => format!("{} degrees", thousandths(value)),
    }
}

/// Thousandths as a decimal without trailing zeros.
fn thousandths(value: i64) -> String {
    let sign = if value < 0 { "-" } else { "" };
    let (whole, rest) = (value.unsigned_abs() / 1000, value.unsigned_abs() % 1000);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let digits = format!("{rest:03}");
    format!("{sign}{whole}.{}", digits.trim_end_matches('0'))
}

/// A number that may not be known exactly.
pub fn figure(figure: &Figure) -> String {
    range(figure.low, figure.high, figure.unit)
}

/// A range with its unit once.
pub fn range(low: i64, high: i64, unit: Unit) -> String {
    if low == high {
        return number(low, unit);
    }
    let high_text = number(high, unit);
    let low_text = number(low, unit);
    let bare = low_text.split(' ').next().unwrap_or(&low_text);
    format!("{bare} to {high_text}")
}

/// Fills the placeholders of a text with the numbers of a judgement; a name that is not among them stays as it is.
pub fn fill(text: &str, judgement: &Judgement) -> String {
    let mut filled = text.to_owned();
    for found in judgement.figures() {
        filled = filled.replace(&format!("{{{}}}", found.name), &figure(found));
    }
    filled
}

/// The sentence of a finding.
pub fn finding(finding: &Finding, assembly: &Assembly) -> String {
    if let (Some(saying), Some(heard)) = (finding.decided_by(), &finding.heard) {
        return said(saying, heard, finding.outcome, assembly);
    }
    match finding.judgements.as_slice() {
        [] => missing(finding, assembly),
        [only] if only.reason.tolerated && finding.outcome == Outcome::DoesNotFit => {
            format!("over a limit that is held; in workshop practice: {}", fill(only.reason.text, only))
        }
        [only] => fill(only.reason.text, only),
        several => {
            let texts: Vec<String> = several.iter().map(|found| fill(found.reason.text, found)).collect();
            format!("depending on what is not known exactly: {}", texts.join("; or: "))
        }
    }
}

/// The sentence of a finding that a statement or ruling decides.
fn said(saying: &Saying, heard: &Heard, outcome: Outcome, assembly: &Assembly) -> String {
    let own = match saying.level {
        Level::Ruling => format!("by the shop's own decision: {}", saying.text),
        Level::Statement => {
            let says = match outcome {
                Outcome::DoesNotFit => "do not work together",
                Outcome::Caveat => "work together with a drawback",
                Outcome::ExtraPart => "work together with a further part",
                Outcome::Fits | Outcome::NotEnoughData => "work together",
            };
            format!("a maker states that the two {says}: {}", saying.text)
        }
    };
    match &heard.computed {
        Some(computed) if computed.outcome != outcome => {
            format!("{own}; without that: {}", finding(computed, assembly))
        }
        _ => own,
    }
}

fn missing(finding: &Finding, assembly: &Assembly) -> String {
    if finding.missing.is_empty() && finding.items.len() < finding.rule.slots.len() {
        let there = |slot: &Slot| {
            finding.items.iter().any(|place| slot.kinds().contains(&part_at(assembly, *place).kind))
        };
        let absent: Vec<String> =
            finding.rule.slots.iter().filter(|slot| !there(slot)).map(|slot| words(slot.name())).collect();
        return format!("cannot be judged without {}", absent.join(" and "));
    }
    if finding.missing.is_empty() {
        return "not known well enough to judge".into();
    }
    let wanted: Vec<String> = finding
        .missing
        .iter()
        .map(|(place, attribute)| {
            let part = part_at(assembly, *place);
            format!("{} of the {}", words(attribute.name()), part.kind.label())
        })
        .collect();
    format!("not known: {}", wanted.join(", "))
}

/// A code as words.
pub fn words(code: &str) -> String {
    code.replace(['_', '-'], " ")
}

/// The usual caution beside a finding.
pub fn caution(finding: &Finding) -> &'static str {
    // What could hurt by the rule keeps its caution, whatever a maker states or the shop has ruled.
    let computed = finding.heard.as_ref().and_then(|heard| heard.computed.as_ref());
    let worst = computed.map_or(finding.outcome, |computed| computed.outcome.max(finding.outcome));
    if worst == Outcome::Fits {
        return "";
    }
    match finding.hazard() {
        Hazard::Injury => {
            "someone can be hurt if this goes wrong: the part's own marking and its maker's instructions come first, have a qualified mechanic check it"
        }
        Hazard::Damage => "parts can be damaged: check by hand, slowly, before riding",
        Hazard::None => "",
    }
}

/// A value of an attribute, as text: words and keys by name, numbers with their unit.
pub fn value(kind: Kind, attribute: Attribute, value: i64, interfaces: &Interfaces) -> String {
    let Some(spec) = kind.attribute(attribute) else { return value.to_string() };
    match spec.form {
        Form::Integer | Form::List => number(value, spec.unit),
        Form::Flag => if value == 0 { "no" } else { "yes" }.to_owned(),
        Form::Words(words) => usize::try_from(value)
            .ok()
            .and_then(|index| words.get(index))
            .map_or_else(String::new, |word| (*word).to_owned()),
        Form::Interface(_) => {
            u16::try_from(value).map_or_else(|_| String::new(), |key| interfaces.name(Key(key)).to_owned())
        }
        Form::FreeKey => String::new(),
    }
}

/// An extra part in words: "cassette spacer of 1.85 mm".
pub fn extra_part(extra: &ExtraPart, interfaces: &Interfaces) -> String {
    let label = extra.kind.label();
    let traits: Vec<String> = extra
        .traits
        .iter()
        .map(|wanted| match (extra.kind, wanted.attribute) {
            (Kind::Spacer, Attribute::Thickness) => {
                format!("of {}", range(wanted.low, wanted.high, Unit::Micrometres))
            }
            _ => {
                let low = value(extra.kind, wanted.attribute, wanted.low, interfaces);
                let high = value(extra.kind, wanted.attribute, wanted.high, interfaces);
                let text = if low == high { low } else { format!("{low} to {high}") };
                format!("with {} {text}", words(wanted.attribute.name()))
            }
        })
        .collect();
    if traits.is_empty() { label.to_owned() } else { format!("{label} {}", traits.join(", ")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_a_mechanic_writes_them() {
        assert_eq!(number(1_850, Unit::Micrometres), "1.85 mm");
        assert_eq!(number(-150, Unit::Micrometres), "-0.15 mm");
        assert_eq!(number(34, Unit::Teeth), "34 teeth");
        assert_eq!(number(1_700, Unit::Permille), "1.7");
        assert_eq!(range(3_950, 5_250, Unit::Micrometres), "3.95 to 5.25 mm");
    }
}
