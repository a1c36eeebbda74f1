//! The strip along the foot of every sheet but the first: what the sheet is, of which drawing, and the caution.

use super::cautions;
use super::field::Field;
use super::lettering::Hand;
use super::purpose::Purpose;
use super::strip::{boxed, rule};
use super::title_block::cell;
use crate::codebook::Profile;
use crate::drawing::layers;
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Affine, Anchor, Group, Ink, Pen, Point, Rect, Stroke, Vector};

/// The cells, and their widths in parts of 180; what is left over is for the name of the job.
const CELLS: [(Field, f64); 6] = [
    (Field::Title, 46.0),
    (Field::Job, 0.0),
    (Field::Status, 46.0),
    (Field::Drawing, 17.0),
    (Field::Revision, 15.0),
    (Field::Sheet, 24.0),
];
/// Height of the row of cells, mm.
const ROW: f64 = 5.0;
/// From the edge of a cell to its lettering, mm.
const PAD: f64 = 1.5;
/// From the top of a cell to the base line of its lettering, mm.
const BASE: f64 = 3.7;

/// The strip of a sheet for a purpose.
pub struct TitleStrip<'a> {
    /// What the sheet is for.
    pub purpose: Purpose,
    /// The job.
    pub job: &'a Job,
    /// What follows from it.
    pub checked: &'a Checked,
    /// The profile in force.
    pub profile: &'a Profile,
}

/// The height of the strip at a width, mm.
pub fn height(width: f64) -> f64 {
    ROW + cautions::line(width).height
}

impl TitleStrip<'_> {
    /// The strip in its place, with the number of the sheet.
    pub fn draw(&self, place: Rect, number: &str) -> Group {
        let mut all = Group::new().on(layers::TITLE).label("title strip");
        let row = Rect::sized(place.min, place.width(), ROW);
        let fixed: f64 = CELLS.iter().map(|(_, width)| width).sum();
        let mut left = row.min.x;
        for (field, width) in CELLS {
            let width = match field {
                Field::Job => place.width() - fixed,
                _ => width,
            };
            let at = Rect::sized(Point::new(left, row.min.y), width, ROW);
            all.push(self.cell(field, at, number));
            if left > row.min.x {
                all.push(rule(at.min, at.min + Vector::new(0.0, ROW), Pen::Thin, Ink::Black));
            }
            left += width;
        }
        let foot = row.min + Vector::new(0.0, ROW);
        all.push(rule(foot, Point::new(row.max.x, foot.y), Pen::Thin, Ink::Black));
        all.push(cautions::line(place.width()).ink.map(Affine::to(foot)));
        all.push(boxed(place, Stroke::new(Pen::Medium)));
        all
    }

    fn cell(&self, field: Field, place: Rect, number: &str) -> Group {
        let value = match field {
            Field::Sheet => number.to_owned(),
            field => self.purpose.value(field, self.job, self.checked, self.profile),
        };
        let shown = match field {
            Field::Sheet => format!("sheet {value}"),
            Field::Revision if !value.trim().is_empty() => format!("rev. {value}"),
            _ => value.clone(),
        };
        let room = place.width() - 2.0 * PAD;
        let hand = match Hand::STRONG.wrap(&shown, room, 1).cut {
            false => Hand::STRONG,
            true => Hand::SMALL,
        };
        let line = hand.wrap(&shown, room, 1).lines.concat();
        let at = place.min + Vector::new(PAD, BASE);
        cell(field, place, &[value]).with(hand.write(&line, at, Anchor::Start))
    }
}
