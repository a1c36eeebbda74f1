//! The schedule sheets, and the words on the first sheet that lead to them.

use crate::changes::Changes;
use crate::scene::{Point, Rect};
use crate::sheet::block::{Block, Laid, Part};
use crate::sheet::pour::{Poured, poured};
use crate::sheet::tags::Schedule;
use crate::sheet::text::Paragraph;
use crate::sheet::work::Work;
use std::collections::BTreeSet;

/// The least width of a column on a schedule sheet, mm.
const NARROWEST: f64 = 84.0;
/// The greatest width of a column on a schedule sheet, mm.
const WIDEST: f64 = 210.0;

/// Blocks poured into the number of equal columns that needs the fewest sheets; of equally good ones the widest columns.
/// Each sheet comes with its columns.
pub fn schedule_sheets(blocks: &[Block], body: Rect) -> Vec<(Vec<Rect>, Poured)> {
    let least = blocks.iter().map(Block::least_width).fold(NARROWEST, f64::max);
    let most = ((body.width() / least).floor() as usize).max(1);
    let fewest = ((body.width() / WIDEST).ceil() as usize).clamp(1, most);
    let mut best: Option<(Vec<Rect>, Vec<Poured>)> = None;
    for count in fewest..=most.min(fewest + 1) {
        let width = body.width() / count as f64;
        let left = |at: usize| Point::new(body.min.x + at as f64 * width, body.min.y);
        let columns: Vec<Rect> = (0..count)
            .map(|at| Rect::sized(left(at), width, body.height()))
            .collect();
        let laid: Vec<Laid> = blocks.iter().map(|block| block.lay(width)).collect();
        let sheets = poured(&laid, &columns);
        if best.as_ref().is_none_or(|best| sheets.len() < best.1.len()) {
            best = Some((columns, sheets));
        }
    }
    let (columns, sheets) = best.unwrap_or_default();
    sheets.into_iter().map(|sheet| (columns.clone(), sheet)).collect()
}

/// Says on a sheet what stands on others, of which the first and the last are told.
pub fn pointer((first, last): (usize, usize), parts: Vec<Schedule>) -> Block {
    let place = places(first, last);
    Block::new(
        Schedule::Elsewhere,
        "",
        vec![Part::Text(vec![Paragraph::new(format!(
            "On {place}: {}.",
            names(&parts)
        ))])],
    )
}

/// How a sentence calls the sheets from one to another.
pub fn places(first: usize, last: usize) -> String {
    match last.saturating_sub(first) {
        0 => format!("sheet {first}"),
        1 => format!("sheets {first} and {last}"),
        _ => format!("sheets {first} to {last}"),
    }
}

/// The names of parts, each once, in their order.
pub fn names(parts: &[Schedule]) -> String {
    let parts: BTreeSet<Schedule> = parts.iter().copied().collect();
    parts.into_iter().map(Schedule::name).collect::<Vec<_>>().join(", ")
}

/// A pointer with everything in it that may stand elsewhere, to keep room for any.
pub fn longest_pointer(since: Option<&Changes>, work: Option<&Work>) -> Block {
    let may_be = |part: &Schedule| match part {
        Schedule::Changes => since.is_some(),
        Schedule::Pieces
        | Schedule::Order
        | Schedule::Test
        | Schedule::TakeOff
        | Schedule::Cuts
        | Schedule::Stock
        | Schedule::PermitList => work.is_some(),
        Schedule::Findings
        | Schedule::Supply
        | Schedule::Appliances
        | Schedule::Sections
        | Schedule::Existing
        | Schedule::Study
        | Schedule::Points
        | Schedule::Legend
        | Schedule::Notes
        | Schedule::Revisions => true,
        Schedule::Cautions | Schedule::Signature | Schedule::Stamp | Schedule::Elsewhere => false,
    };
    let parts = Schedule::ALL.iter().filter(|part| may_be(part));
    let names: Vec<&str> = parts.map(|part| part.name()).collect();
    let words = format!("On sheets 2 to 9,999: {}.", names.join(", "));
    Block::new(Schedule::Elsewhere, "", vec![Part::Text(vec![Paragraph::new(words)])])
}
