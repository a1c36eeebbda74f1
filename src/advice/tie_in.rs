//! Where a new branch is best tied in: every joint and every foot of the pipe that stands, tried and ranked.
//!
//! The branch is drawn unjoined: an appliance alone, or new pipe with appliances. At its *head* the line to the tie-in
//! ends. Each place is tried by laying the branch there in a copy of the job and studying that whole: sizes, lengths and
//! pressures are those that the study of the finished drawing tells, by the profile's method. Nothing is estimated.
//!
//! Looked at is pipe of the house that gas reaches, connectors left out: each joint at which no device stands (a cap is
//! taken off), and a point at every whole foot (0.25 m) from a run's `from` end. Where that makes more than
//! [`MOST_PLACES`] the spacing is doubled until it does not.

mod branch;
mod judge;
mod part;
mod place;
mod rank;
mod route;
mod start;
mod words;

pub use part::{Already, Fails, LowestInlet, Unjudged};
pub use place::{LeftOut, MOST_PLACES, TieInPlace};
pub use route::{Blocked, MOST_WAYPOINTS, RouteLeg};

use super::PipeBought;
use crate::codebook::Codebook;
use crate::job::{Device, Job, JointId, LatticePoint, Run, State};
use crate::study::Study;
use crate::units::Length;
use crate::work::Cost;
use judge::Judge;
use rayon::prelude::*;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// What is to be tied in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NewBranch {
    /// The joint of it at which the line to the tie-in ends.
    pub head: JointId,
    /// Places through which that line is led, from the head towards the house.
    pub through: Vec<LatticePoint>,
    /// Which pipe may be tapped.
    pub offer: Offer,
}

/// Which pipe may be tapped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Offer {
    /// Only what is there already.
    #[default]
    Existing,
    /// New pipe too.
    AllPipe,
}

/// Every place that was tried, best first.
#[derive(Clone, Debug, PartialEq)]
pub struct TieIns {
    /// The places with what would be.
    pub rows: Vec<TieIn>,
    /// How many places there are: more than rows when the survey was stopped.
    pub places: usize,
    /// The distance between places on a run.
    pub spacing: Length,
    /// Runs along which no place was tried; their ends were.
    pub left_out: Vec<(crate::job::RunId, LeftOut)>,
}

/// What would be with the branch at one place.
#[derive(Clone, Debug, PartialEq)]
pub struct TieIn {
    /// The place.
    pub place: TieInPlace,
    /// Where on the lattice it is drawn: in a run at the nearest place of the lattice between its ends.
    pub at: LatticePoint,
    /// The head of the branch.
    pub head: JointId,
    /// The line from the tie-in to the head; never empty.
    pub route: Vec<RouteLeg>,
    /// Why the line cannot be drawn so, where it cannot. Its figures hold for pipe led around what is in the way.
    pub blocked: Option<Blocked>,
    /// The new line and all pipe that hangs on it, by material and size.
    pub pipe: Vec<PipeBought>,
    /// What that pipe weighs, where the weight of each size is published: pounds.
    pub weight: Option<Cost>,
    /// Fittings of new work more than without it, the tee among them, bends of tubing left out.
    pub fittings: usize,
    /// How many parts are over their limits that are not without it.
    pub failing: usize,
    /// The first few of them: pipe in flow order, then devices, then inlets, then regulators.
    pub fails: Vec<Fails>,
    /// How many parts are over their limits already and would have to do more, or get less.
    pub failing_already: usize,
    /// How many parts of the whole house are over their limits already and stay so.
    pub over_already: usize,
    /// The first few of them, in the same order.
    pub already: Vec<Already>,
    /// How many parts are held against nothing because a figure is missing, on the way to it and in it.
    pub unjudged: usize,
    /// The first of them.
    pub first_unjudged: Option<Unjudged>,
    /// The appliance that keeps least above its least inlet pressure, where any plate tells one.
    pub lowest: Option<LowestInlet>,
    /// Appliances of the whole job whose least inlet pressure nobody said.
    pub least_unknown: usize,
    /// Whether no shutoff valve stands between the point of delivery and the place.
    pub no_valve_above: bool,
}

/// Into which of four classes a place falls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TieInStanding {
    /// Everything was held against a figure, and keeps to it.
    Holds,
    /// So does all that the branch burdens; another part of the house is over its limit without it too.
    Before,
    /// A figure is missing.
    Unknown,
    /// The branch puts something over its limit, or burdens what is over it already.
    Fails,
}

impl TieIn {
    /// A place with its line, held against nothing yet.
    fn unjudged(spot: &place::Spot, head: JointId, route: Vec<RouteLeg>, blocked: Option<Blocked>) -> TieIn {
        TieIn {
            place: spot.place,
            at: spot.at,
            head,
            route,
            blocked,
            pipe: Vec::new(),
            weight: None,
            fittings: 0,
            failing: 0,
            fails: Vec::new(),
            failing_already: 0,
            over_already: 0,
            already: Vec::new(),
            unjudged: 0,
            first_unjudged: None,
            lowest: None,
            least_unknown: 0,
            no_valve_above: false,
        }
    }

    /// Its class.
    pub fn standing(&self) -> TieInStanding {
        match (self.failing + self.failing_already, self.unjudged, self.over_already) {
            (0, 0, 0) => TieInStanding::Holds,
            (0, 0, _) => TieInStanding::Before,
            (0, _, _) => TieInStanding::Unknown,
            _ => TieInStanding::Fails,
        }
    }

    /// True length of the line from the tie-in to the head.
    pub fn route_length(&self) -> Length {
        self.route.iter().map(|leg| leg.length).sum()
    }

    /// How often that line turns between its ends.
    pub fn turns(&self) -> usize {
        self.route.len().saturating_sub(1)
    }

    /// Length of the new line and all pipe that hangs on it.
    pub fn pipe_length(&self) -> Length {
        self.pipe.iter().map(|pipe| pipe.length).sum()
    }

    /// The job with the branch laid here: its study tells everything else, as the pressure at every appliance.
    pub fn laid(&self, job: &Job) -> Job {
        branch::laid(job, self)
    }

    /// What the pipe of the new line is like: as that at the head, sizes open; else as the job's settings say.
    pub fn pattern(&self, job: &Job) -> Run {
        branch::pattern(job, self.head)
    }
}

/// Why nothing can be tried.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoTieIn {
    /// The head is not in the job.
    #[error(
        "{0} is not a joint of this job: name the joint of the new branch where the line to the existing piping should end"
    )]
    NoHead(JointId),
    /// The branch is fed already.
    #[error("{0} is already connected to a point of delivery: draw the new branch apart from the piping")]
    Fed(JointId),
    /// The head has no end for the line.
    #[error("{joint} has a {device}, which has no end for another pipe: name a joint beside it")]
    NoEndLeft {
        /// The head.
        joint: JointId,
        /// The trade's name of the device.
        device: &'static str,
    },
    /// The branch serves nothing.
    #[error("no appliance is connected to {0}: add one there, or draw pipe from it to one")]
    NoAppliance(JointId),
    /// The job has no point of delivery.
    #[error("the job has no point of delivery: draw where the gas comes from")]
    NoSupply,
    /// There is no pipe that may be tapped.
    #[error("no pipe can be tapped: gas must reach it, and it must be existing pipe unless new pipe is allowed too")]
    NoPlace,
    /// More waypoints than are followed.
    #[error("the line goes through more than {MOST_WAYPOINTS} places: draw most of it as pipe of the branch")]
    TooManyWaypoints,
}

/// How far a survey is, and whether it is to stop; shared between threads.
#[derive(Debug, Default)]
pub struct Progress {
    done: AtomicUsize,
    of: AtomicUsize,
    stopped: AtomicBool,
}

impl Progress {
    /// Places tried, and places to be tried; both nothing before it starts.
    pub fn done_of(&self) -> (usize, usize) {
        (self.done.load(Ordering::Relaxed), self.of.load(Ordering::Relaxed))
    }

    /// Asks for an end: the survey gives back soon what it has.
    pub fn stop(&self) {
        self.stopped.store(true, Ordering::Relaxed);
    }

    fn start(&self, of: usize) {
        self.done.store(0, Ordering::Relaxed);
        self.of.store(of, Ordering::Relaxed);
    }

    fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }
}

impl TieIns {
    /// Tries every place of a job, under its own profile, on all cores.
    ///
    /// # Errors
    /// When there is nothing to tie in, or nothing to tie it to.
    pub fn find(job: &Job, book: &Codebook, branch: &NewBranch, progress: &Progress) -> Result<TieIns, NoTieIn> {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let before = Study::under(job, book, profile);
        check(job, &before, branch)?;
        let places = place::all(job, &before, branch.offer);
        if places.spots.is_empty() {
            return Err(NoTieIn::NoPlace);
        }
        let judge = Judge::new(job, book, profile, &before, branch.head);
        let ground = route::Ground::of(job, branch);
        let row = |copy: &mut Job, spot: &place::Spot| {
            if progress.is_stopped() {
                return None;
            }
            let (route, blocked) = ground.route(spot)?;
            let row = judge.row(copy, spot, route, blocked);
            progress.done.fetch_add(1, Ordering::Relaxed);
            Some(row)
        };
        let spots: Vec<place::Spot> = places.spots.into_iter().filter(|spot| ground.is_away(spot)).collect();
        progress.start(spots.len());
        let mut rows: Vec<TieIn> = spots.par_iter().map_init(|| job.clone(), row).flatten().collect();
        rank::sort(&mut rows);
        Ok(TieIns {
            rows,
            places: spots.len(),
            spacing: places.spacing,
            left_out: places.left_out,
        })
    }
}

/// Whether there is a branch to be tied in, and a house to tie it to.
fn check(job: &Job, before: &Study, branch: &NewBranch) -> Result<(), NoTieIn> {
    let joint = branch.head;
    let head = job.joints.position(joint).ok_or(NoTieIn::NoHead(joint))?;
    if before.network.supply.is_none() {
        return Err(NoTieIn::NoSupply);
    }
    if branch.through.len() > MOST_WAYPOINTS {
        return Err(NoTieIn::TooManyWaypoints);
    }
    let group = group(job, before, head);
    let device = |joint: usize| job.joints.at(joint).device();
    let is_fed = |joint: &usize| {
        before.joints[*joint].zone.is_some()
            || before.network.supply == Some(*joint)
            || matches!(device(*joint), Some(Device::Supply(_)))
    };
    if group.iter().any(is_fed) {
        return Err(NoTieIn::Fed(joint));
    }
    if let Some(placed) = &job.joints.at(head).placed {
        let most = match placed.device {
            Device::Supply(_) | Device::Cap(_) => usize::MAX,
            Device::Appliance(_) => 1,
            _ => 2,
        };
        if before.network.legs(head).count() + 1 > most {
            let device = placed.device.name();
            return Err(NoTieIn::NoEndLeft { joint, device });
        }
    }
    let burns = |joint: &usize| crate::network::kind(device(*joint)).is_some();
    // A cap at the head comes off.
    let capped = |joint: &usize| *joint == head && matches!(device(*joint), Some(Device::Cap(_)));
    match group.iter().any(|joint| burns(joint) && !capped(joint)) {
        true => Ok(()),
        false => Err(NoTieIn::NoAppliance(joint)),
    }
}

/// The joints that hang together with the head.
fn group(job: &Job, before: &Study, head: usize) -> Vec<usize> {
    let network = &before.network;
    let mut seen = vec![false; job.joints.len()];
    let (mut group, mut waiting) = (Vec::new(), vec![head]);
    while let Some(joint) = waiting.pop() {
        if std::mem::replace(&mut seen[joint], true) {
            continue;
        }
        group.push(joint);
        let standing = network
            .legs(joint)
            .filter(|&run| job.runs.at(run).state != State::Removed);
        waiting.extend(
            standing
                .filter_map(|run| network.joints_of[run])
                .flat_map(|(from, to)| [from, to]),
        );
    }
    group
}
