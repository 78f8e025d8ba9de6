//! The trade of a bicycle workshop as pure functions: what fits what, which gears a build gives, what to fit instead.
//!
//! No I/O, no async, no clock, no randomness: the same question over the same data gives the same bytes.

pub mod advice;
pub mod build;
pub mod explain;
pub mod fit;
pub mod gearing;
pub mod part;
pub mod search;
