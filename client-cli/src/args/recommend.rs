//! The questions what to fit.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use super::bike::{Bike, Practice, REFERENCES};

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
