//! Typed handles of attributes.

use std::marker::PhantomData;

use super::dictionary::Attribute;

/// A handle of an attribute whose values are of type `T`.
#[derive(Debug)]
pub struct Of<T> {
    attribute: Attribute,
    kind: PhantomData<fn() -> T>,
}

impl<T> Clone for Of<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Of<T> {}

impl<T> Of<T> {
    /// A handle of an attribute; only the dictionary makes them.
    pub(super) const fn new(attribute: Attribute) -> Self {
        Self { attribute, kind: PhantomData }
    }

    /// The attribute.
    pub const fn attribute(self) -> Attribute {
        self.attribute
    }
}

/// Marks attributes whose values are keys of the interface registry.
#[derive(Clone, Copy, Debug)]
pub struct InterfaceKey;

/// Marks attributes whose values are any text, good for equality only.
#[derive(Clone, Copy, Debug)]
pub struct FreeKey;

/// Marks yes-or-no attributes.
#[derive(Clone, Copy, Debug)]
pub struct Flag;

/// Marks attributes that are lists.
#[derive(Clone, Copy, Debug)]
pub struct List;

/// A closed set of words.
pub trait Word: Copy + PartialEq {
    /// The word at a place in the declared order.
    fn from_index(index: i64) -> Option<Self>;
    /// The place in the declared order.
    fn index(self) -> i64;
}
