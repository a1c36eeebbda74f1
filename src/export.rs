//! Where a scene goes: one file per format, each one exhaustive match over the three kinds of item.
//!
//! Exports take a finished scene and decide nothing about its looks. They return text or bytes; files are written by
//! the floors above. Knows no pipes.
