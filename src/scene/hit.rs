//! What lies under a point. Asks what is drawn itself, so what is clicked is what was drawn.

use super::TextItem;
use super::geometry::Point;
use super::item::{Group, Item, PathItem, Tag};

/// The tags of everything drawn within `radius` mm of a point, nearest first; of two equally near the one on top first.
/// Each tag comes once; an item answers with the innermost tag around it.
pub fn hit(drawn: &Group, point: Point, radius: f64) -> Vec<Tag> {
    let mut found: Vec<(f64, Tag)> = Vec::new();
    search(drawn, None, (point, radius), &mut |tag, item| {
        let distance = match item {
            Item::Path(path) => distance_to_path(path, point, radius),
            Item::Text(text) => distance_to_text(text, point, radius),
            Item::Group(_) => None,
        };
        if let Some(distance) = distance.filter(|d| *d <= radius) {
            found.push((distance, tag));
        }
    });
    found.reverse();
    found.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let mut tags = Vec::new();
    for (_, tag) in found {
        if !tags.contains(&tag) {
            tags.push(tag);
        }
    }
    tags
}

/// Calls back with every path and text that has a tag, but for groups that lie farther from the point.
fn search<'a>(
    group: &'a Group,
    around: Option<Tag>,
    (point, radius): (Point, f64),
    each: &mut impl FnMut(Tag, &'a Item),
) {
    if !group
        .bounds()
        .is_some_and(|bounds| bounds.grown(radius).contains(point))
    {
        return;
    }
    let tag = group.tag.or(around);
    for item in group.items() {
        match item {
            Item::Path(_) | Item::Text(_) => {
                if let Some(tag) = tag {
                    each(tag, item);
                }
            }
            Item::Group(inner) => search(inner, tag, (point, radius), each),
        }
    }
}

fn distance_to_path(path: &PathItem, point: Point, radius: f64) -> Option<f64> {
    if !path.bounds()?.grown(radius).contains(point) {
        return None;
    }
    if path.fill.is_some() && path.outline.contains(point) {
        return Some(0.0);
    }
    Some((path.outline.distance(point)? - path.reach()).max(0.0))
}

fn distance_to_text(text: &TextItem, point: Point, radius: f64) -> Option<f64> {
    let quad = text.quad();
    let is_near = !text.glyphs().is_empty() && quad.bounds().grown(radius).contains(point);
    is_near.then(|| quad.distance(point))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::{Anchor, Face, Ink, Outline, Pen, Role, Scene, Stroke};

    fn sample() -> Scene {
        let line = |x: f64| {
            PathItem::stroked(
                Outline::line(Point::new(x, 0.0), Point::new(x, 50.0)),
                Stroke::new(Pen::Heavy),
            )
        };
        let mut scene = Scene::new(100.0, 100.0, "sample");
        scene.push(line(5.0));
        scene.push(Group::tagged(Role::Line, 1).with(line(10.0)));
        scene.push(
            Group::tagged(Role::Line, 2)
                .with(line(12.0))
                .with(Group::tagged(Role::Symbol, 7).with(PathItem::filled(
                    Outline::circle(Point::new(12.0, 25.0), 4.0),
                    Ink::White,
                ))),
        );
        let words = TextItem::new("3/4 in", 2.5, Face::Regular).at(Point::new(40.0, 20.0), Anchor::Middle);
        scene.push(Group::tagged(Role::Label, 1).with(words));
        scene
    }

    const LINE_1: Tag = Tag {
        role: Role::Line,
        key: 1,
    };
    const LINE_2: Tag = Tag {
        role: Role::Line,
        key: 2,
    };
    const SYMBOL: Tag = Tag {
        role: Role::Symbol,
        key: 7,
    };
    const LABEL: Tag = Tag {
        role: Role::Label,
        key: 1,
    };

    #[track_caller]
    fn check(x: f64, y: f64, radius: f64, expected: &[Tag]) {
        assert_eq!(hit(sample().root(), Point::new(x, y), radius), expected);
    }

    #[test]
    fn the_nearest_comes_first() {
        check(10.5, 5.0, 3.0, &[LINE_1, LINE_2]);
        check(11.6, 5.0, 3.0, &[LINE_2, LINE_1]);
        check(10.5, 5.0, 0.2, &[LINE_1]);
        check(5.0, 5.0, 1.0, &[]);
    }

    #[test]
    fn a_filled_symbol_is_hit_inside_and_covers_its_line() {
        check(12.0, 25.0, 0.5, &[SYMBOL, LINE_2]);
        check(14.0, 25.0, 0.5, &[SYMBOL]);
    }

    #[test]
    fn words_are_hit_between_their_letters() {
        check(40.0, 19.0, 0.1, &[LABEL]);
        check(40.0, 30.0, 0.1, &[]);
    }
}
