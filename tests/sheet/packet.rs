//! The whole packet: permit sheets and sheets to work from, of all examples.

use super::clear_labels::labels_are_clear;
use super::sample::{Case, examples, patio, studied};
use super::{PAPERS, whole, whole_once, words};
use std::collections::HashSet;
use std::process::Command;
use stubout::codebook::Codebook;
use stubout::export::pdf::{PdfInfo, write};
use stubout::job::{Fuel, Job, State};
use stubout::sheet::figures::Figures;
use stubout::sheet::{Matter, Work, compose_about};
use stubout::sizing::LengthRule;
use stubout::units::{Length, Show, UnitSystem, in_units};
use stubout::work::{CutList, StockPlan, TakeOff, TestSheet};

#[test]
fn words_on_the_drawing_of_the_pieces_touch_nothing() {
    for (name, case) in &examples() {
        for paper in PAPERS {
            let packet = whole_once(name, case, paper);
            let of_pieces = |sheet: &&stubout::scene::Scene| sheet.words().contains(&"GAS PIPE CUT SHEET");
            let sheets: Vec<_> = packet.sheets.iter().filter(of_pieces).collect();
            assert!(!sheets.is_empty(), "{name}");
            sheets.into_iter().for_each(labels_are_clear);
        }
    }
}

#[test]
fn the_permit_list_is_printed_on_request_and_names_every_item() {
    let book = Codebook::published();
    for (name, (job, checked)) in &examples() {
        let study = &checked.study;
        let work = Work::of(job, study, book).with_permit_list(job, study, book);
        let (paper, way) = PAPERS[0];
        let packet = compose_about(job, checked, book, paper, way, Matter::Whole(&work));
        let title = "Permit checklist: what permit offices ask for";
        let (with, without) = (
            words(&packet),
            words(&whole(&(job.clone(), checked.clone()), PAPERS[0])),
        );
        assert!(with.contains(title) && !without.contains(title), "{name}");
        for item in book.permit_items() {
            let asked = in_units(&item.item, UnitSystem::Us);
            let mut tokens = asked.split_whitespace();
            assert!(tokens.all(|token| with.contains(token)), "{name}: {}", item.item);
        }
    }
}

/// Every number that the schedules of a job show, as the study holds it.
fn figures(case: &Case) -> Vec<String> {
    let (job, checked) = case;
    let study = &checked.study;
    let (book, units) = (Codebook::published(), job.settings.units);
    let mut all = Vec::new();
    let shown = Figures::of(job.settings.units);
    for section in study.sections.iter().filter(|section| section.is_pipe()) {
        all.push(section.number.to_string());
        all.extend(section.sizing.size.map(|size| size.show(units)));
        // Of propane both are in MBH, as its tables are printed.
        if study.gas.fuel == Fuel::Natural {
            all.extend(section.sizing.capacity().map(|capacity| shown.flow(capacity.flow)));
            all.push(shown.flow(section.load.flow));
        }
        all.push(shown.length(section.design.total()));
    }
    let largest = study.outlets.iter().filter_map(|outlet| outlet.pressure);
    let column = shown.pressure(largest.max_by(|a, b| a.psi().total_cmp(&b.psi())).unwrap());
    for outlet in &study.outlets {
        all.push(outlet.tag.clone());
        all.extend(outlet.heat.map(|heat| shown.heat(heat)));
        all.extend(outlet.pressure.map(|pressure| column.gauge(pressure)));
    }
    let cuts = CutList::of(job, study, book);
    let stock = StockPlan::of(&cuts, study, book);
    for (piece, part) in cuts.parts() {
        all.extend([
            part.mark.clone(),
            part.length.show(units),
            piece.centre_to_centre.show(units),
        ]);
    }
    for stick in stock.groups.iter().flat_map(|group| &group.sticks) {
        all.push(stick.off_cut.show(units));
    }
    let take_off = TakeOff::of(job, study, book, &cuts, &stock);
    for line in take_off.lines.iter().filter(|line| line.state != State::Existing) {
        all.extend([line.quantity.show(units), line.size.clone()]);
    }
    let test = TestSheet::of(job, study, book);
    if let Some(demand) = &test.demand {
        all.push(demand.pressure.value.show(units));
        all.push(demand.gauge_top.value.show(units));
        all.extend(demand.minutes.map(|minutes| minutes.value.to_string()));
    }
    for reading in &test.readings {
        all.extend([reading.temperature.words(units), reading.pressure.show(units)]);
    }
    all
}

/// Words as they stand between spaces, without the marks around them.
fn tokens(words: &str) -> impl Iterator<Item = &str> {
    words
        .split_whitespace()
        .map(|word| word.trim_matches(['(', ')', ';', ',', ':', '.', '+']))
}

#[test]
#[ignore = "needs pdftotext (poppler-utils); the check that gates landing runs it"]
fn every_figure_of_the_schedules_is_read_in_the_pdf() {
    let folder = tempfile::tempdir().unwrap();
    for (name, case) in &examples() {
        let pdf = folder.path().join("packet.pdf");
        let sheets = whole(case, PAPERS[0]).sheets;
        std::fs::write(&pdf, write(&sheets, &PdfInfo::default()).unwrap()).unwrap();
        let read = Command::new("pdftotext").arg(&pdf).arg("-").output().unwrap();
        assert!(read.status.success(), "{name}");
        let read = String::from_utf8(read.stdout).unwrap();
        let read: HashSet<&str> = tokens(&read).collect();
        let figures = figures(case);
        assert!(figures.len() > 80, "{name}: {}", figures.len());
        for figure in figures {
            for token in tokens(&figure) {
                assert!(read.contains(token), "{name}: {token} of {figure} is not in the PDF");
            }
        }
    }
}

#[test]
fn one_changed_length_changes_every_sheet_that_speaks_of_it() {
    let (_, (before, checked)) = examples().into_iter().next().unwrap();
    let with = |inches: f64| {
        let mut job: Job = before.clone();
        // The longest new run of the job grows; everything else stays.
        let longest = job
            .runs
            .iter()
            .filter(|run| run.state == State::New)
            .max_by_key(|run| job.true_length(run).eighths_of_um())
            .unwrap()
            .id;
        let length = job.true_length(job.runs.get(longest).unwrap()) + Length::from_inches(inches);
        job.runs.get_mut(longest).unwrap().length = Some(length);
        (length, whole(&studied(job), PAPERS[0]))
    };
    let ((shorter, first), (longer, second)) = (with(0.0), with(7.0));
    let units = before.settings.units;
    assert_eq!(first.sheets.len(), second.sheets.len());
    assert!(words(&first).contains(&shorter.show(units)));
    assert!(words(&second).contains(&longer.show(units)));
    // The length itself, and its cut, stand nowhere as they were.
    let cut = |packet: &CutList, length: Length| {
        let piece = packet
            .pieces
            .iter()
            .find(|piece| piece.centre_to_centre == length)
            .unwrap();
        piece.parts[0].length.show(units)
    };
    let old = CutList::of(&before, &checked.study, Codebook::published());
    let was = cut(&old, shorter);
    assert!(words(&first).contains(&was));
    assert!(!words(&second).contains(&was), "{was} is still somewhere");
}

/// Whoever has only a sheet to work from in hand reads there too that something must be mended first.
#[test]
fn sheets_to_work_from_say_that_a_job_is_not_ready() {
    for (paper, way) in PAPERS {
        for (blocking, wanted) in [(0, false), (3, true)] {
            let packet = whole(&patio(blocking), (paper, way));
            for sheet in &packet.sheets {
                let words = sheet.words();
                // Permit sheet and work sheet alike.
                assert_eq!(
                    words.contains(&"NOT READY FOR PERMIT"),
                    wanted,
                    "{paper:?} {way:?}: {}",
                    sheet.title()
                );
                assert!(!wanted || !words.contains(&"FOR PERMIT"), "{paper:?} {way:?}");
                let for_work = ["GAS PIPE CUT SHEET", "GAS PIPING WORK SHEET"];
                if for_work.iter().any(|title| words.contains(title)) {
                    assert_ne!(words.contains(&"FOR FIELD USE"), wanted, "{paper:?} {way:?}");
                }
            }
            let told = packet.sheets.iter().filter(|sheet| {
                let words = sheet.words();
                words.contains(&"GAS PIPING WORK SHEET") && words.contains(&"NOT READY: 3 must-fix findings")
            });
            assert_eq!(told.count(), usize::from(wanted), "the list of them stands once");
        }
    }
}

/// One page is signed: what is read off the gauge and the names beneath stand on one sheet, with how to purge.
#[test]
fn the_pressure_test_stands_on_one_sheet() {
    for (name, case) in &examples() {
        for paper in PAPERS {
            let packet = whole_once(name, case, paper);
            let holding = |wanted: &str| -> Vec<usize> {
                let said = |sheet: &stubout::scene::Scene| sheet.words().join(" ").contains(wanted);
                (0..packet.sheets.len())
                    .filter(|at| said(&packet.sheets[*at]))
                    .collect()
            };
            let first = holding("Medium: air, nitrogen");
            assert_eq!(first.len(), 1, "{name} {paper:?}");
            for wanted in ["gauge reads", "Inspector: name", "Purging, once the pipe is connected"] {
                assert_eq!(holding(wanted), first, "{name} {paper:?}: {wanted}");
            }
        }
    }
}

/// The longest run on the sheet is the one by which pipe is sized: with what its fittings add.
#[test]
fn the_longest_run_is_the_one_that_decides() {
    let mut added = 0;
    for (name, case) in &examples() {
        let (job, checked) = case;
        let study = &checked.study;
        let (shown, words) = (Figures::of(job.settings.units), words(&whole(case, PAPERS[0])));
        for (number, zone) in study.zones.iter().enumerate() {
            let of_zone = || study.sections.iter().filter(|section| section.zone == number);
            let design = &of_zone()
                .find(|section| section.design.rule == LengthRule::Longest)
                .unwrap()
                .design;
            let longest = of_zone().map(|section| section.design.total()).max().unwrap();
            assert_eq!(design.total(), longest, "{name}: zone from {}", zone.start);
            if design.fittings != Length::ZERO {
                added += 1;
                let said = format!("with fittings {}", shown.length_said(longest));
                assert!(words.contains(&said), "{name}: {said}");
            }
        }
    }
    assert!(added > 2, "{added}");
}

#[test]
fn what_several_tables_are_printed_with_is_said_once() {
    let (_, case) = examples().swap_remove(1);
    let words = words(&whole(&case, PAPERS[0]));
    assert!(
        words.contains("Tables 402.4(18), 402.4(15): Includes four bends"),
        "{words}"
    );
    assert_eq!(words.matches("Includes four bends of 90 degrees").count(), 1);
}

#[test]
fn the_cut_list_on_paper_tells_an_offset_by_its_measures() {
    let job = stubout::file::read(include_str!("../jobs/rolling-offsets.ron")).unwrap();
    let said = words(&whole(&studied(job), PAPERS[0]));
    // Rise 16 in and roll 12 in: true offset 20 in, travel 1.4142 times that.
    for part in [
        "2'-4 5/16\", 45° offset, rise 1'-4\", roll 1'-0\"",
        "An offset of 45°, travel 2'-4 5/16\", set 1'-8\"",
        "(rise 1'-4\", roll 1'-0\"), along the line 1'-8\".",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
}
