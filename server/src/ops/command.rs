//! What spragd does when it is called.

use std::path::Path;
use std::process::ExitCode;

use sprag_catalogue::store::{Store, TrialCommand, restore, trial_report};
use tokio::net::TcpListener;
use tokio::signal::unix::{SignalKind, signal};
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_check_response::ServingStatus;
use tonic_health::pb::health_client::HealthClient;

use super::config::{Cli, Command, Config};
use super::telemetry;

/// Carries out a command line; the exit status is 0, 1 for a failure, 2 for a wrong configuration.
pub fn run(cli: Cli) -> ExitCode {
    if let Some(Command::TrialOpen { path }) = &cli.command {
        let (status, report) = trial_report(path);
        eprintln!("{report}");
        return ExitCode::from(status);
    }
    if let Some(Command::Probe { server }) = &cli.command {
        return probe(server);
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
        let listener = TcpListener::bind(config.listen).await.map_err(|error| {
            anyhow::anyhow!(
                "cannot listen on {}: {error}; choose another address with --listen",
                config.listen
            )
        })?;
        // Printed for callers that asked for any free port.
        println!("listening on http://{}", listener.local_addr()?);
        let mut terminate = signal(SignalKind::terminate())?;
        let mut interrupt = signal(SignalKind::interrupt())?;
        crate::run(config, listener, async move {
            tokio::select! {
                _ = terminate.recv() => {}
                _ = interrupt.recv() => {}
            }
        })
        .await
    })
}

/// The program itself with its hidden subcommand, for examining a suspect store in a process of its own.
pub fn trial_command() -> Option<TrialCommand> {
    let program = std::env::current_exe().ok()?;
    // Inside a test the program is another one, which knows no such subcommand.
    let is_server = program.file_stem().is_some_and(|name| name == "spragd");
    is_server.then(|| TrialCommand::new(program, ["trial-open"]))
}

fn probe(server: &str) -> ExitCode {
    let asked = async {
        let endpoint = tonic::transport::Endpoint::from_shared(server.to_owned())?
            .connect_timeout(std::time::Duration::from_secs(3))
            .timeout(std::time::Duration::from_secs(3));
        let mut client = HealthClient::new(endpoint.connect().await?);
        let answer = client.check(HealthCheckRequest { service: String::new() }).await?;
        anyhow::Ok(answer.into_inner().status())
    };
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    match runtime.map_err(anyhow::Error::from).and_then(|runtime| runtime.block_on(asked)) {
        Ok(ServingStatus::Serving) => ExitCode::SUCCESS,
        Ok(other) => {
            eprintln!("{server} answers {}", other.as_str_name());
            ExitCode::FAILURE
        }
        Err(error) => {
            eprintln!("{server} does not answer: {error:#}");
            ExitCode::FAILURE
        }
    }
}
