//! Runs without a length.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;
use crate::units::Length;

/// A run must have a length.
pub const RULE: Rule = Rule {
    id: "length-not-positive",
    title: "A run's length is zero or negative",
    severity: Severity::MustFix,
    basis: "sizing and cutting need a length; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let step = look.job.settings.step;
    let mut by_step = false;
    for pipe in &look.walk.pipes {
        let run = look.run(pipe.run);
        if run.from == run.to {
            found.at(
                look.on(pipe.run),
                format!("Run {} starts and ends at {}.", run.id, look.end_name(run.from)),
                "End it at another joint, or delete the run.",
            );
            continue;
        }
        match run.length {
            Some(length) if length <= Length::ZERO => found.at(
                look.on(pipe.run),
                format!(
                    "Run {} from {} to {} has a length of {}.",
                    run.id,
                    look.end_name(run.from),
                    look.end_name(run.to),
                    look.show(length)
                ),
                "Enter the center-to-center length, or leave it out to use the drawn one.",
            ),
            Some(_) => {}
            None => by_step |= step <= Length::ZERO,
        }
    }
    if by_step {
        found.at(
            Place::Job,
            format!(
                "Grid spacing is {}, so runs without an entered length have none.",
                look.show(step)
            ),
            "Set the grid spacing in the settings, or enter the length of every run.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::JointId;
    use crate::units::Length;

    #[test]
    fn zero_and_negative_lengths_are_none() {
        for inches in [0.0, -3.0] {
            check(&RULE, 1, |job| run(job, 5).length = Some(Length::from_inches(inches)));
        }
        check(&RULE, 0, |job| run(job, 5).length = Some(Length::from_inches(0.5)));
        check(&RULE, 1, |job| run(job, 8).to = JointId(8));
    }

    #[test]
    fn a_step_of_nothing_is_told_once() {
        check(&RULE, 1, |job| {
            job.settings.step = Length::ZERO;
            (run(job, 4).length, run(job, 5).length) = (None, None);
        });
        check(&RULE, 0, |job| job.settings.step = Length::ZERO);
    }
}
