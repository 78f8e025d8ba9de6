//! The one integration test program: the whole service over real sockets, external check values, field cases, laws,
//! and the borders of the house.

// A test that cannot go on may stop with a message.
#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

mod borders;
mod field_cases;
mod fixtures;
mod laws;
mod range;
mod service;
mod values;
