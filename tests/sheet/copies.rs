//! Sheets outlive the copier: every example on ANSI B is copied at half its size in black and white without gray, and a
//! general reader of letters reads the copy.
//!
//! `cargo test --test sheet copies -- --ignored --nocapture`, with tesseract in the path (`apt-get install tesseract-ocr`).
//! Each line of lettering is cut out of the copy where it stands and turned upright, as a reader turns the sheet; the lines
//! of a sheet are read together, and a word counts as read where the reader names it. `COPIES=folder` keeps what is read.

use super::sample::examples;
use super::{PAPERS, composed};
use std::collections::{BTreeSet, HashMap};
use std::path::Path;
use std::process::Command;
use stubout::export::png;
use stubout::scene::{Item, Point, Scene, TextItem};

/// A copier's 300 dots per inch on a copy half as large as the sheet: so many dots to an inch of the sheet.
const DPI: f64 = 150.0;
/// How much larger the reader sees a dot.
const LARGER: f64 = 3.0;
/// Around a line of lettering, mm, and from one line to the next, dots.
const AROUND: f64 = 0.5;
const APART: usize = 24;
/// The width of what the reader sees, dots: the longest line of a sheet; and how many lines it sees at once.
const WIDTH: usize = 5200;
const LINES: usize = 40;
/// The share of words that is read at least.
const READ: f64 = 0.95;

/// A sheet as a copier leaves it: dots that are black or not.
struct Copied {
    width: usize,
    height: usize,
    black: Vec<bool>,
}

impl Copied {
    fn of(sheet: &Scene) -> Copied {
        let ([width, height], pixels) = png::pixels(sheet, DPI).unwrap();
        let dark = |pixel: &[u8]| pixel[..3].iter().map(|part| u32::from(*part)).sum::<u32>() < 3 * 128;
        let black = pixels.chunks_exact(4).map(dark).collect();
        Copied { width, height, black }
    }

    /// How dark a place is, in dots from the upper left: between the middles of four dots in proportion.
    fn dark(&self, x: f64, y: f64) -> f64 {
        let (left, top) = ((x - 0.5).floor(), (y - 0.5).floor());
        let at = |dx: f64, dy: f64| {
            let (column, row) = (left + dx, top + dy);
            let inside = column >= 0.0 && row >= 0.0 && column < self.width as f64 && row < self.height as f64;
            f64::from(inside && self.black[row as usize * self.width + column as usize])
        };
        let (right, low) = (x - 0.5 - left, y - 0.5 - top);
        (at(0.0, 0.0) * (1.0 - right) + at(1.0, 0.0) * right) * (1.0 - low)
            + (at(0.0, 1.0) * (1.0 - right) + at(1.0, 1.0) * right) * low
    }

    /// A line of lettering cut out and turned upright, row by row: 0 for black.
    fn cut(&self, text: &TextItem) -> Vec<Vec<u8>> {
        let extent = text.extent().grown(AROUND);
        let dots = DPI / 25.4;
        let size = |mm: f64| (mm * dots * LARGER).ceil() as usize;
        let row = |y: usize| {
            let gray = |x: usize| {
                let local = Point::new(
                    extent.min.x + (x as f64 + 0.5) / (dots * LARGER),
                    extent.min.y + (y as f64 + 0.5) / (dots * LARGER),
                );
                let place = text.transform().point(local);
                (255.0 * (1.0 - self.dark(place.x * dots, place.y * dots))) as u8
            };
            (0..size(extent.width()).min(WIDTH - 2 * APART)).map(gray).collect()
        };
        (0..size(extent.height())).map(row).collect()
    }
}

/// Lines one under the other, as a picture that the reader takes (portable graymap).
fn page(lines: &[Vec<Vec<u8>>]) -> Vec<u8> {
    let mut rows: Vec<Vec<u8>> = vec![vec![255; WIDTH]; APART];
    for line in lines {
        for dots in line {
            let mut row = vec![255; WIDTH];
            row[APART..APART + dots.len()].copy_from_slice(dots);
            rows.push(row);
        }
        rows.extend(vec![vec![255; WIDTH]; APART]);
    }
    let mut file = format!("P5\n{WIDTH} {}\n255\n", rows.len()).into_bytes();
    file.extend(rows.concat());
    file
}

/// What can be told of words apart from their signs: letters and figures, those that look alike as one.
fn tokens(words: &str) -> impl Iterator<Item = String> + '_ {
    let alike = |letter: char| match letter.to_ascii_lowercase() {
        'i' | 'l' | '|' => '1',
        'o' => '0',
        other => other,
    };
    let token = move |word: &str| {
        word.chars()
            .map(alike)
            .filter(|letter| letter.is_ascii_alphanumeric())
            .collect()
    };
    words
        .split_whitespace()
        .map(token)
        .filter(|word: &String| word.len() > 1)
}

fn read(page: &[u8], file: &Path) -> HashMap<String, usize> {
    std::fs::write(file, page).unwrap();
    let output = Command::new("tesseract")
        .arg(file)
        .args(["-", "--psm", "6"])
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let mut read = HashMap::new();
    for token in tokens(&String::from_utf8_lossy(&output.stdout)) {
        *read.entry(token).or_default() += 1;
    }
    read
}

/// The lines of a sheet, each once, the long ones first so that what is read together is alike.
fn lines(sheet: &Scene) -> Vec<TextItem> {
    let mut said = BTreeSet::new();
    let mut lines = Vec::new();
    sheet.walk(|_, item| {
        if let Item::Text(text) = item
            && tokens(text.words()).next().is_some()
            && said.insert(text.words().to_owned())
        {
            lines.push(text.clone());
        }
    });
    lines.sort_by(|a, b| b.advance().total_cmp(&a.advance()));
    lines
}

#[test]
#[ignore = "needs tesseract; its head has the command"]
fn copies_of_half_the_size_in_black_and_white_are_read() {
    if Command::new("tesseract").arg("--version").output().is_err() {
        println!("SKIPPED: tesseract is not installed, no copy was read");
        return;
    }
    let scratch = tempfile::tempdir().unwrap();
    let folder = std::env::var("COPIES").map_or(scratch.path().to_owned(), Into::into);
    let mut faults = Vec::new();
    for (name, case) in &examples() {
        let (mut all, mut missed) = (0, Vec::new());
        for (number, sheet) in composed(case, PAPERS[0]).sheets.iter().enumerate() {
            let copy = Copied::of(sheet);
            for (at, lines) in lines(sheet).chunks(LINES).enumerate() {
                let cut: Vec<_> = lines.iter().map(|line| copy.cut(line)).collect();
                let mut found = read(&page(&cut), &folder.join(format!("{name}-{number}-{at}.pgm")));
                for token in lines.iter().flat_map(|line| tokens(line.words())) {
                    all += 1;
                    match found.get_mut(&token).filter(|left| **left > 0) {
                        Some(left) => *left -= 1,
                        None => missed.push(token),
                    }
                }
            }
        }
        let share = 1.0 - missed.len() as f64 / f64::from(all);
        println!(
            "{name}: {:.1} % of {all} words read; not read: {}",
            100.0 * share,
            missed.join(" ")
        );
        if share < READ {
            faults.push(format!("{name}: {share:.3}"));
        }
    }
    assert!(faults.is_empty(), "{faults:?}");
}
