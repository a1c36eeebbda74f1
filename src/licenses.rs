//! Under what terms this program and what is in it may be handed on. Knows nothing else; `tests/licenses.rs` holds it to what
//! is linked.

/// The license of this program.
pub const OWN: &str = include_str!("../LICENSE");
/// The licenses of the libraries and fonts in it, each with what it holds for.
pub const THIRD_PARTY: &str = include_str!("../assets/third-party.txt");
