//! Configuration: flags, then environment, then a TOML file, then defaults.

use std::net::SocketAddr;
use std::path::{Path, PathBuf};

use clap::{Args, Parser, Subcommand};
use serde::Deserialize;
use sprag_proto::text::nearest;

use super::limits::Limits;

/// The gRPC service of sprag: what fits, what range it brings, what to fit instead.
#[derive(Debug, Parser)]
#[command(name = "spragd", version, about)]
pub struct Cli {
    /// What to do; nothing = serve.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Settings.
    #[command(flatten)]
    pub settings: Settings,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Create an empty store in the data folder; nothing else ever creates one.
    Init,
    /// Make a store in the data folder, which must not exist yet, from a checkpoint or backup; the service must be stopped.
    Restore {
        /// The file: checkpoints lie beside the store, in the folder that is named like it and ends in .checkpoints.
        file: PathBuf,
    },
    /// Tell whether a running service is ready: exit status 0 if so.
    Probe {
        /// Its address; with a path, such as http://127.0.0.1:50062/readyz, that of its operations listener.
        #[arg(default_value = "http://127.0.0.1:50061")]
        server: String,
    },
    /// Open a copy of a store and verify it, for the service's own use.
    #[command(hide = true)]
    TrialOpen {
        /// The copy.
        path: PathBuf,
    },
}

/// Settings as given; what is not given is looked for in the file, then taken from the defaults.
#[derive(Clone, Debug, Default, Args, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Settings {
    /// A TOML file with these settings.
    #[arg(long, env = "SPRAGD_CONFIG")]
    #[serde(skip)]
    pub config: Option<PathBuf>,
    /// Check the configuration, tell every fault, and stop.
    #[arg(long)]
    #[serde(skip)]
    pub check_config: bool,
    /// Folder of the catalogue's store [default: data].
    #[arg(long, env = "SPRAGD_DATA", global = true)]
    pub data: Option<PathBuf>,
    /// Address to listen on; loopback only, until access control is there [default: 127.0.0.1:50061].
    #[arg(long, env = "SPRAGD_LISTEN")]
    pub listen: Option<String>,
    /// Allow an address that is not loopback, though anybody who reaches it may change the catalogue.
    #[arg(long, env = "SPRAGD_ALLOW_ANYBODY", num_args = 0..=1, default_missing_value = "true")]
    pub allow_anybody: Option<bool>,
    /// Address for probes and metrics, plain HTTP without any data of the catalogue, such as 127.0.0.1:50062
    /// [default: none].
    #[arg(long, env = "SPRAGD_OPERATIONS")]
    pub operations: Option<String>,
    /// Log filter; "info,request=debug" tells every request [default: info].
    #[arg(long, env = "SPRAGD_LOG")]
    pub log: Option<String>,
    /// Log as JSON lines instead of text.
    #[arg(long, env = "SPRAGD_LOG_JSON", num_args = 0..=1, default_missing_value = "true")]
    pub log_json: Option<bool>,
    /// Requests that take more milliseconds are logged as slow; 0 = none [default: 1000].
    #[arg(long, env = "SPRAGD_SLOW_MS")]
    pub slow_ms: Option<u64>,
    /// Seconds that calls have to end after SIGTERM [default: 10].
    #[arg(long, env = "SPRAGD_DRAIN_SECONDS")]
    pub drain_seconds: Option<u64>,
    /// Largest request in bytes [default: 4194304].
    #[arg(long, env = "SPRAGD_MESSAGE_BYTES")]
    pub message_bytes: Option<usize>,
    /// Bikes judged at most for one recommendation [default: 5000].
    #[arg(long, env = "SPRAGD_SEARCH_STEPS")]
    pub search_steps: Option<u64>,
}

/// Names of the settings of a file.
const NAMES: [&str; 10] = [
    "data",
    "listen",
    "allow_anybody",
    "operations",
    "log",
    "log_json",
    "slow_ms",
    "drain_seconds",
    "message_bytes",
    "search_steps",
];

/// The settings in force.
#[derive(Clone, Debug)]
pub struct Config {
    /// Folder of the store.
    pub data: PathBuf,
    /// Address to listen on.
    pub listen: SocketAddr,
    /// Address for probes and metrics.
    pub operations: Option<SocketAddr>,
    /// Log filter.
    pub log: String,
    /// Log as JSON lines.
    pub log_json: bool,
    /// Requests that take more milliseconds are logged as slow; 0 = none.
    pub slow_ms: u64,
    /// Seconds that calls have to end.
    pub drain_seconds: u64,
    /// Largest request in bytes.
    pub message_bytes: usize,
    /// Bikes judged at most for one recommendation.
    pub search_steps: u64,
}

impl Config {
    /// Puts the layers together; tells all faults.
    ///
    /// # Errors
    /// Every fault, one in a line.
    pub fn read(settings: &Settings) -> Result<Self, Vec<String>> {
        let file = match &settings.config {
            Some(path) => read_file(path)?,
            None => Settings::default(),
        };
        let mut faults = Vec::new();
        let given = |flag: &Option<String>, file: &Option<String>, default: &str| {
            flag.clone().or_else(|| file.clone()).unwrap_or_else(|| default.to_owned())
        };
        let listen = given(&settings.listen, &file.listen, "127.0.0.1:50061");
        let anybody = settings.allow_anybody.or(file.allow_anybody).unwrap_or(false);
        let listen = read_address(&listen, anybody, &mut faults);
        let operations = given(&settings.operations, &file.operations, "");
        let operations = match operations.as_str() {
            "" => None,
            address => read_operations(address, &mut faults),
        };
        let log = given(&settings.log, &file.log, "info");
        if let Err(error) = tracing_subscriber::EnvFilter::try_new(&log) {
            faults.push(format!(
                "log: {log:?} is no filter ({error}); such as \"info\" or \"sprag_server=debug\""
            ));
        }
        let config = Self {
            data: settings.data.clone().or(file.data).unwrap_or_else(|| PathBuf::from("data")),
            listen,
            operations,
            log,
            slow_ms: settings.slow_ms.or(file.slow_ms).unwrap_or(1000),
            log_json: settings.log_json.or(file.log_json).unwrap_or(false),
            drain_seconds: settings.drain_seconds.or(file.drain_seconds).unwrap_or(10),
            message_bytes: settings
                .message_bytes
                .or(file.message_bytes)
                .unwrap_or(Limits::default().message_bytes),
            search_steps: settings
                .search_steps
                .or(file.search_steps)
                .unwrap_or(Limits::default().search_steps),
        };
        if config.drain_seconds > 3600 {
            faults.push(format!("drain_seconds: {} is over 3600", config.drain_seconds));
        }
        if !(1024..=64 << 20).contains(&config.message_bytes) {
            faults.push(format!("message_bytes: {} is outside 1024 to 67108864", config.message_bytes));
        }
        if !(1..=10_000_000).contains(&config.search_steps) {
            faults.push(format!("search_steps: {} is outside 1 to 10000000", config.search_steps));
        }
        if faults.is_empty() { Ok(config) } else { Err(faults) }
    }

    /// The limits in force.
    pub fn limits(&self) -> Limits {
        Limits { message_bytes: self.message_bytes, search_steps: self.search_steps, ..Limits::default() }
    }
}

fn read_address(text: &str, anybody: bool, faults: &mut Vec<String>) -> SocketAddr {
    match text.parse::<SocketAddr>() {
        Ok(address) => {
            if !address.ip().is_loopback() && !anybody {
                faults.push(format!(
                    "listen: {address} is not loopback; anybody who reaches it could change the catalogue; set allow_anybody if that is meant"
                ));
            }
            address
        }
        Err(_) => {
            faults.push(format!("listen: {text:?} is no address with a port, such as \"127.0.0.1:50061\""));
            SocketAddr::from(([127, 0, 0, 1], 0))
        }
    }
}

fn read_operations(text: &str, faults: &mut Vec<String>) -> Option<SocketAddr> {
    let address = text.parse().ok();
    if address.is_none() {
        faults.push(format!("operations: {text:?} is no address with a port, such as \"127.0.0.1:50062\""));
    }
    address
}

fn read_file(path: &Path) -> Result<Settings, Vec<String>> {
    let text = std::fs::read_to_string(path)
        .map_err(|error| vec![format!("config: cannot read {}: {error}", path.display())])?;
    let table: toml::Table =
        text.parse().map_err(|error| vec![format!("config: {} is not TOML: {error}", path.display())])?;
    let unknown: Vec<String> = table
        .keys()
        .filter(|key| !NAMES.contains(&key.as_str()))
        .map(|key| {
            let hint =
                nearest(key, NAMES).map(|near| format!("; did you mean \"{near}\"?")).unwrap_or_default();
            format!("{key}: no such setting in {}{hint}", path.display())
        })
        .collect();
    if !unknown.is_empty() {
        return Err(unknown);
    }
    table
        .try_into()
        .map_err(|error: toml::de::Error| vec![format!("{}: {}", path.display(), error.message())])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_says_the_defaults() {
        let example: Settings =
            toml::from_str(include_str!("../../../deploy/spragd.example.toml")).expect("settings");
        let from_example = Config::read(&example).expect("a good configuration");
        let defaults = Config::read(&Settings::default()).expect("good defaults");
        assert_eq!(format!("{from_example:?}"), format!("{defaults:?}"));
    }

    #[test]
    fn faults_are_told_all_at_once() {
        let settings = Settings {
            listen: Some("0.0.0.0:1".into()),
            drain_seconds: Some(9999),
            message_bytes: Some(1),
            ..Settings::default()
        };
        assert_eq!(Config::read(&settings).expect_err("faults").len(), 3);
    }
}
