//! Gas figures that belong to no usual gas.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Fuel;
use crate::study::Place;

/// Specific gravity and heating value far from the fuel's are mostly a slip.
pub const RULE: Rule = Rule {
    id: "gas-unlikely",
    title: "Specific gravity or heating value is far from usual for the fuel",
    severity: Severity::Check,
    basis: "a check for typing errors; ranges are common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let gas = &look.study.gas;
    let given = &look.job.gas;
    // Air-diluted and raw gases included.
    let (name, gravity, btu) = match gas.fuel {
        Fuel::Natural => ("natural gas", 0.4..=1.1, 500.0..=1_600.0),
        Fuel::Propane => ("propane", 1.3..=1.7, 2_000.0..=2_800.0),
    };
    if let Some(said) = given.specific_gravity.filter(|said| !gravity.contains(said)) {
        found.at(
            Place::Job,
            format!(
                "The specific gravity is entered as {}{}; for {name} it is mostly between {} and {}.",
                number(said),
                instead(gas.gravity_mark.is_some(), gas.specific_gravity),
                gravity.start(),
                gravity.end()
            ),
            "Ask the supplier, or leave it out to use the usual figure.",
        );
    }
    if let Some(said) = given.heating_value.filter(|said| !btu.contains(&said.btu_per_ft3())) {
        found.at(
            Place::Job,
            format!(
                "The heating value is entered as {} Btu/ft³{}; for {name} it is mostly between {} and {}.",
                number(said.btu_per_ft3()),
                instead(gas.heating_mark.is_some(), gas.heating_value.btu_per_ft3()),
                btu.start(),
                btu.end()
            ),
            "Ask the supplier, or leave it out to use the usual figure.",
        );
    }
}

/// What was taken where the given figure cannot be used.
fn instead(unused: bool, taken: f64) -> String {
    if unused {
        format!(" and not used; {taken} was used")
    } else {
        String::new()
    }
}

fn number(value: f64) -> String {
    if value.is_finite() {
        format!("{value}")
    } else {
        "not a number".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::units::HeatingValue;

    #[test]
    fn a_slip_of_the_point_is_told() {
        let found = check(&RULE, 1, |job| job.gas.specific_gravity = Some(6.0));
        assert!(
            found[0].what.contains("6 and not used; 0.6 was used"),
            "{}",
            found[0].what
        );
        let found = check(&RULE, 1, |job| job.gas.specific_gravity = Some(1.2));
        assert!(found[0].what.contains("as 1.2; for"), "{}", found[0].what);
        check(&RULE, 1, |job| job.gas.specific_gravity = Some(f64::NAN));
        check(&RULE, 1, |job| {
            job.gas.heating_value = Some(HeatingValue::from_btu_per_ft3(37.0))
        });
        check(&RULE, 0, |job| {
            job.gas.specific_gravity = Some(0.65);
            job.gas.heating_value = Some(HeatingValue::from_btu_per_ft3(1_035.0));
        });
    }
}
