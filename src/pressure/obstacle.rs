//! What stands in the way of gas along each run, and the length of straight pipe that it is worth.
//!
//! A fitting counts to the run that gas enters through it, at the bore of the run before it: a worked Canadian proof
//! does so (a branch tee counts by its inlet), and where the two bores differ it is the longer length. A valve counts to
//! the run that ends at it, unless its own drop is rated. In a ring gas may come against the tree: [`Obstacles::enter`].

use super::rating;
use crate::codebook::{Allowance, EXTRA_PER_TURN, Fitting, TURNS_INCLUDED};
use crate::job::{Device, Turn};
use crate::network::{Meeting, Passage, Stretch, Survey, Way, meeting};
use crate::units::{InsideDiameter, Length, NominalSize};
use std::collections::BTreeMap;

/// End fittings of a length of corrugated tubing, which its tables include beside the bends.
const END_FITTINGS: usize = 2;

/// How gas comes into a run: straight on, through a fitting, and perhaps through a bend of tubing beside it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Entry {
    fitting: Option<Fitting>,
    bend: bool,
}

/// What stands in the way along the runs of a job.
pub(crate) struct Obstacles {
    entry: Vec<Entry>,
    /// For each run whether it enters through a bend of tubing beyond those that the tables include.
    further_bend: Vec<bool>,
    valve: Vec<Option<Fitting>>,
    /// For each run in a ring, once it was solved, the run by which gas comes to it.
    before: BTreeMap<usize, Option<usize>>,
}

/// What kind of length is asked for.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Measure {
    /// That which a sizing proof counts.
    Counted,
    /// That which loses as much pressure.
    Lost,
}

impl Obstacles {
    pub(crate) fn find(survey: &Survey, meetings: &[Meeting]) -> Obstacles {
        let runs = survey.job.runs.len();
        let mut obstacles = Obstacles {
            entry: vec![Entry::default(); runs],
            further_bend: vec![false; runs],
            valve: vec![None; runs],
            before: BTreeMap::new(),
        };
        for (run, ends) in survey.network.ends.iter().enumerate() {
            // A hose bends as it lies, and what stands in it is its own: neither is a fitting of the piping.
            let Some((from, to)) = ends.filter(|_| !survey.is_hose(run)) else {
                continue;
            };
            obstacles.entry[run] = entered(survey, meetings, from, survey.network.feed[from], run);
            obstacles.valve[run] = survey.devices[to].and_then(rating::stands_for);
        }
        for closing in &survey.network.closings {
            let before = survey.network.feed[closing.from];
            obstacles.entry[closing.run] = entered(survey, meetings, closing.from, before, closing.run);
        }
        obstacles.count_bends(survey);
        obstacles
    }

    /// Finds the bends beyond those that the tables of corrugated tubing include, in each piece between branchings.
    pub(crate) fn count_bends(&mut self, survey: &Survey) {
        let mut turns = END_FITTINGS;
        for stretch in &survey.stretches {
            if !stretch.goes_on {
                turns = END_FITTINGS;
            }
            for &run in survey.runs_of(stretch) {
                turns += usize::from(self.entry[run].bend);
                self.further_bend[run] = self.entry[run].bend && turns > TURNS_INCLUDED;
            }
        }
    }

    /// Counts the fitting at a joint to a run that gas really enters there, coming by the run before it; tells whether
    /// that changed anything. For rings; the bends are to be counted anew when all are told.
    pub(crate) fn enter(
        &mut self,
        survey: &Survey,
        meetings: &[Meeting],
        run: usize,
        from: usize,
        before: Option<usize>,
    ) -> bool {
        let entry = entered(survey, meetings, from, before, run);
        let changed = self.entry[run] != entry;
        self.entry[run] = entry;
        self.before.insert(run, before) != Some(before) || changed
    }

    /// For a run in a solved ring the run by which gas comes to it; `None` for another run.
    pub(crate) fn before(&self, run: usize) -> Option<Option<usize>> {
        self.before.get(&run).copied()
    }

    /// The straight pipe that a run's entry and valve are worth.
    pub(crate) fn worth(&self, survey: &Survey, bores: &Bores, run: usize, measure: Measure) -> Length {
        let own = survey.section_of[run].and_then(|section| bores.of(section));
        let before = survey.section_of[run].and_then(|section| {
            let first = survey.runs_of(&survey.stretches[section]).first() == Some(&run);
            if first {
                bores.of(survey.stretches[section].fed_by?)
            } else {
                own
            }
        });
        self.worth_at(survey, run, own, before, measure)
    }

    /// The same at a bore of the run's own and one of the run before it.
    pub(crate) fn worth_at(
        &self,
        survey: &Survey,
        run: usize,
        own: Option<InsideDiameter>,
        before: Option<InsideDiameter>,
        measure: Measure,
    ) -> Length {
        let length = |fitting: Fitting, bore: Option<InsideDiameter>| {
            let marked = match measure {
                Measure::Counted => survey.book.equivalent_length(fitting, bore?),
                Measure::Lost => survey.book.loss_length(fitting, bore?),
            };
            marked.map(|length| length.value)
        };
        let entered = self.entry[run]
            .fitting
            .and_then(|fitting| length(fitting, before.or(own)));
        let valve = self.valve[run].and_then(|valve| length(valve, own));
        entered.unwrap_or_default() + valve.unwrap_or_default()
    }

    /// Length added for a bend by which a run is entered, where it is one beyond those that the tables of corrugated
    /// tubing include.
    pub(crate) fn worth_of_bend(&self, run: usize) -> Length {
        match self.further_bend[run] {
            true => Length::from_feet(EXTRA_PER_TURN),
            false => Length::ZERO,
        }
    }

    /// Fittings and valves that a proof counts in a stretch: turns, branches of tees, valves.
    fn count(&self, survey: &Survey, stretch: &Stretch) -> usize {
        let turns = |run: usize| {
            self.entry[run]
                .fitting
                .is_some_and(|fitting| fitting != Fitting::TeeRun)
        };
        let runs = survey.runs_of(stretch).iter();
        runs.map(|&run| usize::from(turns(run)) + usize::from(self.valve[run].is_some()))
            .sum()
    }

    /// The same in all of the piece between branchings that a section is part of.
    fn count_of_piece(&self, survey: &Survey, section: usize) -> usize {
        let stretches = &survey.stretches;
        // The parts of a piece follow each other.
        let first = (0..=section)
            .rev()
            .find(|&part| !stretches[part].goes_on)
            .unwrap_or(section);
        let others = stretches.iter().skip(first + 1).take_while(|part| part.goes_on);
        let parts = std::iter::once(&stretches[first]).chain(others);
        parts.map(|part| self.count(survey, part)).sum()
    }

    /// The length that a section's fittings add under the profile's rule.
    pub(crate) fn added(&self, survey: &Survey, bores: &Bores, section: usize) -> Length {
        let stretch = &survey.stretches[section];
        let runs = survey.runs_of(stretch);
        let bends = match stretch.material.bends() {
            true => runs.iter().map(|&run| self.worth_of_bend(run)).sum(),
            false => Length::ZERO,
        };
        match survey.profile.fittings {
            Allowance::SectionHas(least) if self.count_of_piece(survey, section) >= least.max(1) => {
                let counted = runs.iter().map(|&run| self.worth(survey, bores, run, Measure::Counted));
                bends + counted.sum()
            }
            Allowance::SectionHas(_) | Allowance::Never | Allowance::Factor(_) => bends,
        }
    }
}

/// How gas comes into a run at a joint, from the run before it or from what stands there.
fn entered(survey: &Survey, meetings: &[Meeting], from: usize, before: Option<usize>, run: usize) -> Entry {
    let way = (before.map_or(Way::Device, Way::run), Way::run(run));
    let passage = match survey.devices[from] {
        Some(Device::TestGauge) => meeting::in_service(survey, from).passage(way.0, way.1),
        _ => meetings[from].passage(way.0, way.1),
    };
    let turn = before.map_or(0.0, |before| meeting::turn(survey, from, before, run));
    let bends = [Some(run), before]
        .into_iter()
        .flatten()
        .any(|run| survey.materials[run].bends());
    entry(passage, turn, survey.job.joints.at(from).turn, bends)
}

/// The entry of a passage that turns by so many degrees; `bends` for tubing, which turns beside its fittings.
fn entry(passage: Passage, turn: f64, elbow: Turn, bends: bool) -> Entry {
    let turns = turn > meeting::SAME;
    // Rigid pipe that turns has not come through the run of a tee, and no outlet counts less than a turn as sharp.
    let outlet = || match turn_of(turn, elbow) {
        Fitting::Return180 => Fitting::Return180,
        _ => Fitting::TeeBranch,
    };
    let fitting = match passage {
        Passage::Straight => None,
        Passage::Turn if bends => None,
        Passage::Turn => Some(turn_of(turn, elbow)),
        Passage::ThroughRun if bends || !turns => Some(Fitting::TeeRun),
        Passage::ThroughRun | Passage::ThroughOutlet | Passage::Beside => Some(outlet()),
    };
    let beside = match passage {
        Passage::Straight | Passage::ThroughOutlet => false,
        Passage::Turn | Passage::ThroughRun | Passage::Beside => turns,
    };
    Entry {
        fitting,
        bend: bends && beside,
    }
}

/// A turn of an angle that no stock fitting has counts as the next sharper one.
fn turn_of(degrees: f64, elbow: Turn) -> Fitting {
    match (degrees, elbow) {
        (..50.0, _) => Fitting::Elbow45,
        (..100.0, elbow) if elbow.is_street() => Fitting::StreetElbow90,
        (..100.0, _) => Fitting::Elbow90,
        _ => Fitting::Return180,
    }
}

/// The bore of each section, where a size with a known bore is known.
pub(crate) struct Bores(Vec<Option<InsideDiameter>>);

impl Bores {
    pub(crate) fn new(survey: &Survey, sizes: &[Option<NominalSize>]) -> Bores {
        let look = |material, size: Option<NominalSize>| {
            let bore = survey.book.inside_diameter(material, size?)?;
            Some(bore.value)
        };
        // Most sections are of the size of the one before.
        let mut last = None;
        let bore = |(stretch, size): (&Stretch, &Option<NominalSize>)| {
            let of = (stretch.material, *size);
            let bore = match last {
                Some((same, bore)) if same == of => bore,
                _ => look(stretch.material, *size),
            };
            last = Some((of, bore));
            bore
        };
        Bores(survey.stretches.iter().zip(sizes).map(bore).collect())
    }

    /// The bore of a section.
    pub(crate) fn of(&self, section: usize) -> Option<InsideDiameter> {
        self.0[section]
    }
}
