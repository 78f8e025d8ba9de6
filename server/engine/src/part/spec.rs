//! What the dictionary declares of kinds and attributes.

use super::dictionary::{Attribute, KINDS, Kind};

/// What the integers of an attribute count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Not a number: a word, a key or a flag.
    None,
    /// A plain count.
    Count,
    /// Teeth.
    Teeth,
    /// Thousandths of a millimetre.
    Micrometres,
    /// Grams.
    Grams,
    /// Thousandths.
    Permille,
    /// Links of 12.7 mm.
    Links,
    /// Kilopascals.
    Kilopascals,
    /// Newton metres.
    NewtonMetres,
    /// Kilometres per hour.
    KilometresPerHour,
    /// Kilograms.
    Kilograms,
    /// Thousandths of a degree.
    Millidegrees,
}

/// What the value of an attribute is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// A number.
    Integer,
    /// A list of numbers.
    List,
    /// Yes or no.
    Flag,
    /// One of these words.
    Words(&'static [&'static str]),
    /// A key of this class of the interface registry.
    Interface(&'static str),
    /// Any text.
    FreeKey,
}

/// One attribute of one kind.
#[derive(Debug)]
pub struct AttributeSpec {
    /// The attribute.
    pub attribute: Attribute,
    /// Field name on the wire.
    pub field: &'static str,
    /// What its value is.
    pub form: Form,
    /// What its integers count.
    pub unit: Unit,
    /// Values outside are rejected.
    pub hard: (i64, i64),
    /// Values outside are flagged.
    pub usual: (i64, i64),
    /// What a mechanic would ask.
    pub question: &'static str,
    /// How to find it out.
    pub measure: &'static str,
}

/// A child that a composite kind brings along.
#[derive(Debug)]
pub struct Child {
    /// Field name.
    pub name: &'static str,
    /// Its kind.
    pub kind: Kind,
}

/// One kind of part.
#[derive(Debug)]
pub struct KindSpec {
    /// The kind.
    pub kind: Kind,
    /// Field name on the wire: "rear_derailleur".
    pub name: &'static str,
    /// What the trade calls it.
    pub label: &'static str,
    /// Parts with the same place displace each other on a bike end; empty = several may be fitted.
    pub place: &'static str,
    /// Why it is not judged; empty = judged.
    pub not_judged: &'static str,
    /// Its attributes.
    pub attributes: &'static [AttributeSpec],
    /// Its children.
    pub children: &'static [Child],
}

impl Kind {
    /// What the dictionary declares of it.
    pub fn spec(self) -> &'static KindSpec {
        // The table is generated in the order of the enum; a test walks it.
        &KINDS[self as usize]
    }

    /// Field name on the wire.
    pub fn name(self) -> &'static str {
        self.spec().name
    }

    /// What the trade calls it.
    pub fn label(self) -> &'static str {
        self.spec().label
    }

    /// The kind with a field name.
    pub fn named(name: &str) -> Option<Self> {
        KINDS.iter().find(|spec| spec.name == name).map(|spec| spec.kind)
    }

    /// Place of an attribute in this kind.
    pub fn index_of(self, attribute: Attribute) -> Option<usize> {
        self.spec().attributes.iter().position(|spec| spec.attribute == attribute)
    }

    /// What the dictionary declares of an attribute of this kind.
    pub fn attribute(self, attribute: Attribute) -> Option<&'static AttributeSpec> {
        self.index_of(attribute).map(|index| &self.spec().attributes[index])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_in_the_order_of_the_enum() {
        for (index, spec) in KINDS.iter().enumerate() {
            assert_eq!(spec.kind as usize, index);
            assert_eq!(Kind::named(spec.name), Some(spec.kind));
        }
    }

    #[test]
    fn every_attribute_has_a_question_and_a_way_to_find_it_out() {
        for spec in KINDS.iter().flat_map(|kind| kind.attributes) {
            assert!(spec.question.ends_with('?'), "{:?}", spec.attribute);
            assert!(!spec.measure.is_empty(), "{:?}", spec.attribute);
        }
    }
}
