//! The command line.

mod bike;
mod catalogue;
mod recommend;
mod rules;

use clap::{Parser, Subcommand, ValueEnum};

pub use bike::{Bike, Check, Practice, Range};
pub use catalogue::{Catalogue, Publish, Records};
pub use recommend::{Objective, Recommend, Wishes};
pub use rules::Rules;

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
