//! A block of the sheet: a heading with tables and paragraphs under it, laid at a width.
//!
//! A laid block knows how to give a piece of itself that fits the room of a column, heading and column heads repeated.

use super::bars::{self, Bar};
use super::lettering::{Hand, LINE};
use super::strip::{Strip, boxed, lines};
use super::table::{self, Table};
use super::tags::{self, Schedule};
use super::text::{self, Paragraph};
use crate::drawing::{SAMPLE_WIDTH, Symbol, layers, legend_sample};
use crate::scene::{Affine, Anchor, Dash, Group, Pen, Point, Rect, Stroke, Vector};

/// Between the edge of a column and what stands in it, mm.
pub const PAD: f64 = 2.5;
/// From the top of a block to the base line of its heading, mm.
const HEADING_BASE: f64 = 5.0;
/// From base line to base line of a heading of more lines, mm.
const HEADING_LINE: f64 = 5.0;
/// From the top of a block to what stands under its heading, mm.
const UNDER_HEADING: f64 = 6.6;
/// Under the last strip, mm.
const BOTTOM: f64 = 1.2;
/// Between two parts, mm.
const BETWEEN: f64 = 1.0;
/// Between the edge of a column and the box around a block, mm.
const BOX: f64 = 1.25;
/// The least height of a row of samples, mm.
const SAMPLE_ROW: f64 = 4.6;
/// Above and below the ink of a sample, mm.
const SAMPLE_CLEAR: f64 = 0.4;
/// The most samples beside one another.
const MOST_SAMPLES: usize = 6;
/// The least width of a stick drawn as a bar, mm.
const BARS_WIDTH: f64 = 90.0;
/// The least width of blank room, mm.
const BLANK_WIDTH: f64 = 64.0;
/// Rows that stay with the heads of their table.
const TOGETHER: usize = 2;

/// One kind of content.
#[derive(Clone, Debug)]
pub enum Part {
    /// A table.
    Table(Table),
    /// Running text.
    Text(Vec<Paragraph>),
    /// Samples of symbols.
    Samples(Vec<Symbol>),
    /// Sticks as bars to scale.
    Bars(Vec<Bar>),
    /// Blank room of that height in mm, framed, and what it is for.
    Blank(f64, &'static str),
}

/// How a block is set off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Edge {
    /// By the rules of the sheet.
    #[default]
    Open,
    /// By a bold box of its own.
    Bold,
}

/// A heading with what stands under it.
#[derive(Clone, Debug)]
pub struct Block {
    /// Which part of the sheet it is.
    pub which: Schedule,
    /// Its heading; empty for none.
    pub heading: String,
    /// What stands under it.
    pub parts: Vec<Part>,
    /// How it is set off.
    pub edge: Edge,
}

impl Block {
    /// A block.
    pub fn new(which: Schedule, heading: impl Into<String>, parts: Vec<Part>) -> Block {
        Block {
            which,
            heading: heading.into(),
            parts,
            edge: Edge::Open,
        }
    }

    /// The least width in mm of a column that holds it uncut.
    pub fn least_width(&self) -> f64 {
        let tables = self.parts.iter().map(|part| match part {
            Part::Table(table) => table.least_width(),
            Part::Samples(symbols) => sample_width(symbols),
            Part::Text(_) => 45.0,
            Part::Bars(_) => BARS_WIDTH,
            Part::Blank(..) => BLANK_WIDTH,
        });
        tables.fold(0.0, f64::max) + 2.0 * PAD
    }

    /// The width in mm that it needs with nothing wrapped, where something in it has one.
    pub fn natural_width(&self) -> Option<f64> {
        let widths = self.parts.iter().filter_map(|part| match part {
            Part::Table(table) => Some(table.natural_width()),
            Part::Blank(..) => Some(BLANK_WIDTH),
            Part::Text(_) | Part::Samples(_) | Part::Bars(_) => None,
        });
        let widest = widths.reduce(f64::max)?;
        Some(widest + 2.0 * PAD)
    }

    /// A height in mm that it needs at any width: quickly told, so that what can never fit is not laid.
    pub fn least_height(&self) -> f64 {
        let parts = self.parts.iter().map(|part| match part {
            Part::Table(table) => table.rows.len() as f64 * table::ROW,
            Part::Text(paragraphs) => paragraphs.len() as f64 * LINE,
            Part::Samples(symbols) => (symbols.len() / MOST_SAMPLES) as f64 * SAMPLE_ROW,
            Part::Bars(bars) => bars.len() as f64 * 2.0 * LINE,
            Part::Blank(height, _) => *height,
        });
        parts.sum()
    }

    /// The block laid in a column of a width in mm.
    pub fn lay(&self, width: f64) -> Laid {
        let inner = width - 2.0 * PAD - if self.edge == Edge::Bold { 2.0 } else { 0.0 };
        let parts = self.parts.iter().map(|part| match part {
            Part::Table(table) => {
                let (head, strips) = table.lay(inner);
                LaidPart {
                    head: Some(head),
                    strips,
                }
            }
            Part::Text(paragraphs) => LaidPart::plain(text::paragraphs(paragraphs, inner)),
            Part::Samples(symbols) => LaidPart::plain(samples(symbols, inner)),
            Part::Bars(bars) => LaidPart::plain(bars::strips(bars, inner)),
            Part::Blank(height, words) => LaidPart::plain(vec![blank(*height, words, inner)]),
        });
        let heading = |words: &str| Hand::HEADING.wrap(words, inner, usize::MAX).lines;
        let continued = if self.heading.is_empty() {
            String::new()
        } else {
            format!("{} (continued)", self.heading)
        };
        Laid {
            which: self.which,
            heading: heading(&self.heading),
            continued: heading(&continued),
            width,
            edge: self.edge,
            parts: parts.filter(|part| !part.strips.is_empty()).collect(),
        }
    }
}

fn sample_width(symbols: &[Symbol]) -> f64 {
    let words = symbols.iter().map(|symbol| Hand::BODY.measure(symbol.words()));
    SAMPLE_WIDTH + words.fold(0.0, f64::max)
}

/// Blank room, framed, with what it is for.
fn blank(height: f64, words: &str, width: f64) -> Strip {
    let frame = Rect::sized(Point::default(), width, height);
    let ink = Group::new()
        .with(boxed(frame, Stroke::new(Pen::Thin).dash(Dash::Dashed)))
        .with(Hand::CAPTION.write(words, Point::new(1.6, 4.2), Anchor::Start));
    Strip { height, ink }
}

/// Samples in as many columns as have room, read downward.
fn samples(symbols: &[Symbol], width: f64) -> Vec<Strip> {
    let split = |columns: usize| -> Vec<&[Symbol]> { symbols.chunks(symbols.len().div_ceil(columns).max(1)).collect() };
    let needs = |columns: &[&[Symbol]]| columns.iter().map(|column| sample_width(column) + PAD).sum::<f64>() - PAD;
    let most = (1..=MOST_SAMPLES)
        .rev()
        .map(split)
        .find(|columns| needs(columns) <= width);
    let columns = most.unwrap_or_else(|| split(1));
    let over = (width - needs(&columns)).max(0.0) / columns.len().max(1) as f64;
    let rows = columns.first().map_or(0, |column| column.len());
    (0..rows).map(|row| sample_row(&columns, row, over)).collect()
}

/// A row of samples, as high as what stands in it.
fn sample_row(columns: &[&[Symbol]], row: usize, over: f64) -> Strip {
    let mut ink = Group::new();
    let mut left = 0.0;
    for column in columns {
        if let Some(symbol) = column.get(row) {
            ink.push(legend_sample(*symbol, Point::new(left, 0.0)));
        }
        left += sample_width(column) + PAD + over;
    }
    let reach = |mm: f64| (mm + SAMPLE_CLEAR).max(SAMPLE_ROW / 2.0);
    let (up, down) = ink
        .bounds()
        .map_or((0.0, 0.0), |bounds| (reach(-bounds.min.y), reach(bounds.max.y)));
    Strip {
        height: up + down,
        ink: ink.map(Affine::to(Point::new(0.0, up))),
    }
}

/// A part, laid: its head repeats wherever it is continued.
#[derive(Clone, Debug)]
struct LaidPart {
    head: Option<Strip>,
    strips: Vec<Strip>,
}

impl LaidPart {
    fn plain(strips: Vec<Strip>) -> LaidPart {
        LaidPart { head: None, strips }
    }

    fn head_height(&self) -> f64 {
        self.head.as_ref().map_or(0.0, |head| head.height)
    }
}

/// A block at a width.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Which part of the sheet it is.
    pub which: Schedule,
    heading: Vec<String>,
    /// The heading of a later piece.
    continued: Vec<String>,
    width: f64,
    edge: Edge,
    parts: Vec<LaidPart>,
}

/// How far a block has been drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Mark {
    part: usize,
    strip: usize,
}

/// A piece of a block, from its upper left corner.
pub struct Piece {
    /// What is drawn.
    pub ink: Group,
    /// The room that it takes downward, mm.
    pub height: f64,
    /// Where the rest begins; `None` when nothing is left.
    pub rest: Option<Mark>,
}

impl Laid {
    /// The width that it was laid at, mm.
    pub fn width(&self) -> f64 {
        self.width
    }

    /// The whole block as one piece, however high.
    pub fn whole(&self) -> Piece {
        self.take(Mark::default(), f64::INFINITY)
    }

    /// The height of the whole block, mm.
    pub fn height(&self) -> f64 {
        let parts = self
            .parts
            .iter()
            .map(|part| part.head_height() + part.strips.iter().map(|strip| strip.height).sum::<f64>());
        let between = self.parts.len().saturating_sub(1) as f64 * BETWEEN;
        self.top(Mark::default()) + parts.sum::<f64>() + between + self.bottom()
    }

    /// The piece from a mark on that fits a room in mm; `None` when so little fits that the next column is better.
    pub fn piece(&self, from: Mark, room: f64) -> Option<Piece> {
        let piece = self.take(from, room);
        let begun = match piece.rest {
            None => usize::MAX,
            Some(rest) if rest.part > from.part => usize::MAX,
            Some(rest) => rest.strip - from.strip,
        };
        (begun >= TOGETHER).then_some(piece)
    }

    /// The piece from a mark on that fits a room in mm, at least one strip of it.
    pub fn forced(&self, from: Mark, room: f64) -> Piece {
        let piece = self.take(from, room);
        if piece.rest == Some(from) {
            let next = self.parts.get(from.part).map_or(0.0, |part| {
                part.head_height() + part.strips.get(from.strip).map_or(0.0, |strip| strip.height)
            });
            return self.take(from, self.top(from) + next + self.bottom());
        }
        piece
    }

    fn inset(&self) -> f64 {
        if self.edge == Edge::Bold { 1.0 } else { 0.0 }
    }

    fn heading(&self, from: Mark) -> &[String] {
        if from == Mark::default() {
            &self.heading
        } else {
            &self.continued
        }
    }

    /// From the top of a piece to what stands under its heading, mm.
    fn top(&self, from: Mark) -> f64 {
        let room = match self.heading(from).len() {
            0 => BOTTOM,
            lines => UNDER_HEADING + (lines - 1) as f64 * HEADING_LINE,
        };
        room + 2.0 * self.inset()
    }

    fn bottom(&self) -> f64 {
        BOTTOM + 2.0 * self.inset()
    }

    fn take(&self, from: Mark, room: f64) -> Piece {
        let tag = tags::schedule(self.which);
        let mut ink = Group::tagged(tag.role, tag.key)
            .on(layers::SCHEDULES)
            .label(self.which.name());
        let left = PAD + self.inset();
        let place = Point::new(left, HEADING_BASE + self.inset());
        lines(
            &mut ink,
            self.heading(from),
            Hand::HEADING,
            place,
            HEADING_LINE,
            Anchor::Start,
        );
        let floor = room - self.bottom();
        let mut y = self.top(from);
        let mut at = from;
        while let Some(part) = self.parts.get(at.part) {
            let first = y;
            if at.part > from.part {
                y += BETWEEN;
            }
            let begun = at.strip;
            for (number, strip) in part.strips.iter().enumerate().skip(at.strip) {
                let head = if number == begun { part.head_height() } else { 0.0 };
                if y + head + strip.height > floor + 1e-6 {
                    // A row alone in the next column looks lost: it takes the one before along.
                    if number + 1 == part.strips.len() && number > begun + TOGETHER {
                        return self.take(from, y - 0.01 + self.bottom());
                    }
                    let y = if number == begun { first } else { y };
                    return self.closed(ink, y, Some(at));
                }
                if let Some(head) = part.head.as_ref().filter(|_| number == begun) {
                    ink.push(head.at(Point::new(left, y)));
                    y += head.height;
                }
                ink.push(strip.at(Point::new(left, y)));
                y += strip.height;
                at.strip = number + 1;
            }
            at = Mark {
                part: at.part + 1,
                strip: 0,
            };
        }
        self.closed(ink, y, None)
    }

    fn closed(&self, ink: Group, y: f64, rest: Option<Mark>) -> Piece {
        let height = y + self.bottom();
        let mut ink = ink;
        if self.edge == Edge::Bold {
            let corner = Point::new(BOX, BOX);
            let rect = Rect::new(corner, corner + Vector::new(self.width - 2.0 * BOX, height - 2.0 * BOX));
            ink.push(boxed(rect, Stroke::new(Pen::Heavy)));
        }
        Piece { ink, height, rest }
    }
}
