//! A scene as plain text, for tests and for comparing two runs. Not a file format: nothing reads it back.

use super::number::push_number;
use super::{Affine, Group, Item, Outline, PathItem, Point, Scene, Step, TextItem};

pub(super) fn dump(scene: &Scene) -> String {
    let mut out = format!("sheet {:?}", scene.title());
    numbers(&mut out, [scene.width(), scene.height()]);
    out.push('\n');
    group(&mut out, scene.root(), 1);
    out
}

fn group(out: &mut String, group: &Group, depth: usize) {
    for item in group.items() {
        out.extend(std::iter::repeat_n("  ", depth));
        match item {
            Item::Path(path) => self::path(out, path),
            Item::Text(text) => self::text(out, text),
            Item::Group(inner) => {
                out.push_str("group");
                if let Some(tag) = inner.tag {
                    out.push_str(&format!(" {:?} {}", tag.role, tag.key));
                }
                if let Some(layer) = inner.layer {
                    out.push_str(&format!(" on {}", layer.name()));
                }
                if let Some(label) = &inner.label {
                    out.push_str(&format!(" {label:?}"));
                }
                out.push('\n');
                self::group(out, inner, depth + 1);
            }
        }
    }
}

fn path(out: &mut String, path: &PathItem) {
    out.push_str("path");
    if let Some(s) = path.stroke {
        out.push_str(&format!(
            " line {:?} {:?} {:?} {:?} {:?}",
            s.width, s.ink, s.dash, s.cap, s.join
        ));
    }
    if let Some(ink) = path.fill {
        out.push_str(&format!(" fill {ink:?}"));
    }
    out.push_str(" :");
    outline(out, &path.outline);
    out.push('\n');
}

fn outline(out: &mut String, outline: &Outline) {
    for step in outline.steps() {
        match *step {
            Step::Move(p) => points(out, " M", [p]),
            Step::Line(p) => points(out, " L", [p]),
            Step::Quad(c, p) => points(out, " Q", [c, p]),
            Step::Cubic(c, d, p) => points(out, " C", [c, d, p]),
            Step::Close => out.push_str(" Z"),
        }
    }
}

fn text(out: &mut String, text: &TextItem) {
    out.push_str(&format!("text {:?} {:?} {:?}", text.words(), text.face(), text.inked()));
    numbers(out, [text.height()]);
    out.push_str(" at");
    let Affine { xx, yx, xy, yy, dx, dy } = text.transform();
    numbers(out, [xx, yx, xy, yy, dx, dy]);
    out.push('\n');
}

fn points<const N: usize>(out: &mut String, letter: &str, points: [Point; N]) {
    out.push_str(letter);
    for p in points {
        numbers(out, [p.x, p.y]);
    }
}

fn numbers<const N: usize>(out: &mut String, numbers: [f64; N]) {
    for number in numbers {
        out.push(' ');
        push_number(out, number);
    }
}

#[cfg(test)]
mod tests {
    use crate::scene::{
        Affine, Anchor, Dash, Face, Group, Ink, Outline, PathItem, Pen, Point, Role, Scene, Stroke, TextItem,
    };

    fn sample(x: f64, words: &str) -> Scene {
        let mut scene = Scene::new(297.0, 210.0, "A \"sheet\"");
        let line = Outline::line(Point::new(x, 1.5), Point::new(9.0, -0.0));
        scene.push(
            Group::tagged(Role::Line, 4)
                .label("line 4")
                .with(PathItem::stroked(line, Stroke::new(Pen::Heavy).dash(Dash::Dashed)))
                .with(PathItem::filled(
                    Outline::rect(crate::scene::Rect::sized(Point::default(), 2.0, 1.0)),
                    Ink::White,
                )),
        );
        scene.push(TextItem::new(words, 2.5, Face::Strong).place(Affine::IDENTITY, Anchor::Start));
        scene
    }

    #[test]
    fn a_dump_shows_everything_that_is_on_the_sheet() {
        let expected = r#"sheet "A \"sheet\"" 297 210
  group Line 4 "line 4"
    path line Heavy Black Dashed Butt Round : M 0.5 1.5 L 9 0
    path fill White : M 0 0 L 2 0 L 2 1 L 0 1 Z
  text "3/4" Strong Black 2.5 at 1 0 0 1 0 0
"#;
        assert_eq!(sample(0.5, "3/4").dump(), expected);
    }

    #[test]
    fn equal_scenes_and_only_they_give_equal_dumps() {
        assert_eq!(sample(0.5, "3/4").dump(), sample(0.5, "3/4").dump());
        assert_eq!(sample(0.5, "3/4"), sample(0.5, "3/4"));
        assert_ne!(sample(0.5, "3/4").dump(), sample(0.501, "3/4").dump());
        assert_ne!(sample(0.5, "3/4").dump(), sample(0.5, "1/2").dump());
    }
}
