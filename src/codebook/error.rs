//! What is wrong with a file of the codebook, where, and what to do.

/// A fault in a file of the codebook: one of our own assets, or a profile or table that a person wrote.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}, line {line}, column {column}: {what}; {remedy}")]
pub struct CodebookError {
    /// The file, as the reader knows it.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1: a character in a profile, a cell in a table.
    pub column: usize,
    /// What is wrong, with the offending text.
    pub what: String,
    /// What to do.
    pub remedy: String,
}
