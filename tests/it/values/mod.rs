//! External check values: published standards, tables and worked examples, each with its source in words.

mod chain;
mod climb;
mod gearing;
mod wheel;
