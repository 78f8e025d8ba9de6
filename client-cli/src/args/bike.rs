//! The questions about one bike.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

/// How parts are named on the command line.
pub(super) const REFERENCES: &str = "A part (REF) is a SKU, gtin:NUMBER, maker:BRAND/NUMBER, @FILE with a described part in TOML or JSON, \
or a described part in JSON such as '{\"cassette\": {\"cogs\": \"11-13-15-18-21-24-28\"}}'. Put front: before it to fit it \
at the front.";

/// A bike, and changes to it.
#[derive(Debug, Args)]
pub struct Bike {
    /// The bike as it is: a build in TOML or JSON; "-" reads JSON from standard input.
    #[arg(long, value_name = "FILE")]
    pub build: Option<PathBuf>,
    /// A part to fit, in the place of what is there; ITEM=REF says which item it replaces.
    #[arg(long, value_name = "REF")]
    pub fit: Vec<String>,
    /// An item to take off.
    #[arg(long, value_name = "ITEM")]
    pub remove: Vec<String>,
    /// An item that moves over from the part that is replaced.
    #[arg(long, value_name = "ITEM")]
    pub moves: Vec<String>,
}

/// Whether it fits.
#[derive(Debug, Args)]
#[command(after_help = format!("{REFERENCES}\n\nExample: sprag check --build deploy/demo/bikes/ferry-tourer.toml --fit CS09-1146"))]
pub struct Check {
    /// The bike and the basket.
    #[command(flatten)]
    pub bike: Bike,
    /// A whole request in TOML or JSON instead.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["build", "fit", "remove", "moves"])]
    pub request: Option<PathBuf>,
    /// A part that the customer owns.
    #[arg(long, value_name = "REF")]
    pub owned: Vec<String>,
    /// How published limits are held.
    #[arg(long, value_enum)]
    pub practice: Option<Practice>,
    /// The bike is known to ride as it is today.
    #[arg(long)]
    pub works_today: bool,
    /// Show plain fits too.
    #[arg(long)]
    pub full: bool,
}

/// How published limits are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Practice {
    /// Every published limit is held.
    Maker,
    /// The tolerances of workshop practice are allowed, with a caveat.
    Workshop,
}

/// Which gears it gives.
#[derive(Debug, Args)]
#[command(after_help = format!("{REFERENCES}\n\nExample: sprag range --build deploy/demo/bikes/ferry-tourer.toml --fit CS09-1146"))]
pub struct Range {
    /// The bike; with changes it is shown before and after.
    #[command(flatten)]
    pub bike: Bike,
    /// Another build to compare with the first.
    #[arg(long, value_name = "FILE")]
    pub versus: Vec<PathBuf>,
    /// Wheel size where the build has none: a tyre marking such as 37-622, a roll-out such as 2105mm, or a nominal
    /// diameter such as 27in.
    #[arg(long, value_name = "SIZE")]
    pub wheel: Option<String>,
    /// Show speeds at this cadence.
    #[arg(long, value_name = "RPM")]
    pub cadence: Vec<i32>,
    /// Show cadences at this speed.
    #[arg(long, value_name = "KMH")]
    pub speed: Vec<f64>,
    /// Gradient in percent to climb; needs --power and --mass.
    #[arg(long, value_name = "PERCENT", requires_all = ["power", "mass"])]
    pub gradient: Option<f64>,
    /// Power of the rider in watts.
    #[arg(long, value_name = "W", requires = "mass")]
    pub power: Option<i32>,
    /// Bike, rider and load in kilograms.
    #[arg(long, value_name = "KG", requires = "power")]
    pub mass: Option<i32>,
    /// Cadence on the hill.
    #[arg(long, value_name = "RPM", default_value_t = 60)]
    pub hill_cadence: i32,
    /// Draw the gears of all builds into this SVG file.
    #[arg(long, value_name = "FILE")]
    pub svg: Option<PathBuf>,
    /// Draw the gears of all builds into this PNG file.
    #[arg(long, value_name = "FILE")]
    pub png: Option<PathBuf>,
}
