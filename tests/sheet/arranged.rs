//! Drawn lengths arranged for the sheets.

use stubout::codebook::Codebook;
use stubout::file;
use stubout::rules::Checked;
use stubout::scene::{Item, Scene};
use stubout::sheet::{About, Arrange, Orientation, Packet, Paper, compose_about};

fn sheets(name: &str, arrange: Arrange) -> Packet {
    let path = format!("{}/tests/jobs/{name}.ron", env!("CARGO_MANIFEST_DIR"));
    let job = file::read(&std::fs::read_to_string(path).unwrap()).unwrap();
    let book = Codebook::published();
    let about = About {
        arrange,
        ..About::default()
    };
    let checked = Checked::of(&job, book);
    compose_about(&job, &checked, book, Paper::AnsiB, Orientation::Landscape, about)
}

fn says_so(sheet: &Scene) -> bool {
    let mut says = false;
    sheet.walk(|_, item| {
        if let Item::Text(text) = item {
            says |= text.words().contains("drawn lengths arranged");
        }
    });
    says
}

#[test]
fn what_meets_on_paper_is_arranged_and_the_sheet_says_so() {
    for name in ["townhouse-three-storeys", "house-64-runs"] {
        assert!(says_so(&sheets(name, Arrange::WhenNeeded).sheets[0]), "{name}");
        assert!(!says_so(&sheets(name, Arrange::Never).sheets[0]), "{name}");
    }
}

#[test]
fn what_reads_as_it_is_drawn_stays_unless_it_is_asked_for() {
    assert!(!says_so(&sheets("canada-fig-6-12", Arrange::WhenNeeded).sheets[0]));
    assert!(says_so(&sheets("canada-fig-6-12", Arrange::Always).sheets[0]));
}
