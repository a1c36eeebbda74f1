//! Heat left out of the load.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::study::Place;
use crate::units::HeatRate;

/// Of heating and cooling only the larger counts, and the drawing says so.
pub const RULE: Rule = Rule {
    id: "load-left-out",
    title: "Heating or cooling is left out of the load",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let total = &look.study.total;
    if total.left_out > HeatRate::ZERO {
        found.at(
            Place::Job,
            format!(
                "Of heating-season and cooling-season appliances only the larger group counts: the total is {}, with {} left out.",
                look.show(total.heat),
                look.show(total.left_out)
            ),
            "Check that these cannot run at the same time; if they can, mark them as year-round.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, appliance, check};
    use super::RULE;
    use crate::job::Season;

    #[test]
    fn only_heating_against_cooling_leaves_something_out() {
        check(&RULE, 1, |job| {
            appliance(job, FURNACE).season = Season::Heating;
            appliance(job, PIT).season = Season::Cooling;
        });
        check(&RULE, 0, |job| appliance(job, FURNACE).season = Season::Heating);
    }
}
