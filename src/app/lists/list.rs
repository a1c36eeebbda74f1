//! What one list is: its name, its rows, and what a click on a row does.

use super::row::Table;
use crate::desk::{Desk, Face, Shown};
use crate::view::canvas::Over;
use egui::Ui;

/// One list of the window.
pub trait List {
    /// Its name, on its tab.
    fn name(&self) -> &'static str;

    /// What is said of it when its tab is pointed at.
    fn tip(&self) -> &'static str;

    /// The list; `None` while it is worked out.
    fn table(&mut self, desk: &mut Desk) -> Option<Table>;

    /// Whether it has anything to tell.
    fn is_offered(&self, _: &Desk) -> bool {
        true
    }

    /// How many rows, where that is worth saying.
    fn count(&self, _: &Shown) -> Option<usize> {
        None
    }

    /// How the canvas is lettered while it is shown.
    fn face(&self) -> Face {
        Face::Usual
    }

    /// What stands above its rows.
    fn head(&mut self, _: &mut Ui, _: &mut Desk) {}

    /// Counts whatever changes its rows beside the revision of the job.
    fn stamp(&self) -> u64 {
        0
    }

    /// What is marked over the drawing.
    fn over(&self, _: &mut Desk) -> Over {
        Over::default()
    }

    /// Which rows are shown as chosen.
    fn chosen(&self, _: &mut Desk) -> Chosen {
        Chosen::Selected
    }

    /// Does what a click on a row is for, but leading to its place.
    fn choose(&mut self, _: usize, _: &mut Desk) -> Then {
        Then::Lead
    }

    /// Starts a frame, for what is typed in its head.
    fn begin(&mut self, _: &Desk) {}

    /// Ends a frame.
    fn end(&mut self, _: &mut Desk) {}

    /// Takes what is typed and not yet taken.
    fn settle(&mut self, _: &mut Desk) {}
}

/// Which rows are shown as chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// Those of parts that are selected.
    Selected,
    /// One, or none.
    Row(Option<usize>),
}

/// What comes after a click on a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Then {
    /// The paper shows where the row leads.
    Lead,
    /// Nothing more.
    Stay,
}
