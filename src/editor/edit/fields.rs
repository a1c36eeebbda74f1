//! What the details panel sets: one field on many runs at once, or what a single joint or passage says.

use super::named;
use super::penetrate::within;
use crate::editor::draft::Draft;
use crate::editor::{Part, Refusal, Selection, Step};
use crate::job::{
    Job, JointId, Material, MeasuredOffset, Misfit, Penetration, Placed, Run, RunId, State, Surroundings, Turn,
};
use crate::study::how_many;
use crate::units::{Angle, Length, NominalSize};

/// A field of runs, with the value that it is to have.
#[derive(Clone, Debug, PartialEq)]
pub enum RunField {
    /// True length; `None` for as drawn.
    Length(Option<Length>),
    /// How far an offset goes up or down; `None` for not at all.
    Rise(Option<Length>),
    /// How far an offset goes aside; `None` for not at all.
    Roll(Option<Length>),
    /// What an offset uses along its line; `None` where that follows.
    Advance(Option<Length>),
    /// The turn of an offset's fittings; `None` where that follows.
    Angle(Option<Angle>),
    /// All that was measured of an offset; `None` for as drawn.
    Offset(Option<MeasuredOffset>),
    /// Material; `None` for the job's.
    Material(Option<Material>),
    /// Known or fixed size; `None` for what the study finds.
    Size(Option<NominalSize>),
    /// Existing, new or to be removed.
    State(State),
    /// Size of the existing pipe that it takes the place of.
    Replaces(Option<NominalSize>),
    /// Where it lies.
    Surroundings(Surroundings),
    /// Depth of cover.
    Cover(Option<Length>),
    /// Painted, coated or wrapped.
    Coated(bool),
    /// Tracer wire beside it.
    Tracer(bool),
    /// Bonded.
    Bonded(bool),
    /// Listed with an arc-resistant jacket.
    Jacketed(bool),
    /// Kept for use again when it is taken out.
    Salvaged(bool),
}

/// A field of a joint, with the value that it is to have.
#[derive(Clone, Debug, PartialEq)]
pub enum JointField {
    /// The person's own name for the place.
    Label(Option<String>),
    /// How a turn is made.
    Turn(Turn),
    /// What its fitting takes out, as measured.
    FittingTakes(Option<Length>),
    /// All that is said of the device that stands there.
    Placed(Option<Placed>),
}

impl RunField {
    /// The field in a word.
    pub const fn name(&self) -> &'static str {
        match self {
            RunField::Length(_) => "length",
            RunField::Rise(_) => "rise",
            RunField::Roll(_) => "roll",
            RunField::Advance(_) => "offset run",
            RunField::Angle(_) => "offset angle",
            RunField::Offset(_) => "offset",
            RunField::Material(_) => "material",
            RunField::Size(_) => "size",
            RunField::State(_) => "state",
            RunField::Replaces(_) => "replaced pipe",
            RunField::Surroundings(_) => "location",
            RunField::Cover(_) => "cover",
            RunField::Coated(_) => "coating",
            RunField::Tracer(_) => "tracer wire",
            RunField::Bonded(_) => "bonding",
            RunField::Jacketed(_) => "jacket",
            RunField::Salvaged(_) => "salvage for reuse",
        }
    }

    /// Whether the true length follows from it.
    const fn is_measure(&self) -> bool {
        match self {
            RunField::Length(_)
            | RunField::Rise(_)
            | RunField::Roll(_)
            | RunField::Advance(_)
            | RunField::Angle(_)
            | RunField::Offset(_) => true,
            RunField::Material(_)
            | RunField::Size(_)
            | RunField::State(_)
            | RunField::Replaces(_)
            | RunField::Surroundings(_)
            | RunField::Cover(_)
            | RunField::Coated(_)
            | RunField::Tracer(_)
            | RunField::Bonded(_)
            | RunField::Jacketed(_)
            | RunField::Salvaged(_) => false,
        }
    }

    fn put(&self, run: &mut Run) {
        let measure = |run: &mut Run, put: &dyn Fn(&mut MeasuredOffset)| {
            let mut offset = run.offset.unwrap_or_default();
            put(&mut offset);
            run.offset = Some(offset).filter(|offset| *offset != MeasuredOffset::default());
        };
        match *self {
            RunField::Rise(rise) => measure(run, &|offset| offset.rise = rise.unwrap_or_default()),
            RunField::Roll(roll) => measure(run, &|offset| offset.roll = roll.unwrap_or_default()),
            RunField::Advance(along) => measure(run, &|offset| offset.run = along),
            RunField::Angle(angle) => measure(run, &|offset| offset.angle = angle),
            RunField::Offset(offset) => run.offset = offset,
            RunField::Length(length) => run.length = length,
            RunField::Material(material) => run.material = material,
            RunField::Size(size) => run.size = size,
            RunField::State(state) => run.state = state,
            RunField::Replaces(size) => run.replaces = size,
            RunField::Surroundings(surroundings) => run.surroundings = surroundings,
            RunField::Cover(cover) => run.cover = cover,
            RunField::Coated(coated) => run.coated = coated,
            RunField::Tracer(tracer) => run.tracer = tracer,
            RunField::Bonded(bonded) => run.bonded = bonded,
            RunField::Jacketed(jacketed) => run.jacketed = jacketed,
            RunField::Salvaged(salvaged) => run.salvaged = salvaged,
        }
    }
}

/// Sets a field on many runs.
///
/// # Errors
/// When nothing is given, a run is gone, a length is nothing or less, measures do not agree, or a passage would come to lie beyond the end.
pub fn set_runs(job: &Job, runs: &[RunId], field: &RunField) -> Result<Step, Refusal> {
    if runs.is_empty() {
        return Err(Refusal::Choose("runs"));
    }
    if matches!(field, RunField::Length(Some(length)) if *length <= Length::ZERO) {
        return Err(Refusal::NoLength);
    }
    let mut draft = Draft::new(job);
    for id in runs {
        draft.change_run(*id, |run| field.put(run))?;
        if field.is_measure() {
            let run = draft.want_run(*id)?;
            // Measures are typed one after the other: too few are a finding, those that do not agree are refused.
            if let Some(Err(misfit)) = run.measured()
                && !matches!(misfit, Misfit::NoSet | Misfit::NoTurn)
            {
                return Err(Refusal::misfit(id.to_string(), misfit, job.settings.units));
            }
            let length = draft.true_length(run);
            let beyond = |passage: &Penetration| passage.at.is_some_and(|at| at > length);
            if let Some(passage) = run.penetrations.iter().position(beyond) {
                return Err(Refusal::PassageBeyond {
                    run: *id,
                    passage: passage + 1,
                });
            }
        }
    }
    draft.finish(format!(
        "Set {} of {}",
        field.name(),
        named(runs.iter().map(|run| Part::Run(*run)))
    ))
}

/// Sets the state of runs and of devices at once.
///
/// # Errors
/// When neither a run nor a device is among the parts, or a part is gone.
pub fn set_state(job: &Job, parts: &Selection, state: State) -> Result<Step, Refusal> {
    let mut draft = Draft::new(job);
    let mut count = 0;
    for run in parts.runs() {
        draft.change_run(run, |run| run.state = state)?;
        count += 1;
    }
    for joint in parts.joints() {
        if draft.want_joint(joint)?.placed.is_some()
            && let Some(placed) = &mut draft.joint_mut(joint)?.placed
        {
            placed.state = state;
            count += 1;
        }
    }
    if count == 0 {
        return Err(Refusal::Choose("runs or devices"));
    }
    draft.finish(format!("Set state of {}", how_many(count, "part")))
}

/// Sets a field of a joint.
///
/// # Errors
/// When the joint is gone, a device has fewer ends than runs meet there, or a measured length is nothing or less.
pub fn set_joint(job: &Job, joint: JointId, field: JointField) -> Result<Step, Refusal> {
    let measured = match &field {
        JointField::FittingTakes(length) => *length,
        JointField::Placed(placed) => placed.as_ref().and_then(|placed| placed.takes),
        JointField::Label(_) | JointField::Turn(_) => None,
    };
    if measured.is_some_and(|length| length <= Length::ZERO) {
        return Err(Refusal::NoLength);
    }
    let mut draft = Draft::new(job);
    let target = draft.joint_mut(joint)?;
    let what = match field {
        JointField::Label(label) => {
            target.label = label;
            "name"
        }
        JointField::Turn(turn) => {
            target.turn = turn;
            "turn"
        }
        JointField::FittingTakes(length) => {
            target.fitting_takes = length;
            "take-out"
        }
        JointField::Placed(placed) => {
            target.placed = placed;
            "device"
        }
    };
    draft.finish(format!("Set {what} of {joint}"))
}

/// Sets all that is said of a passage.
///
/// # Errors
/// When the passage is gone, or would not lie on its run.
pub fn set_penetration(job: &Job, run: RunId, passage: usize, to: Penetration) -> Result<Step, Refusal> {
    let part = Part::Penetration(run, passage);
    if !part.is_in(job) {
        return Err(Refusal::Gone(part));
    }
    let mut draft = Draft::new(job);
    within(&draft, run, to.at)?;
    draft.change_run(run, |run| run.penetrations[passage] = to)?;
    draft.finish(format!("Set {part}"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::fixture::{J, R, done, house, refused, run};
    use crate::job::{Barrier, Device, Valve};

    #[test]
    fn one_field_is_set_on_many_runs_and_nothing_else() {
        let job = house();
        let step = set_runs(&job, &[RunId(1), RunId(3)], &RunField::Coated(true));
        assert_eq!(step.as_ref().unwrap().name(), "Set coating of 2 parts");
        let mut expected = job.clone();
        for id in [1, 3] {
            expected.runs.get_mut(RunId(id)).unwrap().coated = true;
        }
        assert_eq!(done(&job, step), expected);
        let same = set_runs(&job, &[RunId(1)], &RunField::Coated(false)).unwrap();
        assert!(same.is_empty(), "what is so already is no step");
    }

    #[test]
    fn a_length_must_reach_its_passages() {
        let mut job = house();
        let at = Some(Length::from_feet(5.0));
        job.runs.get_mut(RunId(2)).unwrap().penetrations.push(Penetration {
            at,
            ..Penetration::default()
        });
        let length = |feet: f64| RunField::Length(Some(Length::from_feet(feet)));
        assert_eq!(
            run(&done(&job, set_runs(&job, &[RunId(2)], &length(5.0))), 2).length,
            at
        );
        refused(&job, set_runs(&job, &[RunId(2)], &length(4.0)), "penetration 1");
        refused(&job, set_runs(&job, &[RunId(2)], &length(-4.0)), "greater than zero");
        refused(&job, set_runs(&job, &[], &length(4.0)), "select runs");
        refused(
            &job,
            set_runs(&job, &[RunId(42)], &length(4.0)),
            "R42 is no longer there",
        );
        let passage = Penetration {
            barrier: Barrier::Roof,
            at,
            ..Penetration::default()
        };
        let after = done(&job, set_penetration(&job, RunId(2), 0, passage.clone()));
        assert_eq!(run(&after, 2).penetrations, [passage]);
        let beyond = Penetration {
            at: Some(Length::from_feet(7.0)),
            ..Penetration::default()
        };
        refused(&job, set_penetration(&job, RunId(2), 0, beyond), "not that long");
    }

    #[test]
    fn state_is_set_on_runs_and_devices_together() {
        let job = house();
        let parts: Selection = [J(1), J(2), R(1)].into_iter().collect();
        let after = done(&job, set_state(&job, &parts, State::Existing));
        assert_eq!(
            after.joints.get(JointId(1)).unwrap().placed.as_ref().unwrap().state,
            State::Existing
        );
        assert_eq!(run(&after, 1).state, State::Existing);
        assert_eq!(after.joints.get(JointId(2)), job.joints.get(JointId(2)));
        refused(
            &job,
            set_state(&job, &[J(2)].into_iter().collect(), State::New),
            "select runs or devices",
        );
    }

    #[test]
    fn a_joint_says_what_it_is_told_unless_its_device_does_not_fit() {
        let job = house();
        let after = done(&job, set_joint(&job, JointId(3), JointField::Label(Some("B".into()))));
        assert_eq!(after.joints.get(JointId(3)).unwrap().label.as_deref(), Some("B"));
        let measured = |inches: f64| JointField::FittingTakes(Some(Length::from_inches(inches)));
        let after = done(&job, set_joint(&job, JointId(3), measured(1.5)));
        assert_eq!(
            after.joints.get(JointId(3)).unwrap().fitting_takes,
            Some(Length::from_inches(1.5))
        );
        refused(&job, set_joint(&job, JointId(3), measured(0.0)), "greater than zero");
        let valve = Placed::new(Device::Valve(Valve::default()));
        refused(
            &job,
            set_joint(&job, JointId(3), JointField::Placed(Some(valve))),
            "3 runs meet at J3",
        );
    }
}
