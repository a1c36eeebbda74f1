//! Valves, caps and plugs while new pipe is under test pressure.

use crate::job::{ClosureKind, Job, JointId, State};
use crate::study::Study;

/// What is done at a joint for the test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Closure {
    /// Where.
    pub joint: JointId,
    /// What.
    pub kind: ClosureKind,
}

impl ClosureKind {
    /// What is done there, in a sentence (common practice, no source).
    pub const fn words(self) -> &'static str {
        match self {
            ClosureKind::Supply => "supplier's valve closed, new pipe disconnected from it and capped",
            ClosureKind::TieIn => "new pipe disconnected from existing pipe and capped or plugged",
            ClosureKind::Valve => {
                "valve open, so that both sides are tested; remove it if it is rated for less than the test pressure"
            }
            ClosureKind::Regulator => {
                "regulator out of the line, the pipe capped on both sides; the pipe downstream tested too"
            }
            ClosureKind::Meter => "meter out of the line, the pipe capped; never under test pressure",
            ClosureKind::Appliance => "appliance, connector and coupling off, the pipe capped",
            ClosureKind::Cap => "cap or plug in place and tight",
            ClosureKind::OpenEnd => "nothing is drawn on this end: cap or plug it",
            ClosureKind::Gauge => "the test gauge is here",
        }
    }
}

/// Every place where tested pipe ends or holds a device, in the order of the job.
pub(super) fn all(job: &Job, study: &Study, runs: &[usize]) -> Vec<Closure> {
    let mut tested = vec![false; job.runs.len()];
    for &run in runs {
        tested[run] = true;
    }
    let network = &study.network;
    let mut closures = Vec::new();
    for (joint, drawn) in job.joints.iter().enumerate() {
        let mut meets = 0;
        let (mut is_tested, mut meets_old) = (false, false);
        for run in network.legs(joint) {
            let state = job.runs.at(run).state;
            meets += usize::from(state != State::Removed);
            is_tested |= tested[run];
            meets_old |= state == State::Existing;
        }
        if !is_tested {
            continue;
        }
        let device = drawn.device().and_then(|device| device.nature().in_test);
        let mut say = |kind| closures.push(Closure { joint: drawn.id, kind });
        if meets_old {
            say(ClosureKind::TieIn);
        }
        match device {
            // A valve at the tie-in belongs to the old pipe's side: the new pipe is closed before it.
            Some(ClosureKind::Valve) if meets_old => {}
            Some(kind) => say(kind),
            None if meets == 1 => say(ClosureKind::OpenEnd),
            None => {}
        }
    }
    closures
}
