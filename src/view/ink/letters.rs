//! Letters of the drawing font, each tessellated once for every size and slant that occurs.

use super::fill::Filled;
use super::{Glass, chains};
use crate::scene::{Affine, Face, GlyphId, Point, TextItem};
use egui::{Color32, Mesh, Pos2};
use std::collections::HashMap;

/// A glyph at a size and slant.
#[derive(PartialEq, Eq, Hash)]
struct Key {
    face: Face,
    glyph: GlyphId,
    height: u64,
    slant: [u64; 4],
}

/// Tessellated letters of one scale.
#[derive(Default)]
pub struct Letters(HashMap<Key, Filled>);

impl Letters {
    /// Writes a line of lettering at its place.
    pub fn write(&mut self, (text, at): (&TextItem, Affine), glass: Glass, color: Color32, mesh: &mut Mesh) {
        let zero = at.point(Point::default());
        let (x, y) = (
            at.vector(crate::scene::Vector::new(1.0, 0.0)),
            at.vector(crate::scene::Vector::new(0.0, 1.0)),
        );
        let slant = [x.x, x.y, y.x, y.y].map(f64::to_bits);
        let font = text.face().font();
        let still = Glass {
            origin: Pos2::ZERO,
            ..glass
        };
        for glyph in text.glyphs() {
            let key = Key {
                face: text.face(),
                glyph: glyph.id,
                height: text.height().to_bits(),
                slant,
            };
            let filled = self.0.entry(key).or_insert_with(|| {
                let upright = Affine::scale(text.height());
                let slanted = upright.then(Affine::frame(Point::default(), x, y));
                Filled::of(&chains(font.outline(glyph.id), slanted, still), glass.fringe())
            });
            let place = glass.point(zero + x * glyph.x);
            filled.put(place, color, mesh);
        }
    }
}
