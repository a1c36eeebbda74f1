//! The reason for a size, in words.

use super::Study;
use crate::codebook::Codebook;
use crate::job::Job;

/// The reason for the size of a section, a sentence a line: load and whose, length and along which way, table, row,
/// column, neighbour sizes, source mark, and the physics beside it.
pub fn explain(job: &Job, book: &Codebook, study: &Study, section: usize) -> Vec<String> {
    let _ = (job, book, study, section);
    Vec::new()
}
