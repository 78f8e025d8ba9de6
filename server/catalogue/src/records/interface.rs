//! Interfaces of the shop.

use sprag_engine::part::interface::{Interfaces, Key};
use sprag_proto::v1 as pb;

use super::text::{Checker, or_nothing, quoted};

const KEY_MAX: usize = 60;
const LIST_MAX: usize = 64;
const DIMENSIONS_MAX: usize = 8;

/// Adds an interface, which accepts nothing yet.
pub fn add(found: &pb::ShopInterface, all: &mut Interfaces, checker: &mut Checker) -> Option<Key> {
    let before = checker.count();
    let class = &found.interface_class;
    let known = || all.of_class("").map(|(_, known)| &*known.class);
    let is_class = |name: &str| (!name.is_empty() && known().any(|known| known == name)).then_some(());
    checker.one_of("interface_class", class, "a class of the registry", is_class, known());
    let fine = |letter: char| matches!(letter, 'a'..='z' | '0'..='9' | '-' | '.' | '/');
    let kebab = !found.key.starts_with('-') && !found.key.ends_with('-') && found.key.chars().all(fine);
    if found.key.is_empty() || found.key.len() > KEY_MAX || !kebab {
        let wanted =
            format!("1 to {KEY_MAX} characters: lower case a to z, digits, dots, and dashes between words");
        checker.fault("key", &or_nothing(&found.key), &wanted);
    }
    checker.line("description", &found.description, 200);
    checker.line("author", &found.author, 100);
    checker.line("source", &found.source, 300);
    checker.date("date", &found.date);
    if found.dimensions.len() > DIMENSIONS_MAX {
        checker.fault("dimensions", &format!("{} of them", found.dimensions.len()), "at most 8");
    }
    for (index, dimension) in found.dimensions.iter().enumerate().take(DIMENSIONS_MAX) {
        checker.line(&format!("dimensions[{index}].name"), &dimension.name, 60);
        if pb::Unit::try_from(dimension.unit).map_or(true, |unit| unit == pb::Unit::Unspecified) {
            checker.fault(&format!("dimensions[{index}].unit"), &dimension.unit.to_string(), "a unit");
        }
    }
    if checker.count() > before {
        return None;
    }
    let added = all.add(class, &found.key, &found.description, &found.source);
    if added.is_none() {
        let taken = all.find(class, &found.key).and_then(|key| all.get(key));
        let wanted = match taken {
            Some(taken) if taken.own => "each key of a class once",
            Some(_) => "a key of its own: a standard interface cannot be redefined",
            None => "fewer interfaces: the registry is full",
        };
        checker.fault("key", &format!("{} in class {class}", quoted(&found.key)), wanted);
    }
    added
}

/// Joins an interface with those that it accepts, and that accept it.
pub fn join(found: &pb::ShopInterface, own: Key, all: &mut Interfaces, checker: &mut Checker) {
    let role = match pb::InterfaceRole::try_from(found.role) {
        Ok(role) => role,
        Err(_) => {
            checker.fault("role", &found.role.to_string(), "provider or consumer");
            pb::InterfaceRole::Unspecified
        }
    };
    if role == pb::InterfaceRole::Consumer && !found.accepts.is_empty() {
        checker.fault("accepts", "what a consumer accepts", "a provider: a consumer goes onto others");
    }
    if role == pb::InterfaceRole::Provider && !found.accepted_by.is_empty() {
        checker.fault("accepted_by", "what accepts a provider", "a consumer: a provider takes others");
    }
    for consumer in others(found, "accepts", &found.accepts, all, checker) {
        all.allow(own, consumer);
    }
    for provider in others(found, "accepted_by", &found.accepted_by, all, checker) {
        all.allow(provider, own);
    }
}

/// The interfaces that a list names.
fn others(
    found: &pb::ShopInterface,
    field: &str,
    list: &[pb::Acceptance],
    all: &Interfaces,
    checker: &mut Checker,
) -> Vec<Key> {
    if list.len() > LIST_MAX {
        checker.fault(field, &format!("{} of them", list.len()), "at most 64");
    }
    let mut keys = Vec::new();
    for (index, other) in list.iter().enumerate().take(LIST_MAX) {
        let class =
            if other.interface_class.is_empty() { &found.interface_class } else { &other.interface_class };
        let names = all.of_class(class).map(|(_, known)| &*known.key);
        let wanted = format!("a key of class {class}");
        let path = format!("{field}[{index}]");
        let find = |name: &str| all.find(class, name);
        keys.extend(checker.one_of(&format!("{path}.key"), &other.key, &wanted, find, names));
        checker.line(&format!("{path}.source"), &other.source, 300);
    }
    keys
}
