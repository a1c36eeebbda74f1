//! The joint by which a set of parts hangs on the rest.

use crate::editor::Selection;
use crate::job::{Job, JointId};
use std::collections::BTreeSet;

/// The one joint at which the chosen runs meet runs that are not chosen; `None` when there is none or more than one.
pub fn hinge(job: &Job, parts: &Selection) -> Option<JointId> {
    let chosen: BTreeSet<_> = parts.runs().into_iter().collect();
    let rest = job.runs.iter().filter(|run| !chosen.contains(&run.id));
    let outside: BTreeSet<JointId> = rest.flat_map(|run| [run.from, run.to]).collect();
    let ends = chosen
        .iter()
        .filter_map(|id| job.runs.get(*id))
        .flat_map(|run| [run.from, run.to]);
    let hinges: BTreeSet<JointId> = ends.filter(|end| outside.contains(end)).collect();
    hinges.first().copied().filter(|_| hinges.len() == 1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{R, house};

    #[test]
    fn a_branch_hangs_on_one_joint_and_a_piece_of_main_on_two() {
        let job = house();
        assert_eq!(hinge(&job, &[R(3), R(4)].into_iter().collect()), Some(JointId(3)));
        assert_eq!(hinge(&job, &[R(2)].into_iter().collect()), None);
        assert_eq!(hinge(&job, &Selection::all(&job)), None);
    }
}
