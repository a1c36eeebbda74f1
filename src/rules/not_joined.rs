//! Pipe and devices that no gas reaches.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{DeviceKind, Id};

/// Everything drawn must hang on the point of delivery.
pub const RULE: Rule = Rule {
    id: "not-joined",
    title: "Pipe or a device is not connected to the point of delivery",
    severity: Severity::MustFix,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    if network.supply.is_none() {
        return;
    }
    let mut seen = vec![false; look.job.joints.len()];
    let mut missing = vec![false; look.job.runs.len()];
    network.unreached.iter().for_each(|&run| missing[run] = true);
    for &first in &network.unreached {
        let island = island(look, first, &mut seen, &mut missing);
        if !island.runs.is_empty() && !island.fed {
            let what = if island.runs.len() == 1 {
                "this run"
            } else {
                "these runs"
            };
            found.at_all(
                look.on_all(&island.runs),
                format!(
                    "No pipe connects {} to the point of delivery.",
                    look.runs_named(&island.runs)
                ),
                format!("Draw the missing pipe, or mark {what} as removed."),
            );
        }
    }
    for joint in 0..look.job.joints.len() {
        let alone = look.walk.live_legs(joint) == 0 && !look.walk.reaches(joint);
        if let Some(device) = look.device(joint).filter(|_| alone)
            && look.walk.kind(joint) != Some(DeviceKind::Supply)
        {
            found.at(
                look.at(joint),
                format!(
                    "No run connects to the {} at {}.",
                    device.name(),
                    look.joint_name(joint)
                ),
                "Draw a run to it, or mark it as removed.",
            );
        }
    }
}

/// Runs that hang together without being reached.
struct Island {
    runs: Vec<usize>,
    /// Whether a further point of delivery feeds them.
    fed: bool,
}

/// The runs that hang together with `first` and were in no island before.
fn island(look: &Look<'_>, first: usize, seen: &mut [bool], missing: &mut [bool]) -> Island {
    let mut island = Island {
        runs: Vec::new(),
        fed: false,
    };
    let mut waiting = vec![first];
    while let Some(number) = waiting.pop() {
        if !std::mem::take(&mut missing[number]) {
            continue;
        }
        island.runs.push(number);
        let run = look.run(number);
        for joint in [run.from, run.to]
            .into_iter()
            .filter_map(|end| look.job.joints.position(end))
        {
            if !std::mem::replace(&mut seen[joint], true) {
                island.fed |= look.walk.kind(joint) == Some(DeviceKind::Supply);
                waiting.extend(look.study.network.legs(joint));
            }
        }
    }
    island.runs.sort_by_key(|&run| look.run(run).id.number());
    island
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, TRAP, check, joint, run};
    use super::RULE;
    use crate::job::State;

    #[test]
    fn what_hangs_together_is_told_once() {
        let found = check(&RULE, 1, |job| drop(job.runs.remove(crate::job::RunId(5))));
        assert!(found[0].what.contains("runs R6, R7 and R8 to"), "{}", found[0].what);
        assert_eq!(found[0].also.len(), 2);
    }

    #[test]
    fn a_device_without_a_run_stands_alone() {
        let found = check(&RULE, 1, |job| run(job, 8).state = State::Removed);
        assert!(found[0].what.contains("the appliance at J9"));
        check(&RULE, 0, |job| {
            run(job, 8).state = State::Removed;
            joint(job, PIT).placed.as_mut().unwrap().state = State::Removed;
            joint(job, TRAP).placed.as_mut().unwrap().state = State::Removed;
        });
    }
}
