//! What a sheet says, boxed under its drawing, where words found no room on it: nobody is to take for whole what lacks
//! words.

use crate::drawing::{Crowding, Isometric};
use crate::sheet::block::{Block, Edge, Part};
use crate::sheet::tags::Schedule;
use crate::sheet::text::Paragraph;
use crate::study::how_many;

/// So many words are more than any sheet lacks: room is kept for the longest notice.
const MANY: usize = 99_999;

/// On which sheet words are lacking.
#[derive(Clone, Copy)]
pub enum Lacking {
    /// One of the permit drawing.
    Permit,
    /// The drawing of the pieces: the cut list has them.
    Pieces,
}

/// The height that a notice may need at a width, mm.
pub fn height(lacking: Lacking, width: f64) -> f64 {
    block(lacking, MANY).lay(width).height()
}

/// What is said where so many words are lacking.
pub fn block(lacking: Lacking, left_out: usize) -> Block {
    match lacking {
        Lacking::Permit => boxed(nowhere(left_out), "Do not work from a drawing with missing labels."),
        Lacking::Pieces => boxed(format!("{} DID NOT FIT HERE: SEE THE CUT LIST", labels(left_out)), ""),
    }
}

/// How many labels found no place on a drawing.
pub const fn left_out(drawing: &Isometric) -> usize {
    match drawing.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
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
                for lacking in [Lacking::Permit, Lacking::Pieces] {
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
