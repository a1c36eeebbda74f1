//! A first drawing in five steps. Each step is done when the job shows it, however it was done.

use crate::app::desk::Desk;
use crate::app::look;
use crate::job::{Device, Job};
use egui::{Panel, ScrollArea, Ui};
use std::ops::ControlFlow;

/// How far somebody has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lesson {
    /// The highest step that was reached; what is undone again does not send anybody back.
    reached: usize,
}

struct Step {
    name: &'static str,
    how: &'static str,
    done: fn(&Job) -> bool,
}

const STEPS: [Step; 5] = [
    Step {
        name: "Place the point of delivery",
        how: "Take Point of delivery from the shelf on the left and click on the paper, left of the middle. This is where the customer's piping \
         starts; the meter is there.",
        done: |job| has(job, |device| matches!(device, Device::Supply(_))),
    },
    Step {
        name: "Draw pipe",
        how: "Take Draw pipe (F2) and click on the point of delivery. Move the pointer: pipe follows the axes. Type the length, such as 12-6 for \
         12 feet 6 inches, and press Enter. Then draw a second run in another direction. Esc ends the line; Backspace deletes the last run.",
        done: |job| job.runs.len() >= 2,
    },
    Step {
        name: "Add a branch",
        how: "With Draw pipe selected, click in the middle of a run: a tee. Draw the branch away from it and click. Esc ends it.",
        done: |job| {
            job.joints.iter().any(|joint| {
                let meets = |run: &&crate::job::Run| run.from == joint.id || run.to == joint.id;
                job.runs.iter().filter(meets).count() >= 3
            })
        },
    },
    Step {
        name: "Connect two appliances",
        how: "Take Appliance from the shelf and click on an open end; then on the other end.",
        done: |job| appliances(job).count() >= 2,
    },
    Step {
        name: "Enter the inputs",
        how: "Take Select and move (F3), click on an appliance, and type its input on the right, as on its rating plate: 40 MBH. Do the same with \
         the other. Sizes appear on the pipe; the list below shows what is still missing.",
        done: |job| appliances(job).count() >= 2 && appliances(job).all(|appliance| appliance.input.is_some()),
    },
];

fn has(job: &Job, what: impl Fn(&Device) -> bool) -> bool {
    job.joints.iter().filter_map(|joint| joint.device()).any(what)
}

fn appliances(job: &Job) -> impl Iterator<Item = &crate::job::Appliance> {
    job.joints.iter().filter_map(|joint| match joint.device() {
        Some(Device::Appliance(appliance)) => Some(appliance),
        _ => None,
    })
}

impl Lesson {
    /// Shows the step that comes next, in a column of its own that covers no paper; breaks when the lesson is over.
    pub fn ui(&mut self, ui: &mut Ui, desk: &Desk) -> ControlFlow<()> {
        while self.reached < STEPS.len() && (STEPS[self.reached].done)(desk.job()) {
            self.reached += 1;
        }
        let mut ended = false;
        Panel::left("lesson").default_size(250.0).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| {
                ui.add_space(4.0);
                ui.heading("A first drawing");
                for (number, step) in STEPS.iter().enumerate() {
                    ui.add_space(4.0);
                    let line = match number < self.reached {
                        true => format!("{}.  {}: done", number + 1, step.name),
                        false => format!("{}.  {}", number + 1, step.name),
                    };
                    if number == self.reached {
                        ui.label(look::strong(line));
                        ui.label(step.how);
                    } else {
                        ui.label(line);
                    }
                }
                if self.reached == STEPS.len() {
                    ui.add_space(4.0);
                    ui.label(look::strong("Your first drawing is done."));
                    ui.label(
                        "F8 shows the sheet as it will be exported; fill in its title block there. Job, Export sheets saves it as a file.",
                    );
                }
                ui.add_space(8.0);
                let words = match self.reached == STEPS.len() {
                    true => "Close",
                    false => "End the lesson",
                };
                ended = ui.button(words).clicked();
            });
        });
        match ended {
            true => ControlFlow::Break(()),
            false => ControlFlow::Continue(()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_job_has_done_nothing_and_an_example_everything() {
        let example = crate::file::read(super::super::EXAMPLES[0].1).unwrap();
        for step in &STEPS {
            assert!(!(step.done)(&Job::default()), "{}", step.name);
            assert!((step.done)(&example), "{}", step.name);
        }
    }
}
