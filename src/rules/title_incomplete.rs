//! Title blocks that an office would send back.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Status;
use crate::study::Place;

/// Fields that permit offices ask for are filled in.
pub const RULE: Rule = Rule {
    id: "title-incomplete",
    title: "The title block lacks fields that permit offices ask for",
    severity: Severity::Check,
    basis: "of 23 public requirements read: license or installer 6, address or owner 5, description 2, date and number 1; ISO 7200",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let title = &look.job.title;
    if title.status == Status::Exercise {
        return;
    }
    let fields: [(&str, &[&str]); 8] = [
        ("job address", &[&title.site]),
        ("owner or parcel", &[&title.owner, &title.parcel]),
        ("contractor", &[&title.firm]),
        ("license number or holder", &[&title.licence, &title.licence_holder]),
        ("description of work", &[&title.description]),
        ("drawing number", &[&title.drawing]),
        ("date", &[&title.date]),
        ("drawn by", &[&title.drawn_by]),
    ];
    let empty = |texts: &&[&str]| texts.iter().all(|text| text.trim().is_empty());
    let missing: Vec<&str> = fields
        .iter()
        .filter(|(_, texts)| empty(texts))
        .map(|(name, _)| *name)
        .collect();
    if !missing.is_empty() {
        found.at(
            Place::Job,
            format!("Title block still blank: {}.", missing.join(", ")),
            "Fill in what the permit office asks for.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::job::Status;

    #[test]
    fn empty_fields_are_told_together() {
        let found = check(&RULE, 1, |job| {
            job.title.site.clear();
            job.title.date = " ".to_owned();
        });
        assert_eq!(found[0].what, "Title block still blank: job address, date.");
    }

    #[test]
    fn one_of_two_is_enough_and_an_exercise_needs_none() {
        check(&RULE, 0, |job| job.title.licence.clear());
        check(&RULE, 0, |job| {
            job.title = Default::default();
            job.title.status = Status::Exercise;
        });
    }
}
