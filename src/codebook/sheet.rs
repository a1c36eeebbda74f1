//! The plain text of our fact files: a head of `key<TAB>value` lines, a blank line, a header and rows of cells.
