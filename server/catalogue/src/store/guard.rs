//! What happens to a suspect store: trials on copies, then checkpoints; the files as found are not touched until a copy has
//! verified, and kept unless that copy holds all that was acknowledged.

use std::fs;
use std::path::{Path, PathBuf};

use super::engine::EngineError;
use super::record::Acknowledged;
use super::trial::{self, Outcome};
use super::{Options, checkpoint, checkpoint_file, create, files, marker, witness};
use crate::error::{OpenError, ReadError, WriteError};
use crate::event::{Attempt, Event};

/// Puts a verified store in the place of a suspect one, which may be the same files.
pub(crate) fn recover(
    path: &Path,
    options: &Options,
    why: String,
    on_event: &dyn Fn(Event),
) -> Result<(), OpenError> {
    let mut tried = vec![format!("it is suspect because {why}")];
    on_event(Event::Suspect { why });
    let acknowledged = witness::read(path)?;
    if acknowledged.is_none() {
        on_event(Event::AcknowledgedUnknown);
    }
    let trial = trial_folder(path);
    for attempt in [Attempt::AsFound, Attempt::WithoutSnapshots, Attempt::WithoutSettings] {
        if !copy(path, &trial, attempt)? {
            continue;
        }
        match trial::run(&trial, options.trial.as_ref())? {
            Outcome::Verified(history) => {
                if let Some(why) = history.clone() {
                    on_event(Event::HistoryDamaged { why });
                }
                let same = attempt == Attempt::AsFound && acknowledged.is_some() && history.is_none();
                let kept = swap(path, !same)?;
                on_event(Event::Recovered { attempt, kept });
                return Ok(());
            }
            Outcome::Failed(why) => {
                tried.push(format!("{attempt}: {why}"));
                on_event(Event::TrialFailed { attempt, why });
            }
        }
    }
    if from_checkpoints(path, options, acknowledged.as_ref(), &mut tried, on_event)? {
        return Ok(());
    }
    files::remove_folder(&trial)?;
    Err(OpenError::Damaged { path: path.to_path_buf(), kept: path.to_path_buf(), tried })
}

/// Tries the checkpoints, newest first.
fn from_checkpoints(
    path: &Path,
    options: &Options,
    acknowledged: Option<&Acknowledged>,
    tried: &mut Vec<String>,
    on_event: &dyn Fn(Event),
) -> Result<bool, OpenError> {
    let trial = trial_folder(path);
    for (_, file) in checkpoint::list(&files::beside(path, ".checkpoints"))?.into_iter().rev() {
        files::remove_folder(&trial)?;
        let built = create::from_checkpoint(&file, &trial, acknowledged);
        let outcome = match built {
            Ok(()) => trial::run(&trial, options.trial.as_ref())?,
            Err(error) if error.retryable() => return Err(error),
            Err(error) => Outcome::Failed(error.to_string()),
        };
        if let Outcome::Failed(why) = outcome {
            tried.push(format!("checkpoint {}: {why}", file.display()));
            on_event(Event::CheckpointRefused { path: file, why });
            continue;
        }
        let opening = checkpoint_file::opening(&file)?;
        let kept = swap(path, true)?;
        on_event(Event::Recovered { attempt: Attempt::Checkpoint, kept });
        let (revision, shelf_sequence) = (opening.manifest.revision, opening.shelf_sequence);
        if let Some(known) = acknowledged
            && (known.revision > revision || known.shelf_sequence > shelf_sequence)
        {
            on_event(Event::ChangesLost {
                acknowledged_revision: known.revision,
                revision,
                acknowledged_shelf: known.shelf_sequence,
                shelf_sequence,
            });
        }
        return Ok(true);
    }
    Ok(false)
}

/// A file of the engine that a trial goes without: it makes these anew from its log.
fn is_left_out(attempt: Attempt, file: &Path) -> bool {
    let name = file.file_name().and_then(|name| name.to_str()).unwrap_or_default();
    match attempt {
        Attempt::AsFound | Attempt::Checkpoint => false,
        Attempt::WithoutSnapshots => name.starts_with("snap."),
        Attempt::WithoutSettings => name.starts_with("snap.") || name == "conf",
    }
}

/// Copies the store for a trial; `false` where it would go without nothing, and so be the first attempt once more.
fn copy(path: &Path, trial: &Path, attempt: Attempt) -> Result<bool, OpenError> {
    files::remove_folder(trial)?;
    let data = path.join(files::DATA);
    let there = if data.exists() { files::list(&data)? } else { Vec::new() };
    if attempt != Attempt::AsFound && !there.iter().any(|file| is_left_out(attempt, file)) {
        return Ok(false);
    }
    files::copy_folder(path, trial, &|file| {
        let wanted = file.starts_with(files::DATA) || file == Path::new(files::WITNESS);
        wanted && !is_left_out(attempt, file)
    })?;
    files::make_folder(&trial.join(files::DATA))?;
    marker::write_store_marker(trial)?;
    Ok(true)
}

fn trial_folder(path: &Path) -> PathBuf {
    files::beside(path, ".trial")
}

/// What is exchanged, in this order: the record of what was acknowledged belongs to the files.
const EXCHANGED: [&str; 2] = [files::DATA, files::WITNESS];

/// Moves the files of the store aside and those of the trial in; returns where the former are, when they are kept.
fn swap(path: &Path, keep: bool) -> Result<Option<PathBuf>, OpenError> {
    let trial = trial_folder(path);
    let aside = next_aside(path)?;
    files::make_folder(&aside)?;
    for name in EXCHANGED {
        move_if_there(&path.join(name), &aside.join(name))?;
    }
    for name in EXCHANGED.into_iter().rev() {
        move_if_there(&trial.join(name), &path.join(name))?;
    }
    files::remove_folder(&trial)?;
    if keep {
        marker::write_store_marker(&aside)?;
        return Ok(Some(aside));
    }
    files::remove_folder(&aside)?;
    Ok(None)
}

/// Undoes an exchange that was cut short: the files as found come back, and the trial is run again.
pub(crate) fn undo_half_swap(path: &Path, on_event: &dyn Fn(Event)) -> Result<(), OpenError> {
    if path.join(files::DATA).exists() || !trial_folder(path).exists() {
        return Ok(());
    }
    let Some(aside) =
        asides(path)?.pop().map(|(_, aside)| aside).filter(|aside| aside.join(files::DATA).exists())
    else {
        return Ok(());
    };
    for name in EXCHANGED.into_iter().rev() {
        move_if_there(&aside.join(name), &path.join(name))?;
    }
    // It holds nothing else.
    files::remove_folder(&aside)?;
    on_event(Event::HalfSwapUndone { from: aside });
    Ok(())
}

fn move_if_there(from: &Path, to: &Path) -> Result<(), OpenError> {
    if from.exists() {
        files::rename(from, to)?;
        files::sync_folder_of(from)?;
    }
    Ok(())
}

/// Folders with files as once found, in order of their numbers.
fn asides(path: &Path) -> Result<Vec<(u64, PathBuf)>, OpenError> {
    let prefix = files::beside(path, ".suspect-");
    let folder = prefix.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = prefix.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let failed = |error| crate::error::FileError::new("cannot list", folder, error);
    let mut found = Vec::new();
    for item in fs::read_dir(folder).map_err(failed)? {
        let item = item.map_err(failed)?;
        let number = item.file_name().to_str().and_then(|item| item.strip_prefix(&name)?.parse().ok());
        found.extend(number.map(|number| (number, item.path())));
    }
    found.sort();
    Ok(found)
}

fn next_aside(path: &Path) -> Result<PathBuf, OpenError> {
    let number: u64 = asides(path)?.last().map_or(0, |(number, _)| *number) + 1;
    Ok(files::beside(path, &format!(".suspect-{number}")))
}

/// The error speaks of damage, so a trial and the checkpoints may help.
pub(crate) fn is_damage(error: &OpenError) -> bool {
    let engine = |error: &EngineError| matches!(error, EngineError::Damaged(_));
    let read = ReadError::is_damage;
    match error {
        OpenError::Read(error) | OpenError::Write(WriteError::Read(error)) => read(error),
        OpenError::Engine(error) | OpenError::Write(WriteError::Engine(error)) => engine(error),
        _ => false,
    }
}
