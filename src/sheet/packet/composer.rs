//! What the sheets of a job are composed from, and what stands on the first of them.

use super::around::Around;
use super::draw;
use super::drawings::Drawings;
use super::notice::{self, Lacking};
use super::remarks::left_out;
use super::spread::Together;
use super::worksheet;
use crate::changes::Changes;
use crate::codebook::{Codebook, Profile};
use crate::drawing::{Asked, Crowding, Gone, Isometric, Options, isometric};
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Point, Rect};
use crate::sheet::block::{Block, Part};
use crate::sheet::changes::Placed;
use crate::sheet::existing::Before;
use crate::sheet::findings::Found;
use crate::sheet::matter::Matter;
use crate::sheet::notes::{self, Ground};
use crate::sheet::paper::{Orientation, Paper};
use crate::sheet::plan::{Foot, Plan, title_width};
use crate::sheet::purpose::Purpose;
use crate::sheet::tags::Schedule;
use crate::sheet::title_block::TitleBlock;
use crate::sheet::title_strip;
use crate::sheet::{appliances, built, cautions, changes, existing, legend, points, revisions, sections, supply};
use crate::study::{Places, Study};
use std::cell::Cell;
use std::rc::Rc;

/// Between the edge of the drawing's box and the drawing, mm.
pub const CLEAR: f64 = 4.0;
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
pub const STAMP: &str = "Approval stamp";

/// Everything that the sheets of a job are composed from.
pub struct Composer<'a> {
    pub job: &'a Job,
    /// The job as it is drawn: with its drawn lengths arranged, or itself.
    pub drawn: &'a Job,
    pub is_arranged: bool,
    pub checked: &'a Checked,
    pub study: &'a Study,
    pub book: &'a Codebook,
    pub profile: &'a Profile,
    pub paper: Paper,
    pub orientation: Orientation,
    pub places: Places<'a>,
    pub title: TitleBlock,
    pub matter: Matter<'a>,
    pub since: Option<&'a Changes>,
    /// What stood before the work; none on studies.
    pub before: Option<&'a Before>,
    /// How long places for words were looked for so far.
    pub effort: Cell<usize>,
    /// What was drawn so far.
    pub drawings: Drawings,
}

impl<'a> Composer<'a> {
    pub fn new(job: &'a Job, checked: &'a Checked, book: &'a Codebook, paper: Paper, orientation: Orientation) -> Self {
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
        }
    }

    pub fn frame(&self) -> Rect {
        self.paper.frame(self.orientation)
    }

    pub fn title_for(&self, purpose: Purpose) -> TitleBlock {
        TitleBlock::lay(self.job, self.checked, self.profile, title_width(self.frame()), purpose)
    }

    pub fn first_plan(&self) -> Plan {
        let frame = self.frame();
        let cautions = cautions::strip(frame.width()).height;
        Plan::first(frame, self.title.height(), cautions)
    }

    pub fn later_plan(&self) -> Plan {
        let frame = self.frame();
        Plan::later(frame, title_strip::height(frame.width()))
    }

    pub fn has_stamp(&self) -> bool {
        self.matter.purpose().has_stamp(self.job, self.checked)
    }

    /// The room for the stamp beside the title block, where there is such.
    pub fn stamp_beside(&self, plan: &Plan) -> Option<Rect> {
        let beside = beside(plan).filter(|_| self.has_stamp())?;
        let left = beside.min.x.max(beside.max.x - STAMP_WIDTH);
        Some(Rect::new(Point::new(left, beside.min.y), beside.max))
    }

    /// Where drawing and schedules may stand on a first sheet, the drawing in the first of these.
    pub fn rooms(&self, plan: &Plan) -> Vec<Rect> {
        let end = self.stamp_beside(plan).map(|stamp| stamp.min.x);
        let left = beside(plan).map(|room| Rect::new(room.min, Point::new(end.unwrap_or(room.max.x), room.max.y)));
        let worth = |room: &Rect| room.width() > draw::LEAST_ROOM;
        std::iter::once(plan.drawing).chain(left.filter(worth)).collect()
    }

    /// The same permit sheets with another drawing of the job.
    pub fn drawing_of<'b>(&self, drawn: &'b Job) -> Composer<'b>
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

    pub fn options(&self) -> Options<'a> {
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
    pub fn draw(&self, plan: &Plan, options: Options<'_>) -> Isometric {
        Rc::unwrap_or_clone(self.draw_in(plan.drawing, options))
    }

    /// Draws in a room, where that was not done already, and counts what that took.
    pub fn draw_in(&self, room: Rect, options: Options<'_>) -> Rc<Isometric> {
        let area = room.grown(-CLEAR);
        self.drawings.get(area, &options, || {
            let drawing = isometric(self.drawn, self.study, area, options);
            self.effort.set(self.effort.get() + drawing.effort);
            drawing
        })
    }

    /// Whether so much was tried already that what has been found must do: a drawing far too dense for its paper would be
    /// lettered a hundred times.
    pub fn has_tried_enough(&self) -> bool {
        self.effort.get() > MOST_EFFORT
    }

    /// The first sheet with the whole drawing on it.
    pub fn first_sheet(&self) -> First {
        let effort = self.effort.get();
        let plan = self.first_plan();
        let rooms = self.rooms(&plan);
        let around = self.around((plan.body, &rooms), self.options(), &|drawing| {
            self.blocks(drawing, None).0
        });
        let (_, later) = self.blocks(&around.drawing, None);
        First {
            around,
            later,
            effort: self.effort.get() - effort,
        }
    }

    /// How many findings stand beside the drawing: as many as leave room for it.
    pub fn findings_shown(&self) -> usize {
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
    pub fn whole_findings(&self) -> Option<Block> {
        let is_told = self.matter.is_for_permit() && self.matter.asked().is_nothing();
        let is_cut = is_told && self.findings_shown() < Found::of(&self.checked.findings).blocking();
        is_cut.then(|| self.all_findings()).flatten()
    }

    /// All findings that block.
    pub fn all_findings(&self) -> Option<Block> {
        let found = Found::of(&self.checked.findings);
        found.block(found.blocking(), &self.places)
    }

    /// What notes are made from, where so many words of the drawing stand nowhere.
    pub fn ground(&self, left_out: usize) -> Ground<'_> {
        Ground {
            job: self.job,
            study: self.study,
            places: &self.places,
            findings: &self.checked.findings,
            book: self.book,
            profile: self.profile,
            crowding: match left_out {
                0 => Crowding::Fits,
                left_out => Crowding::TooDense { left_out },
            },
        }
    }

    /// The blocks that may stand on the first sheet, and those that never do, both in reading order; of a drawing in parts
    /// that is its first part, and `parts` what all have together.
    pub fn blocks(&self, drawing: &Isometric, parts: Option<&Together>) -> (Vec<Block>, Vec<Block>) {
        let mut first = Vec::new();
        let numbered = points::here(&drawing.numbered);
        let used = parts.map_or(drawing.used, |parts| drawing.used.with(parts.used));
        let lacking = parts.map_or(left_out(drawing), |parts| parts.left_out);
        let legend = legend::block(used, self.study);
        // A part has room for it kept.
        if parts.is_none() && lacking > 0 {
            first.push(notice::block(Lacking::Permit, lacking));
        }
        if !self.matter.asked().is_nothing() {
            first.extend(worksheet::blocks(self, lacking));
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
        let shown = match parts {
            Some(parts) if parts.is_brief => 0,
            Some(_) | None => self.findings_shown(),
        };
        first.extend(Found::of(&self.checked.findings).block(shown, &self.places));
        if self.has_stamp() && beside(&self.first_plan()).is_none() {
            first.push(Block::new(Schedule::Stamp, "", vec![Part::Blank(STAMP_HEIGHT, STAMP)]));
        }
        let placed = match parts {
            Some(parts) => Placed::OnSheets(&parts.changes),
            None => Placed::InClouds(&drawing.clouded),
        };
        first.extend(self.since.map(|since| changes::block(since, placed)));
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
        first.push(notes::block(&self.ground(lacking), &self.title.cut));
        first.extend(built::block(self.job));
        first.extend(revisions::block(self.job));
        first.extend(points::block(&numbered, &self.places));
        first.extend(legend);
        first.sort_by_key(|block| block.which);
        (first, Vec::new())
    }
}

/// A first sheet.
pub struct First {
    /// The drawing and what stands around it.
    pub around: Around,
    /// What never stands on a first sheet.
    pub later: Vec<Block>,
    /// How long places for its words were looked for.
    pub effort: usize,
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
        let (first, later) = composer.blocks(&drawing, None);
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
