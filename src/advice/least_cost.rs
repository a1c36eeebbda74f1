//! The cheapest sizes by physics, beside the code's answer.
//!
//! **Engineering information, never the permit size**: the codes size by published tables. Here new pipe takes the sizes
//! that cost least while every outlet keeps its least inlet pressure with a margin, by the study's own march of pressures
//! (Darcy–Weisbach with Colebrook, fittings by equivalent length, devices by their ratings). Exactly optimal; how, is told
//! in [`super::cheapest`]. An outlet whose least inlet pressure nobody said keeps what the allowed drop of its zone leaves.

use super::Exactness;
use super::cheapest::{Choice, Question};
use crate::codebook::{Codebook, Profile};
use crate::job::{Job, Material};
use crate::network::{Course, Meeting, Stretch, Survey, meeting};
use crate::pressure::Obstacles;
use crate::sizing::{Capacities, Origin, Section, settle};
use crate::study::Study;
use crate::units::{GaugePressure, Length, NominalSize, PressureDrop, UnitSystem};
use crate::work::{Cost, Price};

/// The cheapest sizes of new pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct LeastCost {
    /// New pipe that is not fixed by hand, in flow order.
    pub sections: Vec<CheapSection>,
    /// What it costs together.
    pub cost: Cost,
    /// What the sizes that the method finds cost, where all are known and priced.
    pub by_method: Option<Cost>,
    /// Appliances whose input nobody said: they count nothing, so that sizes may be too small.
    pub unknown: usize,
    /// Whether nothing costs less.
    pub exact: Exactness,
}

/// A section of new pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheapSection {
    /// Its position in `study.sections`.
    pub section: usize,
    /// The size that costs least.
    pub size: NominalSize,
    /// The size that the method finds.
    pub by_method: Option<NominalSize>,
    /// Its measured length.
    pub length: Length,
    /// What it costs.
    pub cost: Cost,
}

/// Why there is no answer. Numbers are positions in the study's sections and in `job.joints`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NoAnswer {
    /// This run, a position in `job.runs`, closes a loop, and such sizes are found for trees: take it out.
    Loop(usize),
    /// No outlet is joined to a point of delivery: draw one, and name its input.
    NoOutlet,
    /// Nobody said which pressure this outlet needs, and its zone has no allowed drop: give the one or the other.
    NoNeed(usize),
    /// The size of this existing section is not known: look and enter it.
    SizeUnknown(usize),
    /// No size of this section that would do has a price, or none is made.
    NoPrice(usize),
    /// For pipe of this section's material no weight is published, so that it cannot be found by weight.
    NoWeight(usize, Material),
    /// No published size carries the load of this section: part the load, or shorten the way.
    NoSize(usize),
    /// Not with the largest sizes on offer either is there pressure enough: raise the delivery pressure or lower the margin.
    TooLittlePressure,
}

impl NoAnswer {
    /// The same in a sentence, with place and cure; `study` is that of the job.
    pub fn words(self, job: &Job, study: &Study) -> String {
        let section = |at: usize| {
            format!(
                "section {}",
                study.sections.get(at).map_or(at + 1, |section| section.number)
            )
        };
        match self {
            NoAnswer::Loop(run) => format!(
                "run {} closes a loop, and these sizes are found for trees only: take it out",
                job.runs.at(run).id
            ),
            NoAnswer::NoOutlet => {
                "no outlet is connected to a point of delivery: draw one, and enter its input".to_owned()
            }
            NoAnswer::NoNeed(joint) => format!(
                "the pressure that the outlet at {} needs is not entered: enter its minimum inlet pressure, or an allowable pressure drop",
                job.joints.at(joint).id
            ),
            NoAnswer::SizeUnknown(at) => format!("the size of {} is not known: measure it and enter it", section(at)),
            NoAnswer::NoPrice(at) => format!(
                "no size of {} that would work has a price in the list, or none is made",
                section(at)
            ),
            NoAnswer::NoWeight(at, material) => format!(
                "{} is {}, and no weight is published for it, so nothing can be compared by weight",
                section(at),
                material.short()
            ),
            NoAnswer::NoSize(at) => format!(
                "no published size has capacity for the load of {}: split the load, or shorten the run",
                section(at)
            ),
            NoAnswer::TooLittlePressure => {
                "even the largest sizes on the list do not leave enough pressure: ask for more delivery pressure"
                    .to_owned()
            }
        }
    }
}

impl LeastCost {
    /// Finds the cheapest sizes by which each outlet keeps its least inlet pressure and `margin` more.
    ///
    /// # Errors
    /// When a figure is missing, or no sizes will do.
    pub fn of(job: &Job, book: &Codebook, price: &Price, margin: PressureDrop) -> Result<LeastCost, NoAnswer> {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let survey = Survey::of(job, book, profile);
        if let Some(closing) = survey.network.closings.first() {
            return Err(NoAnswer::Loop(closing.run));
        }
        let (obstacles, sections) = sized(&survey);
        let needs = needs(&survey, margin)?;
        let offers = |stretch: &Stretch| offers(book, profile, job.settings.units, price, stretch);
        let mut choices = Vec::with_capacity(sections.len());
        for (at, (stretch, section)) in survey.stretches.iter().zip(&sections).enumerate() {
            choices.push(match section.sizing.origin {
                Origin::Found => Some(offers(stretch))
                    .filter(|offers| !offers.is_empty())
                    .ok_or(unpriced(price, at, stretch))?,
                Origin::Unknown => return Err(NoAnswer::SizeUnknown(at)),
                Origin::Known | Origin::Fixed | Origin::Connector => vec![as_drawn(section)],
            });
        }
        let question = Question {
            survey: &survey,
            obstacles: &obstacles,
            choices: &choices,
            needs: &needs,
        };
        let answer = question.answer().ok_or(NoAnswer::TooLittlePressure)?;
        let cheap = sections.iter().enumerate().filter_map(|(at, section)| {
            let chosen = choices[at][answer.chosen[at]];
            let size = chosen.size.filter(|_| section.sizing.origin == Origin::Found)?;
            Some(CheapSection {
                section: at,
                size,
                by_method: section.sizing.size,
                length: section.measured,
                cost: chosen.cost,
            })
        });
        let sections: Vec<CheapSection> = cheap.collect();
        let of_method = |cheap: &CheapSection| {
            let material = survey.stretches[cheap.section].material;
            price.of(book, material, cheap.by_method?, cheap.length)
        };
        Ok(LeastCost {
            by_method: sections.iter().map(of_method).sum(),
            cost: answer.cost,
            unknown: survey.network.supply.map_or(0, |supply| survey.loads[supply].unknown),
            exact: answer.exact,
            sections,
        })
    }
}

/// Why nothing is on offer for a stretch.
pub(crate) const fn unpriced(price: &Price, at: usize, stretch: &Stretch) -> NoAnswer {
    match price {
        Price::Weight => NoAnswer::NoWeight(at, stretch.material),
        Price::Length | Price::List(_) => NoAnswer::NoPrice(at),
    }
}

/// What stands in the way, and the sections as the study sizes them.
pub(crate) fn sized(survey: &Survey) -> (Obstacles, Vec<Section>) {
    let meetings: Vec<Meeting> = (0..survey.job.joints.len())
        .map(|joint| meeting::at(survey, joint))
        .collect();
    let obstacles = Obstacles::find(survey, &meetings);
    let capacities = Capacities::of(survey);
    let settled = settle::settle(survey, &obstacles, &capacities);
    let sections = settle::judged(survey, &capacities, settled);
    (obstacles, sections)
}

/// The size on the drawing, at no cost.
pub(crate) fn as_drawn(section: &Section) -> Choice {
    Choice {
        size: section.sizing.size,
        cost: Cost::ZERO,
    }
}

/// For each joint the pressure that an outlet there must keep.
pub(crate) fn needs(survey: &Survey, margin: PressureDrop) -> Result<Vec<Option<GaugePressure>>, NoAnswer> {
    let mut needs = vec![None; survey.job.joints.len()];
    for outlet in &survey.outlets {
        let zone = survey.zone_before[outlet.joint].map(|zone| &survey.zones[zone]);
        let by_zone = zone.and_then(|zone| Some(zone.inlet? - zone.allowed_drop?));
        let least = outlet.least.filter(|least| least.pa().is_finite()).or(by_zone);
        let least = least.ok_or(NoAnswer::NoNeed(outlet.joint))?;
        needs[outlet.joint] = Some(least - PressureDrop::from_pa(-margin.pa()));
    }
    match survey.outlets.is_empty() {
        true => Err(NoAnswer::NoOutlet),
        false => Ok(needs),
    }
}

/// The sizes in which a stretch could be laid, with their costs: those that are made, priced, not under the profile's
/// least and, in a metric job, have a DN.
pub(crate) fn offers(
    book: &Codebook,
    profile: &Profile,
    units: UnitSystem,
    price: &Price,
    stretch: &Stretch,
) -> Vec<Choice> {
    if stretch.course == Course::Connector {
        return Vec::new();
    }
    let material = stretch.material;
    let least = profile
        .least_size
        .filter(|_| material.is_rigid())
        .map(|least| least.value);
    let sizes = book.sizes(material).iter().map(|pipe| pipe.size);
    sizes
        .filter(|size| least.is_none_or(|least| *size >= least))
        .filter(|size| units == UnitSystem::Us || material.is_corrugated() || size.dn().is_some())
        .filter_map(|size| {
            Some(Choice {
                size: Some(size),
                cost: price.of(book, material, size, stretch.measured)?,
            })
        })
        .collect()
}
