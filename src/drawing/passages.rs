//! Where a run passes through walls, floors and the ground: the patch, the sleeve, and where they stand.

use super::layout::{Layout, Leg, frame, nearness};
use super::symbols;
use super::used::{Symbol, SymbolSet};
use crate::job::{Axis, Barrier, Direction, Job, Penetration};
use crate::projection::axis;
use crate::scene::{Affine, Group, Quad};

/// How far around its place a penetration may reach, mm.
pub const AROUND: f64 = 8.0;

/// A penetration as it is drawn, all of it before the pipe.
pub struct Passage {
    /// The patch and the sleeve.
    pub group: Group,
    /// Their room.
    pub rooms: Vec<Quad>,
    /// Where it stands, mm from the beginning of the leg.
    pub at: f64,
    /// The stretch of pipe that it hides, mm from the beginning of the leg.
    pub behind: Option<(f64, f64)>,
}

/// Draws a penetration of a leg; `ends` are the lengths at both ends that symbols take. `None` where it belongs to another
/// part of the drawing.
pub fn draw(
    layout: &Layout<'_>,
    leg: &Leg,
    penetration: &Penetration,
    ends: (f64, f64),
    used: &mut SymbolSet,
) -> Option<Passage> {
    let at = place(layout, leg, penetration, ends)?;
    let scale = scale(leg, ends);
    let point = leg.at(at);
    let (mut group, mut rooms) = (Group::new(), Vec::new());
    // Toward the viewer along the leg, and how far a patch hides the pipe to the other side.
    let toward = if nearness(layout.job, leg.to) >= nearness(layout.job, leg.from) {
        1.0
    } else {
        -1.0
    };
    let hidden = symbols::BARRIER_HALF * scale;
    let is_patch = penetration.barrier != Barrier::Ground;
    let [one, other] = plane(leg.way).map(axis);
    if is_patch {
        used.insert(Symbol::Barrier);
        let (patch, room) = symbols::barrier(point, one, other, hidden);
        group.push(patch);
        rooms.push(room);
    } else {
        used.insert(Symbol::Ground);
        // Along the ground, across the pipe: on a level run it would else lie hidden under it.
        let line = Affine::frame(point, one * scale, axis(Axis::Up) * -scale);
        let (line, room) = symbols::ground().place(line);
        group.push(line);
        rooms.push(room);
    }
    if penetration.sleeved {
        used.insert(Symbol::Sleeve);
        let (sleeve, room) = symbols::sleeve().place(frame(point, leg.along * toward, scale));
        group.push(sleeve);
        rooms.push(room);
    }
    Some(Passage {
        group,
        rooms,
        at,
        behind: is_patch.then_some(if toward > 0.0 {
            (at - hidden, at)
        } else {
            (at, at + hidden)
        }),
    })
}

/// The stretch of pipe that a penetration takes up, mm from the beginning of the leg; `None` where it belongs to another
/// part of the drawing.
pub fn stretch(layout: &Layout<'_>, leg: &Leg, penetration: &Penetration, ends: (f64, f64)) -> Option<(f64, f64)> {
    let at = place(layout, leg, penetration, ends)?;
    let reach = reach(leg, ends);
    Some((at - reach, at + reach))
}

/// The scale of a penetration.
fn scale(leg: &Leg, ends: (f64, f64)) -> f64 {
    ((leg.length - ends.0 - ends.1) / 6.0).clamp(0.4, 1.0)
}

/// How far a penetration takes up the pipe to each side, mm.
fn reach(leg: &Leg, ends: (f64, f64)) -> f64 {
    symbols::BARRIER_HALF * scale(leg, ends) + 0.4
}

/// In proportion to its true place along the run, kept clear of what stands at the ends.
fn place(layout: &Layout<'_>, leg: &Leg, penetration: &Penetration, ends: (f64, f64)) -> Option<f64> {
    let share = share(layout.job, leg, penetration);
    if !layout.holds_share(leg.run, share) {
        return None;
    }
    let wish = leg.whole.length() * share - leg.before;
    let (low, high) = (ends.0 + 2.0, leg.length - ends.1 - 2.0);
    Some(if low < high {
        wish.clamp(low, high)
    } else {
        (ends.0 + leg.length - ends.1) / 2.0
    })
}

/// The share of a whole leg at which a penetration truly is.
pub fn share(job: &Job, leg: &Leg, penetration: &Penetration) -> f64 {
    let run = job.runs.at(leg.run);
    let whole = job.true_length(run).mm();
    let share = match penetration.at {
        Some(at) if whole > 0.0 => (at.mm() / whole).clamp(0.0, 1.0),
        _ => 0.5,
    };
    let from_start = job.joints.position(run.from) == Some(leg.from);
    if from_start { share } else { 1.0 - share }
}

/// The plane across a way: the two axes that it does not mainly follow.
fn plane(way: Direction) -> [Axis; 2] {
    let size = |steps: i32| i64::from(steps).abs();
    let (east, north, up) = (size(way.east), size(way.north), size(way.up));
    if up > east.max(north) {
        [Axis::East, Axis::North]
    } else if east >= north {
        [Axis::North, Axis::Up]
    } else {
        [Axis::East, Axis::Up]
    }
}
