//! The program called for its window where none can be: one line says why and what to do instead, and where no job was
//! given, the sheets of a kitchen that the program brings with it show what it does.

use super::{Arguments, Command, draw, input};
use clap::Parser;
use std::env;
use std::ffi::OsStr;
use std::fs;
use std::io::{Write, stderr};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// The job that is drawn where none is given.
const KITCHEN: &str = include_str!("../../examples/patio-kitchen.ron");
/// How its sheets are called.
const KITCHEN_FILE: &str = "patio-kitchen.ron";
/// The folder for them.
const FOLDER: &str = "stubout-patio-kitchen";

/// Says why there is no window (`why` ends a sentence); without a job it draws one.
pub fn without_window(job: Option<&Path>, why: &str) -> ExitCode {
    let code = match job {
        Some(job) => match input::read(job) {
            Ok(_) => input::report(&format!(
                "Can't open the window: {why}. Draw the sheets with `stubout draw {}`.",
                quoted(job)
            )),
            Err(fault) => input::report(&fault),
        },
        None => kitchen(why),
    };
    ExitCode::from(code)
}

fn kitchen(why: &str) -> u8 {
    let into = match folder() {
        Ok(into) => into,
        Err(fault) => return input::report(&format!("Can't open the window: {why}. {fault}.")),
    };
    let _ = writeln!(
        stderr(),
        "Can't open the window: {why}. The sheets of a sample job, a patio kitchen, go to {}; `stubout draw JOB` draws yours.",
        into.display()
    );
    let call = [
        OsStr::new("stubout"),
        "draw".as_ref(),
        KITCHEN_FILE.as_ref(),
        "--into".as_ref(),
        into.as_os_str(),
    ];
    match Arguments::try_parse_from(call).map(|arguments| arguments.command) {
        Ok(Some(Command::Draw(arguments))) => draw::run_built_in(&arguments, KITCHEN),
        Ok(_) => super::TROUBLE,
        Err(fault) => input::report(&fault.to_string()),
    }
}

/// A folder for the sheets: here, or among temporary files where nothing can be written here.
fn folder() -> Result<PathBuf, String> {
    let here = env::current_dir().unwrap_or_default();
    let mut fault = String::new();
    for parent in [here, env::temp_dir()] {
        let folder = parent.join(FOLDER);
        match fs::create_dir_all(&folder) {
            Ok(()) => return Ok(folder),
            Err(error) => fault = format!("{}: can't make this folder: {error}", folder.display()),
        }
    }
    Err(fault)
}

/// A path as it is typed behind a command.
fn quoted(path: &Path) -> String {
    let path = path.display().to_string();
    match path.contains(char::is_whitespace) {
        true => format!("\"{path}\""),
        false => path,
    }
}
