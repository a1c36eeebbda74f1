//! The permit sheet around the isometric: frame, title block, schedules, legend, notes and cautions.

mod paper;

pub use paper::{Orientation, Paper};

use crate::codebook::Codebook;
use crate::job::Job;
use crate::scene::{Outline, PathItem, Pen, Scene, Stroke};
use crate::study::Study;

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The sheets in order: the drawing first, then schedules that did not fit beside it.
    pub sheets: Vec<Scene>,
    /// What should be said to the person who asked: a drawing too dense for its paper.
    pub remarks: Vec<String>,
}

/// Composes the permit sheets of a job. A job without anything in it gives one sheet too.
pub fn compose(job: &Job, study: &Study, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    let _ = (study, book);
    let (width, height) = paper.size(orientation);
    let mut sheet = Scene::new(width, height, job.title.job.clone());
    let frame = Outline::rect(paper.frame(orientation));
    sheet.push(PathItem::stroked(frame, Stroke::new(Pen::Heavy)));
    Packet {
        sheets: vec![sheet],
        remarks: Vec::new(),
    }
}
