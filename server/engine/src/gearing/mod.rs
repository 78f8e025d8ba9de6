//! Gearing.
