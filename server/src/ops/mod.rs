//! Operating the service: command line, configuration, limits, logs, metrics, probes.

pub mod command;
pub mod config;
pub mod limits;
pub mod metrics;
pub mod observe;
pub mod operations;
pub mod probe;
pub mod telemetry;
