//! What a fitter types: numbers without units, what nobody has said, and texts that are typed anew.

use crate::form::{By, Entry};
use crate::hand::{Hand, at};
use egui::{Key, vec2};
use stubout::desk::VIEW;
use stubout::editor::Part;
use stubout::job::{Device, Job, JointId, Settings, WordsAt};
use stubout::rules::Severity;
use stubout::units::{GaugePressure, HeatRate, UnitSystem};

/// A point of delivery, two steps of pipe and an appliance at its end.
fn line(units: UnitSystem) -> Hand {
    let mut hand = Hand::on(Job {
        settings: Settings {
            units,
            ..Settings::default()
        },
        ..Job::default()
    });
    hand.shelf("Point of delivery");
    hand.click_at(at(0, 0, 0));
    hand.shelf("Draw pipe");
    hand.click_at(at(0, 0, 0));
    hand.click_at(at(6, 0, 0));
    for _ in 0..3 {
        hand.key(Key::Escape);
    }
    hand.shelf("Other appliance");
    hand.click_at(at(6, 0, 0));
    hand.rest();
    hand
}

fn delivery(hand: &Hand) -> Option<GaugePressure> {
    match hand.job().joints.get(JointId(1)).and_then(|joint| joint.device()) {
        Some(Device::Supply(supply)) => supply.pressure,
        other => panic!("no point of delivery: {other:?}"),
    }
}

fn input(hand: &Hand) -> Option<HeatRate> {
    match hand.job().joints.get(JointId(2)).and_then(|joint| joint.device()) {
        Some(Device::Appliance(appliance)) => appliance.input,
        other => panic!("no appliance: {other:?}"),
    }
}

#[test]
fn a_new_point_of_delivery_has_no_pressure_until_somebody_says_it() {
    let mut hand = line(UnitSystem::Us);
    assert_eq!(delivery(&hand), None);
    let shown = hand.desk().shown();
    let found = shown
        .checked
        .findings
        .iter()
        .find(|finding| finding.rule == "delivery-pressure");
    assert_eq!(found.map(|finding| finding.severity), Some(Severity::MustFix));
    assert!(
        shown
            .checked
            .study
            .sections
            .iter()
            .all(|section| section.sizing.size.is_none()),
        "nothing is sized from a guess"
    );
    // What was found leads to the field.
    hand.open_lists();
    let row = hand
        .all_words()
        .into_iter()
        .find(|words| words.starts_with("must fix; ") && words.contains("delivery pressure at J1"));
    let row = row.unwrap_or_else(|| panic!("it is not listed: {:?}", hand.all_words()));
    hand.push(&row);
    hand.rest();
    assert_eq!(hand.editor().selection().single(), Some(Part::Joint(JointId(1))));
    assert_eq!(
        hand.focused().map(|focused| focused.words),
        Some("Delivery pressure".to_owned())
    );
    assert_eq!(hand.field("Delivery pressure").value, "");
    hand.type_text("8");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(delivery(&hand), Some(GaugePressure::from_inches_wc(8.0)));
}

#[test]
fn a_plain_number_is_in_the_units_of_the_job() {
    let mut hand = line(UnitSystem::Us);
    hand.fill("Input", &Entry::Text("40000".into()), By::Mouse);
    hand.key(Key::Enter);
    hand.rest();
    assert!(!hand.reads("Not accepted"), "{:?}", hand.all_words());
    assert_eq!(input(&hand), Some(HeatRate::from_btuh(40_000.0)));
    let mut hand = line(UnitSystem::Metric);
    assert!(hand.reads("kW"), "the unit stands beside the field");
    hand.fill("Input", &Entry::Text("12".into()), By::Mouse);
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(input(&hand), Some(HeatRate::from_kw(12.0)));
}

#[test]
fn a_click_takes_the_whole_text_and_so_does_one_on_a_refused_text() {
    let mut hand = line(UnitSystem::Us);
    let field = hand.field("Input").rect.center();
    hand.click_screen(field);
    hand.type_text("much");
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.reads("Not accepted"));
    assert_eq!(hand.field("Input").value, "much", "it is kept");
    hand.click_screen(hand.field("Input").rect.center());
    hand.type_text("40000");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(
        input(&hand),
        Some(HeatRate::from_btuh(40_000.0)),
        "{:?}",
        hand.field("Input").value
    );
    hand.click_at(at(0, 0, 0));
    hand.rest();
    hand.click_at(at(6, 0, 0));
    hand.rest();
    hand.click_screen(hand.field("Input").rect.center());
    hand.type_text("65000");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(input(&hand), Some(HeatRate::from_btuh(65_000.0)));
}

#[test]
fn a_part_is_placed_on_the_pipe_under_the_pointer_whatever_words_lie_there() {
    let mut hand = line(UnitSystem::Us);
    let mut job = hand.job().clone();
    // The words of the appliance lie over the middle of the run.
    let (end, middle) = (VIEW.point(at(6, 0, 0)), VIEW.point(at(3, 0, 0)));
    let way = middle - end;
    job.joints.get_mut(JointId(2)).unwrap().words_at = Some(WordsAt::from_mm(way.x, way.y));
    hand.app_mut().open(job);
    hand.rest();
    let middle = hand.screen(at(3, 0, 0));
    hand.shelf("Shutoff valve");
    hand.click_screen(middle);
    hand.rest();
    let valves = |hand: &Hand| {
        let devices = hand
            .job()
            .joints
            .iter()
            .filter_map(|joint| Some((joint.at, joint.device()?)));
        let valves = devices.filter(|(_, device)| matches!(device, Device::Valve(_)));
        valves.map(|(at, _)| at).collect::<Vec<_>>()
    };
    assert_eq!(valves(&hand), [at(3, 0, 0)]);
    // A little beside the pipe, on words, still means the pipe.
    let beside = hand.screen(at(4, 0, 0)) + vec2(0.0, 12.0);
    hand.shelf("Union");
    hand.click_screen(beside);
    hand.rest();
    assert_eq!(hand.job().runs.len(), 3, "{}", hand.status());
}
