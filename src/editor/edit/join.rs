//! Making one run of two that lie in line.

use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::{Job, JointId, Penetration, Run, RunId};
use crate::units::Length;

/// Joins the two runs that meet at a joint; the joint goes. The older run keeps its id and its direction.
///
/// # Errors
/// When not exactly two runs meet there, when they do not lie in line or are not alike, or when something stands there.
pub fn join(job: &Job, joint: JointId) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let run = weld(&mut draft, joint)?;
    draft.finish(format!("Join into {run}"))
}

/// The joint at which two runs meet.
pub fn shared_joint(job: &Job, a: RunId, b: RunId) -> Option<JointId> {
    let (a, b) = (job.runs.get(a)?, job.runs.get(b)?);
    [a.from, a.to].into_iter().find(|joint| [b.from, b.to].contains(joint))
}

/// Joins the runs at a joint of a draft, or leaves the draft as it is.
pub fn weld(draft: &mut Draft, joint: JointId) -> Result<RunId, Refusal> {
    let here = draft.want_joint(joint)?;
    if let Some(placed) = &here.placed {
        let device = placed.device.name();
        return Err(Refusal::Holds { joint, device });
    }
    if let Some(note) = draft.notes().iter().position(|note| note.at == joint) {
        return Err(Refusal::Noted { note: note + 1, joint });
    }
    let at = here.at;
    let [kept, other] = both(joint, &draft.runs_at(joint))?;
    let (a, b) = (draft.want_run(kept)?.clone(), draft.want_run(other)?.clone());
    let (start, end) = (far(&a, joint), far(&b, joint));
    let ways = [draft.want_joint(start)?.at - at, draft.want_joint(end)?.at - at];
    if ways[0].angle_to(ways[1]) != Some(180.0) {
        return Err(Refusal::NotInLine(kept, other));
    }
    if let Some(what) = difference(&a, &b) {
        return Err(Refusal::Unlike(kept, other, what));
    }
    let offset = match (&a.offset, &b.offset) {
        (Some(one), Some(other)) => one.joined(other),
        (Some(_) | None, None) | (None, Some(_)) => None,
    };
    if offset.is_none() && (a.offset.is_some() || b.offset.is_some()) {
        return Err(Refusal::Unlike(kept, other, "what was measured of the offset"));
    }
    let lengths = [draft.true_length(&a), draft.true_length(&b)];
    let typed = a.length.is_some() || b.length.is_some();
    // Passages as seen from the far end of the kept run.
    let mut passages = seen_from(&a, start, lengths[0], Length::ZERO);
    passages.extend(seen_from(&b, joint, lengths[1], lengths[0]));
    let whole = lengths[0] + lengths[1];
    let forward = a.from == start;
    if !forward {
        passages
            .iter_mut()
            .for_each(|passage| passage.at = passage.at.map(|at| whole - at));
    }
    draft.remove_run(other);
    draft.change_run(kept, |run| {
        (run.from, run.to) = if forward { (start, end) } else { (end, start) };
        run.length = typed.then_some(whole);
        run.offset = offset;
        run.penetrations = passages;
        run.words_at = a.words_at.or(b.words_at);
    })?;
    draft.remove_joint(joint);
    Ok(kept)
}

fn far(run: &Run, joint: JointId) -> JointId {
    if run.from == joint { run.to } else { run.from }
}

/// The passages of a run, measured from one of its ends, that end lying so far along.
fn seen_from(run: &Run, end: JointId, length: Length, along: Length) -> Vec<Penetration> {
    let moved = |passage: &Penetration| {
        let at = passage.at.unwrap_or(length.times(0.5));
        let at = if run.from == end { at } else { length - at };
        Penetration {
            at: Some(along + at),
            ..passage.clone()
        }
    };
    run.penetrations.iter().map(moved).collect()
}

/// In what two runs differ, lengths and passages apart.
fn difference(a: &Run, b: &Run) -> Option<&'static str> {
    [
        (a.material != b.material, "material"),
        (a.size != b.size, "size"),
        (a.replaced() != b.replaced(), "the pipe it replaces"),
        (a.state != b.state, "state"),
        (a.surroundings != b.surroundings, "location"),
        (a.cover != b.cover, "cover"),
        (a.coated != b.coated, "coating"),
        (a.tracer != b.tracer, "tracer wire"),
        (a.bonded != b.bonded, "bonding"),
        (a.jacketed != b.jacketed, "jacket"),
        (a.salvaged != b.salvaged, "salvage for reuse"),
    ]
    .into_iter()
    .find_map(|(differs, what)| differs.then_some(what))
}

fn both(joint: JointId, runs: &[RunId]) -> Result<[RunId; 2], Refusal> {
    <[RunId; 2]>::try_from(runs).map_err(|_| Refusal::NotTwo {
        joint,
        runs: runs.len(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::edit::{Cut, reverse, split};
    use crate::editor::fixture::{at, done, house, refused, run};
    use crate::editor::{Part, Spot};
    use crate::job::{Barrier, State};

    fn with_passage(way: Length) -> Job {
        let mut job = house();
        let run = job.runs.get_mut(RunId(2)).unwrap();
        run.length = Some(Length::from_feet(30.0));
        run.penetrations.push(Penetration {
            barrier: Barrier::Floor,
            at: Some(way),
            ..Penetration::default()
        });
        job
    }

    #[test]
    fn what_was_split_is_joined_again_whichever_way_its_parts_lie() {
        for way in [4.0, 22.0] {
            let job = with_passage(Length::from_feet(way));
            let parted = done(&job, split(&job, Spot::on(RunId(2), at(2, 0, 4)), Cut::InProportion));
            let middle = shared_joint(&parted, RunId(2), RunId(6)).unwrap();
            assert_eq!(done(&parted, join(&parted, middle)), job);
            for turned in [vec![RunId(6)], vec![RunId(2)], vec![RunId(2), RunId(6)]] {
                let other = done(&parted, reverse(&parted, &turned));
                let mut joined = done(&other, join(&other, middle));
                if run(&joined, 2).from != run(&job, 2).from {
                    joined = done(&joined, reverse(&joined, &[RunId(2)]));
                }
                assert_eq!(joined, job, "{turned:?} turned");
            }
        }
    }

    #[test]
    fn what_does_not_make_one_pipe_is_not_joined() {
        let job = house();
        refused(&job, join(&job, JointId(2)), "R1 and R2 are not in line");
        refused(&job, join(&job, JointId(5)), "J5 has a cap");
        refused(&job, join(&job, JointId(77)), "no longer there");
        let parted = done(&job, split(&job, Spot::on(RunId(2), at(2, 0, 4)), Cut::InProportion));
        let middle = shared_joint(&parted, RunId(2), RunId(6)).unwrap();
        let mut other = parted.clone();
        other.runs.get_mut(RunId(6)).unwrap().state = State::Existing;
        refused(&other, join(&other, middle), "differ in state");
        assert_eq!(shared_joint(&job, RunId(1), RunId(4)), None);
        assert!(Part::Joint(middle).is_in(&parted));
    }
}
