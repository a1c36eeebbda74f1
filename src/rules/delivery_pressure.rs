//! A delivery pressure that is none.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Detail, Device};

/// The delivery pressure must be above that of the air.
pub const RULE: Rule = Rule {
    id: "delivery-pressure",
    title: "The delivery pressure is not entered, zero, negative or not a number",
    severity: Severity::MustFix,
    basis: "engineering: gas flows from higher to lower pressure; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::DeliveryPressure);
    let Some(joint) = look.study.network.supply else { return };
    let Some(Device::Supply(supply)) = look.device(joint) else {
        return;
    };
    let given = match supply.pressure {
        None => "is not entered, so nothing can be sized from it".to_owned(),
        Some(pressure) if !pressure.pa().is_finite() => "is not a number".to_owned(),
        Some(pressure) if pressure.pa() > 0.0 => return,
        Some(pressure) => format!("is {}", look.show(pressure)),
    };
    found.at(
        look.at(joint),
        format!("The delivery pressure at {} {given}.", look.joint_name(joint)),
        "Ask the supplier for the delivery pressure and enter it at the point of delivery.",
    );
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, supply};
    use super::RULE;
    use crate::units::GaugePressure;

    #[test]
    fn a_pressure_that_nobody_gave_is_asked_for() {
        let found = check(&RULE, 1, |job| supply(job).pressure = None);
        assert!(found[0].what.contains("is not entered"), "{}", found[0].what);
    }

    #[test]
    fn some_pressure_is_needed() {
        for inches in [0.0, -7.0, f64::NAN, f64::INFINITY] {
            check(&RULE, 1, |job| {
                supply(job).pressure = Some(GaugePressure::from_inches_wc(inches))
            });
        }
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_inches_wc(0.1))
        });
    }
}
