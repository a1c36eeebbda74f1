//! The job beside the one that was issued, and issued as built.

use crate::hand::Hand;
use egui::{Key, Modifiers};
use std::fs;
use stubout::changes::{Change, ChangedPart, Turn};
use stubout::codebook::Codebook;
use stubout::drawing::tags::Subject;
use stubout::editor::{CommandId, Part};
use stubout::job::{Job, RunId, State, Status};
use stubout::rules::Checked;
use stubout::scene::Item;
use stubout::sheet::{About, Matter, Orientation, Paper, compose_about};
use stubout::units::Length;

/// A window with the patio kitchen, one run longer and one gone since it was written to the folder.
fn revised(folder: &std::path::Path) -> Hand {
    let issued = fs::read_to_string("examples/patio-kitchen.ron").unwrap();
    fs::write(folder.join("issued.ron"), &issued).unwrap();
    let mut job: Job = stubout::file::read(&issued).unwrap();
    job.runs.get_mut(RunId(18)).unwrap().length = Some(Length::from_feet(21.0));
    job.runs.remove(RunId(31));
    let mut hand = Hand::on(job);
    hand.rest();
    hand
}

fn compare(hand: &mut Hand, path: &std::path::Path) {
    hand.command(CommandId::Compare);
    hand.rest();
    assert!(hand.reads("Compare with an issued job"), "{:?}", hand.all_words());
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text(path.to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
}

fn labels(hand: &Hand) -> String {
    let desk = hand.app().desk();
    format!("{:?}", desk.shown().picture.group)
}

#[test]
fn what_changed_since_the_issue_is_clouded_listed_and_can_be_found() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = revised(folder.path());
    let before = hand.job().clone();
    assert!(!labels(&hand).contains("cloud 1"));
    compare(&mut hand, &folder.path().join("not-there.ron"));
    assert!(hand.reads("Compare with an issued job"), "it says why it did not go");
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text(folder.path().join("issued.ron").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    hand.look("compare");
    assert!(hand.reads("Compared with issued.ron"), "{:?}", hand.all_words());
    let changes = hand.app().desk().shown().changes.clone().unwrap();
    let drawn = changes.list.iter().filter(|change| change.turn != Turn::Follows);
    assert_eq!(drawn.count(), 2, "{:?}", changes.list);
    assert!(labels(&hand).contains("cloud 2"));
    // A row leads to its part, and to where something stood that is gone.
    hand.push("1; J17–grill tee; length 21'-0\", was 18'-0\"");
    assert!(hand.editor().selection().contains(Part::Run(RunId(18))));
    the_mark_of_its_cloud_leads_to_the_longer_run(&mut hand);
    // What is compared with follows the edits.
    hand.command(CommandId::ChooseAll);
    hand.command(CommandId::Delete);
    hand.rest();
    assert!(hand.app().desk().shown().changes.as_ref().unwrap().list.len() > 20);
    hand.command(CommandId::Undo);
    hand.command(CommandId::StopComparing);
    hand.rest();
    assert!(!labels(&hand).contains("cloud 1") && !hand.reads("Compared with"));
    assert_eq!(*hand.job(), before, "comparing changes nothing of the job");
}

/// On the sheet a click on the mark of a cloud chooses what changed there.
fn the_mark_of_its_cloud_leads_to_the_longer_run(hand: &mut Hand) {
    let (job, book) = (hand.job().clone(), Codebook::published());
    let changes = hand.app().desk().shown().changes.clone().unwrap();
    let about = About {
        matter: Matter::Permit,
        since: Some(&changes),
        ..About::default()
    };
    let (paper, way) = (Paper::default(), Orientation::default());
    let packet = compose_about(&job, &Checked::of(&job, book), book, paper, way, about);
    let is_longer = |change: &Change| change.part == ChangedPart::Run(RunId(18));
    let cloud = packet.clouded[changes.list.iter().position(is_longer).unwrap()][0];
    let mut mark = None;
    packet.sheets[0].walk(|_, item| {
        if let Item::Group(group) = item
            && group.tag.and_then(Subject::of) == Some(Subject::Change(cloud))
        {
            mark = group.bounds();
        }
    });
    hand.command(CommandId::ChooseNothing);
    hand.shortcut(CommandId::ShowSheet);
    hand.rest();
    let place = hand.app().sheet().screen(mark.unwrap().center()).unwrap();
    hand.click_screen(place);
    hand.rest();
    let chosen: Vec<Part> = hand.editor().selection().iter().collect();
    // All that changed in the cloud, the longer run among it.
    let together = changes
        .list
        .iter()
        .zip(&packet.clouded)
        .filter(|(_, clouds)| clouds.contains(&cloud));
    let runs = together.filter_map(|(change, _)| match change.part {
        // What was taken away can no longer be chosen.
        ChangedPart::Run(id) => job.runs.get(id).map(|run| Part::Run(run.id)),
        _ => None,
    });
    assert_eq!(chosen, runs.collect::<Vec<_>>());
    assert!(chosen.contains(&Part::Run(RunId(18))));
    hand.shortcut(CommandId::ShowDraw);
    hand.rest();
}

#[test]
fn a_permit_drawing_becomes_an_as_built_one_in_one_step() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = revised(folder.path());
    let before = hand.job().clone();
    hand.command(CommandId::MakeAsBuilt);
    hand.rest();
    hand.look("as_built");
    hand.push("Cancel");
    hand.rest();
    assert_eq!(*hand.job(), before, "it asks first");
    hand.command(CommandId::MakeAsBuilt);
    hand.rest();
    hand.push("Convert");
    hand.rest();
    assert_eq!(hand.job().title.status, Status::AsBuilt);
    let laid = hand.job().runs.get(RunId(18)).unwrap();
    assert!(laid.state == State::New && laid.size.is_some(), "{laid:?}");
    hand.command(CommandId::Undo);
    assert_eq!(*hand.job(), before);
}
