//! Parts: kinds, attributes, what is known of them, and the interfaces by which they join.

pub mod derive;
pub mod dictionary;
pub mod interface;
pub mod interfaces;
pub mod of;
pub mod spec;
pub mod units;
pub mod value;

pub use dictionary::{ATTRIBUTES, Attribute, KINDS, Kind, attr, word};
pub use spec::{AttributeSpec, Form, Unit};
pub use value::{Origin, Set, Value};

/// One article, or one part described by a caller.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Stock number; empty for a part that was described.
    pub sku: Box<str>,
    /// What a person would call it.
    pub name: Box<str>,
    /// What it is.
    pub kind: Kind,
    values: Box<[Value]>,
    marks: Box<[u32]>,
    /// Texts behind free keys, which are compared by their hash.
    texts: Vec<(i64, Box<str>)>,
    children: Vec<(&'static str, Part)>,
}

impl Part {
    /// A part of which nothing is known but its kind.
    pub fn new(kind: Kind) -> Self {
        Self {
            sku: "".into(),
            name: "".into(),
            kind,
            values: vec![Value::default(); kind.spec().attributes.len()].into(),
            marks: Box::default(),
            texts: Vec::new(),
            children: Vec::new(),
        }
    }

    /// What is known of an attribute; unknown where the kind has no such attribute.
    pub fn value(&self, attribute: Attribute) -> &Value {
        const UNKNOWN: &Value = &Value { set: Set::Unknown, origin: Origin::Stated };
        self.kind.index_of(attribute).map_or(UNKNOWN, |index| &self.values[index])
    }

    /// What may be judged of an attribute.
    pub fn judged(&self, attribute: Attribute) -> &Set {
        self.value(attribute).judged()
    }

    /// The attribute where it is known exactly.
    pub fn exact(&self, attribute: Attribute) -> Option<i64> {
        match self.judged(attribute) {
            Set::Exact(value) => Some(*value),
            _ => None,
        }
    }

    /// The list where it is known.
    pub fn list(&self, attribute: Attribute) -> Option<&[i64]> {
        match self.judged(attribute) {
            Set::List(values) => Some(values),
            _ => None,
        }
    }

    /// Sets what is known of an attribute; `false` where the kind has no such attribute.
    pub fn set(&mut self, attribute: Attribute, value: Value) -> bool {
        let Some(index) = self.kind.index_of(attribute) else { return false };
        self.values[index] = value;
        true
    }

    /// The same part with one stated attribute more.
    #[must_use]
    pub fn with(mut self, attribute: Attribute, set: Set) -> Self {
        self.set(attribute, Value::stated(set));
        self
    }

    /// The groups of parts that it belongs to, of those that makers' statements and house rulings speak of, in order;
    /// empty for almost every part. It is named by some statement or ruling exactly where this is not empty, and two parts
    /// that agree in their marks and in the inputs of the rules get the same findings: a search that keys its classes by
    /// inputs adds the marks to the key.
    pub fn marks(&self) -> &[u32] {
        &self.marks
    }

    /// Sets the groups that it belongs to, here and on everything that it brings along.
    pub(crate) fn set_marks(&mut self, of: &impl Fn(&Self) -> Vec<u32>) {
        self.marks = of(self).into();
        for (_, child) in &mut self.children {
            child.set_marks(of);
        }
    }

    /// Adds groups that it belongs to.
    pub(crate) fn add_marks(&mut self, more: &[u32]) {
        let mut marks = [&self.marks, more].concat();
        marks.sort_unstable();
        marks.dedup();
        self.marks = marks.into();
    }

    /// Every attribute of the kind with what is known of it.
    pub fn values(&self) -> impl Iterator<Item = (&'static AttributeSpec, &Value)> {
        self.kind.spec().attributes.iter().zip(self.values.iter())
    }

    /// The number that stands for a free text; the text is kept.
    pub fn free_key(&mut self, text: &str) -> i64 {
        let key = Self::key_of(text);
        if !self.texts.iter().any(|(known, _)| *known == key) {
            self.texts.push((key, text.into()));
        }
        key
    }

    /// The number that stands for a free text.
    pub fn key_of(text: &str) -> i64 {
        hash(text)
    }

    /// The text behind a free key.
    pub fn text(&self, key: i64) -> Option<&str> {
        self.texts.iter().find(|(known, _)| *known == key).map(|(_, text)| &**text)
    }

    /// Adds a child of a composite part.
    pub fn add_child(&mut self, name: &'static str, child: Self) {
        self.children.push((name, child));
    }

    /// The children with their field names.
    pub fn children(&self) -> impl Iterator<Item = (&'static str, &Self)> {
        self.children.iter().map(|(name, child)| (*name, child))
    }

    /// The children under one field.
    pub fn children_named(&self, name: &str) -> impl Iterator<Item = &Self> {
        self.children.iter().filter(move |(field, _)| *field == name).map(|(_, child)| child)
    }
}

/// FNV-1a over 64 bits: stable between builds and machines, good enough to tell a few thousand names apart.
fn hash(text: &str) -> i64 {
    let folded = text.trim().to_lowercase();
    let hash = folded.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    i64::from_be_bytes(hash.to_be_bytes())
}
