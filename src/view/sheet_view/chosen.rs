//! What is chosen, on the sheet: its lines once more, wider and in the colour of what is chosen. Never printed.

use super::composed::Of;
use crate::drawing::tags;
use crate::editor::{Part, Selection};
use crate::look;
use crate::scene::{Group, Item, PathItem, Pen, Rect, Scene, Stroke, Tag};
use crate::view::ink::{Glass, tessellated};
use egui::{Mesh, Painter, Shape};
use std::collections::HashSet;
use std::sync::Arc;

/// The marks, for as long as they serve.
#[derive(Default)]
pub struct Chosen(Option<Kept>);

struct Kept {
    of: Of,
    selection: Selection,
    glass: Glass,
    seen: Rect,
    mesh: Arc<Mesh>,
}

impl Chosen {
    /// Paints the marks over the sheet with the drawing.
    pub fn paint(&mut self, painter: &Painter, of: Of, sheet: &Scene, selection: &Selection, glass: Glass, seen: Rect) {
        if selection.is_empty() {
            self.0 = None;
            return;
        }
        let serves =
            |kept: &Kept| (kept.of, kept.glass, kept.seen) == (of, glass, seen) && kept.selection == *selection;
        let kept = match self.0.take().filter(serves) {
            Some(kept) => self.0.insert(kept),
            None => self.0.insert(Kept {
                of,
                selection: selection.clone(),
                glass,
                seen,
                mesh: Arc::new(marks(sheet, selection, glass, seen)),
            }),
        };
        painter.add(Shape::Mesh(Arc::clone(&kept.mesh)));
    }
}

/// The tag under which a part is drawn.
fn tag(part: Part) -> Tag {
    match part {
        Part::Run(id) | Part::Penetration(id, _) => tags::line(id),
        Part::Joint(id) => tags::symbol(id),
        Part::Note(at) => Tag {
            role: crate::scene::Role::Label,
            key: tags::Subject::Note(at).key(),
        },
    }
}

fn marks(sheet: &Scene, selection: &Selection, glass: Glass, seen: Rect) -> Mesh {
    let wanted: HashSet<Tag> = selection.iter().map(tag).collect();
    let mut group = Group::new();
    sheet.walk(|around, item| {
        let is_chosen = around.iter().any(|tag| wanted.contains(tag));
        match item {
            Item::Path(path) if is_chosen => {
                group.push(PathItem::stroked(path.outline.clone(), Stroke::new(Pen::Heavy)));
            }
            Item::Text(text) if is_chosen => group.push(text.clone()),
            Item::Path(_) | Item::Text(_) | Item::Group(_) => {}
        }
    });
    let mut mesh = tessellated(&group, glass, seen);
    for vertex in &mut mesh.vertices {
        // What fades out at an edge goes on fading.
        let strength = f32::from(vertex.color.a()) / 255.0;
        vertex.color = look::CHOSEN.gamma_multiply(strength);
    }
    mesh
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::RunId;
    use crate::scene::{Outline, Point};

    #[test]
    fn only_what_is_chosen_is_marked() {
        let line = |run: u32, y: f64| {
            let tag = tags::line(RunId(run));
            let line = Outline::line(Point::new(0.0, y), Point::new(30.0, y));
            Group::tagged(tag.role, tag.key).with(PathItem::stroked(line, Stroke::new(Pen::Thin)))
        };
        let mut sheet = Scene::new(100.0, 100.0, "");
        sheet.push(line(1, 10.0));
        sheet.push(line(2, 50.0));
        let glass = Glass {
            origin: egui::Pos2::ZERO,
            scale: 1.0,
            pixels: 1.0,
        };
        let seen = Rect::sized(Point::default(), 100.0, 100.0);
        let selection: Selection = [Part::Run(RunId(2))].into_iter().collect();
        let bounds = marks(&sheet, &selection, glass, seen).calc_bounds();
        assert!(bounds.min.y > 45.0 && bounds.max.y < 55.0, "{bounds:?}");
        assert!(marks(&sheet, &Selection::none(), glass, seen).is_empty());
    }
}
