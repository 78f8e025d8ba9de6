//! Published and recomputed check values.

mod chain;
mod climb;
mod gearing;
mod wheel;
