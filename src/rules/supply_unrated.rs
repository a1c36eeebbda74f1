//! Supplies of which nothing but the pressure is known.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};

/// Without a meter or regulator on the drawing the load is held against nothing there.
pub const RULE: Rule = Rule {
    id: "supply-unrated",
    title: "No meter and no service regulator at the point of delivery",
    severity: Severity::Note,
    basis: "meter or source is asked for by permit offices (5 of 23 public requirements read)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(joint) = look.study.network.supply else { return };
    let Some(Device::Supply(supply)) = look.device(joint) else {
        return;
    };
    let bare = supply.meter.is_none() && supply.regulator.is_none() && look.walk.all(DeviceKind::Meter).is_empty();
    if bare {
        found.at(
            look.at(joint),
            format!(
                "Neither meter nor service regulator is entered at {}, so the load of {} was not checked against them.",
                look.joint_name(joint),
                look.show(look.study.total.heat)
            ),
            "Ask the supplier what the meter, tank or regulator there can deliver, and enter its rated flow.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, supply};
    use super::RULE;
    use crate::job::{Device, Job, Meter};

    fn bare(job: &mut Job) {
        let supply = supply(job);
        (supply.meter, supply.regulator) = (None, None);
    }

    #[test]
    fn something_is_known_of_the_supply() {
        check(&RULE, 1, bare);
        check(&RULE, 0, |job| supply(job).meter = None);
        check(&RULE, 0, |job| {
            bare(job);
            put(job, BEND, Device::Meter(Meter::default()));
        });
    }
}
