//! The title block as a form beside the sheet: every field named, in the order in which it is filled in, with what the
//! person puts into each.

use super::form::{Form, Open};
use super::names::STATUSES;
use super::shared::Shared;
use super::{put, whole};
use crate::desk::request::Request;
use crate::desk::settings::{Mine, Settings};
use crate::job::{Revision, TitleField};
use crate::sheet::Field;

/// The fields under their headings.
const GROUPS: [(&str, &[TitleField]); 3] = [
    (
        "Job",
        &[
            TitleField::Job,
            TitleField::Site,
            TitleField::Parcel,
            TitleField::Owner,
            TitleField::Description,
        ],
    ),
    ("Contractor", &Mine::FIELDS),
    (
        "Drawing",
        &[
            TitleField::Permit,
            TitleField::Drawing,
            TitleField::Date,
            TitleField::CheckedBy,
        ],
    ),
];

/// Everything of the title block.
pub fn show(form: &mut Form<'_>, settings: &mut Settings) {
    form.title("Title block");
    if let Some(part) = form.desk.editor().selection().single() {
        form.button(&format!("Show {part} on the drawing"), |desk| {
            desk.ask(Request::GoToPart(part));
        });
    }
    for (heading, fields) in GROUPS {
        form.heading(heading);
        for field in fields {
            line(form, *field);
        }
        if fields == Mine::FIELDS {
            mine(form, settings);
        }
    }
    let status = Shared::Same(form.desk.job().title.status);
    form.choice(Field::Status.caption(), &status, STATUSES, |desk, status| {
        put::title(desk, |it| it.status = status)
    });
    whole::profile(form, Field::Code.caption());
    form.fold("Revisions", Open::No, revisions);
}

/// One field.
fn line(form: &mut Form<'_>, field: TitleField) {
    let value = field.of(&form.desk.job().title).to_owned();
    let set = move |desk: &mut _, words| put::title(desk, |it| *field.slot(it) = words);
    match field {
        TitleField::Description => form.lines(field.caption(), &value, "", set),
        _ => form.words(field.caption(), &value, "", set),
    }
}

/// What the person puts into every title block: taken into this one, or kept from it.
fn mine(form: &mut Form<'_>, settings: &mut Settings) {
    let title = &form.desk.job().title;
    let (here, filled) = (Mine::of(title), settings.mine.fill(title));
    if Mine::of(&filled) != here {
        form.button(&format!("Fill in yours: {}", settings.mine.words()), |desk| {
            // The title block takes anything.
            let filled = put::title(desk, |title| *title = filled);
            debug_assert_eq!(filled, Ok(()));
        });
    } else if here != settings.mine && here != Mine::default() {
        form.button("Use these on new jobs", |_| settings.mine = here);
    } else if here == settings.mine && here != Mine::default() {
        form.whisper("Kept for new jobs.");
    }
}

/// Where a field of a revision is kept.
type Entry = fn(&mut Revision) -> &mut String;

const ENTRIES: [(&str, Entry); 4] = [
    ("mark", |it| &mut it.mark),
    ("date", |it| &mut it.date),
    ("what changed", |it| &mut it.what),
    ("by", |it| &mut it.by),
];

fn revisions(form: &mut Form<'_>) {
    let revisions = form.desk.job().title.revisions.clone();
    for (at, revision) in revisions.into_iter().enumerate() {
        let mut it = revision;
        for (name, slot) in ENTRIES {
            let value = slot(&mut it).clone();
            form.words(
                format!("Issue {}: {name}", at + 1).as_str(),
                &value,
                "",
                move |desk, words| {
                    put::title(desk, |title| {
                        if let Some(revision) = title.revisions.get_mut(at) {
                            *slot(revision) = words;
                        }
                    })
                },
            );
        }
        form.button(&format!("Delete issue {}", at + 1), |desk| {
            let taken = put::title(desk, |title| {
                if at < title.revisions.len() {
                    title.revisions.remove(at);
                }
            });
            // The title block takes anything.
            debug_assert_eq!(taken, Ok(()));
        });
        form.ui.separator();
    }
    form.button("Add an issue", |desk| {
        let added = put::title(desk, |title| title.revisions.push(Revision::default()));
        debug_assert_eq!(added, Ok(()));
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_that_is_typed_stands_once_in_the_form() {
        let shown: Vec<TitleField> = GROUPS.iter().flat_map(|(_, fields)| fields.iter().copied()).collect();
        for field in TitleField::ALL {
            assert_eq!(shown.iter().filter(|one| **one == field).count(), 1, "{field:?}");
        }
        assert_eq!(shown.len(), TitleField::ALL.len());
    }
}
