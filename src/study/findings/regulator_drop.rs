//! Line regulators that take too much.

use super::{Kind, Look};
use crate::study::{Found, Rule, Severity};
use crate::units::PressureDrop;

/// In a two-pressure system the regulator's own drop is bounded.
pub const RULE: Rule = Rule {
    id: "regulator-drop",
    title: "A line regulator loses more than 0.75 psi",
    severity: Severity::Caution,
    basis: "sizing of 2 psi systems in the fuel gas codes: regulator drop not over 0.75 psi; clause not read",
    check,
};

const MOST: PressureDrop = PressureDrop::from_psi(0.75);

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in &look.study.devices {
        let line = look.walk.kind(device.joint) == Some(Kind::Regulator);
        if let Some(drop) = device.drop.filter(|drop| line && *drop > MOST) {
            found.at(
                look.at(device.joint),
                format!(
                    "The line regulator at {} loses {:.2} psi of its own at {}, more than {:.2} psi.",
                    look.joint_name(device.joint),
                    drop.psi(),
                    look.show(device.flow),
                    MOST.psi()
                ),
                "Take a larger regulator.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, supply};
    use super::RULE;
    use crate::job::Device;
    use crate::units::{Flow, GaugePressure, PressureDrop};

    #[test]
    fn three_quarters_of_a_psi_are_the_most() {
        let line = |psi: f64| {
            move |job: &mut crate::job::Job| {
                supply(job).pressure = Some(GaugePressure::from_psi(2.0));
                let mut regulator = regulator();
                regulator.rating.capacity = Some(Flow::from_cfh(65.0));
                regulator.rating.drop = Some(PressureDrop::from_psi(psi));
                put(job, BEND, Device::Regulator(regulator));
            }
        };
        check(&RULE, 1, line(0.8));
        check(&RULE, 0, line(0.74));
    }
}
