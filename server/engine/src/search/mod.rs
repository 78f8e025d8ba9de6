//! The search core: exact optimisation over positions, classes, constraints and objectives that are data.
//!
//! * A *position* is a variable: a place on a bike. Its *rows* are what may fill it: classes of parts that no constraint
//!   tells apart, each with what it costs.
//! * An *axis* of a position is what some constraint sees of its rows, as dense numbers. Constraints are small tables over
//!   axes of one or more positions, so their size follows what is told apart, not the number of parts.
//! * Costs come from an [`Algebra`]: a least number, a lexicographic order of numbers, or the whole front of price and
//!   mass. The same elimination serves all of them.
//!
//! The method is non-serial dynamic programming (bucket elimination): positions are eliminated one after the other along
//! an order of least fill, each leaving a message over the axes of its neighbours. The best row of each position is read
//! back in the opposite order. Work grows with the rows and with the product of the axes that meet in one bucket.
//! Where that product passes a limit, the bucket is split and its messages become lower bounds; [`Walk`] then searches
//! best first with them, and gives the ways in order of cost. Bounds never lose a way: a row that is split pays its cost in
//! one part of the bucket and nothing in the others.
//!
//! Every call keeps a [`Meter`]: work done, the caller's limit, and whether the caller still waits.

mod algebra;
mod bucket;
mod fold;
mod front;
mod index;
mod meter;
mod order;
mod plan;
mod problem;
mod tensor;
#[cfg(test)]
mod tests;
mod walk;

pub use algebra::{Algebra, Cheapest, Cost};
pub use bucket::{Elimination, Limits, eliminate};
pub use front::{Front, Frontier, Point};
pub use meter::{Meter, Stopped};
pub use order::order;
pub use plan::{Pick, plan, plan_of};
pub use problem::{Axis, Block, Constraint, Position, Problem, Table};
pub use walk::{Walk, Way};
