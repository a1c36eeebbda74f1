//! What holds for the whole job: settings, gas, title block with its revisions.

use super::form::{Form, Open};
use super::names::{FUELS, NORTHS, STATUSES, UNITS};
use super::put;
use super::shared::Shared;
use crate::codebook::Mark;
use crate::job::{Detail, Material, Method, Revision, TitleField};
use crate::sheet::Field;
use crate::sheet::figures::{Figures, plain};
use crate::units::Show;

/// Everything said of the whole job.
pub fn show(form: &mut Form<'_>) {
    form.fold("Settings", Open::Yes, settings);
    form.fold("Gas", Open::Yes, gas);
    form.fold("Title block", Open::Yes, title);
    form.fold("Revisions", Open::No, revisions);
}

fn settings(form: &mut Form<'_>) {
    let it = form.desk.job().settings.clone();
    let book = form.desk.book();
    form.choice(Detail::Units, &Shared::Same(it.units), UNITS, |desk, units| {
        put::settings(desk, |it| it.units = units)
    });
    form.needed(Detail::Step, it.step, |desk, step| {
        put::settings(desk, |it| it.step = step)
    });
    let materials = Material::ALL.map(|material| (material, material.name()));
    form.choice(
        Detail::Material,
        &Shared::Same(it.material),
        &materials,
        |desk, material| put::settings(desk, |it| it.material = material),
    );
    let mut profiles: Vec<(String, &str)> = book
        .profiles()
        .iter()
        .map(|profile| (profile.name.clone(), profile.title.as_str()))
        .collect();
    let missing = format!("{}, not loaded", it.profile);
    if book.profile(&it.profile).is_none() {
        profiles.push((it.profile.clone(), &missing));
    }
    form.choice(
        Detail::Profile,
        &Shared::Same(it.profile.clone()),
        &profiles,
        |desk, profile| put::settings(desk, |it| it.profile = profile),
    );
    if !it.tables.is_empty() {
        let names: Vec<&str> = it.tables.iter().map(|table| table.id.as_str()).collect();
        form.fact("Your tables", names.join(", "));
    }
    let profile = book.profile(&it.profile).unwrap_or(book.default_profile());
    let own = format!("per profile: {}", profile.method.name());
    let methods = [
        (None, own.as_str()),
        (Some(Method::LongestLength), Method::LongestLength.name()),
        (Some(Method::BranchLength), Method::BranchLength.name()),
    ];
    form.choice(Detail::Method, &Shared::Same(it.method), &methods, |desk, method| {
        put::settings(desk, |it| it.method = method)
    });
    let hint = profile_drop(form);
    form.quantity(
        Detail::AllowedDrop,
        Shared::Same(it.allowed_drop),
        &hint,
        |desk, drop| put::settings(desk, |it| it.allowed_drop = drop),
    );
    form.quantity(
        Detail::Altitude,
        Shared::Same(it.altitude),
        "not entered",
        |desk, altitude| put::settings(desk, |it| it.altitude = altitude),
    );
    form.words(Detail::HeightsFrom, &it.datum_name, "what is zero", |desk, name| {
        put::settings(desk, |it| it.datum_name = name)
    });
    form.needed(Detail::GridZero, it.datum, |desk, datum| {
        put::settings(desk, |it| it.datum = datum)
    });
    form.choice(Detail::North, &Shared::Same(it.north), NORTHS, |desk, north| {
        put::settings(desk, |it| it.north = north)
    });
}

/// The allowed drop that holds when none is set, in the unit of its pressure.
fn profile_drop(form: &Form<'_>) -> String {
    let shown = form.desk.shown();
    let zone = shown.checked.study.zones.first();
    match zone.and_then(|zone| Some((zone.inlet?, zone.allowed_drop?))) {
        Some((inlet, drop)) => {
            let unit = Figures::of(&shown.job.settings).pressure(inlet);
            format!("per profile: {} {}", plain(unit.number(drop)), unit.head())
        }
        None => "per profile".to_owned(),
    }
}

fn gas(form: &mut Form<'_>) {
    let (it, units) = (form.desk.job().gas.clone(), form.units());
    let usual = form.desk.shown().checked.study.gas.clone();
    form.choice(Detail::Fuel, &Shared::Same(it.fuel), FUELS, |desk, fuel| {
        put::gas(desk, |it| it.fuel = fuel)
    });
    let taken = |figure: String, mark: Option<Mark>| match mark {
        Some(mark) => format!("usual: {figure} ({})", mark.letter()),
        None => "usual figure".to_owned(),
    };
    let hint = taken(format!("{:.2}", usual.specific_gravity), usual.gravity_mark);
    form.quantity(
        Detail::Gravity,
        Shared::Same(it.specific_gravity),
        &hint,
        |desk, gravity| put::gas(desk, |it| it.specific_gravity = gravity),
    );
    let hint = taken(usual.heating_value.show(units), usual.heating_mark);
    form.quantity(
        Detail::HeatingValue,
        Shared::Same(it.heating_value),
        &hint,
        |desk, value| put::gas(desk, |it| it.heating_value = value),
    );
}

fn title(form: &mut Form<'_>) {
    let it = form.desk.job().title.clone();
    for field in TitleField::ALL {
        let value = field.of(&it).to_owned();
        let set = move |desk: &mut _, words| put::title(desk, |it| *field.slot(it) = words);
        match field {
            TitleField::Description => form.lines(field.caption(), &value, "", set),
            _ => form.words(field.caption(), &value, "", set),
        }
    }
    let status = Shared::Same(it.status);
    form.choice(Field::Status.caption(), &status, STATUSES, |desk, status| {
        put::title(desk, |it| it.status = status)
    });
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
