//! All figures of a job, before anything is put in words.
//!
//! The one way from a job to its sizes and pressures: [`crate::study::Study`] tells them with all that must be said beside
//! them, and where a thousand variants of a job are tried only the figures are found.

use super::settle::Settled;
use super::{Capacities, settle};
use crate::codebook::{Codebook, Profile};
use crate::job::Job;
use crate::network::{Load, Meeting, Stretch, Survey, load, meeting};
use crate::pressure::{Around, March, Obstacles};
use crate::units::{HeatRate, NominalSize};

/// What holds in a job.
pub(crate) struct Figures<'a> {
    /// Its outlets measured.
    pub(crate) survey: Survey<'a>,
    pub(crate) meetings: Vec<Meeting>,
    pub(crate) capacities: Capacities<'a>,
    pub(crate) settled: Settled,
    /// For each section the size on the drawing.
    pub(crate) sizes: Vec<Option<NominalSize>>,
    pub(crate) march: March,
}

impl<'a> Figures<'a> {
    /// Finds them; `more` is heat that a joint takes beside, for which no size is changed.
    pub(crate) fn of(
        job: &'a Job,
        book: &'a Codebook,
        profile: &'a Profile,
        more: Option<(usize, HeatRate)>,
    ) -> Figures<'a> {
        let mut survey = Survey::of(job, book, profile);
        let meetings: Vec<Meeting> = (0..job.joints.len()).map(|joint| meeting::at(&survey, joint)).collect();
        let mut obstacles = Obstacles::find(&survey, &meetings);
        let capacities = Capacities::of(&survey);
        let settled = settle::settle(&survey, &obstacles, &capacities);
        if let Some((joint, heat)) =
            more.filter(|(joint, _)| survey.zone_before.get(*joint).is_some_and(Option::is_some))
        {
            load::add(
                &mut survey.loads,
                &survey.network,
                joint,
                heat,
                survey.gas.heating_value,
            );
        }
        let around = Around::of(&survey);
        let sizes = settled.drawn(&survey);
        let march = March::of(&survey, &around, &meetings, &mut obstacles, &sizes);
        for outlet in &mut survey.outlets {
            outlet.measure(&survey.zones, survey.zone_before[outlet.joint], &march);
        }
        Figures {
            survey,
            meetings,
            capacities,
            settled,
            sizes,
            march,
        }
    }

    /// Load of all outlets at once, as the point of delivery sees it.
    pub(crate) fn total(&self) -> Load {
        let supply = self.survey.network.supply;
        supply.map(|supply| self.survey.loads[supply]).unwrap_or_default()
    }

    /// How a section is held against its load.
    pub(crate) fn held(&self, section: usize) -> settle::Held {
        let stretch: &Stretch = &self.survey.stretches[section];
        let length = self.settled.designs[section].total();
        let carrier = self.capacities.at(&self.survey, stretch, length);
        settle::held(&self.survey, stretch, &carrier, self.sizes[section])
    }
}
