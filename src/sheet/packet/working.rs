//! The sheets to work from, a set of their own: the drawing of the pieces with the cut list around it, the order of work
//! and the other lists, the test on a page of its own, and last what permit offices ask for.

use super::Composer;
use super::Packet;
use super::around::Around;
use super::draw::{self, Which};
use super::notice::{Lacking, left_out};
use super::parted::{Parted, Plans};
use super::schedules::{self, column_sheets, pointer};
use crate::drawing::{First, Isometric, Lettering, Options};
use crate::scene::Rect;
use crate::sheet::block::Block;
use crate::sheet::fill::Filled;
use crate::sheet::findings::Found;
use crate::sheet::plan::Plan;
use crate::sheet::pour::Poured;
use crate::sheet::purpose::Purpose;
use crate::sheet::tags::Schedule;
use crate::sheet::work::Work;
use crate::sheet::{cautions, pieces, points};
use crate::study::how_many;

/// Adds the sheets to work from to a packet whose drawing has so many match lines.
pub fn sheets(composer: &Composer<'_>, work: &Work, matches: usize, packet: &mut Packet) {
    let mut pieces = Pieces::of(composer, work, matches);
    let mut by_hand: Vec<Block> = Vec::new();
    let found = Found::of(&composer.checked.findings);
    by_hand.extend(found.block(found.blocking(), &composer.places));
    by_hand.push(cautions::block(composer.profile));
    by_hand.extend(work.blocks(&composer.places));
    by_hand.extend(pieces.iter().flat_map(|pieces| pieces.rest.iter().cloned()));
    let plan = composer.later_plan();
    let mut poured = column_sheets(&by_hand, plan.body);
    // What is signed stands alone, so that it can be handed on; so does what the office's counter asks for.
    poured.extend(column_sheets(&[work.test(composer.job, &composer.places)], plan.body));
    poured.extend(column_sheets(&work.records(composer.job, &composer.places), plan.body));
    poured.extend(column_sheets(
        &work.owner(composer.job, composer.study, &composer.places),
        plan.body,
    ));
    let listed: Vec<Block> = work.permit_list(&composer.places).into_iter().collect();
    poured.extend(column_sheets(&listed, plan.body));
    let drawn = pieces.as_ref().map_or(0, |pieces| pieces.sheets.len());
    let of = drawn + poured.len();
    let parts = poured.iter().zip(drawn + 1..);
    let parts = parts.flat_map(|((_, sheet), number)| sheet.parts.iter().map(move |part| (number, *part)));
    let elsewhere = pointer(&parts.collect::<Vec<_>>());
    if let Some(pieces) = &mut pieces {
        pieces.point(composer, &elsewhere);
        pieces.draw(composer, of, packet);
        packet.remarks.extend(pieces.remarks(composer.paper.name()));
    }
    for (at, (columns, schedules)) in poured.into_iter().enumerate() {
        later(composer, (&plan, at + drawn + 1, of), (columns, schedules), packet);
    }
}

fn later(
    composer: &Composer<'_>,
    (plan, number, of): (&Plan, usize, usize),
    (columns, schedules): (Vec<Rect>, Poured),
    packet: &mut Packet,
) {
    let purpose = Purpose::Work;
    let which = Which { number, of, purpose };
    let name = schedules::names(&schedules.parts);
    packet.push(draw::later(composer, plan, schedules, &columns, which), name, which);
}

/// The sheets with the drawing of the pieces, and what did not find room on them.
struct Pieces {
    /// Where everything stands, the drawing or a part of it, and what stands around it.
    sheets: Vec<(Plan, Around)>,
    /// What stands elsewhere.
    rest: Vec<Block>,
}

impl Pieces {
    /// The sheets of a job with new pipe; `None` where there is none. A drawing that is too dense beside the cut list
    /// gets more sheets, in parts.
    fn of(composer: &Composer<'_>, work: &Work, matches: usize) -> Option<Pieces> {
        let words = work.pieces(composer.job, &composer.places)?;
        let options = Options {
            lettering: Lettering::Other(&words),
            is_arranged: composer.is_arranged,
            ..Options::default()
        };
        let plan = composer.later_plan();
        let beside = |drawing: &Isometric| told(composer, work, drawing).0;
        let around = composer.around((plan.body, &[plan.body]), options, &beside);
        if left_out(&around.drawing) == 0 {
            let elsewhere = told(composer, work, &around.drawing).1;
            let rest = rest(&around, elsewhere);
            let sheets = vec![(plan, around)];
            return Some(Pieces { sheets, rest });
        }
        let first = First {
            sheet: 1,
            letter: matches,
        };
        // What the drawing means and that a job is not ready stand on its sheets, however dense it is.
        let key = [Some(pieces::key()), warned(composer)];
        let key: Vec<_> = key.iter().flatten().map(|block| block.lay(plan.body.width())).collect();
        let plan = plan.with_strip_under(key.iter().map(|laid| laid.height()).sum());
        let plans = Plans {
            first: plan.clone(),
            later: plan.clone(),
        };
        let parted = Parted::of(composer, &plans, options, first, Lacking::Pieces);
        let mut at = plan.drawing.max;
        at.x = plan.body.min.x;
        let mut filled = Filled::default();
        for laid in key {
            let height = laid.height();
            filled.placed.push((at, laid));
            at.y += height;
        }
        let rest = work.beside(composer.study.names.units(), &composer.places);
        let rest = rest.into_iter().map(|[_, elsewhere]| elsewhere);
        let rest = rest.filter(|block| block.which != Schedule::Pieces);
        let mut rest: Vec<Block> = rest.collect();
        let is_one = parted.sheets.len() == 1;
        let mut numbered = Vec::new();
        let mut sheets: Vec<(Plan, Around)> = Vec::new();
        for ((plan, drawing), number) in parted.sheets.into_iter().zip(1..) {
            let own = points::here(&drawing.numbered);
            let table = points::block(&own, &composer.places);
            let rooms = [plan.drawing];
            let mut around = Around::of(drawing, &rooms, table.into_iter().collect());
            if around.rest().next().is_some() {
                let sheet = (!is_one).then_some(number);
                numbered.extend(own.into_iter().map(|(_, point)| (sheet, point)));
            }
            around.filled.placed.extend(filled.placed.iter().cloned());
            sheets.push((plan, around));
        }
        rest.extend(points::block(&numbered, &composer.places));
        Some(Pieces { sheets, rest })
    }

    /// Says on the first of them what stands elsewhere.
    fn point(&mut self, composer: &Composer<'_>, elsewhere: &Block) {
        if let Some((plan, around)) = self.sheets.first_mut() {
            composer.with_pointer(around, &[plan.drawing], elsewhere);
        }
    }

    fn draw(&self, composer: &Composer<'_>, of: usize, packet: &mut Packet) {
        for (at, (plan, around)) in self.sheets.iter().enumerate() {
            let name = Schedule::Pieces.name();
            let name = match self.sheets.len() {
                1 => name.to_owned(),
                parts => format!("{name}, part {} of {parts}", at + 1),
            };
            let which = Which {
                number: at + 1,
                of,
                purpose: Purpose::Pieces,
            };
            let drawing = &around.drawing;
            let sheet = draw::drawn(composer, plan, (drawing, &around.filled), None, which);
            packet.push(draw::noticed(sheet, (plan, drawing), Lacking::Pieces), name, which);
        }
    }

    /// What should be said of them to the person who asked.
    fn remarks(&self, paper: &str) -> Option<String> {
        let left_out: usize = self.sheets.iter().map(|(_, around)| left_out(&around.drawing)).sum();
        (left_out > 0).then(|| {
            format!(
                "{} did not fit on the drawing of the pieces on {paper}: see the cut list",
                how_many(left_out, "label")
            )
        })
    }
}

/// That a job is not ready, in a line.
fn warned(composer: &Composer<'_>) -> Option<Block> {
    Found::of(&composer.checked.findings).block(0, &composer.places)
}

/// What stands around a drawing of the pieces, and as what it stands where it finds no room there.
fn told(composer: &Composer<'_>, work: &Work, drawing: &Isometric) -> (Vec<Block>, Vec<Block>) {
    let warned = warned(composer).map(|block| [block.clone(), block]);
    let mut all: Vec<[Block; 2]> = warned.into_iter().collect();
    all.extend(work.beside(composer.study.names.units(), &composer.places));
    let points = points::block(&points::here(&drawing.numbered), &composer.places);
    all.extend(points.map(|block| [block.clone(), block]));
    all.into_iter().map(|[beside, elsewhere]| (beside, elsewhere)).unzip()
}

/// What finds no room around it; what blocks is told in full on the first of the other sheets.
fn rest(around: &Around, elsewhere: Vec<Block>) -> Vec<Block> {
    let rest = around.rest().map(|at| elsewhere[at].clone());
    rest.filter(|block| block.which != Schedule::Findings).collect()
}
