//! Which parts a record speaks of.

use sprag_engine::explain;
use sprag_engine::fit::book::{Selector, Wanted};
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{AttributeSpec, Form, KINDS, Kind, Part};
use sprag_proto::text::gtin14;
use sprag_proto::v1 as pb;

use super::text::{Checker, quoted};

const TRAITS_MAX: usize = 8;
const KEYS_MAX: usize = 16;

/// A maker and its part number as they are compared: blanks, dashes and case do not matter.
pub(crate) fn maker_number(number: &pb::MakerPartNumber) -> (String, String) {
    let folded = number
        .number
        .chars()
        .filter(|letter| letter.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect();
    (number.brand_id.trim().to_lowercase(), folded)
}

/// The kind with a name.
pub fn kind(field: &str, name: &str, checker: &mut Checker) -> Option<Kind> {
    let judged = |name: &str| Kind::named(name).filter(|kind| *kind != Kind::Use);
    checker.one_of(field, name, "a kind of part", judged, KINDS.iter().map(|spec| spec.name))
}

/// The attribute of a kind with a name, with or without its unit.
pub fn attribute(
    field: &str,
    kind: Kind,
    name: &str,
    checker: &mut Checker,
) -> Option<&'static AttributeSpec> {
    let specs = kind.spec().attributes;
    let find = |name: &str| specs.iter().find(|spec| spec.attribute.name() == name || spec.field == name);
    let wanted = format!("an attribute of a {}", kind.label());
    checker.one_of(field, name, &wanted, find, specs.iter().map(|spec| spec.attribute.name()))
}

/// Reads a selector.
pub fn read(
    field: &str,
    found: Option<&pb::PartSelector>,
    interfaces: &Interfaces,
    checker: &mut Checker,
) -> Option<Selector> {
    use pb::part_selector::Parts;
    match found.and_then(|found| found.parts.as_ref()) {
        None => {
            checker.fault(field, "nothing", "sku, gtin, maker_part or pattern");
            None
        }
        Some(Parts::Sku(sku)) => {
            checker.line(&format!("{field}.sku"), sku, 200).then(|| Selector::Sku(sku.clone()))
        }
        Some(Parts::Gtin(gtin)) => match gtin14(gtin) {
            Ok(gtin) => Some(Selector::Gtin(gtin)),
            Err(wanted) => {
                checker.fault(&format!("{field}.gtin"), &quoted(gtin), &wanted);
                None
            }
        },
        Some(Parts::MakerPart(number)) => {
            let brand = checker.line(&format!("{field}.maker_part.brand_id"), &number.brand_id, 100);
            let (maker, folded) = maker_number(number);
            if folded.is_empty() || number.number.chars().count() > 100 {
                checker.fault(
                    &format!("{field}.maker_part.number"),
                    &quoted(&number.number),
                    "1 to 100 characters",
                );
                return None;
            }
            brand.then_some(Selector::MakerPart(maker, folded))
        }
        Some(Parts::Pattern(pattern)) => {
            let path = format!("{field}.pattern");
            let kind = kind(&format!("{path}.kind"), &pattern.kind, checker)?;
            if pattern.traits.is_empty() {
                checker.fault(&format!("{path}.traits"), "none", "1 to 8: what the parts are");
            }
            let before = checker.count();
            let traits = traits(&path, kind, &pattern.traits, interfaces, checker);
            (checker.count() == before && !traits.is_empty()).then_some(Selector::Pattern(kind, traits))
        }
    }
}

/// Reads what attributes must be.
pub fn traits(
    path: &str,
    kind: Kind,
    found: &[pb::PatternTrait],
    interfaces: &Interfaces,
    checker: &mut Checker,
) -> Vec<Wanted> {
    if found.len() > TRAITS_MAX {
        checker.fault(&format!("{path}.traits"), &format!("{} of them", found.len()), "at most 8");
    }
    let mut wanted: Vec<Wanted> = Vec::new();
    for (index, one) in found.iter().enumerate().take(TRAITS_MAX) {
        let at = format!("{path}.traits[{index}]");
        let Some(spec) = attribute(&format!("{at}.attribute"), kind, &one.attribute, checker) else {
            continue;
        };
        if wanted.iter().any(|other| other.attribute == spec.attribute) {
            checker.fault(&format!("{at}.attribute"), &quoted(&one.attribute), "each attribute once");
            continue;
        }
        let ranges = match spec.form {
            Form::Integer => range(&at, spec, one, checker).into_iter().collect(),
            Form::List => {
                checker.fault(
                    &format!("{at}.attribute"),
                    &quoted(&one.attribute),
                    "an attribute that is not a list",
                );
                Vec::new()
            }
            _ => keys(&at, spec, one, interfaces, checker),
        };
        if !ranges.is_empty() {
            wanted.push(Wanted { attribute: spec.attribute, ranges });
        }
    }
    wanted.sort();
    wanted
}

fn range(
    at: &str,
    spec: &AttributeSpec,
    one: &pb::PatternTrait,
    checker: &mut Checker,
) -> Option<(i64, i64)> {
    let (least, most) = spec.hard;
    if !one.keys.is_empty() {
        checker.fault(&format!("{at}.keys"), "words", "low and high: this attribute is a number");
        return None;
    }
    if one.low.is_none() && one.high.is_none() {
        checker.fault(&format!("{at}.low"), "nothing", "low, high or both: this attribute is a number");
        return None;
    }
    let (low, high) = (one.low.unwrap_or(least), one.high.unwrap_or(most));
    if low > high || low < least || high > most {
        let wanted =
            format!("a range within {}, the lower limit first", explain::range(least, most, spec.unit));
        checker.fault(&format!("{at}.low"), &explain::range(low, high, spec.unit), &wanted);
        return None;
    }
    Some((low, high))
}

fn keys(
    at: &str,
    spec: &AttributeSpec,
    one: &pb::PatternTrait,
    interfaces: &Interfaces,
    checker: &mut Checker,
) -> Vec<(i64, i64)> {
    let path = format!("{at}.keys");
    if one.low.is_some() || one.high.is_some() {
        checker.fault(&format!("{at}.low"), "a number", "keys: this attribute is no number");
    }
    if one.keys.is_empty() || one.keys.len() > KEYS_MAX {
        checker.fault(&path, &format!("{} of them", one.keys.len()), "1 to 16");
        return Vec::new();
    }
    let mut ranges: Vec<(i64, i64)> = Vec::new();
    for (index, text) in one.keys.iter().enumerate() {
        let path = format!("{path}[{index}]");
        let value = match spec.form {
            Form::Words(words) => {
                let find = |text: &str| words.iter().position(|word| *word == text);
                let wanted = format!("one of {}", words.join(", "));
                let found = checker.one_of(&path, text, &wanted, find, words.iter().copied());
                found.and_then(|index| i64::try_from(index).ok())
            }
            Form::Interface(class) => {
                let names = interfaces.of_class(class).map(|(_, known)| &*known.key);
                let find = |text: &str| interfaces.find(class, text);
                let wanted = format!("a key of class {class}");
                checker.one_of(&path, text, &wanted, find, names).map(|key| i64::from(key.0))
            }
            Form::Flag => {
                let find = |text: &str| ["false", "true"].iter().position(|word| *word == text);
                let found = checker.one_of(&path, text, "true or false", find, ["true", "false"].into_iter());
                found.and_then(|index| i64::try_from(index).ok())
            }
            _ => checker.line(&path, text, 100).then(|| Part::key_of(text)),
        };
        ranges.extend(value.map(|value| (value, value)));
    }
    ranges.sort_unstable();
    ranges.dedup();
    ranges
}
