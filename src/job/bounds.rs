//! How many of a thing one job can hold at one place: far more than any piping has, and no more than every part of the
//! program can work on and draw in a moment. Whoever reads or edits a job refuses more.

/// The most penetrations on one run.
pub const MOST_PENETRATIONS: usize = 100;
/// The most runs that meet at one joint.
pub const MOST_RUNS_AT_JOINT: usize = 100;
/// The most runs between the same two joints.
pub const MOST_RUNS_BETWEEN: usize = 10;
/// The most notes that point at one joint.
pub const MOST_NOTES_AT_JOINT: usize = 100;
/// The most joints at one place of the lattice.
pub const MOST_JOINTS_AT_PLACE: usize = 100;
/// The most letters of one text.
pub const MOST_LETTERS: usize = 4_000;

/// The most variants of one job.
pub const MOST_VARIANTS: usize = 10;
