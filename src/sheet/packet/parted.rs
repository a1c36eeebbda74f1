//! The drawing in parts with match lines, each as large as its sheet allows, until nothing is left out.

use super::notice::{self, Lacking, left_out};
use super::{CLEAR, Composer};
use crate::drawing::{First, Homeless, Isometric, Options, Parts, in_one_part};
use crate::sheet::plan::Plan;

/// The most parts: what more would need is a matter for larger paper.
const MOST: usize = 6;
/// So many numbered points are few enough for a part to stay whole.
const FEW: usize = 6;
/// A part with fewer labels is a corner of the drawing, and no sheet is worth it.
const CORNER: usize = 8;
/// Up to so many runs more than one way to part them is tried.
const MOST_TRIED: usize = 400;

/// The plans of the sheets of a drawing.
pub struct Plans {
    /// That of the first.
    pub first: Plan,
    /// That of all others.
    pub later: Plan,
}

impl Plans {
    fn of(&self, part: usize) -> &Plan {
        if part == 0 { &self.first } else { &self.later }
    }
}

/// The drawing in parts.
pub struct Parted {
    parts: Parts,
    /// The plan of each sheet with what is drawn there where the drawing has all of it.
    pub sheets: Vec<(Plan, Isometric)>,
}

impl Parted {
    /// The drawing in as few parts as leave nothing out; where even the most parts leave as much out as the whole, the
    /// whole. `lacking` tells what a sheet says that leaves words out all the same.
    pub fn of(composer: &Composer<'_>, plans: &Plans, options: Options<'_>, first: First, lacking: Lacking) -> Parted {
        let whole = composer.draw(plans.of(0), options);
        let one = in_one_part(composer.drawn, composer.study, options, whole.projection.step, first);
        let (mut parts, mut drawings) = (one.clone(), vec![whole.clone()]);
        while let Some(worst) = worst(&drawings)
            && parts.count() < MOST
            && !composer.has_tried_enough()
            && let Some(split) = best_split(composer, plans, &parts, worst, options)
        {
            parts = split;
            drawings.clear();
            for number in 0..parts.count() {
                let after = numbers(&drawings);
                drawings.push(composer.draw(plans.of(number), part(&parts, number, after, options)));
            }
        }
        if parts.count() > 1 && drawings.iter().map(left_out).sum::<usize>() >= left_out(&whole).max(1) {
            (parts, drawings) = (one, vec![whole]);
        }
        let mut parted = Parted {
            parts,
            sheets: Vec::new(),
        };
        // What a sheet leaves out it says itself, and needs room for that; then numbers change.
        let is_whole = drawings.iter().all(|drawing| left_out(drawing) == 0);
        for (number, drawing) in drawings.into_iter().enumerate() {
            let plan = plans.of(number).clone();
            if is_whole {
                parted.sheets.push((plan, drawing));
                continue;
            }
            let after = numbers(parted.sheets.iter().map(|(_, drawing)| drawing));
            let options = parted.options(number, after, options);
            let again = composer.draw(&plan, options);
            if left_out(&again) == 0 && left_out(&drawing) == 0 {
                parted.sheets.push((plan, again));
                continue;
            }
            let height = notice::height(lacking, plan.drawing.width());
            let plan = plan.with_notice(height);
            let drawing = composer.draw(&plan, options);
            parted.sheets.push((plan, drawing));
        }
        parted
    }

    /// How one of them is drawn, its numbered points counted after so many.
    pub fn options<'a>(&'a self, number: usize, after: usize, options: Options<'a>) -> Options<'a> {
        match self.parts.count() {
            1 => options,
            _ => part(&self.parts, number, after, options),
        }
    }

    /// How many match lines they have.
    pub fn matches(&self) -> usize {
        self.parts.matches().len()
    }
}

/// A part in two, so that both leave out the least.
fn best_split(
    composer: &Composer<'_>,
    plans: &Plans,
    parts: &Parts,
    worst: usize,
    options: Options<'_>,
) -> Option<Parts> {
    let mut ways = parts.splits(worst, plans.of(worst).drawing.grown(-CLEAR));
    if composer.job.runs.len() > MOST_TRIED {
        ways.truncate(1);
    }
    let lacking = |way: &Parts| {
        if composer.has_tried_enough() {
            return (usize::MAX, 0, 0);
        }
        let halves = [worst, worst + 1].map(|half| composer.draw(plans.of(half), part(way, half, 0, options)));
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
