//! Arguments in, drawing out: a command is answered, anything else opens the window, or says why it cannot.

use std::process::ExitCode;
use stubout::cli::{Asked, run, without_window};

fn main() -> ExitCode {
    match run() {
        Asked::Answered(code) => code,
        Asked::Window(file) => window(file.clone()).unwrap_or_else(|why| without_window(file.as_deref(), &why)),
    }
}

#[cfg(feature = "window")]
fn window(file: Option<std::path::PathBuf>) -> Result<ExitCode, String> {
    stubout::app::run(file)
}

#[cfg(not(feature = "window"))]
fn window(_: Option<std::path::PathBuf>) -> Result<ExitCode, String> {
    Err("this program was built without one".to_owned())
}
