//! Loads that are still to come.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::network::OutletKind;
use crate::units::HeatRate;

/// Sizes carry what capped ends are left for, and the drawing says so.
pub const RULE: Rule = Rule {
    id: "future-load",
    title: "Sizes include the load of future appliances",
    severity: Severity::Note,
    basis: "what is included must be stated; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let future = look
        .study
        .outlets
        .iter()
        .filter(|outlet| outlet.kind == OutletKind::Future);
    let (mut joints, mut heat) = (Vec::new(), HeatRate::ZERO);
    for outlet in future {
        joints.push(outlet.joint);
        heat += outlet.heat.unwrap_or_default();
    }
    if heat > HeatRate::ZERO {
        found.at_all(
            look.at_each(&joints),
            format!(
                "All sizes include {} for future appliances at {}.",
                look.show(heat),
                look.joints_named(&joints)
            ),
            "Ask whether the supplier's meter and regulator are sized for this load, or only for the appliances in use now.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, check, put};
    use super::RULE;
    use crate::job::{Cap, Device};
    use crate::units::HeatRate;

    #[test]
    fn a_capped_end_with_an_input_is_a_load() {
        let cap = |future_input| {
            Device::Cap(Cap {
                future_input,
                projection: None,
            })
        };
        check(&RULE, 1, |job| {
            put(job, PIT, cap(Some(HeatRate::from_mbh(40.0))));
        });
        check(&RULE, 0, |job| {
            put(job, PIT, cap(None));
        });
    }
}
