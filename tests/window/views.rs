//! How the paper is looked at, and windows of every size.

use crate::hand::{Hand, Opening, at};
use egui::{Key, Modifiers, PointerButton, pos2, vec2};
use stubout::desk::settings::{Light, Settings, Side};
use stubout::editor::{CommandId, Facing};
use stubout::job::Job;

fn example() -> Job {
    stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap()
}

#[test]
fn the_plane_is_turned_and_moved_by_keys_and_the_status_line_says_where_it_lies() {
    let mut hand = Hand::new();
    hand.key(Key::D);
    let facing = |hand: &Hand| hand.editor().plane().facing;
    for (key, plane) in [
        (Key::Num2, Facing::EastUpright),
        (Key::Num3, Facing::NorthUpright),
        (Key::Num1, Facing::Level),
    ] {
        hand.chord(Modifiers::COMMAND, key);
        assert_eq!(facing(&hand), plane);
        hand.says(plane.words());
    }
    hand.chord(Modifiers::COMMAND, Key::ArrowUp);
    hand.chord(Modifiers::COMMAND, Key::ArrowUp);
    hand.says("level plane, elevation +2'-0\"");
    hand.chord(Modifiers::COMMAND, Key::ArrowDown);
    hand.says("level plane, elevation +1'-0\"");
    // What is pointed at follows: the same paper, another place in space.
    hand.point(at(2, 3, 1));
    hand.click();
    hand.click_at(at(5, 3, 1));
    assert_eq!(hand.job().joints.iter().next().unwrap().at, at(2, 3, 1));
}

#[test]
fn the_wheel_zooms_at_the_pointer() {
    let mut hand = Hand::on(example());
    let place = at(27, 9, 5);
    hand.point(place);
    let (before, scale) = (hand.screen(place), hand.app().canvas().camera.scale);
    for notches in [3.0, 1.0, -2.0, 8.0] {
        hand.wheel(notches);
        assert!(
            hand.screen(place).distance(before) < 4.0,
            "the place stays under the pointer"
        );
    }
    assert!(hand.app().canvas().camera.scale > scale * 2.0);
    for _ in 0..60 {
        hand.wheel(-8.0);
    }
    hand.rest();
    hand.picture();
    for _ in 0..80 {
        hand.wheel(8.0);
    }
    hand.picture();
    let whole = hand.app().canvas().camera.scale;
    hand.chord(Modifiers::COMMAND, Key::Num0);
    hand.frame();
    assert!(
        hand.app().canvas().camera.scale < whole,
        "the whole drawing is seen again"
    );
    for joint in &example().joints {
        let at = hand.screen(joint.at);
        assert!(at.x > 150.0 && at.x < 1280.0 && at.y > 60.0 && at.y < 748.0, "{at:?}");
    }
}

#[test]
fn the_keys_and_the_menu_show_it_larger_and_smaller() {
    let mut hand = Hand::on(example());
    let scale = |hand: &Hand| hand.app().canvas().camera.scale;
    hand.menu("View", "Fit to window");
    hand.frame();
    let start = scale(&hand);
    hand.chord(Modifiers::COMMAND, Key::Plus);
    assert!(scale(&hand) > start);
    hand.chord(Modifiers::COMMAND, Key::Minus);
    hand.menu("View", "Zoom out");
    assert!(scale(&hand) < start);
    assert!(
        (hand.app().settings().size - 1.0).abs() < 1e-6,
        "words and buttons keep their size"
    );
    hand.menu("View", "Fit to window");
    hand.frame();
    assert!((scale(&hand) / start - 1.0).abs() < 0.01, "{start} {}", scale(&hand));
}

#[test]
fn a_drag_with_another_button_moves_the_paper_and_nothing_else() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    for button in [PointerButton::Middle, PointerButton::Secondary] {
        let from = hand.screen(at(6, 0, 4));
        hand.drag_screen(from, from + vec2(-80.0, 45.0), button);
        hand.rest();
        let to = hand.screen(at(6, 0, 4));
        assert!(
            to.distance(from + vec2(-80.0, 45.0)) < 1.0,
            "{button:?}: {from:?} {to:?}"
        );
        assert_eq!(hand.written(), before);
        assert!(!hand.reads("Delete and close the gap"), "no menu after a drag");
    }
    // Drawing goes on where the paper now lies.
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.click_at(at(9, 0, 1));
    assert_eq!(hand.job().runs.len(), 4);
}

#[test]
fn panels_come_and_go() {
    let mut hand = Hand::on(example());
    hand.shortcut(CommandId::ShowDetails);
    assert!(!hand.app().settings().details);
    hand.shortcut(CommandId::ShowLists);
    assert!(hand.app().settings().lists_open);
    hand.rest();
    hand.menu("View", "Details");
    hand.menu("View", "Lists");
    hand.rest();
    assert!(hand.app().settings().details && !hand.app().settings().lists_open);
}

#[test]
fn the_sides_of_the_work_are_turned_to_by_key_button_and_menu_and_each_keeps_its_view_of_the_paper() {
    let mut hand = Hand::on(example());
    let camera = |hand: &Hand| hand.app().canvas().camera;
    hand.chord(Modifiers::COMMAND, Key::Plus);
    let drawn = camera(&hand);
    for (side, key) in [
        (Side::Check, Key::Num2),
        (Side::Sheet, Key::Num3),
        (Side::Draw, Key::Num1),
    ] {
        hand.chord(Modifiers::ALT, key);
        hand.rest();
        assert_eq!(hand.app().settings().side, side);
        assert!(
            hand.widgets(&format!("{side:?}"))
                .into_iter()
                .any(|widget| widget.is_on),
            "the strip shows it"
        );
        hand.look(&format!("side_{side:?}"));
    }
    assert_eq!(camera(&hand), drawn, "the paper lies as it lay");
    hand.push("Check");
    hand.rest();
    assert_eq!(hand.app().settings().side, Side::Check);
    assert!(camera(&hand).scale < drawn.scale, "there the whole drawing is seen");
    hand.menu("View", "Draw");
    hand.rest();
    assert_eq!((hand.app().settings().side, camera(&hand)), (Side::Draw, drawn));
    // On the sheet a letter is meant for a field; what is taken in hand by a menu is used on the paper.
    hand.push("Sheet");
    hand.rest();
    hand.key(Key::D);
    hand.rest();
    assert_eq!(hand.app().settings().side, Side::Sheet);
    hand.command(CommandId::DrawPipe);
    hand.rest();
    assert_eq!(hand.app().settings().side, Side::Draw);
    // On the sheet no key draws or moves anything.
    let before = hand.written();
    hand.click_at(at(0, 0, 0));
    hand.chord(Modifiers::ALT, Key::Num3);
    hand.rest();
    hand.type_text("12");
    hand.key(Key::PageUp);
    hand.key(Key::Enter);
    assert_eq!(hand.written(), before);
}

/// A laptop's screen: the paper has most of it, and nothing of the window is cut.
#[test]
fn on_a_laptop_the_paper_has_three_fifths_of_the_screen() {
    let screen = vec2(1366.0, 768.0);
    let mut hand = Hand::opening(Opening {
        size: screen,
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.rest();
    hand.look("laptop");
    let paper = hand.all(egui::Role::Canvas).remove(0).rect;
    let share = paper.area() / (screen.x * screen.y);
    assert!(share >= 0.6, "{:.1} %: {paper:?}", share * 100.0);
}

#[test]
fn one_line_says_how_the_job_stands_and_opens_the_lists_of_a_question() {
    let mut hand = Hand::on(example());
    assert!(hand.reads("No must-fix findings") && hand.reads("280 MBH") && hand.reads("lowest margin"));
    assert!(hand.all(egui::Role::ListItem).is_empty(), "the lists are closed");
    hand.push("Is it enough?");
    hand.rest();
    assert!(!hand.all(egui::Role::ListItem).is_empty());
    let at = hand.widgets("Is it enough?").remove(0).rect;
    hand.push("Appliances 5");
    hand.rest();
    hand.click_screen(hand.widgets("Buy and build").remove(0).rect.center());
    hand.rest();
    assert!(hand.widget("Take-off").is_on);
    // The list of a question that was looked at last comes back; nothing has moved under the pointer.
    assert_eq!(hand.widgets("Is it enough?").remove(0).rect, at);
    hand.click_screen(at.center());
    hand.rest();
    assert!(hand.widget("Appliances 5").is_on);
    hand.click_screen(at.center());
    hand.rest();
    assert!(
        hand.all(egui::Role::ListItem).is_empty(),
        "the same question again closes them"
    );
}

/// What the lists need: no column reaches beyond the window.
#[test]
fn no_list_is_cut_in_a_window_of_1280_points() {
    let mut hand = Hand::opening(Opening {
        size: vec2(1280.0, 720.0),
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.chord(Modifiers::ALT, Key::Num2);
    hand.rest();
    for name in [
        "Findings 1",
        "Permit checklist",
        "Sections 11",
        "Appliances 5",
        "Existing",
        "Spare capacity",
        "Fixes",
        "Tie-in",
        "Take-off",
        "Cut list",
        "Work steps",
    ] {
        hand.push(name);
        hand.wait(|hand| !hand.reads("Updating…"));
        hand.rest();
        hand.look(&format!("check_{name}"));
        for row in hand.all(egui::Role::ListItem) {
            assert!(row.rect.max.x <= 1280.0, "{name}: {row:?}");
        }
    }
}

#[test]
fn the_paper_is_dimmed_in_the_dark_and_white_where_that_is_not_wanted() {
    let mut hand = Hand::on(example());
    hand.open_menu("View");
    hand.push("Dark");
    assert_eq!(hand.app().settings().light, Light::Night);
    hand.key(Key::Escape);
    hand.rest();
    hand.look("dark");
    let picture = hand.picture();
    let panel = picture.pixel(4, 700).unwrap();
    assert!(panel.red() < 70, "panels are dark");
    let paper = hand.screen(at(6, 9, 7)) + vec2(0.0, -20.0);
    let at_paper = |picture: &resvg::tiny_skia::Pixmap| picture.pixel(paper.x as u32, paper.y as u32).unwrap().red();
    let dim = at_paper(&picture);
    assert!((150..200).contains(&dim), "paper is paper, and does not glare: {dim}");
    hand.open_menu("View");
    hand.push("Dim paper when dark");
    hand.key(Key::Escape);
    hand.rest();
    assert!(at_paper(&hand.picture()) > 200, "white");
}

/// Draws, places, undoes and reads in a window of this kind.
#[track_caller]
fn works(opening: Opening, name: &str) {
    let mut hand = Hand::opening(opening);
    hand.key(Key::D);
    hand.click_at(at(0, 0, 0));
    hand.point(at(0, 0, 2));
    hand.says("draw 2'-0\" up");
    hand.click();
    hand.click_at(at(1, 0, 2));
    assert_eq!(hand.job().runs.len(), 2, "{}", hand.status());
    hand.key(Key::Escape);
    hand.key(Key::Escape);
    hand.command(stubout::editor::CommandId::Undo);
    assert_eq!(hand.job().runs.len(), 1);
    hand.app_mut().open(example());
    hand.rest();
    for (side, id) in [
        ("Check", CommandId::ShowCheck),
        ("Sheet", CommandId::ShowSheet),
        ("Draw", CommandId::ShowDraw),
    ] {
        hand.shortcut(id);
        hand.rest();
        hand.look(&format!("{name}_{side}"));
    }
}

#[test]
fn it_works_in_the_smallest_window() {
    let size = vec2(760.0, 480.0);
    works(
        Opening {
            size,
            ..Opening::default()
        },
        "small",
    );
}

#[test]
fn it_works_in_a_very_large_window() {
    let size = vec2(3000.0, 2000.0);
    works(
        Opening {
            size,
            ..Opening::default()
        },
        "large",
    );
}

#[test]
fn it_works_with_two_pixels_for_a_point() {
    let size = vec2(1280.0, 800.0);
    works(
        Opening {
            size,
            pixels: 2.0,
            ..Opening::default()
        },
        "double",
    );
}

#[test]
fn it_works_with_very_large_words() {
    let settings = Settings {
        size: 1.6,
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        settings,
        size: vec2(1600.0, 1000.0),
        ..Opening::default()
    });
    hand.app_mut().open(example());
    hand.rest();
    hand.look("very_large_words");
    assert!((hand.pixels() - 1.6).abs() < 1e-6);
}

#[test]
fn a_window_squeezed_to_nothing_comes_back() {
    let mut hand = Hand::on(example());
    let before = hand.written();
    for size in [
        vec2(1.0, 1.0),
        vec2(40.0, 2000.0),
        vec2(2000.0, 30.0),
        vec2(1280.0, 800.0),
    ] {
        hand.resize(size);
        hand.move_to(pos2(size.x * 0.5, size.y * 0.5));
        hand.wheel(1.0);
        hand.click();
        hand.frame();
        hand.picture();
    }
    hand.rest();
    assert_eq!(hand.written(), before);
}
