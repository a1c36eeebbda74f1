//! Little pressure at an appliance of unknown need.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Fuel;
use crate::network::OutletKind;
use crate::units::GaugePressure;

/// Natural-gas appliances mostly want 5 in w.c. at their inlet, those for propane 10 in w.c.
pub const RULE: Rule = Rule {
    id: "inlet-low",
    title: "Low pressure at an appliance with no minimum inlet pressure entered",
    severity: Severity::Check,
    basis: "about 5 in w.c. is needed at a natural-gas inlet (trade pages and manuals), about 10 in w.c. at one for propane (from memory); no clause",
    check,
};

/// What most appliances for a fuel need.
const fn usual(fuel: Fuel) -> (GaugePressure, &'static str) {
    match fuel {
        Fuel::Natural => (GaugePressure::from_inches_wc(5.0), "natural-gas"),
        Fuel::Propane => (GaugePressure::from_inches_wc(10.0), "propane"),
    }
}

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let (usual, fuel) = usual(look.study.gas.fuel);
    for outlet in &look.study.outlets {
        let appliance = outlet.kind == OutletKind::Appliance && outlet.least.is_none();
        if let Some(pressure) = outlet.pressure.filter(|pressure| appliance && *pressure < usual) {
            found.at(
                look.at(outlet.joint),
                format!(
                    "{}: inlet pressure at full load is {}, under the {} that most {fuel} appliances need.",
                    look.outlet_name(outlet.joint),
                    look.show(pressure),
                    look.show(usual)
                ),
                "Read the minimum inlet pressure on the rating plate and enter it.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check, supply};
    use super::RULE;
    use crate::job::{Fuel, Job};
    use crate::units::GaugePressure;

    #[test]
    fn propane_wants_more() {
        let at = |inches: f64| {
            move |job: &mut Job| {
                job.gas.fuel = Fuel::Propane;
                supply(job).pressure = Some(GaugePressure::from_inches_wc(inches));
                appliance(job, PIT).least_inlet = None;
            }
        };
        check(&RULE, 1, at(7.0));
        check(&RULE, 0, at(14.0));
    }

    #[test]
    fn only_an_appliance_of_unknown_need_is_told() {
        let at = |inches: f64, least: Option<GaugePressure>| {
            move |job: &mut Job| {
                supply(job).pressure = Some(GaugePressure::from_inches_wc(inches));
                appliance(job, PIT).least_inlet = least;
            }
        };
        check(&RULE, 1, at(4.5, None));
        check(&RULE, 0, at(7.0, None));
        check(&RULE, 0, at(4.5, Some(GaugePressure::from_inches_wc(3.0))));
    }
}
