//! A job inside an SVG is still there, and the same, after a general library has opened the SVG and saved it again.

#[path = "file/any_job.rs"]
mod any_job;
#[path = "support/dice.rs"]
mod dice;
#[path = "support/random_job.rs"]
mod random_job;

use any_job::any_job;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use proptest::prelude::*;
use random_job::random_job;
use rayon::prelude::*;
use std::ffi::OsStr;
use stubout::codebook::Codebook;
use stubout::export::packet::Format;
use stubout::export::pdf::PdfInfo;
use stubout::export::svg::{TextStyle, write};
use stubout::file::{self, read, read_bytes};
use stubout::job::Job;
use stubout::rules::Checked;
use stubout::scene::Scene;
use stubout::sheet::{Orientation, Paper, compose};
use xml::writer::{EmitterConfig, XmlEvent};
use xml::{EventReader, EventWriter};

/// What the library `svg` makes of an SVG: its elements with their attributes in another order, each line indented.
fn by_svg_library(text: &str) -> String {
    use svg::Node;
    use svg::node::element::Element;
    use svg::node::element::tag::Type;
    use svg::parser::Event;
    let mut open = vec![Element::new("whole")];
    for event in svg::read(text).unwrap() {
        match event {
            Event::Tag(name, kind, attributes) => {
                if kind != Type::End {
                    let mut element = Element::new(name);
                    element.get_attributes_mut().extend(attributes);
                    open.push(element);
                }
                if kind != Type::Start {
                    let done = open.pop().unwrap();
                    open.last_mut().unwrap().append(done);
                }
            }
            Event::Text(words) => open.last_mut().unwrap().append(svg::node::Text::new(words)),
            Event::Comment(_) | Event::Declaration(_) | Event::Instruction(_) => {}
            Event::Error(error) => panic!("{error}"),
        }
    }
    open.remove(0).get_children()[0].to_string()
}

/// What the library `xml-rs` makes of an XML: a declaration, every space of indentation its own, words escaped anew.
fn by_xml_library(text: &str) -> String {
    let settings = EmitterConfig::new().perform_indent(true).line_separator("\r\n");
    let mut writer = EventWriter::new_with_config(Vec::new(), settings);
    for event in EventReader::new(text.as_bytes()) {
        if let Some(event) = event.unwrap().as_writer_event() {
            writer.write(event).unwrap();
        }
    }
    String::from_utf8(writer.into_inner()).unwrap()
}

/// The same with our namespace under a prefix, and every letter of words by its number.
fn by_prefix_and_number(text: &str) -> String {
    let mut raw = EventWriter::new(Vec::new());
    for event in EventReader::new(text.as_bytes()) {
        match event.unwrap() {
            xml::reader::XmlEvent::StartElement { name, namespace, .. } if name.local_name == "stubout-job" => {
                let space = namespace.get("").unwrap().to_owned();
                let element = XmlEvent::start_element("n1:stubout-job").ns("n1", space);
                raw.write(element).unwrap();
            }
            // Under whatever name the element began.
            xml::reader::XmlEvent::EndElement { .. } => raw.write(XmlEvent::end_element()).unwrap(),
            xml::reader::XmlEvent::Characters(words) => {
                let numbers: String = words
                    .chars()
                    .map(|letter| format!("&#{};", u32::from(letter)))
                    .collect();
                raw.write(XmlEvent::characters("")).unwrap();
                std::io::Write::write_all(raw.inner_mut(), numbers.as_bytes()).unwrap();
            }
            other => {
                if let Some(event) = other.as_writer_event() {
                    raw.write(event).unwrap();
                }
            }
        }
    }
    String::from_utf8(raw.into_inner()).unwrap()
}

/// The SVG of the first sheet as it is handed over.
fn drawn(job: &Job, sheets: &[Scene], style: TextStyle) -> String {
    let (info, inside) = (PdfInfo::default(), file::element(job));
    let mut files = Format::Svg(style).files(OsStr::new("sheet"), sheets, &info, Some(&inside));
    let (_, bytes) = files.next().unwrap();
    for (name, bytes) in files {
        let error = read_bytes(&bytes.unwrap()).unwrap_err();
        assert_eq!(error.problem, "this SVG has no job inside", "{}", name.display());
    }
    String::from_utf8(bytes.unwrap()).unwrap()
}

#[track_caller]
fn check(job: &Job, sheets: &[Scene], style: TextStyle) {
    let own = drawn(job, sheets, style);
    assert_eq!(read_bytes(own.as_bytes()).as_ref(), Ok(job));
    for again in [by_svg_library, by_xml_library, by_prefix_and_number] {
        let saved = again(&own);
        assert_ne!(saved, own);
        assert_eq!(read(&saved).as_ref(), Ok(job), "{saved}");
        // And once more, as if two people had saved it.
        let twice = by_xml_library(&saved);
        assert_eq!(read(&twice).as_ref(), Ok(job), "{twice}");
    }
    let latin: Vec<u8> = own.chars().map(|letter| u8::try_from(letter).unwrap_or(b'?')).collect();
    assert_eq!(read_bytes(&latin).as_ref(), Ok(job), "saved in Latin-1");
    let collapsed = own.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(read(&collapsed).as_ref(), Ok(job), "spaces collapsed");
}

#[test]
fn the_sheet_of_every_example_gives_its_job_back() {
    let mut examples = 0;
    for entry in std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/examples")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension() != Some(OsStr::new("ron")) {
            continue;
        }
        examples += 1;
        let job = read(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let book = Codebook::published();
        let packet = compose(
            &job,
            &Checked::of(&job, book),
            book,
            Paper::AnsiB,
            Orientation::Landscape,
        );
        for style in [TextStyle::Outlines, TextStyle::Live] {
            check(&job, &packet.sheets, style);
        }
    }
    assert!(examples > 3, "{examples} examples");
}

#[test]
fn the_sheets_of_random_jobs_give_them_back() {
    (0..24u64).into_par_iter().for_each(|seed| {
        let job = random_job(seed, 3 + (seed as usize * 7) % 40);
        let book = Codebook::published();
        let packet = compose(&job, &Checked::of(&job, book), book, Paper::A3, Orientation::Portrait);
        check(&job, &packet.sheets, TextStyle::Outlines);
    });
}

#[test]
fn any_job_that_a_file_can_hold_comes_back() {
    let sheet = Scene::new(50.0, 40.0, "<a> & b");
    (0..100u64).into_par_iter().for_each(|seed| {
        check(
            &any_job(seed, seed as usize % 40),
            &[sheet.clone(), sheet.clone()],
            TextStyle::Live,
        );
    });
}

#[test]
fn words_that_xml_cannot_hold_come_back() {
    let mut job = Job::default();
    let controls: String = (0..0xa0).filter_map(char::from_u32).collect();
    let title = &mut job.title;
    title.job = format!("  {controls}  ");
    title.site = "]]> <![CDATA[ <!-- --> &amp; &#10; \u{fffe}\u{ffff}\u{2028}\u{85}\u{feff}".to_owned();
    title.parcel = "\r\n\r\n\t\t'\"\\".to_owned();
    title.drawn_by =
        "</stubout-job></metadata><stubout-job xmlns='urn:stubout:job'>\u{1fffe}\u{301}e\u{301}".to_owned();
    check(&job, &[Scene::new(50.0, 40.0, "")], TextStyle::Outlines);
}

#[test]
fn an_svg_cut_anywhere_is_an_error_and_nothing_worse() {
    let mut sheet = Scene::new(50.0, 40.0, "cut");
    sheet.push(stubout::scene::TextItem::new(
        "3/4\" ä",
        2.5,
        stubout::scene::Face::Regular,
    ));
    let svg = drawn(&any_job(7, 12), &[sheet], TextStyle::Live);
    let whole = svg.trim_end().len();
    for end in 0..whole {
        let error = read_bytes(&svg.as_bytes()[..end]).expect_err("cut");
        assert!(!error.remedy.is_empty(), "{end}");
    }
    assert!(read_bytes(&svg.as_bytes()[..whole]).is_ok());
}

#[test]
fn an_svg_without_a_usable_job_says_what_to_do() {
    let sheet = Scene::new(50.0, 40.0, "bare");
    let error = read(&write(&sheet, TextStyle::Outlines)).unwrap_err().to_string();
    assert!(
        error.starts_with("this SVG has no job inside\nopen the job file"),
        "{error}"
    );
    let carrying = |text: &str| {
        let whole = drawn(&Job::default(), std::slice::from_ref(&sheet), TextStyle::Outlines);
        let own = file::element(&Job::default());
        let letters = STANDARD.encode(text);
        whole.replace(&own, &format!("<stubout-job>{letters}</stubout-job>"))
    };
    assert_eq!(read(&carrying("(version: 1)")), Ok(Job::default()));
    let error = read(&carrying("(\nversion: 1, runz: [])")).unwrap_err().to_string();
    assert!(
        error.starts_with("line 2, column 13: in the job inside this SVG, "),
        "{error}"
    );
    assert!(error.contains("runz"), "{error}");
    let error = read(&carrying("(version: 99)")).unwrap_err().to_string();
    assert!(
        error.contains("in the job inside this SVG") && error.contains("newer"),
        "{error}"
    );
    // A drawing inside a drawing is not opened again and again.
    assert!(read(&carrying(&carrying("(version: 1)"))).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn a_byte_changed_anywhere_is_read_to_an_answer(at in 0usize..4_000, byte: u8) {
        let sheet = Scene::new(50.0, 40.0, "changed");
        let mut svg = drawn(&any_job(3, 8), &[sheet], TextStyle::Outlines).into_bytes();
        let at = at % svg.len();
        svg[at] = byte;
        let _ = read_bytes(&svg);
    }
}
