//! The command line.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Asks the service what fits, what range it brings, and what to fit instead.
///
/// Exit status: 0 it fits, or works with a caveat; 1 it does not fit; 2 the question could not be asked; 3 not enough
/// data; 4 extra parts are needed that are neither in the basket nor on the bike nor owned.
#[derive(Debug, Parser)]
#[command(name = "sprag", version, about, max_term_width = 110)]
pub struct Cli {
    /// Address of the service.
    #[arg(long, global = true, env = "SPRAG_SERVER", default_value = "http://127.0.0.1:50061")]
    pub server: String,
    /// Tables for people, or the protobuf JSON of the answer for programs.
    #[arg(long, global = true, value_enum, default_value_t = Format::Table)]
    pub output: Format,
    /// Seconds to wait for an answer.
    #[arg(long, global = true, default_value_t = 30)]
    pub timeout: u64,
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// How answers are printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// Tables and sentences.
    Table,
    /// The answer as canonical protobuf JSON.
    Json,
    /// A row for each gear; only of `range`.
    Csv,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Does it fit?
    Check(Check),
    /// Which gears does it give?
    Range(Range),
    /// What to fit instead, and what else to change?
    #[command(subcommand)]
    Recommend(Recommend),
    /// The parts, their prices and their stock.
    #[command(subcommand)]
    Catalogue(Catalogue),
    /// The rules: what is checked, and why.
    #[command(subcommand)]
    Rules(Rules),
    /// The attributes that describe parts, with units, ranges and questions.
    #[command(after_help = "Example: sprag attributes cassette")]
    Attributes {
        /// Only this kind, such as "cassette".
        kind: Option<String>,
    },
    /// Print a completion script for a shell.
    #[command(after_help = "Example: sprag completions bash")]
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
}

/// How parts are named on the command line.
const REFERENCES: &str = "A part (REF) is a SKU, gtin:NUMBER, maker:BRAND/NUMBER, @FILE with a described part in TOML or JSON, \
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

/// What to fit instead.
#[derive(Debug, Subcommand)]
pub enum Recommend {
    /// A stand-in for one part of the bike.
    #[command(after_help = format!("{REFERENCES}\n\nExample: sprag recommend substitute --build deploy/demo/bikes/ferry-tourer.toml --item cassette"))]
    Substitute {
        /// The bike.
        #[arg(long, value_name = "FILE")]
        build: PathBuf,
        /// The item whose stand-in is wanted.
        #[arg(long, value_name = "ITEM", required_unless_present = "wanted")]
        item: Option<String>,
        /// The part that was asked for.
        #[arg(long, value_name = "REF")]
        wanted: Option<String>,
        /// Further wishes.
        #[command(flatten)]
        wishes: Wishes,
    },
    /// The further changes that make a basket work.
    #[command(after_help = format!("{REFERENCES}\n\nExample: sprag recommend complete --build deploy/demo/bikes/ferry-tourer.toml --fit CS09-1146"))]
    Complete {
        /// The bike and the basket.
        #[command(flatten)]
        bike: Bike,
        /// Further wishes.
        #[command(flatten)]
        wishes: Wishes,
    },
    /// Parts that reach a goal for the gearing.
    #[command(
        after_help = "Example: sprag recommend upgrade --build deploy/demo/bikes/ferry-tourer.toml --lowest-ratio 0.9"
    )]
    Upgrade {
        /// The bike.
        #[arg(long, value_name = "FILE")]
        build: PathBuf,
        /// The lowest gear is at most this ratio.
        #[arg(long, value_name = "RATIO")]
        lowest_ratio: Option<f64>,
        /// The highest gear is at least this ratio.
        #[arg(long, value_name = "RATIO")]
        highest_ratio: Option<f64>,
        /// The overall range is at least this many percent.
        #[arg(long, value_name = "PERCENT")]
        range_percent: Option<i64>,
        /// Further wishes.
        #[command(flatten)]
        wishes: Wishes,
    },
}

/// Wishes of every recommendation.
#[derive(Debug, Args)]
pub struct Wishes {
    /// An item or kind that must stay.
    #[arg(long, value_name = "ITEM")]
    pub keep: Vec<String>,
    /// A part that the customer owns.
    #[arg(long, value_name = "REF")]
    pub owned: Vec<String>,
    /// How published limits are held.
    #[arg(long, value_enum)]
    pub practice: Option<Practice>,
    /// What counts most.
    #[arg(long, value_enum, default_value_t = Objective::FewestChanges)]
    pub objective: Objective,
    /// The most that an option may cost, such as "120 EUR".
    #[arg(long, value_name = "AMOUNT")]
    pub budget: Option<String>,
    /// At most this many options.
    #[arg(long, default_value_t = 5)]
    pub options: i32,
    /// Parts that are out of stock count too.
    #[arg(long)]
    pub out_of_stock: bool,
}

/// What counts most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Objective {
    /// Fewest changes, then price.
    FewestChanges,
    /// Lowest price, then fewest changes.
    LowestPrice,
    /// Lowest mass, then fewest changes.
    LowestMass,
}

/// Parts, prices and stock.
#[derive(Debug, Subcommand)]
pub enum Catalogue {
    /// Import a file of parts, NDJSON or CSV; all rows or none.
    #[command(after_help = "Example: sprag catalogue import deploy/demo/catalogue.ndjson")]
    Import {
        /// The file; its name ends in .csv, .ndjson or .jsonl.
        file: PathBuf,
        /// The file is the whole catalogue: parts that it does not name go.
        #[arg(long)]
        full: bool,
        /// Check everything, publish nothing.
        #[arg(long)]
        validate_only: bool,
        /// Publish the good rows and report the bad ones.
        #[arg(long)]
        skip_bad_rows: bool,
        /// The same id with the same file publishes once.
        #[arg(long, value_name = "ID", default_value = "")]
        request_id: String,
        /// Who imports, for the revision history.
        #[arg(long, default_value = "")]
        author: String,
        /// Why, for the revision history.
        #[arg(long, default_value = "")]
        note: String,
    },
    /// Show one part: SKU, gtin:NUMBER or maker:BRAND/NUMBER.
    #[command(after_help = "Example: sprag catalogue show CS09-1146")]
    Show {
        /// The part.
        part: String,
    },
    /// List parts in order of SKU.
    #[command(after_help = "Example: sprag catalogue list --kind cassette --in-stock")]
    List {
        /// Only this kind.
        #[arg(long, default_value = "")]
        kind: String,
        /// Only parts in stock.
        #[arg(long)]
        in_stock: bool,
        /// At most this many.
        #[arg(long, default_value_t = 100)]
        limit: usize,
    },
    /// Write every part as NDJSON that imports to an identical catalogue.
    #[command(after_help = "Example: sprag catalogue export parts.ndjson")]
    Export {
        /// The file; none = standard output.
        file: Option<PathBuf>,
    },
    /// Set price or stock of a part.
    #[command(after_help = "Example: sprag catalogue shelf CS09-1146 --stock 3 --price \"39.90 EUR\"")]
    Shelf {
        /// Stock number.
        sku: String,
        /// The new price.
        #[arg(long)]
        price: Option<String>,
        /// The new stock.
        #[arg(long)]
        stock: Option<i64>,
    },
    /// Show what is published.
    Revision,
    /// List interfaces: spline patterns, pull groups, bolt circles ...
    #[command(after_help = "Example: sprag catalogue interfaces freehub")]
    Interfaces {
        /// Only this class.
        #[arg(default_value = "")]
        class: String,
    },
}

/// Rules.
#[derive(Debug, Subcommand)]
pub enum Rules {
    /// Every mating with its rules.
    List,
    /// The page of one mating.
    #[command(after_help = "Example: sprag rules show cassette-on-body")]
    Show {
        /// The mating, or "mating/rule".
        rule: String,
    },
}
