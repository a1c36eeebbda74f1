//! What was measured at start-up, typed beside an appliance.

use crate::form::{By, Entry};
use crate::hand::Hand;
use stubout::editor::Part;
use stubout::job::{Device, JointId};
use stubout::units::GaugePressure;

#[test]
fn a_reading_that_the_rating_plate_does_not_allow_is_told_beside_its_field() {
    let job = stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
    let mut hand = Hand::on(job);
    hand.app_mut().desk_mut().seek(Part::Joint(JointId(21)));
    hand.rest();
    hand.push("Readings at start-up");
    hand.rest();
    hand.fill("Working pressure read", &Entry::Text("4.8".to_owned()), By::Mouse);
    hand.fill(
        "Clocked at the meter",
        &Entry::Text("2 ft3 in 96 s".to_owned()),
        By::Mouse,
    );
    hand.key(egui::Key::Enter);
    hand.rest();
    let placed = hand.job().joints.get(JointId(21)).unwrap().placed.as_ref().unwrap();
    let Device::Appliance(grill) = &placed.device else {
        panic!("the grill")
    };
    assert_eq!(grill.start_up.working, Some(GaugePressure::from_inches_wc(4.8)));
    assert!((grill.start_up.clocked.unwrap().flow().cfh() - 75.0).abs() < 1e-9);
    assert!(
        hand.reads("the rating plate calls for at least 5 in w.c."),
        "{:?}",
        hand.all_words()
    );
    hand.look("start_up");
}
