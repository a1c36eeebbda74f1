//! What the code in force asks of a run, for rules, notes, material and work steps alike.

use crate::codebook::{CodeFamily, Profile};
use crate::job::Run;

/// The edition of the IFGC from which jacketed tubing needs no bonding of its own (IRC 2018 G2411.2).
const JACKETS_SINCE: u16 = 2018;

/// Whether the code in force spares tubing that is listed with an arc-resistant jacket.
pub fn spares_jackets(profile: &Profile) -> bool {
    profile.follows(CodeFamily::Ifgc, JACKETS_SINCE)
}

/// Whether corrugated tubing wants a bond of its own; whether it has one is not asked.
pub fn wants_bond(profile: &Profile, run: &Run) -> bool {
    !(run.jacketed && spares_jackets(profile))
}

/// The thinnest tracer wire: 18 AWG by IFGC 404.17.3 (IRC 2018 G2415.17.3); 14 AWG by CPC 2013 1210.1.7.2, and where no
/// clause was read, since it is the heavier.
pub const fn tracer_gauge(profile: &Profile) -> u32 {
    match profile.family {
        Some(CodeFamily::Ifgc) => 18,
        Some(CodeFamily::Upc | CodeFamily::B149) | None => 14,
    }
}
