//! A file built into the program.

/// A file built into the program.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asset {
    /// Its path in the package.
    pub(super) file: &'static str,
    /// Its text.
    pub(super) text: &'static str,
}
