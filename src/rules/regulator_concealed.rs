//! Regulators nobody can reach.

use super::look::Look;
use super::valve_concealed::hidden;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// A line regulator can be reached.
pub const RULE: Rule = Rule {
    id: "regulator-concealed",
    title: "A line regulator is in a concealed location",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in hidden(look, DeviceKind::Regulator) {
        found.at(
            look.at(joint),
            format!("{} is where all pipe is concealed.", look.regulator_name(joint)),
            "Move it where it can be reached, or give it an access panel and say so in a note.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, run, supply};
    use super::RULE;
    use crate::job::{Device, Job, Surroundings};
    use crate::units::GaugePressure;

    #[test]
    fn between_concealed_runs_it_is_hidden() {
        let place = |job: &mut Job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            put(job, BEND, Device::Regulator(regulator()));
            run(job, 3).surroundings = Surroundings::Concealed;
        };
        check(&RULE, 0, place);
        check(&RULE, 1, |job| {
            place(job);
            run(job, 4).surroundings = Surroundings::Concealed;
        });
    }
}
