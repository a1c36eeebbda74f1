//! Will it carry: the lists that answer, marks on the paper, the slider, and ways to mend laid on the job.

use crate::hand::{Hand, Opening};
use crate::old_house::house;
use egui::{Key, Modifiers, Role};
use stubout::advice::Audit;
use stubout::codebook::Codebook;
use stubout::editor::{CommandId, Part};
use stubout::job::RunId;
use stubout::scene::Scene;

fn failing(hand: &Hand) -> usize {
    Audit::of(hand.job(), Codebook::published()).failing().count()
}

/// The rows of the list that is shown.
fn rows(hand: &Hand) -> Vec<String> {
    let widgets = hand.all(Role::ListItem);
    widgets.into_iter().map(|widget| widget.words).collect()
}

#[test]
fn what_stands_is_told_before_and_after_and_leads_to_its_place() {
    let mut hand = Hand::on(house().0.job);
    hand.show_list("Existing");
    hand.rest();
    let told = rows(&hand);
    let first = told.iter().find(|row| row.contains("155 of 284 cfh")).unwrap();
    assert!(
        first.contains("220 of 207 cfh") && first.contains("over capacity after this work"),
        "{first}"
    );
    let first = first.clone();
    hand.push(&first);
    hand.rest();
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(1))));
    hand.look("carry_existing");
}

#[test]
fn a_way_to_mend_is_compared_laid_on_the_job_and_taken_back() {
    let (draft, _) = house();
    let mut hand = Hand::on(draft.job.clone());
    assert_eq!(failing(&hand), 2);
    // Beside a large drawing only the first rows are in view.
    hand.chord(Modifiers::ALT, Key::Num2);
    hand.rest();
    hand.push("Fixes");
    hand.wait(|hand| !rows(hand).is_empty());
    hand.rest();
    let told = rows(&hand);
    let row = |name: &str| {
        told.iter()
            .find(|row| row.starts_with(name))
            .unwrap_or_else(|| panic!("{name}: {told:#?}"))
            .split("; ")
            .collect::<Vec<_>>()
    };
    // Sections too small, and the other parts that fail.
    assert_eq!(row("As drawn")[6..8], ["1", "meter"]);
    // The way goes on with the meter.
    assert_eq!(row("Larger pipe, least length")[6..8], ["none found", "none found"]);
    hand.look("carry_ways");
    hand.push("Larger pipe, least length");
    hand.rest();
    hand.look("carry_way_menu");
    hand.push("Apply to this job");
    hand.rest();
    assert_eq!(
        (failing(&hand), hand.editor().undo_name()),
        (0, Some("Larger pipe, least length"))
    );
    hand.shortcut(CommandId::Undo);
    assert_eq!(hand.job(), &draft.job);
}

#[test]
fn a_way_to_mend_is_opened_as_a_job_of_its_own_once_the_work_is_safe() {
    let (draft, _) = house();
    let mut hand = Hand::on(draft.job.clone());
    hand.show_list("Fixes");
    hand.wait(|hand| !rows(hand).is_empty());
    hand.rest();
    hand.push("New line from the meter");
    hand.rest();
    hand.push("Open as a job of its own");
    hand.rest();
    assert_ne!(hand.job(), &draft.job);
    assert_eq!(failing(&hand), 0);
    assert_eq!(hand.editor().undo_name(), None, "another job");
}

#[test]
fn the_slider_tells_what_fails_and_changes_nothing() {
    let (draft, at) = house();
    let mut hand = Hand::on(draft.job.clone());
    hand.resize(egui::vec2(1280.0, 1100.0));
    hand.app_mut().desk_mut().seek(Part::Joint(at[3]));
    hand.rest();
    assert!(hand.reads("Spare capacity"));
    // The furnace's 3/4 in carries 80 of 151 cfh, but the meter before it 220 of 200.
    assert!(hand.reads("none"), "{:?}", hand.all_words());
    assert!(
        hand.reads("meter at J1 is already over capacity"),
        "{:?}",
        hand.all_words()
    );
    let slider = hand.all(Role::Slider).pop().unwrap();
    hand.click_screen(slider.rect.center());
    hand.rest();
    assert!(hand.reads("Closest to its minimum inlet"), "{:?}", hand.all_words());
    hand.look("carry_slider");
    assert_eq!(hand.job(), &draft.job);
}

#[test]
fn every_place_is_tried_ranked_marked_and_one_click_ties_in() {
    let (mut draft, at) = house();
    draft.job.runs.remove(RunId(6));
    // Wide enough for the tabs in one line, so that rows stand below them.
    let mut hand = Hand::opening(Opening {
        size: egui::vec2(1600.0, 900.0),
        ..Opening::default()
    });
    hand.app_mut().open(draft.job.clone());
    hand.rest();
    hand.show_list("Tie-in");
    hand.wait(|hand| !rows(hand).is_empty());
    let told = rows(&hand);
    assert!(told[0].starts_with("rank 1"), "{told:?}");
    hand.look("carry_tie_in");
    let offer = |hand: &Hand| {
        let buttons = hand.all(Role::Button).into_iter();
        buttons
            .map(|button| button.words)
            .find(|words| words.starts_with("Tie in at "))
            .unwrap()
    };
    let best = offer(&hand);
    hand.push(&told[1].clone());
    hand.rest();
    assert_ne!(offer(&hand), best, "the row that is chosen");
    hand.look("carry_tie_in_chosen");
    let third = offer(&hand);
    hand.push(&third);
    hand.rest();
    let grill = hand.job().joints.position(at[6]).unwrap();
    assert!(
        hand.desk().shown().checked.study.joints[grill].distance.is_some(),
        "{}",
        hand.status()
    );
    assert_eq!(hand.editor().undo_name(), Some("Tie in the branch"));
    hand.rest();
    assert!(
        hand.reads("Draw the new branch apart"),
        "nothing is apart now: {:?}",
        hand.all_words()
    );
    hand.shortcut(CommandId::Undo);
    assert_eq!(hand.job(), &draft.job);
}

#[test]
fn take_off_and_cut_list_lead_to_their_places() {
    let (draft, _) = house();
    let mut hand = Hand::on(draft.job.clone());
    hand.show_list("Take-off");
    hand.rest();
    let first = hand.all(Role::ListItem)[0].rect.center();
    hand.move_to(first);
    // 10 ft of removed 1/2 in, below all that is bought.
    let mut seen = Vec::new();
    let removed = (0..40).find_map(|_| {
        hand.wheel(-3.0);
        hand.rest();
        seen = rows(&hand);
        let row = seen.iter().find(|row| row.contains("Remove") && row.contains("pipe"));
        row.cloned()
    });
    let removed = removed.unwrap_or_else(|| panic!("{seen:?}"));
    // Wholly into view.
    hand.wheel(-3.0);
    hand.rest();
    assert!(removed.starts_with("quantity 10'-0\""), "{removed}");
    hand.push(&removed);
    hand.rest();
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(5))));
    hand.push("Cut list");
    hand.rest();
    hand.look("carry_cuts");
    let told = rows(&hand);
    assert!(
        told.iter().all(|row| row.starts_with("P1")),
        "one piece in its parts: {told:?}"
    );
    // 65 ft are more than three sticks of 21 ft.
    assert_eq!(told.len(), 4, "{told:?}");
    // The paper has the marks of the list for as long as the list is shown.
    let labels = |hand: &Hand| {
        let mut scene = Scene::new(1.0, 1.0, "");
        scene.push(hand.app().desk().seen().picture.group.clone());
        scene.words().iter().any(|words| words.starts_with("P1 "))
    };
    assert!(labels(&hand));
    hand.push("Sections 5");
    hand.rest();
    assert!(!labels(&hand));
}
