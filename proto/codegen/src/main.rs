//! Writes everything that follows from `proto/sprag/v1/*.proto`:
//!
//! * `proto/src/gen/`: messages, clients, servers and the descriptor set;
//! * `server/engine/src/part/dictionary.rs`: kinds, attributes, words, ranges and questions for the engine;
//! * `server/catalogue/src/convert/scalars.rs`: conversions between messages and engine parts.
//!
//! `cargo run --manifest-path proto/codegen/Cargo.toml` writes; with `-- --check` it compares and fails on drift.

mod api;
mod convert;
mod dictionary;
mod model;

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

fn main() -> Result<()> {
    let check = match std::env::args().nth(1).as_deref() {
        None => false,
        Some("--check") => true,
        Some(other) => bail!("unknown argument {other:?}: use none to write, or --check to compare"),
    };
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let descriptors = api::compile(&root.join("proto"))?;
    let model = model::Model::read(&descriptors)?;
    let mut files = api::generate(&descriptors)?;
    files.push(("server/engine/src/part/dictionary.rs".into(), rustfmt(&dictionary::generate(&model))?));
    files.push(("server/catalogue/src/convert/scalars.rs".into(), rustfmt(&convert::generate(&model))?));
    let drifted: Vec<PathBuf> = files
        .iter()
        .filter(|(path, content)| std::fs::read(root.join(path)).ok().as_deref() != Some(content))
        .map(|(path, _)| path.clone())
        .collect();
    if check {
        if !drifted.is_empty() {
            bail!("generated files differ from the .proto files: {drifted:?}; run the generator and commit");
        }
        println!("generated files match the .proto files");
        return Ok(());
    }
    for (path, content) in files.iter().filter(|(path, _)| drifted.contains(path)) {
        let target = root.join(path);
        if let Some(folder) = target.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::write(&target, content).with_context(|| format!("cannot write {}", target.display()))?;
        println!("wrote {}", path.display());
    }
    Ok(())
}

/// Formats generated code as the rest of the house is formatted.
fn rustfmt(source: &str) -> Result<Vec<u8>> {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("generated.rs");
    std::fs::write(&file, source)?;
    let config = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../.rustfmt.toml");
    let status = std::process::Command::new("rustfmt").arg("--config-path").arg(config).arg(&file).status();
    match status {
        Ok(status) if status.success() => Ok(std::fs::read(&file)?),
        Ok(status) => bail!("rustfmt failed on generated code: {status}"),
        Err(error) => bail!("cannot run rustfmt, which the generator needs: {error}"),
    }
}
