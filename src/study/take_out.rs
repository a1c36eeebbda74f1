//! What stands at an end of a pipe, and how much of the length between centres it takes.
//!
//! Take-out is centre to face less the make-up of the thread, by the codebook. What nobody published, or only a maker
//! knows, takes out nothing and says so: the piece must then be measured.

use super::meeting::{self, Meeting, Way};
use super::survey::Survey;
use super::{Fitting, FittingKind, Origin, Study};
use crate::codebook::{Marked, PipeKind, Threaded};
use crate::job::{Device, Turn};
use crate::units::{Length, NominalSize};
use std::ops::Range;

/// An end of a piece of pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct End {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// What stands there: "90° elbow", "shutoff valve", "open end".
    pub what: String,
    /// What it takes from the length between centres.
    pub taken: Taken,
}

/// What an end takes from the length between centres.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// Nothing: the length is measured to the end of the pipe.
    Nothing,
    /// Centre to face, less how far the pipe enters.
    Figures {
        /// From the centre to the face.
        centre_to_face: Marked<Length>,
        /// How far the pipe enters.
        make_up: Marked<Length>,
    },
    /// A street elbow's male end, so far from its centre, screwed straight into what stands upstream.
    Male(Option<Marked<Length>>),
    /// Nobody published it: counted as nothing, and the reason.
    Unknown(&'static str),
}

impl End {
    /// The take-out; nothing where it is not known.
    pub fn take_out(&self) -> Length {
        match self.taken {
            Taken::Figures {
                centre_to_face,
                make_up,
            } => take_out(centre_to_face.value, make_up.value),
            Taken::Male(Some(length)) => length.value,
            Taken::Nothing | Taken::Male(None) | Taken::Unknown(_) => Length::ZERO,
        }
    }

    /// Whether the take-out is known.
    pub fn is_known(&self) -> bool {
        !matches!(self.taken, Taken::Unknown(_) | Taken::Male(None))
    }
}

/// Take-out: centre to face less make-up.
pub fn take_out(centre_to_face: Length, make_up: Length) -> Length {
    centre_to_face - make_up
}

/// What is asked again and again while a cut list is made.
pub(super) struct Ends<'s> {
    pub(super) survey: &'s Survey<'s>,
    study: &'s Study,
    meetings: Vec<Meeting>,
    /// For each joint its fittings, a range of `study.fittings`.
    fittings: Vec<Range<usize>>,
}

const MAKERS: &str = "its length is its maker's: measure it";
const COPPER: &str = "no published figure of copper fittings is at hand: measure the socket";
const TUBING: &str = "fittings of tubing are their makers': measure them";
const NO_FIGURE: &str = "no published length of this fitting is at hand: measure it";
const BESIDE: &str = "a fitting stands beside the device: measure both";
const TRANSITION: &str = "a transition to another kind of pipe: measure it";

impl<'s> Ends<'s> {
    pub(super) fn of(survey: &'s Survey<'s>, study: &'s Study) -> Ends<'s> {
        let joints = survey.job.joints.len();
        let mut fittings = vec![0..0; joints];
        for (at, fitting) in study.fittings.iter().enumerate() {
            let range = &mut fittings[fitting.joint];
            *range = if range.start == range.end {
                at..at + 1
            } else {
                range.start..at + 1
            };
        }
        let meetings = (0..joints).map(|joint| meeting::at(survey, joint)).collect();
        Ends {
            survey,
            study,
            meetings,
            fittings,
        }
    }

    /// The size on the drawing.
    pub(super) fn size(&self, run: usize) -> Option<NominalSize> {
        match self.survey.section_of[run] {
            Some(section) => self.study.sections[section].sizing.size,
            None => self.survey.given[run],
        }
    }

    /// Whether a run is part of a flexible connector, no pipe.
    pub(super) fn is_connector(&self, run: usize) -> bool {
        let section = self.survey.section_of[run].map(|section| &self.study.sections[section]);
        section.is_some_and(|section| section.sizing.origin == Origin::Connector)
    }

    fn fittings(&self, joint: usize) -> &[Fitting] {
        &self.study.fittings[self.fittings[joint].clone()]
    }

    fn has(&self, joint: usize, kind: FittingKind) -> bool {
        self.fittings(joint).iter().any(|fitting| fitting.kind == kind)
    }

    /// Whether two runs go through a joint as one piece: nothing stands there but perhaps a bend of the tubing.
    pub(super) fn goes_through(&self, joint: usize, a: usize, b: usize) -> bool {
        let survey = self.survey;
        let two = matches!(&self.meetings[joint], Meeting::Line(runs) | Meeting::Turn(runs, _)
            if runs.contains(&(a as u32)) && runs.contains(&(b as u32)));
        let fittings = self.fittings(joint);
        two && survey.devices[joint].is_none()
            && survey.materials[a] == survey.materials[b]
            && self.size(a) == self.size(b)
            && fittings.iter().all(|fitting| fitting.kind == FittingKind::Bend)
    }

    /// What stands at the end of a run at a joint.
    pub(super) fn at(&self, run: usize, joint: usize) -> End {
        let (what, taken) = self.look(run, joint);
        // Only lengths of threaded steel are at hand.
        let taken = match (PipeKind::of(self.survey.materials[run]), taken) {
            (PipeKind::Steel, taken) | (_, taken @ Taken::Nothing) => taken,
            (_, Taken::Unknown(reason)) if reason != NO_FIGURE => Taken::Unknown(reason),
            (PipeKind::Copper, _) => Taken::Unknown(COPPER),
            (PipeKind::Csst | PipeKind::Pe, _) => Taken::Unknown(TUBING),
        };
        End { joint, what, taken }
    }

    fn look(&self, run: usize, joint: usize) -> (String, Taken) {
        let device = self.survey.devices[joint];
        let feed = self.survey.network.feed[joint];
        let kind = |run: usize| PipeKind::of(self.survey.materials[run]);
        if self.has(joint, FittingKind::Transition) && self.takes_transition(run, joint) {
            return ("transition".to_owned(), Taken::Unknown(TRANSITION));
        }
        match &self.meetings[joint] {
            Meeting::End => match device {
                None => ("open end".to_owned(), Taken::Nothing),
                Some(device) if stands_in_line(device) => self.device(device, run, joint),
                Some(device) => (device.name().to_owned(), Taken::Nothing),
            },
            Meeting::Line(runs) => {
                if let Some(device) = device {
                    return self.device(device, run, joint);
                }
                let other = other_of(*runs, run);
                if self.has(joint, FittingKind::ReducingCoupling) {
                    let name = FittingKind::ReducingCoupling.name();
                    return (name, self.figures(Threaded::ReducingCoupling, run, self.size(other)));
                }
                let name = FittingKind::Coupling.name();
                (name, self.figures(Threaded::Coupling, run, self.size(other)))
            }
            Meeting::Turn(runs, degrees) => {
                let fitting = self.fittings(joint).first();
                let turn = fitting.map_or(FittingKind::of_turn(*degrees, Turn::Elbow), |fitting| fitting.kind);
                if let Some(device) = device {
                    return (
                        format!("{} with {}", turn.name(), device.name()),
                        Taken::Unknown(BESIDE),
                    );
                }
                let other = other_of(*runs, run);
                // The step to another size is made beside an elbow that joins another kind of pipe.
                let beyond = self.size(if kind(other) == kind(run) { other } else { run });
                let taken = match turn {
                    FittingKind::Elbow90 => self.figures(Threaded::Square, run, beyond),
                    FittingKind::Elbow45 => self.figures(Threaded::Elbow45, run, beyond),
                    FittingKind::StreetElbow90 if feed == Some(run) => Taken::Male(self.male(run)),
                    FittingKind::StreetElbow90 => self.figures(Threaded::Square, run, self.size(run)),
                    _ => Taken::Unknown(NO_FIGURE),
                };
                (turn.name(), taken)
            }
            Meeting::Tee(ways) => (FittingKind::Tee.name(), self.branch(run, joint, ways)),
            Meeting::Corner(_) => (FittingKind::SideOutletElbow.name(), Taken::Unknown(NO_FIGURE)),
            Meeting::Cross(ways) => (FittingKind::Cross.name(), self.branch(run, joint, ways)),
            Meeting::SideTee(_) => (FittingKind::SideOutletTee.name(), Taken::Unknown(NO_FIGURE)),
            Meeting::Many(ways) => {
                let ways = u16::try_from(ways.len()).unwrap_or(u16::MAX);
                (FittingKind::ManyWays(ways).name(), Taken::Unknown(NO_FIGURE))
            }
        }
    }

    /// Whether the end of a run at a joint of several kinds of pipe is the one that a transition is put on. What threads
    /// into a fitting or device is steel; between other kinds the pipe that is fed takes it.
    fn takes_transition(&self, run: usize, joint: usize) -> bool {
        let kind = |run: usize| PipeKind::of(self.survey.materials[run]);
        let has_steel = self.survey.network.legs(joint).any(|leg| kind(leg) == PipeKind::Steel);
        let is_bare_line = matches!(self.meetings[joint], Meeting::Line(_)) && self.survey.devices[joint].is_none();
        match kind(run) {
            PipeKind::Steel => is_bare_line,
            _ if has_steel => true,
            own => self.survey.network.feed[joint].is_some_and(|feed| kind(feed) != own),
        }
    }

    fn device(&self, device: &Device, run: usize, joint: usize) -> (String, Taken) {
        let name = device.name().to_owned();
        if !self.fittings(joint).is_empty() {
            return (name, Taken::Unknown(BESIDE));
        }
        match device {
            Device::Union => (name, self.figures(Threaded::Union, run, self.size(run))),
            _ => (name, Taken::Unknown(MAKERS)),
        }
    }

    /// An end of a tee or cross goes by its own size and that of the ways that it meets at a right angle.
    fn branch(&self, run: usize, joint: usize, ways: &[Way]) -> Taken {
        let first = self.survey.network.feed[joint].unwrap_or(run);
        let placed = self.survey.job.joints.at(joint).placed.as_ref();
        let beside = placed.and_then(|placed| placed.size).or(self.size(first));
        let size = |way: &Way| way.to_run().map_or(beside, |run| self.size(run));
        let (straight, outlets) = ways.split_at(2.min(ways.len()));
        let met = if straight.contains(&Way::run(run)) {
            outlets
        } else {
            straight
        };
        let sizes: Option<Vec<NominalSize>> = met.iter().map(size).collect();
        self.figures(Threaded::Square, run, sizes.and_then(|sizes| sizes.into_iter().max()))
    }

    fn male(&self, run: usize) -> Option<Marked<Length>> {
        let own = self.size(run)?;
        self.survey.book.centre_to_end(Threaded::StreetMale, own, own)
    }

    /// Centre to face and make-up of a fitting, by the size of this end and of the one that it turns to.
    pub(super) fn figures(&self, fitting: Threaded, run: usize, other: Option<NominalSize>) -> Taken {
        let book = self.survey.book;
        let figures = self.size(run).zip(other).and_then(|(own, other)| {
            let face = book.centre_to_end(fitting, own, other)?;
            Some((face, book.make_up(&self.survey.profile.thread_make_up, own)?))
        });
        match figures {
            Some((centre_to_face, make_up)) => Taken::Figures {
                centre_to_face,
                make_up,
            },
            None => Taken::Unknown(NO_FIGURE),
        }
    }
}

fn other_of(runs: [u32; 2], run: usize) -> usize {
    let [a, b] = runs.map(|run| run as usize);
    if a == run { b } else { a }
}

/// Whether a device has pipe screwed into it, in a line or at its end.
fn stands_in_line(device: &Device) -> bool {
    match device {
        Device::Meter(_)
        | Device::Regulator(_)
        | Device::Valve(_)
        | Device::Union
        | Device::Connector(_)
        | Device::QuickCoupling(_) => true,
        Device::Supply(_) | Device::SedimentTrap(_) | Device::Appliance(_) | Device::Cap(_) | Device::TestGauge => {
            false
        }
    }
}
