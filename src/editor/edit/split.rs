//! Splitting a run in two at a place.

use crate::editor::cut::{Cut, in_proportion};
use crate::editor::draft::Draft;
use crate::editor::{Refusal, Spot, Step, line};
use crate::job::{Job, Joint, JointId, LatticePoint, Penetration, Run, RunId};
use crate::units::Length;

/// Splits a run at a spot that names it.
///
/// The part at the `from` end keeps the run's id. What was typed stays true: the two lengths add up to the typed one.
///
/// # Errors
/// When no run passes the spot between its ends, or the typed length is not on the run.
pub fn split(job: &Job, spot: Spot, cut: Cut) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let over = draft
        .run_over(spot.at, spot.on)
        .filter(|run| spot.on.is_none_or(|on| on == *run));
    let run = match (over, spot.on) {
        (Some(run), _) => run,
        (None, Some(run)) => return Err(Refusal::NoRoom(run.into())),
        (None, None) => return Err(Refusal::NeedsRun),
    };
    self::cut(&mut draft, run, spot.at, cut)?;
    draft.finish(format!("Split {run}"))
}

/// Splits a run of a draft; gives back the new joint.
pub fn cut(draft: &mut Draft, id: RunId, at: LatticePoint, cut: Cut) -> Result<JointId, Refusal> {
    let run = draft.want_run(id)?.clone();
    let [from, to] = draft.ends(&run).ok_or_else(|| Refusal::Dangling(draft.call_run(id)))?;
    if !line::passes(from, to, at) {
        return Err(Refusal::NoRoom(draft.call_run(id)));
    }
    let whole = draft.true_length(&run);
    let (first, second) = match cut {
        Cut::InProportion => {
            let first = in_proportion([from, to], at, whole, draft.job.settings.units);
            match run.given_length() {
                Some(_) => (Some(first), Some(whole - first)),
                None => (None, None),
            }
        }
        Cut::First(first) if Length::ZERO < first && first < whole => (Some(first), Some(whole - first)),
        Cut::First(_) => return Err(Refusal::BeyondEnd(id)),
    };
    let middle = draft.add_joint(Joint { at, ..Joint::default() });
    let reach = first.unwrap_or_else(|| draft.job.settings.step.times((at - from).steps()));
    let (near, far) = share_out(&run.penetrations, reach, whole);
    let share = reach.eighths_of_um() as f64 / whole.eighths_of_um().max(1) as f64;
    let [near_offset, far_offset] = match run.offset {
        Some(offset) => offset.parted(share).map(Some),
        None => [None, None],
    };
    // The travel of an offset follows from its measures: it is typed only where it was.
    let follows = run.offset.is_some() && run.length.is_none();
    let [first, second] = [first, second].map(|length| length.filter(|_| !follows));
    draft.add_run(Run {
        from: middle,
        offset: far_offset,
        length: second,
        penetrations: far,
        words_at: None,
        ..run
    });
    draft.change_run(id, |run| {
        run.to = middle;
        run.length = first;
        run.offset = near_offset;
        run.penetrations = near;
    })?;
    Ok(middle)
}

/// Passages before and after a place, each measured from the start of its own part.
fn share_out(passages: &[Penetration], reach: Length, whole: Length) -> (Vec<Penetration>, Vec<Penetration>) {
    let (mut near, mut far) = (Vec::new(), Vec::new());
    for passage in passages {
        let at = passage.at.unwrap_or(whole.times(0.5));
        let moved = |at| Penetration {
            at: Some(at),
            ..passage.clone()
        };
        if at <= reach {
            near.push(moved(at));
        } else {
            far.push(moved(at - reach));
        }
    }
    (near, far)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{at, done, house, refused, run};
    use crate::job::Barrier;

    #[test]
    fn a_typed_length_is_shared_out_as_the_drawn_ones_are_and_nothing_is_lost() {
        let mut job = house();
        let whole = Length::from_feet(20.0);
        job.runs.get_mut(RunId(2)).unwrap().length = Some(whole);
        let after = done(&job, split(&job, Spot::on(RunId(2), at(1, 0, 4)), Cut::InProportion));
        let (first, second) = (run(&after, 2).length.unwrap(), run(&after, 6).length.unwrap());
        assert_eq!(first, Length::from_inches(40.0), "a sixth of 20 ft");
        assert_eq!(first + second, whole);
        job.runs.get_mut(RunId(2)).unwrap().length = None;
        let after = done(&job, split(&job, Spot::on(RunId(2), at(1, 0, 4)), Cut::InProportion));
        assert_eq!((run(&after, 2).length, run(&after, 6).length), (None, None));
    }

    #[test]
    fn lengths_come_out_as_a_tape_shows_them() {
        let mut job = house();
        for (whole, first, why) in [(100.0, 17.0, "16.67 in"), (2.0, 5.0 / 16.0, "0.33 in would be no inch")] {
            job.runs.get_mut(RunId(2)).unwrap().length = Some(Length::from_inches(whole));
            let after = done(&job, split(&job, Spot::on(RunId(2), at(1, 0, 4)), Cut::InProportion));
            assert_eq!(run(&after, 2).length, Some(Length::from_inches(first)), "{why}");
        }
    }

    #[test]
    fn a_typed_split_rules_and_must_lie_on_the_run() {
        let job = house();
        let spot = Spot::on(RunId(2), at(3, 0, 4));
        let after = done(&job, split(&job, spot, Cut::First(Length::from_feet(1.0))));
        assert_eq!(
            run(&after, 6).length,
            Some(Length::from_feet(5.0)),
            "six steps of a foot, less one foot"
        );
        refused(
            &job,
            split(&job, spot, Cut::First(Length::from_feet(6.0))),
            "R2 is not that long",
        );
        refused(&job, split(&job, spot, Cut::First(Length::ZERO)), "not that long");
    }

    #[test]
    fn passages_stay_where_they_were() {
        let mut job = house();
        let passage = |barrier, at| Penetration {
            barrier,
            at,
            ..Penetration::default()
        };
        job.runs.get_mut(RunId(2)).unwrap().penetrations = vec![
            passage(Barrier::InteriorWall, Some(Length::from_feet(1.0))),
            passage(Barrier::ExteriorWall, None),
            passage(Barrier::Foundation, Some(Length::from_feet(5.5))),
        ];
        let after = done(&job, split(&job, Spot::on(RunId(2), at(2, 0, 4)), Cut::InProportion));
        let near = &run(&after, 2).penetrations;
        let far = &run(&after, 6).penetrations;
        assert_eq!(near.len(), 1);
        assert_eq!(far[0].barrier, Barrier::ExteriorWall);
        assert_eq!(
            far[0].at,
            Some(Length::from_feet(1.0)),
            "halfway along six feet, seen from two"
        );
        assert_eq!(far[1].at, Some(Length::from_feet(3.5)));
    }

    #[test]
    fn a_run_without_a_place_between_its_ends_cannot_be_split() {
        let job = house();
        refused(
            &job,
            split(&job, Spot::on(RunId(2), at(0, 0, 4)), Cut::InProportion),
            "no room",
        );
        refused(
            &job,
            split(&job, Spot::at(at(40, 0, 4)), Cut::InProportion),
            "point at a run",
        );
        refused(
            &job,
            split(&job, Spot::on(RunId(77), at(2, 0, 4)), Cut::InProportion),
            "no room",
        );
    }
}
