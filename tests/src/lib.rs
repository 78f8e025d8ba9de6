//! What tests and demo share: the programs, built as cargo says, and a running service.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, bail};
use serde_json::Value;

/// The workspace.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The programs of the workspace.
#[derive(Clone, Debug)]
pub struct Programs {
    /// The service.
    pub spragd: PathBuf,
    /// The client.
    pub sprag: PathBuf,
}

impl Programs {
    /// Builds them and takes their paths from cargo's messages.
    ///
    /// # Errors
    /// They do not build.
    pub fn build() -> anyhow::Result<Self> {
        let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let built = Command::new(cargo)
            .args(["build", "--quiet", "--package", "sprag", "--package", "sprag-server", "--bins"])
            .arg("--message-format=json-render-diagnostics")
            .current_dir(root())
            .stderr(Stdio::inherit())
            .output()
            .context("cannot run cargo")?;
        if !built.status.success() {
            bail!("the programs do not build");
        }
        let executable = |name: &str| {
            String::from_utf8_lossy(&built.stdout)
                .lines()
                .filter_map(|line| serde_json::from_str::<Value>(line).ok())
                .filter(|message| message["target"]["name"] == name)
                .find_map(|message| message["executable"].as_str().map(PathBuf::from))
                .with_context(|| format!("cargo names no executable for {name}"))
        };
        Ok(Self { spragd: executable("spragd")?, sprag: executable("sprag")? })
    }

    /// Runs the client against a service, in the workspace's folder.
    ///
    /// # Errors
    /// It cannot be started.
    pub fn client(&self, server: &str, arguments: &[&str]) -> anyhow::Result<Output> {
        Command::new(&self.sprag)
            .args(arguments)
            .env("SPRAG_SERVER", server)
            .env("COLUMNS", "100")
            .current_dir(root())
            .stdin(Stdio::null())
            .output()
            .context("cannot run the client")
    }
}

/// A running service with a store of its own; ended when it is dropped.
#[derive(Debug)]
pub struct Service {
    child: Child,
    /// Its address.
    pub address: String,
    /// The address of its probes and metrics.
    pub operations: String,
}

impl Service {
    /// Creates a store in a folder and serves it on a free port.
    ///
    /// # Errors
    /// It does not start or does not become ready within 30 seconds.
    pub fn start(programs: &Programs, data: &Path) -> anyhow::Result<Self> {
        let created = Command::new(&programs.spragd).arg("--data").arg(data).arg("init").output()?;
        if !created.status.success() {
            bail!("spragd init: {}", String::from_utf8_lossy(&created.stderr));
        }
        Self::serve(programs, data)
    }

    /// Serves a store that is there on a free port.
    ///
    /// # Errors
    /// It does not start or does not become ready within 30 seconds.
    pub fn serve(programs: &Programs, data: &Path) -> anyhow::Result<Self> {
        Self::serve_with(programs, data, &["--log", "warn"], Stdio::inherit())
    }

    /// Serves a store that is there on a free port, with further arguments and a place for the log.
    ///
    /// # Errors
    /// It does not start or does not become ready within 30 seconds.
    pub fn serve_with(
        programs: &Programs,
        data: &Path,
        arguments: &[&str],
        log: Stdio,
    ) -> anyhow::Result<Self> {
        let mut child = Command::new(&programs.spragd)
            .arg("--data")
            .arg(data)
            .args(["--listen", "127.0.0.1:0", "--operations", "127.0.0.1:0"])
            .args(arguments)
            .stdout(Stdio::piped())
            .stderr(log)
            .spawn()
            .context("cannot run spragd")?;
        let mut told = BufReader::new(child.stdout.take().context("spragd has no output")?);
        let mut address = |what: &str| -> anyhow::Result<String> {
            let mut line = String::new();
            told.read_line(&mut line)?;
            Ok(line.trim().strip_prefix(what).unwrap_or_default().to_owned())
        };
        let (address, operations) = (address("listening on ")?, address("operations on ")?);
        let mut service = Self { child, address, operations };
        if service.address.is_empty() {
            let status = service.child.wait()?;
            bail!("spragd did not listen and ended with {status}");
        }
        service.await_ready(programs)?;
        Ok(service)
    }

    fn await_ready(&mut self, programs: &Programs) -> anyhow::Result<()> {
        let deadline = Instant::now() + Duration::from_secs(30);
        loop {
            let probed = Command::new(&programs.spragd).args(["probe", &self.address]).output()?;
            if probed.status.success() {
                return Ok(());
            }
            if let Some(status) = self.child.try_wait()? {
                bail!("spragd ended with {status}");
            }
            if Instant::now() > deadline {
                bail!("spragd is not ready: {}", String::from_utf8_lossy(&probed.stderr));
            }
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// The process id.
    pub fn id(&self) -> u32 {
        self.child.id()
    }

    /// Asks the service to end, and waits for it.
    ///
    /// # Errors
    /// It cannot be asked, or does not end.
    pub fn stop(mut self) -> anyhow::Result<std::process::ExitStatus> {
        let asked = Command::new("kill").args(["-TERM", &self.child.id().to_string()]).status()?;
        if !asked.success() {
            bail!("cannot ask spragd to end");
        }
        Ok(self.child.wait()?)
    }

    /// Kills the service at once.
    ///
    /// # Errors
    /// It cannot be killed.
    pub fn kill(mut self) -> anyhow::Result<()> {
        self.child.kill()?;
        self.child.wait()?;
        Ok(())
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        // Already ended is as good as killed.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
