//! Devices in the file: the word for the thing, then what is known of it in brackets.

use serde::{Deserialize, Serialize};

use super::start_up::StartUp;
use super::text::{Text, known, written};
use super::usual;
use super::words::{Season, ValveKind, Vent};
use crate::job;
use crate::units::{Flow, GaugePressure, HeatRate, Length, PressureDrop};

/// `valve(kind: plug)`, `appliance(name: "Range", input: "65,000 Btu/h")`, `union()`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Device {
    Supply {
        #[serde(default, skip_serializing_if = "usual")]
        pressure: Option<Text<GaugePressure>>,
        #[serde(default, skip_serializing_if = "usual")]
        meter: Option<Rating>,
        #[serde(default, skip_serializing_if = "usual")]
        regulator: Option<Rating>,
        #[serde(default, skip_serializing_if = "usual")]
        before: SupplyBefore,
    },
    Meter {
        #[serde(default, skip_serializing_if = "usual")]
        capacity: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        drop: Option<Text<PressureDrop>>,
    },
    Regulator {
        #[serde(default, skip_serializing_if = "usual")]
        outlet: Option<Text<GaugePressure>>,
        #[serde(default, skip_serializing_if = "usual", alias = "allowed_drop")]
        allowable_drop: Option<Text<PressureDrop>>,
        #[serde(default, skip_serializing_if = "usual")]
        capacity: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        drop: Option<Text<PressureDrop>>,
        #[serde(default, skip_serializing_if = "usual")]
        vent: Vent,
        /// Older files say by it that the vent is seen to.
        #[serde(default, skip_serializing)]
        vented: bool,
    },
    Valve {
        #[serde(default, skip_serializing_if = "usual")]
        kind: ValveKind,
        #[serde(default, skip_serializing_if = "usual")]
        capacity: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        drop: Option<Text<PressureDrop>>,
    },
    ExcessFlow {
        #[serde(default, skip_serializing_if = "usual")]
        trips: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        loss_at: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        loss: Option<Text<PressureDrop>>,
    },
    Union {},
    SedimentTrap {
        #[serde(default, skip_serializing_if = "usual", alias = "depth")]
        drip_leg: Option<Text<Length>>,
    },
    Connector {
        #[serde(default, skip_serializing_if = "usual")]
        length: Option<Text<Length>>,
        #[serde(default, skip_serializing_if = "usual")]
        capacity: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        drop: Option<Text<PressureDrop>>,
    },
    QuickCoupling {
        #[serde(default, skip_serializing_if = "usual")]
        capacity: Option<Text<Flow>>,
        #[serde(default, skip_serializing_if = "usual")]
        drop: Option<Text<PressureDrop>>,
    },
    Appliance {
        #[serde(default, skip_serializing_if = "usual")]
        name: String,
        #[serde(default, skip_serializing_if = "usual", alias = "class")]
        r#type: Option<String>,
        #[serde(default, skip_serializing_if = "usual")]
        input: Option<Text<HeatRate>>,
        #[serde(default, skip_serializing_if = "usual", alias = "least_inlet")]
        min_inlet: Option<Text<GaugePressure>>,
        #[serde(default, skip_serializing_if = "usual", alias = "greatest_inlet")]
        max_inlet: Option<Text<GaugePressure>>,
        #[serde(default, skip_serializing_if = "usual", alias = "season")]
        operates: Season,
        #[serde(default, skip_serializing_if = "usual")]
        start_up: StartUp,
    },
    Cap {
        #[serde(default, skip_serializing_if = "usual")]
        future_input: Option<Text<HeatRate>>,
        #[serde(default, skip_serializing_if = "usual")]
        projection: Option<Text<Length>>,
    },
    TestGauge {},
}

/// `meter: (capacity: "250 cfh", drop: "0.5 in w.c.")` of a supply.
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rating {
    #[serde(default, skip_serializing_if = "usual")]
    capacity: Option<Text<Flow>>,
    #[serde(default, skip_serializing_if = "usual")]
    drop: Option<Text<PressureDrop>>,
}

/// `before: (meter: (capacity: "250 cfh"))` of a supply: what the supplier changes, as it was.
#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SupplyBefore {
    #[serde(default, skip_serializing_if = "usual")]
    pressure: Option<Text<GaugePressure>>,
    #[serde(default, skip_serializing_if = "usual")]
    meter: Option<Rating>,
    #[serde(default, skip_serializing_if = "usual")]
    regulator: Option<Rating>,
}

fn rating(capacity: Option<Text<Flow>>, drop: Option<Text<PressureDrop>>) -> job::Rating {
    job::Rating {
        capacity: known(capacity),
        drop: known(drop),
    }
}

impl From<&job::Rating> for Rating {
    fn from(rating: &job::Rating) -> Rating {
        Rating {
            capacity: written(&rating.capacity),
            drop: written(&rating.drop),
        }
    }
}

impl From<Rating> for job::Rating {
    fn from(file: Rating) -> job::Rating {
        rating(file.capacity, file.drop)
    }
}

impl From<&job::Device> for Device {
    fn from(device: &job::Device) -> Device {
        match device {
            job::Device::Supply(supply) => Device::Supply {
                pressure: written(&supply.pressure),
                meter: supply.meter.as_ref().map(Rating::from),
                regulator: supply.regulator.as_ref().map(Rating::from),
                before: SupplyBefore {
                    pressure: written(&supply.before.pressure),
                    meter: supply.before.meter.as_ref().map(Rating::from),
                    regulator: supply.before.regulator.as_ref().map(Rating::from),
                },
            },
            job::Device::Meter(meter) => Device::Meter {
                capacity: written(&meter.rating.capacity),
                drop: written(&meter.rating.drop),
            },
            job::Device::Regulator(regulator) => Device::Regulator {
                outlet: written(&regulator.outlet),
                allowable_drop: written(&regulator.allowed_drop),
                capacity: written(&regulator.rating.capacity),
                drop: written(&regulator.rating.drop),
                vent: regulator.vent.into(),
                vented: false,
            },
            job::Device::Valve(valve) => Device::Valve {
                kind: valve.kind.into(),
                capacity: written(&valve.rating.capacity),
                drop: written(&valve.rating.drop),
            },
            job::Device::ExcessFlow { trips, loss } => Device::ExcessFlow {
                trips: written(trips),
                loss_at: written(&loss.capacity),
                loss: written(&loss.drop),
            },
            job::Device::Union => Device::Union {},
            job::Device::SedimentTrap(trap) => Device::SedimentTrap {
                drip_leg: written(&trap.depth),
            },
            job::Device::Connector(connector) => Device::Connector {
                length: written(&connector.length),
                capacity: written(&connector.rating.capacity),
                drop: written(&connector.rating.drop),
            },
            job::Device::QuickCoupling(coupling) => Device::QuickCoupling {
                capacity: written(&coupling.rating.capacity),
                drop: written(&coupling.rating.drop),
            },
            job::Device::Appliance(appliance) => Device::Appliance {
                name: appliance.name.clone(),
                r#type: appliance.class.clone(),
                input: written(&appliance.input),
                min_inlet: written(&appliance.least_inlet),
                max_inlet: written(&appliance.greatest_inlet),
                operates: appliance.season.into(),
                start_up: StartUp::from(&appliance.start_up),
            },
            job::Device::Cap(cap) => Device::Cap {
                future_input: written(&cap.future_input),
                projection: written(&cap.projection),
            },
            job::Device::TestGauge => Device::TestGauge {},
        }
    }
}

impl From<Device> for job::Device {
    fn from(device: Device) -> job::Device {
        match device {
            Device::Supply {
                pressure,
                meter,
                regulator,
                before,
            } => job::Device::Supply(job::Supply {
                pressure: known(pressure),
                meter: meter.map(job::Rating::from),
                regulator: regulator.map(job::Rating::from),
                before: job::SupplyBefore {
                    pressure: known(before.pressure),
                    meter: before.meter.map(job::Rating::from),
                    regulator: before.regulator.map(job::Rating::from),
                },
            }),
            Device::Meter { capacity, drop } => job::Device::Meter(job::Meter {
                rating: rating(capacity, drop),
            }),
            Device::Regulator {
                outlet,
                allowable_drop,
                capacity,
                drop,
                vent,
                vented,
            } => job::Device::Regulator(job::Regulator {
                outlet: known(outlet),
                allowed_drop: known(allowable_drop),
                rating: rating(capacity, drop),
                vent: match job::Vent::from(vent) {
                    job::Vent::NotSaid if vented => job::Vent::Outdoors,
                    vent => vent,
                },
            }),
            Device::Valve { kind, capacity, drop } => job::Device::Valve(job::Valve {
                kind: kind.into(),
                rating: rating(capacity, drop),
            }),
            Device::ExcessFlow { trips, loss_at, loss } => job::Device::ExcessFlow {
                trips: known(trips),
                loss: rating(loss_at, loss),
            },
            Device::Union {} => job::Device::Union,
            Device::SedimentTrap { drip_leg } => {
                job::Device::SedimentTrap(job::SedimentTrap { depth: known(drip_leg) })
            }
            Device::Connector { length, capacity, drop } => job::Device::Connector(job::Connector {
                length: known(length),
                rating: rating(capacity, drop),
            }),
            Device::QuickCoupling { capacity, drop } => job::Device::QuickCoupling(job::QuickCoupling {
                rating: rating(capacity, drop),
            }),
            Device::Appliance {
                name,
                r#type,
                input,
                min_inlet,
                max_inlet,
                operates,
                start_up,
            } => job::Device::Appliance(job::Appliance {
                name,
                class: r#type,
                input: known(input),
                least_inlet: known(min_inlet),
                greatest_inlet: known(max_inlet),
                season: operates.into(),
                start_up: start_up.into(),
            }),
            Device::Cap {
                future_input,
                projection,
            } => job::Device::Cap(job::Cap {
                future_input: known(future_input),
                projection: known(projection),
            }),
            Device::TestGauge {} => job::Device::TestGauge,
        }
    }
}
