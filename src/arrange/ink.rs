//! What lies on paper, and what two strangers that come too near to each other there cost.

use super::frame::Frame;
use crate::job::{Device, Job, JointId, RunId};
use crate::projection::Projection;
use crate::scene::{Segment, Vector};

/// What is drawn, as far as others must keep clear of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// The pipe of a run, by position.
    Pipe(u32),
    /// What stands on a joint, by its number in the frame.
    Device(u32),
    /// Where a run passes through a part of the building, by the position of the run.
    Passage(u32),
}

/// One thing on paper: a line with the room around it. A device is a line of no length.
#[derive(Clone, Copy, Debug)]
pub struct Ink {
    /// What it is.
    pub kind: Kind,
    /// The joints with which it moves, in the frame's order: both ends of its run, or twice its own.
    pub joints: [u32; 2],
    /// How far from the first of them to the second each of its ends lies.
    pub shares: [f64; 2],
    /// How far beside that it is drawn, mm.
    pub beside: Vector,
    /// Half its width, mm.
    pub half: f64,
}

/// Between strangers, mm: room for the words of both.
const BETWEEN_PIPES: f64 = 8.5;
/// From the edge of an appliance, meter or wall to a stranger's pipe, mm.
const BESIDE_PIPE: f64 = 3.5;
/// Between the edges of two of them, mm: room for a name.
const BETWEEN_DEVICES: f64 = 6.5;
/// Half the width of the widest thing, mm.
const WIDEST: f64 = 5.0;

/// What it costs that two lines cross in passing.
pub const CROSSING: f64 = 100.0;
/// What it costs that they touch so that they read as joined, or that one hides the other.
pub const MEETING: f64 = 160.0;
/// Pipe nearer than this reads as touching, mm.
const TOUCHES: f64 = 2.0;

/// Everything on the paper of a job.
pub fn all(job: &Job, frame: &Frame) -> Vec<Ink> {
    let mut all = Vec::new();
    let mut legs: Vec<(u32, Option<usize>)> = vec![(0, None); frame.order.len()];
    for (run, edge) in frame.edges.iter().enumerate() {
        let Some(edge) = edge.filter(|edge| !edge.unit.is_zero()) else {
            continue;
        };
        for end in edge.ends {
            let leg = &mut legs[end as usize];
            *leg = (leg.0 + 1, Some(run));
        }
        all.push(Ink {
            kind: Kind::Pipe(run as u32),
            joints: edge.ends,
            shares: [0.0, 1.0],
            beside: Vector::default(),
            half: 0.0,
        });
        let whole = job.true_length(job.runs.at(run)).mm();
        for passage in &job.runs.at(run).penetrations {
            let share = passage
                .at
                .map_or(0.5, |at| if whole > 0.0 { at.mm() / whole } else { 0.5 });
            all.push(Ink {
                kind: Kind::Passage(run as u32),
                joints: edge.ends,
                shares: [share.clamp(0.0, 1.0); 2],
                beside: Vector::default(),
                half: WIDEST,
            });
        }
    }
    for (number, joint) in frame.order.iter().enumerate() {
        let Some(placed) = &job.joints.at(*joint).placed else {
            continue;
        };
        let half = placed.device.nature().drawn_around;
        if half <= 0.0 {
            continue;
        }
        // A cube stands behind the end of its pipe.
        let beside = match (legs[number], &placed.device) {
            ((1, Some(run)), Device::Appliance(_)) => frame.edges[run].map_or(Vector::default(), |edge| {
                let inward = if edge.ends[1] == number as u32 {
                    edge.unit
                } else {
                    -edge.unit
                };
                let along = Projection::UNIT.vector(inward).unit().unwrap_or_default();
                along * (half / 2.0)
            }),
            _ => Vector::default(),
        };
        all.push(Ink {
            kind: Kind::Device(number as u32),
            joints: [number as u32; 2],
            shares: [0.0; 2],
            beside,
            half,
        });
    }
    all
}

impl Ink {
    /// How far from its line others can be and still come too near, mm.
    pub fn farthest(&self) -> f64 {
        match self.kind {
            Kind::Pipe(_) => BETWEEN_PIPES.max(WIDEST + BESIDE_PIPE),
            Kind::Device(_) | Kind::Passage(_) => self.half + BETWEEN_DEVICES + WIDEST,
        }
    }
}

/// Whether two things belong together, so that they may be near each other.
fn is_akin(one: &Ink, other: &Ink) -> bool {
    one.joints.iter().any(|joint| other.joints.contains(joint))
}

/// How two strangers stand to each other on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meets {
    /// They touch, or one hides the other.
    Touch,
    /// Two lines cross in passing.
    Cross,
    /// They are so many mm apart, of so many that they should be.
    Near(f64, f64),
}

impl Meets {
    /// What that costs.
    pub fn price(self) -> f64 {
        match self {
            Meets::Touch => MEETING,
            Meets::Cross => CROSSING,
            Meets::Near(gap, wanted) => 12.0 + 30.0 * (1.0 - gap / wanted),
        }
    }
}

/// How two things meet whose lines lie so; `None` where they belong together or are far enough apart.
pub fn meets(one: &Ink, line: Segment, other: &Ink, its: Segment) -> Option<Meets> {
    if is_akin(one, other) {
        return None;
    }
    let both_pipes = matches!((one.kind, other.kind), (Kind::Pipe(_), Kind::Pipe(_)));
    if both_pipes {
        if let Some((s, t)) = line.crossing(its) {
            let end = |line: Segment, t: f64| t.min(1.0 - t) * line.length();
            let is_clear = end(line, s) > TOUCHES && end(its, t) > TOUCHES;
            return Some(if is_clear { Meets::Cross } else { Meets::Touch });
        }
        let gap = line.gap(its);
        return match gap {
            gap if gap < TOUCHES => Some(Meets::Touch),
            gap if gap < BETWEEN_PIPES => Some(Meets::Near(gap, BETWEEN_PIPES)),
            _ => None,
        };
    }
    let is_pipe = |ink: &Ink| matches!(ink.kind, Kind::Pipe(_));
    let wanted = if is_pipe(one) || is_pipe(other) {
        BESIDE_PIPE
    } else {
        BETWEEN_DEVICES
    };
    match line.gap(its) - one.half - other.half {
        gap if gap < 0.0 => Some(Meets::Touch),
        gap if gap < wanted => Some(Meets::Near(gap, wanted)),
        _ => None,
    }
}

/// A part of the drawing that meets another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Party {
    /// A run.
    Run(RunId),
    /// What stands on a joint.
    Joint(JointId),
    /// Where a run passes through a part of the building.
    Passage(RunId),
}

/// Two strangers that meet on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clash {
    /// One of them.
    pub one: Party,
    /// The other.
    pub other: Party,
    /// How.
    pub meets: Meets,
}

/// What an ink is of.
pub fn party(job: &Job, frame: &Frame, kind: Kind) -> Party {
    match kind {
        Kind::Pipe(run) => Party::Run(job.runs.at(run as usize).id),
        Kind::Device(number) => Party::Joint(job.joints.at(frame.order[number as usize]).id),
        Kind::Passage(run) => Party::Passage(job.runs.at(run as usize).id),
    }
}
