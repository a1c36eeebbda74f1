//! Regulators that may blow into a room.

use super::{Kind, Look};
use crate::job::{Device, Surroundings};
use crate::study::{Found, Rule, Severity};

/// The vent of a line regulator indoors ends outdoors, unless it needs none.
pub const RULE: Rule = Rule {
    id: "regulator-vent",
    title: "A line regulator indoors has no vent to the outdoors",
    severity: Severity::Blocking,
    basis: "CPC 2013 1208.7, 1210.11 (regulator vents outdoors, 3 ft from ignition)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(Kind::Regulator) {
        let Some(Device::Regulator(regulator)) = look.device(joint) else {
            continue;
        };
        let new = look.is_new(joint);
        let indoors = look
            .live_legs(joint)
            .any(|run| matches!(run.surroundings, Surroundings::Indoors | Surroundings::Concealed));
        if new && indoors && !regulator.vented {
            found.at(
                look.at(joint),
                format!("The line regulator at {} stands indoors without a vent to the outdoors.", look.joint_name(joint)),
                "Lead its vent outdoors, 3 ft from what may ignite gas, or take one with a vent limiter; then mark it as \
                 vented.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, run, supply};
    use super::RULE;
    use crate::job::{Device, Surroundings};
    use crate::units::GaugePressure;

    fn place(vented: bool) -> impl Fn(&mut crate::job::Job) {
        move |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            let mut regulator = regulator();
            regulator.vented = vented;
            put(job, BEND, Device::Regulator(regulator));
        }
    }

    #[test]
    fn indoors_a_vent_is_needed() {
        check(&RULE, 1, place(false));
        check(&RULE, 0, place(true));
        check(&RULE, 0, |job| {
            place(false)(job);
            run(job, 3).surroundings = Surroundings::Outdoors;
        });
    }
}
