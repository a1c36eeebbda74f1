//! Gas heavier than the tables are made for.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::codebook::Equations;
use crate::job::Fuel;
use crate::study::Place;

/// Up to 0.70 the tables serve as they stand, above that with a multiplier.
pub const RULE: Rule = Rule {
    id: "gravity-heavy",
    title: "Specific gravity is over 0.70",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

const MOST: f64 = 0.70;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let gas = &look.study.gas;
    if gas.fuel != Fuel::Natural || gas.specific_gravity <= MOST || look.profile.equations == Equations::Always {
        return;
    }
    let said = format!(
        "The specific gravity is {}; the natural-gas tables apply as printed up to {MOST:.2}",
        gas.specific_gravity
    );
    match look.book.gravity_factor(gas.fuel, gas.specific_gravity) {
        Some(factor) => found.at(
            Place::Job,
            format!(
                "{said}, so every capacity was multiplied by {:.3}.",
                factor.factor.value
            ),
            "Check the specific gravity with the supplier.",
        ),
        None => found.at(
            Place::Job,
            format!("{said}, and no multiplier is published for a gas this heavy."),
            "Ask the supplier for the specific gravity, and have an engineer size the piping.",
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;

    #[test]
    fn tables_serve_up_to_seven_tenths() {
        let found = check(&RULE, 1, |job| job.gas.specific_gravity = Some(0.75));
        assert!(found[0].what.contains("multiplied"), "{}", found[0].what);
        let found = check(&RULE, 1, |job| job.gas.specific_gravity = Some(2.9));
        assert!(found[0].what.contains("no multiplier"), "{}", found[0].what);
        check(&RULE, 0, |job| job.gas.specific_gravity = Some(0.70));
    }
}
