//! One file per mating. A new mating is one file here, and one line in the registry.

pub mod cassette_on_body;
pub mod chain_length;
pub mod chain_on_cogs;
pub mod chain_on_ring;
pub mod chain_on_single_cog;
mod chain_profile;
pub mod chain_retention;
pub mod cut_down_cassette;
pub mod derailleur_capacity;
pub mod derailleur_on_cogs;
pub mod derailleur_on_hanger;
pub mod freewheel_on_hub;
pub mod friction_shifter;
pub mod indexing;
pub mod lockring_on_body;
pub mod motor_and_load;
pub mod quick_link_on_chain;
mod shift_table;
pub mod shifter_on_derailleur;
pub mod shifter_positions;
mod tooth_width;
