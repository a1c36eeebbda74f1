//! Closing the gap that a run leaves: what hangs on its far end moves up.

use crate::editor::Refusal;
use crate::editor::draft::Draft;
use crate::job::{JointId, RunId};
use std::collections::BTreeSet;

/// Takes a run out of a draft and moves everything beyond its far end, so that the far end comes to lie on the near one
/// and becomes it. Gives back the near end.
pub fn close(draft: &mut Draft, id: RunId, near_end: End) -> Result<JointId, Refusal> {
    let run = draft.want_run(id)?.clone();
    let (near, far) = match near_end {
        End::From => (run.from, run.to),
        End::To => (run.to, run.from),
    };
    draft.remove_run(id);
    let beyond = hanging_on(draft, far);
    if beyond.contains(&near) {
        return Err(Refusal::Loop(id));
    }
    let by = draft.want_joint(near)?.at - draft.want_joint(far)?.at;
    for joint in beyond.iter().filter(|joint| **joint != far) {
        let joint = draft.joint_mut(*joint)?;
        joint.at = joint.at + by;
    }
    for run in draft.runs_at(far) {
        draft.change_run(run, |run| {
            for end in [&mut run.from, &mut run.to] {
                if *end == far {
                    *end = near;
                }
            }
        })?;
    }
    let (placed, label) = {
        let far = draft.want_joint(far)?;
        (far.placed.clone(), far.label.clone())
    };
    let kept = draft.joint_mut(near)?;
    if placed.is_some() && kept.placed.is_some() {
        return Err(Refusal::TwoDevices(near, far));
    }
    kept.placed = kept.placed.take().or(placed);
    kept.label = kept.label.take().or(label);
    if draft.notes().iter().any(|note| note.at == far) {
        for note in draft.notes_mut() {
            if note.at == far {
                note.at = near;
            }
        }
    }
    draft.remove_joint(far);
    Ok(near)
}

/// An end of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// The `from` end.
    From,
    /// The `to` end.
    To,
}

/// A joint and all that are joined to it in whatever way.
fn hanging_on(draft: &Draft, joint: JointId) -> BTreeSet<JointId> {
    let mut found: BTreeSet<JointId> = [joint].into();
    let mut waiting = vec![joint];
    while let Some(joint) = waiting.pop() {
        for run in draft.runs_at(joint) {
            for end in draft.run(run).into_iter().flat_map(|run| [run.from, run.to]) {
                if found.insert(end) {
                    waiting.push(end);
                }
            }
        }
    }
    found
}
