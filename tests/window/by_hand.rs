//! What a person adds to lists: lines of the take-off, words in the order of work, and the fields that an office misses.

use crate::hand::{Hand, Widget};
use crate::old_house::house;
use egui::{Key, Role};
use stubout::job::Extra;

fn rows(hand: &Hand) -> Vec<String> {
    let widgets = hand.all(Role::ListItem);
    widgets.into_iter().map(|widget| widget.words).collect()
}

/// A field of the lists, by its name.
fn field(hand: &Hand, name: &str) -> Widget {
    let all = hand
        .all(Role::TextInput)
        .into_iter()
        .chain(hand.all(Role::MultilineTextInput));
    let mut named = all.filter(|field| field.words == name);
    named.next().unwrap_or_else(|| panic!("no field {name}"))
}

/// Types into a field of the lists.
fn fill(hand: &mut Hand, name: &str, text: &str) {
    let at = field(hand, name).rect.center();
    hand.click_screen(at);
    hand.chord(egui::Modifiers::COMMAND, Key::A);
    hand.type_text(text);
    hand.key(Key::Enter);
    hand.rest();
}

#[test]
fn a_line_of_ones_own_is_added_changed_deleted_and_brought_back() {
    let mut hand = Hand::on(house().0.job);
    hand.show_list("Take-off");
    hand.wait(|hand| !rows(hand).is_empty());
    hand.push("Add a line of your own");
    hand.rest();
    fill(&mut hand, "item", "Thread sealant");
    fill(&mut hand, "quantity", "2.5");
    fill(&mut hand, "unit", "can");
    let sealant = Extra {
        what: "Thread sealant".into(),
        quantity: 2.5,
        unit: "can".into(),
        note: String::new(),
    };
    assert_eq!(hand.job().by_hand.extra, std::slice::from_ref(&sealant));
    // What is no number waits in its field with the reason, and the line stays as it was.
    fill(&mut hand, "quantity", "some");
    assert_eq!(hand.job().by_hand.extra[0].quantity, 2.5);
    assert!(hand.reads("enter a number"), "the reason is told");
    hand.key(Key::Escape);
    hand.wait(|hand| rows(hand).iter().any(|row| row.contains("Thread sealant")));
    hand.look("by_hand_take_off");
    hand.push("Delete this line");
    hand.rest();
    assert!(hand.job().by_hand.extra.is_empty());
    hand.command(stubout::editor::CommandId::Undo);
    hand.rest();
    assert_eq!(hand.job().by_hand.extra, [sealant]);
}

#[test]
fn a_step_gets_words_of_ones_own_and_is_left_out() {
    let mut hand = Hand::on(house().0.job);
    hand.show_list("Work steps");
    hand.rest();
    let test = rows(&hand).into_iter().find(|row| row.contains("; Test;")).unwrap();
    hand.push(&test);
    hand.rest();
    let at = field(&hand, "Test").rect.center();
    hand.click_screen(at);
    hand.chord(egui::Modifiers::COMMAND, Key::A);
    hand.type_text("Test it with the inspector there: {places}.");
    // Leaving the field takes the words.
    let at = field(&hand, "lines after it").rect.center();
    hand.click_screen(at);
    hand.type_text("Call the office.");
    hand.push("Leave this step out");
    hand.rest();
    let own = hand.job().by_hand.of_step("test").cloned().unwrap();
    assert_eq!(
        own.words.as_deref(),
        Some("Test it with the inspector there: {places}.")
    );
    assert_eq!((own.after, own.left_out), (vec!["Call the office.".to_owned()], true));
    let told = rows(&hand);
    let row = told.iter().find(|row| row.contains(". + Call the office.")).unwrap();
    assert!(row.contains("left out by hand"), "{row}");
    hand.look("by_hand_order");
    hand.push("Restore the original words");
    hand.rest();
    assert_eq!(hand.job().by_hand.of_step("test").unwrap().words, None);
}

#[test]
fn what_an_office_misses_leads_to_its_field() {
    let mut job = house().0.job;
    job.title.site.clear();
    job.title.parcel.clear();
    job.title.owner.clear();
    let mut hand = Hand::on(job);
    hand.show_list("Permit checklist");
    hand.rest();
    hand.look("by_hand_permit");
    let row = rows(&hand)
        .into_iter()
        .find(|row| row.starts_with("missing; job address"))
        .unwrap();
    hand.push(&row);
    hand.wait(|hand| hand.focused().is_some_and(|field| field.words.contains("Job address")));
    hand.look("by_hand_site");
    hand.type_text("14 Example Court");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(hand.job().title.site, "14 Example Court");
}
