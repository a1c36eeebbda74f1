//! Whole jobs drawn from blank paper, by pointer and by keys: both give the job that is copied, ids apart.
//!
//! Pipe, devices, passages and notes are drawn and typed over the canvas; what a details panel holds (ratings, names,
//! title block, settings) goes through the edits that a panel calls.

use crate::apart_from_ids::without_ids;
use crate::hand::Hand;
use crate::item::item;
use stubout::editor::edit::{self, JointField, Pen};
use stubout::editor::{CommandId, Facing, Held, Item, Key, Toward};
use stubout::job::{Job, JointId, LatticePoint, Run};
use stubout::units::Show;

#[derive(Clone, Copy, Debug, PartialEq)]
enum By {
    Pointer,
    Keys,
}

/// Draws a job from nothing.
fn redraw(target: &Job, by: By) -> Hand {
    let mut hand = Hand::on(Job::default());
    let editor = &mut hand.editor;
    editor.edit(|job| edit::set_title(job, target.title.clone())).unwrap();
    editor
        .edit(|job| edit::set_settings(job, target.settings.clone()))
        .unwrap();
    editor.edit(|job| edit::set_gas(job, target.gas.clone())).unwrap();
    for run in &target.runs {
        draw(&mut hand, target, run, by);
    }
    hand.key(Key::Escape);
    hand.key(Key::Escape);
    hand.key(Key::Escape);
    for joint in &target.joints {
        stand(&mut hand, joint, by);
    }
    for run in &target.runs {
        pass(&mut hand, target, run, by);
    }
    for note in &target.notes {
        hand.run(CommandId::ChooseAll);
        hand.run(CommandId::Place(Item::Note));
        aim_at(&mut hand, target.joints.get(note.at).unwrap().at, by);
        hand.type_text(&note.text);
        hand.key(Key::Enter);
    }
    hand
}

fn aim_at(hand: &mut Hand, place: LatticePoint, by: By) {
    match by {
        By::Pointer => {
            hand.level(place.up);
            hand.find(place);
        }
        By::Keys => hand.lead(place),
    }
}

fn draw(hand: &mut Hand, target: &Job, run: &Run, by: By) {
    let [from, to] = [run.from, run.to].map(|id| target.joints.get(id).unwrap().at);
    let Run {
        material,
        size,
        state,
        surroundings,
        coated,
        ..
    } = *run;
    hand.editor.set_pen(Pen {
        material,
        size,
        state,
        surroundings,
        coated,
    });
    if hand.pencil() != Some(from) {
        // The line ends, a new one starts elsewhere.
        hand.run(CommandId::DrawPipe);
        if by == By::Keys {
            // The cursor starts where the last line ended, or in the middle of the lattice.
            hand.key(Key::Way(Toward::Up));
        } else {
            hand.level(from.up);
        }
        aim_at(hand, from, by);
        match by {
            By::Pointer => hand.click(),
            By::Keys => hand.key(Key::Enter),
        }
    }
    assert_eq!(hand.pencil(), Some(from), "{}", hand.editor.status());
    let typed = run.length.map_or(String::new(), |length| length.exact());
    let before = hand.editor.job().runs.len();
    match by {
        By::Pointer => {
            let square = (to - from).axis().is_some();
            hand.hold(Held {
                skew: !square,
                add: false,
            });
            for facing in [Facing::Level, Facing::EastUpright, Facing::NorthUpright] {
                hand.run(CommandId::Plane(facing));
                hand.point(to);
                if hand.means(to) {
                    break;
                }
            }
            if !square && !hand.means(to) {
                hand.level(to.up);
            }
            hand.find(to);
            hand.type_text(&typed);
            hand.click();
            hand.hold(Held::default());
        }
        By::Keys => {
            let way = to - from;
            // With skew held each key leads the end one step. Measured by hand, a typed length does not change how it is
            // drawn.
            let square = way.axis().is_some();
            hand.hold(Held {
                skew: !square,
                add: false,
            });
            for toward in Toward::ALL {
                for _ in 0..toward.way().dot(way).max(0) {
                    hand.key(Key::Way(toward));
                }
            }
            if square {
                hand.key(Key::Longer);
                hand.key(Key::Shorter);
            }
            hand.hold(Held::default());
            hand.type_text(&typed);
            hand.key(Key::Enter);
        }
    }
    let after = hand.editor.job().runs.len();
    assert_eq!(after, before + 1, "{from:?} to {to:?}: {}", hand.editor.status());
    // What the pencil does not hold.
    let id = hand.editor.job().runs.iter().next_back().unwrap().id;
    for field in [
        edit::RunField::Offset(run.offset),
        edit::RunField::Replaces(run.replaces),
        edit::RunField::Cover(run.cover),
        edit::RunField::Tracer(run.tracer),
        edit::RunField::Bonded(run.bonded),
        edit::RunField::Jacketed(run.jacketed),
        edit::RunField::Salvaged(run.salvaged),
    ] {
        hand.editor.edit(|job| edit::set_runs(job, &[id], &field)).unwrap();
    }
}

fn stand(hand: &mut Hand, joint: &stubout::job::Joint, by: By) {
    if let Some(placed) = &joint.placed {
        hand.run(CommandId::ChooseAll);
        hand.run(CommandId::Place(item(&placed.device)));
        aim_at(hand, joint.at, by);
        match by {
            By::Pointer => hand.click(),
            By::Keys => hand.key(Key::Enter),
        }
    }
    let here = hand
        .editor
        .job()
        .joints
        .iter()
        .find(|one| one.at == joint.at)
        .unwrap()
        .id;
    let fields = [
        JointField::Placed(joint.placed.clone()),
        JointField::Label(joint.label.clone()),
        JointField::Turn(joint.turn),
    ];
    let placed = &hand.editor.job().joints.get(here).unwrap().placed;
    assert_eq!(placed.is_some(), joint.placed.is_some(), "{}", hand.editor.status());
    for field in fields {
        hand.editor.edit(|job| edit::set_joint(job, here, field)).unwrap();
    }
}

fn pass(hand: &mut Hand, target: &Job, run: &Run, by: By) {
    let [from, to] = [run.from, run.to].map(|id| target.joints.get(id).unwrap().at);
    for passage in &run.penetrations {
        hand.run(CommandId::ChooseAll);
        hand.run(CommandId::Place(Item::Passage(passage.barrier)));
        let job = hand.editor.job();
        let place = |id: JointId| job.joints.get(id).unwrap().at;
        let id = job
            .runs
            .iter()
            .find(|one| place(one.from) == from && place(one.to) == to)
            .unwrap()
            .id;
        let meant = |hand: &Hand| hand.editor.hint().ghost.passage.is_some_and(|(run, _)| run == id);
        match by {
            By::Pointer => {
                hand.point_paper(crate::hand::VIEW.point(from).midway(crate::hand::VIEW.point(to)));
                for _ in 0..20 {
                    if meant(hand) {
                        break;
                    }
                    hand.key(Key::Other);
                }
            }
            By::Keys => {
                for _ in 0..1000 {
                    if meant(hand) {
                        break;
                    }
                    hand.key(Key::Next);
                }
            }
        }
        assert!(meant(hand), "{}", hand.editor.status());
        hand.type_text(&passage.at.map_or(String::new(), |at| at.exact()));
        hand.key(Key::Enter);
        let count = hand.editor.job().runs.get(id).unwrap().penetrations.len();
        let full = passage.clone();
        hand.editor
            .edit(|job| edit::set_penetration(job, id, count - 1, full))
            .unwrap();
    }
}

#[track_caller]
fn check(text: &str, ways: &[By]) {
    let target = stubout::file::read(text).unwrap();
    for &by in ways {
        let mut hand = redraw(&target, by);
        assert_eq!(without_ids(hand.editor.job()), without_ids(&target), "{by:?}");
        // All of it is taken back and done again.
        let end = hand.editor.job().clone();
        while hand.editor.can(CommandId::Undo) {
            hand.run(CommandId::Undo);
        }
        assert_eq!(*hand.editor.job(), Job::default(), "{by:?}");
        assert!(hand.editor.is_saved());
        while hand.editor.can(CommandId::Redo) {
            hand.run(CommandId::Redo);
        }
        assert_eq!(*hand.editor.job(), end, "{by:?}");
    }
}

#[test]
fn the_patio_kitchen_is_drawn_from_blank_paper() {
    check(
        include_str!("../../examples/patio-kitchen.ron"),
        &[By::Pointer, By::Keys],
    );
}

#[test]
fn the_classroom_exercise_is_drawn_from_blank_paper() {
    check(include_str!("../../examples/classroom.ron"), &[By::Pointer, By::Keys]);
}

#[test]
fn the_propane_cabin_is_drawn_from_blank_paper() {
    check(
        include_str!("../../examples/propane-cabin.ron"),
        &[By::Pointer, By::Keys],
    );
}

#[test]
fn the_two_pressure_house_is_drawn_from_blank_paper() {
    check(
        include_str!("../../examples/two-pressure-house.ron"),
        &[By::Pointer, By::Keys],
    );
}
