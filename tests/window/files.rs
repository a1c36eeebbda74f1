//! Files: nothing that was drawn is lost, whatever is answered.

use crate::hand::{Hand, Opening, at};
use egui::{Key, Modifiers, Rect, pos2, vec2};
use std::fs;
use std::path::Path;
use stubout::desk::settings::Settings;
use stubout::editor::CommandId;
use stubout::job::Job;

/// Types over what stands in the field that has the keyboard.
fn type_over(hand: &mut Hand, text: &str) {
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text(text);
}

fn read(path: &Path) -> Job {
    stubout::file::read(&fs::read_to_string(path).unwrap()).unwrap()
}

fn saved(folder: &Path) -> Hand {
    let mut hand = Hand::elbow();
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    type_over(&mut hand, folder.join("house").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    hand
}

#[test]
fn a_job_is_saved_where_its_path_says() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.ron");
    let mut hand = Hand::elbow();
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    hand.look("save");
    assert!(hand.reads("Save job as"));
    type_over(&mut hand, folder.path().join("none/house").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.reads("There is no folder"), "{:?}", hand.all_words());
    type_over(&mut hand, path.with_extension("").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    assert!(!hand.reads("Save job as") && hand.editor().is_saved());
    assert_eq!(read(&path), *hand.job());
    assert_eq!(hand.app().settings().recent, std::slice::from_ref(&path));
    // From now on it has a file, and Save asks no more.
    hand.command(CommandId::ChooseAll);
    hand.shortcut(CommandId::Delete);
    hand.shortcut(CommandId::SaveJob);
    assert!(hand.editor().is_saved());
    assert_eq!(read(&path), Job::default());
}

#[test]
fn what_lies_there_is_written_over_only_when_said() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.ron");
    fs::write(&path, "old").unwrap();
    let mut hand = saved(folder.path());
    hand.rest();
    assert!(hand.reads("Overwrite it?") && !hand.editor().is_saved());
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(fs::read(&path).unwrap(), b"old", "the first answer is the harmless one");
    hand.key(Key::Enter);
    hand.rest();
    hand.push("Overwrite");
    assert_eq!(read(&path), *hand.job());
}

#[test]
fn a_file_that_something_else_wrote_to_is_asked_about() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.ron");
    let mut hand = saved(folder.path());
    assert_eq!(read(&path), *hand.job());
    hand.command(CommandId::ChooseAll);
    hand.shortcut(CommandId::Delete);
    fs::write(&path, "of another program").unwrap();
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    assert!(hand.reads("another program wrote to it"));
    hand.key(Key::Escape);
    hand.rest();
    assert_eq!(fs::read(&path).unwrap(), b"of another program");
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    hand.push("Overwrite");
    assert_eq!(read(&path), Job::default());
}

#[test]
fn notes_between_the_lines_of_a_file_are_not_lost_without_a_word() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.ron");
    let noted = "(version: 1) // call the office on Friday\n";
    fs::write(&path, noted).unwrap();
    let mut hand = Hand::elbow();
    hand.drop_file(&path);
    hand.rest();
    hand.push("Don't save");
    hand.rest();
    hand.shelf("Point of delivery");
    hand.click_at(at(0, 0, 0));
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    assert!(hand.reads("The file has notes"), "{:?}", hand.all_words());
    hand.key(Key::Escape);
    hand.rest();
    assert_eq!(fs::read_to_string(&path).unwrap(), noted, "Esc leaves the file alone");
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    hand.push("Save without the notes");
    hand.rest();
    assert_eq!(read(&path), *hand.job());
    // From now on there are none to be lost.
    hand.shortcut(CommandId::Undo);
    hand.shortcut(CommandId::SaveJob);
    hand.rest();
    assert!(hand.editor().is_saved() && !hand.reads("The file has notes"));
}

#[test]
fn a_new_job_asks_about_the_one_on_the_desk() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::elbow();
    let drawn = hand.job().clone();
    for answer in [Some("Cancel"), None] {
        hand.shortcut(CommandId::NewJob);
        hand.rest();
        assert!(hand.reads("Save them before a new job is started?"));
        match answer {
            Some(answer) => hand.push(answer),
            None => hand.key(Key::Escape),
        }
        hand.rest();
        assert_eq!(*hand.job(), drawn);
    }
    hand.shortcut(CommandId::NewJob);
    hand.rest();
    hand.push("Save");
    hand.rest();
    type_over(&mut hand, folder.path().join("first.ron").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(read(&folder.path().join("first.ron")), drawn);
    assert_eq!(*hand.job(), Job::default());
    assert_eq!(hand.app().files().path(), None, "the new job has no file");
}

#[test]
fn a_broken_file_is_shown_and_the_job_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("broken.ron");
    fs::write(&path, "(\n  version: 1,\n  runz: [],\n)").unwrap();
    let mut hand = Hand::elbow();
    let drawn = hand.job().clone();
    hand.shortcut(CommandId::OpenJob);
    hand.rest();
    hand.type_text(path.to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    hand.push("Don't save");
    hand.rest();
    hand.look("broken");
    assert!(
        hand.reads("Line 3, column 3") && hand.reads("runz"),
        "{:?}",
        hand.all_words()
    );
    hand.key(Key::Escape);
    hand.rest();
    assert_eq!(*hand.job(), drawn);
    assert!(!hand.editor().is_saved(), "it is still to be saved");
}

#[test]
fn a_job_is_found_by_walking_through_folders() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("north")).unwrap();
    let job = Hand::elbow().job().clone();
    fs::write(folder.path().join("north/house.ron"), stubout::file::write(&job)).unwrap();
    let mut hand = Hand::new();
    hand.shortcut(CommandId::OpenJob);
    hand.rest();
    hand.type_text(folder.path().to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    hand.look("open");
    hand.push(&format!("north{}", std::path::MAIN_SEPARATOR));
    hand.rest();
    for _ in 0..15 {
        hand.frame();
    }
    hand.push("house.ron");
    hand.push("Open");
    hand.rest();
    assert_eq!(*hand.job(), job);
    assert!(hand.editor().is_saved());
}

#[test]
fn the_window_closes_only_when_the_work_is_safe() {
    let mut hand = Hand::elbow();
    assert!(!hand.close());
    hand.rest();
    assert!(hand.reads("Save them before the program closes?"));
    hand.key(Key::Escape);
    hand.rest();
    assert!(!hand.close(), "once refused is not for ever");
    hand.rest();
    hand.push("Don't save");
    assert!(hand.close());
    assert!(Hand::new().close(), "an empty job is nothing to be asked about");
}

#[test]
fn work_of_a_window_that_went_down_is_offered_to_the_next() {
    let folder = tempfile::tempdir().unwrap();
    let opening = || Opening {
        recovery: Some(folder.path().to_owned()),
        ..Opening::default()
    };
    let copies = || {
        let names = fs::read_dir(folder.path())
            .unwrap()
            .flatten()
            .map(|entry| entry.file_name());
        names.filter(|name| name.to_string_lossy().ends_with(".ron")).count()
    };
    let mut hand = Hand::opening(opening());
    let job = Hand::elbow().job().clone();
    hand.app_mut().open(job);
    hand.command(CommandId::ChooseAll);
    hand.shortcut(CommandId::Reverse);
    let drawn = hand.job().clone();
    hand.rest();
    assert!(!hand.editor().is_saved() && copies() == 1);
    assert!(
        !Hand::opening(opening()).reads("was not saved"),
        "its window still runs"
    );
    drop(hand);

    let mut hand = Hand::opening(opening());
    hand.rest();
    hand.look("left");
    assert!(hand.reads("was not saved"));
    hand.push("Ask again later");
    drop(hand);
    let mut hand = Hand::opening(opening());
    hand.push("Recover");
    hand.rest();
    assert_eq!((hand.job(), copies()), (&drawn, 1));
    assert!(!hand.editor().is_saved());
    drop(hand);

    let mut hand = Hand::opening(opening());
    hand.push("Discard");
    hand.rest();
    assert_eq!((*hand.job() == Job::default(), copies()), (true, 0));
}

/// The job in the only copy of a folder.
fn copied(folder: &Path) -> Job {
    let names = fs::read_dir(folder).unwrap().flatten().map(|entry| entry.path());
    let copy = names
        .into_iter()
        .find(|path| path.extension().is_some_and(|ending| ending == "ron"));
    stubout::file::read(&fs::read_to_string(copy.expect("a copy")).unwrap()).unwrap()
}

#[test]
fn a_copy_of_unsaved_work_is_never_two_seconds_behind_and_is_made_at_once_when_another_program_is_turned_to() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::opening(Opening {
        recovery: Some(folder.path().to_owned()),
        ..Opening::default()
    });
    hand.app_mut().open(Hand::elbow().job().clone());
    let time = |hand: &Hand| hand.context().input(|input| input.time);
    // For each change of the job when it came to be.
    let mut jobs = vec![(time(&hand), hand.job().clone())];
    for edit in 0..120 {
        if edit % 3 == 0 {
            hand.command(CommandId::ChooseAll);
            hand.shortcut(CommandId::Reverse);
        }
        hand.frame();
        let now = time(&hand);
        if jobs.last().is_none_or(|(_, job)| job != hand.job()) {
            jobs.push((now, hand.job().clone()));
        }
        if jobs.len() > 1 {
            let copy = copied(folder.path());
            let of = jobs
                .iter()
                .rposition(|(_, job)| *job == copy)
                .expect("a state of the job");
            let missed = jobs.get(of + 1).map_or(now, |(came, _)| *came);
            assert!(now - missed <= 2.0, "{missed} {now}");
        }
    }
    assert!(jobs.len() > 10);
    hand.command(CommandId::ChooseAll);
    hand.shortcut(CommandId::Reverse);
    hand.shortcut(CommandId::Reverse);
    hand.turn_away();
    hand.frame();
    assert_eq!(copied(folder.path()), *hand.job());
}

#[test]
fn work_that_was_left_is_shown_with_its_job_its_time_and_a_picture() {
    let folder = tempfile::tempdir().unwrap();
    let opening = || Opening {
        recovery: Some(folder.path().to_owned()),
        ..Opening::default()
    };
    let mut hand = Hand::opening(opening());
    let mut job = Hand::elbow().job().clone();
    job.title.job = "Invented house".to_owned();
    hand.app_mut().open(job);
    hand.command(CommandId::ChooseAll);
    hand.shortcut(CommandId::Reverse);
    hand.rest();
    drop(hand);
    let mut hand = Hand::opening(opening());
    hand.rest();
    hand.look("left with a picture");
    assert!(hand.reads("Invented house: 3 runs of pipe"), "{:?}", hand.all_words());
    assert!(hand.reads("less than a minute ago"));
    assert_eq!(hand.widgets("Preview of the copy").len(), 1);
}

#[test]
fn a_copy_that_cannot_be_read_can_be_thrown_away() {
    let folder = tempfile::tempdir().unwrap();
    let copy = folder.path().join("1-1-0.ron");
    fs::write(
        &copy,
        "// Work that was not saved, of the file \"\"\n(version: 1, joints: [(id",
    )
    .unwrap();
    let opening = || Opening {
        recovery: Some(folder.path().to_owned()),
        ..Opening::default()
    };
    let mut hand = Hand::opening(opening());
    hand.rest();
    assert!(hand.reads("can't be read"), "{:?}", hand.all_words());
    hand.push("Ask again later");
    hand.rest();
    assert!(copy.exists());
    let mut hand = Hand::opening(opening());
    hand.push("Discard");
    hand.rest();
    assert!(!copy.exists() && !hand.reads("can't be read"));
}

#[test]
fn the_sheet_is_handed_over_and_it_is_said_where() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::elbow();
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    hand.look("export sheets");
    assert!(hand.reads("the sheet says so too"));
    type_over(&mut hand, folder.path().join("garden").to_str().unwrap());
    hand.push("SVG");
    hand.rest();
    hand.push("Export");
    hand.wait(|hand| hand.reads("Sheets exported"));
    hand.look("exported");
    let written: Vec<_> = fs::read_dir(folder.path()).unwrap().flatten().collect();
    assert!(!written.is_empty());
    for file in written {
        assert!(hand.reads(file.path().to_str().unwrap()));
        assert!(fs::read_to_string(file.path()).unwrap().starts_with("<svg"));
    }
    hand.key(Key::Enter);
    hand.rest();
    assert!(!hand.reads("exported"));
}

#[test]
fn the_lists_of_the_work_are_handed_over_for_a_spreadsheet() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::elbow();
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    type_over(&mut hand, folder.path().join("garden.csv").to_str().unwrap());
    hand.push("CSV");
    hand.rest();
    hand.look("hand over lists");
    assert!(
        hand.reads("3 lists: garden-take-off.csv, garden-cut-list.csv, garden-sections.csv"),
        "{:?}",
        hand.all_words()
    );
    hand.push("Export");
    hand.wait(|hand| hand.reads("exported"));
    let read = |list: &str| fs::read_to_string(folder.path().join(format!("garden-{list}.csv"))).unwrap();
    assert!(read("take-off").starts_with("what,amount,unit,state,action,price,mark,at,remark\r\n"));
    assert!(read("take-off").contains("90° elbow"), "{}", read("take-off"));
    assert!(read("cut-list").contains("\r\nP1,"), "{}", read("cut-list"));
    assert!(read("sections").starts_with("section,from,to,"));
    // What is there is not written over unasked.
    hand.key(Key::Enter);
    hand.rest();
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    type_over(&mut hand, folder.path().join("garden").to_str().unwrap());
    hand.push("Export");
    hand.rest();
    assert!(hand.reads("already exist"), "{:?}", hand.all_words());
}

#[test]
fn the_list_that_is_looked_at_is_saved_for_a_spreadsheet() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("outlets.csv");
    let mut hand = Hand::on(stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap());
    hand.open_lists();
    hand.show_list("Appliances 5");
    hand.push("Save as CSV…");
    hand.rest();
    hand.look("save list");
    type_over(&mut hand, path.with_extension("").to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    let text = fs::read_to_string(&path).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    assert!(lines[0].starts_with("letter,appliance,state,"), "{text}");
    assert!(lines[1].starts_with("A,Furnace,existing,"), "{text}");
    assert_eq!(lines.len(), 6, "{text}");
    // It is not written over unasked.
    hand.push("Save as CSV…");
    hand.rest();
    type_over(&mut hand, path.to_str().unwrap());
    hand.key(Key::Enter);
    hand.rest();
    assert!(
        hand.reads("outlets.csv already exists. Overwrite it?"),
        "{:?}",
        hand.all_words()
    );
}

#[test]
fn a_sheet_is_copied_as_a_picture_and_that_is_said() {
    let mut hand = Hand::elbow();
    hand.command(CommandId::CopyPicture);
    hand.wait(|hand| hand.editor().status().contains("on the clipboard"));
    hand.says("Sheet 1 is on the clipboard as a picture: paste it into a message");
}

#[test]
fn a_file_dropped_on_the_window_is_opened_once_the_work_is_safe() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("house.ron");
    let job = Hand::elbow().job().clone();
    fs::write(&path, stubout::file::write(&job)).unwrap();
    let mut hand = Hand::new();
    hand.shelf("Point of delivery");
    hand.click_at(at(2, 0, 0));
    hand.drop_file(&path);
    hand.rest();
    assert!(hand.job().joints.len() == 1 && hand.reads("Save them before another job is opened?"));
    hand.push("Don't save");
    hand.rest();
    assert_eq!((hand.job(), hand.app().files().path()), (&job, Some(path.as_path())));
}

#[test]
fn every_answer_can_be_reached_in_the_smallest_window_with_large_words() {
    let settings = Settings {
        size: 1.25,
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        size: vec2(760.0, 480.0),
        settings,
        ..Opening::default()
    });
    for (id, answer) in [
        (CommandId::OpenJob, "Cancel"),
        (CommandId::SaveJobAs, "Cancel"),
        (CommandId::ExportSheet, "Cancel"),
    ] {
        hand.shortcut(id);
        hand.rest();
        hand.look(&format!("small-{id:?}"));
        let answer = hand.widget(answer).rect;
        let screen = Rect::from_min_size(pos2(0.0, 0.0), vec2(760.0, 480.0) / 1.25);
        assert!(screen.contains_rect(answer), "{id:?}: {answer:?}");
        hand.push("Cancel");
        hand.rest();
    }
}

/// Hands the job on the desk over as SVG, and gives the path of the first sheet.
fn as_svg(hand: &mut Hand, folder: &Path, name: &str) -> std::path::PathBuf {
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    type_over(hand, folder.join(name).to_str().unwrap());
    hand.push("SVG");
    hand.rest();
    hand.push("Export");
    hand.wait(|hand| hand.reads("Sheets exported"));
    hand.key(Key::Enter);
    hand.rest();
    let single = folder.join(format!("{name}.svg"));
    if single.is_file() {
        single
    } else {
        folder.join(format!("{name}-1.svg"))
    }
}

#[test]
fn a_job_opened_from_a_sheet_is_saved_to_a_file_of_its_own() {
    let folder = tempfile::tempdir().unwrap();
    let mut hand = Hand::elbow();
    let job = hand.job().clone();
    let svg = as_svg(&mut hand, folder.path(), "garden");
    let drawn = fs::read(&svg).unwrap();

    for way in ["dropped", "typed", "by argument"] {
        let mut hand = Hand::new();
        match way {
            "dropped" => hand.drop_file(&svg),
            "typed" => {
                hand.shortcut(CommandId::OpenJob);
                hand.rest();
                type_over(&mut hand, svg.to_str().unwrap());
                hand.key(Key::Enter);
            }
            _ => hand.app_mut().open_file(svg.clone()),
        }
        hand.rest();
        assert_eq!((hand.job(), hand.app().files().path()), (&job, None), "{way}");
        assert!(hand.editor().is_saved());
        assert_eq!(hand.app().settings().recent, std::slice::from_ref(&svg), "{way}");
        hand.command(CommandId::ChooseAll);
        hand.shortcut(CommandId::Delete);
        hand.shortcut(CommandId::SaveJob);
        hand.rest();
        hand.look("save a job from a sheet");
        assert!(hand.reads("Save job as"), "{way}");
        let name = format!("{way}.svg");
        type_over(&mut hand, &name);
        hand.key(Key::Enter);
        hand.rest();
        assert_eq!(read(&folder.path().join(name + ".ron")), Job::default(), "{way}");
        assert_eq!(fs::read(&svg).unwrap(), drawn, "{way}: the sheet is as it was");
    }
}

#[test]
fn the_sheet_that_holds_the_only_job_is_not_written_over_without_it() {
    let folder = tempfile::tempdir().unwrap();
    let svg = as_svg(&mut Hand::elbow(), folder.path(), "garden");
    let stem = svg.with_extension("");
    let stem = stem.file_name().unwrap().to_str().unwrap();
    let drawn = fs::read(&svg).unwrap();
    let mut hand = Hand::new();
    hand.drop_file(&svg);
    hand.rest();
    let job = hand.job().clone();
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    assert!(!hand.reads("Job inside"), "only an SVG carries the job");
    hand.push("SVG");
    hand.rest();
    hand.push("Job inside");
    hand.rest();
    hand.look("hand over bare");
    // The sheet is the first of several or the only one; its name is told by what is there.
    let numbered = stem.ends_with("-1");
    let typed = folder.path().join(stem.strip_suffix("-1").unwrap_or(stem));
    type_over(&mut hand, typed.to_str().unwrap());
    hand.push("Export");
    hand.rest();
    assert!(
        hand.reads("holds the job, and no other file does"),
        "{:?}",
        hand.all_words()
    );
    assert_eq!(fs::read(&svg).unwrap(), drawn);
    // With the job inside it may be; and bare beside it.
    hand.push("Job inside");
    hand.rest();
    hand.push("Export");
    hand.rest();
    hand.push("Overwrite");
    hand.wait(|hand| hand.reads("Sheets exported"));
    assert_eq!(stubout::file::read_bytes(&fs::read(&svg).unwrap()), Ok(job));
    hand.key(Key::Enter);
    hand.rest();
    hand.shortcut(CommandId::ExportSheet);
    hand.rest();
    type_over(&mut hand, folder.path().join("bare").to_str().unwrap());
    hand.push("Job inside");
    hand.rest();
    hand.push("Export");
    hand.wait(|hand| hand.reads("Sheets exported"));
    let bare = folder.path().join(if numbered { "bare-1.svg" } else { "bare.svg" });
    let error = stubout::file::read_bytes(&fs::read(bare).unwrap()).unwrap_err();
    assert_eq!(error.problem, "this SVG has no job inside");
}

#[test]
fn jobs_of_before_are_offered_on_blank_paper_and_gone_once_something_is_drawn() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("garden.ron");
    let example = include_str!("../../examples/patio-kitchen.ron");
    std::fs::write(&path, example).unwrap();
    let settings = Settings {
        recent: vec![path],
        ..Opening::default().settings
    };
    let mut hand = Hand::opening(Opening {
        settings,
        ..Opening::default()
    });
    assert!(hand.reads("Recent jobs"));
    hand.look("recent_on_paper");
    hand.key(egui::Key::D);
    hand.rest();
    assert!(!hand.reads("Recent jobs"), "the paper is drawn on");
    hand.key(egui::Key::S);
    hand.rest();
    hand.push("garden.ron");
    hand.rest();
    assert_eq!(*hand.job(), stubout::file::read(example).unwrap());
    assert!(!hand.reads("Recent jobs"));
}
