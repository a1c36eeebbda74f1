//! The permit sheet: what must be on it is on it, nothing touches, nothing leaves the frame.

#[path = "support/draft.rs"]
mod draft;
#[path = "sheet/sample.rs"]
mod sample;

use sample::{Case, Names, comb, examples, patio, studied};
use stubout::codebook::Codebook;
use stubout::drawing::sheet::{Orientation, Packet, Paper, compose};
use stubout::job::Job;
use stubout::units::UnitSystem;

const PAPERS: [(Paper, Orientation); 8] = [
    (Paper::AnsiB, Orientation::Landscape),
    (Paper::AnsiB, Orientation::Portrait),
    (Paper::AnsiA, Orientation::Landscape),
    (Paper::AnsiA, Orientation::Portrait),
    (Paper::A3, Orientation::Landscape),
    (Paper::A3, Orientation::Portrait),
    (Paper::A4, Orientation::Landscape),
    (Paper::A4, Orientation::Portrait),
];

fn composed(case: &Case, paper: (Paper, Orientation)) -> Packet {
    compose(&case.0, &case.1, Codebook::published(), paper.0, paper.1)
}

/// Writes pictures to look at: `cargo test --test sheet -- --ignored`.
#[test]
#[ignore = "writes pictures to look at into the system's folder for scratch files"]
fn pictures() {
    let only = std::env::var("ONLY").unwrap_or_default();
    let folder = std::env::temp_dir().join("sheet-pictures");
    std::fs::create_dir_all(&folder).unwrap();
    let mut cases = examples();
    cases.extend([
        ("blocked", patio(12)),
        ("long", comb(40, Names::Long, UnitSystem::Metric)),
        ("comb", comb(120, Names::Short, UnitSystem::Us)),
        ("empty", studied(Job::default())),
    ]);
    for (name, case) in &cases {
        for paper in PAPERS.into_iter().filter(|_| name.contains(&only)) {
            for (number, sheet) in composed(case, paper).sheets.iter().enumerate() {
                let file = format!(
                    "{name}-{}-{}-{}.png",
                    paper.0.name().replace(' ', ""),
                    paper.1.name(),
                    number + 1
                );
                std::fs::write(folder.join(file), stubout::export::png::write(sheet, 150.0).unwrap()).unwrap();
            }
        }
    }
}
