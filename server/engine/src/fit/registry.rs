//! Every mating, in the order in which a mechanic would look.

use super::rule::{Mating, Rule};
use super::rules::{
    axle_in_fork, axle_in_frame, bottom_bracket_in_shell, brake_fluid, brake_on_fork, brake_on_frame,
    cassette_on_body, chain_on_cogs, chain_on_single_cog, crank_in_frame, crank_on_bottom_bracket,
    derailleur_capacity, derailleur_on_cogs, friction_shifter, hub_in_fork, hub_in_frame, indexing,
    lever_on_brake, pads_in_brake, pedal_on_crank, rim_brake_on_rim, rotor_in_caliper, rotor_on_hub,
    shifter_on_derailleur, shifter_positions, tube_in_tyre, tyre_in_fork, tyre_in_frame, tyre_on_rim,
    tyre_width_on_rim,
};

/// Version of the rules: changes whenever an answer may change.
pub const RULESET_VERSION: &str = "1";

/// Every mating.
pub const MATINGS: &[&Mating] = &[
    &cassette_on_body::MATING,
    &chain_on_cogs::MATING,
    &chain_on_single_cog::MATING,
    &derailleur_on_cogs::MATING,
    &derailleur_capacity::MATING,
    &shifter_on_derailleur::MATING,
    &indexing::MATING,
    &shifter_positions::MATING,
    &friction_shifter::MATING,
    &axle_in_fork::MATING,
    &axle_in_frame::MATING,
    &hub_in_fork::MATING,
    &hub_in_frame::MATING,
    &rotor_on_hub::MATING,
    &brake_on_frame::MATING,
    &brake_on_fork::MATING,
    &brake_fluid::MATING,
    &lever_on_brake::MATING,
    &pads_in_brake::MATING,
    &rotor_in_caliper::MATING,
    &tyre_on_rim::MATING,
    &tyre_width_on_rim::MATING,
    &tube_in_tyre::MATING,
    &tyre_in_frame::MATING,
    &tyre_in_fork::MATING,
    &rim_brake_on_rim::MATING,
    &pedal_on_crank::MATING,
    &bottom_bracket_in_shell::MATING,
    &crank_on_bottom_bracket::MATING,
    &crank_in_frame::MATING,
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
