//! The leak-check log: every place at which something new is joined, to be ticked one by one.

use super::take_off::{Group, Shelf, TakeOff};
use crate::job::Job;
use crate::study::{Place, Study};
use std::collections::HashMap;

/// How the log is kept, in words for sheets (common practice, no source).
pub const LEAK_CHECK: &str = "With the gas on, wet each joint with leak-detection fluid, or go around it with a detector; never with a flame. Tick it when \
 nothing shows for a minute. Check every joint here, every joint made at an appliance, and every old joint that was opened or turned as well (common practice, no \
 source).";

/// Places to be checked, in the order in which gas reaches them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeakLog {
    /// Each place with what is joined there.
    pub rows: Vec<LeakRow>,
}

/// One place.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakRow {
    /// The place: a joint, or a run with couplings in it.
    pub place: Place,
    /// What is joined there: `90° elbow 3/4"`.
    pub what: Vec<String>,
}

impl LeakLog {
    /// The log of a job, by its take-off: what is bought or made for a place is joined there.
    pub fn of(job: &Job, study: &Study, take_off: &TakeOff) -> LeakLog {
        let mut rows: Vec<LeakRow> = Vec::new();
        let mut known: HashMap<Place, usize> = HashMap::new();
        let is_joined = |shelf| matches!(shelf, Shelf::Fittings | Shelf::Gas | Shelf::Tubing);
        let drawn = &take_off.lines[..take_off.drawn];
        for line in drawn.iter().filter(|line| is_joined(line.shelf)) {
            if !matches!(line.group, Group::Buy | Group::Settle | Group::OnSite) {
                continue;
            }
            let what = format!("{} {}", line.what, line.size).trim_end().to_owned();
            for place in &line.places {
                let at = *known.entry(*place).or_insert_with(|| {
                    rows.push(LeakRow {
                        place: *place,
                        what: Vec::new(),
                    });
                    rows.len() - 1
                });
                if !rows[at].what.contains(&what) {
                    rows[at].what.push(what.clone());
                }
            }
        }
        let turn: HashMap<usize, usize> = (study.network.order.iter().enumerate())
            .map(|(at, joint)| (*joint, at))
            .collect();
        rows.sort_by_key(|row| {
            let joint = match row.place {
                Place::Joint(id) => job.joints.position(id),
                Place::Run(id) => job.runs.get(id).and_then(|run| job.joints.position(run.to)),
                Place::Section(_) | Place::Job => None,
            };
            let turn = joint.and_then(|joint| turn.get(&joint).copied());
            (turn.unwrap_or(usize::MAX), joint)
        });
        rows.retain(|row| matches!(row.place, Place::Joint(_) | Place::Run(_)));
        LeakLog { rows }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::State;
    use crate::work::{CutList, StockPlan};
    use std::collections::HashSet;

    /// Every joint of the patio kitchen at which new pipe turns, branches or meets a device is in the log, once, and no joint
    /// of what stands but the tie-in.
    #[test]
    fn every_new_joint_is_in_the_log_once() {
        let job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let book = Codebook::published();
        let study = Study::of(&job, book);
        let cuts = CutList::of(&job, &study, book);
        let stock = StockPlan::of(&cuts, &study, book);
        let log = LeakLog::of(&job, &study, &TakeOff::of(&job, &study, book, &cuts, &stock));
        let places: Vec<Place> = log.rows.iter().map(|row| row.place).collect();
        let distinct: HashSet<&Place> = places.iter().collect();
        assert_eq!(distinct.len(), places.len());
        for joint in &job.joints {
            let new = |run: &&crate::job::Run| run.state == State::New && (run.from == joint.id || run.to == joint.id);
            let is_new = job.runs.iter().any(|run| new(&run));
            let is_logged = places.contains(&Place::Joint(joint.id));
            let is_outlet = matches!(joint.device(), Some(crate::job::Device::Appliance(_)));
            assert!(is_outlet || is_logged == is_new, "{}: {is_logged}", joint.id);
        }
        assert!(log.rows.iter().all(|row| !row.what.is_empty()));
    }
}
