//! What a person puts on a joint.

use super::{Appliance, Detail, DeviceKind, Fuel, Letter, Nature, Season, State, ValveKind};
use crate::units::{Clocked, Flow, GaugePressure, HeatRate, Length, NominalSize, PressureDrop};

/// A device on a joint, with its state and the size of its own ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// What it is.
    pub device: Device,
    /// Existing, new or to be removed.
    pub state: State,
    /// Size of its ends, when it is not that of the pipe: the study then implies a reducing fitting.
    pub size: Option<NominalSize>,
    /// Whether a device to be removed is taken out so that it can be used again; said of others it counts nothing.
    pub salvaged: bool,
    /// Its own length along the line from end to end, threads and all, as measured; `None` until somebody has.
    pub takes: Option<Length>,
    /// The letter of an outlet, which stays whatever is drawn beside it; `None` where it follows from the flow, and on devices
    /// that are no outlet.
    pub letter: Option<Letter>,
}

impl Placed {
    /// A new device with ends of the pipe's size.
    pub fn new(device: Device) -> Placed {
        Placed {
            device,
            state: State::New,
            size: None,
            salvaged: false,
            takes: None,
            letter: None,
        }
    }

    /// Whether it is taken out and kept for use again.
    pub fn is_salvaged(&self) -> bool {
        self.salvaged && self.state == State::Removed
    }
}

/// The things that stand on joints.
#[derive(Clone, Debug, PartialEq)]
pub enum Device {
    /// The point of delivery, where house piping starts.
    Supply(Supply),
    /// A meter in the line, after the point of delivery.
    Meter(Meter),
    /// A line regulator.
    Regulator(Regulator),
    /// A shutoff valve.
    Valve(Valve),
    /// A valve that shuts by itself when too much gas flows.
    ExcessFlow {
        /// The flow at which it trips, by its maker; `None` until it is entered.
        trips: Option<Flow>,
        /// A flow, and the pressure that it loses there, by its maker.
        loss: Rating,
    },
    /// A union.
    Union,
    /// A tee with a capped nipple that catches dirt.
    SedimentTrap(SedimentTrap),
    /// A flexible connector.
    Connector(Connector),
    /// A quick-disconnect coupling.
    QuickCoupling(QuickCoupling),
    /// A gas appliance.
    Appliance(Appliance),
    /// A cap or plug on an open end.
    Cap(Cap),
    /// A gauge for the pressure test.
    TestGauge,
}

/// A capped end, perhaps left for an appliance to come.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cap {
    /// The input that this end is left for; carried in every size.
    pub future_input: Option<HeatRate>,
    /// How far the stub stands clear of the wall, floor or patio.
    pub projection: Option<Length>,
}

/// What a maker or supplier rates a device for. `None` means not known, and the study says so.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rating {
    /// Rated flow.
    pub capacity: Option<Flow>,
    /// Pressure lost at the rated flow.
    pub drop: Option<PressureDrop>,
}

impl Rating {
    /// Its fields.
    pub const fn slots(&mut self) -> [(Detail, Slot<'_>); 2] {
        [
            (Detail::RatedFlow, Slot::Flow(&mut self.capacity)),
            (Detail::RatedDrop, Slot::Drop(&mut self.drop)),
        ]
    }
}

/// Where a device keeps what is said of it.
#[derive(Debug, PartialEq)]
pub enum Slot<'a> {
    /// A flow.
    Flow(&'a mut Option<Flow>),
    /// A loss of pressure.
    Drop(&'a mut Option<PressureDrop>),
    /// A pressure.
    Pressure(&'a mut Option<GaugePressure>),
    /// Heat that is burned.
    Heat(&'a mut Option<HeatRate>),
    /// A length.
    Length(&'a mut Option<Length>),
    /// Words.
    Words(&'a mut String),
    /// A class of appliances.
    Class(&'a mut Option<String>),
    /// How a valve is built.
    Valve(&'a mut ValveKind),
    /// Where a vent goes.
    Vent(&'a mut Vent),
    /// When an appliance burns.
    Season(&'a mut Season),
    /// What a meter passed in a time.
    Clocked(&'a mut Option<Clocked>),
    /// A part of the supplier's that may be there, with its rating.
    Supplied(&'a mut Option<Rating>),
}

/// What a device loses of which no rating tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unrated {
    /// Nothing: it is no obstacle to the gas.
    Nothing,
    /// As much as a valve of a kind.
    AsValve(ValveKind),
    /// Nobody knows, and that it was not counted is said.
    Unknown,
}

/// The point of delivery.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Supply {
    /// Delivery pressure; `None` until the supplier has said it: nothing is sized from a guess.
    pub pressure: Option<GaugePressure>,
    /// The supplier's meter, when there is one.
    pub meter: Option<Rating>,
    /// The service regulator, when there is one.
    pub regulator: Option<Rating>,
    /// What the supplier changes with this work, as it was.
    pub before: SupplyBefore,
}

/// What a supplier changed, as it was before the work; `None` where it stays as it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SupplyBefore {
    /// Delivery pressure.
    pub pressure: Option<GaugePressure>,
    /// The meter.
    pub meter: Option<Rating>,
    /// The service regulator.
    pub regulator: Option<Rating>,
}

/// One thing that a supplier changes: as it was, and as it will be where that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SupplyChange {
    /// The delivery pressure.
    Pressure(GaugePressure, Option<GaugePressure>),
    /// The rated flow of the meter.
    Meter(Option<Flow>, Option<Flow>),
    /// The rated flow of the service regulator.
    Regulator(Option<Flow>, Option<Flow>),
}

impl Supply {
    /// What the regulator at the point of delivery is called: with propane it is at the tank, and a first stage where more than
    /// 2 psig comes out of it (from memory).
    pub fn regulator_name(fuel: Fuel, delivered: Option<GaugePressure>) -> &'static str {
        match fuel {
            Fuel::Natural => "service regulator",
            Fuel::Propane if delivered.is_some_and(|delivered| delivered > GaugePressure::from_psi(2.5)) => {
                "first-stage regulator"
            }
            Fuel::Propane => "tank regulator",
        }
    }

    /// What the supplier changes: the field, as it was and as it will be.
    pub fn changes(&self) -> Vec<SupplyChange> {
        let was = &self.before;
        let pressure = was.pressure.filter(|was| Some(*was) != self.pressure);
        let rating = |was: &Option<Rating>, now: &Option<Rating>| {
            let was = was.as_ref().filter(|_| was != now)?.capacity;
            Some((was, now.as_ref().and_then(|now| now.capacity)))
        };
        let changes = [
            pressure.map(|was| SupplyChange::Pressure(was, self.pressure)),
            rating(&was.meter, &self.meter).map(|(was, now)| SupplyChange::Meter(was, now)),
            rating(&was.regulator, &self.regulator).map(|(was, now)| SupplyChange::Regulator(was, now)),
        ];
        changes.into_iter().flatten().collect()
    }

    /// The point of delivery before the work: as it will be, but for what the supplier changes.
    pub(super) fn as_it_stood(&self) -> Supply {
        let was = &self.before;
        Supply {
            pressure: was.pressure.or(self.pressure),
            meter: was.meter.as_ref().or(self.meter.as_ref()).cloned(),
            regulator: was.regulator.as_ref().or(self.regulator.as_ref()).cloned(),
            before: SupplyBefore::default(),
        }
    }
}

/// A meter in the line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Meter {
    /// Rated flow and the drop at it.
    pub rating: Rating,
}

/// A line regulator.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Regulator {
    /// Outlet pressure that it holds; `None` until a person has said it.
    pub outlet: Option<GaugePressure>,
    /// Allowed drop of the piping behind it, when it is not the profile's.
    pub allowed_drop: Option<PressureDrop>,
    /// Rated flow and the drop at it.
    pub rating: Rating,
    /// Where its vent goes.
    pub vent: Vent,
}

/// Where the vent of a line regulator goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Vent {
    /// A person has not said.
    #[default]
    NotSaid,
    /// To the outdoors.
    Outdoors,
    /// Nowhere: a vent limiter that is listed with the regulator takes its place.
    Limiter,
}

impl Vent {
    /// What it is called; empty where nobody has said.
    pub const fn name(self) -> &'static str {
        match self {
            Vent::NotSaid => "",
            Vent::Outdoors => "vent to the outdoors",
            Vent::Limiter => "listed vent limiter",
        }
    }
}

/// A shutoff valve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Valve {
    /// How it is built.
    pub kind: ValveKind,
    /// Rated flow and the drop at it, where the maker gives them; else an equivalent length by kind.
    pub rating: Rating,
}

/// A sediment trap.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SedimentTrap {
    /// Length of the nipple below the tee.
    pub depth: Option<Length>,
}

/// A flexible connector between pipe and appliance.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Connector {
    /// Its length.
    pub length: Option<Length>,
    /// Rated flow and the drop at it.
    pub rating: Rating,
}

/// A quick-disconnect coupling.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct QuickCoupling {
    /// Rated flow and the drop at it.
    pub rating: Rating,
}

impl Device {
    /// Which kind it is.
    pub const fn kind(&self) -> DeviceKind {
        match self {
            Device::Supply(_) => DeviceKind::Supply,
            Device::Meter(_) => DeviceKind::Meter,
            Device::Regulator(_) => DeviceKind::Regulator,
            Device::Valve(_) => DeviceKind::Valve,
            Device::ExcessFlow { .. } => DeviceKind::ExcessFlow,
            Device::Union => DeviceKind::Union,
            Device::SedimentTrap(_) => DeviceKind::SedimentTrap,
            Device::Connector(_) => DeviceKind::Connector,
            Device::QuickCoupling(_) => DeviceKind::QuickCoupling,
            Device::Appliance(_) => DeviceKind::Appliance,
            Device::Cap(_) => DeviceKind::Cap,
            Device::TestGauge => DeviceKind::TestGauge,
        }
    }

    /// What it is.
    pub const fn nature(&self) -> Nature {
        self.kind().nature()
    }

    /// The trade's name of the thing, in lower case.
    pub const fn name(&self) -> &'static str {
        self.nature().name
    }

    /// Whether pipe is screwed into it, in a line or at its end.
    pub const fn stands_in_line(&self) -> bool {
        self.nature().stands_in_line
    }

    /// One of a kind of which nothing is said as yet: no pressure, no rating and no input is guessed.
    pub fn blank(kind: DeviceKind) -> Device {
        match kind {
            DeviceKind::Supply => Device::Supply(Supply::default()),
            DeviceKind::Meter => Device::Meter(Meter::default()),
            DeviceKind::Regulator => Device::Regulator(Regulator::default()),
            DeviceKind::Valve => Device::Valve(Valve::default()),
            DeviceKind::ExcessFlow => Device::ExcessFlow {
                trips: None,
                loss: Rating::default(),
            },
            DeviceKind::Union => Device::Union,
            DeviceKind::SedimentTrap => Device::SedimentTrap(SedimentTrap::default()),
            DeviceKind::Connector => Device::Connector(Connector::default()),
            DeviceKind::QuickCoupling => Device::QuickCoupling(QuickCoupling::default()),
            DeviceKind::Appliance => Device::Appliance(Appliance::default()),
            DeviceKind::Cap => Device::Cap(Cap::default()),
            DeviceKind::TestGauge => Device::TestGauge,
        }
    }

    /// What a person can say of it, field by field, each to be read and changed in its place.
    pub fn slots(&mut self) -> Vec<(Detail, Slot<'_>)> {
        match self {
            Device::Supply(it) => vec![
                (Detail::DeliveryPressure, Slot::Pressure(&mut it.pressure)),
                (Detail::SupplyMeter, Slot::Supplied(&mut it.meter)),
                (Detail::ServiceRegulator, Slot::Supplied(&mut it.regulator)),
                (Detail::PressureBefore, Slot::Pressure(&mut it.before.pressure)),
                (Detail::MeterBefore, Slot::Supplied(&mut it.before.meter)),
                (Detail::RegulatorBefore, Slot::Supplied(&mut it.before.regulator)),
            ],
            Device::Meter(it) => it.rating.slots().into(),
            Device::Regulator(it) => {
                let [flow, drop] = it.rating.slots();
                vec![
                    (Detail::OutletPressure, Slot::Pressure(&mut it.outlet)),
                    (Detail::DropBehind, Slot::Drop(&mut it.allowed_drop)),
                    flow,
                    drop,
                    (Detail::Vent, Slot::Vent(&mut it.vent)),
                ]
            }
            Device::Valve(it) => {
                let [flow, drop] = it.rating.slots();
                vec![(Detail::ValveKind, Slot::Valve(&mut it.kind)), flow, drop]
            }
            Device::ExcessFlow { trips, loss } => vec![
                (Detail::TripFlow, Slot::Flow(trips)),
                (Detail::LossFlow, Slot::Flow(&mut loss.capacity)),
                (Detail::Loss, Slot::Drop(&mut loss.drop)),
            ],
            Device::SedimentTrap(it) => vec![(Detail::DripLeg, Slot::Length(&mut it.depth))],
            Device::Connector(it) => {
                let [flow, drop] = it.rating.slots();
                vec![(Detail::ConnectorLength, Slot::Length(&mut it.length)), flow, drop]
            }
            Device::QuickCoupling(it) => it.rating.slots().into(),
            Device::Appliance(it) => vec![
                (Detail::ApplianceName, Slot::Words(&mut it.name)),
                (Detail::Class, Slot::Class(&mut it.class)),
                (Detail::Input, Slot::Heat(&mut it.input)),
                (Detail::LeastInlet, Slot::Pressure(&mut it.least_inlet)),
                (Detail::GreatestInlet, Slot::Pressure(&mut it.greatest_inlet)),
                (Detail::Operates, Slot::Season(&mut it.season)),
                (Detail::StaticPressure, Slot::Pressure(&mut it.start_up.static_pressure)),
                (Detail::WorkingPressure, Slot::Pressure(&mut it.start_up.working)),
                (Detail::LockUpPressure, Slot::Pressure(&mut it.start_up.lock_up)),
                (Detail::ClockedInput, Slot::Clocked(&mut it.start_up.clocked)),
            ],
            Device::Cap(it) => vec![
                (Detail::FutureInput, Slot::Heat(&mut it.future_input)),
                (Detail::StubProjection, Slot::Length(&mut it.projection)),
            ],
            Device::Union | Device::TestGauge => Vec::new(),
        }
    }

    /// What it loses while no rating tells it.
    pub const fn unrated(&self) -> Unrated {
        match self {
            Device::Valve(valve) => Unrated::AsValve(valve.kind),
            Device::Meter(_)
            | Device::Regulator(_)
            | Device::ExcessFlow { .. }
            | Device::Connector(_)
            | Device::QuickCoupling(_) => Unrated::Unknown,
            Device::Supply(_)
            | Device::Union
            | Device::SedimentTrap(_)
            | Device::Appliance(_)
            | Device::Cap(_)
            | Device::TestGauge => Unrated::Nothing,
        }
    }

    /// What its maker rates it for; `None` of a device that is not rated.
    pub const fn rating(&self) -> Option<&Rating> {
        match self {
            Device::Meter(meter) => Some(&meter.rating),
            Device::Regulator(regulator) => Some(&regulator.rating),
            Device::Valve(valve) => Some(&valve.rating),
            Device::ExcessFlow { loss, .. } => Some(loss),
            Device::Connector(connector) => Some(&connector.rating),
            Device::QuickCoupling(coupling) => Some(&coupling.rating),
            Device::Supply(_)
            | Device::Union
            | Device::SedimentTrap(_)
            | Device::Appliance(_)
            | Device::Cap(_)
            | Device::TestGauge => None,
        }
    }

    /// The most that it carries, or the flow at which it shuts off, as its [`super::Limit`] says.
    pub fn most(&self) -> Option<Flow> {
        match self {
            Device::ExcessFlow { trips, .. } => *trips,
            rated => rated.rating()?.capacity,
        }
    }

    /// What its maker rates it for, to be changed.
    pub const fn rating_mut(&mut self) -> Option<&mut Rating> {
        match self {
            Device::Meter(meter) => Some(&mut meter.rating),
            Device::Regulator(regulator) => Some(&mut regulator.rating),
            Device::Valve(valve) => Some(&mut valve.rating),
            Device::ExcessFlow { loss, .. } => Some(loss),
            Device::Connector(connector) => Some(&mut connector.rating),
            Device::QuickCoupling(coupling) => Some(&mut coupling.rating),
            Device::Supply(_)
            | Device::Union
            | Device::SedimentTrap(_)
            | Device::Appliance(_)
            | Device::Cap(_)
            | Device::TestGauge => None,
        }
    }
}
