//! Meters, regulators and other rated devices that pass the load.

use super::{Change, NoRemedy, Remedy};
use crate::editor::draft::Draft;
use crate::job::{Device, Job, Limit, State, Vent};
use crate::pressure::{RatedPart, RatingVerdict};
use crate::study::Study;
use crate::units::{Flow, Show};

/// Each device that carries more than it is rated for becomes one that is rated for its load and, where a loss was stated,
/// loses no more than that at it.
pub fn larger(job: &Job, study: &Study) -> Result<Change, NoRemedy> {
    let mut draft = Draft::new(job);
    let mut does = Vec::new();
    let exceeded = study.devices.iter();
    for device in exceeded.filter(|device| device.verdict == RatingVerdict::Exceeded) {
        // One that trips too early is chosen from its maker's sheet, not by a rated flow.
        if device.part.limit() == Limit::Trips {
            continue;
        }
        let id = job.joints.at(device.joint).id;
        let Some(placed) = &mut draft.joint_mut(id)?.placed else {
            continue;
        };
        let mut by = "";
        let rating = match &mut placed.device {
            Device::Supply(supply) => {
                by = ", by the gas supplier";
                let part = match device.part {
                    RatedPart::SupplyMeter => &mut supply.meter,
                    RatedPart::ServiceRegulator | RatedPart::Placed(_) => &mut supply.regulator,
                };
                part.get_or_insert_default()
            }
            other => {
                if let Device::Regulator(regulator) = other
                    && regulator.vent == Vent::NotSaid
                {
                    regulator.vent = Vent::Outdoors;
                }
                let Some(rating) = other.rating_mut() else { continue };
                placed.state = State::New;
                rating
            }
        };
        let least = Flow::from_cfh(device.flow.cfh().ceil());
        rating.capacity = Some(least);
        let units = study.names.units();
        let loses = rating.drop.map_or_else(String::new, |drop| {
            format!(" at a loss of no more than {}", drop.show(units))
        });
        does.push(format!(
            "{} at {id}: one rated for at least {}{loses}{by}.",
            capital(device.name()),
            least.show(units)
        ));
    }
    match does.is_empty() {
        true => Err(NoRemedy::NothingToDo(
            "no meter, regulator or other device is known to be over its rated flow",
        )),
        false => Ok(Change {
            step: draft.finish(Remedy::LargerMeter.name())?,
            does,
        }),
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
