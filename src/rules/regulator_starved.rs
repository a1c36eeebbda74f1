//! Regulators that get too little at full load.

use super::look::Look;
use super::{Found, Rule, Severity};

/// Behind a regulator the setting is there only while its inlet has that much and what the regulator loses itself.
pub const RULE: Rule = Rule {
    id: "regulator-starved",
    title: "At full load a line regulator gets less inlet pressure than its setting needs",
    severity: Severity::MustFix,
    basis: "engineering: a regulator needs its setting plus its own loss at its inlet; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in look.study.devices.iter().filter(|device| device.is_starved()) {
        let fed = look.study.zones.iter().find(|zone| zone.start == device.joint);
        let fed = fed.and_then(|zone| look.study.zones[zone.fed_by?].inlet);
        // Where it is fed too little without any load, that is told by another rule.
        let (Some(setting), Some(outlet), Some(inlet)) = (
            device.setting.filter(|setting| fed.is_none_or(|fed| fed > *setting)),
            device.outlet,
            device.inlet,
        ) else {
            continue;
        };
        let loses = device
            .drop
            .map_or_else(String::new, |drop| format!(" and it loses {} itself", look.show(drop)));
        found.at(
            look.at(device.joint),
            format!(
                "{} is set to {}; at full load its inlet pressure is {}{loses}, so its outlet falls to {}.",
                look.regulator_name(device.joint),
                look.show(setting),
                look.show(inlet),
                look.show(outlet)
            ),
            "Use larger pipe upstream, get a higher pressure there, use a regulator that loses less, or set it lower where every appliance \
             downstream allows that.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, supply};
    use super::RULE;
    use crate::job::{Device, Rating, Regulator, Vent};
    use crate::units::{Flow, GaugePressure, PressureDrop};

    /// The regulator loses 0.3 in w.c. at its rated 65 cfh, which is the pit's full load (65,000 Btu/h).
    fn fed_at(inches: f64) -> impl Fn(&mut crate::job::Job) {
        move |job| {
            supply(job).pressure = Some(GaugePressure::from_inches_wc(inches));
            let regulator = Regulator {
                outlet: Some(GaugePressure::from_inches_wc(7.0)),
                rating: Rating {
                    capacity: Some(Flow::from_cfh(65.0)),
                    drop: Some(PressureDrop::from_inches_wc(0.3)),
                },
                vent: Vent::Outdoors,
                ..Regulator::default()
            };
            put(job, BEND, Device::Regulator(regulator));
        }
    }

    #[test]
    fn pipe_and_its_own_loss_leave_too_little() {
        let found = check(&RULE, 1, fed_at(7.2));
        let what = &found[0].what;
        assert!(
            what.contains("loses 0.3 in w.c. itself") && what.ends_with(" in w.c."),
            "{what}"
        );
        check(&RULE, 0, fed_at(10.0));
    }

    /// Fed no more than it is set to, a regulator is told by `regulator-setting` alone.
    #[test]
    fn one_cause_is_told_once() {
        check(&RULE, 0, fed_at(7.0));
    }
}
