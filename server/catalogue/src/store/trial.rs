//! A trial opening: opens a copy of a suspect store and verifies all of it, preferably in a process of its own.

use std::ffi::OsString;
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, ExitStatus, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use super::engine::KeyValueStore as _;
use super::sled_engine::SledEngine;
use super::verify::{self, Summary};
use super::{files, marker, witness};
use crate::error::{FileError, OpenError};

/// A program that calls [`trial_report`] on the path that it is given last, writes the text to its standard error, and exits
/// with the status: usually the server's own, with a hidden subcommand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialCommand {
    /// The program.
    pub program: PathBuf,
    /// Arguments before the path.
    pub args: Vec<OsString>,
    /// How long it may take before it is ended and counts as failed.
    pub patience: Duration,
}

impl TrialCommand {
    /// A command with ten minutes of patience.
    pub fn new(program: impl Into<PathBuf>, args: impl IntoIterator<Item = impl Into<OsString>>) -> Self {
        let args = args.into_iter().map(Into::into).collect();
        Self { program: program.into(), args, patience: Duration::from_secs(600) }
    }
}

const VERIFIED: u8 = 0;
const FAILED: u8 = 1;
/// The trial should be repeated later: the usual number for a passing failure.
const TRY_LATER: u8 = 75;

/// Runs [`trial_open`]; returns the exit status that [`TrialCommand`] wants, and the text for the standard error: why it
/// failed, or what is wrong with older revisions.
#[must_use]
pub fn trial_report(path: &Path) -> (u8, String) {
    match trial_open(path) {
        Ok(summary) => (VERIFIED, summary.history_faults.join("; ")),
        Err(error) if error.retryable() => (TRY_LATER, error.to_string()),
        Err(error) => (FAILED, error.to_string()),
    }
}

/// Opens the store in a folder, verifies all of it, and closes it. It may change the engine's files, so it is meant for
/// copies; it never creates a store.
///
/// # Errors
/// Whatever does not match, wanted and found.
pub fn trial_open(path: &Path) -> Result<Summary, OpenError> {
    marker::check_store_marker(path)?;
    let data = path.join(files::DATA);
    let engine = SledEngine::open_existing(&data)?;
    let summary = verify::verify(&engine, witness::read(path)?.as_ref())?;
    engine.flush()?;
    drop(engine);
    SledEngine::await_release(&data)?;
    Ok(summary)
}

/// What a trial came to.
pub(crate) enum Outcome {
    /// It verifies; faults of older revisions, if any.
    Verified(Option<String>),
    /// It does not.
    Failed(String),
}

/// Runs a trial on a copy. An error means that nothing is known of the copy.
pub(crate) fn run(path: &Path, command: Option<&TrialCommand>) -> Result<Outcome, OpenError> {
    match command {
        Some(command) => run_child(path, command),
        // The engine catches its own panics.
        None => match trial_open(path) {
            Ok(summary) => {
                let faults = summary.history_faults;
                Ok(Outcome::Verified((!faults.is_empty()).then(|| faults.join("; "))))
            }
            Err(error) if error.retryable() => Err(error),
            Err(error) => Ok(Outcome::Failed(error.to_string())),
        },
    }
}

fn run_child(path: &Path, command: &TrialCommand) -> Result<Outcome, OpenError> {
    let log = path.join("trial.log");
    let failed = |error| FileError::new("cannot run", &command.program, error);
    let errors = File::create(&log).map_err(|error| FileError::new("cannot write", &log, error))?;
    let mut child = Command::new(&command.program)
        .args(&command.args)
        .arg(path)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(errors)
        .spawn()
        .map_err(failed)?;
    let status = wait(&mut child, command.patience).map_err(failed)?;
    let said = files::read_text(&log)?.unwrap_or_default().trim().to_owned();
    match status {
        None => Ok(Outcome::Failed(format!("not done after {} s; {said}", command.patience.as_secs()))),
        Some(status) if status.success() => Ok(Outcome::Verified((!said.is_empty()).then_some(said))),
        Some(status) if status.code() == Some(i32::from(TRY_LATER)) => {
            Err(failed(std::io::Error::new(std::io::ErrorKind::ResourceBusy, said)).into())
        }
        Some(status) => Ok(Outcome::Failed(format!("{status}; {said}"))),
    }
}

/// Waits for a child; ends it when it takes too long.
fn wait(child: &mut Child, patience: Duration) -> std::io::Result<Option<ExitStatus>> {
    let start = Instant::now();
    loop {
        if let Some(status) = child.try_wait()? {
            return Ok(Some(status));
        }
        if start.elapsed() > patience {
            child.kill()?;
            child.wait()?;
            return Ok(None);
        }
        thread::sleep(Duration::from_millis(10));
    }
}
