//! Joints to be made up with what seals them, what closes pipe for its test, and what leaks are looked for with.

use super::Gather;
use super::joined::closing_couplings;
use crate::fittings::{Fitting, Owner, Port, PortKind, Takes};
use crate::job::{ClosureKind, Joining, State};
use crate::study::Place;
use crate::units::{NominalSize, UnitSystem};
use crate::work::{Group, Line, Quantity, TestSheet};
use std::collections::BTreeMap;

/// A kind of joint, what a list calls it, and what seals it.
struct Sealed {
    kind: PortKind,
    joint: &'static str,
    how: &'static str,
    /// What is bought for it, and what must be known of that.
    with: Option<(&'static str, &'static str)>,
}

const SEALED: [Sealed; 5] = [
    Sealed {
        kind: PortKind::FemaleThread,
        joint: "threaded joint to be made up",
        how: "compound on the male thread",
        with: Some((
            "thread compound or tape",
            "made for fuel gas; not for tubing nuts, flares or union faces (common practice, no source)",
        )),
    },
    Sealed {
        kind: PortKind::TubingNut,
        joint: "tubing-fitting joint to be made up",
        how: "by the tubing manufacturer's instructions, no compound on the sealing faces",
        with: None,
    },
    Sealed {
        kind: PortKind::Socket,
        joint: "brazed joint to be made",
        how: "brazed, never soft solder",
        with: Some((
            "brazing alloy",
            "melts above {} and has no more than 0.05 % phosphorus (fuel gas codes, from memory)",
        )),
    },
    Sealed {
        kind: PortKind::FlareEnd,
        joint: "flared joint to be made up",
        how: "tube flared at 45°, no compound on the flare faces (common practice, no source)",
        with: None,
    },
    Sealed {
        kind: PortKind::Fusion,
        joint: "fused joint to be made",
        how: "by the pipe manufacturer's procedure, by a person qualified in it",
        with: None,
    },
];

/// Above what a brazing alloy melts, in the units of a job.
const fn brazing_heat(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Us => "1,000 °F",
        UnitSystem::Metric | UnitSystem::MetricKpa => "538 °C",
    }
}

/// What closes an end for the test, its size, and whether it is threaded.
type Closing = (&'static str, Option<NominalSize>, bool);

/// What closes a port.
fn closes(port: &Port) -> Closing {
    match port.kind {
        PortKind::FemaleThread => ("test plug", port.size, true),
        PortKind::MaleThread => ("test cap", port.size, true),
        PortKind::TubingNut
        | PortKind::Tubing
        | PortKind::Socket
        | PortKind::Tube
        | PortKind::FlareEnd
        | PortKind::FlareNut
        | PortKind::Fusion
        | PortKind::Plastic
        | PortKind::Connector => ("test cap", port.size, false),
    }
}

impl Gather<'_> {
    /// Joints by kind: one for each port that takes something new, and two for each coupling inside a run.
    pub(super) fn joints(&self, lines: &mut Vec<Line>) {
        let made = self.study.joints_to_make(self.job);
        for sealed in SEALED {
            let of_kind = made.iter().filter(|(_, port)| port.kind == sealed.kind);
            let mut places: Vec<Place> = of_kind.map(|&(joint, _)| self.joint_place(joint)).collect();
            let mut count = places.len();
            places.dedup();
            for piece in self.cuts.pieces.iter().filter(|piece| piece.couplings() > 0) {
                if PortKind::of_pipe(self.joining(piece.material)).mate() == sealed.kind {
                    count += 2 * piece.couplings();
                    places.extend(piece.runs.iter().map(|&run| self.run_place(run)));
                }
            }
            // What closes a standing line again beside the tee that is cut in.
            for cut_in in &self.cut_ins {
                if PortKind::of_pipe(cut_in.joining).mate() == sealed.kind {
                    count += 2 * closing_couplings(cut_in.joining);
                }
            }
            if count == 0 {
                continue;
            }
            if let Some((what, remark)) = sealed.with {
                lines.push(Line {
                    remark: remark.replace("{}", brazing_heat(self.units)),
                    ..Line::of(what, State::New, Quantity::AsNeeded, places.clone())
                });
            }
            lines.push(Line {
                group: Group::OnSite,
                remark: sealed.how.to_owned(),
                ..Line::of(sealed.joint, State::New, Quantity::Count(count), places)
            });
        }
    }

    /// Caps and plugs that close new pipe while it is tested, by the closures of the test sheet.
    pub(super) fn closures(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<Closing, Vec<Place>> = BTreeMap::new();
        for closure in TestSheet::of(self.job, self.study, self.book).closures {
            let Some(joint) = self.job.joints.position(closure.joint) else {
                continue;
            };
            let ends = match closure.kind {
                ClosureKind::TieIn | ClosureKind::Supply | ClosureKind::OpenEnd => self.ends_of_new_pipe(joint),
                ClosureKind::Appliance | ClosureKind::Regulator | ClosureKind::Meter => self.ends_without_device(joint),
                ClosureKind::Valve | ClosureKind::Cap | ClosureKind::Gauge => Vec::new(),
            };
            for end in ends {
                all.entry(end).or_default().push(Place::Joint(closure.joint));
            }
        }
        for ((what, size, threaded), places) in all {
            lines.push(Line {
                size: self.named(size),
                material: if threaded { Joining::Threaded.of_fittings() } else { "" },
                remark: "for the pressure test, then removed: reuse yours if you have them".to_owned(),
                ..Line::each(what, State::New, places)
            });
        }
    }

    /// The new pipe that ends at a joint, parted from everything else: what closes each end, its size, and whether it is
    /// threaded. The end fitting of tubing, copper or plastic pipe stays on; so does a tee that goes into tubing, which is
    /// tested with the new pipe.
    fn ends_of_new_pipe(&self, joint: usize) -> Vec<Closing> {
        if let Some(tee) = self.tee_into_tubing(joint) {
            let ports = self.study.fittings[tee].ports.iter();
            let others = ports.filter(|port| !self.run_behind(port, tee).is_some_and(|run| self.is_new(run)));
            return others.map(closes).collect();
        }
        let legs = self.study.network.legs(joint);
        let legs = legs.filter(|&run| self.is_new(run) && !self.study.runs[run].is_hose);
        let end = |run: usize| {
            let steel = self.job.material(self.job.runs.at(run)).is_threaded();
            let bare = ("test cap", self.size(run), steel);
            self.end_fitting(run, joint).map_or(bare, closes)
        };
        legs.map(end).collect()
    }

    fn is_new(&self, run: usize) -> bool {
        self.job.runs.at(run).state == State::New
    }

    /// A new fitting, threaded or flared, that goes into tubing with nuts that stands, and into no other pipe.
    fn tee_into_tubing(&self, joint: usize) -> Option<usize> {
        let old = self.study.network.legs(joint).map(|run| self.job.runs.at(run));
        let mut old = old.filter(|run| run.state == State::Existing).peekable();
        old.peek()?;
        let Some(Owner::Fitting(centre)) = self.study.assemblies[joint].centre else {
            return None;
        };
        let fitting = &self.study.fittings[centre];
        let mut ports = fitting.ports.iter();
        let opens = ports.all(|port| matches!(port.kind, PortKind::FemaleThread | PortKind::FlareEnd));
        let tubing = old.all(|run| self.job.joining(run).has_nut());
        (tubing && opens && fitting.ports.len() > 2 && fitting.state == State::New).then_some(centre)
    }

    /// The run to which a port of a fitting leads, over what stands between.
    fn run_behind(&self, port: &Port, fitting: usize) -> Option<usize> {
        let (mut from, mut takes) = (fitting, port.takes);
        for _ in 0..self.study.fittings.len() {
            let at = match takes {
                Takes::Run(run) => return Some(run),
                Takes::Fitting(at) => at,
                Takes::Device | Takes::Nothing => return None,
            };
            let onward = self.study.fittings[at].ports.iter();
            takes = onward
                .map(|port| port.takes)
                .find(|&takes| takes != Takes::Fitting(from))?;
            from = at;
        }
        None
    }

    /// The thread of the fitting that is put on the end of tubing, copper or plastic pipe.
    fn end_fitting(&self, run: usize, joint: usize) -> Option<&Port> {
        let here = &self.study.fittings[self.study.assemblies[joint].fittings.clone()];
        let on_it = |fitting: &&Fitting| {
            fitting.kind.is_end_of_pipe() && fitting.ports.iter().any(|port| port.takes == Takes::Run(run))
        };
        let threads = [PortKind::MaleThread, PortKind::FemaleThread];
        let mut ports = here.iter().find(on_it)?.ports.iter();
        ports.find(|port| threads.contains(&port.kind))
    }

    /// What stays open at a joint of new pipe when its device is off.
    fn ends_without_device(&self, joint: usize) -> Vec<Closing> {
        let here = &self.study.assemblies[joint];
        let stands = self.study.fittings[here.fittings.clone()].iter();
        let stands = stands.filter(|fitting| fitting.state != State::Removed);
        let ports = stands.flat_map(|fitting| &fitting.ports);
        let mut open: Vec<Closing> = ports.filter(|port| port.takes == Takes::Device).map(closes).collect();
        for port in &here.device {
            if let Takes::Run(run) = port.takes
                && self.is_new(run)
                && !self.study.runs[run].is_hose
            {
                let threaded = self.job.material(self.job.runs.at(run)).is_threaded();
                open.push(("test cap", self.size(run), threaded));
            }
        }
        open
    }

    /// What leaks are looked for with, at the joints of new work.
    pub(super) fn leak_fluid(&self, lines: &mut Vec<Line>) {
        let made = self.study.joints_to_make(self.job);
        let mut places: Vec<Place> = made.iter().map(|&(joint, _)| self.joint_place(joint)).collect();
        places.dedup();
        let coupled = self.cuts.pieces.iter().filter(|piece| piece.couplings() > 0);
        places.extend(coupled.flat_map(|piece| &piece.runs).map(|&run| self.run_place(run)));
        if !places.is_empty() {
            lines.push(Line {
                remark: "non-corrosive (fuel gas codes, from memory)".to_owned(),
                ..Line::of("leak-detection fluid", State::New, Quantity::AsNeeded, places)
            });
        }
    }
}
