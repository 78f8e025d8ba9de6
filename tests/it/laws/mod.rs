//! The laws that every rule and every check must keep, as property tests over random parts.

pub mod random;
mod rules;
mod whole;
