//! Ends that nothing closes.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};

/// Every end is an appliance, a cap, or a coupling that closes itself.
pub const RULE: Rule = Rule {
    id: "open-end",
    title: "A pipe end has no appliance and no cap",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in &look.study.network.order {
        let closed = look.walk.kind(joint).is_some_and(|kind| kind.nature().closes_end);
        if closed || look.walk.live_legs(joint) != 1 {
            continue;
        }
        let place = look.joint_name(joint);
        let what = match look.device(joint) {
            Some(device) => format!(
                "Open end at {place}: the pipe ends in a {}, which is not a cap.",
                device.name()
            ),
            None => format!("Open end at {place}: no appliance and no cap."),
        };
        found.at(
            look.at(joint),
            what,
            "Put an appliance or a cap on the end, or continue the pipe.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, TEE, VALVE, check, clear, extend, put};
    use super::RULE;
    use crate::job::{Cap, Device, QuickCoupling, RunId, Valve};

    #[test]
    fn an_end_wants_a_cap_or_an_appliance() {
        check(&RULE, 1, |job| clear(job, FURNACE));
        check(&RULE, 1, |job| {
            let end = extend(job, TEE, (0, -2, 0));
            put(job, end, Device::Valve(Valve::default()));
        });
        check(&RULE, 0, |job| {
            put(job, PIT, Device::Cap(Cap::default()));
        });
        check(&RULE, 0, |job| {
            put(job, PIT, Device::QuickCoupling(QuickCoupling::default()));
        });
    }

    #[test]
    fn pipe_that_no_gas_reaches_is_another_matter() {
        check(&RULE, 1, |job| {
            job.runs.remove(RunId(7));
            put(job, VALVE, Device::Valve(Valve::default()));
        });
    }
}
