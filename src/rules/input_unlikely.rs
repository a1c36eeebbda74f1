//! Inputs far from what is usual.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};
use crate::units::HeatRate;

/// An input far from the usual one of its class is mostly a slip: Btu/h typed for MBH.
pub const RULE: Rule = Rule {
    id: "input-unlikely",
    title: "An input is far from usual",
    severity: Severity::Check,
    basis: "a check for typing errors against the codebook's usual inputs; the rating plate governs",
    check,
};

/// How far from the usual range an input may be.
const FACTOR: f64 = 4.0;
/// The range for an appliance of no known class.
const ANY: (HeatRate, HeatRate) = (HeatRate::from_btuh(500.0), HeatRate::from_btuh(5_000_000.0));

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let Some(Device::Appliance(appliance)) = look.device(joint) else {
            continue;
        };
        let Some(input) = appliance
            .input
            .filter(|input| input.btuh() > 0.0 && input.btuh().is_finite())
        else {
            continue;
        };
        let class = appliance
            .class
            .as_deref()
            .and_then(|class| look.book.appliance_class(class));
        let (low, high, factor) = class.map_or((ANY.0, ANY.1, 1.0), |class| (class.low, class.high, FACTOR));
        if input.btuh() < low.btuh() / factor || input.btuh() > high.btuh() * factor {
            let usual = match class {
                Some(class) if class.low == class.high => format!("a {} usually has {}", class.name, look.show(low)),
                Some(class) => format!("a {} usually has {} to {}", class.name, look.show(low), look.show(high)),
                None => format!("gas appliances mostly have {} to {}", look.show(low), look.show(high)),
            };
            found.at(
                look.at(joint),
                format!(
                    "{}: its input is {}; {usual}.",
                    look.outlet_name(joint),
                    look.show(input)
                ),
                "Check the input and its unit against the rating plate.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;
    use crate::units::HeatRate;

    #[test]
    fn a_thousandth_is_a_slip_and_a_large_fire_is_none() {
        let input =
            |btuh: f64| move |job: &mut crate::job::Job| appliance(job, PIT).input = Some(HeatRate::from_btuh(btuh));
        check(&RULE, 1, input(65.0));
        check(&RULE, 1, input(65_000_000.0));
        check(&RULE, 0, input(300_000.0));
        check(&RULE, 0, input(12_000.0));
    }

    #[test]
    fn without_a_class_only_the_absurd_is_told() {
        let input = |btuh: f64| {
            move |job: &mut crate::job::Job| {
                let pit = appliance(job, PIT);
                (pit.input, pit.class) = (Some(HeatRate::from_btuh(btuh)), None);
            }
        };
        check(&RULE, 1, input(65.0));
        check(&RULE, 0, input(2_500.0));
    }
}
