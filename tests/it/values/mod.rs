//! External check values: published standards, tables and worked examples, each with its source in words.

mod chain;
mod climb;
mod fitting;
mod front_and_wheels;
mod gearing;
mod hubs_and_brakes;
mod meeting;
mod rear_cassette;
mod rear_chain;
mod rear_shifting;
mod tyres_and_rims;
mod wheel;
