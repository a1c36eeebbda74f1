//! The legend: what the lines, symbols and marks of the drawing mean, as far as words beside them do not say it.

use super::block::{Block, Part};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::drawing::{Symbol, SymbolSet};
use crate::study::Study;

/// The legend of what a drawing shows, with what its pipe is made of; `None` where nothing
/// needs one.
pub fn block(used: SymbolSet, study: &Study) -> Option<Block> {
    let symbols: Vec<Symbol> = used.iter().filter(|symbol| !is_lettered(*symbol)).collect();
    let mut parts = Vec::new();
    let pipe = study.sections.iter().filter(|section| section.is_pipe());
    let mut materials: Vec<&str> = Vec::new();
    for section in pipe {
        let name = section.material.name();
        if !materials.contains(&name) {
            materials.push(name);
        }
    }
    if !symbols.is_empty() && !materials.is_empty() {
        let words = format!("Pipe: {}.", materials.join("; "));
        parts.push(Part::Text(vec![Paragraph::new(words)]));
    }
    (!symbols.is_empty()).then(|| {
        parts.push(Part::Samples(symbols));
        Block::new(Schedule::Legend, "Legend", parts)
    })
}

/// Whether words always stand beside a symbol that name it, or beside its schedule or the north arrow.
const fn is_lettered(symbol: Symbol) -> bool {
    matches!(
        symbol,
        Symbol::SupplyMeter
            | Symbol::Supply
            | Symbol::Connector
            | Symbol::Appliance
            | Symbol::Barrier
            | Symbol::Sleeve
            | Symbol::TieIn
            | Symbol::SectionNumber
            | Symbol::Elevation
    )
}
