//! Runs in one line that share one label: straight pipe with a valve or union in it is measured from fitting to fitting
//! where its pieces are too short for words of their own.

use super::run_words;
use crate::drawing::layout::{Layout, Leg};
use crate::job::Run;
use crate::scene::Segment;
use crate::units::Length;

/// One or more runs in line under one label.
pub struct Stretch {
    /// The longest of them on paper, for which the label speaks.
    pub run: usize,
    /// All of them, in line.
    pub runs: Vec<usize>,
    /// From end to end on paper.
    pub line: Segment,
    /// True length of all.
    pub length: Length,
}

/// A run drawn shorter than this has no room for words of its own, mm.
const ROOM: f64 = 16.0;

/// All runs that can be seen, each in one stretch.
pub fn stretches(layout: &Layout<'_>) -> Vec<Stretch> {
    let mut done = vec![false; layout.legs.len()];
    let mut all = Vec::new();
    for leg in layout.legs.iter().flatten() {
        if done[leg.run] || run_words::is_connector(layout, leg.run) {
            continue;
        }
        let mut chain = vec![leg.run];
        done[leg.run] = true;
        for end in [leg.from, leg.to] {
            let (mut here, mut joint) = (leg, end);
            while let Some(next) = next_in_line(layout, here, joint) {
                if done[next.run] {
                    break;
                }
                done[next.run] = true;
                if end == leg.from {
                    chain.insert(0, next.run);
                } else {
                    chain.push(next.run);
                }
                joint = next.other(joint);
                here = next;
            }
        }
        let is_cramped = |run: &usize| layout.legs[*run].as_ref().is_some_and(|leg| leg.length < ROOM);
        if chain.len() > 1 && chain.iter().any(is_cramped) {
            all.extend(stretch(layout, chain));
        } else {
            all.extend(chain.into_iter().filter_map(|run| stretch(layout, vec![run])));
        }
    }
    all
}

fn stretch(layout: &Layout<'_>, runs: Vec<usize>) -> Option<Stretch> {
    let leg = |run: usize| layout.legs[run].as_ref();
    let ends = runs
        .iter()
        .filter_map(|run| leg(*run))
        .flat_map(|leg| [leg.line.a, leg.line.b]);
    let along = leg(*runs.first()?)?.along;
    let by_place = |p: &crate::scene::Point| p.x * along.x + p.y * along.y;
    let a = ends.clone().min_by(|p, q| by_place(p).total_cmp(&by_place(q)))?;
    let b = ends.max_by(|p, q| by_place(p).total_cmp(&by_place(q)))?;
    let size = |run: &usize| leg(*run).map_or(0.0, |leg| leg.length);
    let longest = runs.iter().copied().rev().max_by(|p, q| size(p).total_cmp(&size(q)))?;
    let length = runs
        .iter()
        .map(|run| layout.job.true_length(layout.job.runs.at(*run)))
        .sum();
    Some(Stretch {
        run: longest,
        line: Segment::new(a, b),
        length,
        runs,
    })
}

/// The run that goes on in the same line beyond a joint at which there is no fitting.
fn next_in_line<'a>(layout: &'a Layout<'_>, leg: &Leg, joint: usize) -> Option<&'a Leg> {
    let mut legs = layout.legs_at(joint);
    let (one, other) = (legs.next()?, legs.next()?);
    if legs.next().is_some()
        || layout
            .study
            .joints
            .get(joint)
            .is_some_and(|joint| joint.fitting.is_some())
    {
        return None;
    }
    let next = if one.run == leg.run { other } else { one };
    let straight = leg.away_from(joint).dot(next.away_from(joint)) < -0.999_99;
    let alike = |a: &Run, b: &Run| {
        a.state == b.state && a.material == b.material && a.surroundings == b.surroundings && a.cover == b.cover
    };
    let same_kind = alike(layout.job.runs.at(leg.run), layout.job.runs.at(next.run));
    // Beyond a regulator or a meter pipe is another section, with a length of its own.
    let section = |leg: &Leg| layout.study.runs.get(leg.run).and_then(|run| run.section);
    let same_section = section(leg) == section(next);
    let same_size = run_words::size(layout, leg.run) == run_words::size(layout, next.run);
    (straight && same_kind && same_size && same_section).then_some(next)
}
