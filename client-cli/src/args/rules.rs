//! The rule pages' commands.

use clap::Subcommand;

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
