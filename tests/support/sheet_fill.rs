//! How full a finished sheet is, judged by its ink alone.
//!
//! Used as a module: `#[path = "support/sheet_fill.rs"] mod sheet_fill;`.

use stubout::scene::{Item, Point, Rect, Scene};

/// Side of a square of the sheet, mm.
const SQUARE: f64 = 5.0;
/// Paper so near to ink is used by it, in squares: words and pipe need white around them.
const NEAR: usize = 2;
/// The margin around the frame, mm.
const MARGIN: f64 = 10.0;
/// What is wider or higher than this share of the sheet is its frame, or a rule across it.
const FRAME: f64 = 0.9;

/// The share of the sheet within its margins that ink uses.
pub fn fill(sheet: &Scene) -> f64 {
    let (columns, rows) = (cells(sheet.width()), cells(sheet.height()));
    let mut inked = vec![false; columns * rows];
    let mut mark = |area: Rect| {
        let at = |mm: f64, most: usize| ((mm / SQUARE).max(0.0) as usize).min(most - 1);
        for row in at(area.min.y, rows)..=at(area.max.y, rows) {
            for column in at(area.min.x, columns)..=at(area.max.x, columns) {
                inked[row * columns + column] = true;
            }
        }
    };
    sheet.walk(|_, item| match item {
        Item::Group(_) => {}
        Item::Text(text) => mark(text.quad().bounds()),
        Item::Path(path) => {
            let Some(bounds) = item.bounds() else { return };
            if bounds.width() > FRAME * sheet.width() || bounds.height() > FRAME * sheet.height() {
                return;
            }
            path.outline.flatten(|line| {
                let steps = (line.length() / SQUARE).ceil().max(1.0);
                for step in 0..=steps as usize {
                    let at: Point = line.at(step as f64 / steps);
                    mark(Rect::new(at, at));
                }
            });
        }
    });
    let margin = (MARGIN / SQUARE) as usize;
    let (mut used, mut all) = (0_u32, 0_u32);
    for row in margin..rows - margin {
        for column in margin..columns - margin {
            let near = |at: usize, most: usize| at.saturating_sub(NEAR)..(at + NEAR + 1).min(most);
            let is_used = near(row, rows).any(|row| near(column, columns).any(|column| inked[row * columns + column]));
            used += u32::from(is_used);
            all += 1;
        }
    }
    f64::from(used) / f64::from(all)
}

fn cells(mm: f64) -> usize {
    (mm / SQUARE).ceil().max(1.0) as usize
}
