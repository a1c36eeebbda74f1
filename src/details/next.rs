//! What a job asks for next, as one link: from empty paper to the sheet.

use super::form::Form;
use crate::desk::Desk;
use crate::desk::request::Request;
use crate::editor::{CommandId, Item, Part};
use crate::job::{Detail, Device, DeviceKind};
use crate::rules::{Finding, Severity};
use crate::sheet::Field;
use crate::study::words::capital;
use egui::{Label, Sense};

/// The next step: its words, and where it leads.
#[derive(Clone, Debug, PartialEq)]
struct Next {
    words: String,
    leads: Leads,
}

/// Where a step leads.
#[derive(Clone, Debug, PartialEq)]
enum Leads {
    /// To a tool.
    Tool(CommandId),
    /// To a part, and to a field of it.
    Part(Part, Option<Detail>),
    /// To a field of the title block.
    Title(Field),
    /// To the lists.
    Check,
    /// To the file.
    Export,
}

/// Shows the next step as a link.
pub fn show(form: &mut Form<'_>) {
    let Some(next) = next(form.desk) else { return };
    form.heading("Next step");
    let color = form.ui.visuals().hyperlink_color;
    let words = egui::RichText::new(&next.words).color(color).underline();
    let link = form.ui.add(Label::new(words).wrap().sense(Sense::click()));
    link.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Link, true, &next.words));
    if link.on_hover_cursor(egui::CursorIcon::PointingHand).clicked() {
        go(form.desk, next.leads);
    }
}

fn go(desk: &mut Desk, leads: Leads) {
    match leads {
        Leads::Tool(id) => desk.run(id),
        Leads::Part(part, field) => {
            desk.seek(part);
            if let Some(field) = field {
                desk.ask(Request::GoToDetail(field));
            }
        }
        Leads::Title(field) => desk.ask(Request::FillIn(field)),
        Leads::Check => desk.run(CommandId::ShowCheck),
        Leads::Export => desk.run(CommandId::ExportSheet),
    }
}

/// What comes next; nothing while figures are of before.
fn next(desk: &Desk) -> Option<Next> {
    if !desk.is_current() {
        return None;
    }
    let job = desk.job();
    let has = |kind: DeviceKind| {
        job.joints
            .iter()
            .filter_map(|joint| joint.device())
            .any(|it| it.kind() == kind)
    };
    let tool = |words: &str, id| Next {
        words: words.to_owned(),
        leads: Leads::Tool(id),
    };
    if !has(DeviceKind::Supply) {
        let item = Item::Device(DeviceKind::Supply);
        return Some(tool("Place the point of delivery", CommandId::Place(item)));
    }
    if let Some(joint) = job.joints.iter().find(|joint| match joint.device() {
        Some(Device::Supply(supply)) => supply.pressure.is_none(),
        _ => false,
    }) {
        return Some(Next {
            words: "Enter the delivery pressure".to_owned(),
            leads: Leads::Part(Part::Joint(joint.id), Some(Detail::DeliveryPressure)),
        });
    }
    if job.runs.is_empty() {
        return Some(tool("Draw pipe from the point of delivery", CommandId::DrawPipe));
    }
    if !has(DeviceKind::Appliance) {
        let item = Item::Device(DeviceKind::Appliance);
        return Some(tool("Place an appliance at an open end", CommandId::Place(item)));
    }
    let shown = desk.shown();
    let first = |severity| {
        shown
            .checked
            .findings
            .iter()
            .find(|finding| finding.severity == severity)
    };
    let found = |finding: &Finding| Next {
        words: format!(
            "{}. {}",
            capital(finding.what.trim_end_matches('.')),
            capital(&finding.remedy)
        ),
        leads: match shown.part_of(finding) {
            Some(part) => Leads::Part(part, finding.field),
            None => Leads::Check,
        },
    };
    if let Some(finding) = first(Severity::MustFix) {
        return Some(found(finding));
    }
    let title = &job.title;
    let empty = [Field::Job, Field::Site, Field::Firm].into_iter().find(|field| {
        let typed = field.typed().map(|typed| typed.of(title));
        typed.is_some_and(|words| words.trim().is_empty())
    });
    Some(match (empty, first(Severity::Check)) {
        (Some(field), _) => Next {
            words: "Fill in the title block".to_owned(),
            leads: Leads::Title(field),
        },
        (None, Some(finding)) => found(finding),
        (None, None) => Next {
            words: "Export the sheets".to_owned(),
            leads: Leads::Export,
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Job;

    fn words(job: &Job) -> String {
        next(&Desk::new(job.clone(), || {})).unwrap().words
    }

    #[test]
    fn a_job_is_led_from_empty_paper_to_the_file() {
        let mut job = Job::default();
        assert_eq!(words(&job), "Place the point of delivery");
        let mut done = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        job.joints.insert(done.joints.at(0).clone());
        for joint in [&mut job, &mut done] {
            let id = joint.joints.at(0).id;
            let placed = joint.joints.get_mut(id).and_then(|joint| joint.placed.as_mut());
            if let Some(Device::Supply(supply)) = placed.map(|placed| &mut placed.device) {
                supply.pressure = None;
            }
        }
        assert_eq!(words(&job), "Enter the delivery pressure");
        assert_eq!(words(&done), "Enter the delivery pressure");
        let whole = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let must = Desk::new(whole.clone(), || {}).shown().checked.must_fix().count();
        assert_eq!(must, 0);
        assert!(!words(&whole).is_empty());
        let mut unnamed = whole;
        unnamed.title.job.clear();
        assert_eq!(words(&unnamed), "Fill in the title block");
    }
}
