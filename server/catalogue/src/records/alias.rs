//! The shop's own words for interfaces.

use std::collections::BTreeMap;

use sprag_engine::part::interface::{Interfaces, Key};
use sprag_engine::part::{Attribute, Form, Kind};
use sprag_proto::text::{ambiguous, folded_word};
use sprag_proto::v1 as pb;

use super::selector;
use super::text::{Checker, quoted};

/// Words by what they stand for: kind and attribute, then supplier (empty = everywhere) and word.
type Words = BTreeMap<(Kind, Attribute), BTreeMap<(String, String), (Key, String)>>;

/// The shop's words for interfaces.
#[derive(Clone, Debug, Default)]
pub struct Aliases(Words);

impl Aliases {
    /// There are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// What a word means for an attribute of a kind: the supplier's own word before everyone's.
    pub fn find(&self, kind: Kind, attribute: Attribute, supplier: &str, word: &str) -> Option<Key> {
        let words = self.0.get(&(kind, attribute))?;
        let word = folded_word(word);
        let of = |supplier: &str| words.get(&(supplier.to_owned(), word.clone())).map(|(key, _)| *key);
        if supplier.is_empty() { of("") } else { of(supplier).or_else(|| of("")) }
    }

    /// Adds a word.
    pub(super) fn add(&mut self, found: &pb::Alias, interfaces: &Interfaces, checker: &mut Checker) {
        checker.id("alias_id", &found.alias_id);
        checker.line("author", &found.author, 100);
        checker.date("date", &found.date);
        let word = checker.line("word", &found.word, 100).then(|| folded_word(&found.word));
        if found.supplier.chars().any(|letter| !matches!(letter, 'a'..='z' | '0'..='9' | '-' | '.')) {
            checker.fault("supplier", &quoted(&found.supplier), "lower case, digits and dashes, or nothing");
        }
        let Some(kind) = selector::kind("kind", &found.kind, checker) else { return };
        let Some(spec) = selector::attribute("attribute", kind, &found.attribute, checker) else { return };
        let Form::Interface(class) = spec.form else {
            return checker.fault(
                "attribute",
                &quoted(&found.attribute),
                "an attribute that takes interface keys",
            );
        };
        let names = interfaces.of_class(class).map(|(_, known)| &*known.key);
        let wanted = format!("a key of class {class}");
        let key = checker.one_of("key", &found.key, &wanted, |name| interfaces.find(class, name), names);
        let (Some(word), Some(key)) = (word, key) else { return };
        if let Some(candidates) = ambiguous(spec.attribute.name(), &found.word) {
            let wanted = format!("a word that means one thing: this one may be {}", candidates.join(", "));
            return checker.fault("word", &quoted(&found.word), &wanted);
        }
        if interfaces.of_class(class).any(|(_, known)| folded_word(&known.key) == word) {
            return checker.fault(
                "word",
                &quoted(&found.word),
                "a word that is no key of the registry already",
            );
        }
        let words = self.0.entry((kind, spec.attribute)).or_default();
        match words.get(&(found.supplier.clone(), word.clone())) {
            Some((_, other)) => {
                let shown = format!("{}, which alias {} has too", quoted(&found.word), quoted(other));
                checker.fault("word", &shown, "each word once for a kind, attribute and supplier");
            }
            None => {
                words.insert((found.supplier.clone(), word), (key, found.alias_id.clone()));
            }
        }
    }
}
