//! The lines of a take-off, gathered from job, study, cut list and stock plan.

mod joined;

use super::super::cut_in::{self, CutIn};
use super::super::{CutList, FittingKind, Making, Place, PortKind, StockPlan, Study};
use super::{Group, Line, Quantity};
use crate::codebook::{Codebook, Mark, PipeKind, Spacing, Way};
use crate::job::{Job, Material, Penetration, Run, Seal, State, Surroundings};
use crate::units::{Length, NominalSize, Show, UnitSystem};
use std::collections::BTreeMap;

pub(super) fn lines(job: &Job, study: &Study, book: &Codebook, cuts: &CutList, stock: &StockPlan) -> Vec<Line> {
    let gather = Gather {
        job,
        study,
        book,
        cuts,
        stock,
        cut_ins: cut_in::all(job, study),
        units: job.settings.units,
    };
    let mut lines = Vec::new();
    gather.pipe(&mut lines);
    gather.pieces(&mut lines);
    gather.fittings(&mut lines);
    gather.couplings(&mut lines);
    gather.devices(&mut lines);
    gather.unions(&mut lines);
    gather.hangers(&mut lines);
    gather.passages(&mut lines);
    gather.against_rust(&mut lines);
    gather.joints(&mut lines);
    gather.tracer(&mut lines);
    for line in lines
        .iter_mut()
        .filter(|line| line.group == Group::Buy && line.size.contains(SIZE_UNKNOWN))
    {
        line.group = Group::Settle;
        line.add("its size is not known yet");
    }
    lines.sort_by_key(|line| line.group);
    lines
}

struct Gather<'a> {
    job: &'a Job,
    study: &'a Study,
    book: &'a Codebook,
    cuts: &'a CutList,
    stock: &'a StockPlan,
    /// Where standing pipe is cut for a branch.
    cut_ins: Vec<CutIn>,
    units: UnitSystem,
}

const SIZE_UNKNOWN: &str = "size not known";

impl Gather<'_> {
    fn section(&self, run: usize) -> Option<&super::super::Section> {
        self.study.runs[run]
            .section
            .map(|section| &self.study.sections[section])
    }

    fn size(&self, run: usize) -> Option<NominalSize> {
        match self.section(run) {
            Some(section) => section.sizing.size,
            None => self.job.runs.at(run).size,
        }
    }

    fn named(&self, size: Option<NominalSize>) -> String {
        size.map_or(SIZE_UNKNOWN.to_owned(), |size| size.show(self.units))
    }

    fn run_place(&self, run: usize) -> Place {
        Place::Run(self.job.runs.at(run).id)
    }

    fn joint_place(&self, joint: usize) -> Place {
        Place::Joint(self.job.joints.at(joint).id)
    }

    /// Positions of all runs that are pipe and no part of a connector.
    fn pipe_runs(&self) -> impl Iterator<Item = (usize, &Run)> {
        let runs = self.job.runs.iter().enumerate();
        runs.filter(|(at, _)| !self.study.runs[*at].is_hose)
    }

    fn new_runs(&self) -> impl Iterator<Item = (usize, &Run)> {
        self.pipe_runs().filter(|(_, run)| run.state == State::New)
    }

    /// New pipe by what is cut of it, other pipe by its length between centres.
    fn pipe(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<Alike, (Length, Vec<Place>)> = BTreeMap::new();
        for (piece, part) in self.cuts.parts() {
            let entry = all
                .entry((State::New, Group::Buy, piece.material, piece.size))
                .or_default();
            entry.0 += part.length;
            let places = piece.runs.iter().map(|&run| self.run_place(run));
            let known: Vec<Place> = places.filter(|place| entry.1.last() != Some(place)).collect();
            entry.1.extend(known);
        }
        let group = |run: &Run| match run.state {
            State::Removed => Group::gone(run.salvaged),
            state => Group::of(state),
        };
        for (at, run) in self.pipe_runs().filter(|(_, run)| run.state != State::New) {
            let entry = all
                .entry((run.state, group(run), self.job.material(run), self.size(at)))
                .or_default();
            entry.0 += self.study.runs[at].length;
            entry.1.push(self.run_place(at));
        }
        // Old pipe in whose place new pipe comes.
        for (at, run) in self.new_runs() {
            if let Some(size) = run.replaced() {
                let entry = all
                    .entry((State::Removed, Group::TakenOut, self.job.material(run), Some(size)))
                    .or_default();
                entry.0 += self.study.runs[at].length;
                entry.1.push(self.run_place(at));
            }
        }
        for ((state, becomes, material, size), (length, places)) in all {
            let group = self.stock.groups.iter();
            let group = group
                .filter(|_| state == State::New)
                .find(|group| (group.material, Some(group.size)) == (material, size));
            let remark = match (state, group) {
                (State::New, Some(group)) => {
                    let stick = group.stick.value.show(self.units);
                    match group.sticks.len() {
                        1 => format!("1 stick of {stick}"),
                        many => format!("{many} sticks of {stick}"),
                    }
                }
                (State::New, None) => "from coils, as measured; add what ends and bends take".to_owned(),
                (State::Existing | State::Removed, _) => "between centres".to_owned(),
            };
            lines.push(Line {
                size: self.named(size),
                material: material.short(),
                mark: group.map(|group| group.stick.mark),
                remark,
                group: becomes,
                ..Line::of(pipe_word(material), state, Quantity::Length(length), places)
            });
        }
    }

    /// Nipples, and what cannot be made.
    fn pieces(&self, lines: &mut Vec<Line>) {
        let mut nipples: BTreeMap<(Material, Option<NominalSize>, Length, bool), Vec<Place>> = BTreeMap::new();
        let mut wrong: BTreeMap<(Material, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for piece in &self.cuts.pieces {
            let places = piece.runs.iter().map(|&run| self.run_place(run));
            match piece.making {
                Making::Nipple(length) => nipples
                    .entry((piece.material, piece.size, length, piece.is_known()))
                    .or_default()
                    .extend(places),
                Making::TooShort(_) | Making::TooLong | Making::NoSize => {
                    wrong.entry((piece.material, piece.size)).or_default().extend(places);
                }
                Making::Cut | Making::Coil | Making::Direct => {}
            }
        }
        let mut within: BTreeMap<(Option<NominalSize>, Option<Length>, bool), Vec<Place>> = BTreeMap::new();
        for nipple in &self.cuts.nipples {
            let entry = within.entry((nipple.size, nipple.length, nipple.close)).or_default();
            entry.push(self.joint_place(nipple.joint));
        }
        for ((size, length, close), places) in within {
            let length = length.map_or("length not known".to_owned(), |length| length.show(self.units));
            let mut line = Line {
                size: format!("{} × {length}", self.named(size)),
                material: Material::Steel40.short(),
                mark: Some(Mark::Memory),
                ..Line::each("nipple", State::New, places)
            };
            if close {
                line.add("close nipple");
            }
            line.add("between two female threads drawn at one place; none where a device has a male thread of its own");
            lines.push(line);
        }
        for ((material, size, length, known), places) in nipples {
            let (group, remark) = match known {
                true => (Group::Buy, "nearest standard length"),
                false => (Group::Settle, "an end must be measured first: the cut list says which"),
            };
            lines.push(Line {
                size: format!("{} × {}", self.named(size), length.show(self.units)),
                material: material.short(),
                mark: Some(Mark::Memory),
                remark: remark.to_owned(),
                group,
                ..Line::each("nipple", State::New, places)
            });
        }
        for ((material, size), places) in wrong {
            lines.push(Line {
                size: self.named(size),
                material: material.short(),
                group: Group::Settle,
                remark: "too short, too long or without a size: see the cut list; not counted as pipe".to_owned(),
                ..Line::each("run that cannot be cut", State::New, places)
            });
        }
    }

    /// Couplings where a stick ends inside a piece.
    fn couplings(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(Material, Option<NominalSize>), (usize, Vec<Place>)> = BTreeMap::new();
        for piece in self.cuts.pieces.iter().filter(|piece| piece.couplings() > 0) {
            let entry = all.entry((piece.material, piece.size)).or_default();
            entry.0 += piece.couplings();
            entry.1.extend(piece.runs.iter().map(|&run| self.run_place(run)));
        }
        for ((material, size), (count, places)) in all {
            lines.push(Line {
                size: self.named(size),
                material: material.short(),
                remark: "where a stick ends inside a run".to_owned(),
                ..Line::of(FittingKind::Coupling.name(), State::New, Quantity::Count(count), places)
            });
        }
    }

    /// One hanger for each started spacing of what a section has above ground, level and plumb each for itself.
    fn hangers(&self, lines: &mut Vec<Line>) {
        type Key = (Material, Option<NominalSize>, bool);
        let mut all: BTreeMap<Key, (usize, Vec<Place>, Option<Mark>)> = BTreeMap::new();
        let mut stretches: BTreeMap<_, (Length, Vec<usize>)> = BTreeMap::new();
        for (at, run) in self
            .new_runs()
            .filter(|(_, run)| run.surroundings != Surroundings::Underground)
        {
            // Pipe that no gas reaches has no section: each run for itself.
            let part = self.study.runs[at].section.map_or((1, at), |section| (0, section));
            let stretch = stretches.entry((part, self.way(run) == Way::Vertical)).or_default();
            stretch.0 += self.study.runs[at].length.max(Length::ZERO);
            stretch.1.push(at);
        }
        for (length, runs) in stretches.into_values() {
            let Some(&first) = runs.first() else { continue };
            let run = self.job.runs.at(first);
            let (material, size) = (self.job.material(run), self.size(first));
            let spacing = size.and_then(|size| self.book.support_spacing(PipeKind::of(material), size, self.way(run)));
            let (count, known) = match spacing.map(|spacing| spacing.value) {
                Some(Spacing::AtMost(apart)) if apart > Length::ZERO => {
                    ((length.inches() / apart.inches()).ceil() as usize, true)
                }
                Some(Spacing::EveryFloor) => (1, true),
                Some(Spacing::AtMost(_) | Spacing::AsMakerSays) | None => (0, false),
            };
            let entry = all.entry((material, size, known)).or_default();
            entry.0 = entry.0.saturating_add(count);
            entry.1.extend(runs.iter().map(|&run| self.run_place(run)));
            entry.2 = entry.2.max(spacing.map(|spacing| spacing.mark));
        }
        for ((material, size, known), (count, places, mark)) in all {
            let (quantity, group, remark) = match known {
                true => (
                    Quantity::Count(count),
                    Group::Buy,
                    "one for each started spacing of a section above ground",
                ),
                false => (Quantity::AsMakerSays, Group::Settle, "no published spacing"),
            };
            lines.push(Line {
                size: self.named(size),
                material: material.short(),
                mark,
                remark: remark.to_owned(),
                group,
                ..Line::of("hanger or strap", State::New, quantity, places)
            });
        }
    }

    fn way(&self, run: &Run) -> Way {
        let at = |id| self.job.joints.get(id).map(|joint| joint.at);
        match (at(run.from), at(run.to)) {
            (Some(from), Some(to)) if (to - from).axis() == Some(crate::job::Axis::Up) => Way::Vertical,
            _ => Way::Horizontal,
        }
    }

    fn passages(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(&'static str, String), (usize, Vec<Place>)> = BTreeMap::new();
        for (at, run) in self.new_runs() {
            for passage in &run.penetrations {
                for (what, count) in closed(passage) {
                    let entry = all.entry((what, self.named(self.size(at)))).or_default();
                    entry.0 += count;
                    entry.1.push(Place::Run(run.id));
                }
            }
        }
        for ((what, size), (count, places)) in all {
            lines.push(Line {
                size: format!("for {size}"),
                group: match what {
                    GAP => Group::OnSite,
                    _ => Group::Buy,
                },
                ..Line::of(what, State::New, Quantity::Count(count), places)
            });
        }
    }

    /// Outside surface of steel outdoors, as for paint.
    fn against_rust(&self, lines: &mut Vec<Line>) {
        let (mut area, mut places, mut mark) = (0.0, Vec::new(), None);
        let outdoors = |run: &Run| run.surroundings == Surroundings::Outdoors;
        for (at, run) in self.new_runs().filter(|(_, run)| outdoors(run)) {
            let material = self.job.material(run);
            let pipe = self.size(at).and_then(|size| self.book.pipe(material, size));
            let Some(outside) = pipe
                .and_then(|pipe| pipe.outside)
                .filter(|_| material == Material::Steel40)
            else {
                continue;
            };
            let length = self.study.runs[at].length.max(Length::ZERO);
            area += std::f64::consts::PI * outside.value.feet() * length.feet();
            places.push(Place::Run(run.id));
            mark = mark.max(Some(outside.mark));
        }
        if !places.is_empty() {
            lines.push(Line {
                material: Material::Steel40.short(),
                mark,
                remark: "one coat; fittings not measured".to_owned(),
                ..Line::of(
                    "paint or coating, pipe outdoors",
                    State::New,
                    Quantity::SquareFeet(area),
                    places,
                )
            });
        }
    }

    /// Threads to be made up, as for tape or joint compound: one for each female thread that takes something.
    fn joints(&self, lines: &mut Vec<Line>) {
        let made = self.study.joints_to_make(self.job);
        let threads = made.iter().filter(|(_, kind)| *kind == PortKind::FemaleThread);
        let mut places: Vec<Place> = threads.clone().map(|&(joint, _)| self.joint_place(joint)).collect();
        let mut count = places.len();
        places.dedup();
        for piece in self
            .cuts
            .pieces
            .iter()
            .filter(|piece| piece.material == Material::Steel40)
        {
            count += 2 * piece.couplings();
        }
        // The union that closes a standing line again beside the tee that is cut in.
        count += 2 * self.cut_ins.len();
        if count > 0 {
            lines.push(Line {
                material: Material::Steel40.short(),
                group: Group::OnSite,
                remark: "tape or joint compound fit for gas, by its maker's measure".to_owned(),
                ..Line::of(
                    "threaded joint to be made up",
                    State::New,
                    Quantity::Count(count),
                    places,
                )
            });
        }
    }

    fn tracer(&self, lines: &mut Vec<Line>) {
        let runs = || {
            self.new_runs()
                .filter(|(_, run)| run.tracer && run.surroundings == Surroundings::Underground)
        };
        let length: Length = runs().map(|(at, _)| self.study.runs[at].length).sum();
        let places: Vec<Place> = runs().map(|(_, run)| Place::Run(run.id)).collect();
        if !places.is_empty() {
            lines.push(Line {
                remark: "as long as the pipe; add for the ends above ground".to_owned(),
                ..Line::of("tracer wire", State::New, Quantity::Length(length), places)
            });
        }
    }
}

const GAP: &str = "gap to be sealed";

/// What closes a passage, and how many of it.
fn closed(passage: &Penetration) -> impl Iterator<Item = (&'static str, usize)> {
    let sleeve = passage.sleeved.then_some(("sleeve", 1));
    let seals = match passage.seal {
        Seal::Open => None,
        Seal::Outside => Some((GAP, 1)),
        Seal::BothFaces => Some((GAP, 2)),
    };
    sleeve.into_iter().chain(seals)
}

/// Pipe that is told in one line.
type Alike = (State, Group, Material, Option<NominalSize>);

/// What a material comes as, in a word of the trade.
pub fn pipe_word(material: Material) -> &'static str {
    match PipeKind::of(material) {
        PipeKind::Steel | PipeKind::Pe => "pipe",
        PipeKind::Copper | PipeKind::Csst => "tube",
    }
}
