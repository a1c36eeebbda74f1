//! The cautions that stand on every sheet.

use super::block::{Block, Part};
use super::findings::sentence;
use super::tags::Schedule;
use super::text::Paragraph;
use crate::codebook::{Mark, Profile};
use crate::study::words::shortened;

/// What must be said wherever gas piping is drawn, a sentence or two each.
pub const CAUTIONS: [&str; 7] = [
    "Gas work is for licensed people, under a permit.",
    "Local code, gas supplier and makers' instructions govern.",
    "Shut off, and prove the pipe free of gas, before it is opened.",
    "Test with air or inert gas, never oxygen. Never look for a leak with a flame.",
    Mark::EXPLAINED,
    "Check figures marked C, D, M or L against your own copy of the code. Pressures at full load are computed.",
    "Verify on site. Nothing here states that the job complies with a code.",
];

/// The most characters of the profile's sentence; longer ones stand in full among the notes.
pub const LONGEST: usize = 300;
/// From this width in mm up the cautions run on; in narrower places each stands for itself.
const WIDE: f64 = 150.0;

/// The cautions for a place of a width in mm, with the sentence that the profile wants on every sheet.
pub fn block(profile: &Profile, width: f64) -> Block {
    let own = CAUTIONS.into_iter().map(str::to_owned);
    let said: Vec<String> = own.chain(disclaimer(profile)).collect();
    if width < WIDE {
        let listed = said.into_iter().map(|words| Paragraph::new(words).signed("–"));
        return Block::new(Schedule::Cautions, "Cautions", vec![Part::Text(listed.collect())]);
    }
    let running = Paragraph::new(said.join(" ")).headed("CAUTIONS");
    Block::new(Schedule::Cautions, "", vec![Part::Text(vec![running])])
}

fn disclaimer(profile: &Profile) -> Option<String> {
    let words = sentence(&shortened(&profile.disclaimer, LONGEST));
    (!words.is_empty()).then_some(words)
}
