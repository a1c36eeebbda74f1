//! What the codebook gives, held against a second transcription of the published text or against the equation behind it.
//!
//! Nothing here reads the fact files of the program: figures were typed a second time, in another layout, or are computed
//! by an equation written down again. The source stands beside each check; what deviates is listed, cell by cell.

mod canada;
mod clauses;
mod columns;
mod computed;
mod deviations;
mod equation;
mod examples;
mod fittings;
mod gravity;
mod laws;
mod lists;
mod pipe;
mod profiles;
mod second_reading;
mod temperature;
mod traps;
mod whole_jobs;

#[path = "../support/draft.rs"]
mod draft;
