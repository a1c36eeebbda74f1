//! Short stories, wrong moves among them: what a person does, what the status line says, what becomes of the job.

use crate::hand::{Hand, VIEW, at};
use stubout::editor::tool::Tool;
use stubout::editor::{
    Arrow, CommandId, Facing, Held, Input, Item, Key, Outcome, Part, Pointer, Selection, Toward, Words, edit,
};
use stubout::job::{Axis, Device, DeviceKind, Job, JointId, RunId, State, Surroundings, WordsAt};
use stubout::scene::{Point, Rect, Vector};
use stubout::units::{Length, NominalSize};

const ADD: Held = Held { add: true, skew: false };
const SKEW: Held = Held { add: false, skew: true };

/// A supply, a riser of four steps, six steps to the right, then three down.
fn elbow() -> Hand {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::Place(Item::Device(DeviceKind::Supply)));
    hand.click_at(at(0, 0, 0));
    hand.run(CommandId::DrawPipe);
    for place in [at(0, 0, 0), at(0, 0, 4), at(6, 0, 4), at(6, 0, 1)] {
        hand.click_at(place);
    }
    hand.key(Key::Escape);
    hand.key(Key::Escape);
    hand.run(CommandId::ChooseNothing);
    assert_eq!((hand.editor.job().runs.len(), hand.editor.job().joints.len()), (3, 4));
    hand
}

fn run(number: u32) -> Part {
    Part::Run(RunId(number))
}

fn joint(number: u32) -> Part {
    Part::Joint(JointId(number))
}

fn only(part: Part) -> Selection {
    [part].into_iter().collect()
}

#[test]
fn press_drag_release_lays_a_run_and_a_click_where_the_pencil_stands_ends_the_line() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::DrawPipe);
    hand.drag(at(1, 0, 0), at(5, 0, 0));
    assert_eq!(hand.editor.job().runs.len(), 1);
    assert_eq!(hand.pencil(), Some(at(5, 0, 0)), "the line goes on");
    hand.click_at(at(5, 0, 0));
    assert_eq!(hand.pencil(), None);
    assert_eq!(hand.editor.selection().single(), Some(joint(2)), "its end is chosen");
}

#[test]
fn a_click_at_the_edge_of_a_large_symbol_starts_there_and_lays_nothing() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::Place(Item::Device(DeviceKind::Supply)));
    hand.click_at(at(1, 0, 0));
    hand.run(CommandId::ChooseNothing);
    hand.run(CommandId::DrawPipe);
    // The symbol is hit a little more than half a step off its place.
    let edge = Pointer {
        at: VIEW.point(at(1, 0, 0)) + Vector::new(VIEW.step * 0.56, 0.0),
        hits: vec![joint(1)],
        words: None,
    };
    hand.editor.handle(Input::Pointer(edge));
    hand.click();
    assert!(hand.editor.job().runs.is_empty(), "{}", hand.editor.status());
    assert_eq!(hand.pencil(), Some(at(1, 0, 0)));
}

#[test]
fn an_appliance_pointed_a_little_short_of_an_open_end_goes_to_the_end() {
    let mut hand = elbow();
    hand.run(CommandId::Place(Item::Device(DeviceKind::Appliance)));
    // The last run comes down from (6, 0, 4) to (6, 0, 1).
    hand.point(at(6, 0, 2));
    assert!(hand.means(at(6, 0, 1)), "{}", hand.editor.status());
    hand.click();
    let job = hand.editor.job();
    let end = job.joints.iter().find(|joint| joint.at == at(6, 0, 1)).unwrap();
    assert!(matches!(end.device(), Some(Device::Appliance(_))));
    // In the middle of a run without an open end beside, it is still refused in words.
    hand.run(CommandId::Place(Item::Device(DeviceKind::Appliance)));
    hand.click_at(at(3, 0, 4));
    hand.says("one end");
}

/// Whoever puts an appliance elsewhere has left the line in hand; a valve on its pipe does not end it.
#[test]
fn an_appliance_put_elsewhere_ends_the_line_in_hand_and_a_valve_does_not() {
    for (item, pencil) in [(DeviceKind::Valve, Some(at(3, 3, 4))), (DeviceKind::Appliance, None)] {
        let mut hand = elbow();
        hand.run(CommandId::DrawPipe);
        hand.click_at(at(3, 0, 4));
        hand.click_at(at(3, 3, 4));
        assert_eq!(hand.pencil(), Some(at(3, 3, 4)));
        hand.run(CommandId::Place(Item::Device(item)));
        let place = if pencil.is_none() { at(6, 0, 1) } else { at(3, 1, 4) };
        hand.click_at(place);
        assert_eq!(hand.pencil(), pencil, "{item:?}: {}", hand.editor.status());
        let placed = hand.editor.selection().single();
        assert!(placed.is_some(), "what was placed takes its figures: {item:?}");
    }
}

#[test]
fn the_status_line_says_what_a_click_will_do() {
    let mut hand = elbow();
    hand.run(CommandId::DrawPipe);
    hand.point(at(3, 0, 4));
    hand.says("Click or Enter: pipe starts at a tee in R2");
    hand.click();
    hand.point(at(3, -5, 4));
    hand.says("Click or Enter: draw 5'-0\" south to a new joint");
    hand.type_text("7-6");
    hand.says("Enter: draw 7'-6\" south to a new joint, as shown");
}

#[test]
fn a_length_is_typed_at_any_moment_and_a_wrong_one_is_kept_and_explained() {
    let mut hand = elbow();
    let before = hand.editor.job().clone();
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(6, 0, 1));
    hand.type_text("3 furlongs");
    hand.says("give a direction");
    hand.key(Key::Way(Toward::East));
    hand.says("`furlongs` is not known");
    hand.key(Key::Enter);
    assert_eq!(*hand.editor.job(), before, "nothing is laid");
    assert_eq!(hand.editor.tool().typed(), "3 furlongs", "nothing typed is lost");
    hand.key(Key::Escape);
    hand.type_text("0");
    hand.key(Key::Enter);
    hand.says("greater than zero");
    hand.key(Key::Backspace);
    hand.type_text("2.5 m");
    hand.key(Key::Enter);
    let laid = hand.editor.job().runs.iter().next_back().unwrap();
    assert_eq!(laid.length, Some(Length::from_metres(2.5)));
    let end = hand.editor.job().joints.get(laid.to).unwrap().at;
    assert_eq!(end, at(14, 0, 1), "8.2 ft are drawn eight steps long");
}

#[test]
fn backspace_takes_back_leg_after_leg_and_then_the_start() {
    let mut hand = elbow();
    let before = hand.editor.job().clone();
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(3, 0, 4));
    hand.click_at(at(3, 4, 4));
    hand.click_at(at(3, 4, 8));
    hand.type_text("9");
    hand.key(Key::Backspace);
    assert_eq!(hand.editor.job().runs.len(), 6, "only the typed figure went");
    hand.key(Key::Backspace);
    assert_eq!(hand.pencil(), Some(at(3, 4, 4)));
    hand.run(CommandId::Undo);
    assert_eq!(hand.pencil(), Some(at(3, 0, 4)), "undo does the same");
    assert_eq!(*hand.editor.job(), before);
    hand.key(Key::Backspace);
    assert_eq!(hand.pencil(), None);
    assert_eq!(
        *hand.editor.job(),
        before,
        "what was there before is not taken back by accident"
    );
}

#[test]
fn a_line_that_reaches_pipe_ends_there_as_a_tee() {
    let mut hand = elbow();
    hand.run(CommandId::DrawPipe);
    hand.level(4);
    hand.click_at(at(3, 5, 4));
    hand.point(at(3, 0, 4));
    hand.says("to a tee in R2");
    hand.click();
    assert_eq!(hand.pencil(), None);
    let tee = hand
        .editor
        .job()
        .joints
        .iter()
        .find(|joint| joint.at == at(3, 0, 4))
        .unwrap()
        .id;
    let ends = hand
        .editor
        .job()
        .runs
        .iter()
        .filter(|run| run.from == tee || run.to == tee);
    assert_eq!(ends.count(), 3);
}

#[test]
fn forty_five_degree_lines_lie_in_the_plane_shown() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(0, 0, 0));
    hand.hold(SKEW);
    hand.run(CommandId::Plane(Facing::EastUpright));
    hand.click_at(at(4, 0, 4));
    let ends = |hand: &Hand| {
        hand.editor
            .job()
            .joints
            .iter()
            .map(|joint| joint.at)
            .collect::<Vec<_>>()
    };
    assert_eq!(ends(&hand), [at(0, 0, 0), at(4, 0, 4)]);
    hand.run(CommandId::Plane(Facing::Level));
    hand.click_at(at(7, 3, 4));
    assert_eq!(ends(&hand)[2], at(7, 3, 4));
    // The same by keys: with the held key the end goes one step that way.
    hand.key(Key::Escape);
    hand.run(CommandId::DrawPipe);
    hand.key(Key::Enter);
    hand.hold(Held::default());
    hand.key(Key::Way(Toward::South));
    hand.key(Key::Way(Toward::South));
    hand.hold(SKEW);
    hand.key(Key::Way(Toward::Down));
    hand.says("Enter: draw 2'-2 13/16\" off the axes (1 down, 2 south) to a new joint");
    hand.key(Key::Way(Toward::Down));
    hand.key(Key::Enter);
    assert_eq!(ends(&hand)[3], at(7, 1, 2));
}

#[test]
fn arrows_draw_in_the_plane_in_hand_and_the_space_bar_lengthens() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::DrawPipe);
    hand.key(Key::Enter);
    hand.key(Key::Arrow(Arrow::Up));
    hand.type_text("  ");
    hand.says("draw 3'-0\" north");
    hand.key(Key::Arrow(Arrow::Down));
    hand.says("draw 2'-0\" north");
    hand.run(CommandId::Plane(Facing::EastUpright));
    hand.key(Key::Arrow(Arrow::Up));
    hand.says("draw 1'-0\" up to a new joint");
    hand.key(Key::Arrow(Arrow::Right));
    hand.says("draw 1'-0\" east");
    hand.run(CommandId::Plane(Facing::NorthUpright));
    hand.key(Key::Arrow(Arrow::Right));
    hand.says("draw 1'-0\" north");
    hand.key(Key::Way(Toward::Down));
    hand.says("draw 1'-0\" down to a new joint");
}

#[test]
fn undo_and_redo_go_leg_by_leg_whatever_else_was_done_on_the_way() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::Place(Item::Device(DeviceKind::Supply)));
    hand.key(Key::Enter);
    hand.run(CommandId::DrawPipe);
    hand.key(Key::Enter);
    for toward in [Toward::Up, Toward::East] {
        hand.key(Key::Way(toward));
        hand.type_text("4");
        hand.key(Key::Enter);
    }
    hand.run(CommandId::Place(Item::Device(DeviceKind::Valve)));
    hand.key(Key::Enter);
    assert_eq!(hand.pencil(), Some(at(4, 0, 4)));
    hand.run(CommandId::Undo);
    assert_eq!(hand.pencil(), Some(at(4, 0, 4)), "the valve is gone, the line goes on");
    hand.run(CommandId::Undo);
    assert_eq!(hand.pencil(), Some(at(0, 0, 4)), "the last leg is gone");
    hand.run(CommandId::Redo);
    assert_eq!(hand.pencil(), Some(at(4, 0, 4)), "the leg is there again");
    hand.key(Key::Backspace);
    assert_eq!(hand.pencil(), Some(at(0, 0, 4)));
    hand.run(CommandId::Undo);
    assert_eq!(hand.pencil(), Some(at(0, 0, 0)));
    assert!(hand.editor.job().runs.is_empty());
}

#[test]
fn a_size_is_typed_after_a_comma_and_stays_with_the_pencil_until_it_turns() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::State(State::Existing));
    hand.says("The pipe that you draw next is existing");
    hand.run(CommandId::DrawPipe);
    hand.key(Key::Enter);
    hand.key(Key::Way(Toward::East));
    hand.says("with its size after a comma");
    hand.type_text("15, 3/4");
    hand.says("draw 15'-0\" east");
    hand.key(Key::Enter);
    hand.key(Key::Way(Toward::Up));
    hand.type_text("8");
    hand.key(Key::Enter);
    let run = |hand: &Hand, at: usize| hand.editor.job().runs.at(at).clone();
    let size = Some(NominalSize::Inch(12));
    assert_eq!((run(&hand, 0).size, run(&hand, 1).size), (size, size));
    assert_eq!(run(&hand, 0).length, Some(Length::from_feet(15.0)));
    assert_eq!(
        hand.editor.selection().single(),
        Some(Part::Run(run(&hand, 1).id)),
        "the hand shows what it laid"
    );
    hand.run(CommandId::State(State::New));
    assert_eq!(hand.editor.pen().size, None, "new pipe is sized");
    hand.key(Key::Way(Toward::Up));
    hand.type_text("2,big");
    hand.key(Key::Enter);
    hand.says("is not a pipe size");
    assert_eq!(hand.editor.job().runs.len(), 2);
}

#[test]
fn what_ends_a_line_is_chosen_and_the_pencil_looks_for_another_start() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::DrawPipe);
    hand.key(Key::Enter);
    hand.key(Key::Way(Toward::East));
    hand.key(Key::Enter);
    hand.run(CommandId::Place(Item::Device(DeviceKind::Appliance)));
    hand.key(Key::Enter);
    assert_eq!(hand.editor.selection().single(), Some(joint(2)));
    assert_eq!(hand.pencil(), None);
    hand.says("Point where the next pipe starts");
    assert!(!hand.editor.takes_text() && !hand.editor.hint().ghost.refused);
}

#[test]
fn pipe_does_not_start_at_an_appliance_or_run_through_joints() {
    let mut hand = elbow();
    hand.run(CommandId::Place(Item::Device(DeviceKind::Appliance)));
    hand.click_at(at(6, 0, 1));
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(6, 0, 1));
    hand.says("J4 has an appliance, which has no end for another pipe");
    assert_eq!(hand.pencil(), None);
    hand.level(4);
    hand.click_at(at(-2, 0, 4));
    hand.point(at(4, 0, 4));
    hand.says("through J2");
    assert!(hand.editor.hint().ghost.refused);
}

#[test]
fn clicks_at_one_place_go_through_what_lies_there() {
    let mut hand = elbow();
    // Pipe that falls on the same paper as R2, nearer to the viewer.
    hand.editor
        .edit(|job| {
            let pipe = edit::copy(job, &only(run(2)));
            edit::paste(job, &pipe, at(3, -3, 7))
        })
        .unwrap();
    hand.editor.select(Selection::none());
    let mut seen = Vec::new();
    for _ in 0..3 {
        hand.click_at(at(2, 0, 4));
        seen.push(hand.editor.selection().single().unwrap());
    }
    assert!(seen[0] != seen[1] && seen[0] == seen[2], "{seen:?}");
    hand.hold(ADD);
    hand.click_at(at(0, 0, 4));
    assert_eq!(hand.editor.selection().len(), 2);
    hand.click_at(at(0, 0, 4));
    assert_eq!(hand.editor.selection().len(), 1);
    hand.hold(Held::default());
    hand.click_at(at(0, -9, 0));
    assert!(hand.editor.selection().is_empty());
}

#[test]
fn a_box_chooses_what_lies_wholly_inside() {
    let mut hand = elbow();
    hand.point_paper(VIEW.point(at(0, 0, 5)) - Vector::new(5.0, 0.0));
    hand.press();
    hand.point_paper(VIEW.point(at(0, 0, 0)) + Vector::new(9.0, 9.0));
    assert!(hand.editor.hint().ghost.frame.is_some());
    hand.release();
    let chosen: Vec<Part> = hand.editor.selection().iter().collect();
    assert_eq!(chosen, [joint(1), joint(2), run(1)]);
}

#[test]
fn a_drag_moves_along_an_axis_and_is_one_step() {
    let mut hand = elbow();
    let before = hand.editor.job().clone();
    hand.point(at(6, 0, 4));
    hand.press();
    hand.point(at(8, 0, 4));
    hand.says("Release: move J3");
    assert_eq!(hand.editor.hint().ghost.lines.len(), 2, "what it draws along");
    hand.release();
    let places: Vec<_> = hand.editor.job().joints.iter().map(|joint| joint.at).collect();
    assert_eq!(
        places,
        [at(0, 0, 0), at(0, 0, 4), at(8, 0, 4), at(8, 0, 1)],
        "the drop comes along"
    );
    assert_eq!(hand.editor.undo_name(), Some("Move J3"));
    hand.run(CommandId::Undo);
    assert_eq!(*hand.editor.job(), before);
    // Onto another joint: refused, nothing moves.
    hand.point(at(6, 0, 4));
    hand.press();
    hand.point(at(0, 0, 4));
    hand.release();
    hand.says("J3 would land on J2");
    assert_eq!(*hand.editor.job(), before);
}

#[test]
fn an_abandoned_drag_leaves_nothing() {
    let mut hand = elbow();
    let (before, revision) = (hand.editor.job().clone(), hand.editor.revision());
    hand.point(at(6, 0, 4));
    hand.press();
    hand.point(at(9, 0, 4));
    hand.key(Key::Escape);
    hand.release();
    assert_eq!((hand.editor.job(), hand.editor.revision()), (&before, revision));
}

#[test]
fn direction_keys_move_what_is_chosen() {
    let mut hand = elbow();
    hand.key(Key::Next);
    assert_eq!(
        hand.editor.selection().single(),
        Some(joint(1)),
        "the walk begins at the supply"
    );
    hand.key(Key::Next);
    hand.key(Key::Next);
    assert_eq!(hand.editor.selection().single(), Some(joint(2)));
    hand.key(Key::Way(Toward::Up));
    assert_eq!(hand.editor.job().joints.get(JointId(2)).unwrap().at, at(0, 0, 5));
    assert_eq!(
        hand.editor.job().joints.get(JointId(4)).unwrap().at,
        at(6, 0, 1),
        "the drop grows"
    );
    hand.key(Key::Enter);
    assert_eq!(hand.pencil(), Some(at(0, 0, 5)), "Enter draws from the chosen joint");
}

#[test]
fn a_valve_goes_into_a_run_and_the_pencil_comes_back() {
    let mut hand = elbow();
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(3, 0, 4));
    hand.click_at(at(3, 2, 4));
    hand.run(CommandId::Place(Item::Device(DeviceKind::Valve)));
    hand.says("Shutoff valve on");
    hand.key(Key::Enter);
    assert_eq!(hand.pencil(), Some(at(3, 2, 4)), "the line goes on behind the valve");
    hand.key(Key::Way(Toward::North));
    hand.key(Key::Enter);
    let valve = hand
        .editor
        .job()
        .joints
        .iter()
        .find(|joint| joint.at == at(3, 2, 4))
        .unwrap();
    assert!(matches!(valve.placed.as_ref().unwrap().device, Device::Valve(_)));
    hand.run(CommandId::Place(Item::Device(DeviceKind::Union)));
    hand.point(at(0, 0, 2));
    hand.says("Union in R1");
    hand.click();
    assert!(hand.pencil().is_some());
}

#[test]
fn refused_places_say_why() {
    let mut hand = elbow();
    hand.run(CommandId::Place(Item::Device(DeviceKind::Valve)));
    hand.click_at(at(0, 0, 0));
    hand.says("J1 has a point of delivery already");
    hand.click_at(at(0, -8, 0));
    hand.says("goes in pipe or at its end");
    hand.run(CommandId::Place(Item::Device(DeviceKind::Appliance)));
    hand.click_at(at(0, 0, 4));
    hand.says("has one end");
    hand.run(CommandId::Place(Item::Note));
    hand.click_at(at(3, 0, 4));
    hand.says("point at one");
    hand.key(Key::Escape);
    assert!(matches!(hand.editor.tool(), Tool::Choose(_)));
}

#[test]
fn a_wall_is_placed_where_one_points_or_as_far_along_as_is_typed() {
    let mut hand = elbow();
    let wall = Item::Passage(stubout::job::Barrier::ExteriorWall);
    hand.run(CommandId::Place(wall));
    hand.point(at(4, 0, 4));
    hand.says("Exterior wall on R2, 4'-0\" along");
    hand.click();
    let passages = |hand: &Hand| hand.editor.job().runs.get(RunId(2)).unwrap().penetrations.clone();
    assert_eq!(passages(&hand)[0].at, Some(Length::from_feet(4.0)));
    assert_eq!(
        hand.editor.selection().single(),
        Some(Part::Penetration(RunId(2), 0)),
        "its details show"
    );
    hand.editor.select(only(run(2)));
    hand.run(CommandId::Place(wall));
    hand.type_text("1-3");
    hand.key(Key::Enter);
    assert_eq!(passages(&hand)[1].at, Some(Length::from_inches(15.0)));
    hand.run(CommandId::Place(wall));
    hand.type_text("99'");
    hand.key(Key::Enter);
    hand.says("R2 is not that long");
    assert_eq!(passages(&hand).len(), 2);
}

#[test]
fn copies_follow_the_pointer_and_hang_on_pipe() {
    let mut hand = elbow();
    hand.editor.select([run(3), joint(4)].into_iter().collect());
    hand.run(CommandId::Copy);
    hand.run(CommandId::Paste);
    hand.point(at(2, 0, 4));
    hand.says("put the copy at a tee in R2");
    hand.click();
    assert_eq!(hand.editor.job().runs.len(), 5);
    assert!(hand.editor.selection().iter().count() >= 3, "the copy is chosen");
    hand.run(CommandId::Cut);
    assert_eq!(hand.editor.undo_name().map(|name| &name[..6]), Some("Delete"));
}

#[test]
fn commands_say_what_they_lack() {
    let mut hand = elbow();
    for (command, words) in [
        (CommandId::Delete, "select something first"),
        (CommandId::Redo, "no step has been undone"),
        (CommandId::Paste, "copy something first"),
        (CommandId::Split, "select a run first"),
        (CommandId::ChooseDownstream, "select one part first"),
    ] {
        assert!(!hand.editor.can(command));
        assert!(matches!(hand.editor.run(command), Outcome::Refused(_)));
        hand.says(words);
    }
    hand.editor.select(only(run(2)));
    assert!(matches!(hand.editor.run(CommandId::Join), Outcome::Refused(_)));
    hand.says("two runs in line");
    assert_eq!(hand.editor.run(CommandId::SaveJob), Outcome::ForWindow);
}

#[test]
fn split_join_turn_mirror_and_delete_by_command() {
    let mut hand = elbow();
    let start = hand.editor.job().clone();
    hand.editor.select(only(run(2)));
    hand.run(CommandId::Split);
    hand.editor.select([run(2), run(4)].into_iter().collect());
    hand.run(CommandId::Join);
    assert_eq!(*hand.editor.job(), start);
    hand.editor.select(only(run(3)));
    hand.run(CommandId::Mirror(Axis::Up));
    assert_eq!(hand.editor.job().joints.get(JointId(4)).unwrap().at, at(6, 0, 7));
    hand.editor.select(only(joint(2)));
    hand.run(CommandId::ChooseDownstream);
    assert_eq!(hand.editor.selection().len(), 5);
    hand.editor.select(only(run(2)));
    hand.run(CommandId::DeleteAndClose);
    assert_eq!(hand.editor.job().joints.get(JointId(4)).unwrap().at, at(0, 0, 7));
    while hand.editor.undo_name().is_some() {
        hand.run(CommandId::Undo);
    }
    assert_eq!(*hand.editor.job(), Job::default());
}

#[test]
fn state_and_surroundings_go_to_what_is_chosen_or_to_the_pen() {
    let mut hand = elbow();
    hand.editor.select(only(run(1)));
    hand.run(CommandId::State(State::Existing));
    assert_eq!(hand.editor.job().runs.get(RunId(1)).unwrap().state, State::Existing);
    hand.run(CommandId::DrawPipe);
    hand.run(CommandId::Lies(Surroundings::Outdoors));
    hand.click_at(at(6, 0, 1));
    hand.click_at(at(9, 0, 1));
    let laid = hand.editor.job().runs.iter().next_back().unwrap();
    assert_eq!((laid.state, laid.surroundings), (State::New, Surroundings::Outdoors));
}

#[test]
fn what_is_in_hand_may_vanish_without_harm() {
    let mut hand = elbow();
    hand.editor.select(only(run(3)));
    hand.run(CommandId::Place(Item::Passage(stubout::job::Barrier::Floor)));
    hand.editor
        .edit(|job| edit::delete(job, &only(run(3)), edit::Gap::Keep))
        .unwrap();
    hand.key(Key::Enter);
    assert!(hand.editor.said().is_some(), "it says why nothing is placed");
    hand.run(CommandId::DrawPipe);
    hand.click_at(at(6, 0, 4));
    hand.editor.open(Job::default());
    hand.key(Key::Enter);
    hand.release();
    assert_eq!(*hand.editor.job(), Job::default());
}

#[test]
fn words_are_dragged_and_find_their_own_place_again() {
    let mut hand = elbow();
    let start = hand.editor.job().clone();
    // The words of R2 stand to the right of its middle.
    let anchor = Point::new(160.0, 90.0);
    let room = Rect::sized(anchor + Vector::new(5.0, -2.0), 20.0, 4.0);
    hand.words = Some(Words {
        part: Part::Run(RunId(2)),
        room,
        anchor,
    });
    hand.run(CommandId::Choose);
    let from = room.center() + Vector::new(6.0, 1.0);
    hand.point_paper(from);
    hand.says("Click: select R2; drag: move its label");
    hand.press();
    hand.point_paper(from + Vector::new(0.5, 0.0));
    hand.point_paper(from + Vector::new(-3.0, 14.0));
    hand.says("Release: move label");
    let frame = hand.editor.hint().ghost.frame.unwrap();
    assert!(
        frame.center().distance(room.center() + Vector::new(-3.0, 14.0)) < 1e-9,
        "where it will land"
    );
    assert!(hand.editor.hint().ghost.lines.is_empty(), "no pipe moves");
    hand.release();
    let at = |hand: &Hand| hand.editor.job().runs.get(RunId(2)).unwrap().words_at;
    assert_eq!(at(&hand), Some(WordsAt::from_mm(12.0, 14.0)));
    assert_eq!(hand.editor.undo_name(), Some("Move label"));
    assert_eq!(hand.editor.selection().single(), Some(Part::Run(RunId(2))));

    hand.run(CommandId::FreeWords);
    assert_eq!(*hand.editor.job(), start);
    hand.run(CommandId::Undo);
    hand.run(CommandId::Undo);
    assert_eq!(*hand.editor.job(), start, "a label moved is one step");

    // A click on words chooses what they speak of; Escape drops words that are carried.
    hand.editor.select(Selection::none());
    hand.point_paper(from);
    hand.press();
    hand.point_paper(from + Vector::new(30.0, 0.0));
    hand.key(Key::Escape);
    hand.release();
    assert_eq!(*hand.editor.job(), start);
}
