//! The library in a few lines, without a window: a meter, a line and a grill become a sized permit sheet.
//!
//! `cargo run --example headless > grill.svg`

use stubout::codebook::Codebook;
use stubout::export::svg::{TextStyle, write};
use stubout::rules::Checked;
use stubout::sheet::{Orientation, Paper, compose};
use stubout::study::explain;

const JOB: &str = r#"(
    version: 1,
    title: (job: "One grill"),
    joints: [
        (id: 1, at: (0, 0, 0), device: supply(pressure: "7 in wc")),
        (id: 2, at: (0, 8, 0)),
        (id: 3, at: (6, 8, 0), device: valve()),
        (id: 4, at: (9, 8, 0), device: appliance(name: "Grill", class: "barbecue", input: "60,000 Btu/h")),
    ],
    runs: [(id: 1, from: 1, to: 2), (id: 2, from: 2, to: 3, length: "22'-6"), (id: 3, from: 3, to: 4)],
)"#;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let job = stubout::file::read(JOB)?;
    let book = Codebook::published();
    let checked = Checked::of(&job, book);
    for line in explain(&job, book, &checked.study, 0) {
        eprintln!("{line}");
    }
    let packet = compose(&job, &checked, book, Paper::AnsiB, Orientation::Landscape);
    for sheet in &packet.sheets {
        println!("{}", write(sheet, TextStyle::Outlines));
    }
    Ok(())
}
