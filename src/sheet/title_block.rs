//! The title block, 180 mm wide where the paper allows (ISO 7200): its rows and cells as data, laid out and drawn.
//!
//! A value that is too long for one line goes on in a second one of 2.5 mm; what is still too long ends in an ellipsis
//! and is given in full to the notes. Rows grow only where a value needs it.

use super::field::Field;
use super::lettering::{Hand, LINE, Wrapped};
use super::purpose::Purpose;
use super::strip::{boxed, lines, rule};
use super::tags;
use crate::codebook::Profile;
use crate::drawing::layers;
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Anchor, Group, Ink, Outline, PathItem, Pen, Point, Rect, Stroke};

/// The width of the title block, mm (ISO 7200:2004, from memory).
pub const WIDTH: f64 = 180.0;

/// A cell: its field, its width in parts of 180, and the hand of a short value.
struct Cell(Field, f64, Hand);

const ROWS: [&[Cell]; 7] = [
    &[
        Cell(Field::Firm, 84.0, Hand::VALUE),
        Cell(Field::LicenceHolder, 48.0, Hand::BODY),
        Cell(Field::Licence, 48.0, Hand::BODY),
    ],
    &[
        Cell(Field::Title, 132.0, Hand::TITLE),
        Cell(Field::Status, 48.0, Hand::VALUE),
    ],
    &[
        Cell(Field::Job, 132.0, Hand::VALUE),
        Cell(Field::Scale, 48.0, Hand::BODY),
    ],
    &[
        Cell(Field::Site, 84.0, Hand::BODY),
        Cell(Field::Owner, 48.0, Hand::BODY),
        Cell(Field::Parcel, 48.0, Hand::BODY),
    ],
    &[
        Cell(Field::Description, 132.0, Hand::BODY),
        Cell(Field::Contact, 48.0, Hand::BODY),
    ],
    &[
        Cell(Field::Gas, 24.0, Hand::BODY),
        Cell(Field::Delivery, 36.0, Hand::BODY),
        Cell(Field::Load, 48.0, Hand::BODY),
        Cell(Field::Code, 72.0, Hand::BODY),
    ],
    &[
        Cell(Field::Permit, 36.0, Hand::BODY),
        Cell(Field::DrawnBy, 24.0, Hand::BODY),
        Cell(Field::CheckedBy, 24.0, Hand::BODY),
        Cell(Field::Date, 24.0, Hand::BODY),
        Cell(Field::Drawing, 24.0, Hand::VALUE),
        Cell(Field::Revision, 18.0, Hand::VALUE),
        Cell(Field::Sheet, 30.0, Hand::VALUE),
    ],
];

/// From the edge of a cell to its lettering, mm.
const PAD: f64 = 1.6;
/// From the top of a cell to the base line of its caption, mm.
const CAPTION_BASE: f64 = 2.6;
/// Under the base line of the value, mm.
const BOTTOM: f64 = 1.5;
/// The most lines of a value.
const MOST_LINES: usize = 2;

/// The title block of a job, laid out; the same on every sheet of a purpose but for the number of the sheet.
pub struct TitleBlock {
    rows: Vec<LaidRow>,
    /// Values that did not fit, with their fields, in full.
    pub cut: Vec<(Field, String)>,
}

struct LaidRow {
    height: f64,
    /// From the top to the first base line of values, mm.
    base: f64,
    cells: Vec<LaidCell>,
}

impl LaidRow {
    /// Values of one row share their first base line.
    fn of(cells: Vec<LaidCell>) -> LaidRow {
        let captioned = cells.iter().filter(|cell| has_caption(cell.field));
        let tallest = captioned.map(|cell| cell.hand.height).fold(0.0, f64::max);
        let base = CAPTION_BASE + under_caption(tallest) + tallest;
        let needs = cells.iter().map(|cell| {
            let more = cell.value.len().saturating_sub(1) as f64 * LINE;
            let title = if has_caption(cell.field) {
                0.0
            } else {
                cell.hand.height + 2.0 * BOTTOM
            };
            (base + more + BOTTOM).max(title)
        });
        LaidRow {
            height: needs.fold(0.0, f64::max),
            base,
            cells,
        }
    }
}

struct LaidCell {
    field: Field,
    width: f64,
    hand: Hand,
    value: Vec<String>,
}

impl TitleBlock {
    /// The title block of a job at a width in mm.
    pub fn lay(job: &Job, checked: &Checked, profile: &Profile, width: f64, purpose: Purpose) -> TitleBlock {
        let scale = width / WIDTH;
        let mut cut = Vec::new();
        let mut rows = Vec::with_capacity(ROWS.len());
        for row in ROWS {
            let cells: Vec<LaidCell> = row
                .iter()
                .map(|Cell(field, width, hand)| {
                    let value = purpose.value(*field, job, checked, profile);
                    let room = width * scale - 2.0 * PAD;
                    let (hand, wrapped) = fit(&value, *hand, room);
                    if wrapped.cut {
                        cut.push((*field, value));
                    }
                    LaidCell {
                        field: *field,
                        width: width * scale,
                        hand,
                        value: wrapped.lines,
                    }
                })
                .collect();
            rows.push(LaidRow::of(cells));
        }
        TitleBlock { rows, cut }
    }

    /// The least height, mm.
    pub fn height(&self) -> f64 {
        self.rows.iter().map(|row| row.height).sum()
    }

    /// The block in a box at least as high as [`TitleBlock::height`]; room left over is shared by all rows.
    pub fn draw(&self, rect: Rect, sheet: usize, of: usize) -> Group {
        let mut all = Group::new().on(layers::TITLE).label("title block");
        let over = (rect.height() - self.height()).max(0.0) / self.rows.len() as f64;
        let mut y = rect.min.y;
        for row in &self.rows {
            let height = row.height + over;
            let mut x = rect.min.x;
            for cell in &row.cells {
                let place = Rect::sized(Point::new(x, y), cell.width, height);
                all.push(cell.draw(place, row.base, sheet, of));
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
    fn draw(&self, place: Rect, base: f64, sheet: usize, of: usize) -> Group {
        let tag = tags::field(self.field);
        let number = [format!("{sheet} of {of}")];
        let value: &[String] = if self.field == Field::Sheet {
            &number
        } else {
            &self.value
        };
        let label = format!("{}: {}", self.field.caption(), value.join(" "));
        let mut group = Group::tagged(tag.role, tag.key).label(label);
        group.push(PathItem::filled(Outline::rect(place), Ink::White));
        let left = place.min.x + PAD;
        let mut first = place.min.y + base;
        if has_caption(self.field) {
            let at = Point::new(left, place.min.y + CAPTION_BASE);
            group.push(Hand::CAPTION.write(self.field.caption(), at, Anchor::Start));
        } else {
            first = place.center().y + self.hand.height / 2.0;
        }
        lines(
            &mut group,
            value,
            self.hand,
            Point::new(left, first),
            LINE,
            Anchor::Start,
        );
        group
    }
}

/// From the base line of a caption to the top of the capitals of a value so high, mm: accents stand between.
fn under_caption(height: f64) -> f64 {
    0.7 + 0.4 * height
}

/// The title needs no caption; it stands in the middle of its cell.
fn has_caption(field: Field) -> bool {
    field != Field::Title
}

/// A value on one line in its own hand, or in 2.5 mm on more.
fn fit(value: &str, hand: Hand, room: f64) -> (Hand, Wrapped) {
    let once = hand.wrap(value, room, usize::MAX);
    if once.lines.len() <= 1 {
        return (hand, once);
    }
    (Hand::BODY, Hand::BODY.wrap(value, room, MOST_LINES))
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
        let mut fields: Vec<Field> = ROWS.iter().flat_map(|row| row.iter().map(|cell| cell.0)).collect();
        fields.sort();
        assert_eq!(fields, Field::ALL);
        for row in ROWS {
            assert_eq!(row.iter().map(|cell| cell.1).sum::<f64>(), WIDTH);
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
    fn a_middling_value_takes_two_lines_and_nothing_is_lost() {
        let mut job = Job::default();
        job.title.firm = "Invented Gas Fitters of the Long Valley and Sons, limited".to_owned();
        let block = laid(&job);
        assert!(block.cut.is_empty());
        assert_eq!(block.rows[0].cells[0].value.len(), 2);
        assert_eq!(block.rows[0].cells[0].hand, Hand::BODY);
    }
}
