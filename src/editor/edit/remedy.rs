//! Single changes by which a system can be made to carry its load: each a variant of the job, adopted as one step.
//!
//! What one leaves for another to do is the matter of [`super::Fixes`], which goes on until nothing is over its limit.

mod device;
mod pipe;
mod pressure;
mod shutoff;
mod start;

pub use shutoff::valves as shutoff_valves;

use crate::advice::{Enlargement, Mended};
use crate::codebook::Codebook;
use crate::editor::{Refusal, Step};
use crate::job::Job;
use crate::study::Study;
use crate::units::PressureDrop;
use crate::work::{Cost, Price};

/// A way to begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Remedy {
    /// The least length of larger pipe in place of what is too small by the profile's method.
    LeastLength,
    /// The same by the least weight.
    LeastWeight,
    /// The least length of larger pipe by which every outlet keeps its pressure: engineering information, never laid on a
    /// job for a permit.
    ByPressure,
    /// The lightest sizes of new pipe by which every outlet keeps its pressure: engineering information, never laid on a job
    /// for a permit.
    ByPhysics,
    /// The new branch starts at another joint on its way, nearer to the point of delivery.
    NearerStart,
    /// A line of its own for the new branch, from as near to the point of delivery as pipe can be tapped.
    SeparateLine,
    /// More pressure from the supplier, and a line regulator before each outlet that holds the pressure of now.
    HigherDelivery,
    /// A meter, regulator or other device that is rated for the load.
    LargerMeter,
}

/// A step with what it does, in sentences.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What brings it.
    pub step: Step,
    /// What is bought and done.
    pub does: Vec<String>,
}

/// Why a remedy is not to be had here.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoRemedy {
    /// It would change nothing.
    #[error("{0}")]
    NothingToDo(&'static str),
    /// The search found no answer; the words name place and cure.
    #[error("{0}")]
    NoAnswer(String),
    /// No table is published for more pressure than now.
    #[error(
        "the profile has no table with an allowable pressure drop for this pipe and fuel at a higher delivery pressure"
    )]
    NoHigherTable,
    /// The line to an outlet is drawn too short for one more device.
    #[error(
        "there is no room drawn for a regulator upstream of {0}: stretch a run of its own line to two steps or more"
    )]
    NoRoomBefore(String),
    /// The drawing stands against it.
    #[error(transparent)]
    Refused(#[from] Refusal),
}

impl Remedy {
    /// All, in the order of lists.
    pub const ALL: [Remedy; 8] = [
        Remedy::LeastLength,
        Remedy::LeastWeight,
        Remedy::NearerStart,
        Remedy::SeparateLine,
        Remedy::HigherDelivery,
        Remedy::LargerMeter,
        Remedy::ByPressure,
        Remedy::ByPhysics,
    ];

    /// Its name on lists and for undo.
    pub const fn name(self) -> &'static str {
        match self {
            Remedy::LeastLength => "Larger pipe, least length",
            Remedy::LeastWeight => "Larger pipe, least weight",
            Remedy::ByPressure => "Larger pipe by computed pressure (not for permit)",
            Remedy::ByPhysics => "Lightest pipe by computed pressure (not for permit)",
            Remedy::NearerStart => "Tie in closer to the meter",
            Remedy::SeparateLine => "New line from the meter",
            Remedy::HigherDelivery => "Higher delivery pressure",
            Remedy::LargerMeter => "Larger meter or regulator",
        }
    }

    /// What must be known beside it.
    pub const fn caution(self) -> &'static str {
        match self {
            Remedy::LeastLength | Remedy::LeastWeight => "By the profile's method; existing pipe is replaced in place.",
            Remedy::ByPressure => {
                "NOT FOR PERMIT: engineering information by the flow equation, never the permit size."
            }
            Remedy::ByPhysics => {
                "NOT FOR PERMIT: engineering information, never the permit size. The profile's method may find these sizes undersized."
            }
            Remedy::NearerStart | Remedy::SeparateLine => {
                "Give the new line its own shutoff valve. The route shown is one of many and has no walls: redraw it as you will run it."
            }
            Remedy::HigherDelivery => {
                "Only the gas supplier sets the delivery pressure: ask first. The loss of a new regulator is not known and not counted; each needs \
                 a vent to the outdoors or a listed vent limiter, and a shutoff valve ahead of it. Test existing pipe again for the new pressure, \
                 and check that its valves are rated for it."
            }
            Remedy::LargerMeter => "The gas supplier decides on the meter and the service regulator: ask first.",
        }
    }

    /// Whether it may be laid on a job that is for a permit; else it is to be looked at only.
    pub const fn is_for_permit(self) -> bool {
        !matches!(self, Remedy::ByPressure | Remedy::ByPhysics)
    }

    /// The ways to do it, of which there may be several; at least one.
    ///
    /// # Errors
    /// When nothing is to be mended in this way, or it cannot be.
    pub fn changes(self, job: &Job, book: &Codebook, study: &Study) -> Result<Vec<Change>, NoRemedy> {
        let by_pressure = Mended::Pressure(PressureDrop::ZERO);
        let one = match self {
            Remedy::LeastLength => pipe::larger(self.name(), job, book, study, &Price::Length, Mended::Method),
            Remedy::LeastWeight => pipe::larger(self.name(), job, book, study, &Price::Weight, Mended::Method),
            Remedy::ByPressure => pipe::larger(self.name(), job, book, study, &Price::Length, by_pressure)
                .and_then(|change| pipe::as_study(job, change)),
            Remedy::ByPhysics => pipe::by_physics(job, book, study).and_then(|change| pipe::as_study(job, change)),
            Remedy::NearerStart => return start::nearer(job, book, study),
            Remedy::SeparateLine => start::own_line(job, book, study),
            Remedy::HigherDelivery => pressure::higher_delivery(job, book, study),
            Remedy::LargerMeter => device::larger(job, study),
        };
        one.map(|change| vec![change])
    }

    /// The step that brings it; of several ways the first.
    ///
    /// # Errors
    /// As for [`Remedy::changes`].
    pub fn step(self, job: &Job, book: &Codebook, study: &Study) -> Result<Step, NoRemedy> {
        let first = self.changes(job, book, study)?.into_iter().next();
        let none = NoRemedy::NothingToDo("there is nothing to do this way");
        first.map(|change| change.step).ok_or(none)
    }

    /// The job with it.
    ///
    /// # Errors
    /// As for [`Remedy::changes`].
    pub fn adopted(self, job: &Job, book: &Codebook, study: &Study) -> Result<Job, NoRemedy> {
        let step = self.step(job, book, study)?;
        let mut adopted = job.clone();
        step.apply(&mut adopted)?;
        Ok(adopted)
    }
}

/// The least price of larger pipe in place of what is too small by the profile's method, by a list of one's own; the change
/// and what the pipe costs.
///
/// # Errors
/// As for [`Remedy::changes`].
pub fn cheapest_larger_pipe(
    job: &Job,
    book: &Codebook,
    study: &Study,
    price: &Price,
) -> Result<(Change, Cost), NoRemedy> {
    let found = Enlargement::of(job, book, price, Mended::Method);
    let cost = found.map_or(Cost::ZERO, |found| found.cost);
    let change = pipe::larger("Larger pipe, lowest price", job, book, study, price, Mended::Method)?;
    Ok((change, cost))
}
