//! The ground of a draft: what lies where once its changes are made.

use super::draft::Draft;
use super::ground::{Ground, NONE};
use crate::job::{JointId, LatticePoint, RunId};
use std::collections::BTreeMap;

/// The ground of a draft: that of the job, then what is pencilled in, and what thereby changed.
pub struct ChangedGround<'a> {
    draft: &'a Draft<'a>,
    ground: Ground,
    new_joints: Vec<JointId>,
    new_runs: Vec<RunId>,
    /// Joints that came or moved.
    pub moved: Vec<u32>,
    /// Joints that went.
    pub gone: Vec<u32>,
    /// Runs that came or got another end.
    pub joined: Vec<u32>,
}

impl<'a> ChangedGround<'a> {
    /// The changed ground of a draft.
    pub fn of(draft: &'a Draft<'a>) -> ChangedGround<'a> {
        let mut changed = ChangedGround {
            draft,
            ground: draft.ground().clone(),
            new_joints: Vec::new(),
            new_runs: Vec::new(),
            moved: Vec::new(),
            gone: Vec::new(),
            joined: Vec::new(),
        };
        let mut joints: BTreeMap<JointId, u32> = BTreeMap::new();
        for (id, before, after) in draft.touched_joints() {
            let place = after.map(|joint| joint.at);
            let (Some(_), Some(position)) = (before, draft.job.joints.position(id)) else {
                if place.is_some() {
                    let position = changed.ground.places.len() as u32;
                    joints.insert(id, position);
                    changed.ground.places.push(place);
                    changed.new_joints.push(id);
                    changed.moved.push(position);
                }
                continue;
            };
            if place.is_none() {
                changed.gone.push(position as u32);
            } else if place != changed.ground.places[position] {
                changed.moved.push(position as u32);
            }
            changed.ground.places[position] = place;
        }
        let position = |id: JointId| match joints.get(&id) {
            Some(position) => *position,
            None => draft.job.joints.position(id).map_or(NONE, |at| at as u32),
        };
        for (id, before, after) in draft.touched_runs() {
            let ends = after.map_or([NONE; 2], |run| [position(run.from), position(run.to)]);
            let (Some(_), Some(at)) = (before, draft.job.runs.position(id)) else {
                if after.is_some() {
                    changed.joined.push(changed.ground.ends.len() as u32);
                    changed.ground.ends.push(ends);
                    changed.new_runs.push(id);
                }
                continue;
            };
            if after.is_some() && ends != changed.ground.ends[at] {
                changed.joined.push(at as u32);
            }
            changed.ground.ends[at] = ends;
        }
        changed
    }

    /// Whether nothing lies or hangs together otherwise than before.
    pub fn is_nothing(&self) -> bool {
        self.moved.is_empty() && self.gone.is_empty() && self.joined.is_empty()
    }

    /// The id of a joint.
    pub fn joint_id(&self, joint: u32) -> JointId {
        let old = self.draft.job.joints.len();
        match (joint as usize).checked_sub(old) {
            Some(new) => self.new_joints[new],
            None => self.draft.job.joints.at(joint as usize).id,
        }
    }

    /// The id of a run.
    pub fn run_id(&self, run: u32) -> RunId {
        let old = self.draft.job.runs.len();
        match (run as usize).checked_sub(old) {
            Some(new) => self.new_runs[new],
            None => self.draft.job.runs.at(run as usize).id,
        }
    }

    /// All joints that are there, with their places.
    pub fn joints(&self) -> impl Iterator<Item = (u32, LatticePoint)> + '_ {
        let places = self.ground.places.iter().enumerate();
        places.filter_map(|(joint, place)| Some((joint as u32, (*place)?)))
    }

    /// The ends of all runs; a run that was taken out, or an end that is not there, has no joint in it.
    pub fn runs(&self) -> impl Iterator<Item = (u32, [u32; 2])> + '_ {
        self.ground
            .ends
            .iter()
            .enumerate()
            .map(|(run, ends)| (run as u32, *ends))
    }

    /// The ends of a run.
    pub fn ends(&self, run: u32) -> [u32; 2] {
        self.ground.ends[run as usize]
    }

    /// The place of a joint.
    pub fn place(&self, joint: u32) -> Option<LatticePoint> {
        self.ground.place(joint)
    }

    /// The places of a run's ends.
    pub fn line(&self, run: u32) -> Option<[LatticePoint; 2]> {
        self.ground.line(run as usize)
    }

    /// How many runs meet at each joint.
    pub fn counts(&self) -> Vec<u32> {
        let mut counts = vec![0; self.ground.places.len()];
        for end in self.ground.ends.iter().flatten() {
            if let Some(count) = counts.get_mut(*end as usize) {
                *count += 1;
            }
        }
        counts
    }
}
