//! Regulators that may blow into a room.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind, Surroundings, Vent};
use crate::units::Length;

/// The vent of a line regulator indoors ends outdoors, unless a listed vent limiter takes its place.
pub const RULE: Rule = Rule {
    id: "regulator-vent",
    title: "An indoor line regulator has no vent to the outdoors and no vent limiter",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Regulator) {
        let Some(Device::Regulator(regulator)) = look.device(joint) else {
            continue;
        };
        let new = look.is_new(joint);
        let indoors = look
            .live_legs(joint)
            .any(|run| matches!(run.surroundings, Surroundings::Indoors | Surroundings::Concealed));
        if new && indoors && regulator.vent == Vent::NotSaid {
            found.at(
                look.at(joint),
                format!("{} is indoors, and neither a vent to the outdoors nor a listed vent limiter is entered.", look.regulator_name(joint)),
                format!(
                    "Run its vent to the outdoors, {} from anything that can ignite gas, or use a regulator that is listed with a vent \
                     limiter; then enter which at the regulator.",
                    look.limit(Length::from_feet(3.0))
                ),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, run, supply};
    use super::RULE;
    use crate::job::{Device, Surroundings, Vent};
    use crate::units::GaugePressure;

    fn place(vent: Vent) -> impl Fn(&mut crate::job::Job) {
        move |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            let mut regulator = regulator();
            regulator.vent = vent;
            put(job, BEND, Device::Regulator(regulator));
        }
    }

    #[test]
    fn indoors_a_vent_or_a_limiter_is_needed() {
        check(&RULE, 1, place(Vent::NotSaid));
        check(&RULE, 0, place(Vent::Outdoors));
        check(&RULE, 0, place(Vent::Limiter));
        check(&RULE, 0, |job| {
            place(Vent::NotSaid)(job);
            run(job, 3).surroundings = Surroundings::Outdoors;
        });
    }
}
