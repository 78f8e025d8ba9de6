//! Where messages become engine parts and back; used by store, import and services alike.

pub mod decode;
pub mod encode;
#[rustfmt::skip]
pub mod scalars;

pub use decode::{described, part, part_in, translate, usage};
