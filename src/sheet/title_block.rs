//! The title block, 180 mm wide where the paper allows (ISO 7200) and about 34 mm high: its rows and cells as data, laid
//! out and drawn.
//!
//! Captions stand before their values. A value that is too long for one line is written smaller, down to 2 mm, then goes
//! on in a second and third line; what is still too long ends in an ellipsis, is given in full to the notes, and is told
//! by [`TitleBlock::cut`]. Rows grow only where a value needs it.

use super::field::Field;
use super::lettering::{Hand, LINE, Wrapped};
use super::purpose::Purpose;
use super::strip::{boxed, lines, rule};
use super::tags;
use crate::codebook::{Codebook, Profile};
use crate::drawing::layers;
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Anchor, Group, Ink, Outline, PathItem, Pen, Point, Rect, Stroke};

/// The width of the title block, mm (ISO 7200:2004, from memory).
pub const WIDTH: f64 = 180.0;

/// A cell: its field and its width in parts of 180.
#[derive(Clone, Copy)]
struct Cell(Field, f64);

/// How the cells of a row are lettered.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    /// The caption above the value, and what is the drawing's name without one.
    Stacked,
    /// The caption before the value.
    Inline,
    /// The same, with room to write.
    ByHand,
}

const ROWS: [(Way, &[Cell]); 6] = [
    (
        Way::Stacked,
        &[
            Cell(Field::Title, 78.0),
            Cell(Field::Status, 54.0),
            Cell(Field::Drawing, 20.0),
            Cell(Field::Revision, 10.0),
            Cell(Field::Sheet, 18.0),
        ],
    ),
    (Way::Inline, &[Cell(Field::Job, 74.0), Cell(Field::Description, 106.0)]),
    (
        Way::Inline,
        &[
            Cell(Field::Firm, 58.0),
            Cell(Field::LicenceHolder, 48.0),
            Cell(Field::Licence, 36.0),
            Cell(Field::Permit, 38.0),
        ],
    ),
    (
        Way::Inline,
        &[
            Cell(Field::Site, 76.0),
            Cell(Field::Owner, 42.0),
            Cell(Field::Parcel, 62.0),
        ],
    ),
    (
        Way::Inline,
        &[
            Cell(Field::Gas, 28.0),
            Cell(Field::Delivery, 30.0),
            Cell(Field::Load, 62.0),
            Cell(Field::Contact, 60.0),
        ],
    ),
    (
        Way::Inline,
        &[
            Cell(Field::Code, 62.0),
            Cell(Field::DrawnBy, 29.0),
            Cell(Field::CheckedBy, 32.0),
            Cell(Field::Date, 28.0),
            Cell(Field::Scale, 29.0),
        ],
    ),
];

/// The same on a worksheet: who did it stands in a row of its own, with room to write by hand.
const WORKSHEET_ROWS: [(Way, &[Cell]); 6] = [
    ROWS[0],
    (
        Way::ByHand,
        &[
            Cell(Field::LicenceHolder, 92.0),
            Cell(Field::Licence, 48.0),
            Cell(Field::Permit, 40.0),
        ],
    ),
    ROWS[1],
    (
        Way::Inline,
        &[
            Cell(Field::Firm, 76.0),
            Cell(Field::Site, 64.0),
            Cell(Field::DrawnBy, 40.0),
        ],
    ),
    (
        Way::Inline,
        &[
            Cell(Field::Gas, 34.0),
            Cell(Field::Delivery, 40.0),
            Cell(Field::Load, 66.0),
            Cell(Field::Date, 40.0),
        ],
    ),
    (
        Way::Inline,
        &[
            Cell(Field::Code, 100.0),
            Cell(Field::Contact, 44.0),
            Cell(Field::Scale, 36.0),
        ],
    ),
];

/// From the edge of a cell to its lettering, mm.
const PAD: f64 = 1.3;
/// From the top of a row of captions above values to the base line of the captions, mm.
const CAPTION_BASE: f64 = 3.0;
/// From the base line of a caption to that of the value under it, mm: accents stand between.
const UNDER_CAPTION: f64 = 4.9;
/// From the top of a row of captions before values to its first base line, mm.
const BASE: f64 = 3.4;
/// Between a caption and the value behind it, mm.
const BEHIND: f64 = 1.4;
/// Under the last base line of a row, mm.
const BOTTOM: f64 = 1.3;
/// From base line to base line of lettering 2 mm high, mm.
const SMALL_LINE: f64 = 3.2;
/// How much higher a row is in which somebody writes, mm.
const BY_HAND: f64 = 3.5;
/// The most lines of a value.
const MOST_LINES: usize = 3;

/// The title block of a job, laid out; the same on every sheet of a purpose but for the number of the sheet.
pub struct TitleBlock {
    rows: Vec<LaidRow>,
    /// Values that did not fit, with their fields, in full.
    pub cut: Vec<(Field, String)>,
}

struct LaidRow {
    height: f64,
    cells: Vec<LaidCell>,
}

impl LaidRow {
    fn of(cells: Vec<LaidCell>) -> LaidRow {
        let height = cells.iter().map(LaidCell::height).fold(0.0, f64::max);
        LaidRow { height, cells }
    }
}

struct LaidCell {
    field: Field,
    way: Way,
    width: f64,
    caption: String,
    hand: Hand,
    value: Vec<String>,
}

/// Values of the title block that find no room in their cells, in full, for a job on paper of any size.
pub fn cut_values(job: &Job, checked: &Checked, book: &Codebook) -> Vec<(Field, String)> {
    let profile = book.profile(&checked.study.profile).unwrap_or(book.default_profile());
    TitleBlock::lay(job, checked, profile, WIDTH, Purpose::Issue).cut
}

impl TitleBlock {
    /// The title block of a job at a width in mm.
    pub fn lay(job: &Job, checked: &Checked, profile: &Profile, width: f64, purpose: Purpose) -> TitleBlock {
        let scale = width / WIDTH;
        let mut cut = Vec::new();
        let cells = match purpose {
            Purpose::Worksheet(_) | Purpose::Working | Purpose::Lecture => WORKSHEET_ROWS,
            Purpose::Issue | Purpose::Study(_) | Purpose::Pieces | Purpose::Plan | Purpose::Work => ROWS,
        };
        let mut rows = Vec::with_capacity(cells.len());
        for (way, row) in cells {
            let laid = row.iter().map(|Cell(field, width)| {
                let value = purpose.value(*field, job, checked, profile);
                let caption = profile.terms(caption_of(*field, purpose)).into_owned();
                let before = match way {
                    Way::Stacked => 0.0,
                    Way::Inline | Way::ByHand => behind(&caption),
                };
                let room = width * scale - 2.0 * PAD - before;
                let (hand, wrapped) = fit(&value, own_hand(*field), room);
                if wrapped.cut {
                    cut.push((*field, value));
                }
                LaidCell {
                    field: *field,
                    way,
                    width: width * scale,
                    caption,
                    hand,
                    value: wrapped.lines,
                }
            });
            rows.push(LaidRow::of(laid.collect()));
        }
        TitleBlock { rows, cut }
    }

    /// The least height, mm.
    pub fn height(&self) -> f64 {
        self.rows.iter().map(|row| row.height).sum()
    }

    /// The block in a box at least as high as [`TitleBlock::height`]; room left over is shared by all rows.
    pub fn draw(&self, rect: Rect, number: &str) -> Group {
        let mut all = Group::new().on(layers::TITLE).label("title block");
        let over = (rect.height() - self.height()).max(0.0) / self.rows.len() as f64;
        let mut y = rect.min.y;
        for row in &self.rows {
            let height = row.height + over;
            let mut x = rect.min.x;
            for cell in &row.cells {
                let place = Rect::sized(Point::new(x, y), cell.width, height);
                all.push(cell.draw(place, number));
                if x > rect.min.x {
                    all.push(rule(Point::new(x, y), Point::new(x, y + height), Pen::Thin, Ink::Black));
                }
                x += cell.width;
            }
            if y > rect.min.y {
                let (left, right) = (Point::new(rect.min.x, y), Point::new(rect.max.x, y));
                all.push(rule(left, right, Pen::Thin, Ink::Black));
            }
            y += height;
        }
        all.push(boxed(rect, Stroke::new(Pen::Medium)));
        all
    }
}

impl LaidCell {
    /// From base line to base line of its value, mm.
    fn pitch(&self) -> f64 {
        match self.hand == Hand::SMALL {
            true => SMALL_LINE,
            false => LINE,
        }
    }

    fn height(&self) -> f64 {
        let first = match self.way {
            Way::Stacked => CAPTION_BASE + UNDER_CAPTION,
            Way::Inline => BASE,
            Way::ByHand => BASE + BY_HAND,
        };
        first + self.value.len().saturating_sub(1) as f64 * self.pitch() + BOTTOM
    }

    fn draw(&self, place: Rect, number: &str) -> Group {
        let number = [number.to_owned()];
        let value: &[String] = if self.field == Field::Sheet {
            &number
        } else {
            &self.value
        };
        let mut group = cell(self.field, place, value);
        let left = place.min.x + PAD;
        let first = match (has_caption(self.field), self.way) {
            (true, Way::Stacked) => {
                caption(&mut group, &self.caption, Point::new(left, place.min.y + CAPTION_BASE));
                Point::new(left, place.min.y + CAPTION_BASE + UNDER_CAPTION)
            }
            (true, Way::Inline | Way::ByHand) => {
                caption(&mut group, &self.caption, Point::new(left, place.min.y + BASE));
                Point::new(left + behind(&self.caption), place.min.y + BASE)
            }
            (false, _) => {
                let lines = value.len().saturating_sub(1) as f64 * self.pitch();
                Point::new(left, place.center().y + (self.hand.height - lines) / 2.0)
            }
        };
        lines(&mut group, value, self.hand, first, self.pitch(), Anchor::Start);
        group
    }
}

/// The cell of a field, filled so that a click finds it, empty or not.
pub fn cell(field: Field, place: Rect, value: &[String]) -> Group {
    let tag = tags::field(field);
    let label = format!("{}: {}", field.caption(), value.join(" "));
    let mut group = Group::tagged(tag.role, tag.key).label(label);
    group.push(PathItem::filled(Outline::rect(place), Ink::White));
    group
}

fn caption(group: &mut Group, caption: &str, at: Point) {
    group.push(Hand::CAPTION.write(caption, at, Anchor::Start));
}

/// What stands before a value: on a worksheet a student signs where a license holder does elsewhere.
const fn caption_of(field: Field, purpose: Purpose) -> &'static str {
    match (purpose, field) {
        (Purpose::Worksheet(_), Field::LicenceHolder) => "Name",
        (Purpose::Worksheet(_), Field::Licence) => "Class",
        (Purpose::Worksheet(_), Field::Permit) => "Date",
        (Purpose::Worksheet(_), Field::Date) => "Issued",
        _ => field.in_cell(),
    }
}

/// From a caption's beginning to the value behind it, mm.
fn behind(caption: &str) -> f64 {
    Hand::CAPTION.measure(caption) + BEHIND
}

/// Title and status need no caption; they stand in the middle of their cells.
const fn has_caption(field: Field) -> bool {
    !matches!(field, Field::Title | Field::Status)
}

/// The hand of a short value.
const fn own_hand(field: Field) -> Hand {
    match field {
        Field::Title => Hand::TITLE,
        Field::Status | Field::Drawing | Field::Revision | Field::Sheet => Hand::HEADING,
        _ => Hand::STRONG,
    }
}

/// A value on one line, as large as it can be; else on as few more as it needs.
fn fit(value: &str, hand: Hand, room: f64) -> (Hand, Wrapped) {
    let ways = [hand, Hand::STRONG, Hand::SMALL].map(|hand| (hand, 1));
    let more = (2..=MOST_LINES).flat_map(|most| [Hand::STRONG, Hand::SMALL].map(|hand| (hand, most)));
    let mut last = (hand, hand.wrap(value, room, 1));
    for (hand, most) in ways.into_iter().chain(more) {
        last = (hand, hand.wrap(value, room, most));
        if !last.1.cut {
            break;
        }
    }
    last
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;

    fn laid(job: &Job) -> TitleBlock {
        let book = Codebook::published();
        TitleBlock::lay(
            job,
            &Checked::of(job, book),
            book.default_profile(),
            WIDTH,
            Purpose::Issue,
        )
    }

    #[test]
    fn every_field_has_one_cell_and_rows_are_as_wide_as_the_block() {
        let mut fields: Vec<Field> = ROWS.iter().flat_map(|row| row.1.iter().map(|cell| cell.0)).collect();
        fields.sort();
        assert_eq!(fields, Field::ALL);
        for (_, row) in ROWS {
            assert_eq!(row.iter().map(|cell| cell.1).sum::<f64>(), WIDTH);
        }
    }

    #[test]
    fn a_usual_title_block_is_at_most_37_mm_high() {
        for text in [
            include_str!("../../examples/patio-kitchen.ron"),
            include_str!("../../examples/two-pressure-house.ron"),
            include_str!("../../examples/propane-cabin.ron"),
            include_str!("../../examples/classroom.ron"),
        ] {
            let height = laid(&crate::file::read(text).unwrap()).height();
            assert!((28.0..=37.0).contains(&height), "{height}");
        }
    }

    #[test]
    fn a_long_value_is_given_in_full_elsewhere() {
        let mut job = Job::default();
        assert!(laid(&job).cut.is_empty());
        job.title.description = "a new branch to the patio kitchen ".repeat(20);
        let block = laid(&job);
        assert_eq!(block.cut, [(Field::Description, job.title.description.clone())]);
        assert!(block.height() > laid(&Job::default()).height());
    }

    #[test]
    fn a_middling_value_is_written_smaller_before_it_takes_two_lines_and_nothing_is_lost() {
        let mut job = Job::default();
        let firm = |job: &Job| {
            let block = laid(job);
            assert!(block.cut.is_empty());
            let cell = &block.rows[2].cells[0];
            (cell.value.len(), cell.hand)
        };
        for (typed, wanted) in [
            ("Demo Fitters", (1, Hand::STRONG)),
            ("Demo Gas Fitters of Nowhere", (1, Hand::SMALL)),
            ("Demo Gas Fitters of Nowhere and Sons", (2, Hand::STRONG)),
            (
                "Invented Gas Fitters of the Long Valley and Sons, limited",
                (2, Hand::SMALL),
            ),
        ] {
            job.title.firm = typed.to_owned();
            assert_eq!(firm(&job), wanted, "{typed}");
        }
    }
}
