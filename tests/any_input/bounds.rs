//! Much of one thing at one place: answered in bounded work, or refused at the field that says it.

use stubout::changes::Changes;
use stubout::codebook::Codebook;
use stubout::editor::{Editor, Refusal, edit};
use stubout::file::{self, FileError};
use stubout::job::bounds::*;
use stubout::job::*;
use stubout::rules::Checked;
use stubout::sheet::{About, Matter, Orientation, Paper, compose_about};

const SUPPLY: &str = "device: supply(pressure: \"7 in w.c.\")";

/// Runs from one joint to so many appliances around it, one of the runs to the supply.
fn star(arms: usize) -> String {
    let mut joints = format!("(id: 1, at: (0, 0, 0), {SUPPLY}), (id: 2, at: (0, 0, 2))");
    let mut runs = "(id: 1, from: 1, to: 2)".to_owned();
    for arm in 3..arms + 2 {
        let (east, north) = ((arm * 37 % 121) as i32 - 60, (arm * 53 % 119) as i32 - 60);
        joints += &format!(
            ", (id: {arm}, at: ({east}, {north}, {}), device: appliance(name: \"No. {arm}\", input: \"40,000 Btu/h\"))",
            arm % 5
        );
        runs += &format!(", (id: {arm}, from: 2, to: {arm})");
    }
    format!("(version: 1, joints: [{joints}], runs: [{runs}])")
}

/// One run with so many penetrations, so many notes at its end, so many more joints at its beginning.
fn heap(penetrations: usize, notes: usize, joints: usize) -> String {
    let more: String = (0..joints)
        .map(|n| format!(", (id: {}, at: (0, 0, 0), device: valve())", n + 10))
        .collect();
    let through: String = (0..penetrations)
        .map(|n| format!("(through: floor, at: \"{n} in\"), "))
        .collect();
    let notes: String = (0..notes).map(|n| format!("(at: 2, text: \"Note {n}\"), ")).collect();
    format!(
        "(version: 1, joints: [(id: 1, at: (0, 0, 0), {SUPPLY}), (id: 2, at: (90, 0, 0)){more}],\n \
         runs: [(id: 1, from: 1, to: 2, penetrations: [{through}])],\n notes: [{notes}])"
    )
}

/// So many runs between the same two joints, every second the other way.
fn twins(runs: usize) -> String {
    let runs: String = (1..=runs)
        .map(|id| match id % 2 {
            0 => format!("(id: {id}, from: 2, to: 1), "),
            _ => format!("(id: {id}, from: 1, to: 2), "),
        })
        .collect();
    format!("(version: 1, joints: [(id: 1, at: (0, 0, 0), {SUPPLY}), (id: 2, at: (9, 0, 0))],\n runs: [{runs}])")
}

#[track_caller]
fn refused(text: &str, line: usize, words: &str) {
    let error: FileError = file::read(text).expect_err("too much at one place");
    assert!(error.problem.contains(words) && !error.remedy.is_empty(), "{error}");
    assert_eq!(error.place.map(|place| place.line), Some(line));
}

#[test]
fn a_file_with_too_much_at_one_place_is_refused_there_and_one_with_as_much_as_can_be_is_read() {
    refused(&star(MOST_RUNS_AT_JOINT + 1), 1, "runs meet at joint 2");
    refused(&twins(MOST_RUNS_BETWEEN + 1), 2, "runs are between joints 1 and 2");
    refused(&heap(MOST_PENETRATIONS + 1, 0, 0), 2, "penetrations");
    refused(&heap(0, MOST_NOTES_AT_JOINT + 1, 0), 3, "notes point at joint 2");
    refused(&heap(0, 0, MOST_JOINTS_AT_PLACE), 1, "joints at this place");
    for thousands in [star(3_000), heap(3_000, 0, 0), heap(0, 3_000, 0), heap(0, 0, 3_000)] {
        assert!(file::read(&thousands).is_err());
    }
    assert!(file::read(&star(MOST_RUNS_AT_JOINT)).is_ok());
    assert!(file::read(&twins(MOST_RUNS_BETWEEN)).is_ok());
    assert!(file::read(&heap(MOST_PENETRATIONS, MOST_NOTES_AT_JOINT, MOST_JOINTS_AT_PLACE - 1)).is_ok());
}

#[test]
fn a_text_may_have_as_many_letters_as_the_window_takes_however_they_are_written() {
    let written = |text: &str| format!("(version: 1,\n title: (job: {text}))");
    for letter in ["a", "é", "\\\"", "\\u{e9}", "\\n"] {
        assert!(
            file::read(&written(&format!("\"{}\"", letter.repeat(MOST_LETTERS)))).is_ok(),
            "{letter}"
        );
        refused(
            &written(&format!("\"{}\"", letter.repeat(MOST_LETTERS + 1))),
            2,
            "letters",
        );
    }
    // What the writer makes of letters that nobody sees can be read.
    for odd in ["\u{7f}", "\u{202e}", "\u{10ffff}", "\\", "\""] {
        let mut job = Job::default();
        job.title.job = odd.repeat(MOST_LETTERS);
        assert_eq!(file::read(&file::write(&job)), Ok(job));
    }
}

/// How many tests for free places all sheets of a job may take: some ten drawings after all tries are over.
const MOST_EFFORT: usize = 40_000_000;

#[test]
fn as_much_as_can_be_at_one_place_is_drawn_with_bounded_effort() {
    let book = Codebook::published();
    for text in [
        star(MOST_RUNS_AT_JOINT),
        twins(MOST_RUNS_BETWEEN),
        heap(MOST_PENETRATIONS, MOST_NOTES_AT_JOINT, MOST_JOINTS_AT_PLACE - 1),
    ] {
        let job = file::read(&text).unwrap();
        let checked = Checked::of(&job, book);
        for paper in [Paper::AnsiA, Paper::AnsiB] {
            let packet = compose_about(&job, &checked, book, paper, Orientation::Landscape, Matter::Permit);
            assert!(
                packet.effort > 0 && packet.effort < MOST_EFFORT,
                "{} {:?}",
                packet.effort,
                &text[..60]
            );
        }
    }
}

#[test]
fn what_was_drawn_a_continent_away_is_compared_in_bounded_effort() {
    let book = Codebook::published();
    let read =
        |name: &str| file::read(&std::fs::read_to_string(format!("tests/jobs/since/{name}.ron")).unwrap()).unwrap();
    let (before, after) = (read("before"), read("after"));
    for (was, now) in [(&before, &after), (&after, &before)] {
        let checked = Checked::of(now, book);
        let since = Changes::since(was, now, &checked.study, book);
        for paper in [Paper::AnsiA, Paper::AnsiB, Paper::A4, Paper::A3] {
            let about = About {
                matter: Matter::Permit,
                since: Some(&since),
                ..About::default()
            };
            let packet = compose_about(now, &checked, book, paper, Orientation::Landscape, about);
            let items: usize = packet
                .sheets
                .iter()
                .map(|sheet| stubout::export::svg::write(sheet, stubout::export::svg::TextStyle::Live).len())
                .sum();
            assert!(
                packet.effort < MOST_EFFORT && items < 20 << 20,
                "{} {items}",
                packet.effort
            );
        }
    }
}

#[test]
fn the_editor_refuses_what_could_not_be_read_again() {
    let job = file::read(&heap(MOST_PENETRATIONS, MOST_NOTES_AT_JOINT, 0)).unwrap();
    let mut editor = Editor::new(job.clone());
    let full = |outcome: Result<(), Refusal>| assert!(matches!(outcome, Err(Refusal::Full { .. })), "{outcome:?}");
    full(editor.edit(|job| edit::penetrate(job, RunId(1), Penetration::default())));
    full(editor.edit(|job| edit::add_note(job, JointId(2), "one more")));
    assert_eq!(*editor.job(), job);
    let mut editor = Editor::new(file::read(&star(MOST_RUNS_AT_JOINT)).unwrap());
    let lay = edit::Lay {
        from: stubout::editor::Spot::at(LatticePoint::new(0, 0, 2)),
        to: stubout::editor::Spot::at(LatticePoint::new(0, 0, 7)),
        length: None,
        offset: None,
        pen: edit::Pen::default(),
    };
    full(editor.edit(|job| edit::lay(job, &lay)));
}
