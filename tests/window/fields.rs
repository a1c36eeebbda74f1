//! What is typed into fields, and who has the keyboard.

use crate::form::{By, Entry};
use crate::hand::{Hand, at};
use egui::{Key, Modifiers};
use stubout::editor::tool::Tool;
use stubout::editor::{CommandId, Facing, Part};
use stubout::job::{RunId, State};
use stubout::units::{Angle, Length};

fn length(hand: &Hand) -> Option<Length> {
    hand.job().runs.get(RunId(2)).unwrap().length
}

/// R2 is chosen and its length has the keyboard.
fn in_a_field() -> Hand {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.frame();
    let field = hand.field("True length");
    hand.click_screen(field.rect.center());
    assert_eq!(
        hand.focused().map(|focused| focused.words),
        Some("True length".to_owned())
    );
    hand
}

#[test]
fn keys_typed_in_a_field_do_not_reach_the_drawing() {
    let mut hand = in_a_field();
    let (before, undo) = (hand.written(), hand.editor().undo_name().map(str::to_owned));
    hand.type_text("12'-6 a b");
    hand.key(Key::Backspace);
    hand.key(Key::Home);
    hand.key(Key::Delete);
    hand.key(Key::ArrowUp);
    hand.key(Key::PageDown);
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.chord(Modifiers::COMMAND, Key::X);
    hand.chord(Modifiers::COMMAND, Key::Z);
    assert_eq!(hand.written(), before);
    assert_eq!(hand.editor().undo_name().map(str::to_owned), undo);
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(2))));
    assert_eq!(hand.editor().tool().typed(), "");
    hand.key(Key::Escape);
    hand.rest();
    assert_eq!(hand.written(), before, "Esc gives the old value back");
    // Now the keys are for the drawing again.
    hand.key(Key::Delete);
    assert_eq!(hand.job().runs.len(), 2);
}

#[test]
fn a_length_typed_in_the_details_is_one_step_that_can_be_undone() {
    let mut hand = in_a_field();
    hand.type_text("12-6 1/2");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(length(&hand), Some(Length::from_inches(150.5)));
    hand.chord(Modifiers::COMMAND, Key::Z);
    hand.rest();
    assert_eq!(length(&hand), None);
}

#[test]
fn a_wrong_length_and_enter_leave_the_cursor_where_it_is_to_be_mended() {
    let mut hand = in_a_field();
    let before = hand.written();
    hand.type_text("12-6x");
    hand.key(Key::Enter);
    hand.frame();
    // What is typed next mends the length: it neither deletes nor draws.
    hand.key(Key::Backspace);
    assert_eq!(hand.written(), before);
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(length(&hand), Some(Length::from_inches(150.0)));
    assert!(matches!(hand.editor().tool(), Tool::Choose(_)));
}

#[test]
fn one_key_leads_into_the_details_and_enter_back_to_the_drawing() {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.shortcut(CommandId::ShowDetails);
    hand.shortcut(CommandId::GoToDetails);
    hand.frame();
    hand.frame();
    assert_eq!(
        hand.focused().map(|focused| focused.words),
        Some("True length".to_owned())
    );
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text("9");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(length(&hand), Some(Length::from_feet(9.0)));
    hand.key(Key::Delete);
    assert_eq!(hand.job().runs.len(), 2, "the keys are for the drawing again");
}

#[test]
fn the_plane_is_chosen_while_shift_is_held_for_ways_off_the_axes() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::SHIFT | Modifiers::COMMAND, Key::Num2);
    assert_eq!(hand.editor().plane().facing, Facing::EastUpright);
}

#[test]
fn what_cannot_be_a_length_stays_in_its_field_with_the_reason() {
    let mut hand = in_a_field();
    let before = hand.written();
    hand.type_text("twelve");
    hand.key(Key::Tab);
    hand.rest();
    assert!(hand.reads("Not accepted:"), "{:?}", hand.all_words());
    assert_eq!(hand.field("True length").value, "twelve");
    assert_eq!(hand.written(), before);
    hand.fill("True length", &Entry::Text("12'".into()), By::Mouse);
    hand.key(Key::Enter);
    hand.rest();
    assert!(!hand.reads("Not accepted:"));
    assert_eq!(length(&hand), Some(Length::from_feet(12.0)));
}

#[test]
fn a_text_in_a_field_is_taken_when_one_goes_on_drawing() {
    let mut hand = in_a_field();
    hand.type_text("9'");
    hand.click_at(at(0, 0, 2));
    hand.frame();
    assert_eq!(length(&hand), Some(Length::from_feet(9.0)), "nothing typed is lost");
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(1))));
}

#[test]
fn a_row_of_what_was_found_leads_to_its_place() {
    let mut hand = Hand::elbow();
    hand.open_lists();
    // Far away, so that the paper must move.
    hand.drag_screen(
        hand.screen(at(3, 0, 0)),
        hand.screen(at(-40, 0, 0)),
        egui::PointerButton::Middle,
    );
    hand.rest();
    let row = hand
        .all_words()
        .into_iter()
        .find(|words| words.starts_with("must fix; J4; "));
    hand.push(&row.expect("the pipe ends open at J4"));
    hand.rest();
    assert!(matches!(hand.editor().selection().single(), Some(Part::Joint(_))));
    let place = hand.screen(at(6, 0, 1));
    assert!(
        place.x > 200.0 && place.x < 940.0 && place.y > 30.0 && place.y < 580.0,
        "{place:?}"
    );
}

#[test]
fn tab_leads_through_the_whole_window_and_back_to_where_it_began() {
    let mut hand = Hand::elbow();
    let mut seen = Vec::new();
    for _ in 0..150 {
        hand.key(Key::Tab);
        // Behind the last one nothing has the keyboard for once.
        let Some(focused) = hand.focused() else { continue };
        assert!(!focused.words.is_empty(), "{focused:?} has no name");
        seen.push(focused.words);
    }
    for name in [
        "Job",
        "Draw",
        "Export…",
        "Is it right?",
        "Draw pipe",
        "Note",
        "Basis of sizing: change",
        "Title block…",
    ] {
        assert!(
            seen.iter().any(|words| words == name),
            "{name} is not reached: {seen:?}"
        );
    }
    assert_eq!(hand.job().runs.len(), 3);
    assert!(hand.editor().can(CommandId::Undo));
}

#[test]
fn what_is_taken_out_is_kept_for_use_again_by_a_tick() {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.rest();
    assert!(!hand.reads("Salvage for reuse"), "only what goes is kept");
    hand.shortcut(CommandId::State(State::Removed));
    hand.rest();
    hand.push("Salvage for reuse");
    hand.rest();
    assert!(hand.job().runs.get(RunId(2)).unwrap().is_salvaged());
    hand.look("salvage for reuse");
    hand.shortcut(CommandId::Undo);
    hand.rest();
    assert!(!hand.job().runs.get(RunId(2)).unwrap().salvaged);
}

#[test]
fn a_slope_has_fields_for_a_measured_offset() {
    let mut hand = Hand::elbow();
    hand.click_at(at(3, 0, 4));
    hand.rest();
    assert!(!hand.reads("Offset rise"), "pipe along an axis is no offset");
    let mut job = stubout::file::read(include_str!("../jobs/rolling-offsets.ron")).unwrap();
    job.runs.get_mut(RunId(2)).unwrap().offset = None;
    let mut hand = Hand::on(job);
    let slope = [Part::Run(RunId(2))].into_iter().collect();
    hand.app_mut().desk_mut().editor_mut().select(slope);
    hand.rest();
    for (field, text) in [
        ("Offset rise", "8 in"),
        ("Offset roll", "12 in"),
        ("Offset angle", "45"),
    ] {
        hand.fill(field, &Entry::Text(text.to_owned()), By::Mouse);
        hand.key(Key::Enter);
        hand.rest();
    }
    hand.look("offset_fields");
    let run = hand.job().runs.get(RunId(2)).unwrap().clone();
    let offset = run.offset.expect("it was measured");
    assert_eq!((offset.rise.inches(), offset.roll.inches()), (8.0, 12.0));
    assert_eq!(offset.angle, Some(Angle::from_degrees(45.0)));
    assert!((hand.job().true_length(&run).inches() - 20.3961).abs() < 1e-4);
    // What contradicts is refused in words, and stays to be mended.
    let before = hand.written();
    hand.fill("Offset run", &Entry::Text("20 in".to_owned()), By::Mouse);
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(hand.written(), before);
    assert!(
        hand.all_words()
            .iter()
            .any(|words| words.contains("by the other measurements it is 1'-2 7/16\""))
    );
}

#[test]
fn the_way_in_with_tab_takes_the_whole_text_and_a_second_click_goes_into_it() {
    let mut hand = in_a_field();
    hand.type_text("12'");
    hand.key(Key::Enter);
    hand.rest();
    hand.tab_to("the length", |_, focused| focused.words == "True length");
    hand.type_text("9'");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(length(&hand), Some(Length::from_feet(9.0)), "it took the place of 12'");
    let kept = hand.field("True length").value;
    for _ in 0..2 {
        hand.click_screen(hand.field("True length").rect.center());
        // Not a double click, which takes a word.
        for _ in 0..40 {
            hand.frame();
        }
    }
    hand.type_text("1");
    assert_eq!(
        hand.field("True length").value.len(),
        kept.len() + 1,
        "nothing of it goes"
    );
}

#[test]
fn escape_gives_the_old_value_back_for_a_refused_text() {
    let mut hand = in_a_field();
    let before = hand.field("True length").value;
    hand.type_text("twelve");
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.reads("Not accepted:"));
    hand.key(Key::Escape);
    hand.rest();
    assert!(!hand.reads("Not accepted:"), "{:?}", hand.all_words());
    assert_eq!(hand.field("True length").value, before);
    assert_eq!(length(&hand), None);
}
