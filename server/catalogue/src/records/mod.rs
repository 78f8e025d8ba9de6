//! What a catalogue holds besides parts: statements, rulings, interfaces and aliases. As records they are stored and
//! travel; compiled into a [`Registry`] they are looked up.

mod alias;
mod interface;
mod name;
mod pair;
mod registry;
mod rows;
mod selector;
mod text;
mod update;

pub use alias::Aliases;
pub use name::{name_of, named_skus, read_key, type_name, write_key};
pub use registry::{RecordFault, Registry};
pub(crate) use rows::{BadRows, Others, RecordRows};
pub(crate) use selector::maker_number;
pub use update::UpdateError;
pub(crate) use update::unknown_sku;
