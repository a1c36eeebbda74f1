//! The sheets of the permit set, in order.

use super::around::Around;
use super::draw::{self, Which};
use super::schedules::{self, pointer, schedule_sheets};
use super::{Composer, Packet};
use crate::sheet::block::Block;
use crate::sheet::tags::Schedule;

/// The first set: drawing, the same larger where it has no room, with schedules in the white of both, then what schedules
/// are left.
pub fn issue(composer: &Composer<'_>, mut around: Around, later: Vec<Block>, packet: &mut Packet) {
    let purpose = composer.matter.purpose();
    let plan = composer.first_plan();
    let whole = composer.whole_findings();
    let left_over = around.rest().map(|at| around.blocks[at].clone());
    let mut rest: Vec<Block> = whole.into_iter().chain(left_over).chain(later).collect();
    let mut sheets = composer.larger().map_or_else(Vec::new, |larger| larger.sheets.clone());
    let mut elsewhere: Vec<(usize, Schedule)> = Vec::new();
    for (sheet, number) in sheets.iter_mut().zip(2..) {
        let still = sheet.fill(&rest);
        let mut at = 0..;
        rest.retain(|block| {
            let is_left = at.next().is_some_and(|at| still.contains(&at));
            if !is_left {
                elsewhere.push((number, block.which));
            }
            is_left
        });
    }
    let later = composer.later_plan();
    let poured = schedule_sheets(&rest, later.body);
    let first = 2 + sheets.len();
    let of = first - 1 + poured.len();
    let which = |number| Which { number, of, purpose };
    for ((_, sheet), number) in poured.iter().zip(first..) {
        elsewhere.extend(sheet.parts.iter().map(|part| (number, *part)));
    }
    if !elsewhere.is_empty() {
        composer.with_pointer(&mut around, &composer.rooms(&plan), &pointer(&elsewhere));
    }
    let stamp = composer.stamp_beside(&plan);
    let sheet = draw::drawn(composer, &plan, (&around.drawing, &around.filled), stamp, which(1));
    packet.push(sheet, "drawing".to_owned(), which(1));
    for (number, sheet) in sheets.iter().enumerate() {
        let name = match sheets.len() {
            1 => "drawing, enlarged".to_owned(),
            parts => format!("drawing, part {} of {parts}", number + 1),
        };
        let which = which(number + 2);
        packet.push(draw::enlarged(composer, sheet, which), name, which);
    }
    for (number, (columns, schedules)) in poured.into_iter().enumerate() {
        let (name, which) = (schedules::names(&schedules.parts), which(first + number));
        packet.push(draw::later(composer, &later, schedules, &columns, which), name, which);
    }
}
