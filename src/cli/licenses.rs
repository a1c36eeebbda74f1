//! `stubout licenses`: under what terms the program and what is in it may be handed on.

use super::table;
use crate::licenses::{OWN, THIRD_PARTY};

/// Prints the licenses.
pub fn run() -> u8 {
    table::out(&format!("{OWN}\n{THIRD_PARTY}\n{}\n", table::CAUTION))
}
