//! What stands in the way of gas along each run, and the length of straight pipe that it is worth.
//!
//! A fitting counts to the run that gas enters through it, at the bore of the run before it: a worked Canadian proof
//! does so (a branch tee counts by its inlet), and where the two bores differ it is the longer length. A valve counts to
//! the run that ends at it, unless its own drop is rated. In a ring gas may come against the tree: [`Obstacles::turn`].

use super::device;
use super::march::March;
use super::meeting::{Meeting, Passage, Way};
use super::survey::Survey;
use crate::codebook::{Allowance, EXTRA_PER_TURN, Fitting, TURNS_INCLUDED};
use crate::job::{Device, Joint, Material, Turn};
use crate::units::{InsideDiameter, Length, NominalSize};
use std::collections::BTreeMap;

/// End fittings of a length of corrugated tubing, which its tables include beside the bends.
const END_FITTINGS: usize = 2;

/// How gas comes into a run.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Entry {
    /// Straight on.
    #[default]
    Open,
    /// Through a bend of the tubing.
    Bend,
    /// Through a fitting.
    Fitting(Fitting),
}

/// What stands in the way along the runs of a job.
pub(super) struct Obstacles {
    entry: Vec<Entry>,
    valve: Vec<Option<Fitting>>,
    /// For each run in a ring, once it was solved, the run by which gas comes to it.
    before: BTreeMap<usize, Option<usize>>,
}

/// What kind of length is asked for.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Measure {
    /// That which a sizing proof counts.
    Counted,
    /// That which loses as much pressure.
    Lost,
}

impl Obstacles {
    pub(super) fn find(survey: &Survey, meetings: &[Meeting]) -> Obstacles {
        let runs = survey.job.runs.len();
        let mut obstacles = Obstacles {
            entry: vec![Entry::Open; runs],
            valve: vec![None; runs],
            before: BTreeMap::new(),
        };
        for (run, ends) in survey.network.ends.iter().enumerate() {
            let Some((from, to)) = *ends else { continue };
            obstacles.entry[run] = entered(survey, meetings, from, survey.network.feed[from], run);
            obstacles.valve[run] = match survey.devices[to] {
                Some(Device::Valve(valve)) if !device::tells_loss(&valve.rating) => Some(Fitting::of_valve(valve.kind)),
                _ => None,
            };
        }
        for closing in &survey.network.closings {
            let before = survey.network.feed[closing.from];
            obstacles.entry[closing.run] = entered(survey, meetings, closing.from, before, closing.run);
        }
        obstacles
    }

    /// Counts the fittings of rings to the runs that gas really enters through them, and tells whether that changed
    /// anything. Of several runs that bring gas to a joint the one that brings most counts as before.
    pub(super) fn turn(&mut self, survey: &Survey, meetings: &[Meeting], march: &March) -> bool {
        let mut changed = false;
        for ring in march.rings.iter().filter(|ring| ring.unsolved.is_none()) {
            let flow = |run: usize| march.flowing[run].map_or(0.0, |flowing| flowing.flow.cfh());
            let mut brings: BTreeMap<usize, usize> = BTreeMap::new();
            for &run in &ring.runs {
                let Some((_, to)) = march.way[run] else { continue };
                let most = brings.entry(to).or_insert(run);
                if flow(run) > flow(*most) {
                    *most = run;
                }
            }
            for &run in &ring.runs {
                let Some((from, _)) = march.way[run] else { continue };
                let before = match brings.get(&from) {
                    Some(&before) if from != ring.entry => Some(before),
                    _ => survey.network.feed[from].filter(|feed| *feed != run),
                };
                let entry = entered(survey, meetings, from, before, run);
                changed |= self.entry[run] != entry;
                self.entry[run] = entry;
                changed |= self.before.insert(run, before) != Some(before);
            }
        }
        changed
    }

    /// For a run in a solved ring the run by which gas comes to it; `None` for another run.
    pub(super) fn before(&self, run: usize) -> Option<Option<usize>> {
        self.before.get(&run).copied()
    }

    /// The straight pipe that a run's entry and valve are worth.
    pub(super) fn worth(&self, survey: &Survey, bores: &Bores, run: usize, measure: Measure) -> Length {
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
    pub(super) fn worth_at(
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
        let entered = match self.entry[run] {
            Entry::Fitting(fitting) => length(fitting, before.or(own)),
            Entry::Open | Entry::Bend => None,
        };
        let valve = self.valve[run].and_then(|valve| length(valve, own));
        entered.unwrap_or_default() + valve.unwrap_or_default()
    }

    /// Length added for bends of corrugated tubing beyond those that its tables include, for each further bend of a
    /// run; `bends` counts those of the section so far.
    pub(super) fn worth_of_bend(&self, run: usize, bends: &mut usize) -> Length {
        if self.entry[run] != Entry::Bend {
            return Length::ZERO;
        }
        *bends += 1;
        match *bends + END_FITTINGS > TURNS_INCLUDED {
            true => Length::from_feet(EXTRA_PER_TURN),
            false => Length::ZERO,
        }
    }

    /// Fittings and valves that a proof counts in a section: turns, branches of tees, valves.
    pub(super) fn count(&self, runs: &[usize]) -> usize {
        let turns = |run: &&usize| matches!(self.entry[**run], Entry::Fitting(fitting) if fitting != Fitting::TeeRun);
        runs.iter().filter(turns).count() + runs.iter().filter(|run| self.valve[**run].is_some()).count()
    }

    /// The length that a section's fittings add under the profile's rule.
    pub(super) fn added(&self, survey: &Survey, bores: &Bores, section: usize) -> Length {
        let stretch = &survey.stretches[section];
        let runs = survey.runs_of(stretch);
        let mut bends = 0;
        let mut added = Length::ZERO;
        if stretch.material == Material::Csst {
            added = runs.iter().map(|&run| self.worth_of_bend(run, &mut bends)).sum();
        }
        match survey.profile.fittings {
            Allowance::SectionHas(least) if self.count(runs) >= least.max(1) => {
                added
                    + runs
                        .iter()
                        .map(|&run| self.worth(survey, bores, run, Measure::Counted))
                        .sum()
            }
            Allowance::SectionHas(_) | Allowance::Never | Allowance::Factor(_) => added,
        }
    }
}

/// How gas comes into a run at a joint, from the run before it or from what stands there.
fn entered(survey: &Survey, meetings: &[Meeting], from: usize, before: Option<usize>, run: usize) -> Entry {
    let passage = meetings[from].passage(before.map_or(Way::Device, Way::run), Way::run(run));
    let bends = [Some(run), before]
        .into_iter()
        .flatten()
        .any(|run| survey.materials[run].bends());
    entry(passage, survey.job.joints.at(from), bends)
}

fn entry(passage: Passage, joint: &Joint, bends: bool) -> Entry {
    match passage {
        Passage::Straight => Entry::Open,
        Passage::Turn(_) if bends => Entry::Bend,
        // A turn of an angle that no stock fitting has counts as the next sharper one.
        Passage::Turn(degrees) if degrees < 50.0 => Entry::Fitting(Fitting::Elbow45),
        Passage::Turn(degrees) if degrees < 100.0 => Entry::Fitting(match joint.turn {
            Turn::Elbow => Fitting::Elbow90,
            Turn::StreetElbow => Fitting::StreetElbow90,
        }),
        Passage::Turn(_) => Entry::Fitting(Fitting::Return180),
        Passage::ThroughRun => Entry::Fitting(Fitting::TeeRun),
        Passage::ThroughOutlet => Entry::Fitting(Fitting::TeeBranch),
    }
}

/// The bore of each section, where a size with a known bore is known.
pub(super) struct Bores(Vec<Option<InsideDiameter>>);

impl Bores {
    pub(super) fn new(survey: &Survey, sizes: &[Option<NominalSize>]) -> Bores {
        let bore = |(stretch, size): (&super::section::Stretch, &Option<NominalSize>)| {
            survey
                .book
                .inside_diameter(stretch.material, (*size)?)
                .map(|bore| bore.value)
        };
        Bores(survey.stretches.iter().zip(sizes).map(bore).collect())
    }

    /// The bore of a section.
    pub(super) fn of(&self, section: usize) -> Option<InsideDiameter> {
        self.0[section]
    }
}
