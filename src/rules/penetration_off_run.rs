//! Penetrations beyond the ends of their run.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::units::Length;

/// What pipe passes through stands between its ends.
pub const RULE: Rule = Rule {
    id: "penetration-off-run",
    title: "A penetration is beyond the end of its run",
    severity: Severity::Check,
    basis: "a drawing must show where pipe passes through; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &number in &look.walk.piercing {
        let run = look.run(number);
        let length = look.job.true_length(run);
        let placed = run.penetrations.iter().enumerate();
        for (index, at) in placed.filter_map(|(index, passage)| Some((index, passage.at?))) {
            if at < Length::ZERO || at > length {
                found.through(index);
                found.at(
                    look.on(number),
                    format!(
                        "Run {} is {} long; a penetration is placed {} from {}.",
                        run.id,
                        look.show(length),
                        look.show(at),
                        look.end_name(run.from)
                    ),
                    "Measure it from that end of the run, or put it on the run that passes through.",
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::units::Length;

    #[test]
    fn a_penetration_lies_on_its_run() {
        let place =
            |feet: f64| move |job: &mut crate::job::Job| run(job, 4).penetrations[0].at = Some(Length::from_feet(feet));
        check(&RULE, 1, place(6.5));
        check(&RULE, 1, place(-0.5));
        check(&RULE, 0, place(6.0));
    }
}
