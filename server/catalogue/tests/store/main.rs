//! The store from outside: one binary, a module per concern. All parts and makers are invented.

// Helpers outside of the test functions may fail as loudly as these.
#![allow(clippy::unwrap_used, clippy::panic)]

mod checkpoints;
mod crash;
mod damage;
mod history;
mod model;
mod opening;
mod publishing;
mod records;
mod shelf;
mod support;
