//! Arguments in, drawing out: a command is answered, anything else opens the window.

use std::process::ExitCode;
use stubout::cli::{Asked, run};

fn main() -> ExitCode {
    match run() {
        Asked::Answered(code) => code,
        Asked::Window(file) => window(file),
    }
}

#[cfg(feature = "window")]
fn window(file: Option<std::path::PathBuf>) -> ExitCode {
    stubout::app::run(file)
}

#[cfg(not(feature = "window"))]
fn window(_: Option<std::path::PathBuf>) -> ExitCode {
    eprintln!("This build has no window: give a command; see stubout help");
    ExitCode::from(stubout::cli::TROUBLE)
}
