//! Long connectors indoors.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind, Surroundings};
use crate::units::Length;

/// A connector indoors of more than 6 ft is longer than listed ones are made (IFGC, from memory); the clause that was read
/// gives 6 ft to the gas hose of laboratory, shop and ironing equipment alone.
pub const RULE: Rule = Rule {
    id: "connector-long",
    title: "A connector indoors is longer than {6 ft}",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let most = Length::from_feet(6.0);
    for &joint in look.walk.all(DeviceKind::Connector) {
        let Some(Device::Connector(connector)) = look.device(joint) else {
            continue;
        };
        let Some(length) = connector.length.filter(|length| *length > most) else {
            continue;
        };
        let indoors = look
            .live_legs(joint)
            .any(|run| matches!(run.surroundings, Surroundings::Indoors | Surroundings::Concealed));
        if indoors && look.is_new(joint) {
            found.at(
                look.at(joint),
                format!(
                    "The connector at {} is {} long; connectors used indoors are usually listed up to {} only.",
                    look.joint_name(joint),
                    look.show(length),
                    look.limit(most)
                ),
                "Check its listing, or bring the pipe closer to the appliance and use a shorter connector.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, check, put, run};
    use super::RULE;
    use crate::job::{Connector, Device, Job, Surroundings};
    use crate::units::Length;

    fn connector(feet: f64) -> impl Fn(&mut Job) {
        move |job| {
            let length = Some(Length::from_feet(feet));
            put(
                job,
                TRAP,
                Device::Connector(Connector {
                    length,
                    ..Connector::default()
                }),
            );
            run(job, 7).surroundings = Surroundings::Indoors;
            run(job, 8).surroundings = Surroundings::Indoors;
        }
    }

    #[test]
    fn six_feet_are_enough_indoors() {
        check(&RULE, 1, connector(6.5));
        check(&RULE, 0, connector(6.0));
        check(&RULE, 0, |job| {
            connector(6.5)(job);
            run(job, 7).surroundings = Surroundings::Outdoors;
            run(job, 8).surroundings = Surroundings::Outdoors;
        });
    }
}
