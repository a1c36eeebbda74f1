//! Large jobs: the hand never waits for what follows from the drawing, and is told when figures are of before.

use crate::hand::{Hand, at};
use crate::street::street;
use egui::{Key, Modifiers};
use stubout::job::Surroundings;

#[test]
fn a_large_job_says_that_figures_are_of_before_until_they_are_not() {
    let mut hand = Hand::on(street(3_500));
    hand.wait(|hand| hand.desk().is_current());
    assert!(!hand.status().contains("Updating") && hand.reads("must-fix finding"));
    assert!(hand.desk().shown().checked.study.sections.len() > 500);
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.chord(Modifiers::ALT, Key::Num6);
    assert!(!hand.desk().is_current(), "it is worked out beside the window");
    assert!(!hand.reads("must-fix finding"), "nothing is said of before as of now");
    hand.says("Updating: sizes and findings shown are from before the last change");
    // The hand goes on meanwhile.
    hand.key(Key::D);
    hand.click_at(at(-3, 0, 0));
    hand.click_at(at(-3, 0, 5));
    assert_eq!(hand.job().runs.iter().next_back().unwrap().length, None);
    hand.wait(|hand| hand.desk().is_current());
    assert!(!hand.status().contains("Updating") && hand.reads("must-fix finding"));
    let shown = &hand.desk().shown().job;
    assert_eq!(**shown, *hand.job());
    assert!(
        shown
            .runs
            .iter()
            .next()
            .is_some_and(|run| run.surroundings == Surroundings::Outdoors)
    );
}
