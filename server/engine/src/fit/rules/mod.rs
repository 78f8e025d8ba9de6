//! One file per mating. A new mating is one file here, and one line in the registry.

pub mod cassette_on_body;
