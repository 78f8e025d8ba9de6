//! Every mating, in the order in which a mechanic would look.

use super::rule::{Mating, Rule};
use super::rules::{
    cassette_on_body, chain_length, chain_on_cogs, chain_on_ring, chain_on_single_cog, chain_retention,
    cut_down_cassette, derailleur_capacity, derailleur_on_cogs, derailleur_on_hanger, freewheel_on_hub,
    friction_shifter, indexing, lockring_on_body, motor_and_load, quick_link_on_chain, shifter_on_derailleur,
    shifter_positions,
};

/// Version of the rules: changes whenever an answer may change.
pub const RULESET_VERSION: &str = "1";

/// Every mating.
pub const MATINGS: &[&Mating] = &[
    &cassette_on_body::MATING,
    &cut_down_cassette::MATING,
    &lockring_on_body::MATING,
    &freewheel_on_hub::MATING,
    &chain_on_cogs::MATING,
    &chain_on_single_cog::MATING,
    &chain_on_ring::MATING,
    &quick_link_on_chain::MATING,
    &chain_length::MATING,
    &derailleur_on_cogs::MATING,
    &derailleur_capacity::MATING,
    &derailleur_on_hanger::MATING,
    &shifter_on_derailleur::MATING,
    &indexing::MATING,
    &shifter_positions::MATING,
    &friction_shifter::MATING,
    &chain_retention::MATING,
    &motor_and_load::MATING,
];

/// Every rule with its mating.
pub fn rules() -> impl Iterator<Item = (&'static Mating, &'static Rule)> {
    MATINGS.iter().flat_map(|mating| mating.rules.iter().map(move |rule| (*mating, rule)))
}

/// A mating by its code, or by "mating/rule".
pub fn find(code: &str) -> Option<&'static Mating> {
    let mating = code.split('/').next().unwrap_or(code);
    MATINGS.iter().copied().find(|found| found.code == mating)
}
