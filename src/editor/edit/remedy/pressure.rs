//! More pressure from the supplier, with a line regulator before each outlet.

use super::super::Cut;
use super::super::split::cut;
use super::{Change, NoRemedy, Remedy};
use crate::codebook::{Codebook, Inlet, PipeKind};
use crate::editor::draft::Draft;
use crate::editor::line;
use crate::job::{Device, Job, LatticePoint, Placed, Rating, Regulator, RunId, Settings, State, Vent};
use crate::sizing::Origin;
use crate::study::Study;
use crate::units::{Flow, GaugePressure, Show};

/// The nearest pressure above the present one for which a table of this pipe is made and the profile allows a drop.
fn next_pressure(job: &Job, book: &Codebook, now: GaugePressure) -> Option<GaugePressure> {
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let kind = PipeKind::of(job.settings.material);
    let tables = book.tables_for(profile, &job.settings);
    let made = tables
        .iter()
        .filter(|table| table.fuel == job.gas.fuel && table.pipe == kind);
    let made = made.filter_map(|table| match table.inlet {
        Inlet::Exactly(inlet) => Some(inlet),
        Inlet::Below2Psi => None,
    });
    let allowed = |inlet: &GaugePressure| profile.allowed_drop(job.gas.fuel, *inlet).is_some();
    let higher = made.filter(|inlet| inlet.pa() > now.pa() * 1.01 && allowed(inlet));
    let next = higher.min_by(|a, b| a.pa().total_cmp(&b.pa()))?;
    let said = next.as_said(profile.units(job.settings.units));
    Some(if allowed(&said) { said } else { next })
}

/// The delivery pressure is raised, and a regulator before each outlet of the first zone holds the one of now.
pub fn higher_delivery(job: &Job, book: &Codebook, study: &Study) -> Result<Change, NoRemedy> {
    let (Some(zone), Some(supply)) = (study.zones.first(), study.network.supply) else {
        return Err(NoRemedy::NothingToDo("no point of delivery is drawn"));
    };
    let now = zone
        .inlet
        .ok_or(NoRemedy::NothingToDo("the delivery pressure is not entered"))?;
    let more = next_pressure(job, book, now).ok_or(NoRemedy::NoHigherTable)?;
    let units = study.names.units();
    let mut draft = Draft::new(job);
    if let Some(Placed {
        device: Device::Supply(supply),
        ..
    }) = &mut draft.joint_mut(job.joints.at(supply).id)?.placed
    {
        supply.pressure = Some(more);
    }
    if job.settings.allowed_drop.is_some() {
        // It was set for the pressure of before.
        draft.set_settings(Settings {
            allowed_drop: None,
            ..job.settings.clone()
        });
    }
    let mut does = vec![format!(
        "Delivery pressure: {} instead of {}, by the gas supplier.",
        more.show(units),
        now.show(units)
    )];
    let outlets = study
        .outlets
        .iter()
        .filter(|outlet| study.joints[outlet.joint].zone == Some(0));
    for outlet in outlets {
        let (run, place) =
            room_before(job, study, outlet.joint).ok_or_else(|| NoRemedy::NoRoomBefore(outlet.called()))?;
        let joint = cut(&mut draft, run, place, Cut::InProportion)?;
        let capacity = Flow::from_cfh(outlet.flow.cfh().ceil());
        let regulator = Regulator {
            outlet: Some(now),
            allowed_drop: None,
            rating: Rating {
                capacity: Some(capacity).filter(|flow| flow.cfh() > 0.0),
                drop: None,
            },
            vent: Vent::Outdoors,
        };
        draft.joint_mut(joint)?.placed = Some(Placed::new(Device::Regulator(regulator)));
        does.push(format!(
            "Line regulator ahead of {}: set to {}, rated for at least {}, vented to the outdoors.",
            outlet.called(),
            now.show(units),
            capacity.show(units)
        ));
    }
    let step = draft.finish(format!("{} of {}", Remedy::HigherDelivery.name(), more.show(units)))?;
    Ok(Change { step, does })
}

/// The nearest place in pipe before an outlet, on its own line, where a device can be drawn.
pub fn room_before(job: &Job, study: &Study, outlet: usize) -> Option<(RunId, LatticePoint)> {
    let network = &study.network;
    let mut joint = outlet;
    loop {
        let run = network.feed[joint]?;
        let (from, to) = network.ends[run]?;
        let is_pipe = study.runs[run]
            .section
            .is_some_and(|section| study.sections[section].sizing.origin != Origin::Connector);
        let [from_at, to_at] = [from, to].map(|joint| job.joints.at(joint).at);
        let pieces = line::pieces(from_at, to_at);
        if is_pipe && pieces >= 2 {
            return Some((job.runs.at(run).id, line::place(from_at, to_at, pieces - 1)));
        }
        let parts = network
            .legs(from)
            .filter(|&run| job.runs.at(run).state != State::Removed)
            .count()
            > 2;
        if parts {
            return None;
        }
        joint = from;
    }
}
