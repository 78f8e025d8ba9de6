//! Gears and what follows from them: ratios, steps, roll-out, speed, chain length, wrap, chainline, climbing,
//! inertia.
//!
//! [`range`] answers all of it for one build; the modules answer single questions. Ratios are exact fractions
//! and compared as integers, lengths for decisions are whole micrometres; what has a floating point is for
//! display or physics. Every input has limits and a [`Fault`] that names them.

pub mod bike;
pub mod chain;
pub mod chainline;
pub mod chart;
pub mod climb;
mod compare;
pub mod designation;
mod fault;
pub mod inertia;
pub mod measure;
mod range;
pub mod ratio;
pub mod set;
pub mod shift;
pub mod sizename;
pub mod sprocket;
pub mod table;
pub mod wheel;
pub mod wrap;

pub use compare::{Difference, compare};
pub use fault::Fault;
pub use range::{
    ChainAnswer, GearLine, HillAnswer, HillInput, MAX_COLUMNS, Primary, RangeAnswer, RangeInput, Road, range,
};
pub use ratio::Ratio;
pub use set::{Gear, Gearset};
