//! The catalogue's commands.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// Parts, prices and stock.
#[derive(Debug, Subcommand)]
pub enum Catalogue {
    /// Import a file of parts, NDJSON or CSV; all rows or none.
    #[command(after_help = "Example: sprag catalogue import deploy/demo/catalogue.ndjson")]
    Import {
        /// The file; its name ends in .csv, .ndjson or .jsonl.
        file: PathBuf,
        /// The file names all parts: those that it does not name go. Statements, rulings, interfaces and aliases stay.
        #[arg(long)]
        full: bool,
        /// The file is the whole catalogue, as an export writes it: everything that it does not name goes.
        #[arg(long, conflicts_with = "full")]
        everything: bool,
        /// Whose words the file uses: this supplier's aliases apply before the others.
        #[arg(long, value_name = "NAME", default_value = "")]
        supplier: String,
        /// Publish the good rows and report the bad ones.
        #[arg(long)]
        skip_bad_rows: bool,
        /// How it is published.
        #[command(flatten)]
        publish: Publish,
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
    /// Write parts, statements, rulings, interfaces and aliases as NDJSON that imports to an identical catalogue.
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
    /// List interfaces: spline patterns, pull groups, bolt circles ...; or import and remove those of the shop.
    #[command(
        args_conflicts_with_subcommands = true,
        after_help = "Example: sprag catalogue interfaces freehub\nExample: sprag catalogue interfaces list"
    )]
    Interfaces {
        /// Only this class.
        #[arg(default_value = "")]
        class: String,
        /// The shop's own.
        #[command(subcommand)]
        own: Option<Records>,
    },
    /// What makers state of pairs of parts.
    #[command(subcommand, after_help = "Example: sprag catalogue statements list")]
    Statements(Records),
    /// What the shop has ruled of pairs of parts.
    #[command(subcommand, after_help = "Example: sprag catalogue rulings list")]
    Rulings(Records),
    /// The shop's own words for interfaces.
    #[command(subcommand, after_help = "Example: sprag catalogue aliases list")]
    Aliases(Records),
}

/// How a change of the catalogue is published.
#[derive(Debug, Args)]
pub struct Publish {
    /// Check everything, publish nothing.
    #[arg(long)]
    pub validate_only: bool,
    /// The same id with the same content publishes once.
    #[arg(long, value_name = "ID", default_value = "")]
    pub request_id: String,
    /// Whose change it is, for the revision history.
    #[arg(long, default_value = "")]
    pub author: String,
    /// Why, for the revision history.
    #[arg(long, default_value = "")]
    pub note: String,
}

/// What to do with statements, rulings, interfaces or aliases.
#[derive(Debug, Subcommand)]
pub enum Records {
    /// List them, with all that is said.
    List,
    /// Import a file of them, one JSON object a line; all or none. Those with a known id are replaced.
    #[command(
        after_help = "Example: sprag catalogue rulings import rulings.ndjson --author \"head mechanic\""
    )]
    Import {
        /// The file: NDJSON, each line as the API names the fields.
        file: PathBuf,
        /// How it is published.
        #[command(flatten)]
        publish: Publish,
    },
    /// Remove some by their ids.
    #[command(after_help = "Example: sprag catalogue rulings remove winter-cassettes")]
    Remove {
        /// The ids; of an interface CLASS/KEY.
        #[arg(required = true)]
        ids: Vec<String>,
        /// How it is published.
        #[command(flatten)]
        publish: Publish,
    },
}
