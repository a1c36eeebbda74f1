//! The slow way to a row of a tie-in survey: the whole study of a copy of the job with the branch laid, read part by
//! part beside the whole study of the job.

use std::cmp::Reverse;
use stubout::advice::{Already, Fails, LowestInlet, PipeBought, TieIn, TieInPlace, Unjudged};
use stubout::codebook::Codebook;
use stubout::fittings::FittingKind;
use stubout::job::{Device, Job, JointId, Run, State};
use stubout::network::{Outlet, OutletKind};
use stubout::pressure::{DeviceStudy, RatingVerdict};
use stubout::sizing::{Origin, Verdict};
use stubout::study::Study;
use stubout::units::Length;
use stubout::work::{Cost, Price};

/// How a part stood without the branch.
#[derive(Clone, Copy, PartialEq)]
enum Was {
    Apart,
    Held,
    Failed,
    Unknown,
}

/// Both jobs, both studies.
pub struct Whole<'a> {
    job: &'a Job,
    laid: Job,
    before: &'a Study,
    after: Study,
    tapped: Option<&'a Run>,
    on_way: Vec<bool>,
    sections_on_way: Vec<bool>,
}

fn study(job: &Job) -> Study {
    Study::of(job, Codebook::published())
}

/// What each row of a survey should be.
pub fn check(job: &Job, rows: &[TieIn], every: usize) -> usize {
    let before = study(job);
    let some = rows.iter().step_by(every.max(1));
    some.map(|row| assert_eq!(*row, Whole::new(job, &before, row).read(row)))
        .count()
}

impl<'a> Whole<'a> {
    fn new(job: &'a Job, before: &'a Study, row: &TieIn) -> Whole<'a> {
        let laid = row.laid(job);
        let after = study(&laid);
        let mut on_way = vec![false; laid.joints.len()];
        let mut sections_on_way = vec![false; after.sections.len()];
        let mut at = laid.joints.position(row.head);
        while let Some(joint) = at {
            on_way[joint] = true;
            if let Some(section) = after.network.feed[joint].and_then(|run| after.runs[run].section) {
                sections_on_way[section] = true;
            }
            at = after.network.upstream(joint);
        }
        let tapped = match row.place {
            TieInPlace::Run { run, .. } => job.runs.get(run),
            TieInPlace::Joint(_) => None,
        };
        Whole {
            job,
            laid,
            before,
            after,
            tapped,
            on_way,
            sections_on_way,
        }
    }

    fn read(&self, row: &TieIn) -> TieIn {
        let mut fails = Vec::new();
        let mut unjudged = Vec::new();
        let mut already = Vec::new();
        self.sections(&mut fails, &mut unjudged, &mut already);
        self.devices(&mut fails, &mut unjudged, &mut already);
        self.inlets(&mut fails, &mut unjudged, &mut already);
        self.settings(&mut fails, &mut already);
        let pipe = self.pipe();
        let pounds =
            |pipe: &PipeBought| Price::Weight.of(Codebook::published(), pipe.material, pipe.size?, pipe.length);
        let new = |study: &Study| {
            let new = study.fittings.iter().filter(|fitting| fitting.state == State::New);
            // A bend of the tubing and a nipple are no fittings.
            new.filter(|fitting| !matches!(fitting.kind, FittingKind::Bend | FittingKind::Nipple))
                .count()
        };
        let appliances = || {
            self.after
                .outlets
                .iter()
                .filter(|outlet| outlet.kind == OutletKind::Appliance)
        };
        let lowest = appliances().filter(|outlet| outlet.margin.is_some());
        // Of equals the first.
        let lowest = lowest.reduce(|least, outlet| if outlet.margin < least.margin { outlet } else { least });
        TieIn {
            weight: pipe.iter().map(pounds).sum::<Option<Cost>>(),
            pipe,
            fittings: new(&self.after).saturating_sub(new(self.before)),
            failing: fails.len(),
            fails: fails.into_iter().take(8).collect(),
            failing_already: already.iter().filter(|part| part.worse).count(),
            over_already: already.len(),
            already: already.into_iter().take(8).collect(),
            unjudged: unjudged.len(),
            first_unjudged: unjudged.into_iter().next(),
            lowest: lowest.and_then(|outlet| {
                Some(LowestInlet {
                    joint: self.joint(outlet.joint),
                    name: outlet.name.clone(),
                    pressure: outlet.pressure?,
                    margin: outlet.margin?,
                })
            }),
            least_unknown: appliances()
                .filter(|outlet| outlet.least.is_none_or(|least| !least.pa().is_finite()))
                .count(),
            ..row.clone()
        }
    }

    fn joint(&self, joint: usize) -> JointId {
        self.laid.joints.at(joint).id
    }

    /// The run of the job that a run of the laid job is, or is part of.
    fn old(&self, run: usize) -> Option<usize> {
        let drawn = self.laid.runs.at(run);
        self.job.runs.position(drawn.id).or_else(|| {
            let tapped = self.tapped?;
            let near = self.laid.runs.get(tapped.id)?;
            (drawn.from == near.to && drawn.to == tapped.to).then(|| self.job.runs.position(tapped.id))?
        })
    }

    fn was(&self, run: usize) -> Was {
        let section = self.old(run).and_then(|old| self.before.runs[old].section);
        match section.map(|section| &self.before.sections[section].sizing) {
            None => Was::Apart,
            Some(sizing) if sizing.origin == Origin::Connector => Was::Apart,
            Some(sizing) => match sizing.verdict {
                Verdict::Carries => Was::Held,
                Verdict::TooSmall => Was::Failed,
                Verdict::Unknown => Was::Unknown,
            },
        }
    }

    fn is_branch(&self, run: usize) -> bool {
        self.old(run).is_none_or(|old| self.before.runs[old].section.is_none())
    }

    fn pipe(&self) -> Vec<PipeBought> {
        let mut bought: Vec<PipeBought> = Vec::new();
        for section in &self.after.sections {
            if section.sizing.origin == Origin::Connector || section.state != State::New {
                continue;
            }
            let own: Vec<usize> = section
                .runs
                .iter()
                .copied()
                .filter(|&run| self.is_branch(run))
                .collect();
            if own.is_empty() {
                continue;
            }
            let length = own
                .iter()
                .map(|&run| self.after.runs[run].length.max(Length::ZERO))
                .sum();
            let (material, size) = (section.material, section.sizing.size);
            let alike = |pipe: &&mut PipeBought| (pipe.material, pipe.size) == (material, size);
            match bought.iter_mut().find(alike) {
                Some(pipe) => pipe.length += length,
                None => bought.push(PipeBought {
                    material,
                    size,
                    length,
                    names: self.after.names,
                }),
            }
        }
        bought.sort_by_key(|pipe| (pipe.material, Reverse(pipe.size)));
        bought
    }

    fn sections(&self, fails: &mut Vec<Fails>, unjudged: &mut Vec<Unjudged>, already: &mut Vec<Already>) {
        for (at, section) in self.after.sections.iter().enumerate() {
            let id = |run: usize| self.old(run).map(|old| self.job.runs.at(old).id);
            let on_way = self.sections_on_way[at];
            let failed = section.runs.iter().all(|&run| self.was(run) == Was::Failed);
            let unknown = section.runs.iter().all(|&run| self.was(run) == Was::Unknown);
            let asked = section.load.flow.cfh() > 0.0 || section.load.unknown > 0;
            match section.sizing.verdict {
                _ if section.sizing.origin == Origin::Connector => {}
                Verdict::Carries => {}
                Verdict::TooSmall => {
                    let part = Fails::Pipe {
                        first: id(section.runs[0]).unwrap_or(self.laid.runs.at(section.runs[0]).id),
                        further: section.runs.len() - 1,
                        carried: section.load.flow,
                        capacity: section.sizing.capacity().map(|capacity| capacity.flow),
                    };
                    tell(part, failed.then_some(on_way), fails, already);
                }
                Verdict::Unknown if asked && (on_way || !unknown) => {
                    let old = section.runs.iter().find_map(|&run| id(run));
                    unjudged.push(old.map_or(Unjudged::NewLine, Unjudged::Pipe));
                }
                Verdict::Unknown => {}
            }
        }
    }

    fn devices(&self, fails: &mut Vec<Fails>, unjudged: &mut Vec<Unjudged>, already: &mut Vec<Already>) {
        for device in &self.after.devices {
            let (joint, name) = (self.joint(device.joint), device.name());
            let same = |old: &&DeviceStudy| (self.job.joints.at(old.joint).id, old.name()) == (joint, name);
            let was = self.before.devices.iter().find(same).map(|old| old.verdict);
            let on_way = self.on_way[device.joint];
            match device.verdict {
                RatingVerdict::Exceeded => {
                    let part = Fails::Device {
                        joint,
                        name,
                        carried: device.flow,
                        capacity: device.capacity,
                    };
                    let failed = was == Some(RatingVerdict::Exceeded);
                    tell(part, failed.then_some(on_way), fails, already);
                }
                RatingVerdict::Unknown if on_way || was != Some(RatingVerdict::Unknown) => {
                    unjudged.push(Unjudged::Device { joint, name });
                }
                RatingVerdict::Within | RatingVerdict::Unknown => {}
            }
        }
    }

    fn inlets(&self, fails: &mut Vec<Fails>, unjudged: &mut Vec<Unjudged>, already: &mut Vec<Already>) {
        let low = |outlet: &Outlet| outlet.margin.is_some_and(|margin| margin.pa() < 0.0);
        for outlet in self
            .after
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance)
        {
            let joint = self.joint(outlet.joint);
            let same = |old: &&Outlet| self.job.joints.at(old.joint).id == joint;
            let was = self.before.outlets.iter().find(same);
            match was {
                _ if low(outlet) => {
                    let part = Fails::Inlet {
                        joint,
                        name: outlet.name.clone(),
                        pressure: outlet.pressure,
                        least: outlet.least,
                    };
                    let was = was.filter(|was| low(was));
                    tell(part, was.map(|was| outlet.pressure < was.pressure), fails, already);
                }
                _ if outlet.pressure.is_none() && was.is_none_or(|was| was.pressure.is_some()) => {
                    unjudged.push(Unjudged::Inlet(joint));
                }
                _ => {}
            }
        }
    }

    /// Line regulators behind which less is left than they are set to.
    fn settings(&self, fails: &mut Vec<Fails>, already: &mut Vec<Already>) {
        let behind = |job: &Job, study: &Study, id: JointId| {
            let joint = job.joints.position(id)?;
            let Some(Device::Regulator(regulator)) = job.joints.at(joint).device() else {
                return None;
            };
            let pressure = study.joints[joint].pressure?;
            (pressure < regulator.outlet?).then_some(pressure)
        };
        for device in &self.after.devices {
            let joint = self.joint(device.joint);
            let Some(pressure) = behind(&self.laid, &self.after, joint) else {
                continue;
            };
            let Some(Device::Regulator(regulator)) = self.laid.joints.at(device.joint).device() else {
                continue;
            };
            let part = Fails::Setting {
                joint,
                pressure: Some(pressure),
                setting: regulator.outlet,
            };
            let was = behind(self.job, self.before, joint);
            tell(part, was.map(|was| pressure < was), fails, already);
        }
    }
}

/// `over` says of a part that was over its limit without the branch whether it is worse with it.
fn tell(part: Fails, over: Option<bool>, fails: &mut Vec<Fails>, already: &mut Vec<Already>) {
    match over {
        Some(worse) => already.push(Already { part, worse }),
        None => fails.push(part),
    }
}
