//! A capacity table of a person's own that sizes a job.

/// The name of a capacity table that is no part of the program, with what tells whether it still is the same.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct OwnTable {
    /// The name that the table's file gives it.
    pub id: String,
    /// Sixteen signs that are others when a figure of it is another.
    pub figures: String,
}
