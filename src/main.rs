//! Arguments in, drawing out.

use std::process::ExitCode;

fn main() -> ExitCode {
    stubout::cli::run()
}
