//! What each command does.

mod attributes;
mod catalogue;
mod check;
mod range;
mod recommend;
mod records;
mod rules;

use clap::CommandFactory;

use crate::args::{Cli, Command, Format, Practice};
use sprag_proto::v1 as pb;

/// Carries out a command line; gives the exit status.
pub async fn run(cli: Cli) -> anyhow::Result<u8> {
    let Cli { server, output, timeout, command } = cli;
    if output == Format::Csv && !matches!(command, Command::Range(_)) {
        anyhow::bail!("only `sprag range` answers as CSV: use --output table or --output json");
    }
    match command {
        Command::Attributes { kind } => attributes::show(kind.as_deref(), output),
        Command::Completions { shell } => {
            clap_complete::generate(shell, &mut Cli::command(), "sprag", &mut std::io::stdout());
            Ok(0)
        }
        asking => {
            let service = crate::connect::Service { server, timeout };
            match asking {
                Command::Check(check) => check::check(&check, &service, output).await,
                Command::Range(range) => range::range(&range, &service, output).await,
                Command::Recommend(recommend) => recommend::recommend(recommend, &service, output).await,
                Command::Catalogue(catalogue) => catalogue::catalogue(catalogue, &service, output).await,
                Command::Rules(rules) => rules::rules(rules, &service, output).await,
                Command::Attributes { .. } | Command::Completions { .. } => Ok(0),
            }
        }
    }
}

/// How limits are held; not given = the server's default.
fn practice(given: Option<Practice>) -> i32 {
    match given {
        None => pb::LimitPractice::Unspecified,
        Some(Practice::Maker) => pb::LimitPractice::Maker,
        Some(Practice::Workshop) => pb::LimitPractice::Workshop,
    }
    .into()
}
