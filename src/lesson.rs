//! What an instructor works with: the working behind each size, jobs varied for a class, answers marked, exercises made.
//!
//! It knows jobs, their study and the codebook; it must not know sheets, files or windows.

mod answers;
mod class_set;
mod dice;
mod exercise;
mod lecture;
mod marking;
mod reading;
mod slip;
mod tie;
mod working;

pub use answers::{Paper, papers};
pub use class_set::{MOST, class_set};
pub use exercise::{Difficulty, Exercise, OUTLETS, Wanted, exercise};
pub use lecture::{Excerpt, SizingStep, lecture};
pub use marking::{Judged, Judgment, MarkedPaper, Marker};
pub use slip::Slip;
pub use tie::{tie, ties};
pub use working::Working;
