//! Pipe drawn and things placed, wrong moves among them: what the status line says, and what becomes of the job.

use crate::hand::{Hand, at};
use egui::{Key, Modifiers};
use stubout::editor::CommandId;
use stubout::editor::tool::{Draw, Tool};
use stubout::job::{Device, Job, JointId, LatticePoint, MeasuredOffset, RunId, State, Surroundings};
use stubout::units::{Angle, Length, NominalSize};

/// Where the pencil stands, when it is down.
fn pencil(hand: &Hand) -> Option<LatticePoint> {
    match hand.editor().tool() {
        Tool::Draw(Draw::Drawing(pencil)) => Some(pencil.start.at),
        _ => None,
    }
}

fn places(hand: &Hand) -> Vec<LatticePoint> {
    hand.job().joints.iter().map(|joint| joint.at).collect()
}

#[test]
fn a_line_is_drawn_with_the_mouse_and_seen() {
    let mut hand = Hand::new();
    assert_eq!(hand.ink_at(at(0, 0, 2)), 0);
    hand.shelf("Point of delivery");
    hand.click_at(at(0, 0, 0));
    hand.shelf("Draw pipe");
    hand.click_at(at(0, 0, 0));
    hand.point(at(0, 0, 5));
    hand.says("draw 5'-0\" up");
    hand.click();
    assert_eq!(hand.job().runs.len(), 1);
    hand.menu("Draw", "Select and move");
    hand.rest();
    hand.look("first_line");
    assert!(hand.ink_at(at(0, 0, 2)) > 25, "the pipe is black");
    assert!(hand.picture() == hand.picture(), "the same bit for bit");
}

#[test]
fn a_line_is_drawn_with_keys_alone() {
    let mut hand = Hand::new();
    hand.key(Key::D);
    hand.key(Key::Enter);
    hand.key(Key::PageUp);
    hand.type_text("12-6");
    hand.says("Enter: draw 12'-6\" up to a new joint");
    hand.key(Key::Enter);
    hand.key(Key::ArrowRight);
    hand.key(Key::Space);
    hand.key(Key::Space);
    hand.says("draw 3'-0\" east");
    hand.chord(Modifiers::SHIFT, Key::Space);
    hand.says("draw 2'-0\" east");
    hand.key(Key::Enter);
    hand.key(Key::Escape);
    hand.key(Key::Escape);
    let lengths: Vec<_> = hand.job().runs.iter().map(|run| run.length).collect();
    assert_eq!(lengths, [Some(Length::from_inches(150.0)), None]);
    assert_eq!(places(&hand)[2], places(&hand)[1] + (at(2, 0, 0) - at(0, 0, 0)));
    assert!(matches!(hand.editor().tool(), Tool::Choose(_)));
}

#[test]
fn a_press_a_drag_and_a_release_lay_a_run() {
    let mut hand = Hand::new();
    hand.shelf("Draw pipe");
    hand.drag(at(1, 0, 0), at(6, 0, 0));
    assert_eq!(places(&hand), [at(1, 0, 0), at(6, 0, 0)]);
    assert_eq!(pencil(&hand), Some(at(6, 0, 0)), "the line goes on");
    hand.click_at(at(6, 0, 0));
    assert_eq!(pencil(&hand), None, "a click where it stands ends it");
}

#[test]
fn a_wrong_length_is_explained_and_kept_until_it_is_mended() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.type_text("3 furlongs");
    hand.says("give a direction");
    hand.key(Key::PageDown);
    hand.says("`furlongs` is not known");
    hand.key(Key::Enter);
    hand.says("Can't do that:");
    assert_eq!(hand.written(), before, "nothing is laid");
    assert_eq!(hand.editor().tool().typed(), "3 furlongs", "nothing typed is lost");
    for _ in 0..8 {
        hand.key(Key::Backspace);
    }
    hand.type_text("m");
    hand.key(Key::Enter);
    let laid = hand.job().runs.iter().next_back().unwrap();
    assert_eq!(laid.length, Some(Length::from_metres(3.0)));
}

#[test]
fn nothing_and_more_than_the_world_are_no_lengths() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.key(Key::PageDown);
    for (typed, words) in [
        ("0", "greater than zero"),
        ("-4'", ""),
        ("1e99 mi", ""),
        ("99999999999999999999", ""),
    ] {
        hand.type_text(typed);
        hand.key(Key::Enter);
        hand.says("Can't do that:");
        hand.says(words);
        assert_eq!(hand.written(), before, "{typed}");
        hand.key(Key::Escape);
        assert_eq!(hand.editor().tool().typed(), "");
        assert_eq!(pencil(&hand), Some(at(6, 0, 1)), "the pencil is still down");
    }
}

#[test]
fn backspace_takes_back_leg_after_leg_and_then_the_start() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::D);
    for place in [at(3, 0, 4), at(3, 4, 4), at(3, 4, 8)] {
        hand.click_at(place);
    }
    hand.type_text("9");
    hand.key(Key::Backspace);
    assert_eq!(hand.job().runs.len(), 6, "only the typed figure went");
    hand.key(Key::Backspace);
    assert_eq!(pencil(&hand), Some(at(3, 4, 4)));
    hand.chord(Modifiers::COMMAND, Key::Z);
    assert_eq!(pencil(&hand), Some(at(3, 0, 4)), "undo does the same");
    hand.key(Key::Backspace);
    assert_eq!(pencil(&hand), None);
    assert_eq!(hand.written(), before, "what was there before stays");
}

#[test]
fn escape_leads_out_step_by_step() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.type_text("7");
    hand.key(Key::Escape);
    assert_eq!(hand.editor().tool().typed(), "");
    hand.key(Key::Escape);
    assert!(matches!(hand.editor().tool(), Tool::Draw(Draw::Seeking(_))));
    hand.key(Key::Escape);
    assert!(matches!(hand.editor().tool(), Tool::Choose(_)));
    hand.key(Key::Escape);
    assert!(hand.editor().selection().is_empty());
    assert_eq!(hand.written(), before);
}

#[test]
fn a_click_in_the_middle_of_a_run_starts_a_tee() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.point(at(3, 0, 4));
    hand.says("Click or Enter: pipe starts at a tee in R2");
    hand.click();
    hand.click_at(at(3, -5, 4));
    let tee = hand
        .job()
        .joints
        .iter()
        .find(|joint| joint.at == at(3, 0, 4))
        .unwrap()
        .id;
    let ends = hand.job().runs.iter().filter(|run| run.from == tee || run.to == tee);
    assert_eq!(ends.count(), 3);
}

#[test]
fn a_line_that_reaches_pipe_ends_there() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.level(4);
    hand.click_at(at(3, 5, 4));
    hand.point(at(3, 0, 4));
    hand.says("to a tee in R2");
    hand.click();
    assert_eq!(pencil(&hand), None);
    assert_eq!(hand.job().runs.len(), 5);
}

#[test]
fn with_shift_held_pipe_runs_at_45_degrees_in_the_plane_shown() {
    let mut hand = Hand::new();
    hand.key(Key::D);
    hand.click_at(at(0, 0, 0));
    hand.chord(Modifiers::COMMAND, Key::Num2);
    hand.hold(Modifiers::SHIFT);
    hand.click_at(at(4, 0, 4));
    hand.hold(Modifiers::NONE);
    hand.chord(Modifiers::COMMAND, Key::Num1);
    hand.hold(Modifiers::SHIFT);
    hand.click_at(at(7, 3, 4));
    hand.hold(Modifiers::NONE);
    hand.click_at(at(7, 3, 9));
    assert_eq!(places(&hand), [at(0, 0, 0), at(4, 0, 4), at(7, 3, 4), at(7, 3, 9)]);
}

#[test]
fn a_rolling_offset_is_typed_by_rise_roll_and_angle() {
    let mut hand = Hand::new();
    hand.key(Key::D);
    hand.click_at(at(0, 0, 0));
    hand.click_at(at(4, 0, 0));
    hand.level(1);
    // Shift is let go before anything is typed, and the hand is not quite still.
    hand.hold(Modifiers::SHIFT);
    hand.point(at(6, 1, 1));
    hand.says("rise x roll @ angle");
    hand.hold(Modifiers::NONE);
    hand.type_text("8\"x12\"");
    hand.says("rise and roll alone do not give its angle");
    hand.type_text("@45");
    hand.point(at(6, 1, 1));
    hand.says("draw 1'-8 3/8\"");
    hand.look("offset_typed");
    hand.key(Key::Enter);
    assert_eq!(places(&hand), [at(0, 0, 0), at(4, 0, 0), at(6, 1, 1)]);
    let measured = MeasuredOffset {
        rise: Length::from_inches(8.0),
        roll: Length::from_inches(12.0),
        run: None,
        angle: Some(Angle::from_degrees(45.0)),
    };
    let run = hand.job().runs.get(RunId(2)).unwrap().clone();
    assert_eq!((run.offset, run.length), (Some(measured), None));
    // Along an axis there is none.
    hand.hold(Modifiers::NONE);
    hand.point(at(9, 1, 1));
    hand.key(Key::PageDown);
    hand.type_text("8\"x12\"@45");
    hand.says("an offset is drawn off the axes");
}

#[test]
fn pipe_neither_starts_at_an_appliance_nor_runs_through_joints() {
    let mut hand = Hand::elbow();
    hand.shelf("Other appliance");
    hand.click_at(at(6, 0, 1));
    let before = hand.written();
    hand.shelf("Draw pipe");
    hand.click_at(at(6, 0, 1));
    hand.says("Can't do that: J4 has an appliance, which has no end for another pipe");
    assert_eq!(pencil(&hand), None);
    hand.level(4);
    hand.click_at(at(-2, 0, 4));
    hand.point(at(4, 0, 4));
    hand.says("through J2");
    assert!(hand.editor().hint().ghost.refused);
    hand.click();
    hand.says("Can't do that:");
    assert_eq!(hand.written(), before);
}

#[test]
fn refused_places_say_why_and_change_nothing() {
    let mut hand = Hand::elbow();
    let before = hand.written();
    for (thing, place, why) in [
        ("Shutoff valve", at(0, 0, 0), "J1 has a point of delivery already"),
        ("Shutoff valve", at(0, -8, 0), "goes in pipe or at its end"),
        ("Note", at(3, 0, 4), "point at one"),
        ("Exterior wall", at(0, -8, 0), "point at a run of pipe"),
    ] {
        hand.shelf(thing);
        hand.click_at(place);
        hand.says("Can't do that:");
        hand.says(why);
        assert_eq!(hand.written(), before, "{thing}");
    }
    hand.key(Key::Escape);
    assert!(matches!(hand.editor().tool(), Tool::Choose(_)));
}

#[test]
fn a_valve_is_put_into_the_line_and_the_pencil_comes_back() {
    let mut hand = Hand::elbow();
    hand.shelf("Draw pipe");
    hand.click_at(at(3, 0, 4));
    hand.click_at(at(3, 2, 4));
    hand.shelf("Shutoff valve");
    hand.click_at(at(3, 2, 4));
    assert_eq!(pencil(&hand), Some(at(3, 2, 4)), "the line goes on behind the valve");
    hand.click_at(at(3, 5, 4));
    let valve = hand.job().joints.iter().find(|joint| joint.at == at(3, 2, 4)).unwrap();
    assert!(matches!(valve.device(), Some(Device::Valve(_))));
    assert_eq!(
        hand.job()
            .runs
            .iter()
            .filter(|run| run.from == valve.id || run.to == valve.id)
            .count(),
        2
    );
}

#[test]
fn a_wall_stands_where_one_points_or_as_far_along_as_is_typed() {
    let mut hand = Hand::elbow();
    hand.shelf("Exterior wall");
    hand.point(at(4, 0, 4));
    hand.says("Exterior wall on R2, 4'-0\" along");
    hand.click();
    hand.key(Key::Escape);
    hand.shelf("Floor");
    hand.point(at(0, 0, 2));
    hand.type_text("1-3");
    hand.key(Key::Enter);
    let passages = |hand: &Hand, run| hand.job().runs.get(RunId(run)).unwrap().penetrations.clone();
    assert_eq!(passages(&hand, 2)[0].at, Some(Length::from_feet(4.0)));
    assert_eq!(passages(&hand, 1)[0].at, Some(Length::from_inches(15.0)));
    hand.shelf("Floor");
    hand.point(at(0, 0, 3));
    hand.type_text("99'");
    hand.key(Key::Enter);
    hand.says("R1 is not that long");
    assert_eq!(passages(&hand, 1).len(), 1);
}

#[test]
fn a_note_is_typed_with_every_key_that_writes() {
    let mut hand = Hand::elbow();
    hand.shelf("Note");
    hand.point(at(6, 0, 4));
    hand.type_text("Fürs Erste: 3/4 in, \"temp\" - ask A+B ½ way");
    hand.key(Key::Enter);
    let note = &hand.job().notes[0];
    assert_eq!(note.text, "Fürs Erste: 3/4 in, \"temp\" - ask A+B ½ way");
    assert_eq!(note.at, JointId(3));
}

#[test]
fn ctrl_goes_on_placing() {
    let mut hand = Hand::elbow();
    hand.shelf("Shutoff valve");
    hand.hold(Modifiers::COMMAND);
    hand.click_at(at(2, 0, 4));
    hand.click_at(at(4, 0, 4));
    hand.hold(Modifiers::NONE);
    let valves = hand
        .job()
        .joints
        .iter()
        .filter(|joint| matches!(joint.device(), Some(Device::Valve(_))));
    assert_eq!(valves.count(), 2);
    hand.key(Key::Escape);
}

#[test]
fn undone_to_the_start_and_done_again_the_file_is_the_same_to_the_byte() {
    let blank = stubout::file::write(&Job::default());
    let mut hand = Hand::elbow();
    hand.shelf("Other appliance");
    hand.click_at(at(6, 0, 1));
    let end = hand.written();
    let mut steps = 0;
    while hand.editor().can(CommandId::Undo) {
        hand.chord(Modifiers::COMMAND, Key::Z);
        steps += 1;
    }
    assert_eq!(hand.written(), blank);
    assert!(hand.editor().is_saved());
    hand.chord(Modifiers::COMMAND, Key::Z);
    hand.says("no step has been made yet");
    for step in 0..steps {
        let held = if step % 2 == 0 {
            Modifiers::COMMAND | Modifiers::SHIFT
        } else {
            Modifiers::COMMAND
        };
        hand.chord(held, if step % 2 == 0 { Key::Z } else { Key::Y });
    }
    assert_eq!(hand.written(), end);
}

#[test]
fn the_strip_and_the_ghost_say_what_the_pencil_is_like_and_a_new_job_starts_clean() {
    let mut hand = Hand::elbow();
    assert!(!hand.reads("Pencil"), "it is there while pipe is drawn");
    hand.key(Key::D);
    hand.frame();
    let panel = |hand: &Hand| hand.field("Title block…").rect;
    let before = panel(&hand);
    assert!(hand.reads("Pencil") && hand.widget("new").is_on);
    hand.push("existing");
    hand.push("Pencil: Location");
    hand.rest();
    hand.push("outdoors");
    hand.rest();
    hand.push("Pencil: Size");
    hand.rest();
    hand.push("3/4\"");
    hand.rest();
    hand.push("coated");
    hand.rest();
    assert_eq!(panel(&hand), before, "nothing beside the paper has moved");
    assert!(
        hand.focused().is_none_or(|focused| focused.role == egui::Role::Canvas),
        "{:?}",
        hand.focused()
    );
    hand.click_at(at(6, 0, 1));
    hand.point(at(6, 5, 1));
    hand.rest();
    hand.look("pencil");
    hand.type_text("4");
    hand.key(Key::Enter);
    let laid = hand.job().runs.iter().next_back().unwrap();
    assert_eq!(
        (laid.state, laid.surroundings, laid.coated),
        (State::Existing, Surroundings::Outdoors, true)
    );
    assert_eq!(
        (laid.size, laid.length),
        (Some(NominalSize::Inch(12)), Some(Length::from_feet(4.0)))
    );
    hand.app_mut().open(Job::default());
    hand.key(Key::D);
    hand.rest();
    assert!(hand.widget("new").is_on);
    assert_eq!(hand.widget("Pencil: Location").value, "exposed indoors");
    assert_eq!(hand.widget("Pencil: Size").value, "size: to be sized");
}

/// In mid-line something is set beside the paper; who then comes back to it types the length of the run.
#[test]
fn the_paper_has_the_keyboard_again_when_the_pointer_comes_back_with_a_line_in_hand() {
    let mut hand = Hand::elbow();
    hand.key(Key::D);
    hand.click_at(at(6, 0, 1));
    hand.push("Basis of sizing: change");
    hand.rest();
    let field = hand.field("Elevation above sea level").rect.center();
    hand.click_screen(field);
    hand.type_text("900");
    hand.key(Key::Tab);
    hand.rest();
    assert!(hand.focused().is_some_and(|focused| focused.role != egui::Role::Canvas));
    let (settings, runs) = (hand.job().settings.clone(), hand.job().runs.len());
    assert_eq!(settings.altitude, Some(Length::from_feet(900.0)));
    hand.point(at(6, 4, 1));
    hand.type_text("7");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(hand.job().runs.len(), runs + 1);
    let laid = hand.job().runs.iter().next_back().unwrap();
    assert_eq!(laid.length, Some(Length::from_feet(7.0)));
    assert_eq!(
        hand.job().settings,
        settings,
        "no key has changed what the eye was not on"
    );
}

/// In a slow frame Alt is up again before what was pressed with it is heard as a letter.
#[test]
fn a_figure_pressed_with_alt_is_no_length_though_alt_is_up_by_the_end_of_the_frame() {
    let mut hand = Hand::on(Job::default());
    hand.key(Key::D);
    hand.key(Key::Enter);
    hand.key(Key::ArrowRight);
    for pressed in [true, false] {
        hand.send(egui::Event::Key {
            key: Key::Num9,
            physical_key: None,
            pressed,
            repeat: false,
            modifiers: Modifiers::ALT,
        });
    }
    hand.send(egui::Event::Text("9".to_owned()));
    hand.frame();
    assert_eq!(hand.editor().tool().typed(), "");
}
