//! A run that closes a loop.

use super::Look;
use crate::study::{Found, Rule, Severity};

/// Piping must be a tree.
pub const RULE: Rule = Rule {
    id: "loop",
    title: "A run closes a loop",
    severity: Severity::Blocking,
    basis: "the published methods size a tree; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &number in &look.study.network.loop_runs {
        let run = look.run(number);
        // A run from a joint to itself is a length of its own fault.
        if run.from != run.to {
            found.at(
                look.on(number),
                format!(
                    "Gas reaches both ends of run {}, {} and {}, without it: it closes a loop, which no published \
                     method sizes.",
                    run.id,
                    look.end_name(run.from),
                    look.end_name(run.to)
                ),
                "Take one run out of the loop, or split it where gas shall not pass.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, FURNACE, check, run};
    use super::RULE;
    use crate::job::{JointId, Run, RunId, State};

    #[test]
    fn a_second_way_to_a_joint_is_a_loop() {
        let close = |job: &mut crate::job::Job| {
            job.runs.insert(Run {
                id: RunId(9),
                from: JointId(FURNACE),
                to: JointId(BEND),
                ..Run::default()
            });
        };
        check(&RULE, 1, close);
        check(&RULE, 0, |job| {
            close(job);
            run(job, 9).state = State::Removed;
        });
    }
}
