//! What the code in force asks of a run, and what a device wants beside it, for rules, notes, material and work steps alike.

use super::Study;
use crate::codebook::{CodeFamily, Codebook, Profile};
use crate::job::{Device, Job, Run, State, Surroundings, Vent};

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

/// Whether a new line regulator indoors has a vent that is led outdoors, for which a line is laid.
pub fn wants_vent_line(job: &Job, study: &Study, joint: usize) -> bool {
    let Some(placed) = &job.joints.at(joint).placed else {
        return false;
    };
    let led = matches!(&placed.device, Device::Regulator(regulator) if regulator.vent == Vent::Outdoors);
    let indoors = |run: usize| {
        let run = job.runs.at(run);
        run.state != State::Removed && matches!(run.surroundings, Surroundings::Indoors | Surroundings::Concealed)
    };
    led && placed.state == State::New && study.network.legs(joint).all(indoors)
}

/// The thinnest tracer wire: 18 AWG by IFGC 404.17.3 (IRC 2018 G2415.17.3); 14 AWG by CPC 2013 1210.1.7.2, and where no
/// clause was read, since it is the heavier.
pub const fn tracer_gauge(profile: &Profile) -> u32 {
    match profile.family {
        Some(CodeFamily::Ifgc) => 18,
        Some(CodeFamily::Upc | CodeFamily::B149) | None => 14,
    }
}

/// The clause that asks for a wire of [`tracer_gauge`]; where none of the family in force was read, that is said.
pub fn tracer_clause(book: &Codebook, profile: &Profile) -> Option<String> {
    match profile.family {
        Some(family) if book.clause("pe-tracer", family).is_none() => {
            let clause = book.clause("pe-tracer", CodeFamily::Upc)?.clause;
            Some(format!("{clause}; no clause of {} was read", family.name()))
        }
        Some(family) => book.clause_number("pe-tracer", Some(family)),
        None => Some(book.clause("pe-tracer", CodeFamily::Upc)?.clause.to_owned()),
    }
}
