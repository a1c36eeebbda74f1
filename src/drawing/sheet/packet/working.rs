//! The sheet with the drawing of the pieces, and the cut list beside it where that has room.

use super::notice::{self, Lacking};
use super::remarks::left_out;
use super::schedules::longest_pointer;
use super::{CLEAR, Composer, Plan};
use crate::drawing::sheet::block::Block;
use crate::drawing::sheet::fill::{Choice, Elsewhere, Filled};
use crate::drawing::sheet::findings::Found;
use crate::drawing::sheet::tags::Schedule;
use crate::drawing::sheet::work::Work;
use crate::drawing::sheet::{pieces, points};
use crate::drawing::{Isometric, Lettering, Options, OtherWords, isometric};

/// The sheet in the making, and what did not find room on it.
pub struct Working {
    /// Where everything stands.
    pub plan: Plan,
    /// The drawing.
    pub drawing: Isometric,
    /// What stands beside it.
    pub filled: Filled,
    /// What stands elsewhere.
    pub rest: Vec<Block>,
}

impl Working {
    /// The sheet of a job with new pipe; `None` where there is none. A drawing that is too dense beside the cut list gets
    /// the sheet for itself.
    pub fn of(composer: &Composer<'_>, work: &Work) -> Option<Working> {
        let words = work.pieces(composer.job, &composer.places)?;
        let heights = composer
            .arrangement
            .schedule_heights(composer.paper.frame(composer.orientation));
        let plan = composer.roomy_plan(heights.first().copied().unwrap_or_default());
        let alone = plan.clone().alone();
        // What the drawing means and that a job is not ready stand on its sheet, however dense it is.
        let told = [Some(pieces::key()), Working::warned(composer)];
        let width = alone.drawing.width();
        let told = told.iter().flatten().map(|block| block.lay(width).height());
        let alone = alone.with_column_under(told.sum());
        let beside = Working::on(composer, work, &words, plan);
        if left_out(&beside.drawing) == 0 {
            return Some(beside);
        }
        let alone = Working::on(composer, work, &words, alone);
        let best = match left_out(&alone.drawing) < left_out(&beside.drawing) {
            true => alone,
            false => beside,
        };
        if left_out(&best.drawing) == 0 {
            return Some(best);
        }
        let height = notice::height(Lacking::Pieces, best.plan.drawing.width());
        Some(Working::on(composer, work, &words, best.plan.with_notice(height)))
    }

    /// That a job is not ready, in a line.
    fn warned(composer: &Composer<'_>) -> Option<Block> {
        Found::of(composer.study).block(0, &composer.places)
    }

    fn on(composer: &Composer<'_>, work: &Work, words: &OtherWords, plan: Plan) -> Working {
        let options = Options {
            lettering: Lettering::Other(words),
            ..Options::default()
        };
        let drawing = isometric(composer.job, composer.study, plan.drawing.grown(-CLEAR), options);
        let warned = Working::warned(composer).map(|block| [block.clone(), block]);
        let mut all: Vec<[Block; 2]> = warned.into_iter().collect();
        all.extend(work.beside(composer.job.settings.units, &composer.places));
        let points = points::block(&points::here(&drawing.numbered), &composer.places);
        all.extend(points.map(|block| [block.clone(), block]));
        let (blocks, elsewhere): (Vec<Block>, Vec<Block>) =
            all.into_iter().map(|[beside, elsewhere]| (beside, elsewhere)).unzip();
        let widths: Vec<f64> = plan.columns.iter().map(|column| column.width()).collect();
        let pointer = longest_pointer(composer.since, composer.matter.work());
        let filled =
            Choice::of(&blocks, &pointer, &widths, plan.frame.height()).fill(&plan.columns, Elsewhere::Something);
        // What blocks is told in full on the first of the other sheets to work from.
        let is_told = |block: &&Block| block.which == Schedule::Findings;
        let rest = filled.rest.iter().map(|at| &elsewhere[*at]);
        let rest = rest.filter(|block| !is_told(block)).cloned().collect();
        Working {
            plan,
            drawing,
            filled,
            rest,
        }
    }

    /// What should be said of it to the person who asked.
    pub fn remarks(&self, paper: &str) -> Option<String> {
        match left_out(&self.drawing) {
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
