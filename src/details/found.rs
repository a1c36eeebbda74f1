//! What was found at the chosen part: how severe, what, and what to do. What a field puts right stands under that field,
//! the rest below all of them.

use super::form::Form;
use crate::desk::{Desk, Shown};
use crate::editor::Part;
use crate::job::Detail;
use crate::rules::{Finding, Severity};
use crate::study::Place;

/// How many findings are told of one part before the rest is only counted.
const MOST: usize = 12;

/// The findings of a part; of the job as a whole where no part is chosen.
pub fn of(desk: &Desk, part: Option<Part>) -> Vec<Finding> {
    let shown = desk.shown();
    let of = |finding: &&Finding| match part {
        Some(Part::Penetration(_, at)) if finding.penetration.is_some_and(|of| of != at) => false,
        Some(part) => std::iter::once(&finding.place)
            .chain(&finding.also)
            .any(|place| is_at(shown, *place, part)),
        None => finding.place == Place::Job,
    };
    shown.checked.findings.iter().filter(of).cloned().collect()
}

/// The field that the selected part lacks: the first in which a finding is put right that must be fixed.
pub fn needed(desk: &Desk) -> Option<Detail> {
    let findings = of_selected(desk);
    let must = |finding: &Finding| finding.field.filter(|_| finding.severity == Severity::MustFix);
    findings.iter().find_map(must)
}

/// The field of the selected part that is the first to be seen to: one that it lacks, else one of a lesser finding.
pub fn open_field(desk: &Desk) -> Option<Detail> {
    let lesser = || of_selected(desk).iter().find_map(|finding| finding.field);
    needed(desk).or_else(lesser)
}

fn of_selected(desk: &Desk) -> Vec<Finding> {
    let Some(part) = desk.editor().selection().single().filter(|_| desk.is_current()) else {
        return Vec::new();
    };
    let mut findings = of(desk, Some(part));
    // Fields of its run are not those of a penetration.
    if matches!(part, Part::Penetration(..)) {
        findings.retain(|finding| finding.penetration.is_some());
    }
    findings
}

/// Tells those that stand under no field.
pub fn show(form: &mut Form<'_>) {
    let findings = form.findings_left();
    for finding in findings.iter().take(MOST) {
        form.finding(finding);
    }
    if findings.len() > MOST {
        form.say(format!("{} more: see Findings.", findings.len() - MOST));
    }
}

/// Whether a place is a part, or the section that it lies in.
fn is_at(shown: &Shown, place: Place, part: Part) -> bool {
    match (place, part) {
        (Place::Joint(id), Part::Joint(chosen)) => id == chosen,
        (Place::Run(id), Part::Run(chosen) | Part::Penetration(chosen, _)) => id == chosen,
        (Place::Section(number), Part::Run(chosen)) => {
            let position = shown.job.runs.position(chosen);
            let section = position.and_then(|position| shown.checked.study.runs.get(position)?.section);
            section
                .and_then(|section| shown.checked.study.sections.get(section))
                .map(|section| section.number)
                == Some(number)
        }
        _ => false,
    }
}
