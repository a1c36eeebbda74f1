//! Stretches of one pressure.

use super::{Ends, GasFacts, Network};
use crate::codebook::{Mark, Profile};
use crate::job::{Device, Fuel, Job, Method};
use crate::units::{GaugePressure, Length, PressureDrop, Show};
use std::ops::RangeInclusive;

/// The piping from the point of delivery, or from a line regulator, to its outlets and to the next regulators.
#[derive(Clone, Debug)]
pub struct Zone {
    /// The joint at which it starts.
    pub start: usize,
    /// The zone upstream, for a zone behind a line regulator.
    pub fed_by: Option<usize>,
    /// Pressure that the code method starts from: the delivery pressure or the regulator's setting; `None` while nobody
    /// has said it, and then nothing in the zone is sized.
    pub inlet: Option<GaugePressure>,
    /// Allowed drop within the zone; `None` when neither job nor profile sets one.
    ///
    /// The job's own setting holds from the point of delivery and ends at the first regulator, behind which the
    /// regulator's own setting holds; where a person set nothing, the profile's for fuel and inlet pressure.
    pub allowed_drop: Option<PressureDrop>,
    /// Where the allowed drop comes from.
    pub drop_from: DropFrom,
    /// Sizing method.
    pub method: Method,
    /// Joint of the outlet (or regulator) that is most remote from the start; of the most remote end where there is no
    /// outlet at all.
    pub farthest: Option<usize>,
    /// Measured length to it.
    pub longest: Length,
}

/// Where the allowed drop of a zone comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DropFrom {
    /// The job's own setting.
    Job,
    /// The setting of the line regulator at which the zone starts.
    Regulator,
    /// The profile's, with its mark.
    Profile(Mark),
    /// There is none, for this reason.
    Nothing(String),
}

impl DropFrom {
    /// In words for a drawing: "per profile".
    pub fn words(&self) -> &str {
        match self {
            DropFrom::Job => "set in the job",
            DropFrom::Regulator => "set at the regulator",
            DropFrom::Profile(_) => "per profile",
            DropFrom::Nothing(why) => why,
        }
    }
}

/// The zones, and which one each joint is in.
pub(crate) struct Zones {
    pub(crate) zones: Vec<Zone>,
    /// For each joint the zone of the run that feeds it; at the point of delivery its own.
    pub(crate) before: Vec<Option<usize>>,
}

/// Finds the zones; their most remote outlets are left open.
pub(crate) fn all(
    job: &Job,
    profile: &Profile,
    gas: &GasFacts,
    network: &Network,
    devices: &[Option<&Device>],
) -> Zones {
    let mut zones = Zones {
        zones: Vec::new(),
        before: vec![None; job.joints.len()],
    };
    // For each joint the zone of the runs by which gas leaves it.
    let mut behind = vec![None; job.joints.len()];
    for &joint in &network.order {
        let before = network.upstream(joint).and_then(|upstream| behind[upstream]);
        let starts = match (before, devices[joint]) {
            (None, Some(Device::Supply(supply))) => Some((supply.pressure, job.settings.allowed_drop, DropFrom::Job)),
            (Some(_), Some(Device::Regulator(regulator))) => {
                Some((regulator.outlet, regulator.allowed_drop, DropFrom::Regulator))
            }
            _ => None,
        };
        zones.before[joint] = before;
        behind[joint] = before;
        if let Some((inlet, set, by)) = starts {
            let own = zones.zones.len();
            let inlet = inlet.map(sensible);
            let (allowed_drop, drop_from) = match (inlet, set.filter(usable)) {
                (None, _) => {
                    let why = match before {
                        None => "the delivery pressure is not entered",
                        Some(_) => "the outlet pressure of the line regulator is not entered",
                    };
                    (None, DropFrom::Nothing(why.to_owned()))
                }
                (Some(_), Some(drop)) => (Some(drop), by),
                (Some(inlet), None) => from_profile(job, profile, gas.fuel, inlet),
            };
            zones.zones.push(Zone {
                start: joint,
                fed_by: before,
                inlet,
                allowed_drop,
                drop_from,
                method: job.settings.method.unwrap_or(profile.method),
                farthest: None,
                longest: Length::ZERO,
            });
            behind[joint] = Some(own);
            zones.before[joint] = before.or(Some(own));
        }
    }
    zones
}

/// Pressures that gas piping can have, Pa: none over a thousand bar. Another one counts as none.
const SENSIBLE: RangeInclusive<f64> = -1e8..=1e8;

/// A pressure that can be reckoned with: the one given, or none when it is beyond all sense.
pub(crate) fn sensible(pressure: GaugePressure) -> GaugePressure {
    match SENSIBLE.contains(&pressure.pa()) {
        true => pressure,
        false => GaugePressure::from_pa(0.0),
    }
}

/// A drop that pipe can be sized by.
fn usable(drop: &PressureDrop) -> bool {
    drop.pa() > 0.0 && SENSIBLE.contains(&drop.pa())
}

fn from_profile(job: &Job, profile: &Profile, fuel: Fuel, inlet: GaugePressure) -> (Option<PressureDrop>, DropFrom) {
    match profile.allowed_drop(fuel, inlet).filter(|drop| usable(&drop.value)) {
        Some(drop) => (Some(drop.value), DropFrom::Profile(drop.mark)),
        None => {
            let at = inlet.show(profile.units(job.settings.units));
            let why = format!("the profile sets none for {} at {at}", fuel.name());
            (None, DropFrom::Nothing(why))
        }
    }
}

/// Enters the most remote outlet of each zone.
pub(crate) fn measure(zones: &mut [Zone], ends: &Ends, distance: &[Length]) {
    for zone in zones {
        if let Some(end) = ends.behind(zone.start) {
            zone.farthest = Some(end);
            zone.longest = distance[end] - distance[zone.start];
        }
    }
}
