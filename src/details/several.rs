//! Many chosen parts: how many of each kind, and the fields that they share.

use super::form::Form;
use super::names::STATES;
use super::shared::Shared;
use super::{put, reason, run};
use crate::editor::edit::set_state;
use crate::editor::{Part, Selection};
use crate::job::{Detail, State};
use crate::study::how_many;

/// What is chosen, in words: "2 runs, 1 joint".
pub fn counted(parts: &Selection) -> String {
    let count = |of: fn(&Part) -> bool, one: &str| match parts.iter().filter(of).count() {
        0 => None,
        many => Some(how_many(many, one)),
    };
    let counts = [
        count(|part| matches!(part, Part::Run(_)), "run"),
        count(|part| matches!(part, Part::Joint(_)), "joint"),
        count(|part| matches!(part, Part::Penetration(..)), "penetration"),
        count(|part| matches!(part, Part::Note(_)), "note"),
    ];
    counts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// The fields of many parts.
pub fn show(form: &mut Form<'_>, parts: &Selection) {
    let job = form.desk.job();
    let (runs, joints) = (parts.runs(), parts.joints());
    let devices: Vec<State> = joints
        .iter()
        .filter_map(|id| Some(job.joints.get(*id)?.placed.as_ref()?.state))
        .collect();
    if !devices.is_empty() {
        let states = runs.iter().filter_map(|id| Some(job.runs.get(*id)?.state));
        let state = Shared::of(states.chain(devices));
        let words = if runs.is_empty() {
            Detail::State.label()
        } else {
            "State of all"
        };
        form.choice(words, &state, STATES, |desk, state| {
            put::edit(desk, |job| set_state(job, parts, state))
        });
    }
    if runs.is_empty() {
        return;
    }
    form.heading(if runs.len() == 1 {
        "The run"
    } else {
        "All selected runs"
    });
    run::fields(form, &runs);
    let sections = Shared::of(runs.iter().map(|id| run::section_of(form, *id)));
    if let Some(section) = sections.same().flatten() {
        reason::show(form, section, &runs);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{JointId, RunId};

    #[test]
    fn parts_are_counted_by_kind() {
        let parts = [Part::Run(RunId(1)), Part::Run(RunId(2)), Part::Joint(JointId(1))];
        assert_eq!(counted(&parts.into_iter().collect()), "2 runs, 1 joint");
        assert_eq!(counted(&Selection::none()), "");
    }
}
