//! The lists that are handed over for a spreadsheet. Knows no widgets.

use crate::codebook::Codebook;
use crate::export::csv;
use crate::job::Job;
use crate::study::Study;
use crate::work::{CutList, StockPlan, TakeOff, spreadsheet};
use std::ffi::{OsStr, OsString};

/// What each file is called behind the name of the job.
const LISTS: [&str; 3] = ["take-off", "cut-list", "sections"];

/// The names of the files.
pub fn names(stem: &OsStr) -> Vec<OsString> {
    let name = |list: &str| {
        let mut name = stem.to_os_string();
        name.push(format!("-{list}.csv"));
        name
    };
    LISTS.into_iter().map(name).collect()
}

/// Their bytes, in the order of their names.
pub fn files(job: &Job, study: &Study, book: &Codebook) -> Vec<Vec<u8>> {
    let cuts = CutList::of(job, study, book);
    let stock = StockPlan::of(&cuts, study, book);
    let take_off = TakeOff::of(job, study, book, &cuts, &stock);
    let rows = [
        spreadsheet::take_off(&take_off, None, job.settings.units),
        spreadsheet::cuts(job, &cuts),
        spreadsheet::sections(job, study),
    ];
    rows.into_iter().map(|rows| csv::write(rows).into_bytes()).collect()
}
