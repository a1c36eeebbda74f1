//! The job with the branch laid at a place.

use crate::advice::{TieIn, TieInPlace};
use crate::job::{Job, Joint, JointId, Run, RunId, State};

/// A copy of the job with the line laid; passages of a tapped run stay with its first part, as no figure asks for them.
pub fn laid(job: &Job, row: &TieIn) -> Job {
    let mut laid = job.clone();
    lay(&mut laid, row);
    laid
}

/// Lays the line in a job.
pub fn lay(laid: &mut Job, row: &TieIn) {
    let pattern = pattern(laid, row.head);
    let mut from = match row.place {
        TieInPlace::Joint(joint) => joint,
        TieInPlace::Run { run, along } => match tap(laid, run, row, along) {
            Some(middle) => middle,
            None => return,
        },
    };
    for joint in [from, row.head] {
        uncap(laid, joint);
    }
    for (number, leg) in row.route.iter().enumerate() {
        let to = match number + 1 < row.route.len() {
            true => add_joint(laid, leg.to),
            false => row.head,
        };
        add_run(
            laid,
            Run {
                from,
                to,
                length: Some(leg.length),
                ..pattern.clone()
            },
        );
        from = to;
    }
}

/// Makes a job again what it was before a line was laid in it.
pub fn take_back(laid: &mut Job, job: &Job, row: &TieIn) {
    laid.joints.retain(|joint| job.joints.position(joint.id).is_some());
    laid.runs.retain(|run| job.runs.position(run.id).is_some());
    let tapped = match row.place {
        TieInPlace::Joint(joint) => {
            put_back(laid, job, joint);
            None
        }
        TieInPlace::Run { run, .. } => job.runs.get(run),
    };
    if let Some(tapped) = tapped {
        laid.runs.insert(tapped.clone());
    }
    put_back(laid, job, row.head);
}

fn put_back(laid: &mut Job, job: &Job, id: JointId) {
    if let Some(joint) = job.joints.get(id) {
        laid.joints.insert(joint.clone());
    }
}

/// What the new line is like.
pub fn pattern(job: &Job, head: JointId) -> Run {
    let at_head = |run: &&Run| (run.from == head || run.to == head) && run.state != State::Removed;
    let like = job.runs.iter().find(at_head);
    like.map_or_else(Run::default, |like| Run {
        material: like.material,
        surroundings: like.surroundings,
        cover: like.cover,
        coated: like.coated,
        tracer: like.tracer,
        bonded: like.bonded,
        jacketed: like.jacketed,
        ..Run::default()
    })
}

fn tap(job: &mut Job, id: RunId, row: &TieIn, along: crate::units::Length) -> Option<JointId> {
    let run = job.runs.get(id)?.clone();
    let whole = job.true_length(&run);
    let share = along.eighths_of_um() as f64 / whole.eighths_of_um().max(1) as f64;
    let [near_offset, far_offset] = match run.offset {
        Some(offset) => offset.parted(share).map(Some),
        None => [None, None],
    };
    let middle = add_joint(job, row.at);
    add_run(
        job,
        Run {
            from: middle,
            length: Some(whole - along),
            offset: far_offset,
            penetrations: Vec::new(),
            words_at: None,
            ..run
        },
    );
    let near = job.runs.get_mut(id)?;
    (near.to, near.length, near.offset) = (middle, Some(along), near_offset);
    Some(middle)
}

fn uncap(job: &mut Job, id: JointId) {
    let runs = job.runs.iter().filter(|run| run.from == id || run.to == id).count();
    if let Some(joint) = job.joints.get_mut(id) {
        joint.uncap(runs);
    }
}

fn add_joint(job: &mut Job, at: crate::job::LatticePoint) -> JointId {
    let id = job.joints.free_id();
    job.joints.insert(Joint {
        id,
        at,
        ..Joint::default()
    });
    id
}

fn add_run(job: &mut Job, run: Run) {
    let id = job.runs.free_id();
    job.runs.insert(Run { id, ..run });
}
