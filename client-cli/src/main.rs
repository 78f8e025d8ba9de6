//! sprag: asks the service what fits, what range it brings, and what to fit instead.

mod args;
mod command;
mod connect;
mod files;
mod output;

use std::process::ExitCode;

use clap::Parser;

/// Exit status when a question could not be asked or answered.
const COULD_NOT_ASK: u8 = 2;

fn main() -> ExitCode {
    let cli = args::Cli::parse();
    let runtime = match tokio::runtime::Builder::new_current_thread().enable_all().build() {
        Ok(runtime) => runtime,
        Err(error) => {
            eprintln!("sprag: cannot start: {error}");
            return ExitCode::from(COULD_NOT_ASK);
        }
    };
    match runtime.block_on(command::run(cli)) {
        Ok(status) => ExitCode::from(status),
        Err(error) => {
            // A reader that went away, such as `head`, is no failure.
            if error
                .downcast_ref::<std::io::Error>()
                .is_some_and(|e| e.kind() == std::io::ErrorKind::BrokenPipe)
            {
                return ExitCode::SUCCESS;
            }
            eprintln!("sprag: {}", connect::explain(&error));
            ExitCode::from(COULD_NOT_ASK)
        }
    }
}
