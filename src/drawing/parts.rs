//! A drawing in parts, each for a sheet of its own: windows side by side without gap or overlap, and the match lines at
//! which pipe goes on from one to the next.
//!
//! Everything is told on the unit's paper ([`Projection::UNIT`]), so that it holds at every scale. No joint lies on the
//! edge between two windows. A place belongs to one part, and what is said of a line to the part that shows most of it,
//! so that all parts together say everything once. Where parts are split is `split`'s matter.

mod split;

use super::LARGEST_STEP;
use crate::projection::Projection;
use crate::scene::{Point, Rect, Segment, Vector};

/// The letters of match lines: not those that look like figures.
const LETTERS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
/// How far the outermost windows go on around everything drawn, in steps.
const BEYOND: f64 = 1000.0;
/// From a match line to the edge of the paper, where its words stand, mm.
const BESIDE_MATCH: f64 = 7.0;
/// From a match line to the words of the drawing, mm.
const CLEAR_OF_MATCH: f64 = 1.2;
/// Shares of its paper that a part leaves for words on both sides together.
const FOR_WORDS: f64 = 0.28;
/// Nothing shorter is pipe, in steps.
const NOTHING: f64 = 1e-9;

/// A drawing in parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Parts {
    /// Joints, and other places at which something is drawn.
    places: Vec<Spot>,
    /// Pipe.
    lines: Vec<Segment>,
    /// For each line whether it serves one outlet alone.
    drops: Vec<bool>,
    windows: Vec<Rect>,
    matches: Vec<Match>,
    step: f64,
    first: First,
}

/// With what the parts of a drawing begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct First {
    /// The number of the sheet of the first part.
    pub sheet: usize,
    /// How many letters of match lines other drawings of the same sheets have.
    pub letter: usize,
}

/// A place at which something is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Where it lies.
    pub at: Point,
    /// How far around it what is drawn there may reach, whatever the scale, mm.
    pub reach: f64,
}

/// A match line: what is cut there goes on beyond it on the other sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Match {
    /// Its letter.
    pub letter: char,
    /// Where it lies.
    pub line: Segment,
    /// The parts on its two sides.
    pub between: [usize; 2],
}

/// One part of a drawing in parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part<'a> {
    /// All of them.
    pub of: &'a Parts,
    /// Its number, from 0.
    pub number: usize,
}

/// The sides of a part at which its pipe goes on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Sides {
    left: bool,
    right: bool,
    top: bool,
    bottom: bool,
}

impl Parts {
    /// A drawing in one part: each line with whether it serves one outlet alone. `step` tells at which scale words of runs
    /// in line are joined, mm.
    pub fn one(places: Vec<Spot>, lines: Vec<(Segment, bool)>, step: f64, first: First) -> Parts {
        let (lines, drops): (Vec<Segment>, Vec<bool>) = lines.into_iter().unzip();
        let ends = lines.iter().flat_map(|line| [line.a, line.b]);
        let bounds = Rect::around(places.iter().map(|spot| spot.at).chain(ends)).unwrap_or(Rect::sized(
            Point::default(),
            1.0,
            1.0,
        ));
        Parts {
            places,
            lines,
            drops,
            windows: vec![bounds.grown(BEYOND)],
            matches: Vec::new(),
            step,
            first,
        }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.windows.len()
    }

    /// The match lines.
    pub fn matches(&self) -> &[Match] {
        &self.matches
    }

    /// The number of the sheet of a part.
    pub fn sheet(&self, part: usize) -> usize {
        self.first.sheet + part
    }

    /// The windows of the parts.
    pub fn windows(&self) -> &[Rect] {
        &self.windows
    }

    /// All pipe.
    pub fn lines(&self) -> &[Segment] {
        &self.lines
    }

    /// The scale at which words of runs in line are joined, mm of a step.
    pub fn step(&self) -> f64 {
        self.step
    }

    /// A part.
    pub fn part(&self, number: usize) -> Part<'_> {
        Part { of: self, number }
    }

    /// The ways to have a part in two on paper of that size, those first that leave each word the most room and cut
    /// little; none where no line has something on both sides.
    pub fn splits(&self, part: usize, paper: Rect) -> Vec<Parts> {
        let Some(&window) = self.windows.get(part) else {
            return Vec::new();
        };
        let inner = Vector::new(paper.width(), paper.height()) * (1.0 - FOR_WORDS);
        let held: Vec<Spot> = self
            .places
            .iter()
            .copied()
            .filter(|spot| window.contains(spot.at))
            .collect();
        let seen = self.lines.iter().zip(&self.drops).filter_map(|(line, is_drop)| {
            let (from, to) = line.within(window)?;
            Some((Segment::new(line.at(from), line.at(to)), *is_drop))
        });
        let seen: Vec<(Segment, bool)> = seen.collect();
        let split = |halves: [Rect; 2]| {
            let mut windows = self.windows.clone();
            windows.splice(part..=part, halves);
            let mut parts = Parts {
                windows,
                ..self.clone()
            };
            parts.matches = parts.match_lines();
            parts
        };
        split::ways(window, &held, &seen, inner)
            .into_iter()
            .map(split)
            .collect()
    }

    /// Match lines between all parts between which pipe goes on, in the order of the parts.
    fn match_lines(&self) -> Vec<Match> {
        let mut pairs: Vec<[usize; 2]> = Vec::new();
        for line in &self.lines {
            let shares = self.windows.iter().enumerate().filter_map(|(at, window)| {
                let (from, to) = line.within(*window)?;
                ((to - from) * line.length() > NOTHING).then_some((from, at))
            });
            let mut shares: Vec<(f64, usize)> = shares.collect();
            shares.sort_by(|a, b| a.0.total_cmp(&b.0));
            for next in shares.windows(2) {
                let pair = [next[0].1.min(next[1].1), next[0].1.max(next[1].1)];
                if !pairs.contains(&pair) {
                    pairs.push(pair);
                }
            }
        }
        pairs.sort_unstable();
        let shared = pairs.into_iter().filter_map(|between| {
            let [a, b] = between.map(|at| self.windows[at]);
            let (low, high) = (
                Point::new(a.min.x.max(b.min.x), a.min.y.max(b.min.y)),
                Point::new(a.max.x.min(b.max.x), a.max.y.min(b.max.y)),
            );
            (low.distance(high) > NOTHING).then_some((between, Segment::new(low, high)))
        });
        let matches = shared
            .zip(LETTERS.iter().cycle().skip(self.first.letter % LETTERS.len()))
            .map(|((between, line), letter)| Match {
                letter: char::from(*letter),
                line,
                between,
            });
        matches.collect()
    }

    /// To which part a place belongs.
    fn holder(&self, place: Point) -> Option<usize> {
        self.windows.iter().position(|window| window.contains(place))
    }

    /// In which part stands what is said of a line: in the one that shows most of it, of equals in the first.
    fn speaker(&self, line: Segment) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (at, window) in self.windows.iter().enumerate() {
            if let Some((from, to)) = line.within(*window)
                && best.is_none_or(|best| to - from > best.0 + 1e-6)
            {
                best = Some((to - from, at));
            }
        }
        best.map(|(_, at)| at)
    }
}

impl<'a> Part<'a> {
    /// Whether a place belongs to it.
    pub fn holds(&self, place: Point) -> bool {
        self.of.holder(place) == Some(self.number)
    }

    /// Whether what is said of a line stands in it.
    pub fn says(&self, line: Segment) -> bool {
        self.of.speaker(line) == Some(self.number)
    }

    /// What it shows of a line, as fractions of the way along it; `None` for nothing.
    pub fn seen(&self, line: Segment) -> Option<(f64, f64)> {
        let (from, to) = line.within(self.window())?;
        ((to - from) * line.length() > NOTHING).then_some((from, to))
    }

    /// Its match lines, each with the part on the other side.
    pub fn matches(&self) -> impl Iterator<Item = (&'a Match, usize)> + use<'a> {
        let number = self.number;
        self.of.matches.iter().filter_map(move |line| match line.between {
            [this, other] | [other, this] if this == number => Some((line, other)),
            _ => None,
        })
    }

    /// Its scale and place on a paper: at a match line as near to the edge as its words allow, elsewhere with margins.
    pub fn projection(&self, area: Rect, margins: Vector) -> Projection {
        let sides = self.sides();
        let off = |is_match: bool, margin: f64| if is_match { BESIDE_MATCH } else { margin };
        let inner = Rect::new(
            Point::new(
                area.min.x + off(sides.left, margins.x),
                area.min.y + off(sides.top, margins.y),
            ),
            Point::new(
                area.max.x - off(sides.right, margins.x),
                area.max.y - off(sides.bottom, margins.y),
            ),
        );
        let Some(bounds) = self.bounds() else {
            return Projection::fit_bounds(self.window(), inner, LARGEST_STEP);
        };
        let fit = Projection::fit_bounds(bounds, inner, LARGEST_STEP);
        // Where pipe goes on at one side only, it does so at the edge of the paper: what is left over is for words.
        let to_edge = |low: bool, high: bool, spare: f64| match (low, high) {
            (true, false) => -spare / 2.0,
            (false, true) => spare / 2.0,
            (true, true) | (false, false) => 0.0,
        };
        let shift = Vector::new(
            to_edge(sides.left, sides.right, inner.width() - bounds.width() * fit.step),
            to_edge(sides.top, sides.bottom, inner.height() - bounds.height() * fit.step),
        );
        Projection {
            origin: fit.origin + shift,
            ..fit
        }
    }

    /// Where on its paper words may stand: on this side of its match lines.
    pub fn words_area(&self, area: Rect, view: &Projection) -> Rect {
        let (sides, window) = (self.sides(), self.window());
        let (low, high) = (view.of_unit(window.min), view.of_unit(window.max));
        let mut area = area;
        if sides.left {
            area.min.x = area.min.x.max(low.x + CLEAR_OF_MATCH);
        }
        if sides.top {
            area.min.y = area.min.y.max(low.y + CLEAR_OF_MATCH);
        }
        if sides.right {
            area.max.x = area.max.x.min(high.x - CLEAR_OF_MATCH);
        }
        if sides.bottom {
            area.max.y = area.max.y.min(high.y - CLEAR_OF_MATCH);
        }
        area
    }

    /// The way out of the part across one of its match lines.
    pub fn outward(&self, line: Segment) -> Vector {
        let window = self.window();
        let middle = line.at(0.5);
        if line.a.x == line.b.x {
            Vector::new(if middle.x >= window.max.x - NOTHING { 1.0 } else { -1.0 }, 0.0)
        } else {
            Vector::new(0.0, if middle.y >= window.max.y - NOTHING { 1.0 } else { -1.0 })
        }
    }

    fn window(&self) -> Rect {
        self.of.windows[self.number]
    }

    fn sides(&self) -> Sides {
        let mut sides = Sides::default();
        for (line, _) in self.matches() {
            let out = self.outward(line.line);
            sides.left |= out.x < 0.0;
            sides.right |= out.x > 0.0;
            sides.top |= out.y < 0.0;
            sides.bottom |= out.y > 0.0;
        }
        sides
    }

    /// The box around what it shows.
    fn bounds(&self) -> Option<Rect> {
        let held = self.of.places.iter().map(|spot| spot.at).filter(|at| self.holds(*at));
        let seen = self
            .of
            .lines
            .iter()
            .filter_map(|line| self.seen(*line).map(|(a, b)| [line.at(a), line.at(b)]));
        Rect::around(held.chain(seen.flatten()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIRST: First = First { sheet: 2, letter: 0 };

    /// A comb: a header to the right with a tooth up at every fourth step.
    fn comb(teeth: usize) -> Parts {
        let spot = |at| Spot { at, reach: 4.0 };
        let (mut places, mut lines) = (vec![spot(Point::new(0.0, 0.0))], Vec::new());
        for tooth in 1..=teeth {
            let (root, tip) = (
                Point::new(4.0 * tooth as f64, 0.0),
                Point::new(4.0 * tooth as f64, -5.0),
            );
            lines.extend([
                (Segment::new(Point::new(root.x - 4.0, 0.0), root), false),
                (Segment::new(root, tip), true),
            ]);
            places.extend([root, tip].map(spot));
        }
        Parts::one(places, lines, 5.0, FIRST)
    }

    fn paper() -> Rect {
        Rect::sized(Point::new(20.0, 10.0), 180.0, 160.0)
    }

    fn in_six() -> Parts {
        let mut parts = comb(30);
        for at in [0, 0, 2, 0, 4] {
            parts = parts.splits(at, paper()).swap_remove(0);
        }
        parts
    }

    #[test]
    fn every_place_belongs_to_one_part_and_all_pipe_is_shown() {
        let parts = in_six();
        assert_eq!(parts.count(), 6);
        for place in &parts.places {
            assert_eq!((0..6).filter(|at| parts.part(*at).holds(place.at)).count(), 1);
        }
        for line in &parts.lines {
            let shown: f64 = (0..6)
                .filter_map(|at| parts.part(at).seen(*line))
                .map(|(from, to)| to - from)
                .sum();
            assert!((shown - 1.0).abs() < 1e-9, "{shown}");
            assert_eq!((0..6).filter(|at| parts.part(*at).says(*line)).count(), 1);
        }
    }

    #[test]
    fn a_match_line_has_its_own_letter_and_two_parts_that_know_each_other() {
        let parts = in_six();
        let letters: Vec<char> = parts.matches().iter().map(|line| line.letter).collect();
        assert_eq!(letters, ['A', 'B', 'C', 'D', 'E']);
        for line in parts.matches() {
            let [one, other] = line.between;
            assert!(
                parts
                    .part(one)
                    .matches()
                    .any(|(its, beyond)| its == line && beyond == other)
            );
            assert!(
                parts
                    .part(other)
                    .matches()
                    .any(|(its, beyond)| its == line && beyond == one)
            );
            assert_eq!(
                parts.part(one).outward(line.line),
                -parts.part(other).outward(line.line)
            );
        }
    }

    #[test]
    fn no_cut_lies_on_a_joint_and_what_has_none_on_one_side_is_not_cut() {
        for line in in_six().matches() {
            assert!(in_six().places.iter().all(|spot| line.line.distance(spot.at) > 0.1));
        }
        let one = vec![Spot {
            at: Point::new(3.0, 3.0),
            reach: 4.0,
        }];
        assert_eq!(Parts::one(one, Vec::new(), 5.0, FIRST).splits(0, paper()), []);
    }

    #[test]
    fn a_part_is_drawn_larger_and_within_its_paper() {
        let whole = comb(30);
        let margins = Vector::new(25.0, 20.0);
        let before = whole.part(0).projection(paper(), margins).step;
        let parts = in_six();
        for at in 0..6 {
            let part = parts.part(at);
            let view = part.projection(paper(), margins);
            assert!(view.step > 1.5 * before);
            let shown = part.bounds().unwrap();
            assert!(paper().contains(view.of_unit(shown.min)) && paper().contains(view.of_unit(shown.max)));
            assert!(paper().encloses(part.words_area(paper(), &view)));
        }
    }
}
