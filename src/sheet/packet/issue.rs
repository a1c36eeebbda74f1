//! The sheets of the permit set, in order.

use super::draw::{self, Which};
use super::notice::Lacking;
use super::schedules::{self, pointer, schedule_sheets};
use super::spread::Spread;
use super::{Composer, Packet};
use crate::sheet::block::Block;
use crate::sheet::tags::Schedule;

/// The first set: the drawing, in parts where it must be, with schedules in the white of it, then what schedules are left.
pub fn issue(composer: &Composer<'_>, spread: Spread, packet: &mut Packet) {
    let purpose = composer.matter.purpose();
    let Spread { mut sheets, rest, .. } = spread;
    let mut elsewhere: Vec<(usize, Schedule)> = Vec::new();
    for (sheet, number) in sheets.iter().zip(1..).skip(1) {
        let placed = sheet.around.filled.placed.iter().map(|(_, laid)| laid.which);
        // The table of its own numbers is looked for beside a drawing.
        let placed = placed.filter(|which| *which != Schedule::Points);
        elsewhere.extend(placed.map(|which| (number, which)));
    }
    let rest: Vec<Block> = composer.whole_findings().into_iter().chain(rest).collect();
    let later = composer.later_plan();
    let poured = schedule_sheets(&rest, later.body);
    let drawn = sheets.len();
    let of = drawn + poured.len();
    let which = |number| Which { number, of, purpose };
    for ((_, sheet), number) in poured.iter().zip(drawn + 1..) {
        elsewhere.extend(sheet.parts.iter().map(|part| (number, *part)));
    }
    if let Some(first) = sheets.first_mut().filter(|_| !elsewhere.is_empty()) {
        let rooms = composer.rooms(&first.plan);
        composer.with_pointer(&mut first.around, &rooms, &pointer(&elsewhere));
    }
    for (sheet, number) in sheets.iter().zip(1..) {
        let name = match drawn {
            1 => "drawing".to_owned(),
            parts => format!("drawing, part {number} of {parts}"),
        };
        let stamp = composer.stamp_beside(&sheet.plan);
        let around = (&sheet.around.drawing, &sheet.around.filled);
        let scene = draw::drawn(composer, &sheet.plan, around, stamp, which(number));
        let scene = draw::noticed(scene, (&sheet.plan, &sheet.around.drawing), Lacking::Permit);
        packet.push(scene, name, which(number));
    }
    for (number, (columns, schedules)) in poured.into_iter().enumerate() {
        let (name, which) = (schedules::names(&schedules.parts), which(drawn + 1 + number));
        packet.push(draw::later(composer, &later, schedules, &columns, which), name, which);
    }
}
