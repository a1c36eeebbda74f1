//! The user guide: chapters as they are written, a drawing for those that have one, and all of it as pages.
//!
//! The drawings are made of small jobs by the program itself whenever they are looked at, so that they show what it draws.

use super::cautions::CAUTIONS;
use super::lettering::{Hand, LINE};
use super::paper::Paper;
use crate::codebook::Codebook;
use crate::drawing::{Compass, Options, isometric};
use crate::file;
use crate::scene::{Anchor, Group, Point, Rect, Scene};
use crate::study::Study;

/// The guide as it is written: `# id | heading`, then paragraphs.
const TEXT: &str = include_str!("../../assets/guide.txt");

/// The jobs of the drawings, by the ids of their chapters.
const DRAWINGS: [(&str, &str); 6] = [
    ("delivery", include_str!("../../assets/guide/delivery.ron")),
    ("draw", include_str!("../../assets/guide/draw.ron")),
    ("appliance", include_str!("../../assets/guide/appliance.ron")),
    ("building", include_str!("../../assets/guide/building.ron")),
    ("existing", include_str!("../../assets/guide/existing.ron")),
    ("sizes", include_str!("../../assets/guide/sizes.ron")),
];

/// A chapter of the guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Chapter {
    /// Its name in the text.
    pub id: &'static str,
    /// Its heading.
    pub heading: &'static str,
    body: &'static str,
}

/// The chapters in their order.
pub fn chapters() -> impl Iterator<Item = Chapter> {
    let texts = TEXT.split("# ").skip(1).filter_map(|chapter| chapter.split_once('\n'));
    texts.filter_map(|(head, body)| {
        let (id, heading) = head.split_once(" | ")?;
        Some(Chapter { id, heading, body })
    })
}

impl Chapter {
    /// Its paragraphs.
    pub fn paragraphs(self) -> impl Iterator<Item = &'static str> {
        let paragraphs = self.body.split("\n\n").map(str::trim);
        paragraphs.filter(|words| !words.is_empty())
    }

    /// Its drawing in a room of paper, mm; `None` where it has none.
    pub fn drawing(self, room: Rect) -> Option<Group> {
        let (_, text) = DRAWINGS.iter().find(|(id, _)| *id == self.id)?;
        let job = file::read(text).ok()?;
        let study = Study::of(&job, Codebook::published());
        let options = Options {
            compass: Compass::Apart,
            ..Options::default()
        };
        Some(isometric(&job, &study, room, options).group)
    }
}

/// Height of a drawing among the words, mm.
pub const DRAWING: f64 = 78.0;
/// Margin of a page, mm.
const MARGIN: f64 = 20.0;
/// Between paragraphs, mm.
const GAP: f64 = 2.2;

/// The whole guide as pages of ANSI A, each with its number and the cautions on the last.
pub fn pages() -> Vec<Scene> {
    let mut book = Book::default();
    book.line(Hand::TITLE, "Stubout user guide", 9.0);
    for chapter in chapters() {
        book.keep(if chapter.id == "keys" { 0.0 } else { 30.0 });
        book.line(Hand::HEADING, chapter.heading, 8.0);
        chapter.paragraphs().for_each(|words| book.words(words));
        book.drawing(chapter);
        book.down += 2.0 * GAP;
    }
    book.keep(60.0);
    book.line(Hand::HEADING, "Cautions", 8.0);
    CAUTIONS.iter().for_each(|words| book.words(words));
    book.pages
}

/// Pages that are being filled.
#[derive(Default)]
struct Book {
    pages: Vec<Scene>,
    /// How far down the page is filled, mm.
    down: f64,
}

impl Book {
    fn size() -> (f64, f64) {
        Paper::AnsiA.size(super::Orientation::Portrait)
    }

    /// Goes on on another page where less than so much is left.
    fn keep(&mut self, height: f64) {
        let (width, whole) = Book::size();
        if !self.pages.is_empty() && self.down + height <= whole - MARGIN {
            return;
        }
        let number = self.pages.len() + 1;
        let mut page = Scene::new(width, whole, format!("Stubout user guide, page {number}"));
        let foot = Point::new(width / 2.0, whole - 0.5 * MARGIN);
        page.push(Hand::BODY.write(&format!("Stubout user guide · {number}"), foot, Anchor::Middle));
        self.pages.push(page);
        self.down = MARGIN;
    }

    fn line(&mut self, hand: Hand, words: &str, pitch: f64) {
        self.keep(pitch);
        self.down += pitch;
        let at = Point::new(MARGIN, self.down - 0.35 * pitch);
        if let Some(page) = self.pages.last_mut() {
            page.push(hand.write(words, at, Anchor::Start));
        }
    }

    fn words(&mut self, words: &str) {
        let lines = Hand::BODY.wrap(words, Book::size().0 - 2.0 * MARGIN, usize::MAX).lines;
        self.keep(LINE * lines.len().min(3) as f64);
        for line in lines {
            self.line(Hand::BODY, &line, LINE);
        }
        self.down += GAP;
    }

    fn drawing(&mut self, chapter: Chapter) {
        let room = |down| Rect::sized(Point::new(MARGIN, down), Book::size().0 - 2.0 * MARGIN, DRAWING);
        if chapter.drawing(room(0.0)).is_none() {
            return;
        }
        self.keep(DRAWING);
        if let (Some(drawing), Some(page)) = (chapter.drawing(room(self.down)), self.pages.last_mut()) {
            page.push(drawing);
            self.down += DRAWING;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_drawing_has_its_chapter_can_be_read_and_lies_in_its_room() {
        let book = Codebook::published();
        for (id, text) in DRAWINGS {
            let chapter = chapters()
                .find(|chapter| chapter.id == id)
                .unwrap_or_else(|| panic!("{id}"));
            let job = file::read(text).unwrap_or_else(|error| panic!("{id}: {error}"));
            let checked = crate::rules::Checked::of(&job, book);
            let loose = ["not-joined", "open-end", "joint-on-run", "runs-overlap"];
            let found = checked.findings.iter().find(|finding| loose.contains(&finding.rule));
            assert!(
                found.is_none_or(|_| id == "existing" || id == "delivery"),
                "{id}: {found:?}"
            );
            let room = Rect::sized(Point::new(MARGIN, 50.0), 176.0, DRAWING);
            let drawing = chapter.drawing(room).unwrap();
            assert!(room.grown(1.0).encloses(drawing.bounds().unwrap()), "{id}");
        }
    }

    #[test]
    fn the_pages_hold_every_word_within_their_margins() {
        let pages = pages();
        assert!(pages.len() > 3);
        let all: Vec<&str> = pages.iter().flat_map(Scene::words).collect();
        let said = all.join(" ").split_whitespace().collect::<Vec<_>>().join(" ");
        for words in chapters().flat_map(Chapter::paragraphs).chain(CAUTIONS) {
            let start: Vec<&str> = words.split_whitespace().take(4).collect();
            assert!(said.contains(&start.join(" ")), "{words}");
        }
        for page in &pages {
            let paper = Rect::sized(Point::default(), page.width(), page.height());
            let ink = page.bounds().unwrap();
            assert!(paper.grown(-5.0).encloses(ink), "{}: {ink:?}", page.title());
        }
    }
}
