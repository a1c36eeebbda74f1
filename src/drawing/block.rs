//! Lettering that stays together: one or a few upright lines, or one line along a run.

use crate::drawing::section_numbers;
use crate::drawing::words::{TooLong, lines};
use crate::scene::{
    self, Anchor, Cap, Face, Group, Outline, PathItem, Pen, Point, Rect, Step, Stroke, TextItem, Vector,
};

/// Height of capitals of upright lettering, mm.
pub const LETTERING: f64 = 2.5;
/// Height of capitals of the sizes and lengths of pipe, mm: what is read most is written largest.
pub const SIZES: f64 = 3.0;
/// Distance from line to line, mm.
const PITCH: f64 = 4.1;
/// The same from a size to the length below it.
const SIZES_PITCH: f64 = 4.4;
/// Room of the mark of a level before its words, mm.
const LEVEL: f64 = 3.2;
/// From the edge of a box to the words in it, mm.
const EDGE: f64 = 1.3;
/// Width across a number's ring, mm.
const RING: f64 = 4.8;

/// What stands before the words of a line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Lead {
    /// Nothing.
    #[default]
    Nothing,
    /// Nothing: they go on from the line before.
    GoesOn,
    /// Nothing: the length of the pipe whose size stands above.
    Length,
    /// An appliance's letter.
    Letter(String),
    /// The mark of a level.
    Level,
    /// Nothing, but they are bold and all lines stand in a box.
    Flag,
}

/// One line of words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Line {
    /// What stands before them.
    pub lead: Lead,
    /// The words.
    pub words: String,
}

impl Line {
    /// Words with nothing before them.
    pub fn plain(words: impl Into<String>) -> Line {
        Line {
            lead: Lead::Nothing,
            words: words.into(),
        }
    }
}

/// To which side the lines of a block are flush.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flush {
    /// All begin at the left edge.
    Left,
    /// All end at the right edge.
    Right,
}

/// What is drawn around a number or a few lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Around {
    Ring,
    Hexagon,
    Box,
}

/// Lines of words, measured; or one number in a ring or a hexagon.
#[derive(Clone, Debug)]
pub struct Block {
    lines: Vec<Measured>,
    lettering: f64,
    /// From line to line, mm.
    pitch: f64,
    around: Option<Around>,
    /// Width of the longest line, mm.
    pub width: f64,
    /// From the top of the first line to the lowest ink of the last, mm.
    pub height: f64,
    top: f64,
}

#[derive(Clone, Debug)]
struct Measured {
    lead: Lead,
    letter: Option<TextItem>,
    words: TextItem,
    indent: f64,
    width: f64,
}

impl Block {
    /// Measures lines of words.
    pub fn new(lines: Vec<Line>) -> Block {
        Block::lettered(lines, LETTERING)
    }

    /// Measures one line of words along pipe.
    pub fn along_pipe(words: String) -> Block {
        Block::lettered(vec![Line::plain(words)], SIZES)
    }

    /// Measures the size of pipe, and its length to stand below.
    pub fn of_pipe(size: String, length: String) -> Block {
        let length = Line {
            lead: Lead::Length,
            words: length,
        };
        Block::lettered(vec![Line::plain(size), length], SIZES)
    }

    fn lettered(lines: Vec<Line>, lettering: f64) -> Block {
        let lines: Vec<Measured> = lines.into_iter().map(|line| measure(line, lettering)).collect();
        let width = lines.iter().map(|line| line.width).fold(0.0, f64::max);
        let top = lines.first().map_or(lettering, |line| {
            line.letter
                .iter()
                .chain([&line.words])
                .map(|text| -text.extent().min.y)
                .fold(lettering, f64::max)
        });
        let below = lines.last().map_or(0.0, |line| line.words.extent().max.y.max(0.0));
        let pitch = if lettering == SIZES { SIZES_PITCH } else { PITCH };
        let height = top + pitch * lines.len().saturating_sub(1) as f64 + below;
        let is_boxed = lines.iter().any(|line| line.lead == Lead::Flag);
        let edge = if is_boxed { EDGE } else { 0.0 };
        Block {
            lines,
            lettering,
            pitch,
            around: is_boxed.then_some(Around::Box),
            width: width + 2.0 * edge,
            height: height + 2.0 * edge,
            top: top + edge,
        }
    }

    /// A number in a ring, with room for `digits` figures.
    pub fn number(number: usize, digits: usize) -> Block {
        let line = measure(Line::plain(number.to_string()), LETTERING);
        let zeros = scene::measure(&"0".repeat(digits), LETTERING, Face::Regular);
        Block {
            lines: vec![line],
            lettering: LETTERING,
            pitch: PITCH,
            around: Some(Around::Ring),
            width: (zeros + 1.6).max(RING),
            height: RING,
            top: (RING + LETTERING) / 2.0,
        }
    }

    /// The number of a section in its hexagon.
    pub fn section(number: usize) -> Block {
        // Its pen and the dot of a leader beside it reach a little beyond its corners.
        let ink = section_numbers::hexagon(Point::default(), number)
            .1
            .bounds()
            .grown(0.25);
        let line = measure(Line::plain(number.to_string()), section_numbers::LETTERING);
        Block {
            lines: vec![line],
            lettering: section_numbers::LETTERING,
            pitch: PITCH,
            around: Some(Around::Hexagon),
            width: ink.width(),
            height: ink.height(),
            top: (ink.height() + section_numbers::LETTERING) / 2.0,
        }
    }

    /// Whether it is a number in a ring or hexagon.
    pub fn is_ringed(&self) -> bool {
        matches!(self.around, Some(Around::Ring | Around::Hexagon))
    }

    /// Whether its lines stand in a box.
    pub fn is_boxed(&self) -> bool {
        self.around == Some(Around::Box)
    }

    /// The words of a block of one line without anything before them.
    pub fn single(&self) -> Option<&TextItem> {
        match self.lines.as_slice() {
            [line] if line.lead == Lead::Nothing && self.around.is_none() => Some(&line.words),
            _ => None,
        }
    }

    /// The size and the length of pipe.
    pub fn pair(&self) -> Option<[&TextItem; 2]> {
        match self.lines.as_slice() {
            [size, length] if length.lead == Lead::Length => Some([&size.words, &length.words]),
            _ => None,
        }
    }

    /// All words in one line, for a table.
    pub fn text(&self) -> String {
        let mut all = String::new();
        for line in &self.lines {
            all += match &line.lead {
                _ if all.is_empty() => "",
                Lead::GoesOn => " ",
                Lead::Length => " × ",
                Lead::Nothing | Lead::Letter(_) | Lead::Level | Lead::Flag => "; ",
            };
            if let Lead::Letter(letter) = &line.lead {
                all += &format!("{letter} ");
            }
            all += line.words.words();
        }
        all
    }

    /// The box of the block with its upper left corner at a place.
    pub fn room(&self, corner: Point) -> Rect {
        Rect::sized(corner, self.width, self.height)
    }

    /// From the top of the block to the middle of its first line, mm: where a leader meets it.
    pub fn middle_of_first_line(&self) -> f64 {
        self.top - self.lettering / 2.0
    }

    /// The same of its last line.
    pub fn middle_of_last_line(&self) -> f64 {
        self.middle_of_first_line() + self.pitch * self.lines.len().saturating_sub(1) as f64
    }

    /// Whether it has more than one line.
    pub fn has_lines(&self) -> bool {
        self.lines.len() > 1
    }

    /// Draws the block with its upper left corner at a place.
    pub fn draw(&self, corner: Point, flush: Flush, into: &mut Group) {
        match self.around {
            Some(Around::Ring) => return self.draw_ring(corner, into),
            Some(Around::Hexagon) => {
                let number = self.text().parse().unwrap_or_default();
                return into.push(section_numbers::hexagon(self.room(corner).center(), number).0);
            }
            Some(Around::Box) => {
                let inside = Outline::rect(self.room(corner).grown(-Pen::Medium.mm() / 2.0));
                into.push(PathItem::stroked(inside, Stroke::new(Pen::Medium)));
            }
            None => {}
        }
        let edge = if self.is_boxed() { EDGE } else { 0.0 };
        for (number, line) in self.lines.iter().enumerate() {
            let slack = match flush {
                Flush::Left => edge,
                Flush::Right => self.width - edge - line.width,
            };
            let start = corner + Vector::new(slack, self.top + self.pitch * number as f64);
            if let Some(letter) = &line.letter {
                into.push(letter.clone().at(start, Anchor::Start));
            }
            if line.lead == Lead::Level {
                into.push(level_mark(start + Vector::new(1.2, 0.0)));
            }
            if line.lead == Lead::Level && line.words.words().starts_with(MINUS) {
                into.push(heavy_minus(start + Vector::new(line.indent, 0.0), self.lettering));
            }
            into.push(
                line.words
                    .clone()
                    .at(start + Vector::new(line.indent, 0.0), Anchor::Start),
            );
        }
    }

    fn draw_ring(&self, corner: Point, into: &mut Group) {
        let (radius, slack) = (RING / 2.0, self.width - RING);
        let left = corner + Vector::new(radius, radius);
        let mut ring = Outline::arc(left, radius, 90.0, 180.0);
        let right = left + Vector::new(slack, 0.0);
        for step in Outline::arc(right, radius, 270.0, 180.0).steps() {
            match *step {
                Step::Move(point) => ring.push(Step::Line(point)),
                step => ring.push(step),
            }
        }
        into.push(PathItem::stroked(ring.close(), Stroke::new(Pen::Thin)));
        for line in &self.lines {
            let middle = corner + Vector::new(self.width / 2.0, self.top);
            into.push(line.words.clone().at(middle, Anchor::Middle));
        }
    }
}

fn measure(line: Line, lettering: f64) -> Measured {
    let face = if line.lead == Lead::Flag {
        Face::Strong
    } else {
        Face::Regular
    };
    let words = TextItem::new(&line.words, lettering, face);
    let letter = match &line.lead {
        Lead::Letter(letter) => Some(TextItem::new(letter, lettering, Face::Strong)),
        Lead::Nothing | Lead::GoesOn | Lead::Length | Lead::Level | Lead::Flag => None,
    };
    let indent = match &line.lead {
        Lead::Nothing | Lead::GoesOn | Lead::Length | Lead::Flag => 0.0,
        Lead::Letter(_) => letter.as_ref().map_or(0.0, TextItem::advance) + 1.4,
        Lead::Level => LEVEL,
    };
    Measured {
        width: indent + words.advance(),
        lead: line.lead,
        letter,
        words,
        indent,
    }
}

/// The minus of an elevation.
const MINUS: char = '−';

/// A bar over the minus that begins at a place: the font's own is lost on a small copy, and a depth would read as a height.
fn heavy_minus(start: Point, lettering: f64) -> PathItem {
    let width = scene::measure(&MINUS.to_string(), lettering, Face::Regular);
    let middle = start + Vector::new(0.0, -0.46 * lettering);
    let bar = Outline::line(middle + Vector::new(-0.2, 0.0), middle + Vector::new(width, 0.0));
    PathItem::stroked(bar, Stroke::new(Pen::Wide).cap(Cap::Butt))
}

/// The mark of a level, its tip at a place.
pub fn level_mark(tip: Point) -> PathItem {
    let mark = Outline::polygon([tip, tip + Vector::new(-1.2, -2.1), tip + Vector::new(1.2, -2.1)]);
    PathItem::stroked(mark, Stroke::new(Pen::Thin))
}

/// Breaks words into lines of about `most` letters, at spaces that no number needs.
pub fn wrap(words: &str, most: usize) -> Vec<Line> {
    let letters = |words: &str| words.chars().count() as f64;
    let lines = lines(words, most as f64, TooLong::Stays, letters);
    let lead = |at: usize| if at == 0 { Lead::Nothing } else { Lead::GoesOn };
    let lines = lines.enumerate();
    lines.map(|(at, words)| Line { lead: lead(at), words }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ink_stays_in_the_room_of_the_block() {
        let block = Block::new(vec![
            Line {
                lead: Lead::Letter("AB".into()),
                words: "Built-in grill".into(),
            },
            Line::plain("75,000 Btu/h (gypsum)"),
            Line {
                lead: Lead::Level,
                words: "+2'-6\"".into(),
            },
        ]);
        for flush in [Flush::Left, Flush::Right] {
            let corner = Point::new(20.0, 30.0);
            let mut group = Group::new();
            block.draw(corner, flush, &mut group);
            let ink = group.bounds().unwrap();
            assert!(block.room(corner).grown(0.3).encloses(ink), "{ink:?}");
            assert!(ink.height() > 0.9 * block.height);
        }
        assert_eq!(block.text(), "AB Built-in grill; 75,000 Btu/h (gypsum); +2'-6\"");
    }

    #[test]
    fn words_are_broken_at_spaces_only() {
        let words = |text: &str| -> Vec<String> { wrap(text, 4).into_iter().map(|line| line.words).collect() };
        assert_eq!(words("a bb  ccc dddd"), ["a bb", "ccc", "dddd"]);
        assert_eq!(words("unbreakable"), ["unbreakable"]);
        // In a table the line is whole again, and what stands after it apart.
        let mut lines = wrap("a bb ccc dddd", 4);
        lines.push(Line::plain("sleeve"));
        assert_eq!(Block::new(lines).text(), "a bb ccc dddd; sleeve");
        assert!(wrap("  ", 4).is_empty());
    }
}
