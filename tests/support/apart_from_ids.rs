//! Two jobs may be drawn alike under different numbers: a job in words without them.
#![allow(dead_code)]

use std::fmt::Write;
use stubout::job::{Job, JointId, Run};

/// A job in words, by places instead of ids, and without the letters of outlets.
pub fn without_ids(job: &Job) -> String {
    let place = |id: JointId| job.joints.get(id).unwrap().at;
    let mut lines = Vec::new();
    for joint in &job.joints {
        let mut joint = joint.clone();
        joint.id = JointId(0);
        // Letters go by the order in which outlets were connected.
        if let Some(placed) = &mut joint.placed {
            placed.letter = None;
        }
        lines.push(format!("{joint:?}"));
    }
    for run in &job.runs {
        let plain = Run {
            id: Default::default(),
            from: Default::default(),
            to: Default::default(),
            ..run.clone()
        };
        lines.push(format!("{:?} to {:?}: {plain:?}", place(run.from), place(run.to)));
    }
    for note in &job.notes {
        lines.push(format!("note at {:?}: {}", place(note.at), note.text));
    }
    lines.sort();
    let mut text = lines.join("\n");
    write!(text, "\n{:?}\n{:?}\n{:?}", job.title, job.settings, job.gas).unwrap();
    text
}
