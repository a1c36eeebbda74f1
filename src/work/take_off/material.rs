//! The lines of a take-off, gathered from job, study, cut list and stock plan.

mod around;
mod hangers;
mod joined;
mod sealants;

pub(in crate::work) use around::sleeve;

use crate::codebook::{Codebook, FittingSwitch, Mark, PipeKind, Profile, StockForm};
use crate::fittings::FittingKind;
use crate::job::{Job, Joining, Material, Run, State};
use crate::study::{Place, Study};
use crate::units::{Length, NominalSize, Show, UnitSystem};
use crate::work::{CutIn, CutList, Group, Line, Making, Quantity, Shelf, StockPlan, cut_in, put_in};
use std::collections::BTreeMap;

pub(super) fn lines<'a>(
    job: &'a Job,
    study: &'a Study,
    book: &'a Codebook,
    cuts: &'a CutList,
    stock: &'a StockPlan,
) -> Vec<Line> {
    let gather = Gather {
        job,
        study,
        book,
        cuts,
        stock,
        cut_ins: cut_in::all(job, study),
        units: study.names.units(),
    };
    let mut lines = Vec::new();
    let mut tell = |shelf, tell: fn(&Gather<'a>, &mut Vec<Line>)| {
        let before = lines.len();
        tell(&gather, &mut lines);
        lines[before..].iter_mut().for_each(|line| line.shelf = shelf);
    };
    tell(Shelf::Pipe, Gather::pipe);
    tell(Shelf::Pipe, Gather::pieces);
    tell(Shelf::Fittings, Gather::fittings);
    tell(Shelf::Fittings, Gather::couplings);
    tell(Shelf::Fittings, Gather::flare_nuts);
    tell(Shelf::Gas, Gather::devices);
    tell(Shelf::Gas, Gather::vent_lines);
    tell(Shelf::Gas, Gather::gauge_tees);
    tell(Shelf::Fittings, Gather::unions);
    tell(Shelf::Pipe, Gather::put_in);
    tell(Shelf::Supports, Gather::hangers);
    tell(Shelf::Supports, Gather::passages);
    tell(Shelf::Supports, Gather::plates);
    tell(Shelf::Supports, Gather::bonding);
    tell(Shelf::Supports, Gather::against_rust);
    tell(Shelf::Supports, Gather::in_the_ground);
    tell(Shelf::Supports, Gather::tracer);
    tell(Shelf::Sealants, Gather::joints);
    tell(Shelf::Sealants, Gather::closures);
    tell(Shelf::Sealants, Gather::leak_fluid);
    for line in lines
        .iter_mut()
        .filter(|line| line.group == Group::Buy && line.size.contains(SIZE_UNKNOWN))
    {
        line.group = Group::Settle;
        line.add("size not known yet");
    }
    for line in &mut lines {
        if line.what == UNION {
            // Kept with the fittings, whether somebody drew it or the tee that is cut in asks for it.
            (line.shelf, line.material) = (Shelf::Fittings, Joining::Threaded.of_fittings());
        }
        if line.what == DRIP_LEG {
            line.shelf = Shelf::Pipe;
        }
        if line.material == Joining::Nut.of_fittings() && line.shelf <= Shelf::Fittings {
            line.shelf = Shelf::Tubing;
        }
    }
    if gather.profile().galvanized == FittingSwitch::Barred {
        let black = [
            Joining::Threaded.material().at_counter(),
            Joining::Threaded.of_fittings(),
        ];
        let bought = lines.iter_mut().filter(|line| line.state == State::New);
        for line in bought.filter(|line| line.group <= Group::Settle && line.shelf <= Shelf::Fittings) {
            if black.contains(&line.material) {
                line.add("black, not galvanized: the profile prohibits galvanized");
            }
        }
    }
    lines.sort_by_key(|line| (line.group, line.shelf));
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
/// What copper tube must be so that it can be flared.
const SOFT: &str = "soft tube: hard tube cracks when it is flared (common practice, no source)";
/// What closes a line of threaded pipe.
const UNION: &str = "union";
/// The nipple below the tee of a sediment trap.
const DRIP_LEG: &str = "drip-leg nipple";

/// Nipples are alike by material, size, length where it is known, and whether both ends are measured.
type NippleKey = (Material, Option<NominalSize>, Option<Length>, bool);

impl Gather<'_> {
    fn profile(&self) -> &Profile {
        let named = self.book.profile(&self.study.profile);
        named.unwrap_or(self.book.default_profile())
    }

    fn section(&self, run: usize) -> Option<&crate::sizing::Section> {
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

    /// A size of pipe or tube of a material.
    fn sized(&self, material: Material, size: Option<NominalSize>) -> String {
        size.map_or(SIZE_UNKNOWN.to_owned(), |size| self.study.names.show(material, size))
    }

    /// How a material is joined to its fittings in this job.
    fn joining(&self, material: Material) -> Joining {
        self.job.settings.copper.joining(material)
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
            let line = |quantity, remark: String| Line {
                size: self.sized(material, size),
                material: material.at_counter(),
                remark,
                group: becomes,
                shelf: Shelf::Pipe,
                ..Line::of(material.comes_as(), state, quantity, places.clone())
            };
            if state != State::New {
                lines.push(line(Quantity::Length(length), "center-to-center".to_owned()));
                continue;
            }
            // What is bought: whole lengths and coils.
            let groups = self.stock.groups.iter();
            let groups = groups.filter(|group| (group.material, Some(group.size)) == (material, size));
            let mut planned = Length::ZERO;
            for group in groups {
                let parts = group.sticks.iter().flat_map(|stick| &stick.parts);
                let used: Length = parts
                    .map(|&(piece, part)| self.cuts.pieces[piece].parts[part].length)
                    .sum();
                planned += used;
                let used = used.show(self.units);
                let bought = Quantity::Stock(group.sticks.len(), group.stick.value);
                let words = match group.form {
                    StockForm::Stick => {
                        let coils = self.book.coils(PipeKind::of(group.material), group.size);
                        let coils: Vec<String> = coils.iter().map(|coil| coil.value.show(self.units)).collect();
                        match (self.joining(group.material), coils.is_empty()) {
                            (Joining::Flared, _) => format!("{used} used; {SOFT}"),
                            (_, true) => format!("{used} used"),
                            (_, false) => format!("{used} used; or soft, in coils of {}", coils.join(", ")),
                        }
                    }
                    StockForm::Coil => format!(
                        "{used} used, as measured; add for ends and bends; or buy only that much where it is sold cut to length"
                    ),
                };
                let mut line = Line {
                    mark: Some(group.stick.mark),
                    ..line(bought, words)
                };
                self.say_outside(&mut line, material, size);
                lines.push(line);
            }
            if planned < length {
                let words = "longer than any coil on the list: ask the manufacturer".to_owned();
                lines.push(Line {
                    group: Group::Settle,
                    ..line(Quantity::Length(length - planned), words)
                });
            }
        }
    }

    /// What a counter may take for another size: copper tube for gas is asked for by its outside diameter in many places, and
    /// plastic pipe is made in two outside diameters of one name (common practice, no source).
    fn say_outside(&self, line: &mut Line, material: Material, size: Option<NominalSize>) {
        let outside = size.and_then(|size| self.book.pipe(material, size)?.outside);
        match outside {
            Some(outside) if material.is_copper() && !self.study.names.copper_by_outside() => {
                let outside = outside.value.show_short(self.units);
                line.add(&format!("nominal size: its outside diameter (OD) is {outside}"));
            }
            _ if material.is_plastic() => {
                line.add("say whether IPS or CTS: its fittings and risers must be of the same")
            }
            _ => {}
        }
    }

    /// Nipples, and what cannot be made.
    fn pieces(&self, lines: &mut Vec<Line>) {
        let mut nipples: BTreeMap<NippleKey, Vec<Place>> = BTreeMap::new();
        let mut wrong: BTreeMap<(Material, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for piece in &self.cuts.pieces {
            let places = piece.runs.iter().map(|&run| self.run_place(run));
            match piece.making {
                Making::Nipple(length) => nipples
                    .entry((
                        piece.material,
                        piece.size,
                        Some(length).filter(|_| !piece.must_be_measured()),
                        piece.is_known(),
                    ))
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
            let length = length.map_or("length not known".to_owned(), |length| length.show_short(self.units));
            let what = if close { "close nipple" } else { "nipple" };
            let mut line = Line {
                size: format!("{} × {length}", self.named(size)),
                material: Joining::Threaded.material().at_counter(),
                mark: Some(Mark::Memory),
                ..Line::each(what, State::New, places)
            };
            line.add("joins two female threads; not needed where one of the parts has a male end");
            lines.push(line);
        }
        for ((material, size, length, known), places) in nipples {
            let (group, remark) = match known {
                true => (Group::Buy, "nearest stock length"),
                false => (Group::Settle, "measure an end first: the cut list says which"),
            };
            lines.push(Line {
                size: match length {
                    Some(length) => format!("{} × {}", self.named(size), length.show_short(self.units)),
                    None => format!("{} × to measure", self.named(size)),
                },
                material: material.at_counter(),
                mark: Some(Mark::Memory),
                remark: remark.to_owned(),
                group,
                ..Line::each("nipple", State::New, places)
            });
        }
        for ((material, size), places) in wrong {
            lines.push(Line {
                size: self.sized(material, size),
                material: material.at_counter(),
                group: Group::Settle,
                remark: "too short, too long or without a size: see the cut list; not counted as pipe".to_owned(),
                ..Line::each("run that cannot be cut", State::New, places)
            });
        }
    }

    /// Nipples for what is put into threaded pipe that stands; how long they are shows when it is open.
    fn put_in(&self, lines: &mut Vec<Line>) {
        let put_in = put_in::all(self.job, self.study);
        let threaded = put_in.into_iter().filter(|put_in| put_in.material.is_threaded());
        let mut all: BTreeMap<Option<NominalSize>, Vec<Place>> = BTreeMap::new();
        for put_in in threaded {
            all.entry(put_in.size).or_default().push(self.joint_place(put_in.joint));
        }
        for (size, places) in all {
            lines.push(Line {
                size: format!("{} × to measure", self.named(size)),
                material: Joining::Threaded.material().at_counter(),
                group: Group::Settle,
                remark: "for what is put into the existing pipe: measure when it is open".to_owned(),
                ..Line::of("nipples", State::New, Quantity::AsNeeded, places)
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
                size: self.sized(material, size),
                material: self.joining(material).of_fittings(),
                remark: "joins two lengths of stock".to_owned(),
                shelf: Shelf::Fittings,
                ..Line::of(FittingKind::Coupling.name(), State::New, Quantity::Count(count), places)
            });
        }
    }
}

/// Pipe that is told in one line.
type Alike = (State, Group, Material, Option<NominalSize>);
