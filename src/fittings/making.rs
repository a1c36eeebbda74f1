//! What stands at every joint: its fittings and its device with their ports, and what is joined to each port.
//!
//! The one account of fittings. Counts, take-off, cut list, numbers of joints, labels and legend read it, so that no two
//! of them can differ. It follows from how runs meet ([`crate::network::meeting`]), their materials, sizes and states, and from the
//! device; equivalent lengths go by the meeting alone.

mod bodies;
mod chain;
mod draft;
mod place;
mod street;

use super::{Assembly, Fitting, FittingKind, Owner, Port, Takes};
use crate::job::{Direction, State};
use crate::network::{Meeting, Survey, meeting};
use crate::units::NominalSize;
use draft::Draft;
use place::{Place, View};

/// All joints.
pub(crate) struct Assemblies {
    pub(crate) fittings: Vec<Fitting>,
    /// In the order of `job.joints`.
    pub(crate) joints: Vec<Assembly>,
}

/// Finds what stands at all joints, also where no gas comes: what is drawn must be made.
pub(crate) fn all(survey: &Survey, meetings: &[Meeting], sizes: &[Option<NominalSize>]) -> Assemblies {
    let mut all = Assemblies {
        fittings: Vec::new(),
        joints: Vec::with_capacity(meetings.len()),
    };
    for (joint, meeting) in meetings.iter().enumerate() {
        let made = made(survey, meeting, sizes, joint);
        all.push(made);
    }
    street::turn(survey, &mut all);
    all
}

/// How many fittings of new work there are at a joint; neither a bend of the tubing nor a nipple is one.
pub(crate) fn count_new(survey: &Survey, meetings: &[Meeting], sizes: &[Option<NominalSize>], joint: usize) -> usize {
    // Where nothing changes no fitting is new.
    let placed = survey.job.joints.at(joint).placed.as_ref();
    let mut legs = survey.network.legs(joint);
    let changes = legs.any(|run| survey.states[run] != State::Existing)
        || placed.is_some_and(|placed| placed.state != State::Existing);
    if !changes {
        return 0;
    }
    let made = made(survey, &meetings[joint], sizes, joint);
    made.parts.iter().filter(|fitting| fitting.is_new_work()).count()
}

impl Assemblies {
    /// The fitting by which a joint is known: the first that stands, or where all is taken out the first that stood.
    pub(crate) fn first(&self, survey: &Survey, joint: usize) -> Option<usize> {
        let first = self.joints[joint].fittings.clone().next()?;
        let gone = |run: usize| survey.states[run] == State::Removed;
        let stands = self.fittings[first].state != State::Removed;
        (stands || survey.network.legs(joint).all(gone)).then_some(first)
    }

    /// Puts what stands at the next joint behind the others.
    fn push(&mut self, made: Draft) {
        let first = self.fittings.len();
        self.fittings.extend(made.parts);
        for fitting in &mut self.fittings[first..] {
            fitting.ports.iter_mut().for_each(|port| shift(port, first));
        }
        let mut device = made.device;
        device.iter_mut().for_each(|port| shift(port, first));
        let centre = made.centre.map(|centre| match centre {
            Owner::Fitting(at) => Owner::Fitting(at + first),
            Owner::Device => Owner::Device,
        });
        self.joints.push(Assembly {
            fittings: first..self.fittings.len(),
            device,
            centre,
            through: made.through,
            direct: None,
        });
    }
}

/// A port of a joint's own list in the list of all.
fn shift(port: &mut Port, by: usize) {
    if let Takes::Fitting(at) = &mut port.takes {
        *at += by;
    }
}

/// What stands at a joint and what is taken out there, each with its state.
fn made(survey: &Survey, meeting: &Meeting, sizes: &[Option<NominalSize>], joint: usize) -> Draft {
    let after = Place::new(survey, sizes, joint, View::After);
    let before = Place::new(survey, sizes, joint, View::Before);
    let state = |run: usize| survey.states[run];
    let mut legs = survey.network.legs(joint);
    let (any_new, any_gone) = (
        legs.clone().any(|run| state(run) == State::New),
        legs.clone().any(|run| state(run) == State::Removed),
    );
    let device_changes = survey.job.joints.at(joint).placed.as_ref();
    let device_changes = device_changes.is_some_and(|placed| placed.state != State::Existing);
    if !any_new && !any_gone && !device_changes {
        return after.built(meeting).in_state(State::Existing);
    }
    let old_legs: Vec<usize> = before.legs().collect();
    if old_legs.is_empty() {
        return after.built(meeting).in_state(State::New);
    }
    let old_meeting = meeting::before(survey, joint, old_legs.iter().copied(), before.device);
    let old = before.built(&old_meeting);
    if !legs.any(|run| state(run) != State::Removed) {
        // A device that stays is left open.
        let device = after.built(&Meeting::End).device;
        return Draft {
            device,
            ..old.in_state(State::Removed)
        };
    }
    let stays = !any_new && !device_changes && Place::is_branching(&old_meeting);
    // A tee from which a branch is taken stays in its line; its outlet is plugged.
    let now = if stays {
        after.built(&old_meeting)
    } else {
        after.built(meeting)
    };
    compared(survey, joint, now, old)
}

/// Puts what stands after the work beside what stood before: what is alike stays, the rest is new or goes.
fn compared(survey: &Survey, joint: usize, mut now: Draft, mut old: Draft) -> Draft {
    let ways = |leads: &[usize]| {
        let mut ways: Vec<[i32; 3]> = leads.iter().map(|&run| way(survey, joint, run)).collect();
        ways.sort_unstable();
        ways
    };
    let mut stayed = vec![false; old.parts.len()];
    let old_ways: Vec<Vec<[i32; 3]>> = old.leads.iter().map(|leads| ways(leads)).collect();
    // What is plugged may take a branch instead.
    let is_plug = |takes: Takes| matches!(takes, Takes::Fitting(at) if old.parts[at].kind == FittingKind::Plug);
    let plugged: Vec<bool> = (old.parts.iter())
        .map(|fitting| fitting.ports.iter().any(|port| is_plug(port.takes)))
        .collect();
    for (fitting, leads) in now.parts.iter_mut().zip(&now.leads) {
        let now_ways = ways(leads);
        let new_run = leads.iter().any(|&run| survey.states[run] == State::New);
        let alike = |at: usize| {
            let other = &old.parts[at];
            (other.kind, &other.sizes, other.material) == (fitting.kind, &fitting.sizes, fitting.material)
                && (old_ways[at] == now_ways || plugged[at] && old_ways[at].iter().all(|way| now_ways.contains(way)))
        };
        // The end fitting of new pipe is new, whatever stood in its place.
        let can_stay = !(new_run && fitting.kind.is_end_of_pipe());
        let same = (0..stayed.len()).find(|&at| can_stay && !stayed[at] && alike(at));
        fitting.state = match same {
            Some(at) => {
                stayed[at] = true;
                State::Existing
            }
            None => State::New,
        };
    }
    let mut gone = stayed.iter();
    old.parts.retain(|fitting| {
        // Whether a coupling stood in old pipe where a joint is drawn, nobody knows.
        !gone.next().copied().unwrap_or_default() && !matches!(fitting.kind, FittingKind::Coupling | FittingKind::Bend)
    });
    for mut fitting in old.parts {
        fitting.state = State::Removed;
        // What was joined to it is told by what stands.
        fitting.ports.iter_mut().for_each(|port| port.takes = Takes::Nothing);
        now.parts.push(fitting);
    }
    now
}

/// The way along which a run leaves a joint, without its length.
fn way(survey: &Survey, joint: usize, run: usize) -> [i32; 3] {
    let Direction { east, north, up } = meeting::direction(survey, joint, run);
    let divisor = [east, north, up].into_iter().fold(0, divisor).max(1);
    [east / divisor, north / divisor, up / divisor]
}

fn divisor(a: i32, b: i32) -> i32 {
    let (mut a, mut b) = (a.saturating_abs(), b.saturating_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
