//! External check values: published standards, tables and worked examples, each with its source in words.

mod chain;
mod climb;
mod front_and_wheels;
mod gearing;
mod hubs_and_brakes;
mod meeting;
mod tyres_and_rims;
mod wheel;
