//! Everything that follows from a job.
//!
//! [`Study::of`] is one pure function: no clock, no files, no window. A half-drawn or wrong job is normal: it gives a
//! study with findings, never a panic and never an error. All tables are dense: a run's figures stand at the run's
//! position in `job.runs`, a joint's at its position in `job.joints`.

mod device;
mod explain;
mod finding;
pub mod findings;
mod fitting;
mod load;
mod meeting;
mod network;
mod outlet;
mod pressure;
mod section;
mod size;
mod zone;

pub use device::{DeviceStudy, RatingVerdict};
pub use explain::explain;
pub use finding::{Finding, Found, Place, Rule, Severity};
pub use fitting::{Fitting, FittingCount, FittingKind};
pub use load::Load;
pub use network::Network;
pub use outlet::{Outlet, OutletKind};
pub use pressure::{Flowing, GasFacts};
pub use section::{DesignLength, LengthRule, Section};
pub use size::{Basis, Origin, SizeCapacity, Sizing, Verdict};
pub use zone::Zone;

use crate::codebook::{Codebook, Profile};
use crate::job::Job;
use crate::units::{GaugePressure, Length};

/// What follows from one job under one profile of the codebook.
#[derive(Clone, Debug)]
pub struct Study {
    /// The fuel as taken, with what was said and what is the codebook's usual figure.
    pub gas: GasFacts,
    /// Name of the profile that was used.
    pub profile: String,
    /// Whether the profile that the job names is unknown, so that the default one was used.
    pub profile_missing: bool,
    /// Which way the gas flows.
    pub network: Network,
    /// Stretches of one pressure, each starting at the point of delivery or at a line regulator.
    pub zones: Vec<Zone>,
    /// Pipe of one load, material, state and size between two branchings, in flow order.
    pub sections: Vec<Section>,
    /// What each run carries, in the order of `job.runs`.
    pub runs: Vec<RunStudy>,
    /// What holds at each joint, in the order of `job.joints`.
    pub joints: Vec<JointStudy>,
    /// Appliances and ends left for appliances, in flow order; a section's outlets are a range of these.
    pub outlets: Vec<Outlet>,
    /// What each rated device carries against its rating.
    pub devices: Vec<DeviceStudy>,
    /// Fittings implied by the geometry, one per joint at most plus reducing fittings at device ends.
    pub fittings: Vec<Fitting>,
    /// Load of all outlets at once, as the point of delivery sees it.
    pub total: Load,
    /// What was found, worst first.
    pub findings: Vec<Finding>,
}

/// What a run carries.
#[derive(Clone, Debug, Default)]
pub struct RunStudy {
    /// Its true length.
    pub length: Length,
    /// Its section, when gas reaches it.
    pub section: Option<usize>,
    /// Flow, losses and velocity, when a size is known.
    pub flowing: Option<Flowing>,
}

/// What holds at a joint.
#[derive(Clone, Debug, Default)]
pub struct JointStudy {
    /// True height above the stated zero of elevations.
    pub elevation: Length,
    /// Pipe length from the point of delivery, when gas reaches it.
    pub distance: Option<Length>,
    /// Its zone, when gas reaches it; a regulator's joint belongs to the zone that feeds it.
    pub zone: Option<usize>,
    /// Pressure at full load, when every size on the way is known. At a regulator: its outlet.
    pub pressure: Option<GaugePressure>,
    /// The implied fitting, an index into [`Study::fittings`].
    pub fitting: Option<usize>,
}

impl Study {
    /// Studies a job under the profile that it names, or the codebook's default when there is none of that name.
    pub fn of(job: &Job, book: &Codebook) -> Study {
        let known = book.profile(&job.settings.profile);
        let profile = known.unwrap_or(book.default_profile());
        let mut study = Study::without_findings(job, book, profile);
        study.profile_missing = known.is_none();
        study.findings = findings::of(job, book, profile, &study);
        study
    }

    fn without_findings(job: &Job, book: &Codebook, profile: &Profile) -> Study {
        let _ = book;
        Study {
            gas: GasFacts::of(&job.gas),
            profile: profile.name.clone(),
            profile_missing: false,
            network: Network::default(),
            zones: Vec::new(),
            sections: Vec::new(),
            runs: vec![RunStudy::default(); job.runs.len()],
            joints: vec![JointStudy::default(); job.joints.len()],
            outlets: Vec::new(),
            devices: Vec::new(),
            fittings: Vec::new(),
            total: Load::default(),
            findings: Vec::new(),
        }
    }

    /// Fittings of one kind, material and state counted together, for lists.
    pub fn fitting_counts(&self) -> Vec<FittingCount> {
        fitting::count(&self.fittings)
    }

    /// Whether nothing was found that must be mended before work starts.
    pub fn is_clear(&self) -> bool {
        self.findings
            .iter()
            .all(|finding| finding.severity != Severity::Blocking)
    }
}
