//! The fittings that meeting runs imply, with their sizes.

use super::meeting::{Meeting, Way};
use super::section::Course;
use super::survey::Survey;
use super::{Fitting, FittingKind};
use crate::codebook::PipeKind;
use crate::job::{Device, Joint, Material, State};
use crate::units::NominalSize;

/// Implied fittings, and the first of them at each joint.
pub(super) struct Implied {
    pub(super) fittings: Vec<Fitting>,
    pub(super) at_joint: Vec<Option<usize>>,
}

/// Finds the fittings of all joints, also where no gas comes: what is drawn must be made.
///
/// Devices in a line (valve, union, meter, regulator, connector, coupling) take the place of a fitting unless the pipe
/// turns at them: no device turns, so an elbow is implied beside it. A device with ends of its own size gets a reducing
/// coupling toward each pipe of another size.
pub(super) fn all(survey: &Survey, meetings: &[Meeting], sizes: &[Option<NominalSize>]) -> Implied {
    let mut implied = Implied {
        fittings: Vec::new(),
        at_joint: vec![None; meetings.len()],
    };
    for (joint, meeting) in meetings.iter().enumerate() {
        let first = implied.fittings.len();
        Place::new(survey, sizes, joint).imply(meeting, &mut implied.fittings);
        implied.at_joint[joint] = (implied.fittings.len() > first).then_some(first);
    }
    implied
}

/// How many fittings of new work there are; a bend of tubing is none.
pub(super) fn count_new(survey: &Survey, meetings: &[Meeting], sizes: &[Option<NominalSize>]) -> usize {
    let mut here = Vec::new();
    let mut count = 0;
    for (joint, meeting) in meetings.iter().enumerate() {
        let place = Place::new(survey, sizes, joint);
        let mut legs = survey.network.legs(joint);
        // Where nothing is new no fitting is.
        if place.placed_new() || legs.any(|run| survey.states[run] == State::New) {
            place.imply(meeting, &mut here);
            count += here.drain(..).filter(Fitting::is_new_work).count();
        }
    }
    count
}

/// A joint, with what its fittings have in common.
struct Place<'s> {
    survey: &'s Survey<'s>,
    /// For each section its size on the drawing.
    sizes: &'s [Option<NominalSize>],
    index: usize,
    joint: &'s Joint,
    device: Option<&'s Device>,
    /// Size of the device's ends, when it is its own.
    own: Option<NominalSize>,
}

impl<'s> Place<'s> {
    fn new(survey: &'s Survey<'s>, sizes: &'s [Option<NominalSize>], index: usize) -> Place<'s> {
        let joint = survey.job.joints.at(index);
        let device = survey.devices[index];
        let own = joint
            .placed
            .as_ref()
            .filter(|_| device.is_some())
            .and_then(|placed| placed.size);
        Place {
            survey,
            sizes,
            index,
            joint,
            device,
            own,
        }
    }

    fn imply(&self, meeting: &Meeting, fittings: &mut Vec<Fitting>) {
        if self.survey.network.legs(self.index).any(|run| self.is_connector(run)) {
            // The connector is one piece from its first end to the appliance: only pipe has fittings here.
            if let Some(run) = self.only_run().filter(|&run| !self.is_connector(run)) {
                self.reduce_to_device(&[run], fittings);
            }
            return;
        }
        match meeting {
            Meeting::End => {
                if let (Some(run), Some(Device::Cap(_))) = (self.only_run(), self.device) {
                    let size = self.own.or(self.size(run));
                    fittings.push(self.fitting(FittingKind::Cap, [size], run, [run]));
                }
                if let Some(run) = self.only_run() {
                    self.reduce_to_device(&[run], fittings);
                }
            }
            Meeting::Line(runs) => self.line(runs.map(|run| run as usize), fittings),
            Meeting::Turn(runs, degrees) => self.turn(runs.map(|run| run as usize), *degrees, fittings),
            Meeting::Tee(ways) => self.ways(FittingKind::Tee, ways, fittings),
            Meeting::Corner(ways) => self.ways(FittingKind::SideOutletElbow, ways, fittings),
            Meeting::Cross(ways) => self.ways(FittingKind::Cross, ways, fittings),
            Meeting::SideTee(ways) => self.ways(FittingKind::SideOutletTee, ways, fittings),
            Meeting::Many(ways) => self.ways(FittingKind::ManyWays(ways.len() as u16), ways, fittings),
        }
    }

    fn line(&self, [a, b]: [usize; 2], fittings: &mut Vec<Fitting>) {
        let before = fittings.len();
        self.transitions(&[a, b], fittings);
        self.reduce_to_device(&[a, b], fittings);
        if fittings.len() > before {
            return;
        }
        let sizes = [self.size(a), self.size(b)];
        let tubing = matches!(self.material(a), Material::Csst | Material::Pe);
        if let [Some(from), Some(to)] = sizes
            && from != to
        {
            fittings.push(self.fitting(FittingKind::ReducingCoupling, sizes, a, [a, b]));
        } else if self.device.is_none() && !tubing && !self.was_joined_by_its_device([a, b]) {
            fittings.push(self.fitting(FittingKind::Coupling, sizes, a, [a, b]));
        }
    }

    /// Whether pipe that goes was joined by a device that goes with it.
    fn was_joined_by_its_device(&self, runs: [usize; 2]) -> bool {
        let gone = runs.iter().all(|&run| self.survey.states[run] == State::Removed);
        gone && self.joint.placed.is_some()
    }

    fn turn(&self, [a, b]: [usize; 2], degrees: f64, fittings: &mut Vec<Fitting>) {
        let bends = [a, b].into_iter().find(|&run| self.material(run).bends());
        let kind = FittingKind::of_turn(degrees, self.joint.turn);
        let sizes = [self.size(a), self.size(b)];
        let before = fittings.len();
        match bends {
            Some(tubing) => {
                fittings.push(self.fitting(FittingKind::Bend, [self.size(tubing)], tubing, [a, b]));
            }
            // An elbow joins one kind of pipe; the step to the other kind, and of size with it, is made beside it.
            None if self.kind(a) != self.kind(b) => {
                fittings.push(self.fitting(kind, [sizes[0], sizes[0]], a, [a, b]));
            }
            None => fittings.push(self.fitting(kind, sizes, a, [a, b])),
        }
        self.transitions(&[a, b], fittings);
        self.reduce_to_device(&[a, b], fittings);
        // Tubing of two sizes does not bend from one to the other.
        if let ([Some(from), Some(to)], true, 1) = (sizes, bends.is_some(), fittings.len() - before)
            && from != to
        {
            fittings.push(self.fitting(FittingKind::ReducingCoupling, sizes, a, [a, b]));
        }
    }

    fn ways(&self, kind: FittingKind, ways: &[Way], fittings: &mut Vec<Fitting>) {
        let runs: Vec<usize> = ways.iter().filter_map(|way| way.to_run()).collect();
        let Some(&first) = runs
            .iter()
            .find(|&&run| Some(run) == self.survey.network.feed[self.index])
            .or(runs.first())
        else {
            return;
        };
        // The device's own way is as large as the device, or else as the pipe that comes to it.
        let beside = self.own.or(self.size(first));
        let mut sizes: Vec<Option<NominalSize>> = ways
            .iter()
            .map(|way| way.to_run().map_or(beside, |run| self.size(run)))
            .collect();
        let (run, outlets) = sizes.split_at_mut(2.min(ways.len()));
        run.sort_by(|a, b| b.cmp(a));
        outlets.sort_by(|a, b| b.cmp(a));
        fittings.push(self.fitting(kind, sizes, first, runs.iter().copied()));
        match self.device {
            Some(Device::SedimentTrap(_)) => {
                fittings.push(self.fitting(FittingKind::TrapNipple, [beside], first, [first]));
            }
            Some(Device::Cap(_)) => fittings.push(self.fitting(FittingKind::Cap, [beside], first, [first])),
            _ => {}
        }
        let mut others: Vec<usize> = vec![first];
        others.extend(runs.iter().copied().filter(|&run| run != first));
        self.transitions(&others, fittings);
    }

    /// One transition for each run that is of another kind than the first.
    fn transitions(&self, runs: &[usize], fittings: &mut Vec<Fitting>) {
        let Some((&first, others)) = runs.split_first() else {
            return;
        };
        for &run in others.iter().filter(|&&run| self.kind(run) != self.kind(first)) {
            let sizes = [self.size(first), self.size(run)];
            fittings.push(self.fitting(FittingKind::Transition, sizes, first, [first, run]));
        }
    }

    /// A reducing coupling between a device with ends of its own size and each pipe of another; inlet first.
    fn reduce_to_device(&self, runs: &[usize], fittings: &mut Vec<Fitting>) {
        let own = match self.device {
            None | Some(Device::Cap(_) | Device::SedimentTrap(_) | Device::TestGauge | Device::Supply(_)) => None,
            Some(_) => self.own,
        };
        let Some(own) = own else { return };
        for &run in runs {
            let Some(size) = self.size(run) else { continue };
            // Corrugated tubing ends in a fitting of its own, of an inch size that is not known here.
            let inches = matches!((own, size), (NominalSize::Inch(_), NominalSize::Inch(_)));
            if inches && own != size {
                let upstream = self.survey.network.ends[run].is_none_or(|(_, to)| to == self.index);
                let sizes = if upstream { [size, own] } else { [own, size] };
                fittings.push(self.fitting(FittingKind::ReducingCoupling, sizes.map(Some), run, [run]));
            }
        }
    }

    fn fitting(
        &self,
        kind: FittingKind,
        sizes: impl IntoIterator<Item = Option<NominalSize>>,
        first: usize,
        joins: impl IntoIterator<Item = usize>,
    ) -> Fitting {
        let sizes: Option<Vec<NominalSize>> = sizes.into_iter().collect();
        let mut states = joins.into_iter().map(|run| self.survey.states[run]);
        let mut state = states.next().unwrap_or_default();
        if states.any(|other| other == State::New) || self.placed_new() {
            state = State::New;
        }
        let feed = self.survey.network.feed[self.index];
        let section = feed.or(Some(first)).and_then(|run| self.survey.section_of[run]);
        Fitting {
            joint: self.index,
            kind,
            sizes: sizes.unwrap_or_default(),
            material: self.material(first),
            state,
            section,
        }
    }

    /// Whether a new device stands here.
    fn placed_new(&self) -> bool {
        self.joint
            .placed
            .as_ref()
            .is_some_and(|placed| placed.state == State::New)
    }

    /// The run at the end of which this joint stands.
    fn only_run(&self) -> Option<usize> {
        let network = &self.survey.network;
        let standing = |run: &usize| self.survey.states[*run] != State::Removed;
        network
            .legs(self.index)
            .find(|run| standing(run) && !self.is_connector(*run))
            .or_else(|| network.legs(self.index).find(standing))
            .or_else(|| network.legs(self.index).next())
    }

    /// Whether a run is part of a flexible connector.
    fn is_connector(&self, run: usize) -> bool {
        let section = self.survey.section_of[run].map(|section| &self.survey.stretches[section]);
        section.is_some_and(|section| section.course == Course::Connector)
    }

    fn material(&self, run: usize) -> Material {
        self.survey.materials[run]
    }

    /// Copper K and L are one tube outside: they go into the same fittings.
    fn kind(&self, run: usize) -> PipeKind {
        PipeKind::of(self.material(run))
    }

    /// The size on the drawing.
    fn size(&self, run: usize) -> Option<NominalSize> {
        match self.survey.section_of[run] {
            Some(section) => self.sizes[section],
            None => self.survey.given[run],
        }
    }
}
