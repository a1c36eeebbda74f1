//! Less pressure than an appliance needs.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::units::PressureDrop;

/// At full load every appliance keeps its least inlet pressure.
pub const RULE: Rule = Rule {
    id: "inlet-below-least",
    title: "At full load an appliance gets less than its minimum inlet pressure",
    severity: Severity::MustFix,
    basis: "the rating plate of the appliance; pressure by the flow equation, in addition to the code's method",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for outlet in &look.study.outlets {
        if let (Some(pressure), Some(least), Some(margin)) = (outlet.pressure, outlet.least, outlet.margin)
            && margin < PressureDrop::ZERO
        {
            found.at(
                look.at(outlet.joint),
                format!(
                    "{}: inlet pressure at full load is {}; the rating plate calls for at least {}.",
                    look.outlet_name(outlet.joint),
                    look.show(pressure),
                    look.show(least)
                ),
                "Use larger pipe upstream, or ask the supplier for a higher delivery pressure.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;
    use crate::units::GaugePressure;

    #[test]
    fn what_is_left_is_held_against_the_plate() {
        let found = check(&RULE, 1, |job| {
            appliance(job, PIT).least_inlet = Some(GaugePressure::from_inches_wc(7.5))
        });
        assert!(found[0].what.starts_with("Fire pit ("), "{}", found[0].what);
        check(&RULE, 0, |job| {
            appliance(job, PIT).least_inlet = Some(GaugePressure::from_inches_wc(6.0))
        });
    }
}
