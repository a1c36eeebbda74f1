//! The cautions: in full for the window and the sheets to work from, in two lines on the first sheet, in one on every
//! other.

use super::block::{Block, Part};
use super::findings::sentence;
use super::lettering::{Hand, LINE};
use super::strip::Strip;
use super::tags::{self, Schedule};
use super::text::Paragraph;
use crate::codebook::{Mark, Profile};
use crate::scene::{Anchor, Group, Point};
use crate::study::words::shortened;

/// What must be said wherever gas piping is drawn, a sentence or two each.
pub const CAUTIONS: [&str; 7] = [
    "Gas work is for licensed people, under a permit.",
    "Local code, gas supplier and manufacturers' instructions govern.",
    "Shut off, and prove the pipe free of gas, before it is opened.",
    "Test with air or inert gas, never oxygen. Never look for a leak with a flame.",
    Mark::EXPLAINED,
    "Check figures marked C, D, M or L against your own copy of the code. Pressures at full load are computed.",
    "Verify on site. Whether the job complies with the code is for the permit office to decide.",
];

/// The same as the first sheet has it, in two lines of usual paper; that pressures are computed stands with the
/// appliances.
pub const IN_SHORT: [&str; 5] = [
    "Gas work is for licensed people, under a permit; local code, gas supplier and manufacturers' instructions govern.",
    "Shut off and prove gas-free before opening.",
    "Test with air or inert gas, never oxygen; no flame to find leaks.",
    "Figures: F read in print, C computed, D derived, M from memory, L local; verify all not marked F.",
    "Verify on site; compliance is for the permit office to decide.",
];

/// What every later sheet says.
pub const IN_ONE_LINE: &str = "For licensed people, under a permit. Verify on site. F read in print, C computed, D derived, M from memory, L local.";

/// The most characters of the profile's sentence; longer ones stand in full among the notes.
pub const LONGEST: usize = 300;
/// From the edge of the strip to its lettering, mm.
const PAD: f64 = 2.0;
/// From the top of the strip to its first base line, mm.
const BASE: f64 = 3.5;
/// Under the last base line, mm.
const BOTTOM: f64 = 1.2;

/// The strip of cautions of a first sheet at a width in mm.
pub fn strip(profile: &Profile, width: f64) -> Strip {
    line_up(&profile.terms(&IN_SHORT.join(" ")), width)
}

/// The line of a later sheet at a width in mm.
pub fn line(width: f64) -> Strip {
    line_up(IN_ONE_LINE, width)
}

fn line_up(words: &str, width: f64) -> Strip {
    let tag = tags::schedule(Schedule::Cautions);
    let mut ink = Group::tagged(tag.role, tag.key).label(Schedule::Cautions.name());
    let lines = even(words, width - 2.0 * PAD);
    for (row, line) in lines.iter().enumerate() {
        let at = Point::new(PAD, BASE + row as f64 * LINE);
        ink.push(Hand::BODY.write(line, at, Anchor::Start));
    }
    let height = BASE + lines.len().saturating_sub(1) as f64 * LINE + BOTTOM;
    Strip { height, ink }
}

/// The lines of a text at a width in mm, as even as they can be without one more of them: no few words stand alone.
fn even(words: &str, width: f64) -> Vec<String> {
    let wrapped = |width: f64| Hand::BODY.wrap(words, width, usize::MAX).lines;
    let widest = wrapped(width);
    let at = |percent: u32| wrapped(width * (1.0 - f64::from(percent) / 100.0));
    let narrower: Vec<u32> = (1..50).collect();
    match narrower.partition_point(|percent| at(*percent).len() == widest.len()) {
        0 => widest,
        count => at(narrower[count - 1]),
    }
}

/// All cautions in full, for the sheets to work from.
pub fn block(profile: &Profile) -> Block {
    let own = CAUTIONS.into_iter().map(|words| profile.terms(words).into_owned());
    let listed = own
        .chain(disclaimer(profile))
        .map(|words| Paragraph::new(words).signed("–"));
    Block::new(Schedule::Cautions, "Cautions", vec![Part::Text(listed.collect())])
}

/// What the profile wants to be said, among the first of the notes.
pub fn disclaimer(profile: &Profile) -> Option<String> {
    let words = sentence(&shortened(&profile.disclaimer, LONGEST));
    (!words.is_empty()).then_some(words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_few_words_stand_alone_on_the_last_line() {
        let words = IN_SHORT.join(" ");
        for width in [180.0, 260.0, 380.0, 400.0] {
            let lines = even(&words, width);
            assert_eq!(lines.len(), Hand::BODY.wrap(&words, width, usize::MAX).lines.len());
            assert_eq!(lines.join(" ").replace('\u{a0}', " "), words);
            let letters = lines.iter().map(|line| line.chars().count());
            let (shortest, longest) = (letters.clone().min().unwrap(), letters.max().unwrap());
            assert!(2 * shortest >= longest, "{width} mm: {lines:?}");
        }
    }
}
