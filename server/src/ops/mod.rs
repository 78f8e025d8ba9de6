//! Operating the service: command line, configuration, limits, logs.

pub mod command;
pub mod config;
pub mod limits;
pub mod telemetry;
