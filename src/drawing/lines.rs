//! How pipe is drawn: one line on its centre, told apart without colour.
//!
//! Width tells the state: heavy is new, medium is existing, thin with small crosses is to be removed. Pattern tells the
//! surroundings: unbroken indoors, unbroken with a thin line beside it outdoors, short dashes in a wall or floor, long
//! dashes below ground. Corrugated tubing is wavy.

use crate::job::{Run, State, Surroundings};
use crate::scene::{Cap, Dash, Group, Outline, PathItem, Pen, Point, Stroke, Vector};

/// Distance of the line beside outdoor pipe, mm, and how far it stays from waves at least.
const BESIDE: f64 = 1.7;
const CLEAR: f64 = 0.5;
/// Length of one wave of corrugated tubing, and how far its control points swing out, mm.
const WAVE_LENGTH: f64 = 4.6;
const WAVE: f64 = 1.25;
/// Straight tubing at each end of a run, mm: with room for an arrow, and where the run is short.
const STUB: f64 = 4.4;
const SHORT_STUB: f64 = 1.0;
/// Tubing longer than this between its fittings has room for arrows on its straight ends, mm.
const LONG_TUBING: f64 = 15.0;
const CROSS: f64 = 0.9;
const CROSS_EVERY: f64 = 7.0;

/// How the pipe of a run looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// The line itself.
    pub stroke: Stroke,
    /// Whether it runs in waves.
    pub wavy: bool,
    /// Whether a thin line runs beside it.
    pub beside: bool,
    /// Whether small crosses stand on it.
    pub crossed: bool,
}

impl Look {
    /// How a run looks.
    pub fn of(run: &Run, wavy: bool) -> Look {
        let pen = match run.state {
            State::New => Pen::Heavy,
            State::Existing => Pen::Medium,
            State::Removed => Pen::Thin,
        };
        let dash = match (run.state, run.surroundings) {
            (State::Removed, _) | (_, Surroundings::Concealed) => Dash::Dashed,
            (_, Surroundings::Underground) => Dash::WideDashes,
            (_, Surroundings::Indoors | Surroundings::Outdoors) => Dash::Solid,
        };
        Look {
            stroke: Stroke::new(pen).dash(dash),
            wavy,
            beside: run.surroundings == Surroundings::Outdoors && run.state != State::Removed,
            crossed: run.state == State::Removed,
        }
    }

    /// How far from its centre the line and its marks reach, mm: to the sides, and below where that is more.
    pub fn reach(&self) -> (f64, f64) {
        let half = self.half();
        let half = if self.crossed { half.max(CROSS + 0.15) } else { half };
        (half, if self.beside { self.beside_at() + 0.15 } else { half })
    }

    /// How far from its centre the line itself reaches, mm.
    fn half(&self) -> f64 {
        let half = self.stroke.width.mm() / 2.0;
        // A wave swings out by three quarters of its control points.
        if self.wavy { half + 0.75 * WAVE } else { half }
    }

    /// How far from its centre the line beside it runs, mm.
    fn beside_at(&self) -> f64 {
        BESIDE.max(self.half() + CLEAR)
    }

    /// Draws the pieces of a straight line from `start` in a direction, pieces in mm along it; `ends` tells how far
    /// from each end the marks stay away.
    pub fn draw(&self, into: &mut Group, start: Point, along: Vector, pieces: &[(f64, f64)], ends: (f64, f64)) {
        let at = |mm: f64| start + along * mm;
        let side = below(along);
        for &(from, to) in pieces {
            if self.wavy {
                self.tubing(into, start, along, (from, to), ends);
            } else {
                into.push(PathItem::stroked(Outline::line(at(from), at(to)), self.stroke));
            }
            let (from, to) = (from.max(ends.0), to.min(ends.1));
            if to - from < 1.5 {
                continue;
            }
            if self.beside {
                let off = side * self.beside_at();
                let thin = Outline::line(at(from) + off, at(to) + off);
                into.push(PathItem::stroked(thin, Stroke::new(Pen::Thin).cap(Cap::Butt)));
            }
            if self.crossed {
                let count = ((to - from) / CROSS_EVERY - 1e-9).ceil().min(1000.0);
                for number in 0..count as u32 {
                    let middle = at(from + (to - from) * (f64::from(number) + 0.5) / count);
                    cross(into, middle, along);
                }
            }
        }
    }
}

/// Where tubing is straight at both ends, mm from the beginning of its run: an arrow of flow fits each. `None` where the
/// run is too short for that.
pub fn stubs(ends: (f64, f64)) -> Option<[(f64, f64); 2]> {
    (ends.1 - ends.0 > LONG_TUBING).then_some([(ends.0, ends.0 + STUB), (ends.1 - STUB, ends.1)])
}

impl Look {
    /// A piece of tubing: straight where it leaves a fitting, waves between.
    fn tubing(&self, into: &mut Group, start: Point, along: Vector, (from, to): (f64, f64), ends: (f64, f64)) {
        let stub = if stubs(ends).is_some() { STUB } else { SHORT_STUB };
        let begin = if from <= 0.0 { (ends.0 + stub).min(to) } else { from };
        let end = if to >= ends.1 { (ends.1 - stub).max(begin) } else { to };
        let at = |mm: f64| start + along * mm;
        for (from, to) in [(from, begin), (end, to)] {
            if to > from {
                let straight = Outline::line(at(from), at(to));
                into.push(PathItem::stroked(straight, self.stroke.dash(Dash::Solid)));
            }
        }
        if end > begin {
            self.waves(into, start, along, (begin, end));
        }
    }

    /// Waves between two places. A broken pattern becomes whole waves with gaps between: dashes along a wave would be
    /// crumbs.
    fn waves(&self, into: &mut Group, start: Point, along: Vector, (from, to): (f64, f64)) {
        let (together, gap) = match self.stroke.dash {
            Dash::Solid => (f64::INFINITY, 0.0),
            Dash::WideDashes => (2.0, 1.6),
            Dash::Dashed | Dash::Dotted | Dash::DashDot | Dash::DashDotDot => (1.0, 1.3),
        };
        let unit = (together * WAVE_LENGTH + gap).min(to - from);
        let count = ((to - from + gap) / (unit + 1e-9)).round().clamp(1.0, 1000.0);
        let unit = (to - from + gap) / count;
        for number in 0..count as u32 {
            let begin = from + unit * f64::from(number);
            let outline = wave(start, along, begin, begin + unit - gap);
            into.push(PathItem::stroked(outline, self.stroke.dash(Dash::Solid)));
        }
    }
}

/// A wave that begins and ends on the line.
fn wave(start: Point, along: Vector, from: f64, to: f64) -> Outline {
    let side = along.turned();
    let at = |mm: f64, off: f64| start + along * mm + side * off;
    let halves = ((to - from) / WAVE_LENGTH * 2.0).round().clamp(1.0, 2000.0);
    let half = (to - from) / halves;
    let mut outline = Outline::new().to(at(from, 0.0));
    for number in 0..halves as u32 {
        let x = from + half * f64::from(number);
        let off = if number % 2 == 0 { WAVE } else { -WAVE };
        outline = outline.cubic(at(x + half * 0.36, off), at(x + half * 0.64, off), at(x + half, 0.0));
    }
    outline
}

/// The side of a line that faces down on paper, or right for an upright line; 1 mm long.
pub fn below(along: Vector) -> Vector {
    let side = along.turned();
    let is_below = if along.x.abs() < 0.1 {
        side.x > 0.0
    } else {
        side.y > 0.0
    };
    if is_below { side } else { -side }
}

/// What is left of 0 … `length` when stretches are taken out; the stretches are sorted and do not overlap.
pub fn pieces(length: f64, without: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut pieces = Vec::with_capacity(without.len() + 1);
    let mut from = 0.0;
    for &(start, end) in without {
        if start > from {
            pieces.push((from, start.min(length)));
        }
        from = f64::max(from, end);
    }
    if from < length {
        pieces.push((from, length));
    }
    pieces
}

fn cross(into: &mut Group, middle: Point, along: Vector) {
    let (u, v) = (along * CROSS, along.turned() * CROSS);
    let mut outline = Outline::line(middle - u - v, middle + u + v);
    outline.extend(&Outline::line(middle - u + v, middle + u - v));
    into.push(PathItem::stroked(outline, Stroke::new(Pen::Thin)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_taken_out_is_not_drawn() {
        assert_eq!(pieces(10.0, &[]), [(0.0, 10.0)]);
        assert_eq!(
            pieces(10.0, &[(-1.0, 2.0), (4.0, 5.0), (9.0, 12.0)]),
            [(2.0, 4.0), (5.0, 9.0)]
        );
        assert_eq!(pieces(10.0, &[(-1.0, 12.0)]), []);
    }

    #[test]
    fn every_pair_of_state_and_surroundings_looks_different() {
        let mut looks: Vec<Look> = Vec::new();
        for state in [State::New, State::Existing] {
            for surroundings in [
                Surroundings::Indoors,
                Surroundings::Concealed,
                Surroundings::Outdoors,
                Surroundings::Underground,
            ] {
                let run = Run {
                    state,
                    surroundings,
                    ..Run::default()
                };
                looks.push(Look::of(&run, false));
            }
        }
        looks.push(Look::of(
            &Run {
                state: State::Removed,
                ..Run::default()
            },
            false,
        ));
        for (at, look) in looks.iter().enumerate() {
            assert!(!looks[..at].contains(look), "{look:?}");
        }
    }

    #[test]
    fn the_side_below_is_below_whichever_way_the_line_is_drawn() {
        let east = Vector::new(0.866, 0.5);
        for along in [east, -east] {
            assert!(below(along).y > 0.0);
            let up = Vector::new(0.0, along.x.signum());
            assert!(below(up).x > 0.0);
        }
    }
}
