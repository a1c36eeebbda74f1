//! What is shown of a thing before it is done.

use super::{Change, Refusal, Standing, Step};
use crate::job::{Job, JointId, LatticePoint, Run, RunId};
use crate::scene::Rect;
use std::collections::BTreeMap;

/// What the tool would do next: in words, as lines in space, and as the step itself.
#[derive(Clone, Debug, Default)]
pub struct Hint {
    /// What a click or a key will do, for the status line.
    pub words: String,
    /// What to paint over the drawing.
    pub ghost: Ghost,
    /// The step that a click or Enter does now; `None` when it changes nothing.
    pub step: Option<Result<Step, Refusal>>,
}

/// Marks of editing, never printed. Places are of the lattice, to be painted through the canvas's own projection.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ghost {
    /// Pipe to come, by the places of its ends.
    pub lines: Vec<[LatticePoint; 2]>,
    /// The place that is meant and what stands there now.
    pub place: Option<(LatticePoint, Standing)>,
    /// A faint line from the place straight down to the lattice's zero level.
    pub plumb: Option<[LatticePoint; 2]>,
    /// A passage to come: its run and the share of the way from the run's `from` end.
    pub passage: Option<(RunId, f64)>,
    /// Words at runs: what becomes of their typed lengths.
    pub at_runs: Vec<(RunId, String)>,
    /// Words beside the place: the length as typed or drawn.
    pub words: Option<String>,
    /// The box that is being drawn around parts, or in which words will lie, on paper.
    pub frame: Option<Rect>,
    /// Whether what is shown is refused.
    pub refused: bool,
}

impl Ghost {
    /// Shows a place, with its plumb line.
    pub fn at(mut self, place: LatticePoint, standing: Standing) -> Ghost {
        self.place = Some((place, standing));
        self.plumb = (place.up != 0).then_some([place, LatticePoint { up: 0, ..place }]);
        self
    }

    /// The runs that a step lays or moves, as they will lie.
    pub fn lines_of(job: &Job, step: &Step) -> Vec<[LatticePoint; 2]> {
        let mut moved: BTreeMap<JointId, LatticePoint> = BTreeMap::new();
        let mut runs: BTreeMap<RunId, &Run> = BTreeMap::new();
        for change in step.changes() {
            match change {
                Change::Joint(id, swap) => {
                    if let Some(joint) = &swap.after {
                        moved.insert(*id, joint.at);
                    }
                }
                Change::Run(id, swap) => {
                    if let Some(run) = &swap.after {
                        runs.insert(*id, run);
                    }
                }
                _ => {}
            }
        }
        let touched = |run: &&Run| moved.contains_key(&run.from) || moved.contains_key(&run.to);
        for run in job.runs.iter().filter(touched) {
            runs.entry(run.id).or_insert(run);
        }
        let place = |id: JointId| moved.get(&id).copied().or_else(|| Some(job.joints.get(id)?.at));
        runs.values()
            .filter_map(|run| Some([place(run.from)?, place(run.to)?]))
            .collect()
    }
}
