//! Lists that are printed as text, as CSV or for machines: the take-off and the cut list.

use super::input::{self, Studied};
use super::{CLEAR, Jobs, table};
use crate::codebook::Codebook;
use crate::export::csv;
use clap::Args;
use serde_json::Value;

/// Which jobs, and how to print a list.
#[derive(Args)]
pub struct ListArguments {
    #[command(flatten)]
    pub(super) jobs: Jobs,
    /// Print comma-separated values, for a spreadsheet
    #[arg(long, conflicts_with = "json")]
    csv: bool,
}

/// A list of one job.
pub trait Listed: Send {
    /// As text for a terminal.
    fn say(&self) -> String;
    /// As rows of cells, heads first.
    fn table(&self) -> Vec<Vec<String>>;
    /// For machines.
    fn machine(&self) -> Value;
}

/// Makes and prints the list of each job.
pub fn print<L: Listed>(arguments: &ListArguments, command: &str, of: impl Fn(&Codebook, Studied) -> L + Sync) -> u8 {
    let jobs = &arguments.jobs;
    if !arguments.csv {
        return input::print_each(
            jobs,
            command,
            |book, studied| (CLEAR, of(book, studied)),
            L::machine,
            L::say,
        );
    }
    let book = match input::codebook(jobs) {
        Ok(book) => book,
        Err(fault) => return input::report(&fault),
    };
    let mut code = CLEAR;
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (path, list) in input::for_each(jobs, &book, |_, studied| Ok(of(&book, studied))) {
        match list {
            Ok(list) => {
                let first = usize::from(!rows.is_empty());
                for (at, mut row) in list.table().into_iter().enumerate().skip(first) {
                    row.insert(
                        0,
                        if at == 0 {
                            "job".to_owned()
                        } else {
                            path.display().to_string()
                        },
                    );
                    rows.push(row);
                }
            }
            Err(fault) => code = input::report(&fault),
        }
    }
    code.max(table::out(&csv::write(rows)))
}
