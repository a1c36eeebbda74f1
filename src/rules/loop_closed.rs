//! A run that closes a loop.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::pressure::{Ring, Unsolved};
use std::collections::BTreeMap;

/// Piping must be a tree.
pub const RULE: Rule = Rule {
    id: "loop",
    title: "A run closes a loop",
    severity: Severity::MustFix,
    basis: "the published methods size trees; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut ring_of: BTreeMap<usize, &Ring> = BTreeMap::new();
    for ring in &look.study.rings {
        ring_of.extend(ring.runs.iter().map(|&run| (run, ring)));
    }
    for &number in &look.study.network.loop_runs {
        let run = look.run(number);
        // A run from a joint to itself is a length of its own fault.
        if run.from != run.to {
            let ring = ring_of.get(&number).copied();
            found.at(
                look.on(number),
                format!(
                    "Gas reaches both ends of run {}, {} and {}, without it: it closes a loop, which no published \
                     method sizes. Sizes and capacities are those of the piping without it{}.",
                    run.id,
                    look.end_name(run.from),
                    look.end_name(run.to),
                    ring.map_or(String::new(), |ring| pressures(look, ring))
                ),
                remedy(look, ring.and_then(|ring| ring.unsolved)),
            );
        }
    }
}

/// What holds of the pressures in a ring.
fn pressures(look: &Look<'_>, ring: &Ring) -> String {
    let why = match ring.unsolved {
        None => {
            return "; pressures are those of the closed loop, with every appliance behind it at full input".to_owned();
        }
        Some(Unsolved::Regulator(joint)) => {
            format!("it passes through the line regulator at {}", look.joint_name(joint))
        }
        Some(Unsolved::Connector(run)) => format!("run {} of it is part of a flexible connector", look.run(run).id),
        Some(Unsolved::SizeUnknown(run)) => format!("the size of run {} is not known", look.run(run).id),
        Some(Unsolved::NoFigure(run)) => format!("no table gives the loss of run {}", look.run(run).id),
        Some(Unsolved::EntryUnknown) => "the pressure where gas enters it is not known".to_owned(),
        Some(Unsolved::NotFound) => {
            "no flows were found at which its pressures agree, as when pipe is far too small for the load".to_owned()
        }
        Some(Unsolved::TooLarge) => "it has too many branches".to_owned(),
    };
    format!("; pressures in the loop and downstream of it are not computed: {why}")
}

fn remedy(look: &Look<'_>, unsolved: Option<Unsolved>) -> String {
    let open = "Take one run out of the loop, or split it where gas should not pass.";
    match unsolved {
        Some(Unsolved::SizeUnknown(run)) => {
            format!(
                "{open} For pressures of the loop as it is, enter a size for run {}.",
                look.run(run).id
            )
        }
        None
        | Some(
            Unsolved::Regulator(_)
            | Unsolved::Connector(_)
            | Unsolved::NoFigure(_)
            | Unsolved::EntryUnknown
            | Unsolved::NotFound
            | Unsolved::TooLarge,
        ) => open.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, FURNACE, check, run};
    use super::RULE;
    use crate::job::{JointId, Run, RunId, State};
    use crate::units::NominalSize;

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
        // R9 is walked first, so that R3 is the run that closes it.
        let found = check(&RULE, 1, close);
        assert!(
            found[0].what.contains("not computed: the size of run R3 is not known"),
            "{}",
            found[0].what
        );
        assert!(
            found[0].remedy.contains("enter a size for run R3"),
            "{}",
            found[0].remedy
        );
        let found = check(&RULE, 1, |job| {
            close(job);
            run(job, 3).size = Some(NominalSize::HALF);
        });
        assert!(found[0].what.contains("those of the closed loop"), "{}", found[0].what);
        check(&RULE, 0, |job| {
            close(job);
            run(job, 9).state = State::Removed;
        });
    }
}
