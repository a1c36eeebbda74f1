//! Edits by chance, wrong ones among them, with undo and redo by chance: the job keeps every rule, the way back leads to
//! the start and the way forward to the end.

use crate::dice::Dice;
use crate::hand::{Hand, at};
use crate::rules::keeps_the_rules;
use stubout::editor::edit::{self, Cut, Gap, JointField, Lay, Pen, RunField, Stretch, Typed};
use stubout::editor::{
    COMMANDS, CommandId, Editor, Held, Input, Item, Key, PALETTE, Part, Pointer, Refusal, Selection, Spot, Step,
    Toward, Words,
};
use stubout::job::*;
use stubout::scene::{Point, Rect};
use stubout::units::Length;

/// A place near the middle, so that edits meet each other.
fn place(dice: &mut Dice) -> LatticePoint {
    at(dice.between(0, 9), dice.between(0, 9), dice.between(0, 5))
}

fn joint(job: &Job, dice: &mut Dice) -> JointId {
    match job.joints.len() {
        0 => JointId(1),
        count => job.joints.at(dice.below(count)).id,
    }
}

fn run(job: &Job, dice: &mut Dice) -> RunId {
    match job.runs.len() {
        0 => RunId(1),
        count => job.runs.at(dice.below(count)).id,
    }
}

fn way(dice: &mut Dice) -> Direction {
    let toward = dice.pick(&Toward::ALL).way();
    let steps = dice.between(1, 4);
    Direction::new(toward.east * steps, toward.north * steps, toward.up * steps)
}

/// A place of a joint, of the inside of a run, or anywhere.
fn spot(job: &Job, dice: &mut Dice) -> Spot {
    match dice.below(4) {
        0 => Spot::at(place(dice)),
        1 => {
            let id = run(job, dice);
            let ends = job
                .runs
                .get(id)
                .and_then(|run| Some((job.joints.get(run.from)?.at, job.joints.get(run.to)?.at)));
            let Some((from, to)) = ends else {
                return Spot::at(place(dice));
            };
            let middle = at(
                (from.east + to.east) / 2,
                (from.north + to.north) / 2,
                (from.up + to.up) / 2,
            );
            Spot::on(id, middle)
        }
        _ => Spot::at(job.joints.get(joint(job, dice)).map_or(at(0, 0, 0), |joint| joint.at)),
    }
}

fn chosen(job: &Job, dice: &mut Dice) -> Selection {
    let parts = (0..dice.between(1, 4)).map(|_| match dice.below(6) {
        0 | 1 => Part::Joint(joint(job, dice)),
        2..=4 => Part::Run(run(job, dice)),
        _ if dice.percent(50) => Part::Note(dice.below(3)),
        _ => Part::Penetration(run(job, dice), dice.below(2)),
    });
    parts.collect()
}

fn length(dice: &mut Dice) -> Option<Length> {
    dice.percent(60)
        .then(|| Length::from_inches(f64::from(dice.between(-6, 300))))
}

fn placed(dice: &mut Dice) -> Placed {
    let device = (0..50).find_map(|_| dice.pick(&PALETTE).item.device());
    Placed::new(device.unwrap_or(Device::Union))
}

/// One edit by chance. Many are wrong: that is meant.
fn edit(job: &Job, dice: &mut Dice) -> Result<Step, Refusal> {
    // A job that has grown large is cut down again, so that edits go on meeting each other.
    if job.joints.len() > 120 {
        return edit::delete(job, &chosen(job, dice), Gap::Keep);
    }
    match dice.below(24) {
        0..=6 => {
            let from = spot(job, dice);
            let by = way(dice);
            let to = if dice.percent(85) {
                Spot::at(from.at + by)
            } else {
                spot(job, dice)
            };
            let what = Lay {
                from,
                to,
                length: length(dice),
                offset: None,
                pen: Pen::default(),
            };
            edit::lay(job, &what)
        }
        7 => {
            let cut = match length(dice) {
                Some(length) => Cut::First(length),
                None => Cut::InProportion,
            };
            edit::split(job, spot(job, dice), cut)
        }
        8 => edit::join(job, joint(job, dice)),
        9 => edit::delete(job, &chosen(job, dice), dice.pick(&[Gap::Keep, Gap::Close])),
        10 | 11 => {
            let joints = chosen(job, dice).places(job);
            edit::shift(
                job,
                &joints,
                way(dice),
                dice.pick(&[Stretch::Straight, Stretch::Loose]),
                dice.pick(&[Typed::Kept, Typed::Measured]),
            )
        }
        12 => edit::reverse(job, &[run(job, dice)]),
        13 => edit::place(job, placed(dice), spot(job, dice)),
        14 => edit::take_off(job, joint(job, dice)),
        15 => {
            let passage = Penetration {
                at: length(dice),
                ..Penetration::default()
            };
            edit::penetrate(job, run(job, dice), passage)
        }
        16 => {
            let fields = [
                RunField::Length(length(dice)),
                RunField::State(State::Existing),
                RunField::Coated(true),
                RunField::Material(Some(Material::Csst)),
            ];
            let field = dice.pick(&fields);
            let runs = [run(job, dice), run(job, dice)];
            edit::set_runs(job, &runs, &field)
        }
        17 => {
            let copied = edit::copy(job, &chosen(job, dice));
            edit::paste(job, &copied, place(dice))
        }
        18 => {
            let joints = chosen(job, dice).places(job);
            edit::mirror(
                job,
                &joints,
                joint(job, dice),
                dice.pick(&[Axis::East, Axis::North, Axis::Up]),
            )
        }
        19 => edit::repeat(job, &chosen(job, dice), way(dice), dice.between(0, 3) as u32),
        20 => edit::add_note(job, joint(job, dice), "note"),
        21 => {
            let part = chosen(job, dice).iter().next().unwrap_or(Part::Note(0));
            let at = WordsAt::from_mm(f64::from(dice.between(-50, 50)), 7.0);
            edit::put_words(job, part, dice.percent(80).then_some(at))
        }
        22 => edit::free_words(job, &chosen(job, dice)),
        _ => {
            let fields = [
                JointField::Label(Some("B".into())),
                JointField::Turn(Turn::StreetElbow),
                JointField::Placed(Some(placed(dice))),
            ];
            let field = dice.pick(&fields);
            edit::set_joint(job, joint(job, dice), field)
        }
    }
}

fn undo_all(editor: &mut Editor) {
    while editor.can(CommandId::Undo) {
        editor.run(CommandId::Undo);
    }
}

fn redo_all(editor: &mut Editor) {
    while editor.can(CommandId::Redo) {
        editor.run(CommandId::Redo);
    }
}

#[test]
fn two_thousand_edits_by_chance_keep_every_rule_and_lead_back_to_the_start() {
    let start = stubout::file::read(include_str!("../../examples/classroom.ron")).unwrap();
    for seed in 0..3 {
        let mut dice = Dice::new(seed);
        let mut editor = Editor::new(start.clone());
        // What the job was after each step that undo leads through.
        let mut states = vec![start.clone()];
        let mut undone = Vec::new();
        let mut done = 0;
        for _ in 0..2_000 {
            match dice.below(10) {
                0 | 1 if editor.can(CommandId::Undo) => {
                    editor.run(CommandId::Undo);
                    undone.extend(states.pop());
                }
                2 if editor.can(CommandId::Redo) => {
                    editor.run(CommandId::Redo);
                    states.extend(undone.pop());
                }
                _ => {
                    let (before, depth) = (editor.job().clone(), editor.revision());
                    let outcome = editor.edit(|job| edit(job, &mut dice));
                    if outcome.is_err() {
                        assert_eq!(*editor.job(), before, "a refused edit changes nothing");
                    } else if editor.revision() > depth {
                        states.push(editor.job().clone());
                        undone.clear();
                        done += 1;
                    }
                }
            }
            keeps_the_rules(editor.job());
            assert_eq!(editor.job(), states.last().unwrap(), "seed {seed}");
        }
        assert!(done > 500, "only {done} edits of seed {seed} were possible");
        let end = editor.job().clone();
        undo_all(&mut editor);
        assert_eq!(*editor.job(), start);
        assert!(editor.is_saved());
        redo_all(&mut editor);
        let last = undone.first().unwrap_or(&end);
        assert_eq!(editor.job(), last);
    }
}

/// So many sequences as `STUBOUT_ROUNDS` says, each of 60 edits, on jobs right and wrong: what is drawn can always be saved
/// and read again.
fn edits_can_be_saved(usual: u64) {
    let rounds = std::env::var("STUBOUT_ROUNDS")
        .ok()
        .and_then(|rounds| rounds.parse().ok());
    let starts: Vec<Job> = [
        include_str!("../../examples/classroom.ron"),
        include_str!("../../examples/propane-cabin.ron"),
        include_str!("../jobs/since/before.ron"),
        include_str!("../jobs/since/after.ron"),
        include_str!("../file/v1.ron"),
    ]
    .iter()
    .map(|text| stubout::file::read(text).unwrap())
    .collect();
    for seed in 0..rounds.unwrap_or(usual) {
        let mut dice = Dice::new(seed ^ 0xed17);
        let mut editor = Editor::new(dice.pick(&starts));
        for number in 0..60 {
            match dice.below(10) {
                0 => drop(editor.run(CommandId::Undo)),
                1 => drop(editor.run(CommandId::Redo)),
                _ => drop(editor.edit(|job| edit(job, &mut dice))),
            }
            if number % 10 == 9 {
                let job = editor.job();
                let again = stubout::file::read(&stubout::file::write(job));
                assert_eq!(again.as_ref(), Ok(job), "seed {seed}, edit {number}");
            }
        }
        stubout::rules::Checked::of(editor.job(), stubout::codebook::Codebook::published());
    }
}

#[test]
fn whatever_is_edited_can_be_saved_and_read_again() {
    edits_can_be_saved(40);
}

#[test]
#[ignore = "as many sequences of 60 edits as STUBOUT_ROUNDS says"]
fn many_sequences_of_edits() {
    edits_can_be_saved(2_000);
}

#[test]
fn whatever_is_pressed_in_whatever_order_does_no_harm() {
    for seed in 0..20 {
        let mut dice = Dice::new(1_000 + seed);
        let mut hand = Hand::on(Job::default());
        for _ in 0..600 {
            let keys = [
                Key::Enter,
                Key::Backspace,
                Key::Escape,
                Key::Arrow(stubout::editor::Arrow::Left),
                Key::Longer,
                Key::Shorter,
                Key::Next,
            ];
            match dice.below(14) {
                0..=3 => {
                    let place = place(&mut dice);
                    hand.point(place);
                }
                4 | 5 => hand.press(),
                6 | 7 => hand.release(),
                8 => hand.key(dice.pick(&keys)),
                9 => hand.key(Key::Way(dice.pick(&Toward::ALL))),
                10 => hand.type_text(dice.pick(&["1", "12-6", "3 m", "x", "-", " ", "'", "½"])),
                11 => hand.hold(Held {
                    add: dice.percent(20),
                    skew: dice.percent(20),
                }),
                12 => drop(hand.editor.run(dice.pick(&COMMANDS[..]).id)),
                _ => drop(hand.editor.run(dice.pick(&[
                    CommandId::DrawPipe,
                    CommandId::Choose,
                    CommandId::Place(Item::Device(DeviceKind::Valve)),
                    CommandId::Place(Item::Device(DeviceKind::Appliance)),
                ]))),
            }
            assert!(
                !hand.editor.status().is_empty(),
                "the status line always says something"
            );
            if let Some(Ok(step)) = &hand.editor.hint().step {
                let mut after = hand.editor.job().clone();
                step.apply(&mut after).expect("what is promised can be done");
            }
        }
        keeps_the_rules(hand.editor.job());
        let end = hand.editor.job().clone();
        redo_all(&mut hand.editor);
        undo_all(&mut hand.editor);
        assert_eq!(*hand.editor.job(), Job::default(), "seed {seed}");
        drop(end);
    }
}

#[test]
fn the_wildest_pointer_does_no_harm() {
    let mut hand = Hand::on(Job::default());
    hand.run(CommandId::DrawPipe);
    for (x, y) in [
        (f64::NAN, 0.0),
        (f64::INFINITY, 1.0),
        (1e300, -1e300),
        (-1e18, 5.0),
        (4e5, 4e5),
    ] {
        let at = Point::new(x, y);
        hand.editor.handle(Input::Pointer(Pointer {
            at,
            hits: vec![Part::Joint(JointId(9)), Part::Run(RunId(9)), Part::Note(7)],
            words: Some(Words {
                part: Part::Note(7),
                room: Rect::sized(at, 5.0, 5.0),
                anchor: at,
            }),
        }));
        hand.click();
    }
    keeps_the_rules(hand.editor.job());
}
