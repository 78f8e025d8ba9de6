//! Logs: text or JSON lines on standard error, so that standard output stays free.

use tracing_subscriber::EnvFilter;

use super::config::Config;

/// Starts logging; a second call is ignored.
pub fn start(config: &Config) {
    // The filter was tried when the configuration was read.
    let filter = EnvFilter::try_new(&config.log).unwrap_or_else(|_| EnvFilter::new("info"));
    let logs =
        tracing_subscriber::fmt().with_env_filter(filter).with_writer(std::io::stderr).with_target(false);
    let _ = if config.log_json { logs.json().try_init() } else { logs.with_ansi(false).try_init() };
}
