//! Lengths typed in millimeters in a job that shows feet and inches.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;
use crate::units::{Length, UnitSystem};

/// Whoever types meters reads meters: a job that says nothing of its units shows feet.
pub const RULE: Rule = Rule {
    id: "units-unlike",
    title: "Lengths are typed in metric, but the job shows feet and inches",
    severity: Severity::Check,
    basis: "a drawing has one system of units; no clause",
    check,
};

/// So many lengths are no accident.
const ENOUGH: usize = 3;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.job.settings.units != UnitSystem::Us {
        return;
    }
    let (sixteenth, mm) = (Length::from_inches(0.0625), Length::from_mm(1.0));
    let whole = |length: Length, part: Length| length.eighths_of_um() % part.eighths_of_um() == 0;
    let typed = || look.job.runs.iter().filter_map(|run| run.length);
    let metric = |length: &Length| whole(*length, mm) && !whole(*length, sixteenth);
    if typed().filter(metric).count() < ENOUGH || !typed().all(|length| whole(length, mm)) {
        return;
    }
    found.at(
        Place::Job,
        "All lengths of this job are whole millimeters, but it shows feet and inches.",
        "Set the units of the job to metric (in its file: settings: (units: metric)), or enter feet and inches.",
    );
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Job;
    use crate::units::{Length, UnitSystem};

    fn in_mm(job: &mut Job) {
        for number in 1..=8 {
            run(job, number).length = Some(Length::from_mm(f64::from(number) * 350.0));
        }
    }

    #[test]
    fn typed_millimeters_want_a_metric_job() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, in_mm);
        check(&RULE, 0, |job| {
            in_mm(job);
            job.settings.units = UnitSystem::Metric;
        });
        check(&RULE, 0, |job| {
            in_mm(job);
            run(job, 8).length = Some(Length::from_inches(30.5));
        });
    }
}
