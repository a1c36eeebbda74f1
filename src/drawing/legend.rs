//! One sample of every kind of line, symbol and mark, with its words.

use super::joints;
use super::layout::turned;
use super::lines::{self, Look};
use super::marks;
use super::symbols::{self, CubeFace, Shape};
use super::used::Symbol;
use crate::job::{Axis, Run, State, Surroundings};
use crate::projection::axis;
use crate::scene::{Affine, Anchor, Face, Group, Ink, Outline, PathItem, Pen, Point, Stroke, TextItem, Vector};

/// Room of a sample from its left edge to its words, mm.
pub const SAMPLE_WIDTH: f64 = 17.0;
/// Height of a row of samples, mm.
pub const SAMPLE_HEIGHT: f64 = 8.0;
/// Height of the words, mm.
const LETTERING: f64 = 2.5;
/// Length of the line that a sample shows, mm.
const LINE: f64 = 14.0;
const RIGHT: Vector = Vector::new(1.0, 0.0);

/// A sample of a kind and its words; `at` is the middle of its left edge.
pub fn legend_sample(symbol: Symbol, at: Point) -> Group {
    let middle = Vector::new(LINE / 2.0, 0.0);
    let mut group = Group::new();
    sample(symbol, Point::default() + middle, &mut group);
    let words = TextItem::new(symbol.words(), LETTERING, Face::Regular);
    group.push(words.at(Point::new(SAMPLE_WIDTH, LETTERING / 2.0), Anchor::Start));
    group.map(Affine::to(at))
}

fn sample(symbol: Symbol, middle: Point, into: &mut Group) {
    let at_end = |into: &mut Group, shape: Shape| {
        half_pipe(into);
        into.push(shape.place(Affine::to(middle)).0);
    };
    let pen = Pen::Wide;
    match symbol {
        Symbol::NewPipe => pipe(into, State::New, Surroundings::Indoors, false),
        Symbol::ExistingPipe => pipe(into, State::Existing, Surroundings::Indoors, false),
        Symbol::RemovedPipe | Symbol::SalvagedPipe => pipe(into, State::Removed, Surroundings::Indoors, false),
        Symbol::ConcealedPipe => pipe(into, State::New, Surroundings::Concealed, false),
        Symbol::OutdoorPipe => pipe(into, State::New, Surroundings::Outdoors, false),
        Symbol::BuriedPipe => pipe(into, State::New, Surroundings::Underground, false),
        Symbol::Csst => pipe(into, State::New, Surroundings::Indoors, true),
        Symbol::Tick => {
            pipe(into, State::New, Surroundings::Indoors, false);
            let half = Vector::new(0.0, 1.2);
            into.push(PathItem::stroked(
                Outline::line(middle - half, middle + half),
                Stroke::new(Pen::Medium),
            ));
        }
        Symbol::Dot => {
            pipe(into, State::New, Surroundings::Indoors, false);
            into.push(PathItem::filled(Outline::circle(middle, 1.0), Ink::Black));
        }
        Symbol::Flare => {
            pipe(into, State::New, Surroundings::Indoors, false);
            into.push(joints::flare(middle, RIGHT, 1.0, State::New).0);
        }
        Symbol::SedimentTrap => {
            let place = middle - Vector::new(0.0, 2.4);
            look(State::New, Surroundings::Indoors, false).draw(
                into,
                place - middle_of_line(),
                RIGHT,
                &[(0.0, LINE)],
                (0.0, LINE),
            );
            let trap = symbols::fitting::sediment_trap(Stroke::new(Pen::Heavy), pen);
            into.push(trap.place(turned(place, Vector::new(0.0, 1.0), 0.9)).0);
        }
        Symbol::Appliance => {
            let cube = symbols::cube(3.9 + 0.1, "A", CubeFace::South, pen);
            into.push(cube.place(Affine::to(middle)).0);
        }
        Symbol::Cap => at_end(into, symbols::fitting::cap(pen)),
        Symbol::Plug => {
            pipe(into, State::New, Surroundings::Indoors, false);
            let plug = symbols::fitting::plug(Stroke::new(Pen::Heavy), pen);
            into.push(plug.place(turned(middle, Vector::new(0.0, -1.0), 1.0)).0);
        }
        Symbol::TestGauge => {
            let gauge = symbols::round::test_gauge(pen);
            into.push(
                gauge
                    .place(Affine::scale(0.9).then(Affine::to(middle + Vector::new(0.0, 3.3))))
                    .0,
            );
        }
        Symbol::Barrier => {
            into.push(symbols::barrier(middle, axis(Axis::North), axis(Axis::Up), 2.7).0);
        }
        Symbol::Sleeve => {
            into.push(symbols::sleeve().place(Affine::to(middle - Vector::new(1.4, 0.0))).0);
            pipe(into, State::New, Surroundings::Indoors, false);
        }
        Symbol::Ground => into.push(symbols::ground().place(Affine::to(middle)).0),
        Symbol::Flow => {
            pipe(into, State::New, Surroundings::Indoors, false);
            into.push(marks::arrow(middle, RIGHT).0);
        }
        Symbol::Break => {
            let (half, look) = (LINE / 2.0, look(State::New, Surroundings::Indoors, false));
            let pieces = lines::pieces(LINE, &[(half - marks::BREAK, half + marks::BREAK)]);
            look.draw(into, Point::default(), RIGHT, &pieces, (0.0, LINE));
            into.push(marks::strokes(middle, RIGHT).0);
        }
        Symbol::TieIn => {
            pipe(into, State::New, Surroundings::Indoors, false);
            into.push(PathItem::stroked(Outline::circle(middle, 3.0), Stroke::new(Pen::Wide)));
        }
        Symbol::SectionNumber => {
            pipe(into, State::New, Surroundings::Indoors, false);
            into.push(super::section_numbers::hexagon(middle, 1).0);
        }
        Symbol::Crossing => {
            let (half, look) = (LINE / 2.0, look(State::New, Surroundings::Indoors, false));
            look.draw(
                into,
                Point::default(),
                RIGHT,
                &lines::pieces(LINE, &[(half - 1.8, half + 1.8)]),
                (0.0, LINE),
            );
            look.draw(
                into,
                middle - Vector::new(0.0, 3.0),
                Vector::new(0.0, 1.0),
                &[(0.0, 6.0)],
                (0.0, 6.0),
            );
        }
        Symbol::HelperPlane => {
            let (a, b) = (middle + Vector::new(-4.5, 2.8), middle + Vector::new(4.5, 2.8));
            let top = middle + Vector::new(4.5, -2.6);
            into.push(super::planes::hatched(a, b, top));
            let way = top - a;
            let length = way.length();
            let along = way.unit().unwrap_or(RIGHT);
            look(State::New, Surroundings::Indoors, false).draw(into, a, along, &[(0.0, length)], (0.0, length));
        }
        Symbol::Elevation => into.push(super::block::level_mark(middle)),
        Symbol::Cloud => {
            let feet = [
                (-4.2, -1.4),
                (-1.4, -1.4),
                (1.4, -1.4),
                (4.2, -1.4),
                (4.2, 1.4),
                (1.4, 1.4),
                (-1.4, 1.4),
                (-4.2, 1.4),
            ]
            .map(|(x, y)| middle + Vector::new(x, y));
            into.push(PathItem::stroked(super::clouds::outline(&feet), Stroke::new(Pen::Thin)));
        }
        Symbol::NumberedPoint => into.push(super::labels::numbered_mark(middle, 1)),
        other => {
            if let Some(shape) = other.shape(pen, Pen::Heavy) {
                pipe(into, State::New, Surroundings::Indoors, false);
                into.push(shape.place(Affine::to(middle)).0);
            }
        }
    }
}

fn middle_of_line() -> Vector {
    Vector::new(LINE / 2.0, 0.0)
}

fn look(state: State, surroundings: Surroundings, wavy: bool) -> Look {
    let run = Run {
        state,
        surroundings,
        ..Run::default()
    };
    Look::of(&run, wavy)
}

fn pipe(into: &mut Group, state: State, surroundings: Surroundings, wavy: bool) {
    look(state, surroundings, wavy).draw(into, Point::default(), RIGHT, &[(0.0, LINE)], (0.5, LINE - 0.5));
}

fn half_pipe(into: &mut Group) {
    look(State::New, Surroundings::Indoors, false).draw(
        into,
        Point::default(),
        RIGHT,
        &[(0.0, LINE / 2.0)],
        (0.0, LINE),
    );
}
