//! Rated devices against their ratings.

use super::March;
use super::rating::{loss, rating, usable};
use crate::job::{Device, DeviceKind, Limit, Rating};
use crate::network::{Load, Survey, zone};
use crate::units::{Flow, GaugePressure, PressureDrop};

/// What a rated device carries.
#[derive(Clone, Debug)]
pub struct DeviceStudy {
    /// Its joint.
    pub joint: usize,
    /// What it is.
    pub part: RatedPart,
    /// Flow through it at full load; in a ring that was not solved as the tree has it.
    pub flow: Flow,
    /// Pressure at which gas enters it at full load, when every size on the way is known.
    pub inlet: Option<GaugePressure>,
    /// What a line regulator is set to; `None` for other devices.
    pub setting: Option<GaugePressure>,
    /// Pressure behind a line regulator at full load, when every size on the way is known: its setting, or less where it
    /// gets too little.
    pub outlet: Option<GaugePressure>,
    /// Rated flow, or that at which it trips, where known.
    pub capacity: Option<Flow>,
    /// Pressure lost at this flow, where the rating tells it: the rated drop times the square of flow over rated flow.
    pub drop: Option<PressureDrop>,
    /// The judgement.
    pub verdict: RatingVerdict,
}

/// What can be rated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RatedPart {
    /// The supplier's meter.
    SupplyMeter,
    /// The supplier's regulator.
    ServiceRegulator,
    /// A device that a person placed.
    Placed(DeviceKind),
}

impl RatedPart {
    /// The trade's name of it: "meter", "service regulator", "line regulator".
    pub const fn name(self) -> &'static str {
        match self {
            RatedPart::SupplyMeter => DeviceKind::Meter.nature().name,
            RatedPart::ServiceRegulator => "service regulator",
            RatedPart::Placed(kind) => kind.nature().name,
        }
    }

    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            RatedPart::SupplyMeter => "meter",
            RatedPart::ServiceRegulator => "service_regulator",
            RatedPart::Placed(kind) => match kind {
                DeviceKind::Supply => "point_of_delivery",
                DeviceKind::Meter => "meter",
                DeviceKind::Regulator => "line_regulator",
                DeviceKind::Valve => "shutoff_valve",
                DeviceKind::ExcessFlow => "excess_flow_valve",
                DeviceKind::Union => "union",
                DeviceKind::SedimentTrap => "sediment_trap",
                DeviceKind::Connector => "connector",
                DeviceKind::QuickCoupling => "quick_disconnect_coupling",
                DeviceKind::Appliance => "appliance",
                DeviceKind::Cap => "cap",
                DeviceKind::TestGauge => "test_gauge",
            },
        }
    }

    /// What the flow means that is typed for it.
    pub const fn limit(self) -> Limit {
        match self {
            RatedPart::SupplyMeter | RatedPart::ServiceRegulator => Limit::Carries,
            RatedPart::Placed(kind) => kind.nature().limit,
        }
    }
}

impl DeviceStudy {
    /// The trade's name of it.
    pub const fn name(&self) -> &'static str {
        self.part.name()
    }

    /// Whether this is a line regulator that at full load gets less than its setting and its own loss ask for.
    pub fn is_starved(&self) -> bool {
        self.outlet
            .zip(self.setting)
            .is_some_and(|(outlet, setting)| outlet < setting)
    }
}

/// A rating against a flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RatingVerdict {
    /// The rated flow is not less than the flow.
    Within,
    /// The rated flow is less than the flow.
    Exceeded,
    /// The rating is not known, or the input of an appliance behind the device is not, or it stands in a ring that was not
    /// solved.
    Unknown,
}

/// All rated devices that gas reaches, in flow order. A device in a ring carries what the ring sends through it.
///
/// Meter and service regulator of the supplier stand before the point of delivery: their loss is shown, but the
/// delivery pressure is what remains behind them.
pub(crate) fn all(survey: &Survey, march: &March) -> Vec<DeviceStudy> {
    let mut devices = Vec::new();
    let through = march.through();
    for &joint in &survey.network.order {
        let load = survey.loads[joint];
        let Some(device) = survey.devices[joint] else {
            continue;
        };
        if let Device::Supply(supply) = device {
            let both = [
                (RatedPart::SupplyMeter, &supply.meter),
                (RatedPart::ServiceRegulator, &supply.regulator),
            ];
            for (part, rating) in both {
                devices.extend(
                    rating
                        .as_ref()
                        .map(|rating| study(joint, part, rating.capacity, rating, load)),
                );
            }
        } else if let Some(rating) = rating(device) {
            let ring = through.get(&joint).copied();
            let flow = ring.flatten().unwrap_or(load.flow);
            let part = RatedPart::Placed(device.kind());
            let mut found = study(joint, part, device.most(), rating, Load { flow, ..load });
            found.inlet = march.inlet[joint];
            if ring == Some(None) {
                found.verdict = RatingVerdict::Unknown;
            }
            if let Device::Regulator(regulator) = device {
                found.setting = regulator.outlet.map(zone::sensible);
                found.outlet = march.pressure[joint];
            }
            devices.push(found);
        }
    }
    devices
}

/// A rated part at its flow; `most` is what it carries, or where it trips.
fn study(joint: usize, part: RatedPart, most: Option<Flow>, rating: &Rating, load: Load) -> DeviceStudy {
    let capacity = most.filter(usable);
    DeviceStudy {
        joint,
        part,
        flow: load.flow,
        inlet: None,
        setting: None,
        outlet: None,
        capacity,
        drop: loss(rating, load.flow),
        verdict: match capacity {
            Some(capacity) if !part.limit().allows(load.flow, capacity) => RatingVerdict::Exceeded,
            Some(_) if load.unknown == 0 => RatingVerdict::Within,
            _ => RatingVerdict::Unknown,
        },
    }
}
