//! Regulators that cannot hold what they are set to.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Detail;

/// A regulator lowers pressure, it raises none.
pub const RULE: Rule = Rule {
    id: "regulator-setting",
    title: "A line regulator has no setting, or one that is not below its inlet pressure",
    severity: Severity::MustFix,
    basis: "engineering: a regulator only lowers pressure; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::OutletPressure);
    for zone in &look.study.zones {
        let Some(before) = zone.fed_by.map(|before| &look.study.zones[before]) else {
            continue;
        };
        let Some(inlet) = zone.inlet else {
            found.at(
                look.at(zone.start),
                format!(
                    "{} has no outlet pressure entered, so nothing downstream is sized.",
                    look.regulator_name(zone.start)
                ),
                "Enter the pressure it is set to.",
            );
            continue;
        };
        let Some(fed) = before.inlet else { continue };
        if inlet >= fed || inlet.pa() <= 0.0 {
            found.at(
                look.at(zone.start),
                format!(
                    "{} is set to {} and its inlet pressure is {}.",
                    look.regulator_name(zone.start),
                    look.show(inlet),
                    look.show(fed)
                ),
                "Correct its setting or the pressure upstream, or remove the regulator.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::{Device, Regulator};
    use crate::units::GaugePressure;

    #[test]
    fn a_setting_that_nobody_gave_is_asked_for() {
        let unset = Regulator {
            outlet: None,
            ..regulator()
        };
        let found = check(&RULE, 1, |job| {
            put(job, BEND, Device::Regulator(unset.clone()));
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
        });
        assert!(
            found[0].what.contains("no outlet pressure entered"),
            "{}",
            found[0].what
        );
    }

    #[test]
    fn a_regulator_needs_more_than_it_holds() {
        check(&RULE, 1, |job| {
            put(job, BEND, Device::Regulator(regulator()));
        });
        check(&RULE, 0, |job| {
            put(job, BEND, Device::Regulator(regulator()));
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
        });
    }
}
