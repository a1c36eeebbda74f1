//! Exterior walls with a gap around the pipe.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Barrier, Detail, Penetration, Seal, State};

/// Where pipe passes an exterior wall the gap is closed.
pub const RULE: Rule = Rule {
    id: "exterior-wall-open",
    title: "Pipe passes through an exterior wall and the gap is not sealed",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::Seal);
    for (number, at, passage) in new_passages(look, Barrier::ExteriorWall) {
        if passage.seal == Seal::Open {
            found.through(at);
            let sleeve = if passage.sleeved {
                "in a sleeve"
            } else {
                "without a sleeve"
            };
            found.at(
                look.on(number),
                format!(
                    "Run {} passes through an exterior wall {sleeve}; no seal is shown at the gap.",
                    look.run(number).id
                ),
                match passage.sleeved {
                    true => "Seal the gaps between pipe and sleeve and between sleeve and wall, and mark the seal.",
                    false => "Sleeve or coat the pipe, seal the gap at the outside face, and mark the seal.",
                },
            );
        }
    }
}

/// Passages of new pipe through a kind of barrier, with their runs and their places in the runs' lists.
pub fn new_passages<'a>(
    look: &Look<'a>,
    barrier: Barrier,
) -> impl Iterator<Item = (usize, usize, &'a Penetration)> + use<'a> {
    let runs = &look.job.runs;
    let piercing = look
        .walk
        .piercing
        .iter()
        .filter(move |&&run| runs.at(run).state == State::New);
    piercing.flat_map(move |&number| {
        let passages = runs.at(number).penetrations.iter().enumerate();
        passages
            .filter(move |(_, passage)| passage.barrier == barrier)
            .map(move |(at, passage)| (number, at, passage))
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Seal, State};

    #[test]
    fn a_gap_in_an_exterior_wall_is_sealed() {
        let open = |job: &mut Job| run(job, 4).penetrations[0].seal = Seal::Open;
        check(&RULE, 1, open);
        check(&RULE, 0, |job| run(job, 4).penetrations[0].seal = Seal::Outside);
        check(&RULE, 0, |job| {
            open(job);
            run(job, 4).penetrations[0].barrier = Barrier::InteriorWall;
        });
        check(&RULE, 0, |job| {
            open(job);
            run(job, 4).state = State::Existing;
        });
    }
}
