//! The finished sheets as scenes.

use super::{Composer, Plan};
use crate::drawing::Isometric;
use crate::drawing::sheet::block::{Block, Laid};
use crate::drawing::sheet::fill::Filled;
use crate::drawing::sheet::plan::Foot;
use crate::drawing::sheet::pour::{Poured, stack};
use crate::drawing::sheet::strip::{boxed, rule};
use crate::drawing::sheet::tags::Schedule;
use crate::drawing::sheet::{cautions, revisions, stamp};
use crate::scene::{Affine, Group, Ink, Pen, Point, Rect, Scene, Stroke};

/// The least height that is worth keeping free for a stamp, mm.
const LEAST_STAMP: f64 = 35.0;

/// The sheet with the drawing.
pub fn first(
    composer: &Composer<'_>,
    plan: &Plan,
    drawing: &Isometric,
    filled: &Filled,
    pointer: &Block,
    of: usize,
) -> Scene {
    let mut sheet = blank(composer, 1, of);
    let mut drawn = Group::new().label("drawing").with(drawing.group.clone());
    let over = (composer.matter).over(composer.job, composer.study, composer.book, drawing);
    if !over.items().is_empty() {
        drawn.push(over.label("study"));
    }
    sheet.push(drawn);
    for (column, blocks) in plan.columns.iter().zip(&filled.columns) {
        sheet.push(boxed(*column, Stroke::new(Pen::Medium)));
        let blocks: Vec<Laid> = blocks
            .iter()
            .map(|block| match block.which {
                Schedule::Elsewhere => pointer.lay(column.width()),
                _ => block.clone(),
            })
            .collect();
        sheet.push(stack(&blocks, *column));
        let used: f64 = blocks.iter().map(Laid::height).sum();
        let left = Rect::new(Point::new(column.min.x, column.min.y + used), column.max);
        if plan.first.stamp.is_none() && left.height() >= LEAST_STAMP {
            sheet.push(rule(
                left.min,
                Point::new(left.max.x, left.min.y),
                Pen::Medium,
                Ink::Black,
            ));
            sheet.push(stamp::draw(left));
        }
    }
    foot(composer, &plan.first, plan.frame, 1, of, &mut sheet);
    sheet
}

/// A sheet of schedules.
pub fn later(
    composer: &Composer<'_>,
    plan: &Plan,
    schedules: Poured,
    columns: &[Rect],
    number: usize,
    of: usize,
) -> Scene {
    let mut sheet = blank(composer, number, of);
    for column in columns.iter().skip(1) {
        let (top, end) = (column.min, Point::new(column.min.x, column.max.y));
        sheet.push(rule(top, end, Pen::Medium, Ink::Black));
    }
    sheet.push(schedules.ink);
    foot(composer, &plan.later, plan.frame, number, of, &mut sheet);
    sheet
}

fn blank(composer: &Composer<'_>, number: usize, of: usize) -> Scene {
    let (width, height) = composer.paper.size(composer.orientation);
    let title = &composer.job.title;
    let names = [&title.drawing, &title.job].map(|name| name.trim());
    let name = names
        .into_iter()
        .filter(|name| !name.is_empty())
        .collect::<Vec<_>>()
        .join(" ");
    let name = if name.is_empty() { "Gas piping isometric" } else { &name };
    Scene::new(width, height, format!("{name}, sheet {number} of {of}"))
}

/// What stands on every sheet, and the frame around all.
fn foot(composer: &Composer<'_>, foot: &Foot, frame: Rect, number: usize, of: usize, sheet: &mut Scene) {
    let thin = Stroke::new(Pen::Medium);
    let words = cautions::block(composer.profile, foot.cautions.width())
        .lay(foot.cautions.width())
        .whole()
        .ink;
    sheet.push(words.map(Affine::to(foot.cautions.min)));
    sheet.push(boxed(foot.cautions, thin));
    if let Some(place) = foot.stamp {
        sheet.push(stamp::draw(place));
        sheet.push(boxed(place, thin));
    }
    if let Some(place) = foot.revisions {
        let lines = composer.arrangement.revision_lines();
        let issues = revisions::block(composer.job, lines, place.width())
            .lay(place.width())
            .whole()
            .ink;
        sheet.push(issues.map(Affine::to(place.min)));
        sheet.push(boxed(place, thin));
    }
    sheet.push(composer.title.draw(foot.title, number, of));
    sheet.push(boxed(frame, Stroke::new(Pen::Heavy)));
}
