//! What a catalogue holds besides parts: statements, rulings, interfaces and aliases.

mod name;

pub use name::{name_of, read_key, type_name, write_key};
