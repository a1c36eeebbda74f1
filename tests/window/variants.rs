//! Other ways to do the job: added, named, drawn on, compared and switched at the window.

use crate::hand::{Hand, at};
use egui::{Key, Modifiers, Role};
use stubout::desk::settings::Contents;
use stubout::editor::CommandId;
use stubout::file::{read, write};

/// The rows of the list that is shown.
fn rows(hand: &Hand) -> Vec<String> {
    let widgets = hand.all(Role::ListItem);
    widgets.into_iter().map(|widget| widget.words).collect()
}

fn names(hand: &Hand) -> Vec<&str> {
    hand.job().variants.names().collect()
}

#[test]
fn two_routes_are_drawn_compared_and_switched_with_one_key() {
    let mut hand = Hand::elbow();
    let first = hand.job().clone();
    hand.show_list("Variants");
    hand.rest();
    assert!(hand.reads("This job is one drawing."), "{:?}", hand.all_words());
    hand.push("Add a variant");
    hand.rest();
    assert_eq!(names(&hand), ["Variant 1", "Variant 2"]);
    hand.push("name");
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text("Along the fence");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(names(&hand), ["Variant 1", "Along the fence"]);
    // What is drawn here is not drawn there.
    hand.shelf("Draw pipe");
    hand.click_at(at(6, 0, 1));
    hand.click_at(at(6, 5, 1));
    hand.key(Key::Escape);
    hand.command(CommandId::Choose);
    let second = hand.job().clone();
    assert_eq!(second.runs.len(), first.runs.len() + 1);
    hand.wait(|hand| rows(hand).len() == 2);
    let told = rows(&hand);
    assert!(told[1].starts_with("Along the fence (shown)"), "{told:#?}");
    hand.look("variants");
    hand.key(Key::F4);
    hand.rest();
    assert_eq!((&hand.job().runs, &hand.job().joints), (&first.runs, &first.joints));
    hand.says("Variant 1 of 2 is shown: Variant 1");
    hand.chord(Modifiers::SHIFT, Key::F4);
    hand.rest();
    assert_eq!(*hand.job(), second);
    assert_eq!(read(&write(hand.job())), Ok(second.clone()));
    // A row is another one, with which the shown one is compared.
    let first_row = |hand: &Hand| rows(hand).into_iter().find(|row| row.starts_with("Variant 1"));
    hand.wait(|hand| first_row(hand).is_some());
    let row = first_row(&hand).unwrap();
    hand.push(&row);
    hand.rest();
    hand.push("Cloud what differs");
    hand.rest();
    assert!(
        hand.reads("Compared with the variant Variant 1"),
        "{:?}",
        hand.all_words()
    );
    let changes = hand.desk().shown().changes.clone().unwrap();
    assert!(!changes.list.is_empty());
    hand.push("Stop comparing");
    hand.show_list("Variants");
    hand.wait(|hand| first_row(hand).is_some());
    hand.push(&row);
    hand.rest();
    hand.push("Remove");
    hand.rest();
    assert!(hand.job().variants.is_empty());
    assert_eq!(hand.job().runs, second.runs);
    hand.command(CommandId::Undo);
    assert_eq!(*hand.job(), second);
}

#[test]
fn the_comparison_is_a_sheet() {
    let job = read(include_str!("../jobs/patio-two-routes.ron")).unwrap();
    let mut hand = Hand::on(job);
    hand.shortcut(CommandId::ShowSheet);
    hand.rest();
    hand.push("Variants compared");
    hand.wait(|hand| hand.app().settings().contents == Contents::Variants);
    hand.rest();
    hand.look("variants_sheet");
}
