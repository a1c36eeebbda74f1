//! Runs drawn on top of each other.

use super::look::Look;
use super::{Found, Rule, Severity};

/// Two runs on one line look like one.
pub const RULE: Rule = Rule {
    id: "runs-overlap",
    title: "Two runs are drawn on top of each other",
    severity: Severity::Check,
    basis: "a drawing must show each run; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (under, over) in look.walk.lines.overlaps(look.job) {
        let both = [under.min(over), under.max(over)];
        found.at_all(
            look.on_all(&both),
            format!("Drawn on top of each other: {}.", look.runs_named(&both)),
            "Move one of them a grid step aside, or merge them if they are one pipe.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, FURNACE, check, extend, joint, run};
    use super::RULE;
    use crate::job::{JointId, State};

    #[test]
    fn a_common_stretch_is_an_overlap_and_a_common_end_is_none() {
        check(&RULE, 1, |job| {
            extend(job, BEND, (2, 0, 0));
        });
        check(&RULE, 1, |job| {
            extend(job, BEND, (-3, 0, 0));
        });
        check(&RULE, 0, |job| {
            extend(job, BEND, (0, 2, 0));
        });
        check(&RULE, 0, |job| {
            extend(job, FURNACE, (0, 2, 0));
        });
    }

    #[test]
    fn skew_runs_overlap_too() {
        check(&RULE, 1, |job| {
            extend(job, FURNACE, (2, 2, 2));
            extend(job, FURNACE, (3, 3, 3));
        });
        check(&RULE, 0, |job| {
            extend(job, FURNACE, (2, 2, 2));
            extend(job, FURNACE, (2, 2, 3));
        });
    }

    #[test]
    fn new_pipe_may_lie_where_old_pipe_goes() {
        check(&RULE, 0, |job| {
            let end = extend(job, BEND, (2, 0, 0));
            job.joints.get_mut(JointId(end)).unwrap().placed = None;
            run(job, 9).state = State::Removed;
            joint(job, end).placed = None;
        });
    }
}
