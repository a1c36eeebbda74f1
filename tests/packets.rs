//! Whole packets of random jobs: sheets come out for every job, equal on two runs, and every export can be read again
//! by a general library and holds the same words.

#[path = "support/dice.rs"]
mod dice;
#[path = "support/random_job.rs"]
mod random_job;

use rayon::prelude::*;
use std::collections::HashSet;
use stubout::codebook::Codebook;
use stubout::export::pdf::{self, PdfInfo};
use stubout::export::svg::{self, TextStyle};
use stubout::rules::Checked;
use stubout::sheet::{Orientation, Paper, compose};

const PAPERS: [(Paper, Orientation); 4] = [
    (Paper::AnsiB, Orientation::Landscape),
    (Paper::A3, Orientation::Portrait),
    (Paper::A4, Orientation::Portrait),
    (Paper::AnsiA, Orientation::Landscape),
];

/// So many jobs are checked by every run of the tests.
const ALWAYS: u64 = 24;

/// Checks one random job: 3 to 300 runs, the papers in turn.
fn check(seed: u64) {
    let runs = 3 + (seed as usize * 53) % 298;
    let job = random_job::random_job(seed, runs);
    let book = Codebook::published();
    let (paper, orientation) = PAPERS[seed as usize % PAPERS.len()];
    let draw = || compose(&job, &Checked::of(&job, book), book, paper, orientation);
    let packet = draw();
    // Drawing twice takes as long again: every second of those that always run, and of the others every twelfth.
    if seed.is_multiple_of(if seed < ALWAYS { 2 } else { 12 }) {
        assert_eq!(packet, draw(), "seed {seed}: two runs differ");
    }

    for scene in &packet.sheets {
        for style in [TextStyle::Outlines, TextStyle::Live] {
            let text = svg::write(scene, style);
            let options = roxmltree::ParsingOptions {
                nodes_limit: u32::MAX,
                ..Default::default()
            };
            let tree = roxmltree::Document::parse_with_options(&text, options)
                .unwrap_or_else(|error| panic!("seed {seed}: {error}"));
            let held: HashSet<&str> = match style {
                TextStyle::Outlines => tree
                    .descendants()
                    .filter_map(|node| node.attribute("aria-label"))
                    .collect(),
                TextStyle::Live => tree
                    .descendants()
                    .filter(|node| node.has_tag_name("text"))
                    .filter_map(|node| node.text())
                    .collect(),
            };
            for words in scene.words().into_iter().filter(|words| !words.is_empty()) {
                assert!(
                    held.contains(words),
                    "seed {seed}, {style:?}: {words:?} is not in the SVG"
                );
            }
        }
    }
    let bytes = pdf::write(&packet.sheets, &PdfInfo::default()).unwrap();
    let document = lopdf::Document::load_mem(&bytes).unwrap_or_else(|error| panic!("seed {seed}: {error}"));
    assert_eq!(document.get_pages().len(), packet.sheets.len(), "seed {seed}");
}

#[test]
fn random_jobs_come_out_whole() {
    (0..ALWAYS).into_par_iter().for_each(check);
}

#[test]
#[ignore = "takes minutes; the check that gates landing runs it"]
fn five_hundred_random_jobs_come_out_whole() {
    (ALWAYS..500).into_par_iter().for_each(check);
}
