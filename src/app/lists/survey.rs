//! Where a new branch is best tied in: the controls of the survey, its list, and what it marks on the paper.
//!
//! The survey works on other threads, tells how far it is, and stops when the drawing changes or a person says so.

use super::list::{Chosen, List, Then};
use super::row::{Column, Leads, Lines, Row, Table};
use crate::advice::{NewBranch, NoTieIn, Offer, PipeBought, Progress, TieIn, TieInPlace, TieInStanding, TieIns};
use crate::desk::later::{Lost, Task};
use crate::desk::{Desk, Shown, VIEW};
use crate::drawing::strokes;
use crate::editor::{Part, edit};
use crate::job::{Device, Job, JointId, State};
use crate::rules::Severity;
use crate::units::{Show, UnitSystem};
use crate::view::canvas::Over;
use egui::{ComboBox, ProgressBar, Ui};
use std::sync::Arc;

/// So many places are listed, the best.
const LISTED: usize = 500;
/// So many joints are offered as the head of the branch.
const HEADS: usize = 200;

/// The survey of one window.
#[derive(Default)]
pub struct Survey {
    head: Option<JointId>,
    offer: Offer,
    work: Option<Work>,
    found: Option<(Asked, Result<TieIns, NoTieIn>)>,
    /// The row that is chosen.
    chosen: usize,
    /// Counts results and choices, so that a list knows whether it is of before.
    stamp: u64,
}

/// What was asked: the branch, of one revision of the job.
#[derive(Clone, PartialEq)]
struct Asked {
    revision: u64,
    branch: NewBranch,
}

struct Work {
    asked: Asked,
    progress: Arc<Progress>,
    task: Option<Task<Result<TieIns, NoTieIn>>>,
}

impl Drop for Work {
    fn drop(&mut self) {
        self.progress.stop();
    }
}

impl List for Survey {
    fn name(&self) -> &'static str {
        "Tie-in"
    }

    fn tip(&self) -> &'static str {
        "Every joint and every foot of the piping tried as the tie-in of a new branch. On the paper: a long, heavy \
                 stroke, over capacity with the branch there; a shorter, thin one, within capacity; the shortest, not judged"
    }

    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        self.ui(ui, desk);
    }

    fn stamp(&self) -> u64 {
        self.stamp
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        self.rows_of(desk.shown())
    }

    fn over(&self, desk: &mut Desk) -> Over {
        self.marks(desk.shown())
    }

    fn chosen(&self, _: &mut Desk) -> Chosen {
        Chosen::Row(Some(self.chosen))
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        self.chosen = at;
        self.stamp += 1;
        if let Some(row) = self.row() {
            desk.seek(match row.place {
                TieInPlace::Joint(joint) => Part::Joint(joint),
                TieInPlace::Run { run, .. } => Part::Run(run),
            });
        }
        Then::Stay
    }
}

impl Survey {
    /// The controls above the list.
    fn ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let heads = heads(desk.shown());
        if let Some(Part::Joint(joint)) = desk.editor().selection().single()
            && heads.contains(&joint)
        {
            self.head = Some(joint);
        }
        self.head = self.head.filter(|head| heads.contains(head)).or(heads.first().copied());
        let Some(head) = self.head else {
            (self.work, self.found) = (None, None);
            return;
        };
        ui.horizontal_wrapped(|ui| {
            let label = ui.label("The new line ends at");
            let job = Arc::clone(&desk.shown().job);
            let choice = ComboBox::from_id_salt("head of the branch")
                .selected_text(called(&job, head))
                .show_ui(ui, |ui| {
                    for joint in &heads {
                        if ui.selectable_label(*joint == head, called(&job, *joint)).clicked() {
                            self.head = Some(*joint);
                            desk.seek(Part::Joint(*joint));
                        }
                    }
                });
            choice.response.labelled_by(label.id);
            let mut new_pipe = self.offer == Offer::AllPipe;
            ui.checkbox(&mut new_pipe, "New pipe too");
            self.offer = if new_pipe { Offer::AllPipe } else { Offer::Existing };
            self.follow(desk);
            if let Some(work) = &self.work {
                let (done, of) = work.progress.done_of();
                let share = done as f32 / of.max(1) as f32;
                ui.add(
                    ProgressBar::new(share)
                        .desired_width(160.0)
                        .text(format!("{done} of {of} places")),
                );
                if ui.button("Stop").clicked() {
                    work.progress.stop();
                }
                ui.ctx().request_repaint_after(std::time::Duration::from_millis(100));
            } else if let Some(row) = self.row().cloned() {
                let words = format!("Tie in at {}", row.place.words(&job));
                let button = ui
                    .button(words)
                    .on_hover_text(row.reasons(desk.shown().checked.study.names.units()).join("\n"));
                if button.clicked() {
                    // What stands against it is said in the status line.
                    desk.attempt(|job| edit::tie_in(job, &row));
                }
                let vary = ui.button("Open as a variant");
                if vary
                    .on_hover_text("Tie in there in a copy of this drawing, to compare it with others")
                    .clicked()
                {
                    let name = format!("Tie in at {}", row.place.words(&job));
                    desk.attempt(|job| edit::open_as_variant(job, &name, &edit::tie_in(job, &row)?));
                }
            }
        });
    }

    /// Takes up what is done, and sets other threads to what is asked now.
    fn follow(&mut self, desk: &Desk) {
        let Some(head) = self.head else { return };
        let asked = Asked {
            revision: desk.shown().revision,
            branch: NewBranch {
                head,
                through: Vec::new(),
                offer: self.offer,
            },
        };
        if let Some(mut work) = self.work.take() {
            match Task::ended(&mut work.task) {
                Some(Ok(result)) => {
                    self.found = Some((work.asked.clone(), result));
                    self.chosen = 0;
                    self.stamp += 1;
                }
                None if work.asked == asked => self.work = Some(work),
                Some(Err(Lost)) | None => {}
            }
        }
        let is_found = self.found.as_ref().is_some_and(|(of, _)| *of == asked);
        if is_found || self.work.is_some() {
            return;
        }
        let progress = Arc::new(Progress::default());
        let (job, book) = (Arc::clone(&desk.shown().job), desk.book());
        let (branch, shared) = (asked.branch.clone(), Arc::clone(&progress));
        let find = move || TieIns::find(&job, &book, &branch, &shared);
        self.work = Some(Work {
            asked,
            progress,
            task: Some(Task::begin(&desk.wake(), find)),
        });
    }

    fn rows(&self) -> &[TieIn] {
        match &self.found {
            Some((_, Ok(found))) => &found.rows,
            Some((_, Err(_))) | None => &[],
        }
    }

    fn row(&self) -> Option<&TieIn> {
        self.rows().get(self.chosen)
    }

    /// The list; `None` while it is worked out.
    fn rows_of(&self, shown: &Shown) -> Option<Table> {
        if self.found.as_ref().is_some_and(|(of, _)| of.revision != shown.revision) {
            return None;
        }
        let empty = match (&self.found, self.head) {
            (_, None) => {
                "Draw the new branch apart from the piping: an appliance alone at its place, or new pipe with appliances, as far toward the \
                 existing piping as you know its route. Every joint and every foot of the piping is then tried as its tie-in."
                    .to_owned()
            }
            (Some((_, Err(why))), _) => format!("Can't try any tie-in: {why}."),
            (Some((_, Ok(_))), _) => "The survey was stopped before any place was tried.".to_owned(),
            (None, Some(_)) => return None,
        };
        let (job, units) = (&shown.job, shown.checked.study.names.units());
        let rows = self.rows().iter().take(LISTED).enumerate().map(|(at, row)| {
            let mark = match row.standing() {
                TieInStanding::Holds => None,
                TieInStanding::Before | TieInStanding::Unknown => Some(Severity::Check),
                TieInStanding::Fails => Some(Severity::MustFix),
            };
            let first = row.fails.first().map(|part| part.words(units));
            let first = first.or_else(|| Some(row.already.first()?.words(units)));
            let pipe = row
                .pipe
                .iter()
                .map(|pipe| bought(pipe, units))
                .collect::<Vec<_>>()
                .join(", ");
            let spare = row.lowest.as_ref().map_or_else(
                || "not known".to_owned(),
                |lowest| format!("{}, {}", lowest.margin.show(units), lowest.name),
            );
            let cells = vec![
                (at + 1).to_string(),
                row.place.words(job),
                row.verdict(),
                first.unwrap_or_default(),
                row.route_length().show(units),
                pipe,
                row.shown_weight(units).unwrap_or_else(|| "not published".to_owned()),
                row.fittings.to_string(),
                spare,
            ];
            Row {
                mark,
                aside: row.reasons(units).join("\n"),
                ..Row::new(cells, Leads::Job)
            }
        });
        Some(Table {
            rows: rows.collect(),
            columns: vec![
                Column::figures("rank"),
                Column::words("tie-in"),
                Column::wide("result", 1.0),
                Column::wide("first over its limit", 1.4),
                Column::figures("new line"),
                Column::wide("pipe of the branch", 1.4),
                Column::figures("weight"),
                Column::figures("fittings"),
                Column::wide("lowest margin", 1.0),
            ],
            lines: Lines::One,
            empty,
        })
    }

    /// What is marked over the drawing: a stroke at each place, and the way of the chosen line.
    fn marks(&self, shown: &Shown) -> Over {
        let way = self.row().map_or_else(Vec::new, |row| {
            let places = std::iter::once(row.at).chain(row.route.iter().map(|leg| leg.to));
            places.map(|place| VIEW.point(place)).collect()
        });
        Over {
            strokes: strokes::surveyed(&shown.job, self.rows(), &VIEW),
            way,
        }
    }
}

fn bought(pipe: &PipeBought, units: UnitSystem) -> String {
    let size = pipe.size_named().unwrap_or_else(|| "size not known".to_owned());
    format!("{size} {} {}", pipe.material.short(), pipe.length.show(units))
}

/// A joint with what stands on it.
fn called(job: &Job, joint: JointId) -> String {
    let placed = job.joints.get(joint).and_then(|joint| joint.placed.as_ref());
    match placed.map(|placed| &placed.device) {
        Some(Device::Appliance(appliance)) if !appliance.name.trim().is_empty() => {
            format!("{joint} {}", appliance.name.trim())
        }
        Some(device) => format!("{joint} {}", device.name()),
        None => joint.to_string(),
    }
}

/// Joints that no gas reaches and that have an end for a line: open ends first, then what stands alone, then the rest.
fn heads(shown: &Shown) -> Vec<JointId> {
    let network = &shown.checked.study.network;
    let order = |at: usize| -> Option<(u8, JointId)> {
        let joint = shown.job.joints.at(at);
        if shown.checked.study.joints[at].distance.is_some() || network.supply == Some(at) {
            return None;
        }
        let stands = |run: &usize| shown.job.runs.at(*run).state != State::Removed;
        match (joint.device(), network.legs(at).filter(stands).count()) {
            (None, 0) => None,
            (None | Some(Device::Cap(_)), 1) => Some((0, joint.id)),
            (Some(Device::Appliance(_)), 0) => Some((1, joint.id)),
            (Some(Device::Supply(_) | Device::Appliance(_)), _) => None,
            // A valve or other device in the line, at the end of it.
            (Some(_), 1) => Some((0, joint.id)),
            (None, 2..) => Some((2, joint.id)),
            _ => None,
        }
    };
    let mut heads: Vec<(u8, JointId)> = (0..shown.job.joints.len()).filter_map(order).collect();
    heads.sort_unstable();
    heads.truncate(HEADS);
    heads.into_iter().map(|head| head.1).collect()
}
