//! Shallow lines to one outdoor appliance.

use super::burial_shallow::{covered, is_single, leans_on};
use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};

/// The figure for a line to one outdoor appliance is less than the usual one, and the drawing says that it was used.
pub const RULE: Rule = Rule {
    id: "burial-single-line",
    title: "Buried pipe relies on the reduced cover for a line to one outdoor appliance",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let (mut runs, mut figures) = (Vec::new(), None);
    for (run, cover, burial) in covered(look) {
        if let Some(single) = leans_on(cover, burial).filter(|_| is_single(look, run)) {
            runs.push(run);
            figures = Some((single, burial.usual));
        }
    }
    if let Some((single, usual)) = figures {
        found.at_all(
            look.on_all(&runs),
            format!(
                "Less cover than the usual {} on {}: {} is allowed for a line to one outdoor appliance ({}).",
                look.limit(usual.value),
                look.runs_named(&runs),
                look.limit(single.value),
                look.by_profile(single.mark)
            ),
            "Ask the permit office whether it accepts this depth.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Job, Surroundings};
    use crate::units::Length;

    #[test]
    fn between_the_two_figures_it_is_told() {
        let bury = |inches: f64| {
            move |job: &mut Job| {
                (run(job, 5).surroundings, run(job, 5).cover) =
                    (Surroundings::Underground, Some(Length::from_inches(inches)));
            }
        };
        check(&RULE, 1, bury(8.0));
        check(&RULE, 0, bury(12.0));
        check(&RULE, 0, bury(7.0));
    }
}
