//! The cautions that stand on every sheet.

use super::block::{Block, Part};
use super::lettering::Hand;
use super::tags::Schedule;
use super::text::Paragraph;

/// What must be said wherever gas piping is drawn, a sentence or two each.
pub const CAUTIONS: [&str; 6] = [
    "Gas work is for licensed people, under a permit.",
    "The local code, the gas supplier and the makers' instructions govern; this sheet replaces none of them.",
    "Shut off, and prove the pipe free of gas, before it is opened.",
    "Test with air or inert gas, never with oxygen. Never look for a leak with a flame.",
    "Figures marked C, D, M or L were not read in a published text. Engineering pressures are computed, not measured.",
    "Verify lengths, ratings and pressures on site. Nothing here states that the job complies with a code.",
];

/// From this width in mm up the cautions run on; in narrower places each stands for itself.
const WIDE: f64 = 150.0;

/// The cautions for a place of a width in mm.
pub fn block(width: f64) -> Block {
    if width < WIDE { list() } else { running() }
}

fn list() -> Block {
    let said = CAUTIONS.iter().map(|words| Paragraph::new(*words).signed("–"));
    Block::new(Schedule::Cautions, "Cautions", vec![Part::Text(said.collect())])
}

fn running() -> Block {
    let said = Paragraph::new(format!("CAUTIONS  {}", CAUTIONS.join(" "))).hand(Hand::BODY);
    Block::new(Schedule::Cautions, "", vec![Part::Text(vec![said])])
}
