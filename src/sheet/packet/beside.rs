//! The first sheet: how much room schedules get under the drawing, and which stand beside it.

use super::remarks::left_out;
use super::schedules::longest_pointer;
use super::{Composer, Plan};
use crate::drawing::Isometric;
use crate::scene::Rect;
use crate::sheet::block::{Block, Laid};
use crate::sheet::built;
use crate::sheet::fill::{Choice, Elsewhere, Filled};
use crate::sheet::findings::Found;
use crate::sheet::tags::Schedule;

/// The most findings in the box beside the drawing.
pub const MOST_FINDINGS: usize = 8;
/// How many heights of the schedules under the drawing are tried.
const TRIES: usize = 3;
/// Up to so many runs all heights are tried where words are left out.
const MOST_TRIED: usize = 400;
/// How much smaller a drawing may become so that one more schedule stands beside it.
const STILL_LARGE: f64 = 0.97;
/// How much smaller it may become so that one sheet holds everything.
const LARGE_ENOUGH: f64 = 0.7;
/// How many other schedules what is missed is worth.
const MISSED: usize = 25;
/// What legend and findings are worth in tables of numbered points.
const POINTS: usize = 2;

impl Composer<'_> {
    /// The plan of the first sheet and the drawing on it: so much room for schedules under the drawing that as many as
    /// can be stand beside it, but never so much that the drawing suffers.
    pub fn first_sheet(&self) -> (Plan, Isometric) {
        let heights = self.arrangement.schedule_heights(self.paper.frame(self.orientation));
        let least = heights.first().copied().unwrap_or_default();
        let plan = self.plan(least);
        let drawing = self.isometric(&plan);
        if heights.len() < 2 {
            return (plan, drawing);
        }
        let (blocks, _) = self.blocks(&drawing);
        let choices = self.choices(&blocks);
        let left_over = |height: f64| {
            let (filled, hidden) = self.filled(&blocks, &choices, &self.plan(height));
            let missed: u32 = filled.rest.iter().map(|at| missed(blocks[*at].which)).sum();
            // Where the drawing comes first, it gives up room for the legend only, and for where all else is found.
            let cost = match self.arrangement.drawing_first() {
                true => missed as usize / POINTS + usize::from(!filled.columns.iter().flatten().any(is_pointer)),
                false => filled.rest.len() + hidden + missed as usize * MISSED,
            };
            // Room under the drawing that nothing needs looks like a mistake.
            let is_used = |column: &Vec<Laid>| column.iter().any(|laid| !is_pointer(laid));
            let is_well_filled = height <= least || filled.columns.iter().all(is_used);
            is_well_filled.then_some(cost)
        };
        let ways = (heights.iter()).filter_map(|height| Some((left_over(*height)?, *height)));
        let mut ways: Vec<(usize, f64)> = ways.collect();
        ways.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        ways.dedup_by_key(|way| way.0);
        for (left_over, height) in ways.into_iter().take(TRIES) {
            if height <= least || self.has_tried_enough() {
                break;
            }
            let plan = self.plan(height);
            let smaller = self.isometric(&plan);
            let least = if left_over == 0 { LARGE_ENOUGH } else { STILL_LARGE };
            let is_worse = smaller.projection.step < drawing.projection.step * least
                || smaller.numbered.len() > drawing.numbered.len()
                || left_out(&smaller) > left_out(&drawing);
            if !is_worse || self.arrangement.drawing_first() {
                return self.with_all_words(heights, (plan, smaller));
            }
        }
        self.with_all_words(heights, (plan, drawing))
    }

    /// The sheet as chosen; where words are left out of it and are not on another sheet anyway, one on which all find
    /// room, whatever schedule goes elsewhere for that.
    fn with_all_words(&self, heights: Vec<f64>, chosen: (Plan, Isometric)) -> (Plan, Isometric) {
        if left_out(&chosen.1) == 0 || self.crowded.is_some() || self.job.runs.len() > MOST_TRIED {
            return chosen;
        }
        let heights = heights.into_iter().take_while(|_| !self.has_tried_enough());
        let mut others = heights.map(|height| {
            let plan = self.plan(height);
            let drawing = self.isometric(&plan);
            (plan, drawing)
        });
        others.find(|(_, drawing)| left_out(drawing) == 0).unwrap_or(chosen)
    }

    /// The blocks in the ways in which the box of findings may be shortened, all findings first.
    pub fn choices(&self, blocks: &[Block]) -> Vec<Choice> {
        let most = Found::of(&self.checked.findings).blocking().min(MOST_FINDINGS);
        let frame = self.paper.frame(self.orientation);
        let heights = self.arrangement.schedule_heights(frame);
        let mut widths: Vec<f64> = heights
            .iter()
            .flat_map(|height| self.plan(*height).columns)
            .map(Rect::width)
            .collect();
        widths.sort_by(f64::total_cmp);
        widths.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let found = Found::of(&self.checked.findings);
        let all = Choice::of(
            blocks,
            &longest_pointer(self.since, self.matter.work()),
            &widths,
            frame.height(),
        );
        let fewer = (0..most).rev().filter_map(|shown| found.block(shown, &self.places));
        let fewer = fewer
            .map(|findings| all.with(&findings, &widths, frame.height()))
            .collect::<Vec<_>>();
        [all].into_iter().chain(fewer).collect()
    }

    /// The first sheet's columns filled, with as many findings as leave room for legend and numbered points, and how
    /// many are left out.
    pub fn filled(&self, blocks: &[Block], choices: &[Choice], plan: &Plan) -> (Filled, usize) {
        let mut best: Option<(u32, Filled, usize)> = None;
        for (hidden, choice) in choices.iter().enumerate() {
            let filled = choice.fill(&plan.columns, self.elsewhere());
            let missed: u32 = filled.rest.iter().map(|at| missed(blocks[*at].which)).sum();
            let is_better = best.as_ref().is_none_or(|best| missed < best.0);
            if is_better {
                best = Some((missed, filled, hidden));
            }
            if missed == 0 {
                break;
            }
        }
        let nothing = Filled {
            columns: Vec::new(),
            rest: (0..blocks.len()).collect(),
        };
        let (filled, hidden) = best.map_or((nothing, choices.len()), |(_, filled, hidden)| (filled, hidden));
        (without_findings(filled, blocks), hidden)
    }

    /// Whether something stands on other sheets however much finds room on the first.
    fn elsewhere(&self) -> Elsewhere {
        let has_work = self.matter.work().is_some() && !built::is_built(self.job);
        match has_work || self.arrangement.drawing_first() && self.matter.is_for_permit() {
            true => Elsewhere::Something,
            false => Elsewhere::Nothing,
        }
    }

    /// All findings that block, where the first sheet shows fewer.
    pub fn whole_findings(&self, hidden: usize) -> Option<Block> {
        if !self.matter.is_for_permit() {
            return None;
        }
        let found = Found::of(&self.checked.findings);
        let all = found.blocking();
        (hidden > 0 || all > MOST_FINDINGS)
            .then(|| found.block(all, &self.places))
            .flatten()
    }
}

/// How badly something is missed beside the drawing; for what is missed at all the box of findings is shortened.
const fn missed(which: Schedule) -> u32 {
    match which {
        Schedule::Findings => 4,
        Schedule::Legend => 2,
        Schedule::Points => 1,
        Schedule::Changes
        | Schedule::Signature
        | Schedule::Supply
        | Schedule::Appliances
        | Schedule::Sections
        | Schedule::Existing
        | Schedule::Study
        | Schedule::Pieces
        | Schedule::Order
        | Schedule::Test
        | Schedule::TakeOff
        | Schedule::Cuts
        | Schedule::Stock
        | Schedule::PermitList
        | Schedule::Notes
        | Schedule::Cautions
        | Schedule::Revisions
        | Schedule::Stamp
        | Schedule::Elsewhere => 0,
    }
}

fn is_pointer(laid: &Laid) -> bool {
    laid.which == Schedule::Elsewhere
}

fn is_findings(block: &Block) -> bool {
    block.which == Schedule::Findings
}

/// The box of findings is shortened, never left over.
fn without_findings(mut filled: Filled, blocks: &[Block]) -> Filled {
    filled.rest.retain(|at| !is_findings(&blocks[*at]));
    filled
}
