//! Joints to be made up with what seals them, what closes pipe for its test, and what leaks are looked for with.

use super::Gather;
use crate::codebook::PipeKind;
use crate::fittings::{FittingKind, PortKind, Takes};
use crate::job::{Material, State};
use crate::study::Place;
use crate::units::NominalSize;
use crate::work::take_off::words;
use crate::work::{ClosureKind, TestSheet};
use crate::work::{Group, Line, Quantity};
use std::collections::BTreeMap;

/// A kind of joint, what a list calls it, and what seals it.
struct Sealed {
    kind: PortKind,
    joint: &'static str,
    how: &'static str,
    /// What is bought for it, and what must be known of that.
    with: Option<(&'static str, &'static str)>,
}

const SEALED: [Sealed; 4] = [
    Sealed {
        kind: PortKind::FemaleThread,
        joint: "threaded joint to be made up",
        how: "compound on the male thread",
        with: Some((
            "thread compound or tape",
            "made for fuel gas; not on tubing nuts, flares or the faces of unions (common practice, no source)",
        )),
    },
    Sealed {
        kind: PortKind::TubingNut,
        joint: "tubing-fitting joint to be made up",
        how: "by the tubing maker's instructions, nothing on its faces",
        with: None,
    },
    Sealed {
        kind: PortKind::Socket,
        joint: "brazed joint to be made",
        how: "brazed, never soft solder",
        with: Some((
            "brazing alloy",
            "melts above 1,000 °F and has no more than 0.05 % phosphorus (fuel gas codes, from memory)",
        )),
    },
    Sealed {
        kind: PortKind::Fusion,
        joint: "fused joint to be made",
        how: "by the pipe maker's procedure, by somebody qualified for it",
        with: None,
    },
];

impl Gather<'_> {
    /// Joints by kind: one for each port that takes something new, and two for each coupling inside a run.
    pub(super) fn joints(&self, lines: &mut Vec<Line>) {
        let made = self.study.joints_to_make(self.job);
        for sealed in SEALED {
            let of_kind = made.iter().filter(|(_, kind)| *kind == sealed.kind);
            let mut places: Vec<Place> = of_kind.map(|&(joint, _)| self.joint_place(joint)).collect();
            let mut count = places.len();
            places.dedup();
            for piece in self.cuts.pieces.iter().filter(|piece| piece.couplings() > 0) {
                if PortKind::of_pipe(PipeKind::of(piece.material)).mate() == sealed.kind {
                    count += 2 * piece.couplings();
                    places.extend(piece.runs.iter().map(|&run| self.run_place(run)));
                }
            }
            if sealed.kind == PortKind::FemaleThread {
                // The union that closes a standing line again beside the tee that is cut in.
                count += 2 * self.cut_ins.len();
            }
            if count == 0 {
                continue;
            }
            if let Some((what, remark)) = sealed.with {
                lines.push(Line {
                    remark: remark.to_owned(),
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
        type Closing = (&'static str, Option<NominalSize>, bool);
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
                material: if threaded {
                    words::of_fittings(Material::Steel40)
                } else {
                    ""
                },
                remark: "for the pressure test, taken off after it: none to buy where they are on the truck".to_owned(),
                ..Line::each(what, State::New, places)
            });
        }
    }

    /// The new pipe that ends at a joint, parted from everything else: what closes each end, its size, and whether it is
    /// threaded. Tubing keeps its end fitting on.
    fn ends_of_new_pipe(&self, joint: usize) -> Vec<(&'static str, Option<NominalSize>, bool)> {
        let new = |&run: &usize| self.job.runs.at(run).state == State::New && !self.study.runs[run].is_hose;
        let legs = self.study.network.legs(joint).filter(new);
        let end = |run: usize| match PipeKind::of(self.job.material(self.job.runs.at(run))) {
            PipeKind::Steel => ("test cap", self.size(run), true),
            PipeKind::Csst => ("test cap", self.thread_of_end_fitting(run, joint), true),
            PipeKind::Copper | PipeKind::Pe => ("test cap", self.size(run), false),
        };
        legs.map(end).collect()
    }

    /// The thread of the fitting that is put on the end of tubing.
    fn thread_of_end_fitting(&self, run: usize, joint: usize) -> Option<NominalSize> {
        let here = &self.study.fittings[self.study.assemblies[joint].fittings.clone()];
        let fitting = here.iter().find(|fitting| {
            fitting.kind == FittingKind::TubingFitting && fitting.ports.iter().any(|port| port.takes == Takes::Run(run))
        })?;
        let threads = [PortKind::MaleThread, PortKind::FemaleThread];
        fitting.ports.iter().find(|port| threads.contains(&port.kind))?.size
    }

    /// What stays open at a joint of new pipe when its device is off.
    fn ends_without_device(&self, joint: usize) -> Vec<(&'static str, Option<NominalSize>, bool)> {
        let here = &self.study.assemblies[joint];
        let mut open = Vec::new();
        for fitting in &self.study.fittings[here.fittings.clone()] {
            if fitting.state == State::Removed {
                continue;
            }
            for port in fitting.ports.iter().filter(|port| port.takes == Takes::Device) {
                open.push(match port.kind {
                    PortKind::FemaleThread => ("test plug", port.size, true),
                    PortKind::MaleThread => ("test cap", port.size, true),
                    _ => ("test cap", port.size, false),
                });
            }
        }
        for port in &here.device {
            if let Takes::Run(run) = port.takes
                && self.job.runs.at(run).state == State::New
                && !self.study.runs[run].is_hose
            {
                let threaded = self.job.material(self.job.runs.at(run)) == Material::Steel40;
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
        if !places.is_empty() {
            lines.push(Line {
                remark: "not corrosive (fuel gas codes, from memory)".to_owned(),
                ..Line::of("leak-detection fluid", State::New, Quantity::AsNeeded, places)
            });
        }
    }
}
