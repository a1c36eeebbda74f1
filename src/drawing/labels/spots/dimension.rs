//! Lettering that lies along a line in its isometric plane, at a place of its own.

use super::along::reading;
use crate::scene::{Affine, Point, Quad, Segment, TextItem, Vector};

/// How lettering lies along a line: 1 mm along it to the right, 1 mm down in its plane, and 1 mm of lettering down.
pub fn frame(line: Segment) -> Option<(Vector, Vector, Vector)> {
    let (down, along, tall) = reading(line.vector().unit()?);
    Some((along, down, tall))
}

/// Words with the middle of their base line at a place, and the room that they take.
pub fn lay(words: TextItem, middle: Point, along: Vector, tall: Vector) -> (TextItem, Quad) {
    let at = Affine::frame(middle - along * (words.advance() / 2.0), along, tall);
    let room = Quad::of(words.extent(), at);
    (words.map(at), room)
}
