//! Letters that the sheets cannot print.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Device;
use crate::scene::Face;
use crate::study::Place;
use std::collections::BTreeSet;

/// Everything typed can be lettered: what the font lacks prints as an empty box.
pub const RULE: Rule = Rule {
    id: "letters-missing",
    title: "Text has letters that the font of the sheets lacks",
    severity: Severity::Check,
    basis: "the font that comes with this program",
    check,
};

/// So many letters are named.
const NAMED: usize = 12;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let job = look.job;
    let title = &job.title;
    let fields: [(&str, &str); 14] = [
        ("the name of the job", &title.job),
        ("the address of the site", &title.site),
        ("the parcel", &title.parcel),
        ("the owner", &title.owner),
        ("the contractor", &title.firm),
        ("the contact", &title.contact),
        ("the license holder", &title.licence_holder),
        ("the license number", &title.licence),
        ("the permit number", &title.permit),
        ("who drew it", &title.drawn_by),
        ("who checked it", &title.checked_by),
        ("the drawing number", &title.drawing),
        ("the date", &title.date),
        ("the description of the work", &title.description),
    ];
    let mut lacking: BTreeSet<char> = BTreeSet::new();
    let mut places: Vec<String> = Vec::new();
    let mut look_at = |place: &str, words: &str| {
        let letters: Vec<char> = lacked(words).collect();
        if !letters.is_empty() {
            lacking.extend(letters);
            places.push(place.to_owned());
        }
    };
    for (name, words) in fields {
        look_at(name, words);
    }
    for revision in &title.revisions {
        let words = format!("{} {} {} {}", revision.mark, revision.date, revision.what, revision.by);
        look_at("a revision", &words);
    }
    for note in &job.notes {
        look_at("a note", &note.text);
    }
    for joint in &job.joints {
        let label = joint.label.as_deref().unwrap_or_default();
        look_at(&format!("the label of {}", joint.id), label);
        if let Some(Device::Appliance(appliance)) = joint.device() {
            look_at(&format!("the name of the appliance at {}", joint.id), &appliance.name);
        }
    }
    places.dedup();
    if places.is_empty() {
        return;
    }
    let named: Vec<String> = lacking.iter().take(NAMED).map(char::to_string).collect();
    let more = if lacking.len() > NAMED { " and more" } else { "" };
    found.at(
        Place::Job,
        format!(
            "The sheets would print an empty box for {}{more}, in {}.",
            named.join(" "),
            places.join(", ")
        ),
        "Write it in Latin, Greek or Cyrillic letters.",
    );
}

/// The letters of words that the font lacks; blanks and what ends a line are never printed.
fn lacked(words: &str) -> impl Iterator<Item = char> + '_ {
    let font = Face::Regular.font();
    words
        .chars()
        .filter(move |c| !c.is_whitespace() && !c.is_control() && font.lacks(*c))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, appliance, check};
    use super::RULE;

    #[test]
    fn a_letter_that_would_print_as_a_box_is_named_with_its_place() {
        let found = check(&RULE, 1, |job| {
            job.title.site = "14 Example Court 漢".to_owned();
            appliance(job, FURNACE).name = "Furnace 🔥".to_owned();
        });
        let said = &found[0].what;
        for wanted in ["漢", "🔥", "the address of the site", "the name of the appliance at"] {
            assert!(said.contains(wanted), "{said}");
        }
    }

    #[test]
    fn greek_cyrillic_and_marks_are_fine() {
        check(&RULE, 0, |job| {
            job.title.owner = "Ωmega Žižka Ёлкин, Ångström".to_owned();
        });
    }
}
