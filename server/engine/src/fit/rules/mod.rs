//! One file per mating. A new mating is one file here, and one line in the registry.

pub mod cassette_on_body;

pub mod axle_in_fork;
pub mod axle_in_frame;
pub mod bottom_bracket_in_shell;
pub mod brake_fluid;
pub mod brake_on_fork;
pub mod brake_on_frame;
pub mod chainring_on_crank;
pub mod crank_in_frame;
pub mod crank_on_bottom_bracket;
pub mod e_bike_approval;
pub mod end_caps;
pub mod front_derailleur_on_frame;
pub mod front_derailleur_on_rings;
pub mod front_shifter_on_derailleur;
pub mod gear_hub;
pub mod hub_in_fork;
pub mod hub_in_frame;
mod known;
pub mod lever_on_brake;
pub mod pads_in_brake;
pub mod pedal_on_crank;
pub mod rim_brake_on_rim;
pub mod ring_clearance;
pub mod rotor_in_caliper;
pub mod rotor_on_hub;
pub mod sprocket_line;
pub mod tube_in_tyre;
pub mod tyre_in_fork;
pub mod tyre_in_frame;
pub mod tyre_on_rim;
pub mod tyre_width_on_rim;
