//! Connectors through walls.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// A connector stays in the room of its appliance.
pub const RULE: Rule = Rule {
    id: "connector-wall",
    title: "A connector passes through a wall or floor",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in new_appliances(look) {
        let Some(connector) = look.walk.own(joint, DeviceKind::Connector) else {
            continue;
        };
        if !look.walk.one_room(connector, joint) {
            found.at(
                look.at(connector),
                format!(
                    "{}: there is a wall or floor between its connector at {} and the appliance.",
                    look.outlet_name(joint),
                    look.joint_name(connector)
                ),
                "Take rigid pipe or tubing through, and start the connector in the room with the appliance.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, check, put, run};
    use super::RULE;
    use crate::job::{Barrier, Connector, Device, Job, Penetration};

    #[test]
    fn a_connector_keeps_to_its_room() {
        let connect = |job: &mut Job| {
            put(job, TRAP, Device::Connector(Connector::default()));
        };
        check(&RULE, 0, connect);
        check(&RULE, 1, |job| {
            connect(job);
            let barrier = Barrier::InteriorWall;
            run(job, 8).penetrations.push(Penetration {
                barrier,
                ..Penetration::default()
            });
        });
    }
}
