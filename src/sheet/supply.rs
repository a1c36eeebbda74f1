//! Supply data: the gas, the pressures, the method and the tables.

use super::block::{Block, Part};
use super::existing::Before;
use super::field;
use super::figures::{Figures, plain};
use super::findings::sentence;
use super::tags::Schedule;
use super::text::Paragraph;
use crate::codebook::{CapacityTable, Codebook, Inlet, Mark, Profile};
use crate::drawing::{Asked, Blank};
use crate::job::{Job, Limit, Method, Supply};
use crate::network::{DropFrom, Zone};
use crate::pressure::{DeviceStudy, RatedPart, RatingVerdict};
use crate::sizing::{Basis, LengthRule};
use crate::study::words::{NONE, capital};
use crate::study::{Places, Study, how_many};
use crate::units::{GaugePressure, Length, Show, UnitSystem, in_units};

/// The supply data of a job; what stands in the title block is not said again.
pub fn block(
    (job, study): (&Job, &Study),
    book: &Codebook,
    profile: &Profile,
    places: &Places<'_>,
    before: Option<&Before>,
    asked: Asked,
) -> Block {
    let mut pairs = vec![Pair::new("", gas(study))];
    if field::delivery(job, study).is_empty() {
        pairs.push(Pair::new("Delivery pressure", "no point of delivery is drawn"));
    }
    if let Some(zone) = study.zones.first() {
        pairs.push(Pair::new("", method(zone.method)));
    }
    pairs.extend(zones(study, places, asked));
    pairs.extend(devices(study, before, asked));
    let tables = tables(study, book, study.names.units());
    if !tables.is_empty() {
        let names: Vec<&str> = tables.iter().map(String::as_str).collect();
        let name = profile.tables_called(&names);
        pairs.push(Pair::new(name, tables.join("; ")));
    }
    pairs.extend(not_at_hand(job, book));
    if let Some(altitude) = job.settings.altitude {
        pairs.push(Pair::new("Altitude", altitude.show(study.names.units())));
    }
    pairs.push(Pair::new("Profile", profile_said(study, profile)));
    let said = pairs.iter().map(|pair| match pair.name.as_str() {
        "" => sentence(&pair.words),
        name => sentence(&format!("{name}: {}", pair.words)),
    });
    let running = format!("SUPPLY: {}", said.collect::<Vec<_>>().join(" "));
    Block::new(Schedule::Supply, "", vec![Part::Text(vec![Paragraph::new(running)])])
}

/// What holds in each pressure zone; zones of which the same holds are told once.
fn zones(study: &Study, places: &Places<'_>, asked: Asked) -> Vec<Pair> {
    let mut told: Vec<(Vec<String>, Vec<Pair>)> = Vec::new();
    for (number, zone) in study.zones.iter().enumerate() {
        let mut pairs = Vec::new();
        zone_pairs((number, zone), study, places, asked, &mut pairs);
        let start = if number == 0 {
            String::new()
        } else {
            places.joint(zone.start)
        };
        let same = told.iter_mut().skip(1).find(|(_, known)| {
            let shared = |pairs: &[Pair]| {
                pairs
                    .iter()
                    .filter(|pair| pair.name != LONGEST)
                    .cloned()
                    .collect::<Vec<_>>()
            };
            shared(known) == shared(&pairs)
        });
        match same {
            Some((starts, known)) => {
                starts.push(start);
                known.retain(|pair| pair.name != LONGEST);
            }
            None => told.push((vec![start], pairs)),
        }
    }
    let pairs = told.into_iter().flat_map(|(starts, mut pairs)| {
        if let Some(zone) = pairs.iter_mut().find(|pair| pair.name == ZONE) {
            zone.name = capital(&starts.join(", "));
        }
        pairs
    });
    pairs.collect()
}

/// The names of what is said of a zone, where others ask for them.
const ZONE: &str = "Zone";
const LONGEST: &str = "Longest run";

/// A name and what it is: `Altitude` and `2,000 ft`; no name where the words say it.
#[derive(Clone, PartialEq)]
struct Pair {
    name: String,
    words: String,
}

impl Pair {
    fn new(name: impl Into<String>, words: impl Into<String>) -> Pair {
        Pair {
            name: name.into(),
            words: words.into(),
        }
    }
}

fn gas(study: &Study) -> String {
    let mark = |mark: Option<Mark>| mark.map_or("as entered".to_owned(), |mark| mark.to_string());
    format!(
        "{}, specific gravity {} {}, {} {}",
        study.gas.fuel.name(),
        plain(study.gas.specific_gravity),
        mark(study.gas.gravity_mark),
        study.gas.heating_value.show(study.names.units()),
        mark(study.gas.heating_mark),
    )
}

fn zone_pairs((number, zone): (usize, &Zone), study: &Study, places: &Places<'_>, asked: Asked, into: &mut Vec<Pair>) {
    let units = study.names.units();
    if number > 0 {
        let words = match zone.inlet {
            Some(inlet) => format!("new pressure zone, {}", inlet.show(units)),
            None => "new pressure zone, pressure not entered".to_owned(),
        };
        into.push(Pair::new(ZONE, words));
    }
    let drop = match zone.inlet.zip(zone.allowed_drop) {
        Some((inlet, drop)) => {
            let unit = Figures::of(study.names.units()).pressure(inlet);
            let mark = match zone.drop_from {
                DropFrom::Profile(mark) => format!(" {mark}"),
                DropFrom::Job | DropFrom::Regulator | DropFrom::Nothing(_) => String::new(),
            };
            format!("{}{mark}, {}", unit.said(drop), zone.drop_from.words())
        }
        None => "not set".to_owned(),
    };
    into.push(Pair::new("Allowable pressure drop", drop));
    let figures = Figures::of(study.names.units());
    let mut designs = study.sections.iter().filter(|section| section.zone == number);
    // The way that decides is the longest with all that fittings add to it.
    if let Some(longest) = designs.find(|section| section.design.rule == LengthRule::Longest) {
        let design = &longest.design;
        let name = outlet_name(study, places, design.to);
        let mut words = format!("to {name}, {}", figures.length_said(design.measured));
        if let Some(row) = design.row {
            words.push_str(&format!(", row of {}", figures.length_said(row.value)));
        }
        if design.fittings != Length::ZERO {
            words.push_str(&format!(", with fittings {}", figures.length_said(design.total())));
        }
        if let Some(row) = longest_row(number, design.to, study) {
            words.push_str(&format!(", table row {}", figures.length_said(row)));
        }
        into.push(Pair::new(LONGEST, asked.put(Blank::SizingLengths, words)));
    } else if let Some(farthest) = zone.farthest {
        let name = outlet_name(study, places, farthest);
        let words = format!("to {name}, {}", figures.length_said(zone.longest));
        into.push(Pair::new(LONGEST, asked.put(Blank::SizingLengths, words)));
    }
}

fn method(method: Method) -> &'static str {
    match method {
        Method::LongestLength => "sized by longest length",
        Method::BranchLength => "sized by branch length",
    }
}

fn outlet_name(study: &Study, places: &Places<'_>, joint: usize) -> String {
    match study.outlets.iter().find(|outlet| outlet.joint == joint) {
        Some(outlet) if outlet.own_name().is_some() => crate::study::words::shortened(
            &format!("{} {}", outlet.tag, outlet.name),
            crate::study::places::LONGEST_NAME,
        ),
        _ => places.joint(joint),
    }
}

/// The row that the longest run of a zone reads.
fn longest_row(number: usize, farthest: usize, study: &Study) -> Option<Length> {
    let sections = study.sections.iter().filter(|section| section.zone == number);
    sections
        .filter(|section| section.design.to == farthest)
        .find_map(|section| match section.sizing.basis {
            Basis::Table { row, .. } => Some(row),
            Basis::Equation { .. } | Basis::Nothing(_) => None,
        })
}

/// Rated devices: one of a name with its figures, several of a name counted.
fn devices(study: &Study, before: Option<&Before>, asked: Asked) -> Vec<Pair> {
    let units = study.names.units();
    let mut names: Vec<&str> = Vec::new();
    for device in &study.devices {
        if !names.contains(&device.name()) {
            names.push(device.name());
        }
    }
    let pairs = names.into_iter().map(|name| {
        let same: Vec<&DeviceStudy> = study.devices.iter().filter(|device| device.name() == name).collect();
        match same[..] {
            [device] if asked.is_nothing() => rated(device, (called(study, device), units), before),
            [first, ..] if asked.is_nothing() => counted(called(study, first), &same),
            _ => ratings(name, &same, units, asked),
        }
    });
    pairs.collect()
}

/// What devices are rated for, on a worksheet: whether that is enough is not said.
fn ratings(name: &str, devices: &[&DeviceStudy], units: UnitSystem, asked: Asked) -> Pair {
    let said = devices.iter().map(|device| {
        let flow = asked.put(Blank::Loads, device.flow.show(units));
        let rated = device.capacity.map_or(NONE.to_owned(), |capacity| capacity.show(units));
        match device.part.limit() {
            Limit::Trips => format!("{flow}, trips at {rated}"),
            Limit::Carries => format!("{flow} of {rated} rated"),
        }
    });
    Pair::new(capital(name), said.collect::<Vec<_>>().join("; "))
}

fn counted(name: &str, devices: &[&DeviceStudy]) -> Pair {
    let count = |verdict| devices.iter().filter(|device| device.verdict == verdict).count();
    let said = [
        (count(RatingVerdict::Within), "within rating"),
        (count(RatingVerdict::Exceeded), "OVER RATING"),
        (count(RatingVerdict::Unknown), "rating not known"),
    ];
    let said: Vec<String> = said
        .iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, words)| format!("{count} {words}"))
        .collect();
    Pair::new(how_many(devices.len(), name), said.join("; "))
}

/// What a rated device is called with this gas.
fn called(study: &Study, device: &DeviceStudy) -> &'static str {
    let delivered = study.zones.first().and_then(|zone| zone.inlet);
    match device.part {
        RatedPart::ServiceRegulator => Supply::regulator_name(study.gas.fuel, delivered),
        _ => device.name(),
    }
}

fn rated(device: &DeviceStudy, (name, units): (&str, UnitSystem), before: Option<&Before>) -> Pair {
    let trips = device.part.limit() == Limit::Trips;
    let had = before.and_then(|before| before.device(device.joint, device.name()));
    let had = had.map_or_else(String::new, |flow| format!(", {} before", flow.show(units)));
    let flow = device.flow.show(units);
    let rated = device.capacity.map_or(NONE.to_owned(), |capacity| capacity.show(units));
    Pair::new(
        capital(name),
        match device.verdict {
            RatingVerdict::Within if trips => format!("{flow}, trips at {rated}{had}"),
            RatingVerdict::Exceeded if trips => format!("{flow}, TRIPS at {rated}"),
            RatingVerdict::Unknown if trips => format!("{flow}; trip flow not entered"),
            RatingVerdict::Within => format!("{flow} of {rated} rated{had}"),
            RatingVerdict::Exceeded => format!("{flow}, OVER its rating of {rated}"),
            RatingVerdict::Unknown => format!("{flow}; rating not known"),
        },
    )
}

/// The tables and equations that were used, in the order of their first use.
fn tables(study: &Study, book: &Codebook, units: UnitSystem) -> Vec<String> {
    let mut used: Vec<&str> = Vec::new();
    for section in &study.sections {
        let name: &str = match &section.sizing.basis {
            Basis::Table { table, .. } => table,
            Basis::Equation { name, .. } => name,
            Basis::Nothing(_) => continue,
        };
        if !used.contains(&name) {
            used.push(name);
        }
    }
    let holds = |table: &CapacityTable| {
        let inlet = match table.inlet {
            Inlet::Below2Psi => format!("under {}", GaugePressure::from_psi(2.0).show(units)),
            Inlet::Exactly(pressure) => pressure.show(units),
        };
        format!("inlet {inlet}, drop {}", table.drop.show(units))
    };
    // Tables that hold for the same pressures say so once, after the last of them.
    let published = |name: &&str| book.table(name).filter(|table| !table.is_own);
    let next = |at: usize| used[at + 1..].iter().find_map(published);
    let each = used.iter().enumerate().map(|(at, name)| match book.table(name) {
        Some(table) if table.is_own => format!("{name}, {}, {}", in_units(&table.title, units), table.where_read()),
        // The gas has been told.
        Some(table) => {
            let said = format!("{name}, {}, {}", table.pipe.name(), table.where_read_in_short());
            match next(at).is_some_and(|next| holds(next) == holds(table)) {
                true => said,
                false => format!("{said}; {}", holds(table)),
            }
        }
        None => (*name).to_owned(),
    });
    each.collect()
}

/// The own tables that the job asks for and that nothing was sized by, because they are not there.
fn not_at_hand(job: &Job, book: &Codebook) -> Vec<Pair> {
    let named = job.settings.tables.iter();
    let missing = named.filter(|own| book.table(&own.id).is_none_or(|known| !known.is_own));
    missing
        .map(|own| {
            let words = format!("{}, by which the job is to be sized, was NOT LOADED", own.id);
            Pair::new("Your table", words)
        })
        .collect()
}

fn profile_said(study: &Study, profile: &Profile) -> String {
    let title = if profile.title.is_empty() {
        &profile.name
    } else {
        &profile.title
    };
    if study.profile_missing {
        format!("{title}, instead of one that is not loaded")
    } else {
        title.clone()
    }
}
