//! Interfaces: the named ways in which parts join, described by what they physically are.
//!
//! A provider (a body, a ring, a hanger) takes its own key and the keys that it accepts: one way, not transitive.

use std::borrow::Cow;
use std::collections::BTreeMap;

/// A key of the registry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key(pub u16);

/// An interface as the standard table declares it.
#[derive(Clone, Debug)]
pub struct Declared {
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

/// One interface of a registry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Interface {
    /// Class, such as "freehub".
    pub class: Cow<'static, str>,
    /// Key, kebab-case.
    pub key: Cow<'static, str>,
    /// What it physically is.
    pub description: Cow<'static, str>,
    /// Other keys that a provider with this key takes as well.
    pub accepts: Vec<Key>,
    /// Where that comes from.
    pub source: Cow<'static, str>,
    /// Added to the standard ones.
    pub own: bool,
}

/// All interfaces: the standard ones in one fixed order, then those that were added. So a standard key has the same
/// number in every registry.
#[derive(Clone, Debug)]
pub struct Interfaces {
    entries: Vec<Interface>,
    by_name: BTreeMap<Cow<'static, str>, BTreeMap<Cow<'static, str>, Key>>,
}

impl Interfaces {
    /// The interfaces that sprag knows from the start.
    pub fn standard() -> Self {
        let table = super::interfaces::STANDARD;
        let mut all = Self { entries: Vec::with_capacity(table.len()), by_name: BTreeMap::new() };
        for found in table {
            all.push(Interface {
                class: found.class.into(),
                key: found.key.into(),
                description: found.description.into(),
                accepts: Vec::new(),
                source: found.source.into(),
                own: false,
            });
        }
        for (index, found) in table.iter().enumerate() {
            let accepts = found.accepts.iter().flat_map(|name| all.named(found.class, name)).collect();
            all.entries[index].accepts = accepts;
        }
        all
    }

    /// The same, made once.
    pub fn standard_ref() -> &'static Self {
        static STANDARD: std::sync::LazyLock<Interfaces> = std::sync::LazyLock::new(Interfaces::standard);
        &STANDARD
    }

    /// The keys of a name: the one of the class, or else those of other classes.
    fn named(&self, class: &str, name: &str) -> Vec<Key> {
        if let Some(own) = self.find(class, name) {
            return vec![own];
        }
        self.of_class("").filter(|(_, found)| found.key == name).map(|(key, _)| key).collect()
    }

    fn push(&mut self, interface: Interface) -> Option<Key> {
        let key = Key(u16::try_from(self.entries.len()).ok()?);
        self.by_name.entry(interface.class.clone()).or_default().insert(interface.key.clone(), key);
        self.entries.push(interface);
        Some(key)
    }

    /// Adds an interface that accepts nothing but its own key yet; `None` where its name is taken, or there are 65 536.
    pub fn add(&mut self, class: &str, key: &str, description: &str, source: &str) -> Option<Key> {
        if self.find(class, key).is_some() {
            return None;
        }
        self.push(Interface {
            class: class.to_owned().into(),
            key: key.to_owned().into(),
            description: description.to_owned().into(),
            accepts: Vec::new(),
            source: source.to_owned().into(),
            own: true,
        })
    }

    /// Lets a provider take a consumer.
    pub fn allow(&mut self, provider: Key, consumer: Key) {
        if let Some(found) = self.entries.get_mut(usize::from(provider.0))
            && !found.accepts.contains(&consumer)
        {
            found.accepts.push(consumer);
        }
    }

    /// The key of a name within its class.
    pub fn find(&self, class: &str, key: &str) -> Option<Key> {
        self.by_name.get(class)?.get(key).copied()
    }

    /// The interface behind a key.
    pub fn get(&self, key: Key) -> Option<&Interface> {
        self.entries.get(usize::from(key.0))
    }

    /// Name of a key, for messages.
    pub fn name(&self, key: Key) -> &str {
        self.get(key).map_or("?", |found| &*found.key)
    }

    /// The interfaces of a class, with their keys; every class for the empty name.
    pub fn of_class<'a>(&'a self, class: &'a str) -> impl Iterator<Item = (Key, &'a Interface)> + 'a {
        self.entries
            .iter()
            .enumerate()
            .filter(move |(_, found)| class.is_empty() || found.class == class)
            .filter_map(|(index, found)| Some((Key(u16::try_from(index).ok()?), found)))
    }

    /// A provider with one key takes a consumer with the other.
    pub fn accepts(&self, provider: Key, consumer: Key) -> bool {
        provider == consumer || self.get(provider).is_some_and(|found| found.accepts.contains(&consumer))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::interfaces::STANDARD;

    #[test]
    fn every_acceptance_of_the_standard_table_names_an_interface() {
        let all = Interfaces::standard();
        for declared in STANDARD {
            for name in declared.accepts {
                assert!(!all.named(declared.class, name).is_empty(), "{} accepts {name}", declared.key);
            }
        }
    }

    #[test]
    fn an_added_interface_joins_in_one_direction_and_moves_no_standard_key() {
        let standard = Interfaces::standard_ref();
        let mut all = Interfaces::standard();
        let own = all.add("freehub", "spline-31", "31 splines", "a drawing").expect("a free name");
        let nine = all.find("freehub", "spline-9").expect("a standard key");
        assert_eq!(standard.find("freehub", "spline-9"), Some(nine));
        assert!(all.accepts(own, own) && !all.accepts(own, nine) && !all.accepts(nine, own));
        all.allow(nine, own);
        assert!(all.accepts(nine, own) && !all.accepts(own, nine));
        assert_eq!((all.name(own), all.get(own).is_some_and(|found| found.own)), ("spline-31", true));
        assert_eq!(all.add("freehub", "spline-31", "again", "a drawing"), None);
        assert_eq!(all.add("freehub", "spline-9", "again", "a drawing"), None);
    }
}
