//! Sediment traps too shallow to hold anything.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind};
use crate::units::Length;

/// The nipple of a sediment trap is 3 in long or more.
pub const RULE: Rule = Rule {
    id: "trap-nipple",
    title: "The drip leg of a sediment trap is under {3 in}",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

const LEAST: f64 = 3.0;

/// By so much the metric length of the trade is less: 75 mm for 3 in (common practice, no source).
const ROUNDING: f64 = 0.02;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let least = Length::from_inches(LEAST);
    for &joint in look.walk.all(DeviceKind::SedimentTrap) {
        let Some(Device::SedimentTrap(trap)) = look.device(joint) else {
            continue;
        };
        if let Some(depth) = trap
            .depth
            .filter(|depth| *depth < least.times(1.0 - ROUNDING) && look.is_new(joint))
        {
            found.at(
                look.at(joint),
                format!(
                    "The drip leg of the sediment trap at {} is {} long, under {} (a figure from memory).",
                    look.joint_name(joint),
                    look.show(depth),
                    look.limit(least)
                ),
                "Use a longer nipple, or ask the permit office which length it requires.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, check, put};
    use super::RULE;
    use crate::job::{Device, SedimentTrap};
    use crate::units::Length;

    #[test]
    fn three_inches_are_enough() {
        let deep = |inches: Option<f64>| {
            move |job: &mut crate::job::Job| {
                let depth = inches.map(Length::from_inches);
                put(job, TRAP, Device::SedimentTrap(SedimentTrap { depth }));
            }
        };
        check(&RULE, 1, deep(Some(2.5)));
        check(&RULE, 0, deep(Some(3.0)));
        check(&RULE, 0, deep(None));
    }
}
