//! The sizing of a job step by step, a sheet each: the drawing with the pipe of the step set off, what is said of it, and the
//! part of the table that is read, row and column framed.

use super::draw::{self, Which};
use super::{Composer, Packet, arranged};
use crate::codebook::Codebook;
use crate::drawing::{Homeless, Options, Projection, layers};
use crate::job::Job;
use crate::lesson::{Excerpt, SizingStep, lecture};
use crate::rules::Checked;
use crate::scene::{Affine, Anchor, Group, Ink, Outline, PathItem, Pen, Point, Rect, Segment, Stroke, Vector};
use crate::sheet::about::Arrange;
use crate::sheet::block::{Block, Part};
use crate::sheet::lettering::Hand;
use crate::sheet::packet::drawings::Drawings;
use crate::sheet::paper::{Orientation, Paper};
use crate::sheet::purpose::Purpose;
use crate::sheet::strip::{Strip, boxed, rule};
use crate::sheet::tags::Schedule;
use crate::sheet::text::Paragraph;
use std::cell::Cell;

/// The share of the sheet that the words have beside the drawing, and below it on paper that stands.
const BESIDE: f64 = 0.4;
const BELOW: f64 = 0.46;
/// Half the distance of the two lines along the way that is measured, mm.
const SLEEVE: f64 = 1.5;
/// Half the width of the band on the section that is sized, mm.
const BAND: f64 = 1.0;
/// Height of a row of the table, mm, and from its top to the base line.
const ROW: f64 = 5.0;
const BASE: f64 = 3.6;
/// Beside the figures of a cell, mm.
const PAD: f64 = 1.2;
/// Between the words and the edges of their room, mm.
const EDGE: f64 = 2.5;

/// The steps of the sizing of a job, a sheet each. A job without pipe has its first step alone.
pub fn sizing_steps(job: &Job, checked: &Checked, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    let permit = Composer::new(job, checked, book, paper, orientation);
    let arranged = arranged::arranged(&permit, Arrange::WhenNeeded).job;
    let composer = Composer {
        drawn: arranged.as_ref().unwrap_or(job),
        is_arranged: arranged.is_some(),
        drawings: Drawings::new(job.runs.len()),
        effort: Cell::new(0),
        ..permit
    };
    let steps = lecture(job, book, &checked.study);
    let plan = composer.later_plan();
    let (room, words) = parted(plan.body, orientation);
    let options = Options {
        homeless: Homeless::LeftOut,
        ..composer.options()
    };
    let drawing = composer.draw_in(room, options);
    let mut packet = Packet::default();
    for (at, step) in steps.iter().enumerate() {
        let which = Which {
            number: at + 1,
            of: steps.len(),
            purpose: Purpose::Lecture,
        };
        let under = lit(composer.drawn, step, &drawing.projection);
        let ink = Group::new()
            .label("drawing")
            .with(under.on(layers::STUDY).label("study"))
            .with(drawing.group.clone());
        let sheet = draw::page(&composer, &plan, [ink, said(step, words)], which);
        packet.push(sheet, step.heading.clone(), which);
    }
    packet.effort = composer.effort.get();
    packet
}

/// The rooms of drawing and words.
fn parted(body: Rect, orientation: Orientation) -> (Rect, Rect) {
    let Rect { min, max } = body;
    match orientation {
        Orientation::Landscape => {
            let x = max.x - BESIDE * body.width();
            (
                Rect::new(min, Point::new(x, max.y)),
                Rect::new(Point::new(x, min.y), max),
            )
        }
        Orientation::Portrait => {
            let y = max.y - BELOW * body.height();
            (
                Rect::new(min, Point::new(max.x, y)),
                Rect::new(Point::new(min.x, y), max),
            )
        }
    }
}

/// The pipe of a step, set off: lines along both sides of the way that is measured, a band on the section.
fn lit(drawn: &Job, step: &SizingStep, view: &Projection) -> Group {
    let mut all = Group::new();
    for run in &step.way {
        if let Some((line, across)) = paper_line(drawn, *run, view) {
            for side in [SLEEVE, -SLEEVE] {
                let edge = Outline::line(line.a + across * side, line.b + across * side);
                all.push(PathItem::stroked(edge, Stroke::new(Pen::Medium)));
            }
        }
    }
    for run in &step.section {
        if let Some((line, across)) = paper_line(drawn, *run, view) {
            let side = across * BAND;
            let band = Outline::polygon([line.a + side, line.b + side, line.b - side, line.a - side]);
            all.push(PathItem::filled(band, Ink::Black));
        }
    }
    all
}

/// Where a run is on paper, and the unit vector across it.
fn paper_line(drawn: &Job, run: usize, view: &Projection) -> Option<(Segment, Vector)> {
    let run = drawn.runs.at(run);
    let at = |joint| Some(view.point(drawn.joints.get(joint)?.at));
    let line = Segment::new(at(run.from)?, at(run.to)?);
    Some((line, (line.b - line.a).unit()?.turned()))
}

/// What is said of a step, with its table below.
fn said(step: &SizingStep, room: Rect) -> Group {
    let words = step.said.iter().map(Paragraph::new).collect();
    let mut parts = vec![Part::Text(words)];
    if let Some(excerpt) = &step.excerpt {
        parts.push(Part::Text(vec![Paragraph::new(&excerpt.title).hand(Hand::STRONG)]));
    }
    let block = Block::new(Schedule::Working, &step.heading, parts).lay(room.width());
    let height = block.height();
    let mut all = Group::new();
    let corner = Point::new(room.min.x, room.min.y);
    all.push(rule(corner, Point::new(corner.x, room.max.y), Pen::Medium, Ink::Black));
    all.push(rule(corner, Point::new(room.max.x, corner.y), Pen::Medium, Ink::Black));
    all.push(block.whole().ink.map(Affine::to(corner)));
    if let Some(excerpt) = &step.excerpt {
        let at = corner + Vector::new(EDGE, height + EDGE);
        all.push(printed(excerpt, room.width() - 2.0 * EDGE).at(at));
    }
    all
}

/// The part of a table, as it is printed, with the row and the column that are read in heavy frames.
fn printed(excerpt: &Excerpt, width: f64) -> Strip {
    let lengths = excerpt.rows.iter().map(|(length, _)| length);
    let side = lengths.map(|length| Hand::BODY.measure(length)).fold(12.0, f64::max) + 2.0 * PAD;
    let cells = excerpt.rows.iter().flat_map(|(_, cells)| cells).chain(&excerpt.sizes);
    let least = cells.map(|cell| Hand::STRONG.measure(cell)).fold(8.0, f64::max) + 2.0 * PAD;
    let most = (((width - side) / least) as usize).max(1);
    let shown = around(excerpt.sizes.len(), excerpt.column, most);
    let left = |column: usize| side + (column - shown.start) as f64 * least;
    let (wide, high) = (left(shown.end), ROW * (excerpt.rows.len() + 1) as f64);
    let mut ink = Group::new();
    let write = |words: &str, hand: Hand, right: f64, row: usize| {
        hand.write(words, Point::new(right - PAD, row as f64 * ROW + BASE), Anchor::End)
    };
    ink.push(write(excerpt.unit, Hand::CAPTION, side, 0));
    for column in shown.clone() {
        ink.push(write(&excerpt.sizes[column], Hand::STRONG, left(column + 1), 0));
    }
    for (at, (length, cells)) in excerpt.rows.iter().enumerate() {
        let is_read = at == excerpt.row;
        let hand = if is_read { Hand::STRONG } else { Hand::BODY };
        ink.push(write(length, hand, side, at + 1));
        for column in shown.clone() {
            ink.push(write(&cells[column], hand, left(column + 1), at + 1));
        }
        let y = (at + 1) as f64 * ROW;
        ink.push(rule(Point::new(0.0, y), Point::new(wide, y), Pen::Thin, Ink::Black));
    }
    ink.push(rule(
        Point::new(side, 0.0),
        Point::new(side, high),
        Pen::Thin,
        Ink::Black,
    ));
    ink.push(boxed(Rect::sized(Point::default(), wide, high), Stroke::new(Pen::Thin)));
    let row = Rect::sized(Point::new(0.0, (excerpt.row + 1) as f64 * ROW), wide, ROW);
    ink.push(boxed(row, Stroke::new(Pen::Heavy)));
    if let Some(column) = excerpt.column.filter(|column| shown.contains(column)) {
        let column = Rect::sized(Point::new(left(column), 0.0), least, high);
        ink.push(boxed(column, Stroke::new(Pen::Heavy)));
    }
    Strip { height: high, ink }
}

/// At most so many columns around one.
fn around(count: usize, column: Option<usize>, most: usize) -> std::ops::Range<usize> {
    let most = most.min(count);
    let first = column.unwrap_or(0).saturating_sub(most / 2).min(count - most);
    first..first + most
}
