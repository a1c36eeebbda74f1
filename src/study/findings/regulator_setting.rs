//! Regulators that cannot hold what they are set to.

use super::Look;
use crate::study::{Found, Rule, Severity};

/// A regulator lowers pressure, it raises none.
pub const RULE: Rule = Rule {
    id: "regulator-setting",
    title: "A line regulator is not set below the pressure that feeds it",
    severity: Severity::Blocking,
    basis: "engineering: a regulator only lowers pressure; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for zone in &look.study.zones {
        let Some(before) = zone.fed_by.map(|before| &look.study.zones[before]) else {
            continue;
        };
        if zone.inlet >= before.inlet || zone.inlet.pa() <= 0.0 {
            found.at(
                look.at(zone.start),
                format!(
                    "The line regulator at {} is set to {} and fed with {}.",
                    look.joint_name(zone.start),
                    look.show(zone.inlet),
                    look.show(before.inlet)
                ),
                "Correct its setting or the pressure before it, or take the regulator out.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::Device;
    use crate::units::GaugePressure;

    #[test]
    fn a_regulator_needs_more_than_it_holds() {
        check(&RULE, 1, |job| {
            put(job, BEND, Device::Regulator(regulator()));
        });
        check(&RULE, 0, |job| {
            put(job, BEND, Device::Regulator(regulator()));
            supply(job).pressure = GaugePressure::from_psi(2.0);
        });
    }
}
