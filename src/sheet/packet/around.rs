//! A sheet with a drawing and what stands around it: how much of the sheet the drawing is given, so that as many
//! schedules as can be stand in the white beside it and the drawing stays large.
//!
//! Lettering a drawing takes time, so ways to share the sheet are judged by the bare pipe with an allowance for words
//! first; only the likeliest are lettered.

use super::Composer;
use super::notice::left_out;
use crate::drawing::{Isometric, Lettering, Options};
use crate::scene::{Point, Rect};
use crate::sheet::block::Block;
use crate::sheet::fill::{Choice, Filled};
use crate::sheet::tags::Schedule;
use crate::sheet::white::White;
use std::rc::Rc;

/// Widths of the column at the right of the drawing that are tried, mm.
const COLUMNS: [f64; 5] = [0.0, 88.0, 114.0, 140.0, 166.0];
/// Heights of the strip under the drawing that are tried, mm.
const STRIPS: [f64; 5] = [0.0, 26.0, 40.0, 58.0, 90.0];
/// The share of the sheet's width and height that the drawing keeps.
const KEPT: (f64, f64) = (0.42, 0.42);
/// Around ink, mm across and downward: of a finished drawing, and of bare pipe whose words are still to come.
pub const CLEARANCE: (f64, f64) = (3.0, 2.6);
const ALLOWANCE: (f64, f64) = (10.0, 5.5);
/// How many ways are lettered: where the drawing is small, and where it has more runs than that.
const LETTERED: usize = 4;
const MANY_RUNS: usize = 150;
/// How much of a sheet of schedules is filled.
const FILLED: f64 = 0.8;

/// What a way to share the sheet is worth less for.
const WORDS_LOST: f64 = 60.0;
const OVERVIEW: f64 = 250.0;
const NUMBERED: f64 = 4.0;
const DEMOTED: f64 = 90.0;
const MUST: f64 = 600.0;
const SHEET: f64 = 10.0;
const LEFT_OVER: f64 = 10.0;
const SMALLER: f64 = 16.0;

/// A drawing with what stands around it.
pub struct Around {
    /// The drawing.
    pub drawing: Isometric,
    /// What may stand around it.
    pub blocks: Vec<Block>,
    /// What does, and what is left over.
    pub filled: Filled,
}

impl Around {
    /// A drawing as it is, with blocks in the white of it.
    pub fn of(drawing: Isometric, rooms: &[Rect], blocks: Vec<Block>) -> Around {
        let filled = Choice::of(&blocks, rooms).fill(&white(rooms, &drawing, CLEARANCE));
        Around {
            drawing,
            blocks,
            filled,
        }
    }

    /// The blocks that found no room.
    pub fn rest(&self) -> impl Iterator<Item = usize> + '_ {
        self.filled.rest.iter().copied()
    }
}

impl Composer<'_> {
    /// The drawing in the body of a sheet, and blocks in the white of it and of further rooms.
    pub fn around(
        &self,
        (body, rooms): (Rect, &[Rect]),
        options: Options<'_>,
        blocks: &dyn Fn(&Isometric) -> Vec<Block>,
    ) -> Around {
        let draw = |area, options| self.draw_in(area, options);
        let bare = |area| {
            let lettering = Lettering::Nothing;
            draw(area, Options { lettering, ..options })
        };
        let whole = bare(body);
        let full = whole.projection.step;
        let likely = blocks(&whole);
        let choice = Choice::of(&likely, rooms);
        let areas = self.areas(body);
        let judged = areas.into_iter().map(|area| {
            let drawing = bare(area);
            let filled = choice.fill(&white(rooms, &drawing, ALLOWANCE));
            (cost(&choice, &filled, &drawing, body, full), area)
        });
        let mut judged: Vec<(f64, Rect)> = judged.collect();
        judged.sort_by(|a, b| a.0.total_cmp(&b.0));
        let most = if self.job.runs.len() > MANY_RUNS { 1 } else { LETTERED };
        // Where words are lost beside schedules, the drawing may need the sheet for itself.
        let mut tried: Vec<Rect> = judged.iter().take(most).map(|(_, area)| *area).collect();
        if !tried.contains(&body) {
            tried.push(body);
        }
        let mut best: Option<(f64, Around)> = None;
        for (at, area) in tried.iter().enumerate() {
            let is_last = at + 1 == tried.len();
            if let Some((_, best)) = best.as_ref().filter(|_| is_last)
                && left_out(&best.drawing) == 0
            {
                break;
            }
            let drawing = Rc::unwrap_or_clone(draw(*area, options));
            let blocks = blocks(&drawing);
            let choice = choice.with(&blocks, rooms, follows_drawing);
            let filled = choice.fill(&white(rooms, &drawing, CLEARANCE));
            let cost = cost(&choice, &filled, &drawing, body, full);
            let is_perfect = filled.rest.is_empty() && left_out(&drawing) == 0 && drawing.numbered.is_empty();
            if best.as_ref().is_none_or(|best| cost < best.0) {
                let around = Around {
                    drawing,
                    blocks,
                    filled,
                };
                best = Some((cost, around));
            }
            // The others were judged to be no better.
            if is_perfect || self.has_tried_enough() {
                break;
            }
        }
        best.map_or_else(
            || Around {
                drawing: Rc::unwrap_or_clone(whole),
                blocks: likely,
                filled: Filled::default(),
            },
            |(_, around)| around,
        )
    }

    /// The same with a block where it finds room.
    pub fn with_pointer(&self, around: &mut Around, rooms: &[Rect], pointer: &Block) {
        let mut white = white(rooms, &around.drawing, CLEARANCE);
        for (at, laid) in &around.filled.placed {
            white.take(Rect::sized(*at, laid.width(), laid.height()));
        }
        let found = Choice::of(std::slice::from_ref(pointer), rooms).fill(&white);
        around.filled.placed.extend(found.placed);
    }

    /// The rooms that the drawing may be given, all of it first.
    fn areas(&self, body: Rect) -> Vec<Rect> {
        let every = if self.job.runs.len() > MANY_RUNS { 2 } else { 1 };
        let columns = COLUMNS.into_iter().step_by(every);
        let mut areas = Vec::new();
        for column in columns.filter(|column| *column <= body.width() * (1.0 - KEPT.0)) {
            let strips = STRIPS.into_iter().step_by(every);
            for strip in strips.filter(|strip| *strip <= body.height() * (1.0 - KEPT.1)) {
                areas.push(Rect::new(body.min, Point::new(body.max.x - column, body.max.y - strip)));
            }
        }
        areas
    }
}

/// Whether a block says something of how the drawing came out.
const fn follows_drawing(which: Schedule) -> bool {
    matches!(
        which,
        Schedule::Legend | Schedule::Points | Schedule::Notice | Schedule::Changes | Schedule::Notes
    )
}

/// The white around a drawing, with so much clear of its ink.
fn white(rooms: &[Rect], drawing: &Isometric, clearance: (f64, f64)) -> White {
    let mut white = White::of(rooms);
    white.draw(&drawing.group, clearance);
    white
}

/// What a way costs: words that are lost, schedules that go elsewhere, sheets that these need, and a small drawing.
fn cost(choice: &Choice, filled: &Filled, drawing: &Isometric, body: Rect, full: f64) -> f64 {
    let left_over: f64 = filled.rest.iter().map(|at| choice.area(*at)).sum();
    let room = body.width() * body.height();
    let share = left_over / room.max(1.0);
    let sheets = (share / FILLED).ceil();
    let smaller = 1.0 - (drawing.projection.step / full.max(1e-9)).min(1.0);
    // Where any words are lost, sheets with the drawing larger follow.
    let overview = if left_out(drawing) > 0 { OVERVIEW } else { 0.0 };
    overview
        + left_out(drawing) as f64 * WORDS_LOST
        + drawing.numbered.len() as f64 * NUMBERED
        + drawing.demoted as f64 * DEMOTED
        + choice.missed(filled) * MUST
        + sheets * SHEET
        + share * LEFT_OVER
        + smaller * SMALLER
}
