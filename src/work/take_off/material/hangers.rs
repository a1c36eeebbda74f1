//! What holds pipe above ground.
//!
//! Published are spacings along pipe; that each straight stretch is counted by itself, so that a turn has a support on
//! either side, and that a stub shorter than a foot is held by what it joins, is common practice without a source.

use super::Gather;
use crate::codebook::{Mark, Spacing, Way};
use crate::job::{Axis, Barrier, Direction, Material, Run, State, Surroundings};
use crate::study::Place;
use crate::units::{Length, NominalSize};
use crate::work::{Group, Line, Quantity};
use std::collections::BTreeMap;

/// A shorter stretch is held by what it joins; common practice, no source.
const HELD_BY_OTHERS: f64 = 12.0;

/// Runs of one size that lie in one line, with nothing but fittings and devices between them.
#[derive(Default)]
struct Stretch {
    length: Length,
    runs: Vec<usize>,
}

impl Gather<'_> {
    /// One hanger for each started spacing of each straight stretch above ground.
    pub(super) fn hangers(&self, lines: &mut Vec<Line>) {
        type Key = (Material, Option<NominalSize>, bool);
        let mut all: BTreeMap<Key, (usize, Vec<Place>, Option<Mark>)> = BTreeMap::new();
        for stretch in self.stretches() {
            let Some(&first) = stretch.runs.first() else { continue };
            let run = self.job.runs.at(first);
            let (material, size, way) = (self.job.material(run), self.size(first), self.way(run));
            let spacing = size.and_then(|size| self.book.support_spacing(material, size, way));
            let is_short = stretch.length < Length::from_inches(HELD_BY_OTHERS);
            let (count, known) = match spacing.map(|spacing| spacing.value) {
                // Tubing leaves its fittings where it likes; only pipe holds a stub.
                _ if is_short && material.is_rigid() => continue,
                Some(Spacing::AtMost(apart)) if apart > Length::ZERO => {
                    ((stretch.length.inches() / apart.inches()).ceil() as usize, true)
                }
                Some(Spacing::EveryFloor) => (self.floors(&stretch).max(1), true),
                Some(Spacing::AtMost(_) | Spacing::AsMakerSays) | None => (0, false),
            };
            let entry = all.entry((material, size, known)).or_default();
            entry.0 = entry.0.saturating_add(count);
            entry.1.extend(stretch.runs.iter().map(|&run| self.run_place(run)));
            entry.2 = entry.2.max(spacing.map(|spacing| spacing.mark));
        }
        for ((material, size, known), (count, places, mark)) in all {
            let (quantity, group, remark) = match (known, material.is_corrugated()) {
                (true, _) => (Quantity::Count(count), Group::Buy, self.counted()),
                (false, true) => {
                    let words = "spacing by the tubing manufacturer".to_owned();
                    (Quantity::AsMakerSays, Group::Settle, words)
                }
                (false, false) => (Quantity::AsMakerSays, Group::Settle, "no published spacing".to_owned()),
            };
            lines.push(Line {
                size: format!("for {} {}", self.sized(material, size), material.short()),
                mark,
                remark,
                group,
                ..Line::of("hanger or strap", State::New, quantity, places)
            });
        }
    }

    /// How hangers are counted.
    fn counted(&self) -> String {
        let stub = Length::from_inches(HELD_BY_OTHERS).show_rule(self.units);
        format!(
            "one for each spacing, or part of it, of each straight run above ground; none on stubs under {stub} (common practice, no source)"
        )
    }

    /// New pipe above ground by its straight stretches, in the order of their first runs.
    fn stretches(&self) -> Vec<Stretch> {
        let above = |run: &Run| run.surroundings != Surroundings::Underground;
        let mut stretch_of: Vec<Option<usize>> = vec![None; self.job.runs.len()];
        let mut stretches: Vec<Stretch> = Vec::new();
        let is_held: Vec<usize> = self
            .new_runs()
            .filter(|(_, run)| above(run))
            .map(|(at, _)| at)
            .collect();
        for &at in &is_held {
            if stretch_of[at].is_some() {
                continue;
            }
            let place = stretches.len();
            let mut stretch = Stretch::default();
            // Both ways along the line; every run is taken once.
            let mut ahead = vec![at];
            stretch_of[at] = Some(place);
            while let Some(run) = ahead.pop() {
                stretch.length += self.study.runs[run].length.max(Length::ZERO);
                stretch.runs.push(run);
                for joint in self.study.network.joints_of[run].map_or(Vec::new(), |(from, to)| vec![from, to]) {
                    let mut beside = self.study.network.legs(joint).filter(|&other| {
                        stretch_of[other].is_none()
                            && is_held.binary_search(&other).is_ok()
                            && self.goes_on(run, other, joint)
                    });
                    if let Some(other) = beside.next() {
                        stretch_of[other] = Some(place);
                        ahead.push(other);
                    }
                }
            }
            stretch.runs.sort_unstable();
            stretches.push(stretch);
        }
        stretches
    }

    /// Whether two runs of one size and material lie in one line at a joint.
    fn goes_on(&self, run: usize, other: usize, joint: usize) -> bool {
        let (one, two) = (self.job.runs.at(run), self.job.runs.at(other));
        let alike = (self.job.material(one), self.size(run)) == (self.job.material(two), self.size(other));
        let straight = self.leaves(run, joint).zip(self.leaves(other, joint));
        alike
            && straight
                .and_then(|(one, two)| one.angle_to(two))
                .is_some_and(|angle| angle > 179.9)
    }

    /// The way along which a run leaves a joint.
    fn leaves(&self, run: usize, joint: usize) -> Option<Direction> {
        let (from, to) = self.study.network.joints_of[run]?;
        let at = |joint: usize| self.job.joints.at(joint).at;
        Some(match from == joint {
            true => at(to) - at(from),
            false => at(from) - at(to),
        })
    }

    /// How many floors a stretch passes.
    fn floors(&self, stretch: &Stretch) -> usize {
        let passages = stretch.runs.iter().flat_map(|&run| &self.job.runs.at(run).penetrations);
        passages
            .filter(|passage| matches!(passage.barrier, Barrier::Floor | Barrier::Roof))
            .count()
    }

    fn way(&self, run: &Run) -> Way {
        let at = |id| self.job.joints.get(id).map(|joint| joint.at);
        match (at(run.from), at(run.to)) {
            (Some(from), Some(to)) if (to - from).axis() == Some(Axis::Up) => Way::Vertical,
            _ => Way::Horizontal,
        }
    }
}
