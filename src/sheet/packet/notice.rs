//! What a sheet says, boxed under its drawing, where words found no room on it: nobody is to take for whole what lacks
//! words.

use super::schedules::places;
use crate::sheet::block::{Block, Edge, Part};
use crate::sheet::tags::Schedule;
use crate::sheet::text::Paragraph;
use crate::study::how_many;

/// So many words are more than any sheet lacks: room is kept for the longest notice.
const MANY: usize = 99_999;

/// The drawing on sheets of its own, as far as the first sheet speaks of it.
#[derive(Clone, Copy)]
pub struct Elsewhere {
    /// The first of those sheets.
    pub first: usize,
    /// How many there are.
    pub sheets: usize,
    /// How many words found no room there either.
    pub left_out: usize,
    /// Whether some stand there in a table of numbered points.
    pub has_numbered: bool,
}

impl Elsewhere {
    /// How a sentence calls its sheets.
    pub fn places(self) -> String {
        places(self.first, self.first + self.sheets - 1)
    }
}

/// On which sheet words are lacking.
#[derive(Clone, Copy)]
pub enum Lacking {
    /// The first, with what there is of the drawing on others.
    First(Option<Elsewhere>),
    /// One on which the drawing, or a part of it, stands larger.
    Larger,
    /// The drawing of the pieces: the cut list has them.
    Pieces,
}

/// The height that a notice may need at a width, mm.
pub fn height(lacking: Lacking, width: f64) -> f64 {
    let longest = match lacking {
        Lacking::First(_) => boxed(
            nowhere(MANY),
            "The drawing is enlarged there, in 6 parts that meet at match lines; what finds no place beside its pipe is in tables of numbered points.",
        ),
        Lacking::Larger | Lacking::Pieces => block(lacking, MANY),
    };
    longest.lay(width).height()
}

/// What is said where so many words are lacking.
pub fn block(lacking: Lacking, left_out: usize) -> Block {
    match lacking {
        Lacking::First(Some(larger)) => {
            let places = larger.places();
            let parts = match larger.sheets {
                1 => String::new(),
                parts => format!(", in {parts} parts that meet at match lines"),
            };
            match (larger.left_out, left_out) {
                (0, 0) => boxed(
                    format!("ENLARGED DRAWING ON {}", places.to_uppercase()),
                    &format!("This is the overview{parts}."),
                ),
                (0, _) => boxed(
                    format!("OVERVIEW: {} SHOWN ON {} ONLY", labels(left_out), places.to_uppercase()),
                    &match larger.has_numbered {
                        false => {
                            format!(
                                "All sizes, lengths and names are shown there, where this drawing is enlarged{parts}."
                            )
                        }
                        true => format!(
                            "The drawing is enlarged there{parts}; what finds no place beside its pipe is in tables of numbered points."
                        ),
                    },
                ),
                (nowhere_at_all, _) => boxed(
                    nowhere(nowhere_at_all),
                    &format!("The drawing is enlarged on {places}{parts}; labels are missing there too."),
                ),
            }
        }
        Lacking::First(None) | Lacking::Larger => {
            boxed(nowhere(left_out), "Do not work from a drawing with missing labels.")
        }
        Lacking::Pieces => boxed(format!("{} DID NOT FIT HERE: SEE THE CUT LIST", labels(left_out)), ""),
    }
}

fn nowhere(left_out: usize) -> String {
    format!("{} DID NOT FIT: USE LARGER PAPER", labels(left_out))
}

fn labels(count: usize) -> String {
    how_many(count, "label").to_uppercase()
}

fn boxed(heading: String, words: &str) -> Block {
    let parts = match words {
        "" => Vec::new(),
        words => vec![Part::Text(vec![Paragraph::new(words)])],
    };
    Block {
        edge: Edge::Bold,
        ..Block::new(Schedule::Notice, heading, parts)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_room_that_is_kept_holds_what_is_said() {
        for width in [120.0, 150.0, 180.0, 260.0] {
            for left_out in [1, 14, 1234] {
                for lacking in [Lacking::First(None), Lacking::Larger, Lacking::Pieces] {
                    let said = block(lacking, left_out);
                    assert!(
                        said.lay(width).height() <= height(lacking, width) + 1e-9,
                        "{}",
                        said.heading
                    );
                    assert!(said.heading.starts_with(&labels(left_out)));
                }
            }
        }
    }
}
