//! What a tool sees when something is done: the job, what is chosen, where the pointer is.

use super::edit::Pen;
use super::{Held, Part, Plane, Pointer, Selection, Spot, line};
use crate::drawing::Projection;
use crate::job::{Job, LatticePoint, Run, RunId};
use crate::scene::{Point, Segment};
use crate::units::{Length, Show, UnitSystem};

/// What a tool sees. It changes nothing here.
#[derive(Clone, Copy, Debug)]
pub struct Look<'a> {
    /// The job as it is.
    pub job: &'a Job,
    /// What is chosen.
    pub selection: &'a Selection,
    /// Where the lattice lies on paper.
    pub view: &'a Projection,
    /// The plane in which places are looked for.
    pub plane: Plane,
    /// What the next run is like.
    pub pen: &'a Pen,
    /// Where the pointer is, once it has been seen.
    pub pointer: Option<&'a Pointer>,
    /// Keys held down.
    pub held: Held,
    /// How many steps are done.
    pub depth: usize,
}

impl Look<'_> {
    /// Where the pointer is meant to be: on a joint drawn there, else on a run drawn there, else in the plane.
    pub fn spot(&self) -> Option<Spot> {
        let pointer = self.pointer?;
        let joint = pointer.hits.iter().find_map(|hit| match hit {
            Part::Joint(id) => self.job.joints.get(*id),
            _ => None,
        });
        if let Some(joint) = joint {
            return Some(Spot::at(joint.at));
        }
        let run = pointer
            .hits
            .iter()
            .find_map(|hit| hit.run())
            .and_then(|run| self.job.runs.get(run));
        if let Some(run) = run {
            let inside = self.nearest_inside(run, pointer.at);
            let end = || {
                let [from, to] = self.ends(run)?;
                let distance = |at| self.view.point(at).distance(pointer.at);
                Some(if distance(from) <= distance(to) { from } else { to })
            };
            // A run too short to be split is pointed at by its nearer end.
            return inside.map(|at| Spot::on(run.id, at)).or_else(|| end().map(Spot::at));
        }
        Some(Spot::at(self.plane.place(self.view, pointer.at)))
    }

    /// The place inside a run that falls nearest to a point of paper.
    pub fn nearest_inside(&self, run: &Run, at: Point) -> Option<LatticePoint> {
        let [from, to] = self.ends(run)?;
        let pieces = line::pieces(from, to);
        let share = self.segment(from, to).nearest(at);
        let piece = (share * pieces as f64).round() as u64;
        (pieces > 1).then(|| line::place(from, to, piece.clamp(1, pieces - 1)))
    }

    /// The middle place inside a run.
    pub fn middle(&self, run: RunId) -> Option<LatticePoint> {
        let [from, to] = self.ends(self.job.runs.get(run)?)?;
        let pieces = line::pieces(from, to);
        (pieces > 1).then(|| line::place(from, to, pieces / 2))
    }

    /// The places of a run's ends.
    pub fn ends(&self, run: &Run) -> Option<[LatticePoint; 2]> {
        Some([self.job.joints.get(run.from)?.at, self.job.joints.get(run.to)?.at])
    }

    /// The straight piece of paper between two places.
    pub fn segment(&self, from: LatticePoint, to: LatticePoint) -> Segment {
        Segment::new(self.view.point(from), self.view.point(to))
    }

    /// The true distance along a run at which it is pointed at, as a tape shows it, and the same as a share of its way.
    pub fn along(&self, run: &Run, at: Point) -> Option<(Length, f64)> {
        let [from, to] = self.ends(run)?;
        let whole = self.job.true_length(run);
        let unit = match self.job.settings.units {
            UnitSystem::Us => Length::from_inches(1.0),
            UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_mm(10.0),
        };
        let share = self.segment(from, to).nearest(at);
        let units = (whole.times(share).eighths_of_um() as f64 / unit.eighths_of_um() as f64).round();
        let along = unit.times(units).min(whole);
        Some((along, share))
    }

    /// A length as the drawing writes it.
    pub fn show(&self, length: Length) -> String {
        length.show(self.job.settings.units)
    }
}
