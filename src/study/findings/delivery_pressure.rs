//! A delivery pressure that is none.

use super::Look;
use crate::job::Device;
use crate::study::{Found, Rule, Severity};

/// The delivery pressure must be above that of the air.
pub const RULE: Rule = Rule {
    id: "delivery-pressure",
    title: "The delivery pressure is zero, negative or no number",
    severity: Severity::Blocking,
    basis: "engineering: gas flows from more pressure to less; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(joint) = look.study.network.supply else { return };
    let Some(Device::Supply(supply)) = look.device(joint) else {
        return;
    };
    let pa = supply.pressure.pa();
    if !(pa.is_finite() && pa > 0.0) {
        let given = match pa.is_finite() {
            true => look.show(supply.pressure),
            false => "no number".to_owned(),
        };
        found.at(
            look.at(joint),
            format!("The delivery pressure at {} is {given}.", look.joint_name(joint)),
            "Ask the supplier for the delivery pressure and type it at the point of delivery.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, supply};
    use super::RULE;
    use crate::units::GaugePressure;

    #[test]
    fn some_pressure_is_needed() {
        for inches in [0.0, -7.0, f64::NAN, f64::INFINITY] {
            check(&RULE, 1, |job| {
                supply(job).pressure = GaugePressure::from_inches_wc(inches)
            });
        }
        check(&RULE, 0, |job| {
            supply(job).pressure = GaugePressure::from_inches_wc(0.1)
        });
    }
}
