//! The sheets of one job: the drawing with what fits around it, in parts over several sheets where one has no room for all
//! its words, then the rest; and, a set of their own, the sheets to work from.

mod around;
mod arranged;
mod composer;
mod draw;
mod drawings;
mod issue;
mod notice;
mod parted;
mod remarks;
mod schedules;
mod spread;
mod working;
mod worksheet;

use super::about::{About, Arrange};
use super::existing::Before;
use super::matter::Matter;
use super::paper::{Orientation, Paper, Turn};
use super::purpose::Purpose;
use super::{built, changes};
use crate::codebook::Codebook;
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::Scene;
use composer::Composer;
use draw::Which;
use drawings::Drawings;
use spread::Spread;
use std::cell::Cell;

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The sheets in order: the drawing first, in parts where its words find no room on one sheet, then schedules that did
    /// not fit around it; then the sheets to work from.
    pub sheets: Vec<Scene>,
    /// What stands on each sheet, in few words.
    pub names: Vec<String>,
    /// What each sheet is for.
    pub purposes: Vec<Purpose>,
    /// The number of each sheet in its set, from 1, and how many the set has: `1 of 2`.
    pub numbers: Vec<(usize, usize)>,
    /// For each change since the issue the numbers of the clouds that it is in, on the first sheet.
    pub clouded: Vec<Vec<usize>>,
    /// What should be said to the person who asked: a drawing too dense for its paper, a title too long for its cell.
    pub remarks: Vec<String>,
    /// How long places for words were looked for, in tests of one thing against another: the same on every machine.
    pub effort: usize,
}

impl Packet {
    fn push(&mut self, sheet: Scene, name: String, which: Which) {
        self.sheets.push(sheet);
        self.names.push(name);
        self.purposes.push(which.purpose);
        self.numbers.push((which.number, which.of));
    }

    /// How many sheets its first set has.
    fn of_set(&self) -> usize {
        self.numbers.first().map_or(0, |(_, of)| *of)
    }
}

/// Composes the permit sheets of a job. A job without anything in it gives one sheet too.
pub fn compose(job: &Job, checked: &Checked, book: &Codebook, paper: Paper, turn: impl Into<Turn>) -> Packet {
    compose_about(job, checked, book, paper, turn, About::default())
}

/// Composes sheets about a matter of a job, or about what changed in it.
pub fn compose_about<'a>(
    job: &'a Job,
    checked: &'a Checked,
    book: &'a Codebook,
    paper: Paper,
    turn: impl Into<Turn>,
    about: impl Into<About<'a>>,
) -> Packet {
    let about = about.into();
    let compose = |orientation| composed(job, checked, book, (paper, orientation), about);
    match turn.into() {
        Turn::Chosen(orientation) => {
            let mut packet = compose(orientation);
            let turned = remarks::turned(&packet, (paper, orientation.other()), compose);
            packet.remarks.extend(turned);
            packet
        }
        Turn::Fewest => remarks::fewest(compose(Orientation::Landscape), paper, compose),
    }
}

fn composed<'a>(
    job: &'a Job,
    checked: &'a Checked,
    book: &'a Codebook,
    (paper, orientation): (Paper, Orientation),
    About { matter, since, arrange }: About<'a>,
) -> Packet {
    let before = Before::of(job, &checked.study, book);
    let mut permit = Composer {
        before: before.as_ref(),
        ..Composer::new(job, checked, book, paper, orientation)
    };
    // The way to a place of a survey is told in steps of the job as it is drawn.
    let how = if matches!(matter, Matter::TieIns(_)) {
        Arrange::Never
    } else {
        arrange
    };
    let judged = arranged::arranged(&permit, how);
    let arranged = judged.job;
    let since = since.filter(|_| matter.is_for_permit());
    // What was lettered to judge by is the permit sheet itself where nothing changed since an issue.
    let asked = matter.asked();
    let lettered = (judged.first).filter(|_| matter.is_for_permit() && since.is_none() && asked.is_nothing());
    let moved = arranged
        .as_ref()
        .zip(since)
        .map(|(drawn, since)| arranged::moved(since, job, drawn));
    let drawings = match arranged.is_none() && since.is_none() {
        true => std::mem::take(&mut permit.drawings),
        false => Drawings::new(job.runs.len()),
    };
    let composer = Composer {
        drawings,
        matter,
        since: moved.as_ref().or(since),
        title: permit.title_for(matter.purpose()),
        before: permit.before.filter(|_| matter.is_for_permit() && asked.is_nothing()),
        drawn: arranged.as_ref().unwrap_or(job),
        is_arranged: arranged.is_some(),
        effort: Cell::new(lettered.as_ref().map_or(0, |first| first.effort)),
        ..permit
    };
    let first = lettered.unwrap_or_else(|| composer.first_sheet());
    let spread = Spread::of(&composer, first);
    let mut packet = Packet {
        sheets: Vec::new(),
        names: Vec::new(),
        purposes: Vec::new(),
        numbers: Vec::new(),
        clouded: spread.first().clouded.clone(),
        remarks: remarks::remarks(&composer, &spread),
        effort: 0,
    };
    packet.remarks.extend(composer.since.and_then(changes::remark));
    packet.remarks.extend(remarks::cut(&composer.title));
    let work = composer.matter.work().filter(|_| !built::is_built(job));
    if composer.matter.work().is_some() && work.is_none() {
        let said = "no work sheets: the drawing is issued as built, and the work is done";
        packet.remarks.push(said.to_owned());
    }
    let matches = spread.matches;
    issue::issue(&composer, spread, &mut packet);
    if let Some(work) = work {
        working::sheets(&composer, work, matches, &mut packet);
    }
    if let Matter::Worksheet(_) = composer.matter {
        worksheet::working(&composer, &mut packet);
    }
    packet.effort = composer.effort.get();
    packet
}
