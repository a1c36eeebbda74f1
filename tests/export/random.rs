//! Random scenes, with everything in them that a careless caller could hand over.

use proptest::prelude::*;
use stubout::scene::{
    Affine, Anchor, Cap, Dash, Face, Group, Ink, Item, Join, Outline, PathItem, Pen, Point, Role, Scene, Step, Stroke,
    TextItem, Vector,
};

pub fn scene() -> impl Strategy<Value = Scene> {
    (number(), number(), words(), prop::collection::vec(item(), 0..12)).prop_map(|(width, height, title, items)| {
        let mut scene = Scene::new(width, height, title);
        for item in items {
            scene.push(item);
        }
        scene
    })
}

fn item() -> impl Strategy<Value = Item> {
    let leaf = prop_oneof![path().prop_map(Item::from), text().prop_map(Item::from)];
    leaf.prop_recursive(3, 24, 6, |inner| {
        (
            prop::option::of(words()),
            any::<u32>(),
            affine(),
            prop::collection::vec(inner, 0..6),
        )
            .prop_map(|(label, key, by, items)| {
                let mut group = Group::tagged(Role::Line, key);
                group.label = label;
                for item in items {
                    group.push(item);
                }
                group.map(by).into()
            })
    })
}

fn path() -> impl Strategy<Value = PathItem> {
    (
        prop::collection::vec(step(), 0..8),
        prop::option::of(stroke()),
        prop::option::of(ink()),
    )
        .prop_map(|(steps, stroke, fill)| {
            let mut outline = Outline::new();
            for step in steps {
                outline.push(step);
            }
            PathItem { outline, stroke, fill }
        })
}

fn text() -> impl Strategy<Value = TextItem> {
    let anchor = prop_oneof![Just(Anchor::Start), Just(Anchor::Middle), Just(Anchor::End)];
    (
        words(),
        number(),
        prop::sample::select(Face::ALL.to_vec()),
        ink(),
        affine(),
        anchor,
    )
        .prop_map(|(words, height, face, ink, at, anchor)| {
            TextItem::new(&words, height, face).ink(ink).place(at, anchor)
        })
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        point().prop_map(Step::Move),
        point().prop_map(Step::Line),
        (point(), point()).prop_map(|(c, p)| Step::Quad(c, p)),
        (point(), point(), point()).prop_map(|(c, d, p)| Step::Cubic(c, d, p)),
        Just(Step::Close),
    ]
}

fn stroke() -> impl Strategy<Value = Stroke> {
    let pen = prop::sample::select(vec![Pen::Thin, Pen::Medium, Pen::Wide, Pen::Heavy]);
    (
        pen,
        ink(),
        prop::sample::select(Dash::ALL.to_vec()),
        any::<bool>(),
        any::<bool>(),
    )
        .prop_map(|(pen, ink, dash, is_cut, is_sharp)| {
            let cap = if is_cut { Cap::Butt } else { Cap::Round };
            let join = if is_sharp { Join::Miter } else { Join::Round };
            Stroke::new(pen).ink(ink).dash(dash).cap(cap).join(join)
        })
}

fn ink() -> impl Strategy<Value = Ink> {
    prop::sample::select(Ink::ALL.to_vec())
}

fn affine() -> impl Strategy<Value = Affine> {
    let any = (point(), vector(), vector()).prop_map(|(origin, x, y)| Affine::frame(origin, x, y));
    prop_oneof![4 => (-360.0..360.0f64).prop_map(Affine::turn), 1 => any]
}

fn vector() -> impl Strategy<Value = Vector> {
    (number(), number()).prop_map(|(x, y)| Vector::new(x, y))
}

fn point() -> impl Strategy<Value = Point> {
    (number(), number()).prop_map(|(x, y)| Point::new(x, y))
}

/// Mostly a length on a sheet, sometimes zero, sometimes anything that a float can be.
fn number() -> impl Strategy<Value = f64> {
    prop_oneof![12 => -50.0..300.0f64, 2 => Just(0.0), 1 => -1e6..1e6f64, 1 => any::<f64>()]
}

/// Mostly words of the trade, sometimes anything that a string can be.
fn words() -> impl Strategy<Value = String> {
    let trade = "[0-9A-Za-z½¾″′° <>&\"']{0,12}";
    prop_oneof![3 => trade.boxed(), 1 => any::<String>().boxed()]
}
