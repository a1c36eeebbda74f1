//! States of the window, each held against a picture.
//!
//! `BLESS=1 cargo test --test window pictures` takes the new ones as right: look at them. The painter is the same bit for
//! bit everywhere; a little is allowed for the mathematics of other machines.

use crate::form::{By, Entry};
use crate::hand::{Hand, Opening, at};
use crate::street::street;
use egui::{Key, vec2};
use resvg::tiny_skia::Pixmap;
use std::path::Path;
use stubout::desk::settings::{Contents, Light, Settings, Side};
use stubout::editor::{Part, Selection};
use stubout::job::{Job, JointId, RunId};
use stubout::units::NominalSize;

/// A pixel may differ by so much in one colour.
const SHADE: u8 = 24;
/// So many pixels may differ by more.
const FEW: usize = 40;

fn example() -> Job {
    stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap()
}

fn choose(hand: &mut Hand, part: Part) {
    let parts: Selection = [part].into_iter().collect();
    hand.app_mut().desk_mut().editor_mut().select(parts);
    hand.rest();
}

#[track_caller]
fn check(hand: &mut Hand, name: &str) {
    hand.rest();
    hand.look(name);
    let picture = hand.picture();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/window/pictures/{name}.png"));
    if std::env::var_os("BLESS").is_some() {
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        picture.save_png(&path).unwrap();
        return;
    }
    let kept = Pixmap::load_png(&path).unwrap_or_else(|error| panic!("{}: {error}; BLESS=1 makes it", path.display()));
    assert_eq!(
        (kept.width(), kept.height()),
        (picture.width(), picture.height()),
        "{name}"
    );
    let pixels = |of: &Pixmap| of.data().chunks_exact(4).map(<[u8]>::to_vec).collect::<Vec<_>>();
    let differs = |(a, b): &(Vec<u8>, Vec<u8>)| a.iter().zip(b).any(|(a, b)| a.abs_diff(*b) > SHADE);
    let count = pixels(&kept).into_iter().zip(pixels(&picture)).filter(differs).count();
    if count > FEW {
        let new = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.png"));
        picture.save_png(&new).unwrap();
        panic!(
            "{name}: {count} pixels differ. Look at {}; BLESS=1 takes it as right",
            new.display()
        );
    }
}

#[test]
fn blank() {
    check(&mut Hand::new(), "blank");
}

#[test]
fn ghost_of_a_run() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.point(at(6, 5, 1));
    check(&mut hand, "ghost_of_a_run");
}

#[test]
fn typed_length() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.point(at(6, 5, 1));
    hand.type_text("12-6 1/2");
    check(&mut hand, "typed_length");
}

#[test]
fn tee_under_the_pencil() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.point(at(3, 0, 4));
    check(&mut hand, "tee_under_the_pencil");
}

#[test]
fn appliance_from_the_shelf() {
    let mut hand = Hand::elbow();
    hand.shelf("Other appliance");
    hand.point(at(6, 0, 1));
    check(&mut hand, "appliance_from_the_shelf");
}

#[test]
fn several_parts_chosen() {
    let mut hand = Hand::on(example());
    let parts: Selection = [RunId(17), RunId(18)]
        .map(Part::Run)
        .into_iter()
        .chain([Part::Joint(JointId(18))])
        .collect();
    hand.app_mut().desk_mut().editor_mut().select(parts);
    check(&mut hand, "several_parts_chosen");
}

#[test]
fn reason_for_a_size() {
    let mut hand = Hand::on(example());
    choose(&mut hand, Part::Run(RunId(18)));
    check(&mut hand, "reason_for_a_size");
}

#[test]
fn finding_that_was_gone_to() {
    let mut job = example();
    let grill = job
        .joints
        .get_mut(JointId(21))
        .and_then(|joint| joint.placed.as_mut())
        .unwrap();
    if let stubout::job::Device::Appliance(grill) = &mut grill.device {
        grill.input = None;
    }
    let mut hand = Hand::on(job);
    hand.open_lists();
    let words = hand.all_words();
    let row = words
        .iter()
        .find(|words| words.starts_with("must fix; "))
        .expect("the grill has no input");
    hand.push(row);
    check(&mut hand, "finding_that_was_gone_to");
}

#[test]
fn sheet_with_its_title_block() {
    let settings = Settings {
        side: Side::Sheet,
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        settings,
        size: vec2(1366.0, 768.0),
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.wait(|hand| hand.reads("sheet") && !hand.reads("Updating…"));
    check(&mut hand, "sheet_with_its_title_block");
}

#[test]
fn pieces_to_cut() {
    let mut hand = Hand::on(example());
    hand.show_list("Cut list");
    check(&mut hand, "pieces_to_cut");
}

#[test]
fn draw_on_a_laptop() {
    let mut hand = Hand::opening(Opening {
        size: vec2(1366.0, 768.0),
        ..Opening::default()
    });
    hand.app_mut().open(example());
    check(&mut hand, "draw_on_a_laptop");
}

#[test]
fn check_on_a_laptop() {
    let mut hand = Hand::opening(Opening {
        size: vec2(1366.0, 768.0),
        ..Opening::default()
    });
    hand.app_mut().open(old_patio());
    hand.push("Check");
    hand.push("Sections 11");
    check(&mut hand, "check_on_a_laptop");
}

#[test]
fn the_packet_in_small() {
    let settings = Settings {
        side: Side::Sheet,
        contents: Contents::Whole,
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        settings,
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.wait(|hand| !hand.widgets("Sheet 2 Pieces to cut").is_empty());
    hand.push("Sheet 2 Pieces to cut");
    check(&mut hand, "the_packet_in_small");
}

#[test]
fn dark() {
    let settings = Settings {
        light: Light::Night,
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        settings,
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.rest();
    choose(&mut hand, Part::Joint(JointId(26)));
    check(&mut hand, "dark");
}

#[test]
fn two_pixels_for_a_point() {
    let mut hand = Hand::opening(Opening {
        size: vec2(900.0, 600.0),
        pixels: 2.0,
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.rest();
    hand.push("Sheet");
    hand.rest();
    hand.fill("Permit no.", &Entry::Text("P-77".into()), By::Mouse);
    check(&mut hand, "two_pixels_for_a_point");
}

#[test]
fn six_hundred_runs() {
    check(&mut Hand::on(street(600)), "six_hundred_runs");
}

/// The patio kitchen on older, smaller pipe, which fails by the work.
fn old_patio() -> Job {
    let mut job = example();
    for run in [1, 2] {
        job.runs.get_mut(RunId(run)).unwrap().size = Some(NominalSize::Inch(16));
    }
    job
}

#[test]
fn existing_before_and_after() {
    let mut hand = Hand::on(old_patio());
    hand.show_list("Existing");
    check(&mut hand, "existing_before_and_after");
}

#[test]
fn ways_to_mend() {
    let mut hand = Hand::on(old_patio());
    hand.show_list("Fixes");
    hand.wait(|hand| hand.reads("Larger pipe, least weight"));
    check(&mut hand, "ways_to_mend");
}

#[test]
fn where_to_tie_in() {
    let mut job = old_patio();
    job.runs.remove(RunId(14));
    let mut hand = Hand::on(job);
    hand.show_list("Tie-in");
    hand.wait(|hand| hand.reads("rank 1"));
    check(&mut hand, "where_to_tie_in");
}

#[test]
fn more_at_an_appliance() {
    let mut hand = Hand::on(old_patio());
    choose(&mut hand, Part::Joint(JointId(8)));
    check(&mut hand, "more_at_an_appliance");
}
