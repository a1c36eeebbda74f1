//! Whether words on a finished sheet touch anything: judged by the scene alone, its tags and its geometry, without a
//! thought for how places were found.
//!
//! Used as a module: `#[path = "support/clear_labels.rs"] mod clear_labels;`.
#![allow(dead_code)]

use std::collections::{HashMap, HashSet};
use stubout::scene::{Item, PathItem, Quad, Rect, Role, Scene, Segment, Tag};

/// What may not be touched.
enum Ink {
    /// Words of the label with this number.
    Words(usize, Quad),
    /// A shape of the label with this number, by its box; its own leader may end on it.
    Ring(usize, Quad),
    /// A line of this width.
    Stroke(Segment, f64),
    /// A filled shape.
    Filled(PathItem),
}

struct Part {
    role: Role,
    key: u32,
    name: String,
    bounds: Rect,
    ink: Ink,
}

/// Everything on a sheet that words could touch, findable by place.
struct Sheet {
    parts: Vec<Part>,
    cells: HashMap<(i32, i32), Vec<usize>>,
}

const CELL: f64 = 8.0;

fn cells(bounds: Rect) -> impl Iterator<Item = (i32, i32)> {
    let cell = |mm: f64| (mm / CELL).floor() as i32;
    let (x, y) = (
        cell(bounds.min.x)..=cell(bounds.max.x),
        cell(bounds.min.y)..=cell(bounds.max.y),
    );
    y.flat_map(move |y| x.clone().map(move |x| (x, y)))
}

impl Sheet {
    fn of(scene: &Scene) -> Sheet {
        let mut sheet = Sheet {
            parts: Vec::new(),
            cells: HashMap::new(),
        };
        let mut label = 0;
        scene.walk(|tags, item| {
            if let Item::Group(group) = item
                && group.tag.is_some_and(|tag| tag.role == Role::Label)
            {
                label += 1;
            }
            let Some(&tag) = tags.last() else { return };
            let name = format!("{:?} {}", tag.role, tag.key);
            match item {
                Item::Group(_) => {}
                Item::Text(text) if tag.role == Role::Label => {
                    if text.extent().width() > 0.0 {
                        sheet.add(
                            tag,
                            format!("{:?}", text.words()),
                            text.quad().bounds(),
                            Ink::Words(label, text.quad()),
                        );
                    }
                }
                // Letters inside a symbol belong to the symbol.
                Item::Text(_) => {}
                Item::Path(path) if tag.role == Role::Label => {
                    let bounds = path.bounds().unwrap();
                    sheet.add(tag, name, bounds, Ink::Ring(label, Quad(bounds.corners())));
                }
                Item::Path(path) => {
                    if path.stroke.is_some() {
                        path.outline.flatten(|piece| {
                            let width = 2.0 * path.reach();
                            let bounds = piece.bounds().grown(path.reach());
                            sheet.add(tag, name.clone(), bounds, Ink::Stroke(piece, width));
                        });
                    }
                    if path.fill.is_some() {
                        sheet.add(tag, name, path.bounds().unwrap(), Ink::Filled(path.clone()));
                    }
                }
            }
        });
        sheet
    }

    fn add(&mut self, tag: Tag, name: String, bounds: Rect, ink: Ink) {
        for cell in cells(bounds) {
            self.cells.entry(cell).or_default().push(self.parts.len());
        }
        self.parts.push(Part {
            role: tag.role,
            key: tag.key,
            name,
            bounds,
            ink,
        });
    }

    /// The symbols right where the leader of that key begins: it may begin between the ticks of a joint.
    fn begins_at(&self, key: u32) -> HashSet<u32> {
        let mut pieces = self
            .parts
            .iter()
            .filter(|part| part.role == Role::Leader && part.key == key);
        let start = pieces.find_map(|part| match part.ink {
            Ink::Stroke(piece, _) => Some(piece.a),
            Ink::Words(..) | Ink::Ring(..) | Ink::Filled(_) => None,
        });
        let Some(start) = start else { return HashSet::new() };
        let near = self.near(Rect::sized(start, 0.0, 0.0).grown(2.5));
        let symbols = near.into_iter().map(|part| &self.parts[part]);
        let symbols = symbols.filter(|part| part.role == Role::Symbol);
        let at_start = symbols.filter(|part| match &part.ink {
            Ink::Stroke(piece, _) => piece.distance(start) < 2.0,
            Ink::Words(..) | Ink::Ring(..) | Ink::Filled(_) => part.bounds.grown(0.5).contains(start),
        });
        at_start.map(|part| part.key).collect()
    }

    fn near(&self, bounds: Rect) -> Vec<usize> {
        let found: HashSet<usize> = cells(bounds)
            .filter_map(|cell| self.cells.get(&cell))
            .flatten()
            .copied()
            .collect();
        let mut found: Vec<usize> = found.into_iter().collect();
        found.sort_unstable();
        found
    }
}

fn touches(quad: &Quad, ink: &Ink) -> bool {
    match ink {
        Ink::Words(_, other) | Ink::Ring(_, other) => quad.overlaps(other),
        Ink::Stroke(piece, width) => quad.overlaps_segment(*piece, *width),
        Ink::Filled(path) => {
            let mut crossed = path.outline.contains(quad.center());
            path.outline
                .flatten(|piece| crossed |= quad.overlaps_segment(piece, 0.0));
            crossed
        }
    }
}

/// The same as [`overlaps`] for a sheet on which a person put the words with these keys: those may lie on anything, all
/// others keep clear of them too.
pub fn overlaps_of_others(scene: &Scene, put: &[u32]) -> Vec<String> {
    find(scene, put)
}

/// Everything that touches what it may not: words other words, pipe, symbols, planes or leaders; leaders symbols, words
/// or each other. Empty for a clear sheet.
pub fn overlaps(scene: &Scene) -> Vec<String> {
    find(scene, &[])
}

fn find(scene: &Scene, put: &[u32]) -> Vec<String> {
    let is_put = |part: &Part| matches!(part.role, Role::Label | Role::Leader) && put.contains(&part.key);
    let sheet = Sheet::of(scene);
    let mut found = Vec::new();
    for part in sheet.parts.iter().filter(|part| !is_put(part)) {
        match &part.ink {
            Ink::Words(label, quad) | Ink::Ring(label, quad) => {
                let is_ring = matches!(part.ink, Ink::Ring(..));
                for other in sheet.near(part.bounds) {
                    let other = &sheet.parts[other];
                    let is_seen =
                        !is_put(other) && matches!(&other.ink, Ink::Words(its, _) | Ink::Ring(its, _) if its <= label);
                    let is_own_leader = is_ring && other.role == Role::Leader && other.key == part.key;
                    let can_touch = matches!(
                        other.role,
                        Role::Label | Role::Line | Role::Symbol | Role::Plane | Role::Leader
                    );
                    if !is_seen && !is_own_leader && can_touch && touches(quad, &other.ink) {
                        found.push(format!("words {} touch {}", part.name, other.name));
                    }
                }
            }
            Ink::Stroke(piece, width) if part.role == Role::Leader => {
                let strip = Quad::strip(*piece, *width);
                let own = sheet.begins_at(part.key);
                for other in sheet.near(part.bounds) {
                    let other = &sheet.parts[other];
                    let is_foreign_leader = other.role == Role::Leader && other.key != part.key;
                    let is_own = other.role == Role::Symbol && own.contains(&other.key);
                    if (other.role == Role::Symbol || is_foreign_leader) && !is_own && touches(&strip, &other.ink) {
                        found.push(format!("the leader of {} touches {}", part.name, other.name));
                    }
                }
            }
            Ink::Stroke(..) | Ink::Filled(_) => {}
        }
    }
    found
}

/// Fails with the first few overlaps.
#[track_caller]
pub fn labels_are_clear(scene: &Scene) {
    let found = overlaps(scene);
    assert!(
        found.is_empty(),
        "{} overlaps, such as {:#?}",
        found.len(),
        &found[..found.len().min(5)]
    );
}
