//! Interfaces: the named ways in which parts join, described by what they physically are.
//!
//! A provider (a body, a ring, a hanger) takes its own key and the keys that it accepts: one way, not transitive.

use std::collections::BTreeMap;

/// A key of the registry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key(pub u16);

/// One interface.
#[derive(Clone, Debug)]
pub struct Interface {
    /// Class, such as "freehub".
    pub class: &'static str,
    /// Key, kebab-case.
    pub key: &'static str,
    /// What it physically is.
    pub description: &'static str,
    /// Other keys that a provider with this key takes as well: of its class, or of the class that it meets (a ring
    /// names chain profiles).
    pub accepts: &'static [&'static str],
    /// Where that comes from.
    pub source: &'static str,
}

/// All interfaces, in one fixed order.
#[derive(Debug)]
pub struct Interfaces {
    entries: Vec<&'static Interface>,
    by_name: BTreeMap<(&'static str, &'static str), Key>,
}

impl Interfaces {
    /// The interfaces that sprag knows from the start.
    pub fn standard() -> Self {
        let entries: Vec<&'static Interface> = super::interfaces::STANDARD.iter().collect();
        let by_name = entries
            .iter()
            .enumerate()
            .filter_map(|(index, found)| Some(((found.class, found.key), Key(u16::try_from(index).ok()?))))
            .collect();
        Self { entries, by_name }
    }

    /// The same, made once.
    pub fn standard_ref() -> &'static Self {
        static STANDARD: std::sync::LazyLock<Interfaces> = std::sync::LazyLock::new(Interfaces::standard);
        &STANDARD
    }

    /// The key of a name within its class.
    pub fn find(&self, class: &str, key: &str) -> Option<Key> {
        self.by_name.get(&(class, key)).copied()
    }

    /// The interface behind a key.
    pub fn get(&self, key: Key) -> Option<&'static Interface> {
        self.entries.get(usize::from(key.0)).copied()
    }

    /// Name of a key, for messages.
    pub fn name(&self, key: Key) -> &'static str {
        self.get(key).map_or("?", |found| found.key)
    }

    /// The interfaces of a class, with their keys; every class for the empty name.
    pub fn of_class<'a>(&'a self, class: &'a str) -> impl Iterator<Item = (Key, &'static Interface)> + 'a {
        self.entries
            .iter()
            .enumerate()
            .filter(move |(_, found)| class.is_empty() || found.class == class)
            .filter_map(|(index, found)| Some((Key(u16::try_from(index).ok()?), *found)))
    }

    /// A provider with one key takes a consumer with the other.
    pub fn accepts(&self, provider: Key, consumer: Key) -> bool {
        provider == consumer
            || self.get(provider).is_some_and(|found| found.accepts.contains(&self.name(consumer)))
    }
}
