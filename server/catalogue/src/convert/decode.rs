//! Messages to engine parts, with all faults at once.

use sprag_engine::explain;
use sprag_engine::part::derive::derive;
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{Attribute, AttributeSpec, Form, Kind, Origin, Part, Set, Value};
use sprag_proto::text::{self, Fault, ambiguous, nearest};
use sprag_proto::v1 as pb;

use super::scalars;
use crate::records::{Aliases, Registry};

/// Most children in one field of a composite part.
const CHILDREN_MAX: usize = 3;

/// Reads a part, with no words but the keys of the interfaces. The path is where it stands in the request, such as
/// `build.parts[2].described`.
pub fn part(message: &pb::Part, path: &str, interfaces: &Interfaces) -> Result<Part, Vec<Fault>> {
    read(message, Reader::new(path, interfaces))
}

/// Reads a part in the words of the shop or, where one is named, of a supplier.
pub fn part_in(
    message: &pb::Part,
    path: &str,
    registry: &Registry,
    supplier: &str,
) -> Result<Part, Vec<Fault>> {
    let mut reader = Reader::new(path, &registry.interfaces);
    reader.aliases = Some((&registry.aliases, supplier));
    read(message, reader)
}

/// Reads a part that a caller describes, in the words of the shop, and gives it its marks.
pub fn described(message: &pb::Part, path: &str, registry: &Registry) -> Result<Part, Vec<Fault>> {
    let mut part = part_in(message, path, registry, "")?;
    // A stock number says that a part is the catalogue's article, which a description is not.
    part.sku = "".into();
    registry.mark(&mut part, message);
    Ok(part)
}

/// Puts the registry's keys in the place of the words of the shop, so that a stored part outlives its words.
pub fn translate(message: &mut pb::Part, registry: &Registry, supplier: &str) {
    if registry.aliases.is_empty() {
        return;
    }
    text::translate(message, &mut |kind, attribute, word| {
        let kind = Kind::named(kind)?;
        let spec = kind.spec().attributes.iter().find(|spec| spec.attribute.name() == attribute)?;
        let Form::Interface(class) = spec.form else { return None };
        if registry.interfaces.find(class, word).is_some() {
            return None;
        }
        let key = registry.aliases.find(kind, spec.attribute, supplier, word)?;
        Some(registry.interfaces.name(key).to_owned())
    });
}

fn read(message: &pb::Part, mut reader: Reader<'_>) -> Result<Part, Vec<Fault>> {
    match &message.kind {
        Some(kind) => scalars::read_kind(kind, &mut reader),
        None => reader.fault("", "nothing", "a kind, such as cassette", None),
    }
    if message.name.chars().count() > 200 {
        reader.fault("name", &format!("{} characters", message.name.chars().count()), "at most 200", None);
    }
    let mut part = reader.finish()?;
    part.sku = message.sku.as_str().into();
    part.name = message.name.as_str().into();
    Ok(part)
}

/// Reads how a bike is used; nothing given = nothing known.
pub fn usage(message: Option<&pb::Use>, path: &str, interfaces: &Interfaces) -> Result<Part, Vec<Fault>> {
    let mut reader = Reader::new(path, interfaces);
    scalars::read_use(message.unwrap_or(&pb::Use::default()), &mut reader);
    reader.finish()
}

/// Reads the attributes of one part, and of the parts that it brings along.
pub struct Reader<'a> {
    interfaces: &'a Interfaces,
    /// The shop's words, and whose words come first.
    aliases: Option<(&'a Aliases, &'a str)>,
    path: String,
    faults: Vec<Fault>,
    part: Part,
}

impl<'a> Reader<'a> {
    fn new(path: &str, interfaces: &'a Interfaces) -> Self {
        // The kind is set by the first reading function; none is read before it.
        let part = Part::new(Kind::Accessory);
        Self { interfaces, aliases: None, path: path.to_owned(), faults: Vec::new(), part }
    }

    fn finish(mut self) -> Result<Part, Vec<Fault>> {
        self.derive();
        if self.faults.is_empty() { Ok(self.part) } else { Err(self.faults) }
    }

    /// Starts a part of a kind.
    pub fn begin(&mut self, kind: Kind) {
        self.part = Part::new(kind);
    }

    /// Reads below a field.
    pub fn inside(&mut self, field: &str, read: impl FnOnce(&mut Self)) {
        let length = self.path.len();
        if !self.path.is_empty() {
            self.path.push('.');
        }
        self.path.push_str(field);
        read(self);
        self.derive();
        self.path.truncate(length);
    }

    /// Reads a child of a composite part.
    pub fn child(&mut self, field: &'static str, index: Option<usize>, read: impl FnOnce(&mut Self)) {
        // No article carries more of one child than a crankset has rings.
        if index.is_some_and(|index| index >= CHILDREN_MAX) {
            if index == Some(CHILDREN_MAX) {
                self.fault(field, "more of them", "at most 3", None);
            }
            return;
        }
        let parent = std::mem::replace(&mut self.part, Part::new(Kind::Accessory));
        let segment = index.map_or_else(|| field.to_owned(), |index| format!("{field}[{index}]"));
        self.inside(&segment, read);
        let child = std::mem::replace(&mut self.part, parent);
        self.part.add_child(field, child);
    }

    fn derive(&mut self) {
        for found in derive(&mut self.part) {
            let kind = self.part.kind;
            let spec = kind.attribute(found.attribute);
            let unit = spec.map_or(sprag_engine::part::Unit::Count, |spec| spec.unit);
            self.fault(
                spec.map_or("", |spec| spec.field),
                &explain::number(found.stated, unit),
                &format!("what the list or the other end says: {}", explain::number(found.listed, unit)),
                None,
            );
        }
    }

    fn fault(&mut self, field: &str, found: &str, wanted: &str, nearest: Option<String>) {
        let path = match (self.path.as_str(), field) {
            (path, "") => path.to_owned(),
            ("", field) => field.to_owned(),
            (path, field) => format!("{path}.{field}"),
        };
        self.faults.push(Fault { path, found: found.to_owned(), wanted: wanted.to_owned(), nearest });
    }

    fn spec(&self, attribute: Attribute) -> Option<&'static AttributeSpec> {
        self.part.kind.attribute(attribute)
    }

    fn put(&mut self, attribute: Attribute, set: Set, origin: i32) {
        self.part.set(attribute, Value { set, origin: read_origin(origin) });
    }

    /// A number is within the hard range of its attribute.
    fn in_range(&mut self, attribute: Attribute, field: &str, value: i64) -> bool {
        let Some(spec) = self.spec(attribute) else { return false };
        let (low, high) = spec.hard;
        let fine = (low..=high).contains(&value);
        if !fine {
            let wanted = explain::range(low, high, spec.unit);
            self.fault(field, &explain::number(value, spec.unit), &wanted, None);
        }
        fine
    }

    /// Reads a number.
    pub fn integer(&mut self, attribute: Attribute, field: &str, message: Option<&pb::IntegerValue>) {
        use pb::integer_value::Set as Wire;
        let Some(message) = message else { return };
        let set = match &message.set {
            None => return self.fault(field, "an empty value", "exact, one_of, between or absent", None),
            Some(Wire::Absent(_)) => Set::Absent,
            Some(Wire::Exact(value)) => {
                if !self.in_range(attribute, field, *value) {
                    return;
                }
                Set::Exact(*value)
            }
            Some(Wire::OneOf(list)) => {
                if list.values.is_empty() || list.values.len() > 64 {
                    return self.fault(
                        field,
                        &format!("{} values", list.values.len()),
                        "1 to 64 values",
                        None,
                    );
                }
                if !list.values.iter().all(|value| self.in_range(attribute, field, *value)) {
                    return;
                }
                Set::one_of(list.values.clone())
            }
            Some(Wire::Between(range)) => {
                if range.low > range.high {
                    let found = format!("low {} over high {}", range.low, range.high);
                    return self.fault(field, &found, "the lower limit first", None);
                }
                let fine =
                    self.in_range(attribute, field, range.low) && self.in_range(attribute, field, range.high);
                if !fine {
                    return;
                }
                Set::between(range.low, range.high)
            }
        };
        self.put(attribute, set, message.origin);
    }

    /// Reads a list.
    pub fn list(&mut self, attribute: Attribute, field: &str, message: Option<&pb::ListValue>) {
        let Some(message) = message else { return };
        let limit = if attribute == Attribute::Rings { 3 } else { 14 };
        if message.values.is_empty() || message.values.len() > limit {
            let wanted = format!("1 to {limit} values; leave the list out where it is not known");
            return self.fault(field, &format!("{} values", message.values.len()), &wanted, None);
        }
        if !message.values.iter().all(|value| self.in_range(attribute, field, *value)) {
            return;
        }
        let rising = attribute != Attribute::Rings;
        let in_order =
            message.values.windows(2).all(|pair| if rising { pair[0] < pair[1] } else { pair[0] > pair[1] });
        if !in_order {
            let mut sorted = message.values.clone();
            sorted.sort_unstable();
            sorted.dedup();
            if !rising {
                sorted.reverse();
            }
            let order = if rising { "rising" } else { "falling" };
            let wanted = format!("strictly {order}: {}", joined(&sorted));
            return self.fault(field, &joined(&message.values), &wanted, None);
        }
        self.put(attribute, Set::List(message.values.clone().into()), message.origin);
    }

    /// Reads a yes-or-no attribute.
    pub fn flag(&mut self, attribute: Attribute, field: &str, message: Option<&pb::FlagValue>) {
        let Some(message) = message else { return };
        match message.exact {
            Some(value) => self.put(attribute, Set::Exact(value.into()), message.origin),
            None => self.fault(field, "an empty value", "true or false", None),
        }
    }

    /// Reads a word, an interface key or a free text.
    pub fn key(&mut self, attribute: Attribute, field: &str, message: Option<&pb::KeyValue>) {
        use pb::key_value::Set as Wire;
        let Some(message) = message else { return };
        let set = match &message.set {
            None => return self.fault(field, "an empty value", "exact, one_of or absent", None),
            Some(Wire::Absent(_)) => Set::Absent,
            Some(Wire::Exact(text)) => match self.atom(attribute, field, text) {
                Some(value) => Set::Exact(value),
                None => return,
            },
            Some(Wire::OneOf(list)) => {
                if list.values.is_empty() || list.values.len() > 64 {
                    return self.fault(
                        field,
                        &format!("{} values", list.values.len()),
                        "1 to 64 values",
                        None,
                    );
                }
                let atoms: Vec<Option<i64>> =
                    list.values.iter().map(|text| self.atom(attribute, field, text)).collect();
                match atoms.into_iter().collect::<Option<Vec<i64>>>() {
                    Some(values) => Set::one_of(values),
                    None => return,
                }
            }
        };
        self.put(attribute, set, message.origin);
    }

    /// A word that is no key of a class: ambiguous, or misspelt.
    fn strange_key(&mut self, attribute: Attribute, class: &str, field: &str, text: &str) {
        if let Some(candidates) = ambiguous(attribute.name(), text) {
            let wanted = format!("this word means several things; write one of {}", candidates.join(", "));
            return self.fault(field, &quoted(text), &wanted, None);
        }
        let interfaces = self.interfaces;
        let keys: Vec<&str> = interfaces.of_class(class).map(|(_, known)| &*known.key).collect();
        let wanted = format!("a key of class {class}, or an alias of the shop: {}", keys.join(", "));
        self.fault(field, &quoted(text), &wanted, nearest(text, keys.iter().copied()));
    }

    /// The integer that stands for a word, key or text.
    fn atom(&mut self, attribute: Attribute, field: &str, text: &str) -> Option<i64> {
        let spec = self.spec(attribute)?;
        match spec.form {
            Form::Words(words) => {
                let found =
                    words.iter().position(|word| *word == text).and_then(|index| i64::try_from(index).ok());
                if found.is_none() {
                    let wanted = format!("one of {}", words.join(", "));
                    self.fault(field, &quoted(text), &wanted, nearest(text, words.iter().copied()));
                }
                found
            }
            Form::Interface(class) => {
                let own = || {
                    let (aliases, supplier) = self.aliases?;
                    aliases.find(self.part.kind, attribute, supplier, text)
                };
                let found = self.interfaces.find(class, text).or_else(own);
                if found.is_none() {
                    self.strange_key(attribute, class, field, text);
                }
                found.map(|key| i64::from(key.0))
            }
            _ if text.trim().is_empty() || text.chars().count() > 100 => {
                self.fault(
                    field,
                    &format!("{} characters", text.chars().count()),
                    "1 to 100 characters",
                    None,
                );
                None
            }
            _ => Some(self.part.free_key(text)),
        }
    }
}

fn read_origin(origin: i32) -> Origin {
    match pb::Origin::try_from(origin) {
        Ok(pb::Origin::Measured) => Origin::Measured,
        Ok(pb::Origin::Inferred) => Origin::Inferred,
        _ => Origin::Stated,
    }
}

fn quoted(text: &str) -> String {
    let short: String = text.chars().take(60).collect();
    format!("{short:?}")
}

fn joined(values: &[i64]) -> String {
    values.iter().map(ToString::to_string).collect::<Vec<_>>().join("-")
}
