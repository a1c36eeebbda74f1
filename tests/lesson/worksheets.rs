//! No answer stands on a worksheet, nor in what lies unseen in its files: read by general libraries.

use crate::{job, random_job};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::fmt::Write;
use stubout::codebook::Codebook;
use stubout::drawing::{Asked, Blank};
use stubout::export::packet::Format;
use stubout::export::pdf::PdfInfo;
use stubout::export::svg::TextStyle;
use stubout::job::{Job, State};
use stubout::rules::Checked;
use stubout::scene::Scene;
use stubout::sheet::{Matter, Orientation, Packet, Paper, compose_about};
use stubout::sizing::{Basis, Origin};
use stubout::study::Study;
use stubout::units::{Length, NominalSize, Show, UnitSystem};

const JOBS: [&str; 8] = [
    "examples/classroom.ron",
    "examples/patio-kitchen.ron",
    "examples/propane-cabin.ron",
    "examples/two-pressure-house.ron",
    "tests/jobs/overloaded-trunk.ron",
    "tests/jobs/canada-fig-6-12.ron",
    "tests/jobs/everyday-tubing-tee.ron",
    "tests/jobs/restaurant-row-12.ron",
];

fn packet(job: &Job, asked: Asked) -> Packet {
    let book = Codebook::published();
    let checked = Checked::of(job, book);
    let matter = Matter::Worksheet(asked);
    compose_about(job, &checked, book, Paper::AnsiB, Orientation::Landscape, matter)
}

/// Every text of an SVG: of elements, and of attributes that are words.
fn of_svg(bytes: &[u8]) -> String {
    let text = std::str::from_utf8(bytes).unwrap();
    let document = roxmltree::Document::parse(text).unwrap();
    let mut all = String::new();
    for node in document.descendants() {
        if let Some(words) = node.text() {
            writeln!(all, "{words}").unwrap();
        }
        // All but shapes, places and looks.
        let drawn = [
            "d",
            "transform",
            "viewBox",
            "width",
            "height",
            "stroke-width",
            "font-size",
            "font-weight",
            "textLength",
            "x",
            "y",
        ];
        for attribute in node.attributes().filter(|attribute| !drawn.contains(&attribute.name())) {
            writeln!(all, "{}", attribute.value()).unwrap();
        }
    }
    all
}

/// The text of every page of a PDF, and what stands in its dictionaries.
fn of_pdf(bytes: &[u8]) -> String {
    let document = lopdf::Document::load_mem(bytes).unwrap();
    let pages: Vec<u32> = document.get_pages().into_keys().collect();
    let mut all = document.extract_text(&pages).unwrap();
    for object in document.objects.values() {
        if let Ok(dictionary) = object.as_dict() {
            for (_, value) in dictionary {
                if let lopdf::Object::String(text, _) = value {
                    writeln!(all, "{}", String::from_utf8_lossy(text)).unwrap();
                }
            }
        }
        // The document's own metadata is XML.
        if let Ok(stream) = object.as_stream()
            && stream
                .dict
                .get(b"Type")
                .and_then(|kind| kind.as_name())
                .is_ok_and(|kind| kind == b"Metadata")
        {
            writeln!(all, "{}", String::from_utf8_lossy(&stream.content)).unwrap();
        }
    }
    all
}

/// All that a person or a program can read on a worksheet, by file.
fn readable(sheets: &[Scene]) -> Vec<(&'static str, String)> {
    let info = PdfInfo::default();
    let read = |format: Format, of: fn(&[u8]) -> String| -> String {
        let files = format.files("worksheet".as_ref(), sheets, &info, None);
        files.map(|(_, bytes)| of(&bytes.unwrap())).collect()
    };
    vec![
        ("outlines", read(Format::Svg(TextStyle::Outlines), of_svg)),
        ("live", read(Format::Svg(TextStyle::Live), of_svg)),
        ("PDF", read(Format::Pdf, of_pdf)),
    ]
}

/// Sizes that are asked, but for those that the drawing gives elsewhere or that are a length of it too.
fn sizes(job: &Job, study: &Study) -> BTreeSet<String> {
    let of = |size: NominalSize, material| study.names.show(material, size);
    let asked = study
        .sections
        .iter()
        .filter(|section| matches!(section.sizing.origin, Origin::Found | Origin::Fixed));
    let mut asked: BTreeSet<String> = asked
        .filter_map(|section| section.sizing.size.map(|size| of(size, section.material)))
        .collect();
    let units = job.settings.units;
    for run in &job.runs {
        let given = run
            .size
            .filter(|_| run.state != State::New)
            .into_iter()
            .chain(run.replaces);
        for size in given {
            asked.remove(&of(size, job.material(run)));
            asked.remove(&size.show(units));
        }
        for length in [Some(job.true_length(run)), run.cover].into_iter().flatten() {
            asked.remove(&length.show(units));
        }
    }
    for joint in &job.joints {
        for size in joint.placed.iter().filter_map(|placed| placed.size) {
            asked.remove(&size.show(units));
        }
    }
    asked
}

/// Figures that are asked and that nothing else on a sheet can be: with decimals, or of four digits and more.
fn figures(job: &Job, study: &Study, asked: Asked) -> BTreeSet<String> {
    let is_telling = |figure: &String| figure.contains('.') || figure.len() > 4;
    let mut found = BTreeSet::new();
    let feet = |length: Length| match job.settings.units {
        UnitSystem::Us => format!("{:.1}", length.feet()),
        UnitSystem::Metric | UnitSystem::MetricKpa => length.show(UnitSystem::Metric).replace(" mm", ""),
    };
    let flow = |flow: stubout::units::Flow| {
        let shown = flow.show(job.settings.units);
        shown.split(' ').next().unwrap_or_default().to_owned()
    };
    for section in study.sections.iter().filter(|section| section.is_pipe()) {
        if asked.asks(Blank::SizingLengths) {
            found.insert(feet(section.design.total()));
        }
        if asked.asks(Blank::Loads) {
            found.insert(flow(section.load.flow));
        }
        if asked.asks(Blank::Capacities) {
            found.extend(section.sizing.capacity().map(|capacity| flow(capacity.flow)));
        }
    }
    for outlet in study.outlets.iter().filter(|_| asked.asks(Blank::Pressures)) {
        let pressures = [
            outlet.pressure.map(|pressure| pressure.pa()),
            outlet.margin.map(|margin| margin.pa()),
        ];
        for pa in pressures.into_iter().flatten() {
            found.insert(match job.settings.units {
                UnitSystem::Us => format!("{:.2}", pa / 249.0889),
                UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.2}", pa / 100.0),
            });
        }
    }
    found.retain(is_telling);
    // Figures of the job itself, and of what is said of its tables.
    let mut given = stubout::file::write(job);
    for section in &study.sections {
        if let Basis::Table { table, .. } = &section.sizing.basis
            && let Some(table) = Codebook::published().table(table)
        {
            given += &format!(" {} {} ", table.where_read_in_short(), table.notes.join(" "));
        }
    }
    for outlet in &study.outlets {
        given += &format!(
            " {} {} ",
            flow(outlet.flow),
            outlet
                .least
                .map_or(String::new(), |least| least.show(job.settings.units))
        );
    }
    given += &job
        .runs
        .iter()
        .map(|run| format!(" {} ", job.true_length(run).show(job.settings.units)))
        .collect::<String>();
    let given: BTreeSet<&str> = tokens(&given).collect();
    found.retain(|figure| !given.contains(figure.as_str()));
    found
}

/// Figures and words as they stand between blanks and signs.
fn tokens(text: &str) -> impl Iterator<Item = &str> {
    let ends = |letter: char| !(letter.is_alphanumeric() || matches!(letter, '.' | ',' | '-' | '/' | '"' | '\'' | '−'));
    text.split(ends)
        .map(|token| token.trim_matches(['.', ',']))
        .filter(|token| !token.is_empty())
}

/// Where a size stands by itself: not as the inches of a length.
fn stands(size: &str, text: &str) -> Option<String> {
    text.match_indices(size).find_map(|(at, _)| {
        let before = text[..at].trim_end_matches(' ');
        let is_part = text[..at].ends_with(|c: char| c.is_alphanumeric() || "-/.,▽+−".contains(c))
            || (before.len() < at && before.ends_with(|c: char| c.is_ascii_digit()));
        let after = text[at + size.len()..].starts_with(|c: char| c.is_ascii_digit() || "./-".contains(c));
        let line = text[..at].rfind('\n').map_or(0, |line| line + 1);
        (!is_part && !after).then(|| text[line..].lines().next().unwrap_or_default().to_owned())
    })
}

fn check(name: &str, job: &Job, asked: Asked) {
    let study = Study::of(job, Codebook::published());
    let packet = packet(job, asked);
    let worksheet = packet.worksheet();
    assert!(!worksheet.is_empty() && packet.key().len() > worksheet.len(), "{name}");
    let sizes = if asked.asks(Blank::Sizes) {
        sizes(job, &study)
    } else {
        BTreeSet::new()
    };
    let figures = figures(job, &study, asked);
    for (file, text) in readable(&worksheet) {
        for size in &sizes {
            assert_eq!(stands(size, &text), None, "{name}, {file}: size {size}");
        }
        let found: BTreeSet<&str> = tokens(&text).collect();
        for figure in &figures {
            assert!(!found.contains(figure.as_str()), "{name}, {file}: {figure}");
        }
        for secret in ["within capacity", "UNDERSIZED", "NOT READY"] {
            assert!(!text.contains(secret), "{name}, {file}: {secret}");
        }
        assert!(
            !text.chars().any(|c| u32::from(c) >= 0xF_0000),
            "{name}, {file}: a marked letter"
        );
        let told = text.replace('\n', " ");
        assert!(
            told.contains("EXERCISE, NOT FOR PERMIT") && told.contains("Shut off"),
            "{name}, {file}"
        );
        assert!(!told.contains("Approval stamp"), "{name}, {file}");
    }
    let info = PdfInfo::default();
    let svg = Format::Svg(TextStyle::Outlines).files("w".as_ref(), &worksheet, &info, None);
    for (_, bytes) in svg {
        assert!(
            stubout::file::read_bytes(&bytes.unwrap()).is_err(),
            "{name}: a job lies in its worksheet"
        );
    }
    // The key says what the worksheet asks.
    let key = of_svg_of(&packet.key());
    for size in &sizes {
        assert!(key.contains(size.as_str()), "{name}: {size} is not on the key");
    }
    assert!(key.contains("Working") && key.contains("KEY"), "{name}");
}

fn of_svg_of(sheets: &[Scene]) -> String {
    let info = PdfInfo::default();
    let files = Format::Svg(TextStyle::Outlines).files("k".as_ref(), sheets, &info, None);
    files.map(|(_, bytes)| of_svg(&bytes.unwrap())).collect()
}

#[test]
fn no_answer_stands_on_the_worksheet_of_an_example() {
    JOBS.par_iter().for_each(|name| {
        check(name, &job(name), Asked::of(&Asked::USUAL));
        check(name, &job(name), Asked::of(&Blank::ALL));
    });
}

#[test]
fn no_answer_stands_on_the_worksheet_of_a_random_job() {
    (0..16u64).into_par_iter().for_each(|seed| {
        let job = random_job::random_job(seed, 4 + (seed as usize * 7) % 40);
        let asked = match seed % 3 {
            0 => Asked::of(&Asked::USUAL),
            1 => Asked::of(&Blank::ALL),
            _ => Asked::of(&[Blank::Sizes, Blank::Loads, Blank::SizingLengths]),
        };
        check(&format!("seed {seed}"), &job, asked);
    });
}

/// Lines have room by the kind of answer: a worksheet looks the same whatever the capacities are.
#[test]
fn a_blank_does_not_tell_how_long_its_answer_is() {
    let asked = Asked::of(&Blank::ALL);
    for (short, long) in [("1\"", "1-1/4\""), ("3/4\"", "1-1/2\"")] {
        let count = |words: &str| asked.put(Blank::Sizes, words).chars().count();
        assert_eq!(count(short), count(long));
    }
    for (short, long) in [("9", "1,234"), ("62.8", "100")] {
        for blank in [Blank::Loads, Blank::Capacities, Blank::SizingLengths, Blank::Pressures] {
            let count = |words: &str| asked.put(blank, words).chars().count();
            assert_eq!(count(short), count(long), "{blank:?}");
        }
    }
}

/// What is drawn stands in the same place on worksheet and key.
#[test]
fn the_key_is_the_worksheet_with_its_answers() {
    let packet = packet(&job("examples/classroom.ron"), Asked::of(&Asked::USUAL));
    let (worksheet, key) = (packet.worksheet(), packet.key());
    for (blank, answered) in worksheet.iter().zip(&key) {
        let words = |sheet: &Scene| {
            let mut words = Vec::new();
            sheet.walk(|_, item| {
                if let stubout::scene::Item::Text(text) = item {
                    let at = text.transform();
                    words.push(format!("{} {:.3} {:.3}", text.words(), at.dx, at.dy));
                }
            });
            words
        };
        let answered = words(answered);
        let mut rest = answered.iter();
        for word in words(blank) {
            assert!(
                rest.any(|other| *other == word),
                "{word} is not on the key, or in another place"
            );
        }
        assert!(answered.len() > words(blank).len() + 20);
    }
}
