//! Words and keys that are read where they are known, and never asked for.

use crate::fit::Slot;
use crate::fit::rule::Given;
use crate::part::of::{InterfaceKey, Of, Word};

/// The word, where it is known.
pub(super) fn word<W: Word>(given: &Given<'_>, slot: Slot, of: Of<W>) -> Option<W> {
    if given.is_missing(slot, of) || given.known_absent(slot, of) {
        return None;
    }
    given.word(slot, of).ok()
}

/// The name of the key, where it is known.
pub(super) fn name<'a>(given: &Given<'a>, slot: Slot, of: Of<InterfaceKey>) -> Option<&'a str> {
    if given.is_missing(slot, of) || given.known_absent(slot, of) {
        return None;
    }
    given.key(slot, of).ok().map(|key| given.name(key))
}
