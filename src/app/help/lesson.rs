//! A first drawing in five steps, from empty paper to a sized drawing and its sheet as a file. Each step is done when the
//! job shows it, however it was done, so that the lesson can be left and taken up again.

use crate::desk::Desk;
use crate::job::{Appliance, Device, Job, Supply};
use crate::look::{self, Mood};
use crate::sizing::{Origin, Section};
use egui::{Align, Frame, Label, Layout, Margin, Panel, RichText, Ui};
use std::ops::ControlFlow;

/// How far somebody has come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lesson {
    /// The highest step that was reached; what is undone again does not send anybody back.
    reached: usize,
}

/// What a step looks at.
pub struct Seen<'a> {
    /// The job as it is.
    pub job: &'a Job,
    /// Whether every section of it has its size.
    pub sized: bool,
    /// Whether sheets were exported.
    pub exported: bool,
}

struct Step {
    name: &'static str,
    how: &'static str,
    done: fn(&Seen) -> bool,
}

const STEPS: [Step; 5] = [
    Step {
        name: "Point of delivery",
        how: "This is where the customer's piping starts. Click Point of delivery on the shelf, then click on the paper, left of the middle. \
         Then type its delivery pressure on the right, as the gas supplier gives it: 7 in w.c., and Enter.",
        done: |seen| supplies(seen.job).any(|supply| supply.pressure.is_some()),
    },
    Step {
        name: "Pipe",
        how: "Press D and click on the point of delivery. Move the pointer: pipe follows the axes. Type the true length, such as 20, and press \
         Enter. Then point in another direction, type 12-6 (12 feet 6 inches), Enter. Esc ends the line; Backspace deletes the last run.",
        done: |seen| seen.job.runs.len() >= 2,
    },
    Step {
        name: "Branch",
        how: "Still with the pencil, click in the middle of a run: that makes a tee. Point away from it, type 8 and press Enter. Esc ends the branch.",
        done: |seen| {
            let job = seen.job;
            job.joints.iter().any(|joint| {
                let meets = |run: &&crate::job::Run| run.from == joint.id || run.to == joint.id;
                job.runs.iter().filter(meets).count() >= 3
            })
        },
    },
    Step {
        name: "Appliances",
        how: "Click Grill on the shelf and click on an open end. It is selected: type its input on the right, as on its rating plate, such as \
         60 MBH, and Enter. Then take Fire pit for the other end, 65 MBH. Sizes appear on the pipe.",
        done: |seen| {
            appliances(seen.job).count() >= 2 && appliances(seen.job).all(|it| it.input.is_some()) && seen.sized
        },
    },
    Step {
        name: "Sheet and PDF",
        how: "Every run has its size. Click Sheet, at the top: this is what the permit office gets. Fill in its title block on the right (Tab \
         goes from field to field), then click Export… and export it as PDF.",
        done: |seen| seen.exported,
    },
];

const WELL_DONE: &str = "Well done: a sized drawing, and its sheet as a file. The line below the drawing says what must still be fixed before anybody \
     builds from it: click Is it right? to go through it. Help brings this lesson back.";

fn devices(job: &Job) -> impl Iterator<Item = &Device> {
    job.joints.iter().filter_map(|joint| joint.device())
}

fn supplies(job: &Job) -> impl Iterator<Item = &Supply> {
    devices(job).filter_map(|device| match device {
        Device::Supply(supply) => Some(supply),
        _ => None,
    })
}

fn appliances(job: &Job) -> impl Iterator<Item = &Appliance> {
    devices(job).filter_map(|device| match device {
        Device::Appliance(appliance) => Some(appliance),
        _ => None,
    })
}

impl<'a> Seen<'a> {
    /// What there is on the desk.
    pub fn of(desk: &'a Desk, exported: bool) -> Seen<'a> {
        let sections = &desk.shown().checked.study.sections;
        Seen {
            job: desk.job(),
            sized: !sections.is_empty() && sections.iter().all(is_sized),
            exported,
        }
    }
}

/// Whether a section has its size; part of a connector has none.
fn is_sized(section: &Section) -> bool {
    section.sizing.size.is_some() || section.sizing.origin == Origin::Connector
}

impl Lesson {
    /// Shows all steps in a line and what to do now beneath it, over the whole width, so that it takes little of the paper;
    /// breaks when the lesson is over.
    pub fn ui(&mut self, ui: &mut Ui, desk: &Desk, exported: bool) -> ControlFlow<()> {
        let seen = Seen::of(desk, exported);
        while self.reached < STEPS.len() && (STEPS[self.reached].done)(&seen) {
            self.reached += 1;
        }
        let dark = ui.visuals().dark_mode;
        let frame = Frame::new()
            .fill(look::standing(Mood::Open, dark))
            .inner_margin(Margin::symmetric(10, 5));
        let ended = Panel::top("lesson").resizable(false).frame(frame).show(ui, |ui| {
            let is_over = self.reached == STEPS.len();
            let ended = ui
                .horizontal(|ui| {
                    ui.label(look::strong("A first drawing"));
                    for (number, step) in STEPS.iter().enumerate() {
                        ui.add(Label::new(self.line(number, step, dark)).extend());
                    }
                    let words = if is_over { "Close" } else { "End the lesson" };
                    let end = Layout::right_to_left(Align::Center);
                    ui.with_layout(end, |ui| ui.button(words).clicked()).inner
                })
                .inner;
            let how = STEPS.get(self.reached).map_or(WELL_DONE, |step| step.how);
            ui.add(Label::new(how).wrap());
            ended
        });
        match ended.inner {
            true => ControlFlow::Break(()),
            false => ControlFlow::Continue(()),
        }
    }

    fn line(&self, number: usize, step: &Step, dark: bool) -> RichText {
        let line = format!("{}. {}", number + 1, step.name);
        match number.cmp(&self.reached) {
            std::cmp::Ordering::Less => {
                RichText::new(format!("{line}: done")).color(look::standing_words(Mood::Clear, dark))
            }
            std::cmp::Ordering::Equal => look::strong(line),
            std::cmp::Ordering::Greater => RichText::new(line).weak(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_job_has_done_nothing_and_an_example_everything() {
        let example = crate::file::read(super::super::EXAMPLES[0].1).unwrap();
        let (empty, drawn) = (Desk::new(Job::default(), || {}), Desk::new(example, || {}));
        for step in &STEPS {
            assert!(!(step.done)(&Seen::of(&empty, false)), "{}", step.name);
            assert!((step.done)(&Seen::of(&drawn, true)), "{}", step.name);
        }
    }
}
