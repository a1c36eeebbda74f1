//! Which runs meet at each joint, and which way gas flows, as far as editing needs it.
//!
//! The study knows more; the editor must know this much before any study is made.

use super::{Key, Part, Refusal, Selection};
use crate::job::{Device, Job, JointId, RunId, State};

/// The runs that meet at each joint of a job.
#[derive(Clone, Debug, Default)]
pub struct Legs {
    /// For each joint, by position, where its runs begin in `runs`; one longer than the joints.
    start: Vec<u32>,
    /// Positions of runs.
    runs: Vec<u32>,
}

impl Legs {
    /// The runs of a job, those with a dangling end left out.
    pub fn of(job: &Job) -> Legs {
        let ends: Vec<Option<[usize; 2]>> = job
            .runs
            .iter()
            .map(|run| Some([job.joints.position(run.from)?, job.joints.position(run.to)?]))
            .collect();
        let mut start = vec![0_u32; job.joints.len() + 1];
        for joint in ends.iter().flatten().flatten() {
            start[joint + 1] += 1;
        }
        for joint in 0..job.joints.len() {
            start[joint + 1] += start[joint];
        }
        let mut next = start.clone();
        let mut runs = vec![0; start.last().map_or(0, |all| *all as usize)];
        for (run, joints) in ends.iter().enumerate() {
            for joint in joints.iter().flatten() {
                runs[next[*joint] as usize] = run as u32;
                next[*joint] += 1;
            }
        }
        Legs { start, runs }
    }

    /// The positions of the runs that meet at a joint, given by its position.
    pub fn at(&self, joint: usize) -> impl Iterator<Item = usize> + '_ {
        let range = match (self.start.get(joint), self.start.get(joint + 1)) {
            (Some(from), Some(to)) => *from as usize..*to as usize,
            _ => 0..0,
        };
        self.runs[range].iter().map(|run| *run as usize)
    }
}

/// The way from the points of delivery to every joint that gas reaches. Pipe to be removed carries none.
#[derive(Clone, Debug, Default)]
pub struct Flow {
    legs: Legs,
    /// For each joint, by position, whether gas reaches it.
    reached: Vec<bool>,
    /// For each joint the position of the run that feeds it.
    feed: Vec<Option<usize>>,
    /// Joints that gas reaches, by position, each after the one that feeds it.
    order: Vec<usize>,
}

impl Flow {
    /// The flow in a job.
    pub fn of(job: &Job) -> Flow {
        let supply = |joint: &crate::job::Joint| {
            let placed = joint.placed.as_ref();
            placed.is_some_and(|placed| matches!(placed.device, Device::Supply(_)) && placed.state != State::Removed)
        };
        let mut flow = Flow {
            legs: Legs::of(job),
            reached: job.joints.iter().map(supply).collect(),
            feed: vec![None; job.joints.len()],
            order: Vec::new(),
        };
        flow.order = (0..job.joints.len()).filter(|at| flow.reached[*at]).collect();
        let mut done = 0;
        while let Some(&joint) = flow.order.get(done) {
            done += 1;
            for run in flow.legs.at(joint) {
                let Some(next) = beyond(job, run, joint).filter(|_| job.runs.at(run).state != State::Removed) else {
                    continue;
                };
                if !flow.reached[next] {
                    flow.reached[next] = true;
                    flow.feed[next] = Some(run);
                    flow.order.push(next);
                }
            }
        }
        flow
    }

    /// Whether gas enters the run at its `to` end, as far as gas enters it at all.
    pub fn is_against(&self, job: &Job, run: RunId) -> bool {
        let Some(position) = job.runs.position(run) else {
            return false;
        };
        let from = job.joints.position(job.runs.at(position).from);
        from.is_some_and(|from| self.feed[from] == Some(position))
    }

    /// The parts along the pipe: each branch to its end before the next, each run before the joint that it feeds; what gas
    /// does not reach after all that.
    pub fn walk(&self, job: &Job) -> Vec<Part> {
        let mut walk = Vec::new();
        let mut waiting: Vec<usize> = self
            .order
            .iter()
            .copied()
            .filter(|at| self.feed[*at].is_none())
            .collect();
        waiting.reverse();
        while let Some(joint) = waiting.pop() {
            walk.extend(self.feed[joint].map(|run| Part::Run(job.runs.at(run).id)));
            walk.push(Part::Joint(job.joints.at(joint).id));
            let fed = self.fed_from(job, joint).map(|(_, next)| next);
            let before = waiting.len();
            waiting.extend(fed);
            waiting[before..].reverse();
        }
        let fed: std::collections::HashSet<usize> = self.feed.iter().flatten().copied().collect();
        let runs = job.runs.iter().enumerate().filter(|(at, _)| !fed.contains(at));
        walk.extend(runs.map(|(_, run)| Part::Run(run.id)));
        let joints = job.joints.iter().enumerate().filter(|(at, _)| !self.reached[*at]);
        walk.extend(joints.map(|(_, joint)| Part::Joint(joint.id)));
        walk
    }

    /// The runs that a joint feeds, with the joints at their far ends, all by position.
    fn fed_from(&self, job: &Job, joint: usize) -> impl Iterator<Item = (usize, usize)> {
        self.legs.at(joint).filter_map(move |run| {
            let next = beyond(job, run, joint)?;
            (self.feed[next] == Some(run)).then_some((run, next))
        })
    }

    /// The part that comes along the pipe after another, or before it, and is wanted; from the last to the first again.
    pub fn neighbor(job: &Job, here: Option<Part>, key: Key, wanted: impl Fn(&Part) -> bool) -> Option<Part> {
        let mut walk = Flow::of(job).walk(job);
        if key == Key::Previous {
            walk.reverse();
        }
        // What lies on a run is where the run is.
        let here = here.map(|here| here.run().map_or(here, Part::Run));
        let here = here.and_then(|here| walk.iter().position(|part| *part == here));
        walk.rotate_left(here.map_or(0, |at| at + 1));
        walk.into_iter().find(wanted)
    }

    /// A joint or run and everything that gas reaches through it.
    ///
    /// # Errors
    /// When no gas reaches the part, or it is neither joint nor run.
    pub fn downstream(&self, job: &Job, of: Part) -> Result<Selection, Refusal> {
        let start = match of {
            Part::Joint(id) => job.joints.position(id).filter(|at| self.reached[*at]),
            Part::Run(id) => job.runs.position(id).and_then(|run| {
                let ends = [job.runs.at(run).from, job.runs.at(run).to];
                let ends = ends.iter().filter_map(|end| job.joints.position(*end));
                ends.into_iter().find(|end| self.feed[*end] == Some(run))
            }),
            Part::Penetration(..) | Part::Note(_) => None,
        };
        let mut waiting = vec![start.ok_or(Refusal::NoFlow(of))?];
        let mut found: Selection = [of].into_iter().collect();
        while let Some(joint) = waiting.pop() {
            found.extend([Part::Joint(job.joints.at(joint).id)]);
            for (run, next) in self.fed_from(job, joint) {
                found.extend([Part::Run(job.runs.at(run).id)]);
                waiting.push(next);
            }
        }
        Ok(found)
    }
}

/// The joint at the other end of a run, all by position.
fn beyond(job: &Job, run: usize, joint: usize) -> Option<usize> {
    let run = job.runs.at(run);
    let here: JointId = job.joints.at(joint).id;
    job.joints.position(if run.from == here { run.to } else { run.from })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{J, R, house};

    #[test]
    fn downstream_of_a_run_is_what_hangs_on_its_far_end() {
        let job = house();
        let flow = Flow::of(&job);
        let found = flow.downstream(&job, R(3)).unwrap();
        assert_eq!(found, [R(3), J(4), R(4), J(5)].into_iter().collect());
        assert_eq!(
            flow.downstream(&job, J(1)).unwrap().len(),
            job.joints.len() + job.runs.len()
        );
    }

    #[test]
    fn the_walk_goes_a_branch_to_its_end_before_the_next_and_back_the_same_way() {
        let mut job = house();
        // A branch from the first elbow, drawn last.
        job.joints.insert(crate::job::Joint {
            id: JointId(9),
            at: crate::editor::fixture::at(0, 4, 4),
            ..Default::default()
        });
        job.runs.insert(crate::job::Run {
            id: RunId(9),
            from: JointId(2),
            to: JointId(9),
            ..Default::default()
        });
        let walk = Flow::of(&job).walk(&job);
        let at = |part: Part| walk.iter().position(|one| *one == part).unwrap();
        assert!(at(J(5)) < at(R(9)), "the first branch to its end: {walk:?}");
        assert_eq!(at(J(9)), at(R(9)) + 1);
        for part in &walk {
            let next = Flow::neighbor(&job, Some(*part), Key::Next, |_| true).unwrap();
            assert_eq!(Flow::neighbor(&job, Some(next), Key::Previous, |_| true), Some(*part));
        }
        let runs = |part: &Part| matches!(part, Part::Run(_));
        assert_eq!(Flow::neighbor(&job, Some(J(9)), Key::Previous, runs), Some(R(9)));
    }

    #[test]
    fn nothing_is_downstream_where_no_gas_comes() {
        let mut job = house();
        for run in [2, 3] {
            job.runs.get_mut(RunId(run)).unwrap().state = State::Removed;
        }
        let flow = Flow::of(&job);
        assert_eq!(flow.downstream(&job, R(4)), Err(Refusal::NoFlow(R(4))));
        assert_eq!(
            flow.walk(&job).len(),
            job.joints.len() + job.runs.len(),
            "every part has its turn"
        );
    }
}
