//! The drawing again, larger, on sheets of its own: the whole of it where one sheet has room for all its words, else in
//! parts with match lines, until nothing is left out.

use super::around::CLEARANCE;
use super::notice::{self, Elsewhere, Lacking};
use super::remarks::left_out;
use super::{CLEAR, Composer, Plan};
use crate::drawing::{First, Homeless, Isometric, NumberedPoint, Options, Parts, SymbolSet, in_one_part};
use crate::scene::Rect;
use crate::sheet::block::Block;
use crate::sheet::fill::{Choice, Filled};
use crate::sheet::points;
use crate::sheet::tags::Schedule;
use crate::sheet::white::White;

/// The most parts: what more would need is a matter for larger paper.
const MOST: usize = 6;
/// So many numbered points are few enough for a part to stay whole.
const FEW: usize = 3;
/// A part with fewer labels is a corner of the drawing, and no sheet is worth it.
const CORNER: usize = 8;
/// Up to so many runs more than one way to part them is tried.
const MOST_TRIED: usize = 400;

/// The drawing on sheets of its own.
pub struct Larger {
    first: First,
    /// How many match lines they have.
    pub matches: usize,
    /// The whole drawing, or its parts in order, each with where everything stands on its sheet.
    pub sheets: Vec<Enlarged>,
}

/// The drawing or a part of it on a sheet of its own.
#[derive(Clone)]
pub struct Enlarged {
    /// Where everything stands.
    pub plan: Plan,
    /// What is drawn.
    pub drawing: Isometric,
    /// The table of its numbered points, where the drawing leaves room for it, and schedules in what it leaves else.
    pub filled: Filled,
    white: White,
}

impl Enlarged {
    fn of(composer: &Composer<'_>, (plan, drawing): (Plan, Isometric)) -> Enlarged {
        let room = plan.drawing;
        let mut white = White::of(&[room]);
        white.draw(&drawing.group, CLEARANCE);
        let mut sheet = Enlarged {
            plan,
            drawing,
            filled: Filled::default(),
            white,
        };
        let own = points::block(&points::here(&sheet.drawing.numbered), &composer.places);
        sheet.fill(own.as_slice());
        sheet
    }

    /// Puts what finds room into the white of the sheet; gives back the others, by position.
    pub fn fill(&mut self, blocks: &[Block]) -> Vec<usize> {
        let found = Choice::of(blocks, &[self.plan.drawing]).fill(&self.white);
        for (at, laid) in &found.placed {
            self.white.take(Rect::sized(*at, laid.width(), laid.height()));
        }
        self.filled.placed.extend(found.placed);
        found.rest
    }

    /// Whether the table of its numbered points stands on it.
    pub fn explains_itself(&self) -> bool {
        (self.filled.placed.iter()).any(|(_, laid)| laid.which == Schedule::Points)
    }
}

impl Larger {
    /// The drawing in as few parts as leave nothing out; where even the most parts leave as much out as the whole, the
    /// whole. `plan` is that of each sheet; `lacking` tells what one says that leaves words out all the same.
    pub fn of(composer: &Composer<'_>, plan: &Plan, options: Options<'_>, first: First, lacking: Lacking) -> Larger {
        let whole = composer.draw(plan, options);
        let one = in_one_part(composer.drawn, composer.study, options, whole.projection.step, first);
        let (mut parts, mut drawings) = (one.clone(), vec![whole.clone()]);
        while let Some(worst) = worst(&drawings)
            && parts.count() < MOST
            && !composer.has_tried_enough()
            && let Some(split) = best_split(composer, plan, &parts, worst, options)
        {
            parts = split;
            drawings.clear();
            for number in 0..parts.count() {
                let after = numbers(&drawings);
                drawings.push(composer.draw(plan, part(&parts, number, after, options)));
            }
        }
        if parts.count() > 1 && drawings.iter().map(left_out).sum::<usize>() >= left_out(&whole).max(1) {
            (parts, drawings) = (one, vec![whole]);
        }
        // What a sheet leaves out it says itself, and needs room for that; then numbers change.
        let is_whole = drawings.iter().all(|drawing| left_out(drawing) == 0);
        let mut sheets: Vec<(Plan, Isometric)> = Vec::new();
        for (number, drawing) in drawings.into_iter().enumerate() {
            if is_whole {
                sheets.push((plan.clone(), drawing));
                continue;
            }
            let after = numbers(sheets.iter().map(|(_, drawing)| drawing));
            let options = match parts.count() {
                1 => options,
                _ => part(&parts, number, after, options),
            };
            let again = composer.draw(plan, options);
            if left_out(&again) == 0 && left_out(&drawing) == 0 {
                sheets.push((plan.clone(), again));
                continue;
            }
            let plan = plan.clone().with_notice(notice::height(lacking, plan.drawing.width()));
            let drawing = composer.draw(&plan, options);
            sheets.push((plan, drawing));
        }
        Larger {
            first,
            matches: parts.matches().len(),
            sheets: sheets.into_iter().map(|sheet| Enlarged::of(composer, sheet)).collect(),
        }
    }

    fn drawings(&self) -> impl Iterator<Item = &Isometric> {
        self.sheets.iter().map(|sheet| &sheet.drawing)
    }

    /// How many words stand on none of its sheets.
    pub fn left_out(&self) -> usize {
        self.drawings().map(left_out).sum()
    }

    /// The numbered points of those of its sheets that have no room for their table, each with the sheet on which it stands.
    pub fn numbered(&self) -> Vec<(Option<usize>, NumberedPoint)> {
        let all = self.sheets.iter().zip(self.first.sheet..);
        let elsewhere = all.filter(|(sheet, _)| !sheet.explains_itself());
        let points = elsewhere.flat_map(|(sheet, number)| {
            let points = sheet.drawing.numbered.iter().cloned();
            points.map(move |point| (Some(number), point))
        });
        points.collect()
    }

    /// Whether labels stand in tables of numbered points.
    pub fn has_numbered(&self) -> bool {
        self.drawings().any(|drawing| !drawing.numbered.is_empty())
    }

    /// The kinds of lines, symbols and marks on its sheets.
    pub fn used(&self) -> SymbolSet {
        self.drawings()
            .fold(SymbolSet::default(), |used, drawing| used.with(drawing.used))
    }

    /// What the first sheet says of it.
    pub fn told(&self) -> Elsewhere {
        Elsewhere {
            first: self.first.sheet,
            sheets: self.sheets.len(),
            left_out: self.left_out(),
            has_numbered: self.has_numbered(),
        }
    }
}

/// A part in two, so that both leave out the least.
fn best_split(
    composer: &Composer<'_>,
    plan: &Plan,
    parts: &Parts,
    worst: usize,
    options: Options<'_>,
) -> Option<Parts> {
    let mut ways = parts.splits(worst, plan.drawing.grown(-CLEAR));
    if composer.job.runs.len() > MOST_TRIED {
        ways.truncate(1);
    }
    let lacking = |way: &Parts| {
        if composer.has_tried_enough() {
            return (usize::MAX, 0, 0);
        }
        let halves = [worst, worst + 1].map(|half| composer.draw(plan, part(way, half, 0, options)));
        let sum = |count: &dyn Fn(&Isometric) -> usize| halves.iter().map(count).sum::<usize>();
        let is_corner = |drawing: &Isometric| usize::from(drawing.lettered.len() + left_out(drawing) < CORNER);
        (sum(&is_corner), sum(&left_out), sum(&|drawing| drawing.numbered.len()))
    };
    ways.into_iter().min_by_key(lacking)
}

/// A part of a drawing, its numbered points counted after so many of the parts before it.
fn part<'a>(parts: &'a Parts, number: usize, after: usize, options: Options<'a>) -> Options<'a> {
    Options {
        part: Some(parts.part(number)),
        homeless: Homeless::Numbered { after },
        ..options
    }
}

fn numbers<'a>(drawings: impl IntoIterator<Item = &'a Isometric>) -> usize {
    drawings.into_iter().map(|drawing| drawing.numbered.len()).sum()
}

/// The drawing that leaves out the most, or else has the most numbered points where they are more than a few.
fn worst(drawings: &[Isometric]) -> Option<usize> {
    let lacking = drawings.iter().map(|drawing| {
        let numbered = drawing.numbered.len();
        (left_out(drawing), if numbered > FEW { numbered } else { 0 })
    });
    let worst = lacking.enumerate().rev().max_by_key(|(_, lacking)| *lacking)?;
    (worst.1 > (0, 0)).then_some(worst.0)
}
