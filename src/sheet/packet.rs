//! The sheets of one job: the drawing with what fits around it, the same larger where words are left out of it, then the
//! rest; and, a set of their own, the sheets to work from.

mod around;
mod arranged;
mod draw;
mod drawings;
mod issue;
mod larger;
mod notice;
mod remarks;
mod schedules;
mod working;
mod worksheet;

use super::about::{About, Arrange};
use super::block::{Block, Part};
use super::existing::Before;
use super::findings::Found;
use super::matter::Matter;
use super::notes::{self, Ground};
use super::paper::{Orientation, Paper};
use super::plan::{Foot, Plan, title_width};
use super::purpose::Purpose;
use super::tags::Schedule;
use super::title_block::TitleBlock;
use super::{appliances, built, cautions, changes, existing, legend, points, revisions, sections, supply, title_strip};
use crate::changes::Changes;
use crate::codebook::{Codebook, Profile};
use crate::drawing::{self, Asked, Crowding, Gone, Homeless, Isometric, Options, isometric};
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Point, Rect, Scene};
use crate::study::{Places, Study};
use around::Around;
use draw::Which;
use drawings::Drawings;
use larger::Larger;
use notice::Lacking;
use remarks::left_out;
use std::cell::Cell;
use std::rc::Rc;

/// Between the edge of the drawing's box and the drawing, mm.
const CLEAR: f64 = 4.0;
/// After so many tests for free places nothing further is tried for the sheets of a job, only drawn.
const MOST_EFFORT: usize = 8_000_000;
/// The most findings in the box beside the drawing, and the share of the sheet's height that it may take.
const MOST_FINDINGS: usize = 8;
const FINDINGS_SHARE: f64 = 0.4;
/// At which width that is measured, mm.
const FINDINGS_WIDTH: f64 = 112.0;
/// Height of the room for a stamp where none is left beside the title block, and the greatest width of it there, mm.
const STAMP_HEIGHT: f64 = 36.0;
const STAMP_WIDTH: f64 = 100.0;
/// What it is for.
const STAMP: &str = "Approval stamp";

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The sheets in order: the drawing first, the same larger or in parts where its words find no room, then schedules
    /// that did not fit around it; then the sheets to work from.
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
}

/// Composes the permit sheets of a job. A job without anything in it gives one sheet too.
pub fn compose(job: &Job, checked: &Checked, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    compose_about(job, checked, book, paper, orientation, About::default())
}

/// Composes sheets about a matter of a job, or about what changed in it.
pub fn compose_about<'a>(
    job: &'a Job,
    checked: &'a Checked,
    book: &'a Codebook,
    paper: Paper,
    orientation: Orientation,
    about: impl Into<About<'a>>,
) -> Packet {
    let about = about.into();
    let compose = |orientation| composed(job, checked, book, (paper, orientation), about);
    let mut packet = compose(orientation);
    let turned = remarks::turned(&packet, (paper, orientation.other()), compose);
    packet.remarks.extend(turned);
    packet
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
    let (composer, around, later) = composer.in_room(first);
    let mut packet = Packet {
        sheets: Vec::new(),
        names: Vec::new(),
        purposes: Vec::new(),
        numbers: Vec::new(),
        clouded: around.drawing.clouded.clone(),
        remarks: remarks::remarks(&composer, &around.drawing),
        effort: 0,
    };
    packet.remarks.extend(composer.since.and_then(changes::remark));
    packet.remarks.extend(remarks::cut(&composer.title));
    let work = composer.matter.work().filter(|_| !built::is_built(job));
    if composer.matter.work().is_some() && work.is_none() {
        let said = "no work sheets: the drawing is issued as built, and the work is done";
        packet.remarks.push(said.to_owned());
    }
    issue::issue(&composer, around, later, &mut packet);
    if let Some(work) = work {
        working::sheets(&composer, work, &mut packet);
    }
    if let Matter::Worksheet(_) = composer.matter {
        worksheet::working(&composer, &mut packet);
    }
    packet.effort = composer.effort.get();
    packet
}

/// Everything that the sheets of a job are composed from.
pub(super) struct Composer<'a> {
    pub(super) job: &'a Job,
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
    matter: Matter<'a>,
    since: Option<&'a Changes>,
    /// What stood before the work; none on studies.
    before: Option<&'a Before>,
    /// How long places for words were looked for so far.
    effort: Cell<usize>,
    /// What was drawn so far.
    drawings: Drawings,
    /// Where the drawing of the first sheet leaves words out: `Some`, with the same on sheets of its own where there are
    /// such.
    crowded: Option<Option<Larger>>,
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
            matter: Matter::Permit,
            since: None,
            before: None,
            effort: Cell::new(0),
            drawings: Drawings::new(job.runs.len()),
            crowded: None,
        }
    }

    fn frame(&self) -> Rect {
        self.paper.frame(self.orientation)
    }

    fn title_for(&self, purpose: Purpose) -> TitleBlock {
        TitleBlock::lay(self.job, self.checked, self.profile, title_width(self.frame()), purpose)
    }

    fn first_plan(&self) -> Plan {
        let frame = self.frame();
        let cautions = cautions::strip(frame.width()).height;
        Plan::first(frame, self.title.height(), cautions)
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
        std::iter::once(plan.body).chain(left.filter(worth)).collect()
    }

    /// The same permit sheets with another drawing of the job.
    pub(super) fn drawing_of<'b>(&self, drawn: &'b Job) -> Composer<'b>
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

    /// The first sheet.
    fn first_sheet(&self) -> First {
        let effort = self.effort.get();
        let plan = self.first_plan();
        let homeless = match self.larger() {
            Some(_) => Homeless::LeftOut,
            None => Homeless::default(),
        };
        let options = Options {
            homeless,
            ..self.options()
        };
        let rooms = self.rooms(&plan);
        let around = self.around((plan.body, &rooms), options, &|drawing| self.blocks(drawing).0);
        let (_, later) = self.blocks(&around.drawing);
        First {
            around,
            later,
            effort: self.effort.get() - effort,
        }
    }

    /// The first sheet as it was composed; where its drawing leaves words out, with a notice that says so and, on a permit
    /// drawing, with the
    /// drawing again on sheets of its own.
    fn in_room(self, First { around, later, .. }: First) -> (Self, Around, Vec<Block>) {
        if left_out(&around.drawing) == 0 {
            return (self, around, later);
        }
        let larger = (self.matter.is_for_permit()).then(|| {
            let first = drawing::First { sheet: 2, letter: 0 };
            Larger::of(&self, &self.later_plan(), self.options(), first, Lacking::Larger)
        });
        let composer = Composer {
            crowded: Some(larger),
            ..self
        };
        let First { around, later, .. } = composer.first_sheet();
        (composer, around, later)
    }

    /// The drawing on sheets of its own, where the first has no room for all its words.
    fn larger(&self) -> Option<&Larger> {
        self.crowded.as_ref().and_then(Option::as_ref)
    }

    /// Whether the words of the drawing find room, here or on sheets of its own.
    fn crowding(&self, drawing: &Isometric) -> Crowding {
        match self.larger().map_or(left_out(drawing), Larger::left_out) {
            0 => Crowding::Fits,
            left_out => Crowding::TooDense { left_out },
        }
    }

    /// How many findings stand beside the drawing: as many as leave room for it.
    fn findings_shown(&self) -> usize {
        let found = Found::of(&self.checked.findings);
        let most = found.blocking().min(MOST_FINDINGS);
        let room = self.first_plan().body.height() * FINDINGS_SHARE;
        let fits = |shown: &usize| {
            let block = found.block(*shown, &self.places);
            block.is_none_or(|block| block.lay(FINDINGS_WIDTH).height() <= room)
        };
        (0..=most).rev().find(fits).unwrap_or(0)
    }

    /// All findings that block, where the first sheet shows fewer.
    fn whole_findings(&self) -> Option<Block> {
        let found = Found::of(&self.checked.findings);
        let all = found.blocking();
        let is_told = self.matter.is_for_permit() && self.matter.asked().is_nothing();
        let is_cut = is_told && self.findings_shown() < all;
        is_cut.then(|| found.block(all, &self.places)).flatten()
    }

    /// What notes are made from.
    fn ground(&self, drawing: &Isometric) -> Ground<'a> {
        Ground {
            job: self.job,
            study: self.study,
            findings: &self.checked.findings,
            book: self.book,
            profile: self.profile,
            crowding: self.crowding(drawing),
        }
    }

    /// The blocks that may stand on the first sheet, and those that never do, both in reading order.
    fn blocks(&self, drawing: &Isometric) -> (Vec<Block>, Vec<Block>) {
        let mut first = Vec::new();
        let (numbered, used) = match self.larger() {
            Some(larger) => (larger.numbered(), drawing.used.with(larger.used())),
            None => (points::here(&drawing.numbered), drawing.used),
        };
        let legend = legend::block(used, self.study);
        if self.crowded.is_some() && (self.larger().is_some() || left_out(drawing) > 0) {
            let lacking = Lacking::First(self.larger().map(Larger::told));
            first.push(notice::block(lacking, left_out(drawing)));
        }
        if !self.matter.asked().is_nothing() {
            first.extend(worksheet::blocks(self, drawing));
            first.extend(points::block(&numbered, &self.places));
            first.extend(legend);
            first.sort_by_key(|block| block.which);
            return (first, Vec::new());
        }
        if let Some((own, later)) = self.matter.blocks(self.job, self.study, self.book, &self.places) {
            first.extend(own);
            first.extend(points::block(&numbered, &self.places));
            first.extend(legend);
            first.sort_by_key(|block| block.which);
            return (first, later);
        }
        first.extend(Found::of(&self.checked.findings).block(self.findings_shown(), &self.places));
        if self.has_stamp() && beside(&self.first_plan()).is_none() {
            first.push(Block::new(Schedule::Stamp, "", vec![Part::Blank(STAMP_HEIGHT, STAMP)]));
        }
        first.extend(self.since.map(|since| changes::block(since, &drawing.clouded)));
        let (job, study, places, before) = (self.job, self.study, &self.places, self.before);
        let asked = Asked::default();
        first.push(supply::block(
            (job, study),
            self.book,
            self.profile,
            places,
            before,
            asked,
        ));
        first.push(appliances::block(job, study, before, asked));
        first.push(sections::block((study, self.book), before, asked));
        first.extend(before.and_then(|before| existing::block(before, study, places)));
        first.push(notes::block(&self.ground(drawing), &self.title.cut));
        first.extend(built::block(self.job));
        first.extend(revisions::block(self.job));
        first.extend(points::block(&numbered, &self.places));
        first.extend(legend);
        first.sort_by_key(|block| block.which);
        (first, Vec::new())
    }
}

/// A first sheet.
struct First {
    /// The drawing and what stands around it.
    around: Around,
    /// What never stands on a first sheet.
    later: Vec<Block>,
    /// How long places for its words were looked for.
    effort: usize,
}

/// The room beside the title block.
fn beside(plan: &Plan) -> Option<Rect> {
    match plan.foot {
        Foot::First { beside, .. } => beside,
        Foot::Later { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Symbol, SymbolSet};

    fn legend(used: SymbolSet, paper: Paper) -> Vec<Symbol> {
        let (job, book) = (Job::default(), Codebook::published());
        let checked = Checked::of(&job, book);
        let composer = Composer::new(&job, &checked, book, paper, Orientation::Landscape);
        let plan = composer.first_plan();
        let mut drawing = isometric(&job, &checked.study, plan.body, composer.options());
        drawing.used = used;
        let (first, later) = composer.blocks(&drawing);
        assert!(later.iter().all(|block| block.which != Schedule::Legend));
        let parts = first
            .into_iter()
            .filter(|block| block.which == Schedule::Legend)
            .flat_map(|block| block.parts);
        parts
            .flat_map(|part| match part {
                Part::Samples(symbols) => symbols,
                Part::Table(_) | Part::Text(_) | Part::Bars(_) | Part::Blank(..) => Vec::new(),
            })
            .collect()
    }

    #[test]
    fn the_legend_explains_what_is_drawn_and_nothing_else() {
        for paper in Paper::ALL {
            let mut used = SymbolSet::default();
            assert_eq!(legend(used, paper), []);
            for symbol in [Symbol::Union, Symbol::NewPipe, Symbol::Break] {
                used.insert(symbol);
            }
            assert_eq!(legend(used, paper), [Symbol::NewPipe, Symbol::Union, Symbol::Break]);
        }
    }
}
