//! What changed since the issue that the job is compared with.

use super::list::List;
use super::row::{Column, Leads, Lines, Row, Table};
use crate::changes::{Change, Turn};
use crate::desk::issued;
use crate::desk::{Desk, Shown, VIEW};
use crate::scene::Rect;
use egui::Ui;

/// The list of changes.
#[derive(Default)]
pub struct ChangedSince;

impl List for ChangedSince {
    fn name(&self) -> &'static str {
        "Changes"
    }

    fn tip(&self) -> &'static str {
        "What has changed since the job was issued; a row leads to its place"
    }

    fn is_offered(&self, desk: &Desk) -> bool {
        desk.issued().is_some()
    }

    fn count(&self, shown: &Shown) -> Option<usize> {
        shown.changes.as_ref().map(|changes| changes.list.len())
    }

    /// What the job is compared with, and the way to stop.
    fn head(&mut self, ui: &mut Ui, desk: &mut Desk) {
        let Some(issued) = desk.issued().map(|issued| issued.name.clone()) else {
            return;
        };
        ui.horizontal_wrapped(|ui| {
            let heading = desk.shown().changes.as_ref().map(|changes| changes.heading());
            ui.label(format!("Compared with {issued}. {}", heading.unwrap_or_default()));
            if ui.button("Stop comparing").clicked() {
                desk.compare(None);
            }
        });
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        Some(table(desk.shown()))
    }
}

/// The changes, each with the numbers of its clouds.
fn table(shown: &Shown) -> Table {
    let changes = shown.changes.iter().flat_map(|changes| changes.list.iter());
    let clouds = shown.picture.clouded.iter().chain(std::iter::repeat(NO_CLOUD));
    let rows = changes.zip(clouds).map(|(change, clouds)| {
        let clouds: Vec<String> = clouds.iter().map(usize::to_string).collect();
        let cells = vec![clouds.join(", "), change.name.clone(), change.said()];
        Row::new(cells, leads(change))
    });
    Table {
        rows: rows.collect(),
        columns: vec![
            Column::words("cloud"),
            Column::wide("where", 1.0),
            Column::wide("what", 3.0),
        ],
        lines: Lines::One,
        empty: "Nothing drawn or entered has changed.".to_owned(),
    }
}

const NO_CLOUD: &Vec<usize> = &Vec::new();

fn leads(change: &Change) -> Leads {
    match issued::part(change) {
        Some(part) => Leads::Each(vec![part]),
        None => {
            let places = change.spots.iter().flat_map(|spot| spot.places());
            let stood = Rect::around(places.map(|at| VIEW.point(at)));
            match stood.filter(|_| change.turn == Turn::TakenAway) {
                Some(stood) => Leads::Place(stood.center()),
                None => Leads::Job,
            }
        }
    }
}
