//! What was found at the chosen part: how heavy, what, and what to do.
//!
//! It stands below the fields. What is typed changes what is found: above them it would push the next field away from
//! under the hand that goes there.

use super::form::Form;
use crate::app::desk::Shown;
use crate::app::look;
use crate::editor::Part;
use crate::rules::{Finding, Severity};
use crate::study::Place;
use crate::study::words::capital;
use egui::{Frame, Label, RichText};

/// How many findings are told of one part before the rest is only counted.
const MOST: usize = 12;

/// The findings of a part; of the job as a whole where no part is chosen.
pub fn show(form: &mut Form<'_>, part: Option<Part>) {
    let shown = form.desk.shown();
    let of = |finding: &&Finding| match part {
        Some(part) => std::iter::once(&finding.place)
            .chain(&finding.also)
            .any(|place| is_at(shown, *place, part)),
        None => finding.place == Place::Job,
    };
    let findings: Vec<Finding> = shown.checked.findings.iter().filter(of).cloned().collect();
    for finding in findings.iter().take(MOST) {
        tell(form, finding);
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

fn tell(form: &mut Form<'_>, finding: &Finding) {
    let visuals = form.ui.visuals();
    let color = match finding.severity {
        Severity::MustFix => look::warning(visuals.dark_mode),
        Severity::Check | Severity::Note => visuals.text_color(),
    };
    let frame = Frame::new().fill(visuals.faint_bg_color).inner_margin(6.0);
    frame.show(form.ui, |ui| {
        ui.set_width(ui.available_width());
        let word = format!("{}: {}", capital(finding.severity.name()), finding.what);
        ui.add(Label::new(look::strong(word).color(color)).wrap());
        ui.add(Label::new(capital(&finding.remedy)).wrap());
        ui.add(Label::new(RichText::new(&finding.basis).small().weak()).wrap());
    });
}
