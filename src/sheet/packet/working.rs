//! The sheets with the drawing of the pieces, and the cut list beside it where that has room.

use super::larger::Larger;
use super::notice::Lacking;
use super::remarks::left_out;
use super::schedules::longest_pointer;
use super::{Composer, Plan};
use crate::drawing::{First, Isometric, Lettering, NumberedPoint, Options};
use crate::sheet::block::Block;
use crate::sheet::fill::{Choice, Elsewhere, Filled};
use crate::sheet::findings::Found;
use crate::sheet::tags::Schedule;
use crate::sheet::work::Work;
use crate::sheet::{pieces, points};

/// The sheets in the making, and what did not find room on them.
pub struct Working {
    /// Where everything stands, the drawing or a part of it, and what stands beside it.
    pub sheets: Vec<(Plan, Isometric, Filled)>,
    /// What stands elsewhere.
    pub rest: Vec<Block>,
}

impl Working {
    /// The sheets of a job with new pipe, from the number given; `None` where there is none. A drawing that is too dense
    /// beside the cut list gets the sheet for itself, or more of them in parts.
    pub fn of(composer: &Composer<'_>, work: &Work, sheet: usize) -> Option<Working> {
        let words = work.pieces(composer.job, &composer.places)?;
        let options = Options {
            lettering: Lettering::Other(&words),
            is_arranged: composer.is_arranged,
            ..Options::default()
        };
        let heights = composer
            .arrangement
            .schedule_heights(composer.paper.frame(composer.orientation));
        let plan = composer.roomy_plan(heights.first().copied().unwrap_or_default());
        let drawing = composer.draw(&plan, options);
        if left_out(&drawing) == 0 {
            let (filled, rest) = beside(composer, work, &plan, &points::here(&drawing.numbered));
            let sheets = vec![(plan, drawing, filled)];
            return Some(Working { sheets, rest });
        }
        let first = First {
            sheet,
            letter: composer.larger().map_or(0, |larger| larger.matches),
        };
        // What the drawing means and that a job is not ready stand on its sheets, however dense it is.
        let plan = plan.alone();
        let width = plan.drawing.width();
        let told = [Some(pieces::key()), warned(composer)];
        let told = told.iter().flatten().map(|block| block.lay(width).height());
        let plan = plan.with_column_under(told.sum());
        let larger = Larger::of(composer, &plan, options, first, Lacking::Pieces);
        let numbered = match larger.sheets.as_slice() {
            [(_, one)] => points::here(&one.numbered),
            _ => larger.numbered(),
        };
        let (filled, rest) = beside(composer, work, &plan, &numbered);
        let sheets = larger.sheets.into_iter();
        let sheets = sheets.map(|(plan, drawing)| (plan, drawing, filled.clone())).collect();
        Some(Working { sheets, rest })
    }

    /// What should be said of them to the person who asked.
    pub fn remarks(&self, paper: &str) -> Option<String> {
        match self
            .sheets
            .iter()
            .map(|(_, drawing, _)| left_out(drawing))
            .sum::<usize>()
        {
            0 => None,
            1 => Some(format!(
                "1 label finds no place on the drawing of the pieces on {paper}: the cut list has it"
            )),
            many => Some(format!(
                "{many} labels find no place on the drawing of the pieces on {paper}: the cut list has them"
            )),
        }
    }
}

/// That a job is not ready, in a line.
fn warned(composer: &Composer<'_>) -> Option<Block> {
    Found::of(&composer.checked.findings).block(0, &composer.places)
}

/// What stands beside a drawing of the pieces, and what elsewhere.
fn beside(
    composer: &Composer<'_>,
    work: &Work,
    plan: &Plan,
    numbered: &[(Option<usize>, NumberedPoint)],
) -> (Filled, Vec<Block>) {
    let warned = warned(composer).map(|block| [block.clone(), block]);
    let mut all: Vec<[Block; 2]> = warned.into_iter().collect();
    all.extend(work.beside(composer.job.settings.units, &composer.places));
    let points = points::block(numbered, &composer.places);
    all.extend(points.map(|block| [block.clone(), block]));
    let (blocks, elsewhere): (Vec<Block>, Vec<Block>) =
        all.into_iter().map(|[beside, elsewhere]| (beside, elsewhere)).unzip();
    let widths: Vec<f64> = plan.columns.iter().map(|column| column.width()).collect();
    let pointer = longest_pointer(composer.since, composer.matter.work());
    let filled = Choice::of(&blocks, &pointer, &widths, plan.frame.height()).fill(&plan.columns, Elsewhere::Something);
    // What blocks is told in full on the first of the other sheets to work from.
    let is_told = |block: &&Block| block.which == Schedule::Findings;
    let rest = filled.rest.iter().map(|at| &elsewhere[*at]);
    let rest = rest.filter(|block| !is_told(block)).cloned().collect();
    (filled, rest)
}
