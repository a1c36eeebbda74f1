//! Where one sheet has no room for all words of the drawing: it stands in parts with match lines, from the first sheet on,
//! so that every word stands once; what finds no room even so is counted in a box.

use super::clear_labels::labels_are_clear;
use super::random_job::random_job;
use super::sample::{Case, Names, comb, examples, studied};
use super::{PAPERS, cases, composed, composed_once, notes, whole};
use std::collections::{BTreeMap, HashMap};
use stubout::codebook::Codebook;
use stubout::drawing::tags::Subject;
use stubout::drawing::{Options, isometric};
use stubout::scene::{Item, Point, Rect, Role, Scene};
use stubout::sheet::{Orientation, Packet, Paper};
use stubout::units::UnitSystem;
use stubout::work::CutList;

const SMALL: (Paper, Orientation) = (Paper::AnsiA, Orientation::Portrait);

/// How often words of each subject stand on sheets, the axes and marks of clouds apart.
fn said<'a>(sheets: impl IntoIterator<Item = &'a Scene>) -> HashMap<Subject, usize> {
    let mut said = HashMap::new();
    for sheet in sheets {
        sheet.walk(|_, item| {
            let Item::Group(group) = item else { return };
            let Some(tag) = group.tag.filter(|tag| tag.role == Role::Label) else {
                return;
            };
            match Subject::of(tag) {
                // The number of a section may stand on each part that shows its pipe.
                None | Some(Subject::Sheet | Subject::Change(_) | Subject::Section(_)) => {}
                Some(subject) => *said.entry(subject).or_default() += 1,
            }
        });
    }
    said
}

/// The sheets on which the drawing stands in parts.
fn in_parts(packet: &Packet) -> Vec<&Scene> {
    named(packet, "drawing, ")
}

/// The sheets whose names begin so.
fn named<'a>(packet: &'a Packet, head: &str) -> Vec<&'a Scene> {
    let named = packet.sheets.iter().zip(&packet.names);
    let found = named.filter(|(_, name)| name.starts_with(head));
    found.map(|(sheet, _)| sheet).collect()
}

/// Whether a sheet says boxed that its drawing lacks words.
fn lacks_words(sheet: &Scene) -> bool {
    sheet.words().iter().any(|words| words.contains("DID NOT FIT"))
}

/// Match lines of sheets: for each letter on which sheets it stands, and to which each of them refers.
fn match_lines(packet: &Packet) -> BTreeMap<char, Vec<(usize, usize)>> {
    let mut found: BTreeMap<char, Vec<(usize, usize)>> = BTreeMap::new();
    for (at, sheet) in packet.sheets.iter().enumerate() {
        for words in sheet.words() {
            let words = words.strip_prefix("MATCH LINE ").unwrap_or(words);
            let Some((letters, rest)) = words.split_once(", ") else {
                continue;
            };
            let Some((one, other)) = letters.split_once('–') else {
                continue;
            };
            let beyond = rest.trim_start_matches("SEE ").strip_prefix("SHEET ");
            if let Some(beyond) = beyond.and_then(|number| number.parse().ok())
                && one == other
                && let Some(letter) = one.chars().next()
            {
                found.entry(letter).or_default().push((packet.numbers[at].0, beyond));
            }
        }
    }
    found
}

/// The match lines of a packet; fails where a letter does not stand on two sheets that refer to each other.
#[track_caller]
fn pairs(name: &str, packet: &Packet) -> BTreeMap<char, Vec<(usize, usize)>> {
    let found = match_lines(packet);
    for (letter, sheets) in &found {
        let [(one, to_other), (other, to_one)] = sheets[..] else {
            panic!("{name}: {letter} stands on {sheets:?}");
        };
        let are_two = one != other && to_other == other && to_one == one;
        assert!(are_two, "{name}: {letter} {sheets:?}");
    }
    found
}

/// Jobs that need parts on small upright paper.
fn dense() -> [(&'static str, Case); 2] {
    [
        ("row of twelve", row_of_twelve()),
        ("comb", comb(44, Names::Short, UnitSystem::Us)),
    ]
}

fn row_of_twelve() -> Case {
    let text = include_str!("../jobs/restaurant-row-12.ron");
    studied(stubout::file::read(text).unwrap())
}

#[test]
fn in_parts_every_word_stands_once_and_none_is_left_out() {
    for (name, case) in &dense() {
        let packet = composed(case, SMALL);
        let parts = in_parts(&packet);
        assert!(parts.len() > 1, "{name}: {:?}", packet.names);
        let said = said(parts.iter().copied());
        let twice: Vec<_> = said.iter().filter(|(_, times)| **times != 1).collect();
        assert!(twice.is_empty(), "{name}: {twice:?}");
        // On paper without end everything has room.
        let endless = Rect::sized(Point::default(), 3000.0, 3000.0);
        let whole = isometric(&case.0, &case.1.study, endless, Options::default());
        assert!(whole.numbered.is_empty());
        for lettered in &whole.lettered {
            // Runs in line share words where they are drawn small.
            let shared = matches!(lettered.subject, Subject::Run(_)) && *name == "row of twelve";
            // The number of a section stands on its pipe where that is drawn long enough.
            let elsewhere = matches!(lettered.subject, Subject::Sheet | Subject::Section(_));
            assert!(
                said.contains_key(&lettered.subject) || shared || elsewhere,
                "{name}: {:?}",
                lettered.subject
            );
        }
        assert!(!notes(&packet).contains("TOO DENSE"), "{name}");
        parts.into_iter().for_each(labels_are_clear);
    }
}

#[test]
fn a_match_letter_stands_on_two_sheets_that_refer_to_each_other() {
    for (name, case) in &dense() {
        let found = match_lines(&composed(case, SMALL));
        assert!(!found.is_empty(), "{name}");
        for (letter, sheets) in found {
            let [(one, to_other), (other, to_one)] = sheets[..] else {
                panic!("{name}: {letter} stands on {sheets:?}");
            };
            assert!(
                one != other && to_other == other && to_one == one,
                "{name}: {letter} {sheets:?}"
            );
        }
    }
}

#[test]
fn the_person_who_asked_is_told_of_parts_and_every_part_shows_where_it_lies() {
    for (name, case) in &dense() {
        let packet = composed(case, SMALL);
        let parts = in_parts(&packet);
        let said = format!("The drawing is in {} parts", parts.len());
        assert!(packet.remarks[0].starts_with(&said), "{name}: {:?}", packet.remarks);
        // Better words than a key plan, where both have no room.
        let with_room = parts.iter().enumerate().filter(|_| *name == "row of twelve");
        for (number, part) in with_room {
            let caption = format!("KEY PLAN: PART {} OF {}", number + 1, parts.len());
            let has_key = part.words().contains(&caption.as_str());
            let has_north = part.words().contains(&"N");
            assert!(has_key && has_north, "{name}: part {}", number + 1);
        }
    }
}

#[test]
fn no_sheet_lacks_words_silently() {
    for (name, case) in &cases() {
        for paper in PAPERS {
            let packet = composed_once(name, case, paper);
            let parts = in_parts(&packet);
            let lacks = packet.sheets.iter().any(lacks_words);
            // What the title block lacks, and that another way round needs fewer sheets, is told beside.
            let of_title = |said: &&String| {
                said.starts_with("not all of this fits in the title block") || said.contains(" instead of ")
            };
            assert_eq!(
                lacks || !parts.is_empty(),
                packet.remarks.iter().any(|said| !of_title(&said)),
                "{name} {paper:?}: {:?}",
                packet.remarks
            );
            assert_eq!(lacks, notes(&packet).contains("TOO DENSE"), "{name} {paper:?}");
            assert!(parts.len() <= 6, "{name} {paper:?}");
        }
    }
}

#[test]
fn examples_have_room_on_their_own_paper() {
    for (name, case) in &examples() {
        let packet = composed(case, (Paper::AnsiB, Orientation::Landscape));
        assert!(
            in_parts(&packet).is_empty() && !packet.sheets.iter().any(lacks_words),
            "{name}: {:?}",
            packet.names
        );
        assert!(match_lines(&packet).is_empty() && packet.remarks.is_empty(), "{name}");
    }
}

#[test]
fn random_jobs_in_parts_say_everything_once() {
    let mut with_parts = 0;
    for seed in 0..16 {
        let case = studied(random_job(seed, 10 + 7 * seed as usize));
        let paper = PAPERS[2 + seed as usize % 2];
        let (name, packet) = (format!("seed {seed}"), composed(&case, paper));
        let parts = in_parts(&packet);
        if parts.is_empty() {
            continue;
        }
        with_parts += usize::from(parts.len() > 1);
        pairs(&name, &packet);
        let said = said(parts.iter().copied());
        assert!(said.values().all(|times| *times == 1), "{name}: {said:?}");
        let lacks = packet.sheets.iter().any(lacks_words);
        for outlet in case.1.study.outlets.iter().filter(|_| !lacks) {
            assert!(
                said.contains_key(&Subject::Joint(outlet.joint)),
                "{name}: {}",
                outlet.tag
            );
        }
        parts.into_iter().for_each(labels_are_clear);
    }
    assert!(with_parts > 4, "{with_parts}");
}

#[test]
fn pieces_in_parts_are_all_marked_once() {
    let (paper, mut in_parts) = (PAPERS[2], 0);
    let mut jobs = examples();
    jobs.push(("row of twelve", row_of_twelve()));
    for (name, case) in &jobs {
        let packet = whole(case, paper);
        let sheets = named(&packet, "pieces to cut");
        in_parts += usize::from(sheets.len() > 1);
        assert!(sheets.len() < 2 || !pairs(name, &packet).is_empty(), "{name}");
        let lacks = sheets.iter().any(|sheet| lacks_words(sheet));
        let said = said(sheets);
        assert!(said.values().all(|times| *times == 1), "{name}: {said:?}");
        let cuts = CutList::of(&case.0, &case.1.study, Codebook::published());
        let marked = |runs: &[usize]| {
            runs.iter()
                .filter(|run| said.contains_key(&Subject::Run(**run)))
                .count()
        };
        for piece in cuts.pieces.iter().filter(|_| !lacks) {
            assert_eq!(marked(&piece.runs), 1, "{name}: {}", piece.mark);
        }
    }
    assert!(in_parts > 0);
}
