//! What permit offices ask for, ticked by the job, as a list on paper.

use super::block::{Block, Part};
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::permit_list::{PermitLine, PermitList, Tick};
use crate::study::Places;

/// So many places are named on a line.
const PLACES: usize = 6;

/// The list, with an empty column for the tick of a hand.
pub fn block(list: &PermitList, places: &Places<'_>) -> Block {
    let columns = vec![
        Column::new("", Set::Tick),
        Column::new("item", Set::Words),
        Column::new("asked by", Set::Number),
        Column::new("sources", Set::Words),
        Column::new("where shown, or what is missing", Set::Words),
    ];
    let row = |line: &PermitLine| Row {
        cells: vec![
            tick(line.tick).to_owned(),
            line.item.item.clone(),
            format!("{} of {} {}", line.item.asked, line.item.read, line.item.mark),
            line.sources(),
            said(line, places),
        ],
        weight: match line.tick {
            Tick::Missing => Weight::Strong,
            Tick::Shown | Tick::NotCalledFor | Tick::ByHand => Weight::Plain,
        },
        tag: None,
    };
    let table = Table {
        columns,
        rows: list.lines.iter().map(row).collect(),
    };
    let explained = Paragraph::new(format!(
        "Asked by: how many of the published requirements ask for it, F as read in print, M commonly asked for, no \
         source. Box: x shown; empty, missing ({}); – not applicable; ? check it yourself. A check mark means that the \
         job has the item, not that it is correct nor that an office accepts it; your office may ask for more or for \
         other things. {}",
        list.missing().count(),
        list.source.document
    ));
    let read = list.read.iter();
    let read: Vec<String> = read
        .map(|source| format!("{} {} ({})", source.number, source.name, source.scope))
        .collect();
    let sources = Paragraph::new(format!("Sources, by their numbers: {}.", read.join("; ")));
    let parts = vec![Part::Table(table), Part::Text(vec![explained, sources])];
    Block::new(
        Schedule::PermitList,
        "Permit checklist: what permit offices ask for",
        parts,
    )
}

const fn tick(tick: Tick) -> &'static str {
    match tick {
        Tick::Shown => "x",
        Tick::Missing => "",
        Tick::NotCalledFor => "–",
        Tick::ByHand => "?",
    }
}

/// The words of a line, with the places that lack what is asked.
fn said(line: &PermitLine, places: &Places<'_>) -> String {
    if line.tick != Tick::Missing || line.places.is_empty() {
        return line.words.clone();
    }
    let named = line.places.iter().take(PLACES).map(|place| places.finding(*place));
    let named: Vec<String> = named.collect();
    let more = line.places.len().saturating_sub(PLACES);
    let more = if more > 0 {
        format!(" and {more} more")
    } else {
        String::new()
    };
    format!("{}: {}{more}", line.words.trim_end_matches('.'), named.join(", "))
}
