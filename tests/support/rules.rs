//! What must be true of every job that an editor has had in hand.
#![allow(dead_code)]

use stubout::job::{Device, Job, Joint, Run};
use stubout::units::Length;

/// Every rule of a job, looked at one by one and all anew.
#[track_caller]
pub fn keeps_the_rules(job: &Job) {
    let joints: Vec<&Joint> = job.joints.iter().collect();
    for (index, joint) in joints.iter().enumerate() {
        assert!(
            joints[..index]
                .iter()
                .all(|other| other.id < joint.id && other.at != joint.at),
            "{joint:?}"
        );
        let runs = job
            .runs
            .iter()
            .filter(|run| run.from == joint.id || run.to == joint.id)
            .count();
        let ends = match joint.placed.as_ref().map(|placed| &placed.device) {
            // At an end a cap closes the pipe; where pipe goes on it is the plug in an outlet.
            None | Some(Device::Supply(_) | Device::Cap(_)) => usize::MAX,
            Some(Device::Appliance(_)) => 1,
            Some(_) => 2,
        };
        assert!(runs <= ends, "{joint:?} has {runs} runs");
    }
    let runs: Vec<&Run> = job.runs.iter().collect();
    for (index, run) in runs.iter().enumerate() {
        let pair = |run: &Run| [run.from.min(run.to), run.from.max(run.to)];
        assert!(
            runs[..index]
                .iter()
                .all(|other| other.id < run.id && pair(other) != pair(run)),
            "{run:?}"
        );
        assert_ne!(run.from, run.to);
        let [from, to] = [run.from, run.to].map(|end| job.joints.get(end).expect("an end").at);
        for joint in &joints {
            let [a, b] = [joint.at - from, to - joint.at];
            let between = a.dot(b) > 0 && a.dot(b).pow(2) == a.dot(a) * b.dot(b);
            assert!(!between, "{run:?} runs through {joint:?}");
        }
        if let Some(length) = run.length {
            assert!(length > Length::ZERO, "{run:?}");
        }
    }
    for note in &job.notes {
        assert!(job.joints.get(note.at).is_some(), "{note:?}");
    }
}
