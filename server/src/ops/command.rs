//! What spragd does when it is called.

use std::net::SocketAddr;
use std::path::Path;
use std::process::ExitCode;

use sprag_catalogue::store::{Store, TrialCommand, restore, trial_report};
use tokio::net::TcpListener;
use tokio::signal::unix::{SignalKind, signal};

use super::config::{Cli, Command, Config};
use super::{probe, telemetry};
use crate::Listeners;

/// Carries out a command line; the exit status is 0, 1 for a failure, 2 for a wrong configuration.
pub fn run(cli: Cli) -> ExitCode {
    if let Some(Command::TrialOpen { path }) = &cli.command {
        let (status, report) = trial_report(path);
        eprintln!("{report}");
        return ExitCode::from(status);
    }
    if let Some(Command::Probe { server }) = &cli.command {
        return probe::probe(server);
    }
    let config = match Config::read(&cli.settings) {
        Ok(config) => config,
        Err(faults) => {
            faults.iter().for_each(|fault| eprintln!("{fault}"));
            return ExitCode::from(2);
        }
    };
    if cli.settings.check_config {
        println!("the configuration is good: {config:?}");
        return ExitCode::SUCCESS;
    }
    telemetry::start(&config);
    let done = match cli.command {
        Some(Command::Init) => init(&config.data),
        Some(Command::Restore { file }) => restore_store(&file, &config.data),
        _ => serve(config),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("spragd: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn init(data: &Path) -> anyhow::Result<()> {
    Store::create(data)?.close()?;
    println!("created an empty store in {}", data.display());
    Ok(())
}

fn restore_store(file: &Path, data: &Path) -> anyhow::Result<()> {
    restore(file, data)?;
    println!("restored {} from {}", data.display(), file.display());
    Ok(())
}

fn serve(config: Config) -> anyhow::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let service = bind(config.listen, "--listen").await?;
        let operations = match config.operations {
            Some(address) => Some(bind(address, "--operations").await?),
            None => None,
        };
        // Printed for callers that asked for any free port; in one piece, since such a caller may read no further.
        let mut told = format!("listening on http://{}\n", service.local_addr()?);
        if let Some(operations) = &operations {
            told.push_str(&format!("operations on http://{}\n", operations.local_addr()?));
        }
        print!("{told}");
        let listeners = Listeners { service, operations };
        let mut terminate = signal(SignalKind::terminate())?;
        let mut interrupt = signal(SignalKind::interrupt())?;
        crate::run(config, listeners, async move {
            tokio::select! {
                _ = terminate.recv() => {}
                _ = interrupt.recv() => {}
            }
        })
        .await
    })
}

async fn bind(address: SocketAddr, flag: &str) -> anyhow::Result<TcpListener> {
    TcpListener::bind(address).await.map_err(|error| {
        anyhow::anyhow!("cannot listen on {address}: {error}; choose another address with {flag}")
    })
}

/// The program itself with its hidden subcommand, for examining a suspect store in a process of its own.
pub fn trial_command() -> Option<TrialCommand> {
    let program = std::env::current_exe().ok()?;
    // Inside a test the program is another one, which knows no such subcommand.
    let is_server = program.file_stem().is_some_and(|name| name == "spragd");
    is_server.then(|| TrialCommand::new(program, ["trial-open"]))
}
