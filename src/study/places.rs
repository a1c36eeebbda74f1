//! What places of a job are called on paper.

use super::words::{NONE, capital, shortened};
use super::{Place, Study, tie_ins};
use crate::job::{Device, Job, JointId, RunId};
use crate::network::{Outlet, by_letter};
use crate::sizing::Section;
use crate::units::UnitSystem;
use std::collections::{HashMap, HashSet};

/// The most characters of a name in a schedule; longer ones stand in full among the notes.
pub const LONGEST_NAME: usize = 48;

/// The device on a joint, by the joint's position.
pub fn device(job: &Job, joint: usize) -> Option<&Device> {
    let joint = (joint < job.joints.len()).then(|| job.joints.at(joint))?;
    joint.placed.as_ref().map(|placed| &placed.device)
}

/// The outlets that a section serves, by their letters: "A", "A, C", and "A–L" where they follow one another.
pub fn served(study: &Study, section: &Section) -> String {
    lettered(&by_letter(
        study.outlets.get(section.serves.clone()).unwrap_or_default(),
    ))
}

/// Some of the outlets, by their letters.
pub fn letters(study: &Study, is_asked: impl Fn(&Outlet) -> bool) -> String {
    let outlets = by_letter(&study.outlets).into_iter();
    let outlets: Vec<&Outlet> = outlets.filter(|outlet| is_asked(outlet)).collect();
    lettered(&outlets)
}

fn lettered(outlets: &[&Outlet]) -> String {
    let follow = |one: &&Outlet, next: &&Outlet| match (one.tag.as_bytes(), next.tag.as_bytes()) {
        ([one], [next]) => one + 1 == *next,
        _ => false,
    };
    let rows = outlets.chunk_by(follow).map(|row| match row {
        [one] => one.tag.clone(),
        [one, next] => format!("{}, {}", one.tag, next.tag),
        [first, .., last] => format!("{}–{}", first.tag, last.tag),
        [] => String::new(),
    });
    match rows.collect::<Vec<_>>().join(", ") {
        none if none.is_empty() => NONE.to_owned(),
        served => shortened(&served, LONGEST_NAME),
    }
}

/// The places of one job.
pub struct Places<'a> {
    job: &'a Job,
    study: &'a Study,
    letters: Vec<&'a str>,
    /// The numbers of tie-ins.
    tie_ins: Vec<Option<usize>>,
    /// What people called places.
    labels: HashSet<&'a str>,
    /// For each joint where sections place it; `None` where no gas arrives.
    along: Vec<Option<Along>>,
}

/// Where a joint lies, told by the numbers of sections.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Along {
    /// At the end of this section.
    EndOf(usize),
    /// Within it: the how-manieth of its kind along the flow, from 1, and of how many.
    Within(usize, usize, usize),
    /// On the hose or connector that this section is, by its position: the drawing gives it no number.
    OnHose(usize),
}

impl<'a> Places<'a> {
    /// The places of a job.
    pub fn of(job: &'a Job, study: &'a Study) -> Places<'a> {
        let mut letters = vec![""; job.joints.len()];
        for outlet in &study.outlets {
            if let Some(letter) = letters.get_mut(outlet.joint) {
                *letter = &outlet.tag;
            }
        }
        let mut places = Places {
            job,
            study,
            letters,
            tie_ins: tie_ins(job, &study.network),
            labels: HashSet::new(),
            along: Vec::new(),
        };
        places.labels = (0..job.joints.len()).filter_map(|joint| places.label(joint)).collect();
        places.along = places.found_along();
        places
    }

    /// Where sections place each joint.
    fn found_along(&self) -> Vec<Option<Along>> {
        let mut along: Vec<Option<Along>> = vec![None; self.job.joints.len()];
        for (at, section) in self.study.sections.iter().enumerate().rev() {
            if let Some(slot) = along.get_mut(section.to) {
                *slot = Some(match section.is_pipe() {
                    true => Along::EndOf(section.number),
                    false => Along::OnHose(at),
                });
            }
        }
        for (at, section) in self.study.sections.iter().enumerate() {
            let ends = section
                .runs
                .iter()
                .filter_map(|run| *self.study.network.ends.get(*run)?);
            let within: Vec<usize> = ends.map(|(_, to)| to).filter(|to| *to != section.to).collect();
            let mut of_kind: HashMap<String, usize> = HashMap::new();
            let nouns = within.iter().map(|joint| {
                let noun = self.noun(*joint);
                let nth = of_kind.entry(noun.clone()).or_default();
                *nth += 1;
                (noun, *nth)
            });
            let nouns: Vec<(String, usize)> = nouns.collect();
            for (joint, (noun, nth)) in within.iter().zip(nouns) {
                if let Some(slot @ None) = along.get_mut(*joint) {
                    *slot = Some(match section.is_pipe() {
                        true => Along::Within(section.number, nth, of_kind[&noun]),
                        false => Along::OnHose(at),
                    });
                }
            }
        }
        along
    }

    /// What stands at a joint.
    fn noun(&self, position: usize) -> String {
        match (device(self.job, position), fitting(self.study, position)) {
            (Some(device), _) => device.nature().short.to_owned(),
            (None, Some(fitting)) => fitting.to_owned(),
            (None, None) => "joint".to_owned(),
        }
    }

    /// The units of all that is told of it.
    pub const fn units(&self) -> UnitSystem {
        self.study.names.units()
    }

    /// The job.
    pub const fn job(&self) -> &'a Job {
        self.job
    }

    /// A joint by what the drawing shows, by its position: an outlet by its letter, else the person's label, else what
    /// stands there and the section whose number leads to it: "tee 2" at the end of section 2, "2nd elbow in 3" within
    /// section 3. Where no gas arrives, by its id.
    pub fn joint(&self, position: usize) -> String {
        if let Some(written) = self.written(position) {
            return written;
        }
        if let Some(number) = self.tie_ins[position] {
            return format!("tie-in {number}");
        }
        let is_source = matches!(device(self.job, position), Some(Device::Supply(_)));
        match self.along[position].filter(|_| !is_source) {
            Some(Along::EndOf(section)) => {
                let noun = self.noun(position);
                // "Tee 2" is read as the tee of section 2; of a regulator or valve that number would be taken for its own.
                let name = match device(self.job, position) {
                    Some(_) => format!("{noun} of section {section}"),
                    None => format!("{noun} {section}"),
                };
                // A person may have called another place so.
                if self.labels.contains(name.as_str()) {
                    format!("{} at end of {section}", self.noun(position))
                } else {
                    name
                }
            }
            Some(Along::Within(section, _, 1)) => format!("{} in {section}", self.noun(position)),
            Some(Along::Within(section, nth, _)) => format!("{} {} in {section}", ordinal(nth), self.noun(position)),
            Some(Along::OnHose(section)) => {
                let to = served(self.study, &self.study.sections[section]);
                match device(self.job, position) {
                    Some(Device::Connector(_)) => format!("connector to {to}"),
                    _ => format!("{} on the hose to {to}", self.noun(position)),
                }
            }
            None => match device(self.job, position) {
                Some(Device::Appliance(appliance)) if !appliance.name.trim().is_empty() => {
                    shortened(appliance.name.trim(), LONGEST_NAME)
                }
                Some(_) | None => self.mark(position),
            },
        }
    }

    /// What is written on the drawing at a joint: an outlet's letter, or the person's label.
    fn written(&self, position: usize) -> Option<String> {
        if position >= self.job.joints.len() {
            return Some(NONE.to_owned());
        }
        if !self.letters[position].is_empty() {
            return Some(self.letters[position].to_owned());
        }
        self.label(position).map(|label| shortened(label, LONGEST_NAME))
    }

    /// A joint by its id, for drawings and lists that letter it so: an outlet by its letter, else the person's label,
    /// else what stands there and its id.
    pub fn mark(&self, position: usize) -> String {
        if let Some(written) = self.written(position) {
            return written;
        }
        let it = self.job.joints.at(position);
        match device(self.job, position) {
            Some(Device::Supply(supply)) if supply.meter.is_some() => "meter".to_owned(),
            Some(device @ Device::Supply(_)) => device.name().to_owned(),
            Some(device) => format!("{} {}", device.nature().short, it.id),
            None => match fitting(self.study, position) {
                Some(name) => format!("{name} {}", it.id),
                None => it.id.to_string(),
            },
        }
    }

    /// The person's label of a joint.
    pub fn label(&self, position: usize) -> Option<&'a str> {
        let label = self.job.joints.at(position).label.as_deref()?.trim();
        (!label.is_empty()).then_some(label)
    }

    /// The place of a finding.
    pub fn finding(&self, place: Place) -> String {
        match place {
            Place::Job => "Job".to_owned(),
            Place::Joint(id) => match self.job.joints.position(id) {
                Some(position) => capital(&known(&self.mark(position), id)),
                None => id.to_string(),
            },
            Place::Run(id) => self.run(id),
            Place::Section(number) => format!("Section {number}"),
        }
    }

    /// A run, with its section.
    pub fn run(&self, id: RunId) -> String {
        match self.section_of(id).filter(|section| section.is_pipe()) {
            Some(section) => format!("Run {id} in section {}", section.number),
            None => format!("Run {id}"),
        }
    }

    /// What the drawing shows of a run: "Section 7"; of a hose or connector, which has no number there, where it leads; of
    /// a run that is in no section, its id.
    pub fn pipe(&self, id: RunId) -> String {
        match self.section_of(id) {
            Some(section) if section.is_pipe() => format!("Section {}", section.number),
            Some(section) => format!("Hose or connector to {}", served(self.study, section)),
            None => format!("Run {id}"),
        }
    }

    /// The section that a run is in.
    fn section_of(&self, id: RunId) -> Option<&'a Section> {
        let run = self.job.runs.position(id)?;
        self.study.sections.get(self.study.runs.get(run)?.section?)
    }
}

/// A name with the id behind it, unless it is there already.
pub fn known(name: &str, id: JointId) -> String {
    let id = id.to_string();
    if name.ends_with(&id) {
        name.to_owned()
    } else {
        format!("{name} ({id})")
    }
}

fn fitting(study: &Study, joint: usize) -> Option<&'static str> {
    let fitting = study.fittings.get(study.joints.get(joint)?.fitting?)?;
    Some(fitting.kind.noun())
}

/// "1st", "2nd", "3rd", "4th".
fn ordinal(number: usize) -> String {
    let ending = match (number % 10, number % 100) {
        (_, 11..=13) => "th",
        (1, _) => "st",
        (2, _) => "nd",
        (3, _) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}
