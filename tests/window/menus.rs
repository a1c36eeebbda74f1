//! Menus, the status line, and windows that open over the paper.

use crate::form::{By, Entry};
use crate::hand::{Hand, Opening, at};
use egui::{Key, Modifiers, PointerButton};
use stubout::editor::tool::Tool;
use stubout::editor::{COMMANDS, CommandId, Toward};
use stubout::job::Job;

#[test]
fn every_command_stands_in_its_menu_and_those_that_cannot_be_used_are_grey() {
    let mut hand = Hand::new();
    for menu in ["Job", "Edit", "Draw", "Place", "Change", "View", "Help"] {
        hand.open_menu(menu);
        hand.look(&format!("menu_{menu}"));
        let mut last = 0.0;
        for row in COMMANDS.iter().filter(|row| format!("{:?}", row.menu) == menu) {
            let entry = hand.entry(row.label);
            assert_eq!(entry.is_disabled, !hand.desk().can(row.id), "{}", row.label);
            assert!(
                entry.rect.min.y > last && entry.rect.max.y < 800.0,
                "{} is to be seen",
                row.label
            );
            last = entry.rect.min.y;
        }
        hand.key(Key::Escape);
        hand.rest();
    }
}

#[test]
fn a_grey_entry_says_what_it_lacks() {
    let mut hand = Hand::new();
    hand.open_menu("Edit");
    let entry = hand.entry("Delete");
    hand.move_to(entry.rect.center());
    for _ in 0..30 {
        hand.frame();
    }
    assert!(hand.reads("select something first"), "{:?}", hand.all_words());
}

#[test]
fn alt_and_a_letter_open_a_menu_and_the_arrows_go_through_it() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::ALT, Key::E);
    hand.rest();
    assert!(hand.entry("Select all").rect.min.x < 400.0);
    hand.chord(Modifiers::ALT, Key::V);
    hand.rest();
    assert!(!hand.reads("Select everything") && hand.reads("Zoom out"));
    hand.key(Key::ArrowDown);
    hand.rest();
    let focused = hand.focused().map(|focused| focused.words).unwrap_or_default();
    assert!(focused.starts_with("Zoom in"), "{focused}");
    hand.key(Key::Escape);
    hand.rest();
    assert!(!hand.reads("Zoom out"));
}

#[test]
fn undo_and_redo_name_their_step_in_the_menu() {
    let mut hand = Hand::elbow();
    hand.open_menu("Edit");
    assert!(hand.entry("Undo").words.starts_with("Undo: Draw run"));
    hand.key(Key::Escape);
    hand.rest();
    hand.menu("Edit", "Undo");
    hand.open_menu("Edit");
    assert!(hand.entry("Redo").words.starts_with("Redo: Draw run"));
    assert!(hand.entry("Undo").words.starts_with("Undo: Draw run"));
}

#[test]
fn every_thing_of_the_place_menu_and_of_the_shelf_comes_to_hand() {
    let mut hand = Hand::elbow();
    for row in stubout::editor::PALETTE {
        hand.menu("Place", row.name);
        let item = |hand: &Hand| match hand.editor().tool() {
            Tool::Place(place) => Some(place.item),
            _ => None,
        };
        assert_eq!(item(&hand), Some(row.item), "{}", row.name);
        hand.key(Key::Escape);
        hand.shelf(row.name);
        assert_eq!(item(&hand), Some(row.item), "{}", row.name);
        hand.frame();
        assert!(
            hand.widgets(row.name).iter().any(|widget| widget.is_on),
            "{} shows that it is in hand",
            row.name
        );
        hand.key(Key::Escape);
    }
}

#[test]
fn a_right_click_offers_what_can_be_done_with_what_is_chosen() {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.point(at(3, 0, 4));
    hand.button(PointerButton::Secondary, true);
    hand.button(PointerButton::Secondary, false);
    hand.rest();
    hand.look("context_menu");
    let entry = hand.entry("Split");
    assert!(!entry.is_disabled && hand.entry("Paste").is_disabled);
    hand.click_screen(entry.rect.center());
    hand.frame();
    assert_eq!(hand.job().runs.len(), 4);
    assert!(!hand.reads("Delete and close the gap"), "the menu is closed");
}

#[test]
fn a_right_click_on_a_part_means_that_part() {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.point(at(6, 0, 2));
    hand.button(PointerButton::Secondary, true);
    hand.button(PointerButton::Secondary, false);
    hand.rest();
    let entry = hand.entry("Delete");
    hand.click_screen(entry.rect.center());
    hand.frame();
    let left: Vec<u32> = hand.job().runs.iter().map(|run| run.id.0).collect();
    assert_eq!(left, [1, 2], "R3 was under the pointer");
}

#[test]
fn a_click_beside_an_open_menu_only_closes_it() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.open_menu("View");
    hand.click_at(at(9, 0, 1));
    hand.rest();
    assert_eq!(hand.written(), before, "no pipe by a slip");
    assert!(!hand.reads("Zoom out"));
    hand.click_at(at(9, 0, 1));
    assert_eq!(hand.job().runs.len(), 4, "the next click draws");
}

#[test]
fn while_a_page_of_help_is_open_no_key_and_no_click_reaches_the_drawing() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::COMMAND, Key::A);
    let before = hand.written();
    for page in [CommandId::ShowKeys, CommandId::About] {
        hand.command(page);
        hand.rest();
        hand.look(&format!("{page:?}"));
        hand.key(Key::Delete);
        hand.chord(Modifiers::COMMAND, Key::Z);
        hand.click_at(at(0, 0, 2));
        hand.type_text("12");
        assert_eq!(hand.written(), before);
        hand.key(Key::Escape);
        hand.rest();
    }
    hand.click_at(at(0, 0, 2));
    hand.key(Key::Delete);
    assert_ne!(hand.written(), before, "afterwards they do");
}

/// The guide opens at what is selected or in hand, and at the beginning where there is nothing.
#[test]
fn the_guide_opens_at_what_is_meant_and_leads_to_every_chapter() {
    let mut hand = Hand::elbow();
    let opens_at = |hand: &mut Hand, words: &str| {
        hand.shortcut(CommandId::ShowGuide);
        hand.rest();
        hand.look(&format!("guide {words}"));
        assert!(hand.reads(words), "{words}: {:?}", hand.all_words());
        hand.key(Key::Escape);
        hand.rest();
    };
    opens_at(&mut hand, "turns to the three sides of the work");
    hand.click_at(at(0, 0, 2));
    opens_at(&mut hand, "below its fields you see why it has its size");
    hand.click_at(at(0, 0, 0));
    opens_at(&mut hand, "Every job starts here");
    hand.key(Key::Escape);
    hand.key(Key::D);
    opens_at(&mut hand, "Take Draw pipe (D)");
    hand.shortcut(CommandId::ShowGuide);
    hand.rest();
    // By keys alone: the chapter below, and back.
    hand.key(Key::ArrowDown);
    hand.rest();
    assert!(!hand.reads("Take Draw pipe (D)"));
    hand.key(Key::ArrowUp);
    hand.rest();
    assert!(hand.reads("Take Draw pipe (D)"));
    hand.push("Title block, export, print");
    hand.rest();
    assert!(hand.reads("Tab goes from field to field"));
    hand.push("Every key");
    hand.rest();
    assert!(hand.reads("Over the paper"));
    let close = hand.widget("Close").rect;
    hand.rest();
    assert_eq!(hand.widget("Close").rect, close, "it keeps its size");
    assert!(close.max.y < hand.size().y);
}

#[test]
fn about_leads_to_every_license_and_begins_anew_when_it_is_opened_again() {
    let mut hand = Hand::new();
    for _ in 0..2 {
        hand.command(CommandId::About);
        hand.rest();
        assert!(hand.reads("Gas can kill.") && !hand.reads("MIT License"));
        hand.push("All licenses");
        hand.rest();
        hand.look("licenses");
        assert!(hand.reads("MIT License") && !hand.reads("Gas can kill."));
        assert!(hand.reads("About Stubout"), "there is a way back");
        hand.key(Key::Escape);
        hand.rest();
        assert!(!hand.reads("MIT License"));
    }
}

/// The lesson is done as it says, at the sizes of small laptops: to a drawing with sizes, and its sheet as a PDF.
#[test]
fn the_first_drawing_is_led_step_by_step_to_a_sized_drawing_and_a_pdf() {
    for size in [egui::vec2(1366.0, 768.0), egui::vec2(1024.0, 768.0)] {
        let mut hand = Hand::opening(Opening {
            size,
            ..Opening::default()
        });
        let folder = tempfile::tempdir().unwrap();
        hand.menu("Help", "A first drawing");
        hand.rest();
        let done = |hand: &Hand| {
            hand.all_words()
                .iter()
                .filter(|words| words.ends_with(": done"))
                .count()
        };
        let look = |hand: &Hand, step: usize| hand.look(&format!("lesson_{}_{step}", size.x));
        let paper = hand.all(egui::Role::Canvas).remove(0).rect;
        assert!(paper.width() > 560.0 && paper.height() > 480.0, "{paper:?}");
        look(&hand, 0);
        assert_eq!(done(&hand), 0);
        hand.shelf("Point of delivery");
        hand.click_at(at(-2, 0, 0));
        hand.rest();
        assert_eq!(done(&hand), 0, "its pressure is asked for");
        hand.fill("Delivery pressure", &Entry::Text("7 in w.c.".into()), By::Mouse);
        hand.key(Key::Enter);
        hand.rest();
        assert_eq!(done(&hand), 1);
        look(&hand, 1);
        hand.key(Key::D);
        hand.click_at(at(-2, 0, 0));
        for (to, length) in [(at(4, 0, 0), "20"), (at(4, 3, 0), "12-6")] {
            hand.point(to);
            hand.type_text(length);
            hand.key(Key::Enter);
        }
        hand.key(Key::Escape);
        hand.rest();
        assert_eq!(done(&hand), 2);
        look(&hand, 2);
        let run = hand.job().runs.iter().next().unwrap().clone();
        let ends = [run.from, run.to].map(|id| hand.screen(hand.job().joints.get(id).unwrap().at));
        hand.click_screen(ends[0].lerp(ends[1], 0.5));
        hand.way(Toward::South);
        hand.type_text("8");
        hand.key(Key::Enter);
        hand.key(Key::Escape);
        hand.rest();
        assert_eq!(done(&hand), 3, "{}", hand.status());
        look(&hand, 3);
        let open: Vec<_> = hand
            .job()
            .joints
            .iter()
            .filter(|joint| {
                joint.placed.is_none()
                    && hand
                        .job()
                        .runs
                        .iter()
                        .filter(|run| run.from == joint.id || run.to == joint.id)
                        .count()
                        == 1
            })
            .map(|joint| joint.at)
            .collect();
        assert_eq!(open.len(), 2);
        for (name, place, input) in [("Grill", open[0], "60 MBH"), ("Fire pit", open[1], "65 MBH")] {
            hand.shelf(name);
            hand.click_at(place);
            hand.rest();
            assert!(!hand.status().contains("Can't"), "{}", hand.status());
            hand.fill("Input", &Entry::Text(input.into()), By::Mouse);
            hand.key(Key::Enter);
            hand.rest();
        }
        assert_eq!(done(&hand), 4, "{}", hand.status());
        look(&hand, 4);
        let sections = &hand.desk().shown().checked.study.sections;
        assert!(
            sections.iter().all(|section| section.sizing.size.is_some()),
            "sizes have appeared"
        );
        // It can be left and taken up again.
        hand.push("End the lesson");
        hand.rest();
        assert_eq!(done(&hand), 0);
        hand.menu("Help", "A first drawing");
        hand.rest();
        assert_eq!(done(&hand), 4);
        hand.push("Sheet");
        hand.rest();
        hand.fill("Contractor", &Entry::Text("Invented Gas Fitters".into()), By::Mouse);
        look(&hand, 5);
        hand.push("Export…");
        hand.rest();
        hand.chord(Modifiers::COMMAND, Key::A);
        hand.type_text(folder.path().join("first.pdf").to_str().unwrap());
        hand.key(Key::Enter);
        hand.wait(|hand| hand.reads("Well done"));
        assert!(folder.path().join("first.pdf").exists());
        look(&hand, 6);
        hand.key(Key::Escape);
        hand.rest();
        hand.push("Close");
        hand.rest();
        assert!(!hand.reads("Well done"));
    }
}

#[test]
fn the_status_line_tells_the_plane_and_the_scale_and_the_line_above_it_how_the_job_stands() {
    let mut hand = Hand::new();
    hand.says("level plane, elevation ±0");
    hand.says("%");
    let example = stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
    hand.app_mut().open(example);
    hand.rest();
    assert!(hand.reads("No must-fix findings"));
    hand.app_mut().open(Job::default());
    hand.rest();
    assert!(hand.reads("Nothing is drawn yet"));
}
