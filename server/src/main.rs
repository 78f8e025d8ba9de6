//! spragd: the gRPC service of sprag.

use clap::Parser;
use sprag_server::ops::config::Cli;

fn main() -> std::process::ExitCode {
    sprag_server::ops::command::run(Cli::parse())
}
