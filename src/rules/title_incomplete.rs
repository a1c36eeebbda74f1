//! Title blocks that an office would send back.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Status, TitleField};
use crate::study::Place;

/// What is asked for, each with the fields of which one is enough.
const ASKED: [(&str, &[TitleField]); 8] = [
    ("job address", &[TitleField::Site]),
    ("owner or parcel", &[TitleField::Owner, TitleField::Parcel]),
    ("contractor", &[TitleField::Firm]),
    (
        "license number or holder",
        &[TitleField::Licence, TitleField::LicenceHolder],
    ),
    ("description of work", &[TitleField::Description]),
    ("drawing number", &[TitleField::Drawing]),
    ("date", &[TitleField::Date]),
    ("drawn by", &[TitleField::DrawnBy]),
];

/// Fields that permit offices ask for are filled in.
pub const RULE: Rule = Rule {
    id: "title-incomplete",
    title: "The title block lacks fields that permit offices ask for",
    severity: Severity::Check,
    basis: "commonly asked for by permit offices (see the permit checklist); ISO 7200",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let title = &look.job.title;
    if title.status == Status::Exercise {
        return;
    }
    let is_blank = |fields: &[TitleField]| fields.iter().all(|field| field.of(title).trim().is_empty());
    let missing = ASKED.iter().filter(|(_, fields)| is_blank(fields));
    let missing: Vec<&str> = missing.map(|(name, _)| *name).collect();
    if !missing.is_empty() {
        found.at(
            Place::Job,
            format!("Not filled in yet in the title block: {}.", missing.join(", ")),
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
        assert_eq!(
            found[0].what,
            "Not filled in yet in the title block: job address, date."
        );
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
