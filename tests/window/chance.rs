//! A hand that does anything at all: nothing panics, the job keeps its rules, and undo leads back to the start.

use crate::dice::Dice;
use crate::hand::Hand;
use crate::rules::keeps_the_rules;
use egui::{Event, Key, Modifiers, MouseWheelUnit, PointerButton, Pos2, TouchPhase, pos2, vec2};
use stubout::editor::{CommandId, Item, PALETTE, Part};
use stubout::job::Job;

/// Keys of the keyboard, but Tab, which would lead to menus and to a button that write files.
const KEYS: [Key; 18] = [
    Key::ArrowUp,
    Key::ArrowDown,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::PageUp,
    Key::PageDown,
    Key::Home,
    Key::End,
    Key::Space,
    Key::Enter,
    Key::Enter,
    Key::Backspace,
    Key::Escape,
    Key::Escape,
    Key::Delete,
    Key::D,
    Key::S,
    Key::Num5,
];

/// Keys with Ctrl, but those of files.
const WITH_CTRL: [Key; 19] = [
    Key::Z,
    Key::Y,
    Key::A,
    Key::D,
    Key::K,
    Key::J,
    Key::R,
    Key::Delete,
    Key::ArrowUp,
    Key::ArrowDown,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::Space,
    Key::Plus,
    Key::Minus,
    Key::Num0,
    Key::Num1,
    Key::Num2,
    Key::Num3,
];

const LETTERS: [&str; 12] = ["1", "2", "-", "6", "'", "\"", " ", "/", "m", "€", "ß", "99999"];

/// A point anywhere below the menus and the strip with the button that exports; mostly near the drawing, so that things meet each other.
fn point(hand: &Hand, dice: &mut Dice) -> Pos2 {
    let part = match (hand.job().joints.len(), hand.job().runs.len()) {
        (0, _) => None,
        (joints, _) if dice.percent(50) => Some(Part::Joint(hand.job().joints.at(dice.below(joints)).id)),
        (_, 0) => None,
        (_, runs) => Some(Part::Run(hand.job().runs.at(dice.below(runs)).id)),
    };
    let place = part
        .filter(|_| dice.percent(60))
        .and_then(|part| stubout::view::canvas::places(hand.job(), part).first().copied())
        .map(|place| hand.screen_of_paper(place) + vec2(dice.between(-30, 30) as f32, dice.between(-30, 30) as f32))
        .filter(|place| place.y > 70.0);
    place.unwrap_or_else(|| pos2(dice.between(-20, 1300) as f32, dice.between(70, 820) as f32))
}

fn held(dice: &mut Dice) -> Modifiers {
    match dice.below(8) {
        0 => Modifiers::SHIFT,
        1 => Modifiers::COMMAND | Modifiers::CTRL,
        2 => Modifiers::ALT,
        _ => Modifiers::NONE,
    }
}

fn key(hand: &mut Hand, key: Key, modifiers: Modifiers, pressed: bool) {
    hand.send(Event::Key {
        key,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers,
    });
}

/// One thing that a hand may do.
fn event(hand: &mut Hand, at: &mut Pos2, dice: &mut Dice) {
    let button = |pressed, at: Pos2, button, modifiers| Event::PointerButton {
        pos: at,
        button,
        pressed,
        modifiers,
    };
    let modifiers = held(dice);
    match dice.below(20) {
        0..=5 => {
            *at = point(hand, dice);
            hand.send(Event::PointerMoved(*at));
        }
        6..=8 => hand.send(button(true, *at, PointerButton::Primary, modifiers)),
        9..=11 => hand.send(button(false, *at, PointerButton::Primary, modifiers)),
        12 => {
            let other = dice.pick(&[PointerButton::Middle, PointerButton::Secondary]);
            let pressed = dice.percent(50);
            hand.send(button(pressed, *at, other, modifiers));
        }
        13 => hand.send(Event::ModifiersChanged(modifiers)),
        14 => {
            let delta = vec2(0.0, dice.between(-3, 3) as f32);
            hand.send(Event::MouseWheel {
                unit: dice.pick(&[MouseWheelUnit::Line, MouseWheelUnit::Point, MouseWheelUnit::Page]),
                delta,
                phase: TouchPhase::Move,
                source: egui::MouseWheelSource::Wheel,
                modifiers,
            });
        }
        15 => hand.send(Event::Text(dice.pick(&LETTERS).to_owned())),
        16 if modifiers.command => {
            let with = dice.pick(&WITH_CTRL);
            key(hand, with, modifiers, true);
        }
        16 | 17 => {
            let plain = dice.pick(&KEYS);
            let modifiers = if modifiers.command { Modifiers::NONE } else { modifiers };
            key(hand, plain, modifiers, true);
            key(hand, plain, modifiers, false);
        }
        18 => hand.send(match dice.below(5) {
            0 => Event::Copy,
            1 => Event::Cut,
            2 => Event::Paste("anything".into()),
            3 => Event::PointerGone,
            _ => Event::WindowFocused(dice.percent(50)),
        }),
        _ => {
            // What the shelf and the menus hold, without the way there.
            let item: Item = dice.pick(&PALETTE).item;
            hand.app_mut().desk_mut().run(CommandId::Place(item));
        }
    }
}

fn by_chance(start: Job, seed: u64, events: usize) {
    let mut hand = Hand::on(start);
    let before = hand.written();
    let (mut dice, mut at) = (Dice::new(seed), pos2(600.0, 400.0));
    let mut most = 0;
    for number in 0..events {
        event(&mut hand, &mut at, &mut dice);
        // Some things come within one frame.
        if dice.percent(60) {
            hand.frame();
        }
        if number % 40 == 0 {
            keeps_the_rules(hand.job());
            most = most.max(hand.job().runs.len());
        }
    }
    for button in [PointerButton::Primary, PointerButton::Middle, PointerButton::Secondary] {
        hand.button(button, false);
    }
    hand.hold(Modifiers::NONE);
    for _ in 0..4 {
        hand.key(Key::Escape);
    }
    keeps_the_rules(hand.job());
    assert!(most > 3, "something was drawn");
    hand.look(&format!("chance_{seed}"));
    while hand.editor().can(CommandId::Undo) {
        hand.app_mut().desk_mut().editor_mut().run(CommandId::Undo);
    }
    assert_eq!(hand.written(), before, "seed {seed}");
    hand.rest();
}

#[test]
fn six_thousand_things_by_chance_on_empty_paper_do_no_harm() {
    by_chance(Job::default(), 1, 6_000);
}

#[test]
fn four_thousand_things_by_chance_on_a_worked_example_do_no_harm() {
    let example = stubout::file::read(include_str!("../../examples/two-pressure-house.ron")).unwrap();
    by_chance(example, 2, 4_000);
}
