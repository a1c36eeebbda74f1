//! Notes that follow from what is in the job: testing, purging, paint, soil, walls, bonding.

use super::Ground;
use crate::codebook::{Marked, TestTime};
use crate::drawing::sheet::figures::plain;
use crate::job::{Device, Fuel, Material, Run, State, Surroundings};
use crate::study::TestSheet;
use crate::units::{GaugePressure, Length, NominalSize, Show};

/// From this pressure up new pipe is purged to the outdoors whatever its size (NFPA 54-2012, Table 8.3.1).
const PURGE_PSI: f64 = 2.0;

/// The notes that follow from a job.
pub fn notes(ground: &Ground<'_>) -> Vec<String> {
    let mut said = Vec::new();
    said.extend(test(ground));
    said.extend(purge(ground));
    let new: Vec<&Run> = ground.job.runs.iter().filter(|run| run.state == State::New).collect();
    let any = |keep: &dyn Fn(&Run) -> bool| new.iter().any(|run| keep(run));
    let is = |run: &Run, material: Material| ground.job.material(run) == material;
    if any(&|run| run.surroundings == Surroundings::Outdoors && is(run, Material::Steel40)) {
        said.push(
            "Paint or coat new steel pipe outdoors against rust; keep it clear of ground and roof (common practice, no source)."
                .to_owned(),
        );
    }
    if any(&|run| run.surroundings == Surroundings::Underground) {
        said.extend(burial(ground));
        if any(&|run| run.surroundings == Surroundings::Underground && is(run, Material::Pe)) {
            said.push(
                "Lay tracer wire along plastic pipe underground, and bring both ends up where they are found."
                    .to_owned(),
            );
        }
    }
    if any(&|run| !run.penetrations.is_empty()) {
        said.push(
            "Where new pipe passes a wall, floor or roof: sleeve it or leave it free, and close the gap around it."
                .to_owned(),
        );
    }
    if any(&|run| is(run, Material::Csst)) {
        said.push(
            "Bond corrugated tubing to the grounding electrode system; fittings and striker plates are the maker's."
                .to_owned(),
        );
    }
    if any(&|run| run.surroundings == Surroundings::Concealed) {
        said.push("Leave pipe to be concealed open until it has been tested and seen by the inspector.".to_owned());
    }
    if needs_data(ground) {
        said.push("Hand in the makers' data of appliances, regulators and tubing with this drawing.".to_owned());
    }
    said
}

fn needs_data(ground: &Ground<'_>) -> bool {
    let placed = ground.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    let mut new = placed.filter(|placed| placed.state == State::New);
    new.any(|placed| matches!(placed.device, Device::Appliance(_) | Device::Regulator(_)))
}

/// The test rule of the profile in short.
fn test(ground: &Ground<'_>) -> Option<String> {
    let units = ground.job.settings.units;
    let Some(rule) = &ground.profile.test else {
        return Some("The profile sets no pressure test: ask the office which one it wants.".to_owned());
    };
    let sheet = TestSheet::of(ground.job, ground.study, ground.book);
    let working = sheet.working.unwrap_or(GaugePressure::from_pa(0.0));
    let (least, time) = rule.at(working);
    let pressure = GaugePressure::from_pa((working.pa() * rule.multiple.value).max(least.value.pa()));
    let hold = match time {
        TestTime::Minutes(minutes) => format!("hold it {}", minutes_said(*minutes)),
        TestTime::ByVolume {
            minutes,
            per_cubic_feet,
            small_minutes,
            small_below_cubic_feet,
        } => format!(
            "hold it {} for each {} ft³ of pipe or part of it, {} below {} ft³ or in a dwelling for one family",
            minutes_said(*minutes),
            plain(per_cubic_feet.value),
            minutes_said(*small_minutes),
            plain(small_below_cubic_feet.value),
        ),
    };
    Some(format!(
        "Test before pipe is concealed and before gas is let in: {} or more ({} times the working pressure {}, at least {} {}); {hold}. \
         The gauge ends at {} times the test pressure or lower {}.",
        pressure.show(units),
        plain(rule.multiple.value),
        rule.multiple.mark,
        least.value.show(units),
        least.mark,
        plain(rule.gauge_top.value),
        rule.gauge_top.mark,
    ))
}

fn minutes_said(minutes: Marked<f64>) -> String {
    format!("{} min {}", plain(minutes.value), minutes.mark)
}

/// Whether new pipe is so long or its pressure so high that gas is purged to the outdoors.
fn purge(ground: &Ground<'_>) -> Option<String> {
    let sections = ground
        .study
        .sections
        .iter()
        .filter(|section| section.state == State::New);
    let mut lengths: Vec<(NominalSize, Length)> = Vec::new();
    let mut is_high = false;
    for section in sections {
        let zone = ground.study.zones.get(section.zone);
        is_high |= zone.is_some_and(|zone| zone.inlet.psi() > PURGE_PSI);
        if let Some(size) = section.sizing.size {
            match lengths.iter_mut().find(|known| known.0 == size) {
                Some(known) => known.1 += section.measured,
                None => lengths.push((size, section.measured)),
            }
        }
    }
    if lengths.is_empty() {
        return None;
    }
    let long = lengths.iter().find_map(|(size, length)| {
        let limit = ground.book.purge_outdoors_over(*size)?;
        (*length > limit.value).then_some((*size, limit))
    });
    let units = ground.job.settings.units;
    let way = match (is_high, long) {
        (true, _) => format!("to the outdoors: its pressure is over {PURGE_PSI} psi"),
        (false, Some((size, limit))) => format!(
            "to the outdoors: there is more than {} {} of {}",
            limit.value.show(units),
            limit.mark,
            size.show(units)
        ),
        (false, None) => "while somebody watches; air the room and keep flames and sparks away".to_owned(),
    };
    let fuel = match ground.study.gas.fuel {
        Fuel::Natural => "",
        Fuel::Propane => " Propane sinks and gathers in low places.",
    };
    Some(format!("After its test purge new pipe {way}.{fuel}"))
}

fn burial(ground: &Ground<'_>) -> Option<String> {
    let units = ground.job.settings.units;
    let burial = ground.profile.burial.as_ref()?;
    let depth = |figure: &Marked<Length>| format!("{} {}", figure.value.show(units), figure.mark);
    Some(format!(
        "Cover over pipe underground: {}; {} where damage is likely; {} for a line to one outdoor appliance.",
        depth(&burial.usual),
        depth(&burial.damage_likely),
        depth(&burial.single_appliance),
    ))
}
