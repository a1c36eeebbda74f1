//! The drawing over the sheets of the permit set, from the first on: whole where that has room for all its words, else in
//! parts; and schedules in the white of each.

use super::Composer;
use super::around::Around;
use super::first::First;
use super::notice::{Lacking, left_out};
use super::parted::{Parted, Plans};
use super::together::Together;
use crate::drawing::{self, Isometric, NumberedPoint};
use crate::sheet::block::Block;
use crate::sheet::plan::Plan;
use crate::sheet::points;
use crate::sheet::tags::Schedule;

/// A sheet with the drawing or a part of it.
pub struct Sheet {
    /// Where everything stands.
    pub plan: Plan,
    /// What is drawn, and what stands around it.
    pub around: Around,
}

/// All sheets of a set that have a drawing.
pub struct Spread {
    /// In order.
    pub sheets: Vec<Sheet>,
    /// The schedules that found no room on them.
    pub rest: Vec<Block>,
    /// How many match lines they have.
    pub matches: usize,
}

impl Spread {
    /// `first` with the whole drawing, where no word is lost on it or where parts lose as many; else the drawing in parts.
    pub fn of(composer: &Composer<'_>, first: First) -> Spread {
        if left_out(&first.around.drawing) > 0 && composer.matter.is_for_permit() {
            let plans = Plans {
                first: composer.first_plan(),
                later: composer.later_plan(),
            };
            let begin = drawing::First { sheet: 1, letter: 0 };
            let parted = Parted::of(composer, &plans, composer.options(), begin, Lacking::Permit);
            if parted.sheets.len() > 1 {
                return Spread::in_parts(composer, &parted);
            }
        }
        let First { around, later, .. } = first;
        let left_over = around.rest().map(|at| around.blocks[at].clone());
        Spread {
            rest: left_over.chain(later).collect(),
            sheets: vec![Sheet {
                plan: composer.first_plan(),
                around,
            }],
            matches: 0,
        }
    }

    /// The drawing of the first sheet.
    pub fn first(&self) -> &Isometric {
        &self.sheets[0].around.drawing
    }

    /// How many words stand on none of its sheets.
    pub fn left_out(&self) -> usize {
        self.drawings().map(left_out).sum()
    }

    fn drawings(&self) -> impl Iterator<Item = &Isometric> + Clone {
        self.sheets.iter().map(|sheet| &sheet.around.drawing)
    }

    fn in_parts(composer: &Composer<'_>, parted: &Parted) -> Spread {
        let mut together = Together::of(parted.sheets.iter().map(|(_, drawing)| drawing));
        let mut spread = Spread::sharing(composer, parted, &together);
        let stands = |sheet: &Sheet, which| (sheet.around.filled.placed.iter()).any(|(_, laid)| laid.which == which);
        if composer.findings_shown() > 0 && !stands(&spread.sheets[0], Schedule::Findings) {
            together.is_brief = true;
            spread = Spread::sharing(composer, parted, &together);
        }
        let then = Together {
            is_brief: together.is_brief,
            ..Together::of(spread.drawings())
        };
        // Beside schedules a part may have a mark that it had not alone.
        let mut spread = match then == together {
            true => spread,
            false => Spread::sharing(composer, parted, &then),
        };
        // Where the first sheet only says that there are findings, a later one lists them.
        let is_told = composer.matter.asked().is_nothing();
        if then.is_brief && is_told && composer.whole_findings().is_none() {
            spread.rest.extend(composer.all_findings());
        }
        spread
    }

    fn sharing(composer: &Composer<'_>, parted: &Parted, together: &Together) -> Spread {
        let mut sheets: Vec<Sheet> = Vec::new();
        let mut rest: Vec<Block> = Vec::new();
        // Numbered points whose table found no room on their own sheet.
        let mut homeless: Vec<(Option<usize>, NumberedPoint)> = Vec::new();
        let mut after = 0;
        for (number, (plan, alone)) in parted.sheets.iter().enumerate() {
            let options = parted.options(number, after, composer.options());
            let sheet_number = number + 1;
            let own = |drawing: &Isometric| {
                let sheet = (!homeless.is_empty()).then_some(sheet_number);
                let own = drawing.numbered.iter().map(move |point| (sheet, point.clone()));
                homeless.iter().cloned().chain(own).collect::<Vec<_>>()
            };
            let rooms = match number {
                0 => composer.rooms(plan),
                _ => vec![plan.drawing],
            };
            let blocks = |drawing: &Isometric| match number {
                0 => composer.blocks(drawing, Some(together)).0,
                _ => {
                    let points = points::block(&own(drawing), &composer.places);
                    rest.iter().cloned().chain(points).collect()
                }
            };
            let mut around = composer.around((plan.drawing, &rooms), options, &blocks);
            if plan.notice.is_none() && left_out(&around.drawing) > left_out(alone) {
                around = Around::of(alone.clone(), &rooms, blocks(alone));
            }
            let left: Vec<Block> = around.rest().map(|at| around.blocks[at].clone()).collect();
            let is_explained = left.iter().all(|block| block.which != Schedule::Points);
            homeless = if is_explained {
                Vec::new()
            } else {
                let all = own(&around.drawing).into_iter();
                all.map(|(sheet, point)| (sheet.or(Some(sheet_number)), point))
                    .collect()
            };
            rest = left
                .into_iter()
                .filter(|block| block.which != Schedule::Points)
                .collect();
            after += around.drawing.numbered.len();
            sheets.push(Sheet {
                plan: plan.clone(),
                around,
            });
        }
        rest.extend(points::block(&homeless, &composer.places));
        if let Some(first) = sheets.first() {
            rest.extend(composer.blocks(&first.around.drawing, Some(together)).1);
        }
        Spread {
            sheets,
            rest,
            matches: parted.matches(),
        }
    }
}
