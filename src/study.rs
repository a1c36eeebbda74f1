//! Everything that follows from a job.
//!
//! [`Study::of`] is one pure function: no clock, no files, no window. A half-drawn or wrong job is normal: it gives a
//! study with gaps, never a panic and never an error. All tables are dense: a run's figures stand at the run's
//! position in `job.runs`, a joint's at its position in `job.joints`.

pub mod asked;
pub(crate) mod explain;
mod place;
pub mod places;
mod plural;
mod tie_ins;
pub mod words;

pub(crate) use asked::{spares_jackets, tracer_clause, tracer_gauge, wants_bond, wants_vent_line};
pub use explain::{FRICTION, Reason, explain, reason};
pub use place::Place;
pub use places::{Places, letters, served};
pub use plural::{how_many, plural};
pub use tie_ins::tie_ins;

use crate::codebook::{Codebook, Profile, SizeNames};
use crate::fittings::{Assembly, Fitting, FittingCount, FittingKind, Owner, Port, Takes, fitting, making, take_out};
use crate::job::{Job, State};
use crate::network::{GasFacts, Load, Network, Outlet, Zone, outlet};
use crate::pressure::{DeviceStudy, Flowing, Ring, device};
use crate::sizing::{Figures, Section, settle};
use crate::units::{GaugePressure, HeatRate, Length, NominalSize};

/// What follows from one job under one profile of the codebook.
#[derive(Clone, Debug)]
pub struct Study {
    /// The fuel as taken, with what was said and what is the codebook's usual figure.
    pub gas: GasFacts,
    /// Name of the profile that was used.
    pub profile: String,
    /// By what names sizes go.
    pub names: SizeNames,
    /// Whether the profile that the job names is unknown, so that the default one was used.
    pub profile_missing: bool,
    /// Which way the gas flows.
    pub network: Network,
    /// Stretches of one pressure, each starting at the point of delivery or at a line regulator.
    pub zones: Vec<Zone>,
    /// Pipe of one load, material, state and size between two branchings, in flow order.
    pub sections: Vec<Section>,
    /// Piping that hangs together by closed ways; sizing takes each opened at the runs that close it.
    pub rings: Vec<Ring>,
    /// What each run carries, in the order of `job.runs`.
    pub runs: Vec<RunStudy>,
    /// What holds at each joint, in the order of `job.joints`.
    pub joints: Vec<JointStudy>,
    /// Appliances and ends left for appliances, in flow order; a section's outlets are a range of these.
    pub outlets: Vec<Outlet>,
    /// What each rated device carries against its rating.
    pub devices: Vec<DeviceStudy>,
    /// The fittings of all joints, those of each one after the other.
    pub fittings: Vec<Fitting>,
    /// What stands at each joint, in the order of `job.joints`: the one account of fittings, devices and their ports.
    pub assemblies: Vec<Assembly>,
    /// Load of all outlets at once, as the point of delivery sees it.
    pub total: Load,
}

/// What a run carries.
#[derive(Clone, Debug, Default)]
pub struct RunStudy {
    /// Its true length.
    pub length: Length,
    /// Its section, when gas reaches it.
    pub section: Option<usize>,
    /// Whether it is the flexible line to an appliance, a hose or connector, and no pipe.
    pub is_hose: bool,
    /// Flow, losses and velocity, when a size is known. In a ring that of all outlets behind it at full input at once.
    pub flowing: Option<Flowing>,
    /// From which joint to which gas flows at full load: along the tree, but in a ring, and in the runs that close it, as
    /// the pressures have it. `None` where no gas comes, and in a ring that was not solved.
    pub way: Option<(usize, usize)>,
}

/// What holds at a joint.
#[derive(Clone, Debug, Default)]
pub struct JointStudy {
    /// True height above the stated zero of elevations.
    pub elevation: Length,
    /// How far east and north of the lattice's zero it truly stands.
    pub ground: [Length; 2],
    /// Pipe length from the point of delivery, when gas reaches it; on a hose that of the pipe before it.
    pub distance: Option<Length>,
    /// Its zone, when gas reaches it; a regulator's joint belongs to the zone that feeds it.
    pub zone: Option<usize>,
    /// Pressure at full load, when every size on the way is known. At a regulator: its outlet.
    pub pressure: Option<GaugePressure>,
    /// The fitting in which its runs meet, or else the first that stands there, an index into [`Study::fittings`].
    pub fitting: Option<usize>,
}

impl Study {
    /// Studies a job under the profile that it names, or the codebook's default when there is none of that name.
    pub fn of(job: &Job, book: &Codebook) -> Study {
        let known = book.profile(&job.settings.profile);
        let profile = known.unwrap_or(book.default_profile());
        let mut study = Study::under(job, book, profile);
        study.profile_missing = known.is_none();
        study
    }

    /// Studies a job under a profile, whichever it names.
    pub fn under(job: &Job, book: &Codebook, profile: &Profile) -> Study {
        Study::loaded(job, book, profile, None)
    }

    /// What would be with so much more heat taken at a joint, by an outlet that burns at any time and needs no further
    /// length or fitting: every size stays as it is drawn without it.
    ///
    /// Where no gas reaches the joint, the study as it is.
    pub fn with_more(job: &Job, book: &Codebook, profile: &Profile, joint: usize, heat: HeatRate) -> Study {
        Study::loaded(job, book, profile, Some((joint, heat)))
    }

    fn loaded(job: &Job, book: &Codebook, profile: &Profile, more: Option<(usize, HeatRate)>) -> Study {
        Study::told(Figures::of(job, book, profile, more))
    }

    /// The figures with what must be said beside them.
    fn told(figures: Figures) -> Study {
        let total = figures.total();
        let Figures {
            survey,
            meetings,
            capacities,
            settled,
            sizes,
            march,
        } = figures;
        let job = survey.job;
        let assemblies = making::all(&survey, &meetings, &sizes);
        let sections = settle::judged(&survey, &capacities, settled);
        let reached = |joint: usize| survey.zone_before[joint].is_some();
        let joint = |joint: usize| JointStudy {
            elevation: survey.elevation[joint],
            ground: survey.ground[joint],
            distance: reached(joint).then_some(survey.distance[joint]),
            zone: survey.zone_before[joint],
            pressure: march.pressure[joint],
            fitting: assemblies.first(&survey, joint),
        };
        let joints = (0..job.joints.len()).map(joint).collect();
        let run = |run: usize| RunStudy {
            length: job.true_length(job.runs.at(run)),
            section: survey.section_of[run],
            is_hose: survey.is_hose(run),
            flowing: march.flowing[run],
            way: march.way[run],
        };
        let runs = (0..job.runs.len()).map(run).collect();
        let devices = device::all(&survey, &march);
        let mut outlets = survey.outlets;
        outlet::name(&mut outlets, job);
        Study {
            gas: survey.gas,
            profile: survey.profile.name.clone(),
            names: SizeNames::of(&job.settings, survey.profile),
            profile_missing: false,
            total,
            network: survey.network,
            zones: survey.zones,
            rings: march.rings,
            sections,
            runs,
            joints,
            outlets,
            devices,
            fittings: assemblies.fittings,
            assemblies: assemblies.joints,
        }
    }

    /// The size of a run on the drawing.
    pub fn size(&self, job: &Job, run: usize) -> Option<NominalSize> {
        match self.runs[run].section {
            Some(section) => self.sections[section].sizing.size,
            None => job.runs.at(run).size,
        }
    }

    /// The port that a run goes into at a joint, with its owner; `None` where it ends open or goes through.
    pub fn port_of(&self, run: usize, joint: usize) -> Option<(Owner, &Port)> {
        let (owner, port) = take_out::met(&self.fittings, &self.assemblies[joint], run)?;
        let ports = match owner {
            Owner::Fitting(at) => &self.fittings[at].ports,
            Owner::Device => &self.assemblies[joint].device,
        };
        ports.get(port).map(|port| (owner, port))
    }

    /// The joints that are made in this work, each by its place (a position in `job.joints`) and by the port that receives.
    pub fn joints_to_make(&self, job: &Job) -> Vec<(usize, Port)> {
        let mut made = Vec::new();
        for (joint, here) in self.assemblies.iter().enumerate() {
            let placed = job.joints.at(joint).placed.as_ref();
            let device_is_new = placed.is_some_and(|placed| placed.state == State::New);
            let is_new = |takes: Takes| match takes {
                Takes::Run(run) => job.runs.at(run).state == State::New,
                Takes::Fitting(fitting) => self.fittings[fitting].state == State::New,
                Takes::Device => device_is_new,
                Takes::Nothing => false,
            };
            let mut look = |port: &Port, owner_is_new: bool| {
                let taken = port.kind.receives() && port.takes != Takes::Nothing;
                if taken && (owner_is_new || is_new(port.takes)) {
                    made.push((joint, *port));
                }
            };
            here.device.iter().for_each(|port| look(port, device_is_new));
            for fitting in &self.fittings[here.fittings.clone()] {
                let is_new = fitting.state == State::New;
                fitting.ports.iter().for_each(|port| look(port, is_new));
            }
            // The nipple of a trap has its cap.
            let traps = self.fittings[here.fittings.clone()].iter();
            let traps = traps.filter(|it| (it.kind, it.state) == (FittingKind::TrapNipple, State::New));
            made.extend(
                traps
                    .flat_map(|trap| &trap.ports)
                    .map(|port| (joint, Port::open(port.kind.mate(), port.size))),
            );
        }
        made
    }

    /// Fittings of one kind, material and state counted together, for lists.
    pub fn fitting_counts(&self) -> Vec<FittingCount> {
        fitting::count(&self.fittings)
    }
}
