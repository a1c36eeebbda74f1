//! Connectors in a row, or one for two.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// One connector for one appliance.
pub const RULE: Rule = Rule {
    id: "connector-count",
    title: "An appliance has two connectors, or shares one",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in new_appliances(look) {
        let Some(near) = look.walk.upstream(joint, DeviceKind::Connector) else {
            continue;
        };
        let name = look.outlet_name(joint);
        if look.walk.own(joint, DeviceKind::Connector).is_none() {
            found.at(
                look.at(near),
                format!(
                    "{name} is on the connector at {}, which serves other outlets too.",
                    look.joint_name(near)
                ),
                "Branch off with pipe, and give each appliance a connector of its own.",
            );
        } else if let Some(far) = look.walk.own(near, DeviceKind::Connector) {
            found.at(
                look.at(near),
                format!(
                    "{name} has two connectors in a row, at {} and {}.",
                    look.joint_name(far),
                    look.joint_name(near)
                ),
                "Bring the pipe closer and use one connector.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, UNION, check, extend, put};
    use super::RULE;
    use crate::job::{Cap, Connector, Device, Job};

    fn connect(job: &mut Job, joint: u32) {
        put(job, joint, Device::Connector(Connector::default()));
    }

    #[test]
    fn one_connector_for_one_appliance() {
        check(&RULE, 0, |job| connect(job, TRAP));
        check(&RULE, 1, |job| {
            connect(job, UNION);
            connect(job, TRAP);
        });
        check(&RULE, 1, |job| {
            connect(job, UNION);
            let end = extend(job, TRAP, (0, 2, 0));
            put(job, end, Device::Cap(Cap::default()));
        });
    }
}
