//! How long each run would be drawn: long enough for the symbols at its ends and for its own words, longer where it truly
//! is longer than others, but never in proportion: a long run is drawn a little longer.

use super::frame::{Edge, Frame};
use crate::job::{Device, Job, Run};
use crate::projection::Projection;

/// The lengths of a run in steps of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wish {
    /// Drawn shorter it has no room for what stands on it.
    pub least: i32,
    /// How long it would be.
    pub wanted: i32,
    /// What a step more than that costs: little where it truly is longer than others.
    pub stretch: f64,
}

/// A run with words of its own, mm.
const WITH_WORDS: f64 = 15.0;
/// A run between two devices, whose words stand beside it, mm.
const BETWEEN_DEVICES: f64 = 10.0;
/// How much longer a penetration makes it, mm.
const FOR_PASSAGE: f64 = 5.0;

/// What a step less than wished for costs: more than what the paper saved by it is worth.
const UNDER: f64 = 0.45;

/// Shorter than this share of the room that it needs, a passage is covered by its neighbors.
const COVERED: f64 = 0.8;

impl Wish {
    /// What a length costs that is not the one wished for.
    pub fn price(self, steps: i32) -> f64 {
        let (short, over) = (self.least - steps, steps - self.wanted);
        if short > 0 {
            25.0 * f64::from(short)
        } else if over > 0 {
            // Of two runs that could give way rather both do than one out of all proportion.
            self.stretch * f64::from(over) * (1.0 + f64::from(over) / 8.0)
        } else {
            UNDER * f64::from(-over)
        }
    }
}

/// The wishes of all runs, `step` mm of paper a lattice step.
pub fn all(job: &Job, frame: &Frame, step: f64) -> Vec<Option<Wish>> {
    let usual = usual_length(job, frame);
    let of = |(run, edge): (&Run, &Option<Edge>)| {
        let edge = edge.filter(|edge| !edge.unit.is_zero())?;
        let ends = edge
            .ends
            .map(|end| job.joints.at(frame.order[end as usize]).placed.as_ref());
        let in_line = |device: &Device| {
            !matches!(
                device,
                Device::Appliance(_) | Device::Cap(_) | Device::Supply(_) | Device::TestGauge
            )
        };
        let is_piece = ends.iter().flatten().any(|placed| in_line(&placed.device));
        let mm = room(run, is_piece);
        let unit = Projection::UNIT.vector(edge.unit).length().max(0.5) * step;
        let least = ((mm / unit - 1e-9).ceil() as i32).max(1);
        let ratio = job.true_length(run).inches() / usual;
        let more = if ratio > 1.0 && ratio.is_finite() {
            libm::log2(ratio).round().min(4.0)
        } else {
            0.0
        };
        let wanted = least + (more * 5.0 / unit).round() as i32;
        let stretch = 1.0 / (1.0 + more);
        Some(Wish { least, wanted, stretch })
    };
    job.runs.iter().zip(&frame.edges).map(of).collect()
}

/// How long a run is drawn that has room for its symbols and words, mm.
fn room(run: &Run, is_piece: bool) -> f64 {
    let base = if is_piece { BETWEEN_DEVICES } else { WITH_WORDS };
    base + FOR_PASSAGE * run.penetrations.len().min(4) as f64
}

/// How many runs that pass through a part of the building are drawn so short, `step` mm of paper a lattice step, that what
/// stands at their ends covers it.
pub fn cramped(job: &Job, frame: &Frame, step: f64) -> usize {
    let is_cramped = |(run, edge): (&Run, &Option<Edge>)| {
        let Some(edge) = edge.filter(|edge| !run.penetrations.is_empty() && !edge.unit.is_zero()) else {
            return false;
        };
        let [from, to] = edge.ends.map(|end| job.joints.at(frame.order[end as usize]).at);
        Projection::UNIT.vector(to - from).length() * step < COVERED * room(run, true)
    };
    job.runs.iter().zip(&frame.edges).filter(|it| is_cramped(*it)).count()
}

/// The true length that half of the runs do not reach, in.
fn usual_length(job: &Job, frame: &Frame) -> f64 {
    let drawn = |run: &usize| frame.edges[*run].is_some_and(|edge| !edge.unit.is_zero());
    let mut lengths: Vec<f64> = (0..job.runs.len())
        .filter(drawn)
        .map(|run| job.true_length(job.runs.at(run)).inches())
        .collect();
    let middle = lengths.len() / 2;
    if lengths.is_empty() {
        return 1.0;
    }
    let (_, median, _) = lengths.select_nth_unstable_by(middle, f64::total_cmp);
    median.max(1.0)
}
