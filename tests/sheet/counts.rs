//! How many sheets a job takes, and how full they are.

use super::random_job::random_job;
use super::sample::{Case, studied};
use super::sheet_fill::fill;
use rayon::prelude::*;
use stubout::codebook::Codebook;
use stubout::sheet::{Orientation, Packet, Paper, Turn, compose};

fn job(path: &str) -> Case {
    let path = format!("{}/{path}.ron", env!("CARGO_MANIFEST_DIR"));
    studied(stubout::file::read(&std::fs::read_to_string(path).unwrap()).unwrap())
}

fn as_nobody_chose(case: &Case, paper: Paper) -> Packet {
    compose(&case.0, &case.1, Codebook::published(), paper, Turn::Fewest)
}

/// A job with the most sheets that it may take on Letter and on ANSI B.
const MOST: [(&str, [usize; 2]); 13] = [
    ("examples/patio-kitchen", [2, 1]),
    ("examples/two-pressure-house", [2, 1]),
    ("examples/propane-cabin", [2, 1]),
    ("examples/classroom", [2, 1]),
    ("tests/jobs/everyday-tubing-tee", [2, 1]),
    ("tests/jobs/rim-joist-outlet", [2, 1]),
    ("tests/jobs/restaurant-row-12", [3, 1]),
    ("tests/jobs/townhouse-three-storeys", [3, 2]),
    ("tests/jobs/house-64-runs", [3, 2]),
    ("tests/jobs/apartments-meter-header", [3, 2]),
    ("tests/jobs/kitchen-crossing-runs", [3, 1]),
    ("tests/jobs/propane-two-stage", [3, 1]),
    ("tests/jobs/tankless-swap", [2, 1]),
];

#[test]
fn a_job_takes_few_sheets_and_none_but_the_last_is_less_than_half_full() {
    let all: Vec<_> = (MOST.iter())
        .flat_map(|(name, most)| [(name, Paper::AnsiA, most[0]), (name, Paper::AnsiB, most[1])])
        .collect();
    let faults: Vec<String> = (all.par_iter())
        .flat_map(|(name, paper, most)| {
            let packet = as_nobody_chose(&job(name), *paper);
            let count = packet.sheets.len();
            let too_many = (count > *most).then(|| format!("{name} {paper:?}: {count} sheets of at most {most}"));
            let empty = half_empty(&format!("{name} {paper:?}"), &packet);
            too_many.into_iter().chain(empty).collect::<Vec<_>>()
        })
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

/// The sheets but the last that are less than half full.
fn half_empty(name: &str, packet: &Packet) -> Vec<String> {
    less_full(name, packet, 0.5)
}

/// The sheets but the last that are less full than `least`.
fn less_full(name: &str, packet: &Packet, least: f64) -> Vec<String> {
    let but_last = packet.sheets.len().saturating_sub(1);
    let sheets = packet.sheets.iter().take(but_last).zip(&packet.names).zip(1..);
    let filled = sheets.map(|((sheet, what), number)| (fill(sheet), what, number));
    let too_empty = filled.filter(|(fill, _, _)| *fill < least);
    too_empty
        .map(|(fill, what, number)| format!("{name}: sheet {number}, {what}, is {:.0} % full", fill * 100.0))
        .collect()
}

/// Parts of two of these jobs, seeds 19 and 23 on A3, cover 30 to 43 % of their sheets: a match line that keeps drops with their
/// appliances and off what is drawn at a joint parts the pipe less evenly.
#[test]
fn no_sheet_of_a_random_job_but_the_last_is_nearly_empty() {
    let faults: Vec<String> = (0..24_u64)
        .into_par_iter()
        .flat_map(|seed| {
            let case = studied(random_job(seed, 6 + 2 * seed as usize));
            let paper = Paper::ALL[seed as usize % 4];
            less_full(&format!("seed {seed} {paper:?}"), &as_nobody_chose(&case, paper), 0.3)
        })
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn paper_that_nobody_turned_is_portrait_where_that_takes_fewer_sheets_and_says_so() {
    let book = Codebook::published();
    let mut turned = 0;
    for (name, paper) in [
        ("tests/jobs/restaurant-two-headers", Paper::AnsiB),
        ("tests/jobs/townhouse-three-storeys", Paper::AnsiB),
        ("tests/jobs/restaurant-row-12", Paper::A3),
        ("examples/patio-kitchen", Paper::AnsiA),
    ] {
        let (job, checked) = job(name);
        let sheets = |orientation: Orientation| compose(&job, &checked, book, paper, orientation).sheets.len();
        let (landscape, portrait) = (sheets(Orientation::Landscape), sheets(Orientation::Portrait));
        let packet = compose(&job, &checked, book, paper, Turn::Fewest);
        assert_eq!(packet.sheets.len(), landscape.min(portrait), "{name}");
        let is_portrait = packet.sheets[0].height() > packet.sheets[0].width();
        assert_eq!(is_portrait, portrait < landscape, "{name}");
        let says_so = packet.remarks.iter().any(|said| said.contains("--landscape"));
        assert_eq!(says_so, is_portrait, "{name}: {:?}", packet.remarks);
        turned += usize::from(is_portrait);
    }
    assert!(turned > 0);
}
