//! The job that an SVG carries inside.
//!
//! It is the text of the job file in base64 within one element. Programs that open and save XML may move an element,
//! give its namespace another prefix, escape other characters, change the ends of lines, indent and collapse spaces;
//! and XML cannot hold every character of a job. Nothing of this touches letters and figures between which space means
//! nothing. The element is found by its own name alone, so that no prefix can be in its way. Reading goes over the text
//! once and keeps no tree, so that no XML is too deep, too wide or too broken for it.

use super::error::FileError;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use quick_xml::Reader;
use quick_xml::events::Event;

/// So many letters of what the reader of XML says are handed on.
const MOST_QUOTED: usize = 200;

/// The element that holds the job.
const ELEMENT: &str = "stubout-job";

/// The namespace of the element: plain, and of nobody else.
const NAMESPACE: &str = "urn:stubout:job";

/// Letters on a line.
const LINE: usize = 100;

/// What to do where the whole of it is of no use.
const OTHER: &str = "open the job file that it was drawn from, or a whole and unchanged copy of it";

/// The text of a job file as an element of XML.
pub fn element(text: &str) -> String {
    let letters = STANDARD.encode(text);
    let mut element = format!("<{ELEMENT} xmlns=\"{NAMESPACE}\">\n");
    let mut rest = letters.as_str();
    while !rest.is_empty() {
        // Base64 is ASCII.
        let (line, after) = rest.split_at(LINE.min(rest.len()));
        element += line;
        element.push('\n');
        rest = after;
    }
    element + &format!("</{ELEMENT}>")
}

/// Whether bytes are an SVG, in whatever encoding that writes plain letters as ASCII does: its first element is called so.
pub fn is_svg(bytes: &[u8]) -> bool {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes).trim_ascii_start();
    if !bytes.starts_with(b"<") {
        return false;
    }
    let mut reader = Reader::from_reader(bytes);
    loop {
        match reader.read_event() {
            Ok(Event::Start(tag) | Event::Empty(tag)) => return tag.local_name().as_ref() == b"svg",
            Ok(Event::Text(_) | Event::Comment(_) | Event::Decl(_) | Event::PI(_) | Event::DocType(_)) => {}
            Ok(Event::End(_) | Event::CData(_) | Event::GeneralRef(_) | Event::Eof) | Err(_) => return false,
        }
    }
}

/// The text of the job that an SVG carries.
///
/// # Errors
/// When it is broken or cut off, when it carries no job or more than one, or when the job inside was changed.
pub fn text(xml: &str) -> Result<String, FileError> {
    let xml = xml.trim_start_matches('\u{feff}');
    let letters = letters(xml)?.ok_or_else(|| {
        FileError::whole(
            "this SVG has no job inside",
            "open the job file that it was drawn from; of several sheets the first carries the job, unless it was drawn bare",
        )
    })?;
    let changed = || FileError::whole("the job that this SVG carries inside was changed or cut", OTHER);
    let bytes = STANDARD.decode(letters).map_err(|_| changed())?;
    String::from_utf8(bytes).map_err(|_| changed())
}

/// What stands in our element, without space.
fn letters(xml: &str) -> Result<Option<Vec<u8>>, FileError> {
    let mut reader = Reader::from_str(xml);
    let mut found: Option<Vec<u8>> = None;
    // How many elements are open, and how many were when ours began, as long as it is open.
    let (mut open, mut ours) = (0usize, None);
    loop {
        let start = usize::try_from(reader.buffer_position()).unwrap_or(usize::MAX);
        let event = reader.read_event().map_err(|error| {
            let at = usize::try_from(reader.error_position()).unwrap_or(usize::MAX);
            // The reader of XML may quote half of the file.
            let what: String = error.to_string().chars().take(MOST_QUOTED).collect();
            FileError::at(
                xml,
                at..at.saturating_add(1),
                format!("the XML is broken here ({what})"),
                OTHER,
            )
        })?;
        let mut add = |bytes: &[u8]| {
            if let (Some(letters), Some(_)) = (&mut found, ours) {
                letters.extend(bytes.iter().filter(|byte| !byte.is_ascii_whitespace()));
            }
        };
        match event {
            Event::Text(words) => add(&words),
            Event::CData(words) => add(&words),
            Event::GeneralRef(name) => {
                // A library may write any character by its number; other names have no place in our element.
                let symbol = name.resolve_char_ref().ok().flatten().unwrap_or('?');
                add(symbol.encode_utf8(&mut [0; 4]).as_bytes());
            }
            Event::Start(tag) | Event::Empty(tag)
                if tag.local_name().as_ref() == ELEMENT.as_bytes() && found.is_some() =>
            {
                let remedy = "open one that carries only the job that you mean";
                return Err(FileError::at(xml, start..start + 1, "a second job begins here", remedy));
            }
            Event::Start(tag) => {
                open += 1;
                if tag.local_name().as_ref() == ELEMENT.as_bytes() {
                    (found, ours) = (Some(Vec::new()), Some(open));
                }
            }
            Event::Empty(tag) => {
                if tag.local_name().as_ref() == ELEMENT.as_bytes() {
                    found = Some(Vec::new());
                }
            }
            Event::End(_) => {
                ours = ours.filter(|depth| *depth != open);
                open = open.saturating_sub(1);
            }
            Event::Eof if open > 0 => return Err(FileError::whole("this SVG is cut off before its end", OTHER)),
            Event::Eof => return Ok(found),
            Event::Comment(_) | Event::Decl(_) | Event::PI(_) | Event::DocType(_) => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(xml: &str, expected: Result<&str, &str>) {
        assert!(is_svg(xml.as_bytes()), "{xml}");
        let found = text(xml).map_err(|error| error.problem);
        assert_eq!(found.as_deref().map_err(String::as_str), expected, "{xml}");
    }

    #[test]
    fn the_job_is_found_wherever_and_however_it_stands() {
        // "(a)" is KGEp.
        for xml in [
            "<svg><metadata><stubout-job xmlns=\"urn:stubout:job\">KGEp</stubout-job></metadata></svg>",
            "\u{feff}<?xml version='1.0'?><!DOCTYPE svg [<!ENTITY x \"]>\">]><ns0:svg xmlns:ns0='http://www.w3.org/2000/svg' \
             xmlns:n='urn:stubout:job'><n:stubout-job>\r\n\tK G E\r\np  </n:stubout-job></ns0:svg>",
            "\n<!-- <stubout-job> --><svg><g><stubout-job a='>'><![CDATA[KG]]>&#69;<!-- no -->&#x70;</stubout-job></g>later</svg>",
        ] {
            check(xml, Ok("(a)"));
        }
        let long = "patio ".repeat(1_000);
        assert_eq!(text(&format!("<svg>{}</svg>", element(&long))), Ok(long));
    }

    #[test]
    fn a_drawing_without_a_whole_job_says_so() {
        let none = Err("this SVG has no job inside");
        check("<svg><job>KGEp</job></svg>", none);
        check("<svg/>", none);
        let job = "<stubout-job>KGEp</stubout-job>";
        check(&format!("<svg>{job}{job}</svg>"), Err("a second job begins here"));
        check(
            &format!("<svg>{job}<stubout-job/></svg>"),
            Err("a second job begins here"),
        );
        check(&format!("<svg>{job}<g>"), Err("this SVG is cut off before its end"));
        let changed = Err("the job that this SVG carries inside was changed or cut");
        check("<svg><stubout-job>KGE</stubout-job></svg>", changed);
        check("<svg><stubout-job>KG&lt;p</stubout-job></svg>", changed);
        check("<svg><stubout-job>/w==</stubout-job></svg>", changed);
        let error = text("<svg>\n <a></b></svg>").unwrap_err();
        assert_eq!(error.place.map(|place| place.line), Some(2));
        for other in [
            "",
            "(version: 1)",
            " // <svg>\n(version: 1)",
            "<html><svg/></html>",
            "<!-- <svg> -->",
            "<svg",
        ] {
            assert!(!is_svg(other.as_bytes()), "{other}");
        }
    }

    #[test]
    fn the_deepest_and_widest_xml_takes_no_more_than_its_length() {
        const MANY: usize = 300_000;
        let deep = format!("<svg>{}", "<a xmlns:x='urn:x'>".repeat(MANY));
        assert!(text(&deep).is_err());
        let wide: String = (0..MANY).map(|n| format!(" xmlns:a{n}='urn:x'")).collect();
        assert!(text(&format!("<svg{wide}>{}</svg>", "<a1:x/>".repeat(MANY))).is_err());
        let bomb = "<!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>".repeat(1_000);
        let bomb = format!("<!DOCTYPE svg [{bomb}]><svg><stubout-job>&b;</stubout-job></svg>");
        assert!(text(&bomb).is_err());
    }

    proptest! {
        #[test]
        fn any_text_is_read_to_an_answer(rest in "[<>/!?&;#'\"=:\\[\\]\\-é KGEpstuboj]{0,60}") {
            for xml in [rest.clone(), format!("<svg><stubout-job>{rest}")] {
                is_svg(xml.as_bytes());
                let _ = text(&xml);
            }
        }
    }
}
