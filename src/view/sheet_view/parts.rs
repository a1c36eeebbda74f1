//! From what lies on a sheet to the parts of the job that it stands for.

use super::composed::Composed;
use crate::desk::issued;
use crate::drawing::tags::{Subject, passage};
use crate::editor::Part;
use crate::job::{JointId, RunId};
use crate::network::by_letter;
use crate::scene::{Role, Tag};
use crate::sheet::tags::{self, Schedule};
use crate::study::Place;

/// The parts of the job that a tag of the sheet stands for, as the job was when the sheet was made.
pub fn parts(tag: Tag, composed: &Composed) -> Vec<Part> {
    let (job, study) = (&composed.job, &composed.checked.study);
    let joint = |at: usize| job.joints.iter().nth(at).map(|joint| Part::Joint(joint.id));
    let run = |at: usize| job.runs.iter().nth(at).map(|run| Part::Run(run.id));
    let section = |at: usize| {
        let runs = study.sections.get(at).map_or(&[][..], |section| &section.runs);
        runs.iter().filter_map(|at| run(*at)).collect::<Vec<Part>>()
    };
    match tag.role {
        Role::Line | Role::Plane => vec![Part::Run(RunId(tag.key))],
        Role::Symbol => vec![Part::Joint(JointId(tag.key))],
        Role::Label | Role::Leader => match Subject::of(tag) {
            Some(Subject::Run(at)) => run(at).into_iter().collect(),
            Some(Subject::Joint(at) | Subject::Level(at)) => joint(at).into_iter().collect(),
            Some(Subject::Section(at)) => section(at),
            Some(Subject::Note(at)) => vec![Part::Note(at)],
            Some(Subject::Passage(at)) => {
                let found = passage(job, at).and_then(|(at, number)| Some((job.runs.iter().nth(at)?.id, number)));
                found
                    .map(|(run, number)| Part::Penetration(run, number))
                    .into_iter()
                    .collect()
            }
            Some(Subject::Change(cloud)) => {
                let changes = composed.changes.iter().flat_map(|changes| &changes.list);
                let clouded = changes.zip(&composed.packet.clouded);
                let here = clouded.filter(|(_, clouds)| clouds.contains(&cloud));
                here.filter_map(|(change, _)| issued::part(change)).collect()
            }
            Some(Subject::Sheet) | None => Vec::new(),
        },
        Role::Table => match tags::part(tag) {
            Some(tags::Part::Row(Schedule::Appliances, at)) => {
                let joint = by_letter(&study.outlets).get(at).and_then(|outlet| joint(outlet.joint));
                joint.into_iter().collect()
            }
            Some(tags::Part::Row(Schedule::Sections, at)) => section(at),
            Some(tags::Part::Row(Schedule::Changes, at)) => {
                let change = composed.changes.as_ref().and_then(|changes| changes.list.get(at));
                change.and_then(issued::part).into_iter().collect()
            }
            Some(tags::Part::Row(Schedule::Findings, at)) => {
                let found = composed.checked.findings.get(at);
                match found.map(|found| (found.place, found.penetration)) {
                    Some((Place::Joint(id), _)) => vec![Part::Joint(id)],
                    Some((Place::Run(id), None)) => vec![Part::Run(id)],
                    Some((Place::Run(id), Some(through))) => vec![Part::Penetration(id, through)],
                    Some((Place::Section(number), _)) => section(number.saturating_sub(1)),
                    Some((Place::Job, _)) | None => Vec::new(),
                }
            }
            Some(tags::Part::Row(..) | tags::Part::Schedule(_) | tags::Part::Field(_)) | None => Vec::new(),
        },
        Role::Frame | Role::Mark => Vec::new(),
    }
}
