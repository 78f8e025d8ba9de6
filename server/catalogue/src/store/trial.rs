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

/// A program that calls [`trial_open`] on the path it is given last and exits with 0 when that verifies, with 1 when it does
/// not, and with 75 when trying again later may help. What it writes to its standard error is told to the operator.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialCommand {
    /// The program: usually the server's own.
    pub program: PathBuf,
    /// Arguments before the path.
    pub args: Vec<OsString>,
    /// How long it may take before it is ended and counts as failed.
    pub patience: Duration,
}

/// Exit status for a trial that should be repeated later.
const TRY_LATER: i32 = 75;

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
        Some(status) if status.code() == Some(TRY_LATER) => {
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
