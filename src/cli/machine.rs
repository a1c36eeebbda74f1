//! `--json`: what a command found, for machines. `stubout schema` describes the shape, which does not change within a version.

use crate::codebook::Mark;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Version of the shape; a key may be added within one, none changes its meaning or goes.
pub const SHAPE: u32 = 2;

/// Prints one JSON value for all jobs of a call; gives the exit code of the printing.
pub fn print<T>(command: &str, results: &[(PathBuf, Result<T, String>)], value: impl Fn(&T) -> Value) -> u8 {
    let jobs: Vec<Value> = results
        .iter()
        .map(|(path, result)| {
            let file = path.display().to_string();
            match result {
                Ok(result) => {
                    let mut entry = json!({ "file": file });
                    if let (Value::Object(entry), Value::Object(value)) = (&mut entry, value(result)) {
                        entry.extend(value);
                    }
                    entry
                }
                Err(fault) => json!({ "file": file, "error": fault }),
            }
        })
        .collect();
    print_whole(command, json!({ "marks": Mark::EXPLAINED, "jobs": jobs }))
}

/// Prints the one JSON value of a call, which says what program, shape and command it is of.
pub fn print_whole(command: &str, answer: Value) -> u8 {
    let mut whole = json!({ "stubout": SHAPE, "command": command, "caution": super::table::CAUTION });
    if let (Value::Object(whole), Value::Object(answer)) = (&mut whole, answer) {
        whole.extend(answer);
    }
    super::figure::round("", &mut whole);
    super::table::out(&format!("{whole:#}\n"))
}
