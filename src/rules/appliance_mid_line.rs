//! Appliances that are no end.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::DeviceKind;

/// An appliance ends a branch.
pub const RULE: Rule = Rule {
    id: "appliance-mid-line",
    title: "An appliance is in the middle of a line, not at an end",
    severity: Severity::MustFix,
    basis: "an appliance connects at an outlet, the end of piping; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let legs = look.walk.live_legs(joint);
        if legs > 1 {
            found.at(
                look.at(joint),
                format!(
                    "{}: {legs} runs meet there, as if gas went on through the appliance.",
                    look.outlet_name(joint)
                ),
                "Add a tee upstream, and end a run of its own at the appliance.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, check, extend, put};
    use super::RULE;
    use crate::job::{Cap, Device};

    #[test]
    fn pipe_does_not_go_on_behind_an_appliance() {
        check(&RULE, 1, |job| {
            let end = extend(job, FURNACE, (0, 3, 0));
            put(job, end, Device::Cap(Cap::default()));
        });
        check(&RULE, 0, |_| {});
    }
}
