//! The least enlargement: when pipe fails under the new load, the least pipe to be laid in its place that mends it.
//!
//! By the code's method each section needs a size that carries its load at its design length. Larger fittings count for
//! more length, so that sections are raised in rounds until lengths and sizes agree; needs only grow from round to round,
//! and where no larger size is cheaper than a smaller one what comes out is least in every section at once.
//!
//! By pressure, which is **engineering information and never the permit size**, every outlet is to keep its least inlet
//! pressure with a margin; which sections to enlarge is then a choice among many, found exactly by [`super::cheapest`]
//! with the drawn size at no cost beside the larger ones. New pipe may be laid larger too, for the difference in price.
//!
//! Whole sections are enlarged. Devices are not: a meter or regulator that fails is told by the audit.

use super::cheapest::{Choice, Question};
use super::least_cost::as_drawn;
use super::{Exactness, NoAnswer, least_cost};
use crate::codebook::{Codebook, Profile};
use crate::job::{Job, State};
use crate::network::{Meeting, Stretch, Survey, meeting};
use crate::pressure::Obstacles;
use crate::sizing::{Capacities, Origin, Section, carries, settle};
use crate::units::{Length, NominalSize, PressureDrop};
use crate::work::{Cost, Price};

/// What an enlargement is to bring about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mended {
    /// Every section carries its load by the profile's method.
    Method,
    /// Every outlet keeps its least inlet pressure and so much more: engineering information.
    Pressure(PressureDrop),
}

/// The least enlargement.
#[derive(Clone, Debug, PartialEq)]
pub struct Enlargement {
    /// The sections to be laid larger, in flow order; none where nothing fails.
    pub larger: Vec<Larger>,
    /// What they cost together.
    pub cost: Cost,
    /// Whether nothing costs less.
    pub exact: Exactness,
}

/// A section to be laid larger.
#[derive(Clone, Debug, PartialEq)]
pub struct Larger {
    /// Its position in `study.sections`.
    pub section: usize,
    /// Its runs, positions in `job.runs`.
    pub runs: Vec<usize>,
    /// The size that is drawn.
    pub was: NominalSize,
    /// The size that mends.
    pub size: NominalSize,
    /// Whether the method finds that size by itself once the old one is no longer given, or it must be fixed.
    pub origin: Origin,
    /// Its measured length.
    pub length: Length,
    /// What that costs: the whole pipe where old pipe goes or a size is fixed, else the difference to the size found.
    pub cost: Cost,
}

impl Enlargement {
    /// Finds it under the job's own profile.
    ///
    /// # Errors
    /// When a figure is missing, or no size will do.
    pub fn of(job: &Job, book: &Codebook, price: &Price, mended: Mended) -> Result<Enlargement, NoAnswer> {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let survey = Survey::of(job, book, profile);
        if let Some(closing) = survey.network.closings.first() {
            return Err(NoAnswer::Loop(closing.run));
        }
        let meetings: Vec<Meeting> = (0..job.joints.len()).map(|joint| meeting::at(&survey, joint)).collect();
        let obstacles = Obstacles::find(&survey, &meetings);
        let capacities = Capacities::of(&survey);
        let settled = settle::settle(&survey, &obstacles, &capacities);
        let question = Asked {
            survey: &survey,
            obstacles: &obstacles,
            capacities: &capacities,
            profile,
            price,
            sections: settle::judged(&survey, &capacities, settled),
        };
        match mended {
            Mended::Method => question.by_method(),
            Mended::Pressure(margin) => question.by_pressure(margin),
        }
    }

    fn new(larger: Vec<Larger>, exact: Exactness) -> Enlargement {
        Enlargement {
            cost: larger.iter().map(|larger| larger.cost).sum(),
            larger,
            exact,
        }
    }

    /// The job with the larger pipe in it: existing pipe becomes new pipe in place of the old.
    pub fn laid(&self, job: &Job) -> Job {
        let mut laid = job.clone();
        for larger in &self.larger {
            for &run in &larger.runs {
                let id = job.runs.at(run).id;
                let Some(run) = laid.runs.get_mut(id) else { continue };
                if run.state == State::Existing {
                    run.state = State::New;
                    run.replaces = Some(larger.was);
                }
                run.size = Some(larger.size).filter(|_| larger.origin != Origin::Found);
            }
        }
        laid
    }
}

/// A job measured and sized, with the question.
struct Asked<'q, 'a> {
    survey: &'q Survey<'a>,
    obstacles: &'q Obstacles,
    capacities: &'q Capacities<'a>,
    profile: &'a Profile,
    price: &'q Price,
    sections: Vec<Section>,
}

/// Which of the sizes that carry is taken.
#[derive(Clone, Copy)]
enum Taken {
    Smallest,
    Cheapest,
}

impl Asked<'_, '_> {
    fn offers(&self, stretch: &Stretch) -> Vec<Choice> {
        self.offers_by(self.price, stretch)
    }

    fn offers_by(&self, price: &Price, stretch: &Stretch) -> Vec<Choice> {
        let (book, units) = (self.survey.book, self.survey.job.settings.units);
        least_cost::offers(book, self.profile, units, price, stretch)
    }

    fn by_method(&self) -> Result<Enlargement, NoAnswer> {
        let unknown = |section: &Section| section.sizing.origin == Origin::Unknown && section.load.flow.cfh() > 0.0;
        if let Some(at) = self.sections.iter().position(unknown) {
            return Err(NoAnswer::SizeUnknown(at));
        }
        let least = self.raised(Taken::Smallest)?;
        let cheapest = self.raised(Taken::Cheapest)?;
        let designs = settle::lengths(self.survey, self.obstacles, &cheapest);
        let stands = |at: &usize| self.sections[*at].sizing.origin != Origin::Found;
        let larger = (0..self.sections.len()).filter(stands).filter_map(|at| {
            let stretch = &self.survey.stretches[at];
            let found = settle::found(self.survey, self.capacities, stretch, designs[at].total());
            let origin = if found == cheapest[at] {
                Origin::Found
            } else {
                Origin::Fixed
            };
            self.larger(at, cheapest[at]?, origin)
        });
        let larger: Vec<Larger> = larger.collect();
        // Nothing costs less than, for each section alone, the cheapest of the sizes that carry at the least lengths.
        let bound = (0..self.sections.len())
            .filter(stands)
            .filter(|&at| least[at] != self.drawn(at));
        let bound = bound.filter_map(|at| {
            let offers = self.offers(&self.survey.stretches[at]).into_iter();
            offers
                .filter(|offer| offer.size >= least[at])
                .map(|offer| offer.cost)
                .min()
        });
        let exact = match larger.iter().map(|larger| larger.cost).sum::<Cost>() == bound.sum() {
            true => Exactness::Exact,
            false => Exactness::Thinned,
        };
        Ok(Enlargement::new(larger, exact))
    }

    fn drawn(&self, at: usize) -> Option<NominalSize> {
        self.sections[at].sizing.size
    }

    /// Sizes that carry, raised in rounds from those on the drawing. New pipe that the method sizes goes along.
    fn raised(&self, taken: Taken) -> Result<Vec<Option<NominalSize>>, NoAnswer> {
        let survey = self.survey;
        let mut sizes: Vec<Option<NominalSize>> = (0..self.sections.len()).map(|at| self.drawn(at)).collect();
        loop {
            let designs = settle::lengths(survey, self.obstacles, &sizes);
            let before = sizes.clone();
            for (at, stretch) in survey.stretches.iter().enumerate() {
                let load = survey.load_of(stretch).flow;
                if self.sections[at].sizing.origin == Origin::Found {
                    sizes[at] = settle::found(survey, self.capacities, stretch, designs[at].total()).max(sizes[at]);
                    continue;
                }
                let (Some(size), true) = (sizes[at], load.cfh() > 0.0) else {
                    continue;
                };
                let carrier = self.capacities.at(survey, stretch, designs[at].total());
                let enough = |size| carrier.capacity(size).map(|found| carries(found.flow, load));
                if enough(size).ok_or(NoAnswer::NoSize(at))? {
                    continue;
                }
                let serves = |offer: &Choice| offer.size > Some(size) && offer.size.and_then(enough) == Some(true);
                let larger = self.offers(stretch).into_iter().filter(serves);
                let best = match taken {
                    Taken::Smallest => larger.min_by_key(|offer| offer.size),
                    Taken::Cheapest => larger.min_by_key(|offer| (offer.cost, offer.size)),
                };
                // A size may serve that only this price does not know.
                let none = || match self.offers_by(&Price::Length, stretch).iter().any(serves) {
                    true => least_cost::unpriced(self.price, at, stretch),
                    false => NoAnswer::NoSize(at),
                };
                sizes[at] = best.ok_or_else(none)?.size;
            }
            // Each round raises a section, and there are only so many sizes.
            if sizes == before {
                return Ok(sizes);
            }
        }
    }

    fn by_pressure(&self, margin: PressureDrop) -> Result<Enlargement, NoAnswer> {
        let needs = least_cost::needs(self.survey, margin)?;
        let mut choices = Vec::with_capacity(self.sections.len());
        for (at, (stretch, section)) in self.survey.stretches.iter().zip(&self.sections).enumerate() {
            let mut own = vec![as_drawn(section)];
            match section.sizing.origin {
                Origin::Unknown => return Err(NoAnswer::SizeUnknown(at)),
                Origin::Found if section.sizing.size.is_none() => return Err(NoAnswer::NoSize(at)),
                Origin::Connector => {}
                Origin::Known | Origin::Fixed | Origin::Found => {
                    let larger = self
                        .offers(stretch)
                        .into_iter()
                        .filter(|offer| offer.size > section.sizing.size);
                    // Among equals the smaller size: each step up counts a trace.
                    own.extend(larger.enumerate().map(|(step, offer)| Choice {
                        cost: self.further(section, offer) + Cost::trace(step + 1),
                        ..offer
                    }));
                }
            }
            choices.push(own);
        }
        let question = Question {
            survey: self.survey,
            obstacles: self.obstacles,
            choices: &choices,
            needs: &needs,
        };
        let answer = question.answer().ok_or(NoAnswer::TooLittlePressure)?;
        let chosen = choices
            .iter()
            .zip(&answer.chosen)
            .map(|(own, &chosen)| own[chosen].size);
        let larger = chosen
            .enumerate()
            .filter_map(|(at, size)| self.larger(at, size?, Origin::Fixed));
        Ok(Enlargement::new(larger.collect(), answer.exact))
    }

    /// What a larger size costs: of pipe that is bought anyway, the difference to the size that is found.
    fn further(&self, section: &Section, offer: Choice) -> Cost {
        let found = match (section.sizing.origin, section.sizing.size) {
            (Origin::Found, Some(size)) => self
                .price
                .of(self.survey.book, section.material, size, section.measured),
            _ => None,
        };
        offer.cost.beyond(found.unwrap_or(Cost::ZERO))
    }

    /// A section at a larger size than drawn; `None` where it is the same.
    fn larger(&self, at: usize, size: NominalSize, origin: Origin) -> Option<Larger> {
        let section = &self.sections[at];
        let was = section.sizing.size.filter(|was| *was != size)?;
        let offers = self.offers(&self.survey.stretches[at]);
        let offer = offers.into_iter().find(|offer| offer.size == Some(size))?;
        Some(Larger {
            section: at,
            runs: section.runs.clone(),
            was,
            size,
            origin,
            length: section.measured,
            cost: self.further(section, offer),
        })
    }
}
