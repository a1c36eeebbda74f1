//! The lines of the lattice on which runs lie, so that what is drawn over something else is found without comparing
//! every pair.

use super::pipe::Pipe;
use crate::job::{Job, LatticePoint};
use std::collections::HashSet;
use std::hash::{BuildHasherDefault, Hasher};

/// A straight line through places of the lattice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Line {
    /// Its direction, shortened as far as whole steps allow, the first step that is not zero positive.
    way: [i64; 3],
    /// The moment of the line about the zero of the lattice: the same for every place on it.
    moment: [i128; 3],
}

/// The part of a line that a run covers.
#[derive(Clone, Copy, Debug)]
pub struct Span {
    /// The run, a position in `job.runs`.
    pub run: usize,
    /// Where it starts along the line.
    pub from: i64,
    /// Where it ends, beyond the start.
    pub to: i64,
}

/// Spans of all runs that are not to be removed, line by line, each line's from its start on.
#[derive(Clone, Debug, Default)]
pub struct Lines {
    spans: Vec<(u64, Span)>,
    numbers: HashSet<u64, BuildHasherDefault<Mixed>>,
}

impl Line {
    /// The line through two places; `None` when they are one.
    pub fn through(a: LatticePoint, b: LatticePoint) -> Option<Line> {
        let (a, b) = (steps(a), steps(b));
        let way = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
        let first = *way.iter().find(|&&step| step != 0)?;
        let common = common(common(way[0], way[1]), way[2]) * first.signum();
        Some(Line::along(way.map(|step| step / common), a))
    }

    /// The line through a place along one axis: 0 east, 1 north, 2 up.
    pub fn on_axis(axis: usize, at: LatticePoint) -> Line {
        let mut way = [0; 3];
        way[axis] = 1;
        Line::along(way, steps(at))
    }

    fn along(way: [i64; 3], at: [i64; 3]) -> Line {
        let part = |a: usize, b: usize| i128::from(at[a]) * i128::from(way[b]) - i128::from(at[b]) * i128::from(way[a]);
        Line {
            way,
            moment: [part(1, 2), part(2, 0), part(0, 1)],
        }
    }

    /// How far along the line a place of it stands.
    pub fn place(&self, at: LatticePoint) -> i64 {
        let axis = self.way.iter().position(|&step| step != 0).unwrap_or(0);
        steps(at)[axis]
    }

    /// A number that is the same for one line and seldom the same for two.
    fn number(&self) -> u64 {
        let parts = self.way.iter().map(|&step| step as u64);
        let parts = parts.chain(self.moment.iter().map(|&part| part as u64));
        mix(parts.fold(0, |number: u64, part| (number.rotate_left(5) ^ part).wrapping_mul(ODD)))
    }
}

impl Lines {
    /// The lines of a job.
    pub fn of(job: &Job, pipes: &[Pipe]) -> Lines {
        let mut spans: Vec<(u64, Span)> = pipes
            .iter()
            .filter_map(|pipe| {
                let (line, span) = span(job, pipe.run)?;
                Some((line.number(), span))
            })
            .collect();
        spans.sort_unstable_by_key(|(number, span)| (*number, span.from, span.to, span.run));
        let numbers = spans.iter().map(|(number, _)| *number).collect();
        Lines { spans, numbers }
    }

    /// Pairs of runs that cover a common part of a line; each run once, with the one before it that reaches farthest.
    pub fn overlaps<'a>(&'a self, job: &'a Job) -> impl Iterator<Item = (usize, usize)> + 'a {
        let mut farthest: Option<(u64, Span)> = None;
        self.spans.iter().filter_map(move |&(number, next)| {
            let before = farthest.filter(|(line, _)| *line == number);
            if before.is_none_or(|(_, span)| span.to < next.to) {
                farthest = Some((number, next));
            }
            let (_, before) = before.filter(|(_, span)| next.from < span.to)?;
            let one_line = span(job, before.run)?.0 == span(job, next.run)?.0;
            one_line.then_some((before.run, next.run))
        })
    }

    /// A run that goes through a place along an axis without ending there. Of runs that overlap one is enough.
    pub fn through(&self, job: &Job, axis: usize, at: LatticePoint) -> Option<usize> {
        let line = Line::on_axis(axis, at);
        let (number, place) = (line.number(), line.place(at));
        if !self.numbers.contains(&number) {
            return None;
        }
        let after = self
            .spans
            .partition_point(|(other, span)| (*other, span.from) < (number, place));
        let (other, found) = self.spans[..after].last()?;
        let passes = *other == number && place < found.to;
        (passes && span(job, found.run)?.0 == line).then_some(found.run)
    }
}

/// The line of a run and what it covers of it.
pub fn span(job: &Job, run: usize) -> Option<(Line, Span)> {
    let ends = job.runs.at(run);
    let (a, b) = (job.joints.get(ends.from)?.at, job.joints.get(ends.to)?.at);
    let line = Line::through(a, b)?;
    let (a, b) = (line.place(a), line.place(b));
    Some((
        line,
        Span {
            run,
            from: a.min(b),
            to: a.max(b),
        },
    ))
}

fn steps(at: LatticePoint) -> [i64; 3] {
    [at.east.into(), at.north.into(), at.up.into()]
}

/// The greatest common divisor, never negative.
fn common(a: i64, b: i64) -> i64 {
    if b == 0 { a.abs() } else { common(b, a % b) }
}

/// The golden ratio in 64 bits: an odd number whose multiples lie well apart.
const ODD: u64 = 0x9e37_79b9_7f4a_7c15;

/// Spreads a number over all bits (the finisher of SplitMix64: Steele, Lea, Flood, "Fast splittable pseudorandom number
/// generators", 2014).
fn mix(number: u64) -> u64 {
    let mut number = number.wrapping_add(ODD);
    number = (number ^ (number >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    number = (number ^ (number >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    number ^ (number >> 31)
}

/// Takes numbers that are mixed already as they are.
#[derive(Clone, Default)]
struct Mixed(u64);

impl Hasher for Mixed {
    fn finish(&self) -> u64 {
        self.0
    }
    fn write(&mut self, bytes: &[u8]) {
        for &byte in bytes {
            self.0 = mix(self.0 ^ u64::from(byte));
        }
    }
    fn write_u64(&mut self, number: u64) {
        self.0 = number;
    }
}

#[cfg(test)]
mod tests {
    use super::super::lines::*;

    fn at(east: i32, north: i32, up: i32) -> LatticePoint {
        LatticePoint::new(east, north, up)
    }

    #[test]
    fn a_line_is_one_whichever_places_of_it_are_taken() {
        let line = Line::through(at(0, 1, 0), at(4, 5, 0)).unwrap();
        assert_eq!(Line::through(at(9, 10, 0), at(-3, -2, 0)), Some(line));
        assert_ne!(Line::through(at(0, 2, 0), at(4, 6, 0)), Some(line));
        assert_eq!(Line::through(at(3, 3, 3), at(3, 3, 3)), None);
    }

    #[test]
    fn the_ends_of_the_lattice_do_not_overflow() {
        let (low, high) = (at(i32::MIN, i32::MIN, i32::MIN), at(i32::MAX, i32::MAX, i32::MAX));
        let line = Line::through(low, high).unwrap();
        assert_eq!(Line::through(high, at(0, 0, 0)), Some(line));
    }
}
