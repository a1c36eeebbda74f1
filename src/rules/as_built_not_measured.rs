//! As-built drawings that show what nobody measured.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Run, State, Status};

/// New pipe of an as-built drawing has a typed length and a typed size.
pub const RULE: Rule = Rule {
    id: "as-built-not-measured",
    title: "New pipe on an as-built drawing has no entered length or size",
    severity: Severity::Check,
    basis: "an as-built drawing shows what was measured in place: common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.job.title.status != Status::AsBuilt {
        return;
    }
    let is_pipe = |at: usize| !look.is_connector(at);
    let lacks = |run: &Run| run.given_length().is_none() || run.size.is_none();
    let runs = look.job.runs.iter().enumerate();
    let runs: Vec<usize> = runs
        .filter(|(at, run)| run.state == State::New && lacks(run) && is_pipe(*at))
        .map(|(at, _)| at)
        .collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!(
                "New pipe is shown as drawn; no measured length or size is entered: {}.",
                look.runs_named(&runs)
            ),
            "Measure it in place and enter what you found.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::job::{Job, RunId, State, Status};
    use crate::units::{Length, NominalSize};

    fn measured(job: &mut Job) {
        job.title.status = Status::AsBuilt;
        for id in 1..=8 {
            if let Some(run) = job.runs.get_mut(RunId(id)) {
                run.length = run.length.or(Some(Length::from_feet(3.0)));
                run.size = run.size.or(Some(NominalSize::HALF));
            }
        }
    }

    #[test]
    fn what_was_not_typed_is_told_on_an_as_built_drawing_only() {
        check(&RULE, 0, |job| {
            measured(job);
            job.title.status = Status::ForPermit;
            job.runs.get_mut(RunId(4)).expect("it is there").length = None;
        });
        let found = check(&RULE, 1, |job| {
            measured(job);
            for id in [4, 6] {
                let run = job.runs.get_mut(RunId(id)).expect("it is there");
                (run.length, run.state) = (None, State::New);
            }
        });
        assert_eq!(found[0].also.len(), 1);
        check(&RULE, 1, |job| {
            measured(job);
            job.runs.get_mut(RunId(5)).expect("it is there").size = None;
        });
        check(&RULE, 0, measured);
        check(&RULE, 0, |job| {
            measured(job);
            let old = job.runs.get_mut(RunId(2)).expect("it is there");
            (old.length, old.state) = (None, State::Existing);
        });
    }
}
