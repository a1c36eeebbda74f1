//! The finished sheets as scenes.

use super::notice::{self, Lacking};
use super::remarks::left_out;
use super::{Composer, Plan};
use crate::drawing::{Isometric, layers};
use crate::scene::{Affine, Group, Ink, Pen, Point, Rect, Scene, Stroke};
use crate::sheet::block::{Block, Laid};
use crate::sheet::field::Field;
use crate::sheet::fill::Filled;
use crate::sheet::plan::Foot;
use crate::sheet::pour::{Poured, stack};
use crate::sheet::purpose::Purpose;
use crate::sheet::strip::{boxed, rule};
use crate::sheet::tags::Schedule;
use crate::sheet::{cautions, revisions, stamp};

/// The least height that is worth keeping free for a stamp, mm.
const LEAST_STAMP: f64 = 35.0;

/// Which of all sheets, and what it is for.
#[derive(Clone, Copy, Debug)]
pub struct Which {
    /// Its number, from 1.
    pub number: usize,
    /// The number of all.
    pub of: usize,
    /// What it is for.
    pub purpose: Purpose,
}

/// A sheet with a drawing and what stands beside it.
pub fn drawn(
    composer: &Composer<'_>,
    (plan, drawing, filled): (&Plan, &Isometric, &Filled),
    pointer: &Block,
    lacking: Lacking,
    which: Which,
) -> Scene {
    let mut sheet = blank(composer, which);
    let mut drawn = Group::new().label("drawing").with(drawing.group.clone());
    let over = (composer.matter).over(composer.drawn, composer.study, composer.book, drawing);
    if !over.items().is_empty() {
        drawn.push(over.on(layers::STUDY).label("study"));
    }
    sheet.push(drawn);
    let is_overview = matches!(lacking, Lacking::First(Some(_)));
    if let Some(place) = plan.notice.filter(|_| is_overview || left_out(drawing) > 0) {
        let said = notice::block(lacking, left_out(drawing)).lay(place.width()).whole().ink;
        sheet.push(said.map(Affine::to(place.min)));
    }
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
            sheet.push(stamp::draw(left, which.purpose.space(composer.job, composer.checked)));
        }
    }
    foot(composer, &plan.first, plan.frame, which, &mut sheet);
    sheet
}

/// A sheet of schedules.
pub fn later(composer: &Composer<'_>, plan: &Plan, schedules: Poured, columns: &[Rect], which: Which) -> Scene {
    let mut sheet = blank(composer, which);
    for column in columns.iter().skip(1) {
        let (top, end) = (column.min, Point::new(column.min.x, column.max.y));
        sheet.push(rule(top, end, Pen::Medium, Ink::Black));
    }
    sheet.push(schedules.ink);
    foot(composer, &plan.later, plan.frame, which, &mut sheet);
    sheet
}

fn blank(composer: &Composer<'_>, Which { number, of, purpose }: Which) -> Scene {
    let (width, height) = composer.paper.size(composer.orientation);
    let says = |field| purpose.value(field, composer.job, composer.checked, composer.profile);
    let names = [Field::Drawing, Field::Job].map(says);
    let name = names
        .iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty())
        .collect::<Vec<_>>()
        .join(" ");
    let name = if name.is_empty() { "Gas piping isometric" } else { &name };
    Scene::new(width, height, format!("{name}, sheet {number} of {of}"))
}

/// What stands on every sheet, and the frame around all.
fn foot(composer: &Composer<'_>, foot: &Foot, frame: Rect, which: Which, sheet: &mut Scene) {
    let thin = Stroke::new(Pen::Medium);
    let words = cautions::block(composer.profile, foot.cautions.width())
        .lay(foot.cautions.width())
        .whole()
        .ink;
    sheet.push(words.map(Affine::to(foot.cautions.min)));
    sheet.push(boxed(foot.cautions, thin));
    if let Some(place) = foot.stamp {
        sheet.push(stamp::draw(place, which.purpose.space(composer.job, composer.checked)));
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
    let title = match which.purpose {
        Purpose::Issue | Purpose::Study(_) => composer.title.draw(foot.title, which.number, which.of),
        Purpose::Pieces | Purpose::Work => {
            let title = composer.title_for(which.purpose);
            title.draw(foot.title, which.number, which.of)
        }
    };
    sheet.push(title);
    sheet.push(boxed(frame, Stroke::new(Pen::Heavy)));
}
