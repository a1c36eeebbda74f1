//! Test gauges that are still in place.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::DeviceKind;

/// The gauge of the pressure test goes before gas comes.
pub const RULE: Rule = Rule {
    id: "test-gauge-left",
    title: "A test gauge is still in place",
    severity: Severity::Check,
    basis: "common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let gauges = look.walk.all(DeviceKind::TestGauge);
    if !gauges.is_empty() {
        found.at_all(
            look.at_each(gauges),
            format!(
                "A gauge for the pressure test is at {}. Lengths and losses are without it.",
                look.joints_named(gauges)
            ),
            "Put the cap or the appliance in its place after the test, or mark the gauge as removed.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, check, put};
    use super::RULE;
    use crate::job::{Device, State};

    #[test]
    fn a_gauge_goes_after_the_test() {
        check(&RULE, 1, |job| {
            put(job, PIT, Device::TestGauge);
        });
        check(&RULE, 0, |job| put(job, PIT, Device::TestGauge).state = State::Removed);
    }
}
