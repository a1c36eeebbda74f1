//! Sheets of a study: before and after with ways to mend side by side, and a survey of tie-ins, each held against a
//! picture that was looked at. `BLESS=1 cargo test --test sheet studies` takes new ones as right: look at them.

use crate::look::look;
use resvg::tiny_skia::Pixmap;
use std::path::Path;
use stubout::advice::{ComparedVariants, NewBranch, OwnLists, Progress, TieIns};
use stubout::codebook::Codebook;
use stubout::editor::edit::Fixes;
use stubout::job::{Job, JointId, RunId};
use stubout::rules::Checked;
use stubout::scene::{Group, Item};
use stubout::sheet::{Matter, Orientation, Packet, Paper, Work, compose, compose_about};
use stubout::units::NominalSize;
use stubout::work::CutList;

/// A pixel may differ by so much in one colour, and so many by more, for the mathematics of other machines.
const SHADE: u8 = 24;
const FEW: usize = 60;

/// The patio kitchen on older, smaller pipe: 1 in for 13 ft where the method asks for 1-1/4 in.
fn old_patio() -> Job {
    let mut job = stubout::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
    for run in [1, 2] {
        job.runs.get_mut(RunId(run)).unwrap().size = Some(NominalSize::Inch(16));
    }
    job
}

fn about(job: &Job, matter: Matter<'_>) -> Packet {
    let book = Codebook::published();
    let checked = Checked::of(job, book);
    compose_about(job, &checked, book, Paper::AnsiB, Orientation::Landscape, matter)
}

fn words(group: &Group, all: &mut Vec<String>) {
    for item in group.items() {
        match item {
            Item::Text(text) => all.push(text.words().to_owned()),
            Item::Group(inner) => words(inner, all),
            Item::Path(_) => {}
        }
    }
}

#[track_caller]
fn check(name: &str, packet: &Packet) {
    for (at, sheet) in packet.sheets.iter().enumerate() {
        let name = format!("{name}-{}", at + 1);
        look(&name, sheet);
        let mut all = Vec::new();
        words(sheet.root(), &mut all);
        let has = |wanted: &str| all.iter().any(|words| words == wanted);
        assert!(has("NOT FOR PERMIT") && !has("Approval stamp"), "{name}");
        assert!(all.iter().any(|words| words.starts_with("ST-")), "{name}");
        let png = stubout::export::png::write(sheet, 100.0).unwrap();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/sheet/pictures/{name}.png"));
        if std::env::var_os("BLESS").is_some() {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, &png).unwrap();
            continue;
        }
        let kept =
            Pixmap::load_png(&path).unwrap_or_else(|error| panic!("{}: {error}; BLESS=1 makes it", path.display()));
        let drawn = Pixmap::decode_png(&png).unwrap();
        assert_eq!((kept.width(), kept.height()), (drawn.width(), drawn.height()), "{name}");
        let pairs = kept.data().chunks_exact(4).zip(drawn.data().chunks_exact(4));
        let differs = |(a, b): &(&[u8], &[u8])| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > SHADE);
        let count = pairs.filter(differs).count();
        if count > FEW {
            let new = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.png"));
            std::fs::write(&new, png).unwrap();
            panic!(
                "{name}: {count} pixels differ. Look at {}; BLESS=1 takes it as right",
                new.display()
            );
        }
    }
}

#[test]
fn before_and_after_with_ways_to_mend() {
    let (job, book) = (old_patio(), Codebook::published());
    let fixes = Fixes::of(&job, book, &Checked::of(&job, book));
    let (variants, least) = (fixes.variants(), fixes.least());
    assert!(variants.len() >= 4, "{variants:?}");
    let packet = about(
        &job,
        Matter::Carried {
            variants: &variants,
            least: &least,
        },
    );
    check("carried", &packet);
    let mut all = Vec::new();
    packet.sheets.iter().for_each(|sheet| words(sheet.root(), &mut all));
    for said in ["over capacity after this work", "280 of 220 cfh", "Fixes compared"] {
        // A cell may take two lines.
        assert!(all.join(" ").contains(said), "{said}: {all:?}");
    }
    // Sizes that are not for a permit say so over their column and in their words, beside the status of the sheet.
    let studies = fixes.studies.len();
    assert!(studies > 0);
    let said = all.iter().filter(|words| words.contains("NOT FOR PERMIT")).count();
    assert!(said >= packet.sheets.len() + 2 * studies, "{said}");
}

#[test]
fn a_survey_of_tie_ins() {
    let mut job = old_patio();
    job.runs.remove(RunId(14));
    let branch = NewBranch {
        head: JointId(14),
        ..NewBranch::default()
    };
    let found = TieIns::find(&job, Codebook::published(), &branch, &Progress::default()).unwrap();
    check("survey", &about(&job, Matter::TieIns(&found)));
}

#[test]
fn variants_side_by_side() {
    let job = stubout::file::read(include_str!("../jobs/patio-two-routes.ron")).unwrap();
    let found = ComparedVariants::of(&job, Codebook::published(), OwnLists::default());
    let packet = about(&job, Matter::Variants(&found));
    check("variants", &packet);
    let mut all = Vec::new();
    packet.sheets.iter().for_each(|sheet| words(sheet.root(), &mut all));
    let said = all.join(" ");
    for wanted in [
        "Variants compared",
        "Around the north side",
        "Where their take-offs differ",
        "NOT FOR PERMIT",
    ] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
}

#[test]
fn the_permit_packet_says_nothing_of_studies() {
    let (job, book) = (old_patio(), Codebook::published());
    let packet = compose(
        &job,
        &Checked::of(&job, book),
        book,
        Paper::AnsiB,
        Orientation::Landscape,
    );
    let mut all = Vec::new();
    packet.sheets.iter().for_each(|sheet| words(sheet.root(), &mut all));
    // Its old pipe is over capacity, so it is not ready.
    assert!(all.iter().any(|words| words == "NOT READY FOR PERMIT"));
    assert!(!all.iter().any(|words| words == "NOT FOR PERMIT"));
}

/// The whole packet: the permit drawing first, then order of work, test, take-off and cuts, under the same title block.
#[test]
fn the_sheets_to_work_from_follow_the_permit_drawing() {
    let (job, book) = (old_patio(), Codebook::published());
    let checked = Checked::of(&job, book);
    let study = &checked.study;
    let work = Work::of(&job, study, book);
    for (paper, way) in [
        (Paper::AnsiB, Orientation::Landscape),
        (Paper::A4, Orientation::Portrait),
    ] {
        let permit = compose(&job, &checked, book, paper, way);
        let packet = compose_about(&job, &checked, book, paper, way, Matter::Whole(&work));
        assert!(packet.sheets.len() > permit.sheets.len());
        let mut all = Vec::new();
        for (at, sheet) in packet.sheets.iter().enumerate() {
            look(&format!("whole {} {}", paper.name(), at + 1), sheet);
            words(sheet.root(), &mut all);
        }
        let cuts = CutList::of(&job, study, book);
        let marks = cuts.pieces.iter().map(|piece| piece.mark.as_str());
        for said in [
            "Work steps",
            "Pressure test",
            "Take-off",
            "Cut list",
            "Cutting plan",
            "NOT READY FOR PERMIT",
        ]
        .into_iter()
        .chain(marks)
        {
            assert!(
                all.iter().any(|words| words == said),
                "{said} is not on {}",
                paper.name()
            );
        }
    }
}
