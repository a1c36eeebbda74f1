//! What was too long for its place on the sheet, in full.

use super::Ground;
use crate::sheet::cautions;
use crate::sheet::field::Field;
use crate::study::places::LONGEST_NAME;
use crate::study::words::shortened;

/// The most characters of a text that is given in full; the job file holds the rest.
const LONGEST: usize = 1_500;

/// Values of the title block, names of appliances, labels and revisions that were cut.
pub fn notes(ground: &Ground<'_>, cut: &[(Field, String)]) -> Vec<String> {
    let (job, study) = (ground.job, ground.study);
    let mut said: Vec<String> = cut
        .iter()
        .map(|(field, value)| in_full(field.caption(), value))
        .collect();
    if ground
        .profile
        .disclaimer
        .trim()
        .chars()
        .nth(cautions::LONGEST)
        .is_some()
    {
        said.push(in_full("Caution of the profile", &ground.profile.disclaimer));
    }
    for outlet in study.outlets.iter().filter(|outlet| is_long(&outlet.name)) {
        said.push(in_full(&format!("Appliance {}", outlet.tag), &outlet.name));
    }
    for joint in &job.joints {
        if let Some(label) = joint.label.as_deref().filter(|label| is_long(label)) {
            said.push(in_full("Label", label));
        }
    }
    for revision in job.title.revisions.iter().filter(|revision| is_long(&revision.what)) {
        said.push(in_full(
            &format!("Revision {}", shortened(&revision.mark, 8)),
            &revision.what,
        ));
    }
    said
}

fn is_long(name: &str) -> bool {
    name.trim().chars().nth(LONGEST_NAME).is_some()
}

fn in_full(what: &str, words: &str) -> String {
    let end = if words.trim().chars().nth(LONGEST).is_some() {
        " (the job file has the rest)"
    } else {
        ""
    };
    format!("{what} in full: {}{end}", shortened(words, LONGEST))
}
