//! Parts chosen, moved, deleted, copied and changed.

use crate::hand::{Hand, at};
use egui::{Key, Modifiers, PointerButton, vec2};
use stubout::drawing::tags::Subject;
use stubout::editor::edit::{self, copy, paste};
use stubout::editor::{CommandId, Part, Selection};
use stubout::job::{Job, JointId, LatticePoint, RunId};
use stubout::scene::Vector;
use stubout::units::Length;

fn run(number: u32) -> Part {
    Part::Run(RunId(number))
}

fn joint(number: u32) -> Part {
    Part::Joint(JointId(number))
}

fn place(hand: &Hand, number: u32) -> LatticePoint {
    hand.job().joints.get(JointId(number)).unwrap().at
}

fn chosen(hand: &Hand) -> Vec<Part> {
    hand.editor().selection().iter().collect()
}

#[test]
fn clicks_at_one_place_go_through_what_lies_there() {
    let mut hand = Hand::elbow();
    // Pipe that falls on the same paper as R2, nearer to the viewer.
    let pipe = copy(hand.job(), &[run(2)].into_iter().collect());
    let editor = hand.app_mut().desk_mut().editor_mut();
    editor.edit(|job| paste(job, &pipe, at(3, -3, 7))).unwrap();
    editor.select(Selection::none());
    hand.rest();
    let mut seen = Vec::new();
    for _ in 0..6 {
        hand.click_at(at(5, 0, 4));
        seen.push(chosen(&hand));
    }
    let other: Vec<_> = seen.iter().filter(|parts| **parts != seen[0]).collect();
    assert!(
        !other.is_empty() && seen.iter().all(|parts| parts.len() == 1),
        "{seen:?}"
    );
    let again = seen[1..].iter().position(|parts| *parts == seen[0]);
    assert!(again.is_some(), "they come round again: {seen:?}");
    let before = hand.status();
    hand.chord(Modifiers::SHIFT, Key::Enter);
    assert_ne!(hand.status(), before, "the status line names another thing");
}

#[test]
fn ctrl_and_click_adds_and_takes_away() {
    let mut hand = Hand::elbow();
    hand.click_at(at(0, 0, 2));
    assert_eq!(chosen(&hand), [run(1)]);
    hand.hold(Modifiers::COMMAND);
    hand.click_at(at(6, 0, 4));
    assert_eq!(chosen(&hand), [joint(3), run(1)]);
    hand.click_at(at(6, 0, 4));
    assert_eq!(chosen(&hand), [run(1)]);
    hand.click_at(at(0, -9, 0));
    assert_eq!(chosen(&hand), [run(1)], "a slip beside it loses nothing");
    hand.hold(Modifiers::NONE);
    hand.click_at(at(0, -9, 0));
    assert!(chosen(&hand).is_empty());
}

#[test]
fn a_box_chooses_what_lies_wholly_inside() {
    let mut hand = Hand::elbow();
    let (from, to) = (
        hand.screen(at(0, 0, 5)) - vec2(30.0, 0.0),
        hand.screen(at(0, 0, 0)) + vec2(40.0, 40.0),
    );
    hand.drag_screen(from, to, PointerButton::Primary);
    assert_eq!(chosen(&hand), [joint(1), joint(2), run(1)]);
    // The other way round, with Ctrl: the drop is added.
    hand.hold(Modifiers::COMMAND);
    let (from, to) = (
        hand.screen(at(6, 0, 1)) + vec2(30.0, 30.0),
        hand.screen(at(6, 0, 4)) - vec2(30.0, 30.0),
    );
    hand.drag_screen(from, to, PointerButton::Primary);
    hand.hold(Modifiers::NONE);
    assert_eq!(chosen(&hand).len(), 6);
}

#[test]
fn a_drag_moves_along_an_axis_and_is_one_step() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.drag(at(6, 0, 4), at(8, 0, 4));
    assert_eq!(place(&hand, 3), at(8, 0, 4));
    assert_eq!(place(&hand, 4), at(8, 0, 1), "the drop comes along");
    assert_eq!(hand.editor().undo_name(), Some("Move J3"));
    hand.chord(Modifiers::COMMAND, Key::Z);
    assert_eq!(hand.written(), before);
}

#[test]
fn a_drag_onto_another_joint_is_refused() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.drag(at(6, 0, 4), at(0, 0, 4));
    hand.says("Can't do that: J3 would land on J2");
    assert_eq!(hand.written(), before);
}

#[test]
fn words_are_dragged_and_stay_where_they_were_put() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    let room = |hand: &Hand| {
        let position = hand.job().runs.position(RunId(2)).unwrap();
        let all = &hand.desk().shown().picture.lettered;
        let own = |one: &&stubout::drawing::Lettered| one.subject == Subject::Run(position);
        all.iter().find(own).unwrap().room
    };
    let (from, by) = (room(&hand).center(), Vector::new(-4.0, 18.0));
    let [start, end] = [from, from + by].map(|place| hand.screen_of_paper(place));
    hand.move_to(start);
    hand.says("drag: move its label");
    hand.drag_screen(start, end, PointerButton::Primary);
    hand.rest();
    assert_eq!(hand.editor().undo_name(), Some("Move label"));
    assert!(
        room(&hand).center().distance(from + by) < 0.5,
        "it lies where it was dropped"
    );
    assert_eq!(chosen(&hand), [run(2)]);
    hand.command(CommandId::FreeWords);
    hand.rest();
    assert_eq!(hand.written(), before);
    assert_eq!(room(&hand).center(), from);
}

#[test]
fn escape_in_the_middle_of_a_drag_leaves_nothing() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.point(at(6, 0, 4));
    hand.press();
    hand.point(at(9, 0, 4));
    hand.says("Release: move J3");
    hand.key(Key::Escape);
    hand.point(at(10, 0, 4));
    hand.release();
    assert_eq!(hand.written(), before);
}

#[test]
fn a_drag_that_leaves_the_window_and_comes_back_goes_on() {
    let mut hand = Hand::elbow();
    hand.point(at(6, 0, 4));
    hand.press();
    hand.move_to(egui::pos2(-50.0, 1200.0));
    hand.point(at(8, 0, 4));
    hand.release();
    assert_eq!(place(&hand, 3), at(8, 0, 4));
}

#[test]
fn direction_keys_walk_and_move() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::COMMAND, Key::ArrowRight);
    assert_eq!(chosen(&hand), [joint(1)], "the walk begins at the supply");
    hand.chord(Modifiers::COMMAND, Key::ArrowRight);
    hand.chord(Modifiers::COMMAND, Key::ArrowRight);
    assert_eq!(chosen(&hand), [joint(2)]);
    hand.key(Key::PageUp);
    assert_eq!(
        (place(&hand, 2), place(&hand, 4)),
        (at(0, 0, 5), at(6, 0, 1)),
        "the drop grows"
    );
    hand.chord(Modifiers::COMMAND, Key::ArrowLeft);
    assert_eq!(chosen(&hand), [run(1)]);
}

#[test]
fn all_nothing_and_downstream_are_chosen_by_key_and_by_menu() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::COMMAND, Key::A);
    assert_eq!(chosen(&hand).len(), 7);
    hand.chord(Modifiers::COMMAND | Modifiers::SHIFT, Key::A);
    assert!(chosen(&hand).is_empty());
    hand.click_at(at(0, 0, 4));
    hand.menu("Edit", "Select downstream");
    assert_eq!(chosen(&hand).len(), 5);
}

#[test]
fn delete_leaves_the_gap_and_delete_and_close_does_not() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.click_at(at(3, 0, 4));
    hand.key(Key::Delete);
    assert_eq!(hand.job().runs.len(), 2);
    assert_eq!(place(&hand, 3), at(6, 0, 4));
    hand.menu("Edit", "Undo");
    assert_eq!(hand.written(), before);
    hand.click_at(at(0, 0, 2));
    hand.chord(Modifiers::COMMAND, Key::Delete);
    assert_eq!(hand.job().runs.len(), 2, "{}", hand.status());
    let (joints, up) = (&hand.job().joints, |joint: &stubout::job::Joint| joint.at.up);
    assert_eq!(
        joints.iter().map(up).collect::<Vec<_>>(),
        [0, 0, -3],
        "the rest came down to the supply"
    );
}

#[test]
fn delete_with_nothing_chosen_says_what_to_do_first() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::Delete);
    hand.says("Can't do that: select something first");
    assert_eq!(hand.written(), before);
}

#[test]
fn a_copy_follows_the_pointer_and_hangs_on_pipe() {
    let mut hand = Hand::elbow();
    hand.click_at(at(6, 0, 2));
    hand.chord(Modifiers::COMMAND, Key::C);
    hand.chord(Modifiers::COMMAND, Key::V);
    hand.point(at(2, 0, 4));
    hand.says("put the copy at a tee in R2");
    hand.click();
    assert_eq!(hand.job().runs.len(), 5);
    let before = hand.written();
    // Given up.
    hand.menu("Edit", "Paste");
    hand.point(at(4, 0, 4));
    hand.key(Key::Escape);
    hand.click_at(at(0, -8, 0));
    assert_eq!(hand.written(), before);
}

#[test]
fn cut_pipe_is_put_down_elsewhere() {
    let mut hand = Hand::elbow();
    hand.click_at(at(6, 0, 2));
    hand.chord(Modifiers::COMMAND, Key::X);
    assert_eq!(hand.job().runs.len(), 2);
    hand.chord(Modifiers::COMMAND, Key::V);
    hand.click_at(at(3, 0, 4));
    assert_eq!(hand.job().runs.len(), 4, "it hangs on a tee in R2");
    assert!(hand.job().joints.iter().any(|joint| joint.at == at(3, 0, 1)));
}

#[test]
fn paste_without_a_copy_says_so() {
    let mut hand = Hand::elbow();
    hand.chord(Modifiers::COMMAND, Key::V);
    hand.says("copy something first");
}

#[test]
fn a_branch_is_mirrored_by_the_menu() {
    let mut hand = Hand::elbow();
    hand.click_at(at(6, 0, 2));
    hand.menu("Change", "Mirror up and down");
    assert_eq!(place(&hand, 4), at(6, 0, 7));
    hand.menu("Change", "Mirror up and down");
    assert_eq!(place(&hand, 4), at(6, 0, 1));
}

#[test]
fn a_run_is_split_joined_and_turned() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.click_at(at(4, 0, 4));
    hand.chord(Modifiers::COMMAND, Key::K);
    assert_eq!(hand.job().runs.len(), 4);
    hand.click_at(at(3, 0, 4));
    hand.chord(Modifiers::COMMAND, Key::J);
    assert_eq!(hand.written(), before);
    hand.click_at(at(4, 0, 4));
    hand.chord(Modifiers::COMMAND, Key::R);
    let turned = hand.job().runs.get(RunId(2)).unwrap();
    assert_eq!((turned.from, turned.to), (JointId(3), JointId(2)));
}

#[test]
fn what_is_chosen_is_repeated_as_often_as_asked() {
    let mut hand = Hand::elbow();
    hand.click_at(at(6, 0, 2));
    hand.menu("Change", "Repeat…");
    hand.rest();
    hand.look("repeat");
    assert!(hand.reads("Repeat the selection"));
    hand.key(Key::Escape);
    hand.rest();
    assert!(!hand.reads("Repeat the selection"));
    assert_eq!(hand.job().runs.len(), 3);
    hand.menu("Change", "Repeat…");
    hand.rest();
    hand.key(Key::Enter);
    hand.rest();
    assert!(!hand.reads("Repeat the selection"));
    assert_eq!(hand.job().runs.len(), 4, "one copy, four steps off");
    assert_eq!(
        hand.editor().undo_name().map(|name| name.starts_with("Repeat")),
        Some(true)
    );
}

#[test]
fn another_job_is_opened_while_things_are_in_hand() {
    let mut hand = Hand::elbow();
    hand.point(at(6, 0, 4));
    hand.press();
    hand.point(at(9, 0, 4));
    hand.app_mut().open(Job::default());
    hand.release();
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(*hand.job(), Job::default());
}

/// A typed length is a measurement: a move keeps it and says so, or measures it anew while a key is held.
#[test]
fn a_move_says_what_becomes_of_typed_lengths() {
    let mut hand = Hand::elbow();
    let feet = |hand: &Hand| hand.job().runs.get(RunId(2)).unwrap().length.map(Length::feet);
    let typed = Length::from_feet(18.0);
    let set = |job: &Job| edit::set_runs(job, &[RunId(2)], &edit::RunField::Length(Some(typed)));
    hand.app_mut().desk_mut().editor_mut().edit(set).unwrap();
    hand.rest();
    hand.move_to(hand.screen(at(6, 0, 4)));
    hand.press();
    hand.move_to(hand.screen(at(7, 0, 4)));
    hand.move_to(hand.screen(at(8, 0, 4)));
    hand.says("Release: move J3; 18'-0\" stays: only the drawing changes. Hold Ctrl to re-measure: 20'-0\"");
    hand.look("move_keeps");
    hand.release();
    assert_eq!(feet(&hand), Some(18.0));
    hand.says("Moved on the drawing only; typed lengths: R2 18'-0\" stays");
    hand.move_to(hand.screen(at(8, 0, 4)));
    hand.press();
    hand.hold(Modifiers::COMMAND);
    hand.move_to(hand.screen(at(6, 0, 4)));
    hand.move_to(hand.screen(at(5, 0, 4)));
    hand.says("18'-0\" → 15'-0\"");
    hand.look("move_measures");
    hand.release();
    hand.hold(Modifiers::NONE);
    assert_eq!(feet(&hand), Some(15.0));
    hand.says("Moved and re-measured: R2 18'-0\" → 15'-0\"");
    hand.shortcut(CommandId::Undo);
    assert_eq!(feet(&hand), Some(18.0), "one step");
}

#[test]
fn drawn_lengths_are_arranged_in_one_step_that_is_seen_before_it_is_done() {
    let job = stubout::file::read(include_str!("../jobs/restaurant-row-12.ron")).unwrap();
    let mut hand = Hand::on(job.clone());
    hand.command(CommandId::Arrange);
    hand.rest();
    hand.says("Click or Enter: move ");
    assert!(!hand.editor().hint().ghost.lines.is_empty());
    hand.look("arrange");
    assert_eq!(*hand.job(), job, "it is only shown");
    hand.key(Key::Escape);
    assert_eq!(*hand.job(), job);
    hand.command(CommandId::Arrange);
    hand.key(Key::Enter);
    hand.rest();
    hand.look("arranged");
    let mut arranged = hand.job().clone();
    // With the first step that could change them the letters of outlets are written down.
    for id in arranged.joints.iter().map(|joint| joint.id).collect::<Vec<_>>() {
        if let Some(placed) = &mut arranged.joints.get_mut(id).unwrap().placed {
            placed.letter = None;
        }
    }
    assert_eq!(arranged, stubout::arrange::arrange(&job).job);
    hand.shortcut(CommandId::Undo);
    assert_eq!(*hand.job(), job);
    // What reads already is left as it is, and that is said.
    hand.shortcut(CommandId::Redo);
    hand.app_mut().open(Job::default());
    hand.command(CommandId::Arrange);
    hand.says("cannot be arranged any better");
}
