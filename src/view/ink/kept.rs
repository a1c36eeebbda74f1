//! The triangles of one group, for as long as they serve: until what is drawn, the scale or the screen changes, or paper
//! comes into view that was not tessellated.

use super::{Glass, edited, tessellated};
use crate::scene::{Group, Layer, Rect};
use egui::{Mesh, Pos2};
use std::sync::Arc;

/// How a group is shown.
#[derive(Clone, Copy, Debug)]
pub enum Shown {
    /// As it is printed, to a hair.
    Printed,
    /// For editing: some layers, always the same, in softer ink, and no words too small.
    Edited(&'static [Layer]),
}

/// Kept triangles of a group; `Of` tells what the group was made of.
pub struct Kept<Of>(Option<Mine<Of>>);

struct Mine<Of> {
    of: Of,
    scale: f64,
    pixels: f32,
    /// The paper that was tessellated.
    seen: Rect,
    /// With the paper's zero at the screen's.
    mesh: Arc<Mesh>,
    /// Moved to where the paper lay last.
    moved: Option<(Pos2, Arc<Mesh>)>,
}

impl<Of> Default for Kept<Of> {
    fn default() -> Self {
        Kept(None)
    }
}

impl<Of: PartialEq> Kept<Of> {
    /// The triangles of a group where it lies now, always shown in one way; those that are kept if they serve.
    pub fn mesh(&mut self, of: Of, group: &Group, glass: Glass, seen: Rect, shown: Shown) -> Arc<Mesh> {
        let serves = |mine: &Mine<Of>| {
            mine.of == of && mine.scale == glass.scale && mine.pixels == glass.pixels && mine.seen.encloses(seen)
        };
        let mine = match self.0.take().filter(serves) {
            Some(mine) => self.0.insert(mine),
            None => {
                let around = seen.grown(0.3 * seen.width().max(seen.height()));
                let still = Glass {
                    origin: Pos2::ZERO,
                    ..glass
                };
                let mesh = match shown {
                    Shown::Printed => tessellated(group, still, around),
                    Shown::Edited(soft) => edited(group, still, around, soft),
                };
                self.0.insert(Mine {
                    of,
                    scale: glass.scale,
                    pixels: glass.pixels,
                    seen: around,
                    mesh: Arc::new(mesh),
                    moved: None,
                })
            }
        };
        match &mine.moved {
            Some((origin, mesh)) if *origin == glass.origin => Arc::clone(mesh),
            _ => {
                let mut mesh = Mesh::clone(&mine.mesh);
                mesh.translate(glass.origin.to_vec2());
                let mesh = Arc::new(mesh);
                mine.moved = Some((glass.origin, Arc::clone(&mesh)));
                mesh
            }
        }
    }
}
