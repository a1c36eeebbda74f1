//! The sheets of one job: the drawing with what fits around it, in parts over several sheets where one has no room for all
//! its words, then the rest; and, a set of their own, the sheets to work from.

mod around;
mod arranged;
mod draw;
mod drawings;
mod first;
mod ground;
mod issue;
mod lecture;
mod notice;
mod parted;
mod remarks;
mod schedules;
mod spread;
mod together;
mod working;
mod worksheet;

use super::about::{About, Arrange};
use super::existing::Before;
use super::matter::Matter;
use super::paper::{Orientation, Paper, Turn};
use super::plan::{Foot, Plan, title_width};
use super::purpose::Purpose;
use super::title_block::TitleBlock;
use super::{built, cautions, changes, title_strip};
use crate::changes::Changes;
use crate::codebook::{Codebook, Profile};
use crate::drawing::{Gone, Isometric, Options, isometric};
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Point, Rect, Scene};
use crate::study::{Places, Study};
pub use lecture::sizing_steps;

use draw::Which;
use drawings::Drawings;
use spread::Spread;
use std::cell::Cell;
use std::rc::Rc;

/// Between the edge of the drawing's box and the drawing, mm.
const CLEAR: f64 = 4.0;
/// After so many tests for free places nothing further is tried for the sheets of a job, only drawn.
const MOST_EFFORT: usize = 8_000_000;
/// What the room for a stamp is for.
const STAMP: &str = "Approval stamp";
/// The greatest width of the room for a stamp beside the title block, mm.
const STAMP_WIDTH: f64 = 84.0;

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, Default, PartialEq)]
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
    /// The same with the sheets of another behind it.
    pub fn and(mut self, other: Packet) -> Packet {
        self.sheets.extend(other.sheets);
        self.names.extend(other.names);
        self.purposes.extend(other.purposes);
        self.numbers.extend(other.numbers);
        self.remarks.extend(other.remarks);
        self.effort += other.effort;
        self
    }

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

/// The plan of a job to true scale, on a sheet of its own.
pub fn compose_plan(job: &Job, checked: &Checked, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    ground::sheet(&Composer::new(job, checked, book, paper, orientation))
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
        // What is compared with an issue stays turned as it was issued.
        Turn::Chosen(orientation) if about.since.is_some() => compose(orientation),
        Turn::Chosen(orientation) => {
            let mut packet = compose(orientation);
            let other = |turned| {
                let about = About {
                    matter: about.matter.without_work(),
                    ..about
                };
                composed(job, checked, book, (paper, turned), about)
            };
            let turned = remarks::turned(&packet, (paper, orientation.other()), other);
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

/// Everything that the sheets of a job are composed from.
struct Composer<'a> {
    job: &'a Job,
    /// The job as it is drawn: with its drawn lengths arranged, or itself.
    drawn: &'a Job,
    is_arranged: bool,
    checked: &'a Checked,
    study: &'a Study,
    book: &'a Codebook,
    profile: &'a Profile,
    paper: Paper,
    orientation: Orientation,
    places: Places<'a>,
    title: TitleBlock,
    /// How high the strip of cautions is, mm.
    cautions: f64,
    matter: Matter<'a>,
    since: Option<&'a Changes>,
    /// What stood before the work; none on studies.
    before: Option<&'a Before>,
    /// How long places for words were looked for so far.
    effort: Cell<usize>,
    /// What was drawn so far.
    drawings: Drawings,
}

impl<'a> Composer<'a> {
    fn new(job: &'a Job, checked: &'a Checked, book: &'a Codebook, paper: Paper, orientation: Orientation) -> Self {
        let study = &checked.study;
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let width = title_width(paper.frame(orientation));
        Composer {
            job,
            drawn: job,
            is_arranged: false,
            checked,
            study,
            book,
            profile,
            paper,
            orientation,
            places: Places::of(job, study),
            title: TitleBlock::lay(job, checked, profile, width, Purpose::Issue),
            cautions: cautions::strip(profile, paper.frame(orientation).width()).height,
            matter: Matter::Permit,
            since: None,
            before: None,
            effort: Cell::new(0),
            drawings: Drawings::new(job.runs.len()),
        }
    }

    fn frame(&self) -> Rect {
        self.paper.frame(self.orientation)
    }

    fn title_for(&self, purpose: Purpose) -> TitleBlock {
        TitleBlock::lay(self.job, self.checked, self.profile, title_width(self.frame()), purpose)
    }

    fn first_plan(&self) -> Plan {
        Plan::first(self.frame(), self.title.height(), self.cautions, self.has_stamp())
    }

    fn later_plan(&self) -> Plan {
        let frame = self.frame();
        Plan::later(frame, title_strip::height(frame.width()))
    }

    fn has_stamp(&self) -> bool {
        self.matter.purpose().has_stamp(self.job, self.checked)
    }

    /// The room for the stamp beside the title block, where there is such.
    fn stamp_beside(&self, plan: &Plan) -> Option<Rect> {
        let beside = beside(plan).filter(|_| self.has_stamp())?;
        let left = beside.min.x.max(beside.max.x - STAMP_WIDTH);
        Some(Rect::new(Point::new(left, beside.min.y), beside.max))
    }

    /// Where drawing and schedules may stand on a first sheet, the drawing in the first of these.
    fn rooms(&self, plan: &Plan) -> Vec<Rect> {
        let end = self.stamp_beside(plan).map(|stamp| stamp.min.x);
        let left = beside(plan).map(|room| Rect::new(room.min, Point::new(end.unwrap_or(room.max.x), room.max.y)));
        let worth = |room: &Rect| room.width() > draw::LEAST_ROOM;
        std::iter::once(plan.drawing).chain(left.filter(worth)).collect()
    }

    /// The same permit sheets with another drawing of the job.
    fn drawing_of<'b>(&self, drawn: &'b Job) -> Composer<'b>
    where
        'a: 'b,
    {
        Composer {
            drawn,
            is_arranged: true,
            before: self.before,
            ..Composer::new(self.job, self.checked, self.book, self.paper, self.orientation)
        }
    }

    fn options(&self) -> Options<'a> {
        Options {
            is_arranged: self.is_arranged,
            asked: self.matter.asked(),
            since: self.since,
            gone: match built::is_built(self.job) && self.matter.is_for_permit() {
                true => Gone::LeftOut,
                false => Gone::Drawn,
            },
            ..Options::default()
        }
    }

    /// Draws on the paper that a plan leaves for it.
    fn draw(&self, plan: &Plan, options: Options<'_>) -> Isometric {
        Rc::unwrap_or_clone(self.draw_in(plan.drawing, options))
    }

    /// Draws in a room, where that was not done already, and counts what that took.
    fn draw_in(&self, room: Rect, options: Options<'_>) -> Rc<Isometric> {
        let area = room.grown(-CLEAR);
        self.drawings.get(area, &options, || {
            let drawing = isometric(self.drawn, self.study, area, options);
            self.effort.set(self.effort.get() + drawing.effort);
            drawing
        })
    }

    /// Whether so much was tried already that what has been found must do: a drawing far too dense for its paper would be
    /// lettered a hundred times.
    fn has_tried_enough(&self) -> bool {
        self.effort.get() > MOST_EFFORT
    }
}

/// The room beside the title block.
fn beside(plan: &Plan) -> Option<Rect> {
    match plan.foot {
        Foot::First { beside, .. } => beside,
        Foot::Later { .. } => None,
    }
}
