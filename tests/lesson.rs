//! What an instructor works with: worksheets carry no answer, class sets are checked by an independent reading of the
//! printed tables, marking names the slip, exercises can be read.

#[path = "lesson/class_sets.rs"]
mod class_sets;
#[path = "support/clear_labels.rs"]
mod clear_labels;
#[path = "support/dice.rs"]
mod dice;
#[path = "lesson/exercises.rs"]
mod exercises;
#[path = "lesson/marks.rs"]
mod marks;
#[path = "lesson/printed.rs"]
mod printed;
#[path = "support/random_job.rs"]
mod random_job;
#[path = "lesson/worksheets.rs"]
mod worksheets;

use std::path::Path;
use stubout::job::Job;

/// A job of the examples or of the tests.
fn job(path: &str) -> Job {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    stubout::file::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}
