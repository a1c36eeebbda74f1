//! Laying a new branch at the place of a tie-in survey that was chosen.

use super::lay::uncap;
use super::{Cut, split};
use crate::advice::{Blocked, TieIn, TieInPlace};
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Step};
use crate::job::{Job, Joint, Run};

/// Taps the piping where a row of a survey says, and lays its line to the head of the branch: true lengths as surveyed,
/// sizes open. A cap at the tie-in or at the head is taken off.
///
/// # Errors
/// When something is in the way of the line, or the drawing is no longer that of the survey.
pub fn tie_in(job: &Job, row: &TieIn) -> Result<Step, Refusal> {
    if row.blocked == Some(Blocked::Itself) {
        return Err(Refusal::CrossesItself);
    }
    let mut draft = Draft::new(job);
    let mut from = match row.place {
        TieInPlace::Joint(joint) => joint,
        TieInPlace::Run { run, along } => split::cut(&mut draft, run, row.at, Cut::First(along))?,
    };
    let mut start = draft.want_joint(from)?.at;
    let goal = draft.want_joint(row.head)?.at;
    if start != row.at || row.route.last().is_none_or(|leg| leg.to != goal) {
        return Err(Refusal::Stale);
    }
    for joint in [from, row.head] {
        uncap(&mut draft, joint)?;
    }
    let pattern = row.pattern(job);
    for (number, leg) in row.route.iter().enumerate() {
        let to = if number + 1 < row.route.len() {
            draft.add_joint(Joint {
                at: leg.to,
                ..Joint::default()
            })
        } else {
            row.head
        };
        let drawn = job.settings.step.times((leg.to - start).steps());
        draft.add_run(Run {
            from,
            to,
            length: Some(leg.length).filter(|length| *length != drawn),
            ..pattern.clone()
        });
        (from, start) = (to, leg.to);
    }
    draft.finish("Tie in the branch")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::advice::{NewBranch, Progress, TieIns};
    use crate::codebook::Codebook;
    use crate::editor::fixture::{at, done, house, refused, run};
    use crate::job::{Appliance, Device, JointId, Placed, RunId, State};
    use crate::units::{HeatRate, Length};

    /// The small house, existing, with a grill that nothing joins yet.
    fn with_grill() -> (Job, JointId) {
        let mut job = house();
        for run in 1..=5 {
            job.runs.get_mut(RunId(run)).unwrap().state = State::Existing;
        }
        let head = JointId(7);
        let grill = Appliance {
            input: Some(HeatRate::from_mbh(60.0)),
            ..Appliance::default()
        };
        job.joints.insert(Joint {
            id: head,
            at: at(2, -5, 1),
            placed: Some(Placed::new(Device::Appliance(grill))),
            ..Joint::default()
        });
        (job, head)
    }

    fn survey(job: &Job, head: JointId) -> TieIns {
        let branch = NewBranch {
            head,
            ..NewBranch::default()
        };
        TieIns::find(job, Codebook::published(), &branch, &Progress::default()).unwrap()
    }

    fn at_place(rows: &TieIns, place: TieInPlace) -> &TieIn {
        rows.rows.iter().find(|row| row.place == place).unwrap()
    }

    #[test]
    fn a_run_is_tapped_at_its_true_distance_and_the_line_led_to_the_head() {
        let (mut job, head) = with_grill();
        job.runs.get_mut(RunId(2)).unwrap().length = Some(Length::from_feet(9.0));
        let place = TieInPlace::Run {
            run: RunId(2),
            along: Length::from_feet(4.0),
        };
        let rows = survey(&job, head);
        let after = done(&job, tie_in(&job, at_place(&rows, place)));
        assert_eq!(run(&after, 2).length, Some(Length::from_feet(4.0)));
        assert_eq!(run(&after, 6).length, Some(Length::from_feet(5.0)));
        // 4 of 9 ft of six steps are 2.67 steps, drawn at 3: down three, out five, and back 0.67 of a step.
        let lengths: Vec<f64> = [7, 8, 9].map(|id| after.true_length(run(&after, id)).inches()).into();
        assert_eq!(lengths, [36.0, 60.0, 8.0]);
        assert_eq!(run(&after, 7).length, None, "as drawn");
        assert_eq!(run(&after, 9).to, head);
    }

    #[test]
    fn a_cap_at_the_tie_in_comes_off() {
        let (job, head) = with_grill();
        let rows = survey(&job, head);
        let after = done(&job, tie_in(&job, at_place(&rows, TieInPlace::Joint(JointId(5)))));
        assert_eq!(after.joints.get(JointId(5)).unwrap().placed, None);
        let places: Vec<TieInPlace> = rows.rows.iter().map(|row| row.place).collect();
        assert!(
            !places.contains(&TieInPlace::Joint(JointId(6))),
            "an appliance stands there"
        );
    }

    #[test]
    fn what_is_no_longer_as_surveyed_is_refused() {
        let (job, head) = with_grill();
        let rows = survey(&job, head);
        let row = &rows.rows[0];
        let mut moved = job.clone();
        moved.joints.get_mut(head).unwrap().at = at(9, 9, 9);
        refused(&moved, tie_in(&moved, row), "changed since");
        let mut gone = job.clone();
        gone.joints.remove(head);
        refused(&gone, tie_in(&gone, row), "no longer there");
    }
}
