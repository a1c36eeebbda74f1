//! Runs too long to be believed.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::units::Length;

/// A very long run is mostly a slip of the pen: inches typed as feet.
pub const RULE: Rule = Rule {
    id: "length-unlikely",
    title: "A run is longer than {1,000 ft}",
    severity: Severity::Check,
    basis: "a check for typing errors, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let most = Length::from_feet(1000.0);
    for pipe in &look.walk.pipes {
        let run = look.run(pipe.run);
        let length = look.job.true_length(run);
        if length > most {
            found.at(
                look.on(pipe.run),
                format!(
                    "Run {} is {} long, more than {} in one straight line.",
                    run.id,
                    look.show(length),
                    look.limit(most)
                ),
                "Check its length and the unit it was entered in.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::units::Length;

    #[test]
    fn a_thousand_feet_are_believed() {
        check(&RULE, 1, |job| run(job, 3).length = Some(Length::from_feet(1000.5)));
        check(&RULE, 0, |job| run(job, 3).length = Some(Length::from_feet(1000.0)));
    }
}
