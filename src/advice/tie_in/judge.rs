//! What would be with the branch at a place, held against what is without it.

use super::branch;
use super::place::Spot;
use crate::advice::{Already, Blocked, Fails, LowestInlet, PipeBought, RouteLeg, TieIn, TieInPlace, Unjudged};
use crate::codebook::{Codebook, Profile, SizeNames};
use crate::fittings::making;
use crate::job::{Device, Job, JointId, RunId, State};
use crate::network::{Course, Outlet, OutletKind, Stretch};
use crate::pressure::{DeviceStudy, RatingVerdict, device};
use crate::sizing::{Figures, Origin, Verdict};
use crate::study::Study;
use crate::units::Flow;
use crate::work::{Cost, Price};
use std::collections::HashMap;

/// So many failing parts are told one by one.
const TOLD: usize = 8;

/// How a part stood without the branch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Was {
    /// No gas came there, or it is no pipe.
    Apart,
    Held,
    Failed,
    Unknown,
}

/// What is the same for all places.
pub struct Judge<'a> {
    job: &'a Job,
    book: &'a Codebook,
    profile: &'a Profile,
    before: &'a Study,
    head: JointId,
    /// For each run of the job.
    runs: Vec<Was>,
    devices: HashMap<(JointId, &'static str), DeviceStudy>,
    /// The position in `before.outlets` of each joint's outlet.
    outlets: HashMap<JointId, usize>,
    fittings: usize,
    /// The figures without the branch, and for each joint how many fittings of new work there are.
    figures: Figures<'a>,
    fittings_at: Vec<usize>,
}

impl<'a> Judge<'a> {
    pub fn new(job: &'a Job, book: &'a Codebook, profile: &'a Profile, before: &'a Study, head: JointId) -> Judge<'a> {
        let mut runs = vec![Was::Apart; job.runs.len()];
        for section in &before.sections {
            for &run in &section.runs {
                runs[run] = match (section.sizing.origin, section.sizing.verdict) {
                    (Origin::Connector, _) => Was::Apart,
                    (_, Verdict::Carries) => Was::Held,
                    (_, Verdict::TooSmall) => Was::Failed,
                    (_, Verdict::Unknown) => Was::Unknown,
                };
            }
        }
        let id = |joint: usize| job.joints.at(joint).id;
        let devices = before.devices.iter();
        let outlets = before.outlets.iter().enumerate();
        let figures = Figures::of(job, book, profile, None);
        let at = |joint| making::count_new(&figures.survey, &figures.meetings, &figures.sizes, joint);
        let fittings_at = (0..job.joints.len()).map(at).collect();
        Judge {
            figures,
            fittings_at,
            devices: devices
                .map(|device| ((id(device.joint), device.name()), device.clone()))
                .collect(),
            outlets: outlets.map(|(at, outlet)| (id(outlet.joint), at)).collect(),
            fittings: before.fittings.iter().filter(|fitting| fitting.is_new_work()).count(),
            job,
            book,
            profile,
            before,
            head,
            runs,
        }
    }

    /// Lays the branch at a place, in a copy of the job that is given back as it was, and looks.
    pub fn row(&self, copy: &mut Job, spot: &Spot, route: Vec<RouteLeg>, blocked: Option<Blocked>) -> TieIn {
        let mut row = TieIn::unjudged(spot, self.head, route, blocked);
        branch::lay(copy, &row);
        self.look(copy, &mut row);
        branch::take_back(copy, self.job, &row);
        row
    }

    fn look(&self, laid: &Job, row: &mut TieIn) {
        let after = Figures::of(laid, self.book, self.profile, None);
        let sides = Sides {
            judge: self,
            after: &after,
            way: Way::to(&after, self.head),
            tapped: match row.place {
                TieInPlace::Run { run, .. } => Some(run),
                TieInPlace::Joint(_) => None,
            },
        };
        row.no_valve_above = !self.is_behind_a_valve(&sides.way);
        sides.pipe(row);
        sides.sections(row);
        let devices = device::all(&after.survey, &after.march);
        sides.devices(row, &devices);
        sides.inlets(row);
        sides.settings(row, &devices);
        let fittings: usize = (0..laid.joints.len()).map(|joint| sides.fittings_at(joint)).sum();
        row.fittings = fittings.saturating_sub(self.fittings);
        let pounds = |pipe: &PipeBought| Price::Weight.of(self.book, pipe.material, pipe.size?, pipe.length);
        row.weight = row.pipe.iter().map(pounds).sum::<Option<Cost>>();
    }
}

impl Judge<'_> {
    /// Whether a valve shuts the place: one between it and the point of delivery, on piping that had gas before.
    fn is_behind_a_valve(&self, way: &Way) -> bool {
        let joints = self.job.joints.iter().enumerate();
        let mut above = joints.filter(|(at, _)| way.joints.get(*at) == Some(&true));
        above.any(|(at, joint)| {
            self.before.network.feed[at].is_some() && matches!(joint.device(), Some(Device::Valve(_)))
        })
    }
}

/// What lies between the point of delivery and the head.
struct Way {
    /// For each section of the study after.
    sections: Vec<bool>,
    /// For each joint.
    joints: Vec<bool>,
}

impl Way {
    fn to(after: &Figures, head: JointId) -> Way {
        let survey = &after.survey;
        let mut way = Way {
            sections: vec![false; survey.stretches.len()],
            joints: vec![false; survey.job.joints.len()],
        };
        let head = survey.job.joints.position(head);
        for joint in head.into_iter().flat_map(|head| survey.network.way_up(head)) {
            way.joints[joint] = true;
            if let Some(section) = survey.network.feed[joint].and_then(|run| survey.section_of[run]) {
                way.sections[section] = true;
            }
        }
        way
    }
}

struct Sides<'a> {
    judge: &'a Judge<'a>,
    after: &'a Figures<'a>,
    way: Way,
    /// The run that is tapped: its other part is a run of the laid job only.
    tapped: Option<RunId>,
}

impl Sides<'_> {
    fn laid(&self) -> &Job {
        self.after.survey.job
    }

    fn joint(&self, joint: usize) -> JointId {
        self.laid().joints.at(joint).id
    }

    /// The run of the job that a run of the laid job is, or is part of.
    fn old(&self, run: usize) -> Option<usize> {
        let drawn = self.laid().runs.at(run);
        let own = self.judge.job.runs.position(drawn.id);
        own.or_else(|| {
            let tapped = self.tapped.filter(|_| self.is_far_part(drawn))?;
            self.judge.job.runs.position(tapped)
        })
    }

    /// Whether a run that the job does not have is the far part of the tapped run, not of the new line.
    fn is_far_part(&self, run: &crate::job::Run) -> bool {
        let tapped = self.tapped.and_then(|tapped| self.judge.job.runs.get(tapped));
        let middle = self.tapped.and_then(|tapped| self.laid().runs.get(tapped));
        tapped
            .zip(middle)
            .is_some_and(|(tapped, near)| run.from == near.to && run.to == tapped.to)
    }

    fn was(&self, run: usize) -> Was {
        self.old(run).map_or(Was::Apart, |old| self.judge.runs[old])
    }

    /// How many fittings of new work there are at a joint: most joints are as they are without the branch.
    fn fittings_at(&self, joint: usize) -> usize {
        let (was, is) = (&self.judge.figures, self.after);
        let size = |figures: &Figures, run: usize| match figures.survey.section_of[run] {
            Some(section) => figures.sizes[section],
            None => figures.survey.given[run],
        };
        let is_same_run = |run: usize| {
            self.old(run) == Some(run)
                && Some(self.laid().runs.at(run).id) != self.tapped
                && was.survey.ways[run] == is.survey.ways[run]
                && was.survey.is_hose(run) == is.survey.is_hose(run)
                && size(was, run) == size(is, run)
        };
        let is_same = self.judge.job.joints.position(self.joint(joint)) == Some(joint)
            && was.survey.network.feed[joint] == is.survey.network.feed[joint]
            && was.survey.network.legs(joint).eq(is.survey.network.legs(joint))
            && is.survey.network.legs(joint).all(is_same_run)
            && was.meetings[joint] == is.meetings[joint];
        match is_same {
            true => self.judge.fittings_at[joint],
            false => making::count_new(&is.survey, &is.meetings, &is.sizes, joint),
        }
    }

    /// The new line and what hangs on it.
    fn pipe(&self, row: &mut TieIn) {
        let survey = &self.after.survey;
        for (stretch, &size) in survey.stretches.iter().zip(&self.after.sizes) {
            let runs = survey.runs_of(stretch);
            let is_branch = stretch.course == Course::Pipe
                && stretch.state == State::New
                && runs.iter().any(|&run| self.is_branch(run));
            if !is_branch {
                continue;
            }
            let own = runs.iter().filter(|&&run| self.is_branch(run));
            let length = own.map(|&run| survey.lengths[run]).sum();
            let material = stretch.material;
            match row
                .pipe
                .iter_mut()
                .find(|pipe| (pipe.material, pipe.size) == (material, size))
            {
                Some(pipe) => pipe.length += length,
                None => row.pipe.push(PipeBought {
                    material,
                    size,
                    length,
                    names: SizeNames::of(&self.laid().settings, self.judge.profile),
                }),
            }
        }
        row.pipe
            .sort_by_key(|pipe| (pipe.material, std::cmp::Reverse(pipe.size)));
    }

    /// Whether gas did not come to a run without the branch.
    fn is_branch(&self, run: usize) -> bool {
        self.old(run)
            .is_none_or(|old| self.judge.before.runs[old].section.is_none())
    }

    fn sections(&self, row: &mut TieIn) {
        for (at, stretch) in self.after.survey.stretches.iter().enumerate() {
            if stretch.course == Course::Connector {
                continue;
            }
            let on_way = self.way.sections[at];
            let runs = self.after.survey.runs_of(stretch);
            let held = self.after.held(at);
            match held.verdict {
                Verdict::Carries => {}
                Verdict::TooSmall if runs.iter().all(|&run| self.was(run) == Was::Failed) => {
                    row.was_over(self.failing(stretch, held.capacity), on_way);
                }
                Verdict::TooSmall => row.fail(self.failing(stretch, held.capacity)),
                Verdict::Unknown => {
                    let load = self.after.survey.load_of(stretch);
                    let asked = load.flow.cfh() > 0.0 || load.unknown > 0;
                    let anew = runs.iter().any(|&run| self.was(run) != Was::Unknown);
                    if asked && (on_way || anew) {
                        let old = runs.iter().find_map(|&run| self.old(run));
                        let part = old.map_or(Unjudged::NewLine, |old| Unjudged::Pipe(self.judge.job.runs.at(old).id));
                        row.leave_unjudged(part);
                    }
                }
            }
        }
    }

    fn failing(&self, stretch: &Stretch, capacity: Option<Flow>) -> Fails {
        let runs = self.after.survey.runs_of(stretch);
        let run = runs.first().map(|&run| match self.old(run) {
            Some(old) => self.judge.job.runs.at(old).id,
            None => self.laid().runs.at(run).id,
        });
        Fails::Pipe {
            first: run.unwrap_or_default(),
            further: runs.len().saturating_sub(1),
            carried: self.after.survey.load_of(stretch).flow,
            capacity,
        }
    }

    fn devices(&self, row: &mut TieIn, devices: &[DeviceStudy]) {
        for device in devices {
            let joint = self.joint(device.joint);
            let was = self.judge.devices.get(&(joint, device.name())).map(|was| was.verdict);
            let on_way = self.way.joints[device.joint];
            match device.verdict {
                RatingVerdict::Within => {}
                RatingVerdict::Exceeded if was == Some(RatingVerdict::Exceeded) => {
                    row.was_over(self.exceeded(device), on_way);
                }
                RatingVerdict::Exceeded => row.fail(self.exceeded(device)),
                RatingVerdict::Unknown if on_way || was != Some(RatingVerdict::Unknown) => {
                    let name = device.name();
                    row.leave_unjudged(Unjudged::Device { joint, name });
                }
                RatingVerdict::Unknown => {}
            }
        }
    }

    fn exceeded(&self, device: &DeviceStudy) -> Fails {
        Fails::Device {
            joint: self.joint(device.joint),
            name: device.name(),
            carried: device.flow,
            capacity: device.capacity,
        }
    }

    /// Line regulators that get less than their settings need.
    fn settings(&self, row: &mut TieIn, devices: &[DeviceStudy]) {
        for device in devices.iter().filter(|device| device.is_starved()) {
            let joint = self.joint(device.joint);
            let part = Fails::Setting {
                joint,
                pressure: device.outlet,
                setting: device.setting,
            };
            match self.judge.devices.get(&(joint, device.name())) {
                Some(was) if was.is_starved() => row.was_over(part, device.outlet < was.outlet),
                _ => row.fail(part),
            }
        }
    }

    /// The person's name for an appliance.
    fn name(&self, outlet: &Outlet) -> String {
        match self.after.survey.devices[outlet.joint] {
            Some(Device::Appliance(appliance)) => appliance.name.clone(),
            _ => String::new(),
        }
    }

    fn inlets(&self, row: &mut TieIn) {
        let low = |outlet: &Outlet| outlet.margin.is_some_and(|margin| margin.pa() < 0.0);
        for outlet in self
            .after
            .survey
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance)
        {
            let joint = self.joint(outlet.joint);
            let was = self.judge.outlets.get(&joint).map(|&at| &self.judge.before.outlets[at]);
            let inlet = || Fails::Inlet {
                joint,
                name: self.name(outlet),
                pressure: outlet.pressure,
                least: outlet.least,
            };
            match was {
                Some(was) if low(outlet) && low(was) => row.was_over(inlet(), outlet.pressure < was.pressure),
                _ if low(outlet) => row.fail(inlet()),
                _ if outlet.pressure.is_none() && was.is_none_or(|was| was.pressure.is_some()) => {
                    row.leave_unjudged(Unjudged::Inlet(joint));
                }
                _ => {}
            }
            row.least_unknown += usize::from(outlet.least.is_none_or(|least| !least.pa().is_finite()));
            if let Some((pressure, margin)) = outlet.pressure.zip(outlet.margin)
                && row.lowest.as_ref().is_none_or(|lowest| margin < lowest.margin)
            {
                row.lowest = Some(LowestInlet {
                    joint,
                    name: self.name(outlet),
                    pressure,
                    margin,
                });
            }
        }
    }
}

impl TieIn {
    fn fail(&mut self, part: Fails) {
        self.failing += 1;
        if self.fails.len() < TOLD {
            self.fails.push(part);
        }
    }

    fn was_over(&mut self, part: Fails, worse: bool) {
        self.over_already += 1;
        self.failing_already += usize::from(worse);
        if self.already.len() < TOLD {
            self.already.push(Already { part, worse });
        }
    }

    fn leave_unjudged(&mut self, part: Unjudged) {
        self.unjudged += 1;
        self.first_unjudged.get_or_insert(part);
    }
}
