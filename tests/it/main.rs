//! The one integration test program: the whole service over real sockets, external check values, field cases, laws,
//! and the borders of the house.

mod borders;
mod laws;
mod values;
