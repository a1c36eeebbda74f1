//! Names of what is drawn, for those who do not see it: a node of the accessibility tree for each joint and run in view.

use super::Glass;
use super::marks::places;
use crate::desk::Desk;
use crate::editor::Part;
use egui::{Id, Rect, Sense, Ui, WidgetInfo, vec2};

/// So many things are named at most; nobody listens to more at once.
const MOST: usize = 400;

/// Puts the names into the tree, if anybody asked for one.
pub fn tell(ui: &Ui, canvas: Rect, glass: Glass, desk: &Desk) {
    if ui.ctx().accesskit_node_builder(ui.unique_id(), |_| ()).is_none() {
        return;
    }
    let job = desk.job();
    let joints = job.joints.iter().map(|joint| Part::Joint(joint.id));
    let runs = job.runs.iter().map(|run| Part::Run(run.id));
    let mut told = 0;
    for part in joints.chain(runs) {
        let Some(around) = places(job, part)
            .into_iter()
            .map(|at| Rect::from_center_size(glass.point(at), vec2(12.0, 12.0)))
            .reduce(Rect::union)
            .filter(|around| around.intersects(canvas))
        else {
            continue;
        };
        let response = ui.interact(around, Id::unique(("part", part)), Sense::hover());
        let chosen = desk.editor().selection().contains(part);
        response.widget_info(|| WidgetInfo::selected(egui::Role::GraphicsObject, true, chosen, name(desk, part)));
        told += 1;
        if told == MOST {
            return;
        }
    }
}

/// A part in words: what it is, and what is known of it.
pub fn name(desk: &Desk, part: Part) -> String {
    let job = desk.job();
    match part {
        Part::Joint(id) => match job.joints.get(id).and_then(|joint| joint.placed.as_ref()) {
            Some(placed) => format!("{} at {id}", placed.device.name()),
            None => format!("joint {id}"),
        },
        Part::Run(id) => match job.runs.get(id) {
            Some(run) => format!(
                "run {id} from {} to {}, {}{}",
                run.from,
                run.to,
                crate::units::Show::show(&job.true_length(run), job.settings.units),
                if run.given_length().is_none() { " as drawn" } else { "" }
            ),
            None => format!("run {id}"),
        },
        Part::Penetration(..) | Part::Note(_) => part.to_string(),
    }
}
