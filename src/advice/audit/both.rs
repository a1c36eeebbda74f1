//! The rows of an audit: the job as it stood and the job as it will stand, each with its study, beside each other.

use super::{AuditPart, AuditRow, Held, Standing};
use crate::job::{Job, Run, State};
use crate::network::OutletKind;
use crate::pressure::{DeviceStudy, RatingVerdict};
use crate::sizing::{Origin, Section, Verdict};
use crate::study::Study;
use crate::units::NominalSize;
use std::collections::BTreeMap;

impl Held {
    fn of_section(section: &Section) -> Held {
        Held::Flow {
            carried: section.load.flow,
            capacity: section.sizing.capacity().map(|capacity| capacity.flow),
            standing: match section.sizing.verdict {
                Verdict::Carries => Standing::Holds,
                Verdict::TooSmall => Standing::Fails,
                Verdict::Unknown => Standing::Unknown,
            },
        }
    }

    fn of_device(device: &DeviceStudy) -> Held {
        Held::Flow {
            carried: device.flow,
            capacity: device.capacity,
            standing: match device.verdict {
                RatingVerdict::Within => Standing::Holds,
                RatingVerdict::Exceeded => Standing::Fails,
                RatingVerdict::Unknown => Standing::Unknown,
            },
        }
    }
}

/// The size as it stood of pipe that stays, or of pipe in whose place new pipe comes; `None` for other pipe.
fn stood(run: &Run) -> Option<Option<NominalSize>> {
    match run.state {
        State::Existing => Some(run.size),
        State::New => run.replaced().map(Some),
        State::Removed => None,
    }
}

/// The two studies beside each other.
pub(super) struct Both<'a> {
    pub(super) job: &'a Job,
    pub(super) old: &'a Job,
    pub(super) before: &'a Study,
    pub(super) after: &'a Study,
}

impl Both<'_> {
    /// Pipe in flow order, then devices, settings, inlets.
    pub(super) fn rows(&self) -> Vec<AuditRow> {
        let mut rows = self.pipes();
        rows.extend(self.devices());
        rows.extend(self.settings());
        rows.extend(self.inlets());
        rows
    }

    fn pipes(&self) -> Vec<AuditRow> {
        // Existing runs in flow order, those that gas no longer reaches after them.
        let flow = self.after.sections.iter().flat_map(|section| &section.runs).copied();
        let cut_off = (0..self.job.runs.len()).filter(|&run| self.after.runs[run].section.is_none());
        let mut rows: Vec<AuditRow> = Vec::new();
        let mut last = None;
        for run in flow.chain(cut_off) {
            let drawn = self.job.runs.at(run);
            let Some(size) = stood(drawn) else { continue };
            let old = self.old.runs.position(drawn.id);
            let was = old.and_then(|old| self.before.runs[old].section);
            let will = self.after.runs[run].section;
            let connector = |study: &Study, section: Option<usize>| {
                section.is_some_and(|section| study.sections[section].sizing.origin == Origin::Connector)
            };
            if (was, will) == (None, None) || connector(self.after, will) || connector(self.before, was) {
                continue;
            }
            match (rows.last_mut(), last == Some((was, will))) {
                (
                    Some(AuditRow {
                        part: AuditPart::Pipe { runs, .. },
                        ..
                    }),
                    true,
                ) => runs.push(run),
                _ => rows.push(AuditRow {
                    part: AuditPart::Pipe {
                        runs: vec![run],
                        section: will,
                        material: self.job.material(drawn),
                        size,
                        by: drawn
                            .replaced()
                            .and(will)
                            .and_then(|will| self.after.sections[will].sizing.size),
                    },
                    before: was.map(|section| Held::of_section(&self.before.sections[section])),
                    after: will.map(|section| Held::of_section(&self.after.sections[section])),
                }),
            }
            last = Some((was, will));
        }
        rows
    }

    /// Whether a device was there and stays.
    fn stays(&self, joint: usize) -> bool {
        self.old.joints.at(joint).device().is_some() && self.job.joints.at(joint).device().is_some()
    }

    fn devices(&self) -> Vec<AuditRow> {
        let key = |device: &DeviceStudy| (device.joint, device.name());
        let held = |study: &Study| -> BTreeMap<_, _> {
            let devices = study.devices.iter();
            devices.map(|device| (key(device), Held::of_device(device))).collect()
        };
        let (before, after) = (held(self.before), held(self.after));
        let cut_off = self
            .before
            .devices
            .iter()
            .filter(|device| !after.contains_key(&key(device)));
        let all = self.after.devices.iter().chain(cut_off);
        all.filter(|device| self.stays(device.joint))
            .map(|device| AuditRow {
                part: AuditPart::Device {
                    joint: device.joint,
                    part: device.part,
                },
                before: before.get(&key(device)).copied(),
                after: after.get(&key(device)).copied(),
            })
            .collect()
    }

    /// The line regulators that stay, and what they are set to.
    fn settings(&self) -> Vec<AuditRow> {
        let held = |study: &Study, joint: usize| {
            let regulator = study.devices.iter().find(|device| device.joint == joint)?;
            Some(Held::Pressure {
                found: regulator.outlet,
                least: Some(regulator.setting?),
                standing: match regulator.outlet {
                    Some(_) if regulator.is_starved() => Standing::Fails,
                    Some(_) => Standing::Holds,
                    None => Standing::Unknown,
                },
            })
        };
        let set = self.after.devices.iter().filter(|device| device.setting.is_some());
        set.filter(|device| self.stays(device.joint))
            .map(|device| AuditRow {
                part: AuditPart::Setting { joint: device.joint },
                before: held(self.before, device.joint),
                after: held(self.after, device.joint),
            })
            .collect()
    }

    fn inlets(&self) -> Vec<AuditRow> {
        let held = |study: &Study| -> BTreeMap<usize, Held> {
            let outlets = study.outlets.iter();
            outlets
                .map(|outlet| {
                    let standing = match outlet.margin {
                        Some(margin) if margin.pa() < 0.0 => Standing::Fails,
                        Some(_) => Standing::Holds,
                        None => Standing::Unknown,
                    };
                    let held = Held::Pressure {
                        found: outlet.pressure,
                        least: outlet.least.filter(|least| least.pa().is_finite()),
                        standing,
                    };
                    (outlet.joint, held)
                })
                .collect()
        };
        let (before, after) = (held(self.before), held(self.after));
        let cut_off = self
            .before
            .outlets
            .iter()
            .filter(|outlet| !after.contains_key(&outlet.joint));
        let all = self
            .after
            .outlets
            .iter()
            .chain(cut_off.filter(|outlet| self.stays(outlet.joint)));
        all.filter(|outlet| outlet.kind == OutletKind::Appliance)
            .map(|outlet| AuditRow {
                part: AuditPart::Inlet {
                    joint: outlet.joint,
                    name: outlet.name.clone(),
                },
                before: before.get(&outlet.joint).copied(),
                after: after.get(&outlet.joint).copied(),
            })
            .collect()
    }
}
