//! What holds for the whole job: settings and gas.

use super::form::{Form, Open};
use super::names::{FUELS, NORTHS, UNITS};
use super::row::Name;
use super::shared::Shared;
use super::{next, put};
use crate::codebook::Mark;
use crate::desk::request::Request;
use crate::job::{CopperJoints, Detail, Material, Method};
use crate::sheet::figures::{Figures, plain};
use crate::sheet::{Field, delivery};
use crate::units::Show;

/// The job in short: what comes next, what it is sized for, and the rest folded away.
pub fn show(form: &mut Form<'_>) {
    next::show(form);
    form.heading("Summary");
    let basis = in_short(form);
    for (name, value) in basis {
        form.fact(name, value);
    }
    form.button("Title block…", |desk| desk.ask(Request::FillIn(Field::Job)));
    form.fold("Basis of sizing: change", Open::No, basis_of_sizing);
    form.fold("Gas: change", Open::No, gas);
    form.fold("Units, elevations, north", Open::No, drawing);
}

/// Gas, pressure, load and basis, a line each.
fn in_short(form: &Form<'_>) -> Vec<(&'static str, String)> {
    let (job, study) = (form.desk.job(), &form.desk.shown().checked.study);
    let book = form.desk.book();
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let method = job.settings.method.unwrap_or(profile.method);
    let delivery = match delivery(&form.desk.shown().job, study) {
        words if words.is_empty() => "not placed".to_owned(),
        words => words,
    };
    vec![
        ("Gas", job.gas.fuel.name().to_owned()),
        ("Delivery", delivery),
        ("Load", study.total.heat.show(form.units())),
        (
            "Basis",
            format!(
                "{}, {}, {}",
                profile.code_and_edition(),
                method.name(),
                job.settings.material.name()
            ),
        ),
    ]
}

fn basis_of_sizing(form: &mut Form<'_>) {
    let it = form.desk.job().settings.clone();
    let book = form.desk.book();
    profile(form, Detail::Profile);
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
    let materials = Material::ALL.map(|material| (material, material.name()));
    form.choice(
        Detail::Material,
        &Shared::Same(it.material),
        &materials,
        |desk, material| put::settings(desk, |it| it.material = material),
    );
    let job = form.desk.job();
    if it.material.is_copper() || job.runs.iter().any(|run| job.material(run).is_copper()) {
        let joints = [CopperJoints::Brazed, CopperJoints::Flared].map(|joints| (joints, joints.name()));
        form.choice(
            Detail::CopperJoints,
            &Shared::Same(it.copper),
            &joints,
            |desk, joints| put::settings(desk, |it| it.copper = joints),
        );
    }
    form.quantity(
        Detail::Altitude,
        Shared::Same(it.altitude),
        "not entered",
        |desk, altitude| put::settings(desk, |it| it.altitude = altitude),
    );
}

fn drawing(form: &mut Form<'_>) {
    let it = form.desk.job().settings.clone();
    form.choice(Detail::Units, &Shared::Same(it.units), UNITS, |desk, units| {
        put::settings(desk, |it| it.units = units)
    });
    form.needed(Detail::Step, it.step, |desk, step| {
        put::settings(desk, |it| it.step = step)
    });
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

/// The choice of the profile, under a name.
pub fn profile<'n>(form: &mut Form<'_>, name: impl Into<Name<'n>>) {
    let own = form.desk.job().settings.profile.clone();
    let book = form.desk.book();
    let mut profiles: Vec<(String, &str)> = book
        .profiles()
        .iter()
        .map(|profile| (profile.name.clone(), profile.title.as_str()))
        .collect();
    let missing = format!("{own}, not loaded");
    if book.profile(&own).is_none() {
        profiles.push((own.clone(), &missing));
    }
    form.choice(name, &Shared::Same(own), &profiles, |desk, profile| {
        put::settings(desk, |it| it.profile = profile)
    });
}

/// The allowed drop that holds when none is set, in the unit of its pressure.
fn profile_drop(form: &Form<'_>) -> String {
    let shown = form.desk.shown();
    let zone = shown.checked.study.zones.first();
    match zone.and_then(|zone| Some((zone.inlet?, zone.allowed_drop?))) {
        Some((inlet, drop)) => {
            let unit = Figures::of(shown.checked.study.names.units()).pressure(inlet);
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
