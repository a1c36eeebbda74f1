//! Notes that follow from what is in the job: testing, purging, paint, soil, walls, bonding.

use super::Ground;
use crate::codebook::Marked;
use crate::job::{Device, Run, State, Surroundings};
use crate::study::{tracer_clause, tracer_gauge, wants_bond};
use crate::units::{Length, Show};
use crate::work::{TestSheet, how_copper_is_joined, sinks};

/// The notes that follow from a job, all of one matter in one note.
pub fn notes(ground: &Ground<'_>) -> Vec<String> {
    let sheet = TestSheet::of(ground.job, ground.study, ground.book);
    let runs = ground.job.runs.iter().zip(&ground.study.runs);
    let pipe = runs.filter(|(run, study)| run.state == State::New && !study.is_hose);
    let new: Vec<&Run> = pipe.map(|(run, _)| run).collect();
    let matters = [
        test(ground, &sheet).into_iter().chain(purge(ground, &sheet)).collect(),
        above_ground(ground, &new),
        underground(ground, &new),
        copper(ground, &new).into_iter().collect(),
        regulators(ground).into_iter().collect(),
        tubing(ground, &new),
        data(ground).into_iter().collect(),
    ];
    let said = matters
        .into_iter()
        .filter(|sentences: &Vec<String>| !sentences.is_empty());
    said.map(|sentences| sentences.join(" ")).collect()
}

fn above_ground(ground: &Ground<'_>, new: &[&Run]) -> Vec<String> {
    let mut said = Vec::new();
    if new.iter().any(|run| !run.penetrations.is_empty()) {
        said.push("At walls, floors and roofs sleeve new pipe or leave clearance, and seal the gap.".to_owned());
    }
    if (new.iter()).any(|run| run.surroundings == Surroundings::Outdoors && ground.job.material(run).rusts()) {
        said.push(
            "Paint or coat new outdoor steel pipe, and keep it off grade and roof (common practice, no source)."
                .to_owned(),
        );
    }
    if new.iter().any(|run| run.surroundings == Surroundings::Concealed) {
        said.push("Keep pipe to be concealed open to view until it is tested and inspected.".to_owned());
    }
    said
}

fn underground(ground: &Ground<'_>, new: &[&Run]) -> Vec<String> {
    let buried = || new.iter().filter(|run| run.surroundings == Surroundings::Underground);
    if buried().next().is_none() {
        return Vec::new();
    }
    let mut said: Vec<String> = burial(ground).into_iter().collect();
    if buried().any(|run| ground.job.material(run).is_plastic()) {
        said.push(format!(
            "Lay tracer wire of {} AWG or larger along underground plastic pipe, and bring its ends up at the wall or \
             riser{}.",
            tracer_gauge(ground.profile),
            tracer_clause(ground.book, ground.profile).map_or_else(String::new, |clause| format!(" ({clause})"))
        ));
    }
    said
}

fn copper(ground: &Ground<'_>, new: &[&Run]) -> Option<String> {
    if !new.iter().any(|run| ground.job.material(run).is_copper()) {
        return None;
    }
    let joined = how_copper_is_joined(ground.job.settings.copper);
    let wider = Length::from_inches(0.125).show_rule(ground.study.names.units());
    Some(match ground.study.names.copper_by_outside() {
        true => format!(
            "Copper tube is called by its outside diameter (OD), {wider} more than its nominal size (public tables of \
             ASTM B88). {joined}"
        ),
        false => format!(
            "Copper tube sizes are nominal: the outside diameter is {wider} more (public tables of ASTM B88). {joined}"
        ),
    })
}

fn regulators(ground: &Ground<'_>) -> Option<String> {
    new_regulator(ground).then(|| {
        format!(
            "Vent line regulators to the outdoors, or use regulators listed with a vent limiter, installed per the \
             manufacturer's instructions{}.",
            clause(ground, "regulator-vent")
        )
    })
}

fn tubing(ground: &Ground<'_>, new: &[&Run]) -> Vec<String> {
    let is_tubing = |run: &&&Run| ground.job.material(run).is_corrugated();
    let mut said = Vec::new();
    if (new.iter().filter(is_tubing)).any(|run| !wants_bond(ground.profile, run)) {
        said.push(format!(
            "Tubing listed with an arc-resistant jacket is bonded as other gas piping is{}.",
            clause(ground, "jacketed-bond")
        ));
    }
    if (new.iter().filter(is_tubing)).any(|run| wants_bond(ground.profile, run)) {
        said.push(format!(
            "Bond corrugated tubing to the grounding electrode system{}; use the tubing manufacturer's fittings and strike \
             plates.",
            clause(ground, "csst-unbonded")
        ));
    }
    said
}

fn data(ground: &Ground<'_>) -> Option<String> {
    needs_data(ground).then(|| "Submit manufacturers' data sheets for appliances, regulators and tubing.".to_owned())
}

/// The clause behind a note, in brackets.
fn clause(ground: &Ground<'_>, topic: &str) -> String {
    let clause = ground.book.clause_number(topic, ground.profile.family);
    clause.map_or_else(String::new, |clause| format!(" ({clause})"))
}

fn new_regulator(ground: &Ground<'_>) -> bool {
    let placed = ground.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    placed
        .filter(|placed| placed.state == State::New)
        .any(|placed| matches!(placed.device, Device::Regulator(_)))
}

fn needs_data(ground: &Ground<'_>) -> bool {
    let placed = ground.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    let mut new = placed.filter(|placed| placed.state == State::New);
    new.any(|placed| placed.device.nature().has_makers_data)
}

/// The pressure test in a sentence, where there is new pipe to test.
fn test(ground: &Ground<'_>, sheet: &TestSheet) -> Option<String> {
    if sheet.pipe.is_empty() {
        return None;
    }
    Some(match &sheet.demand {
        Some(demand) => {
            let asked = demand.words(ground.study.names.units());
            format!("Test before concealing pipe or turning on gas: {asked}")
        }
        None => sheet.no_demand().to_owned(),
    })
}

/// Whether new pipe is so long or its pressure so high that gas is purged to the outdoors.
fn purge(ground: &Ground<'_>, sheet: &TestSheet) -> Option<String> {
    if sheet.pipe.is_empty() {
        return None;
    }
    let units = ground.study.names.units();
    let way = match (sheet.purge.high, sheet.purge.long.first()) {
        (Some(high), _) => format!(
            "to the outdoors, with inert gas first, since it works at {}",
            high.show(units)
        ),
        (None, Some((size, _, limit))) => format!(
            "to the outdoors, with inert gas first, since there is more than {} {} of {}",
            limit.value.show(units),
            limit.mark,
            size.show(units)
        ),
        (None, None) => match sheet.purge.unread {
            Some(_) => format!("by your edition of the code: {}", sheet.purge.ways_source),
            None => format!("per {}", sheet.purge.ways_source),
        },
    };
    let fuel = sinks(ground.study.gas.fuel);
    Some(format!(
        "After the test and the leak check, purge new pipe {way}.{fuel}"
    ))
}

fn burial(ground: &Ground<'_>) -> Option<String> {
    let units = ground.study.names.units();
    let burial = ground.profile.burial.as_ref()?;
    let depth = |figure: &Marked<Length>| format!("{} {}", figure.value.show_short(units), figure.mark);
    Some(format!(
        "Cover over underground pipe: {}; {} where damage is likely; {} for a line to one outdoor appliance.",
        depth(&burial.usual),
        depth(&burial.damage_likely),
        depth(&burial.single_appliance),
    ))
}
