//! One binary for every test from outside.

mod field_cases;
mod values;
