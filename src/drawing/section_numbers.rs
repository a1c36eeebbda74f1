//! The number of each section, in a hexagon on its pipe: the row of the section schedule that speaks of it.

use super::layout::{Layout, Leg};
use super::marks::Taken;
use crate::scene::{
    Anchor, Face, Group, Ink, Outline, PathItem, Pen, Point, Quad, Rect, Stroke, TextItem, Vector, measure,
};

/// Height of the figures, mm.
pub const LETTERING: f64 = 2.5;
/// From the middle of a hexagon to its corners at the sides, mm, and to its flat edges.
const CORNER: f64 = 2.7;
const EDGE: f64 = 2.35;
/// Half the width of figures for which a hexagon is wide enough, mm.
const FIGURES: f64 = 1.7;
/// What it keeps clear of on its pipe, mm.
const CLEAR: f64 = 0.7;
/// How far a number stays from pipe that crosses its own, mm.
const CROSSED: f64 = 2.2;
/// Runs among which crossings are looked for, at most.
const MOST: usize = 1_000;
/// Where along its run a number would like to stand: behind the joint from which its section starts, so that most of
/// the run is left for size and length.
const SHARE: f64 = 0.2;

/// Where the number of each section stands.
#[derive(Clone, Debug, Default)]
pub struct SectionNumbers {
    /// For each run the number on it, and where, in mm from its beginning.
    pub on: Vec<Option<(usize, f64)>>,
    /// Sections that are seen but have no room for a number on their pipe, each with its longest run.
    pub beside: Vec<(usize, usize)>,
}

/// Finds a place for every number, on the longest run of its section that has room.
pub fn place(layout: &Layout<'_>, taken: impl Fn(&Leg) -> Taken) -> SectionNumbers {
    let mut numbers = SectionNumbers {
        on: vec![None; layout.legs.len()],
        beside: Vec::new(),
    };
    let sections = layout.study.sections.iter().enumerate();
    for (at, section) in sections.filter(|(_, section)| section.is_pipe()) {
        let mut legs: Vec<&Leg> = (section.runs.iter())
            .filter_map(|run| layout.legs.get(*run)?.as_ref())
            .collect();
        legs.sort_by(|a, b| b.length.total_cmp(&a.length));
        let half = half_width(section.number) + CLEAR;
        let found = legs.iter().find_map(|leg| {
            let mut taken = taken(leg);
            for at in crossed(layout, leg) {
                taken.take(at - CROSSED, at + CROSSED);
            }
            let place = taken.find(leg, leg.length * SHARE, half)?;
            Some((leg.run, place))
        });
        match (found, legs.first()) {
            (Some((run, place)), _) => numbers.on[run] = Some((section.number, place)),
            (None, Some(longest)) => numbers.beside.push((at, longest.run)),
            (None, None) => {}
        }
    }
    numbers
}

/// Where other pipe crosses a run on paper, mm from its beginning. A drawing of very many runs is not searched: it is past
/// reading.
fn crossed<'a>(layout: &'a Layout<'_>, leg: &'a Leg) -> impl Iterator<Item = f64> + 'a {
    let legs = layout
        .legs
        .iter()
        .flatten()
        .take(if layout.legs.len() > MOST { 0 } else { MOST });
    let meets = |other: &Leg| {
        [other.from, other.to]
            .iter()
            .any(|joint| [leg.from, leg.to].contains(joint))
    };
    let others = legs.filter(move |other| other.run != leg.run && !meets(other));
    others.filter_map(|other| Some(leg.line.crossing(other.line)?.0 * leg.length))
}

/// Half the width of a hexagon, mm.
pub fn half_width(number: usize) -> f64 {
    let figures = measure(&number.to_string(), LETTERING, Face::Regular) / 2.0;
    CORNER + (figures - FIGURES).max(0.0)
}

/// A number in its hexagon, which covers what lies behind, and its room.
pub fn hexagon(middle: Point, number: usize) -> (Group, Quad) {
    let (half, side) = (half_width(number), CORNER / 2.0);
    let corner = |x: f64, y: f64| middle + Vector::new(x, y);
    let outline = Outline::polygon([
        corner(-half, 0.0),
        corner(side - half, -EDGE),
        corner(half - side, -EDGE),
        corner(half, 0.0),
        corner(half - side, EDGE),
        corner(side - half, EDGE),
    ]);
    let figures = TextItem::new(&number.to_string(), LETTERING, Face::Regular);
    let group = Group::new()
        .label(format!("section {number}"))
        .with(PathItem::stroked(outline, Stroke::new(Pen::Medium)).fill(Ink::White))
        .with(figures.at(middle + Vector::new(0.0, LETTERING / 2.0), Anchor::Middle));
    let reach = Vector::new(half, EDGE);
    (group, Quad(Rect::new(middle - reach, middle + reach).corners()))
}
