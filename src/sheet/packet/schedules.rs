//! The schedule sheets, and the words on the first sheet that lead to them.

use crate::scene::{Affine, Point, Rect};
use crate::sheet::block::{Block, Laid, Part};
use crate::sheet::fill::Choice;
use crate::sheet::pour::{Poured, poured};
use crate::sheet::tags::Schedule;
use crate::sheet::text::Paragraph;
use crate::sheet::white::White;
use std::collections::{BTreeMap, BTreeSet};

/// The least width of a column on a schedule sheet, mm.
const NARROWEST: f64 = 84.0;
/// The greatest width of a column on a schedule sheet, mm.
const WIDEST: f64 = 210.0;

/// Blocks on as few sheets as can be: each whole and no wider than it needs, where that costs no sheet more than breaking
/// them into columns. Each sheet comes with its columns, none where blocks stand whole.
pub fn schedule_sheets(blocks: &[Block], body: Rect) -> Vec<(Vec<Rect>, Poured)> {
    let in_columns = column_sheets(blocks, body);
    match packed(blocks, body, in_columns.len()) {
        Some(sheets) => sheets.into_iter().map(|sheet| (Vec::new(), sheet)).collect(),
        None => in_columns,
    }
}

/// Blocks whole on at most so many sheets; `None` where that cannot be.
fn packed(blocks: &[Block], body: Rect, most: usize) -> Option<Vec<Poured>> {
    let mut sheets = Vec::new();
    let mut rest: Vec<Block> = blocks.to_vec();
    while !rest.is_empty() {
        let filled = Choice::of(&rest, &[body]).fill(&White::of(&[body]));
        if filled.placed.is_empty() || sheets.len() == most {
            return None;
        }
        // What does not fill its sheet begins at the upper left.
        let left = filled.placed.iter().map(|(at, _)| at.x).fold(f64::INFINITY, f64::min);
        let top = filled.placed.iter().map(|(at, _)| at.y).fold(f64::INFINITY, f64::min);
        let back = body.min - Point::new(left, top);
        let mut sheet = Poured::default();
        for (at, laid) in &filled.placed {
            sheet.ink.push(laid.whole().ink.map(Affine::to(*at + back)));
            sheet.parts.push(laid.which);
        }
        sheets.push(sheet);
        rest = filled.rest.iter().map(|at| rest[*at].clone()).collect();
    }
    Some(sheets)
}

/// Blocks poured into the number of equal columns that needs the fewest sheets; of equally good ones the widest columns.
/// Each sheet comes with its columns.
pub fn column_sheets(blocks: &[Block], body: Rect) -> Vec<(Vec<Rect>, Poured)> {
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

/// Says on a sheet what stands on others, each with the number of its sheet.
pub fn pointer(elsewhere: &[(usize, Schedule)]) -> Block {
    let mut on: BTreeMap<usize, Vec<Schedule>> = BTreeMap::new();
    for (sheet, part) in elsewhere {
        on.entry(*sheet).or_default().push(*part);
    }
    let said = on
        .iter()
        .map(|(sheet, parts)| format!("On sheet {sheet}: {}.", names(parts)));
    Block::new(
        Schedule::Elsewhere,
        "",
        vec![Part::Text(vec![Paragraph::new(said.collect::<Vec<_>>().join(" "))])],
    )
}

/// The names of parts, each once, in their order.
pub fn names(parts: &[Schedule]) -> String {
    let parts: BTreeSet<Schedule> = parts.iter().copied().collect();
    parts.into_iter().map(Schedule::name).collect::<Vec<_>>().join(", ")
}
