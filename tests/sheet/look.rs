//! Looks at a sheet for words that touch: other words, or the rules of the sheet.
//!
//! What lies within the drawing is the drawing's own matter (its tests look there); here it is looked at only where it
//! meets what is around it. Samples of the legend hold letters within symbols and are looked at as words only.

use stubout::scene::{Group, Item, PathItem, Quad, Scene, TextItem};
use stubout::sheet::tags::{self, Part, Schedule};

/// What is on a sheet beside the drawing, and the words of the drawing.
#[derive(Default)]
pub struct Seen<'a> {
    pub words: Vec<&'a TextItem>,
    pub paths: Vec<&'a PathItem>,
    pub drawn_words: Vec<&'a TextItem>,
}

/// What is on a sheet beside the drawing, and the words of the drawing.
pub fn own(sheet: &Scene) -> Seen<'_> {
    let mut seen = Seen::default();
    gather(sheet.root(), false, false, &mut seen);
    seen
}

fn gather<'a>(group: &'a Group, in_drawing: bool, in_legend: bool, seen: &mut Seen<'a>) {
    let in_drawing = in_drawing || group.label.as_deref() == Some("drawing");
    let in_legend = in_legend || group.tag.and_then(tags::part) == Some(Part::Schedule(Schedule::Legend));
    for item in group.items() {
        match item {
            Item::Text(text) if in_drawing => seen.drawn_words.push(text),
            Item::Text(text) => seen.words.push(text),
            Item::Path(path) if !in_drawing && !in_legend => seen.paths.push(path),
            Item::Path(_) => {}
            Item::Group(inner) => gather(inner, in_drawing, in_legend, seen),
        }
    }
}

/// Fails where words touch.
#[track_caller]
pub fn look(name: &str, sheet: &Scene) {
    let seen = own(sheet);
    let own_words = seen.words.iter().map(|text| (text.quad(), text.words(), true));
    let drawn = seen.drawn_words.iter().map(|text| (text.quad(), text.words(), false));
    let mut all: Vec<(Quad, &str, bool)> = own_words
        .chain(drawn)
        .filter(|text| !text.1.trim().is_empty())
        .collect();
    all.sort_by(|a, b| a.0.bounds().min.y.total_cmp(&b.0.bounds().min.y));
    for (at, (quad, words, is_own)) in all.iter().enumerate() {
        let foot = quad.bounds().max.y;
        let below = all[at + 1..].iter().take_while(|other| other.0.bounds().min.y < foot);
        for (other, theirs, other_is_own) in below {
            let apart = !(*is_own || *other_is_own) || !quad.overlaps(other);
            assert!(apart, "{name}: {words:?} touches {theirs:?}");
        }
    }
    for path in &seen.paths {
        let Some(stroke) = path.stroke else { continue };
        path.outline.flatten(|line| {
            for (quad, words, _) in &all {
                let is_clear = !quad.overlaps_segment(line, stroke.width.mm());
                assert!(is_clear, "{name}: {words:?} touches a rule at {line:?}");
            }
        });
    }
}
