//! The laws that every rule and every check must keep, as property tests over random parts.

mod random;
mod rules;
mod whole;
