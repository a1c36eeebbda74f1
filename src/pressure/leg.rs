//! One run as the march of pressures sees it: what it loses at any flow from any inlet pressure.
//!
//! Straight pipe and the fittings' equivalent lengths lose by Darcy–Weisbach with Colebrook (laminar below Re 2040),
//! with the expansion of the gas above 1.5 psig; corrugated tubing, which has no known bore, by its capacity table;
//! rated devices by the square of the flow; risers by the weight of the gas. A line regulator holds its setting, or
//! passes what is left when that is less.

use super::obstacle::{Bores, Measure, Obstacles};
use super::roughness::roughness;
use super::{Flowing, rating};
use crate::codebook::{CapacityTable, Column};
use crate::gas::{
    Density, FlowingGas, LaminarBranch, Loss, Pipe, Roughness, Stream, Temperature, air_density, air_pressure,
    elevation_loss, incompressible, isothermal,
};
use crate::job::{Device, Material, Rating};
use crate::network::{Closing, Course, Survey, stretch, zone};
use crate::units::{
    AbsolutePressure, Flow, GaugePressure, HeatingValue, InsideDiameter, Length, NominalSize, PressureDrop,
};

/// What is the same all along.
pub(crate) struct Around<'a> {
    gas: FlowingGas,
    air: AbsolutePressure,
    air_density: Density,
    heating_value: HeatingValue,
    /// For each zone the tables from which corrugated tubing loses, the first that has its size.
    tubing: Vec<Vec<&'a CapacityTable>>,
    /// By what the flow in that table's gas is greater for the same loss.
    tubing_factor: Option<f64>,
}

impl<'a> Around<'a> {
    pub(crate) fn of(survey: &Survey<'a>) -> Around<'a> {
        let air = air_pressure(survey.job.settings.altitude.unwrap_or_default());
        let fuel = survey.gas.fuel;
        let factor = survey.book.gravity_factor(fuel, survey.gas.specific_gravity);
        let zones = survey.zones.iter();
        Around {
            gas: survey.gas.flowing(),
            air,
            air_density: air_density(Temperature::STANDARD, air),
            heating_value: survey.gas.heating_value,
            tubing: zones
                .map(|zone| {
                    zone.inlet
                        .map_or_else(Vec::new, |inlet| survey.tables.csst_loss(fuel, inlet))
                })
                .collect(),
            tubing_factor: factor.map(|factor| 1.0 / factor.factor.value),
        }
    }
}

/// What gas flows in.
enum Line<'a> {
    /// A flexible line, whose loss is in the rating of the device before it.
    Connector,
    /// Round pipe; `None` where no bore is known.
    Pipe(Option<(InsideDiameter, Roughness)>),
    /// Corrugated tubing; `None` where no table has its size.
    Tubing(Option<(&'a CapacityTable, Column)>),
}

/// A run of one size, with what stands in it and at its downstream end.
pub(crate) struct Leg<'a> {
    line: Line<'a>,
    /// With equivalent lengths.
    length: Length,
    equivalent: Length,
    rise: Length,
    rating: Option<&'a Rating>,
    /// What a line regulator at its end holds.
    setting: Option<GaugePressure>,
}

/// Whether gas that flows in a ring expands on its way. One law holds for all of a ring, or its answer would hang on
/// which side of 1.5 psig a joint comes to lie.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Expansion {
    /// It keeps the density that it has where it enters a run.
    LeftOut,
    /// It expands at constant temperature.
    Reckoned,
}

/// In a ring a run of less length has this one, so that flow parts in one way only, whatever is drawn.
const LEAST_IN_RING: Length = Length::from_eighths_of_um(8_000);

/// What stands between a ring and its figures.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Gap {
    /// The leg is part of a flexible connector.
    Connector,
    /// No size is known, or none with a known bore or a table.
    Size,
}

/// A flow along a leg before anything is said of pressure.
#[derive(Clone, Copy)]
pub(crate) struct Sent {
    flow: Flow,
    /// Of round pipe where something flows.
    stream: Option<Stream>,
}

/// Gas that went along a leg.
pub(crate) struct Passed {
    pub(crate) flowing: Flowing,
    /// Pressure before the device at its end.
    pub(crate) before: GaugePressure,
    /// Pressure behind it.
    pub(crate) behind: GaugePressure,
}

impl<'a> Leg<'a> {
    /// A run that gas reaches; `None` for another.
    ///
    /// `size` and the first of `bores` are its own, the other is that of the run before it, `bends` what bends of tubing
    /// add.
    pub(crate) fn new(
        survey: &Survey<'a>,
        around: &Around<'a>,
        obstacles: &Obstacles,
        run: usize,
        size: Option<NominalSize>,
        [bore, before]: [Option<InsideDiameter>; 2],
        bends: Length,
    ) -> Option<Leg<'a>> {
        let (from, to) = survey.network.ends[run]?;
        let stretch = &survey.stretches[survey.section_of[run]?];
        let equivalent = obstacles.worth_at(survey, run, bore, before, Measure::Lost) + bends;
        let line = match (stretch.course, stretch.material) {
            (Course::Connector, _) => Line::Connector,
            (Course::Pipe, material) if material.is_corrugated() => Line::Tubing(tubing(survey, around, to, size)),
            (Course::Pipe, material) => Line::Pipe(bore.zip(roughness(material))),
        };
        let device = survey.devices[to];
        Some(Leg {
            line,
            length: survey.lengths[run] + equivalent,
            equivalent,
            rise: survey.elevation[to] - survey.elevation[from],
            rating: device.and_then(rating::rating),
            setting: match device {
                // What a regulator holds that nobody has set is not known, nor anything behind it.
                Some(Device::Regulator(regulator)) => Some(zone::sensible(regulator.outlet?)),
                _ => None,
            },
        })
    }

    /// A run that closes a ring, as the way round the ring goes on; none of the devices at its ends is its own. It has the
    /// size that a person gave.
    fn closing(
        survey: &Survey<'a>,
        around: &Around<'a>,
        obstacles: &Obstacles,
        closing: Closing,
        bore_before: Option<InsideDiameter>,
    ) -> Leg<'a> {
        let Closing { run, from, to } = closing;
        let (material, size) = (survey.materials[run], survey.given[run]);
        let bore = bore(survey, material, size);
        let further = obstacles.worth_of_bend(run);
        let equivalent = obstacles.worth_at(survey, run, bore, bore_before, Measure::Lost) + further;
        let before = survey.network.feed[from].and_then(|feed| survey.section_of[feed]);
        let flexible = before.is_some_and(|section| survey.stretches[section].course == Course::Connector);
        let line = match material {
            _ if flexible || stretch::starts_connector(survey.devices[from]) => Line::Connector,
            material if material.is_corrugated() => Line::Tubing(tubing(survey, around, from, size)),
            material => Line::Pipe(bore.zip(roughness(material))),
        };
        Leg {
            line,
            length: survey.lengths[run] + equivalent,
            equivalent,
            rise: survey.elevation[to] - survey.elevation[from],
            rating: None,
            setting: None,
        }
    }

    /// Whether a device stands at its end that loses nobody knows how much.
    pub(crate) fn is_unrated(&self) -> bool {
        self.rating.is_some_and(|rating| !rating::tells_loss(rating))
    }

    /// What a line regulator at its end holds.
    pub(crate) fn holds(&self) -> Option<GaugePressure> {
        self.setting
    }

    /// Why nobody knows what this leg loses.
    pub(crate) fn gap(&self) -> Option<Gap> {
        match self.line {
            Line::Connector => Some(Gap::Connector),
            Line::Pipe(None) | Line::Tubing(None) => Some(Gap::Size),
            Line::Pipe(Some(_)) | Line::Tubing(Some(_)) => None,
        }
    }

    /// Sends a flow along; `None` when its loss is not known.
    pub(crate) fn pass(&self, around: &Around, inlet: GaugePressure, flow: Flow) -> Option<Passed> {
        self.pass_sent(around, inlet, &self.sent(around, flow))
    }

    /// What of a flow along it is the same at any pressure.
    pub(crate) fn sent(&self, around: &Around, flow: Flow) -> Sent {
        let stream = match self.line {
            Line::Pipe(Some((bore, roughness))) => {
                let length = self.length;
                let pipe = Pipe {
                    bore,
                    roughness,
                    length,
                };
                let mass = around.gas.mass_flow(flow);
                Stream::new(pipe, &around.gas, mass, LaminarBranch::WithLaminar)
            }
            Line::Connector | Line::Pipe(None) | Line::Tubing(_) => None,
        };
        Sent { flow, stream }
    }

    /// The same as [`Leg::pass`], for one who tries many pressures.
    pub(crate) fn pass_sent(&self, around: &Around, inlet: GaugePressure, sent: &Sent) -> Option<Passed> {
        let friction = |_: Pipe| {
            let stream = sent.stream.as_ref();
            stream.map_or(Loss::default(), |stream| stream.loss(&around.gas, inlet, around.air))
        };
        let flowing = Flowing {
            elevation: self.climb(around, inlet),
            ..self.level(around, self.length, inlet, sent.flow, friction)?
        };
        let before = inlet - flowing.friction - flowing.elevation;
        let behind = before - flowing.devices;
        Some(Passed {
            flowing,
            before,
            behind: match self.setting {
                Some(setting) if setting < behind => setting,
                _ => behind,
            },
        })
    }

    /// What is lost in a ring between the pressures at both ends of the leg; a flow of less than nothing goes against
    /// the leg. Figures are told along the flow; `None` when the loss is not known.
    ///
    /// The same as [`Leg::pass`] but for three things, without which a ring may have no answer or two: friction rises to
    /// that of turbulence by a bridge ([`LaminarBranch::Bridged`]), gas in a riser weighs what it does at the mean of
    /// both pressures, and no run is shorter than a millimetre.
    pub(crate) fn between(
        &self,
        around: &Around,
        expansion: Expansion,
        flow: Flow,
        [from, to]: [GaugePressure; 2],
    ) -> Option<Flowing> {
        let against = flow.cfh() < 0.0;
        let inlet = if against { to } else { from };
        let amount = Flow::from_cfh(flow.cfh().abs());
        let mass = around.gas.mass_flow(amount);
        let friction = |pipe| match expansion {
            Expansion::LeftOut => {
                let inlet = GaugePressure::from_pa(inlet.pa().max(0.0)).above(around.air);
                incompressible(pipe, &around.gas, mass, inlet, LaminarBranch::Bridged)
            }
            Expansion::Reckoned => isothermal(pipe, &around.gas, mass, inlet.above(around.air), LaminarBranch::Bridged),
        };
        let climb = self.climb(around, GaugePressure::from_pa(0.5 * (from.pa() + to.pa())));
        let length = self.length.max(LEAST_IN_RING);
        Some(Flowing {
            elevation: if against {
                PressureDrop::from_pa(-climb.pa())
            } else {
                climb
            },
            ..self.level(around, length, inlet, amount, friction)?
        })
    }

    /// Loss or gain by height in gas of a pressure.
    fn climb(&self, around: &Around, pressure: GaugePressure) -> PressureDrop {
        let inside = GaugePressure::from_pa(pressure.pa().max(0.0)).above(around.air);
        elevation_loss(around.gas.density(inside), around.air_density, self.rise)
    }

    /// What is lost were the leg level: in the line, in pipe by a law of friction, and in the device at its end.
    fn level(
        &self,
        around: &Around,
        length: Length,
        inlet: GaugePressure,
        flow: Flow,
        friction: impl FnOnce(Pipe) -> Loss,
    ) -> Option<Flowing> {
        let in_device = self.rating.and_then(|rating| rating::loss(rating, flow));
        let still = Flowing {
            flow,
            equivalent: self.equivalent,
            friction: PressureDrop::ZERO,
            devices: in_device.unwrap_or_default(),
            elevation: PressureDrop::ZERO,
            velocity: None,
            reynolds: None,
            from_table: false,
        };
        let flows = flow.cfh() > 0.0;
        Some(match self.line {
            Line::Connector => still,
            Line::Pipe(Some((bore, roughness))) => {
                let lost = friction(Pipe {
                    bore,
                    roughness,
                    length,
                });
                Flowing {
                    friction: lost.drop,
                    velocity: Some(lost.velocity),
                    reynolds: Some(lost.reynolds),
                    ..still
                }
            }
            Line::Tubing(Some((table, column))) if flows => {
                let demand = table.demand(flow.heat(around.heating_value), around.heating_value);
                let demand = demand.times(around.tubing_factor?);
                let lost = table.estimate_drop(column, length, demand, inlet)?;
                Flowing {
                    friction: Some(lost.drop).filter(|drop| drop.pa().is_finite())?,
                    from_table: true,
                    ..still
                }
            }
            Line::Pipe(None) | Line::Tubing(_) if !flows => still,
            Line::Pipe(None) | Line::Tubing(_) => return None,
        })
    }
}

/// The bore of a size, where it is known.
pub(crate) fn bore(survey: &Survey, material: Material, size: Option<NominalSize>) -> Option<InsideDiameter> {
    let bore = survey.book.inside_diameter(material, size?)?;
    Some(bore.value)
}

fn tubing<'a>(
    survey: &Survey<'a>,
    around: &Around<'a>,
    to: usize,
    size: Option<NominalSize>,
) -> Option<(&'a CapacityTable, Column)> {
    let (zone, size) = (survey.zone_before[to]?, size?);
    let mut tables = around.tubing[zone].iter();
    tables.find_map(|&table| Some((table, table.column(size)?)))
}

/// The legs of all runs at the sizes on the drawing, those that close rings among them.
pub(crate) fn all<'a>(
    survey: &Survey<'a>,
    around: &Around<'a>,
    obstacles: &Obstacles,
    sizes: &[Option<NominalSize>],
) -> Vec<Option<Leg<'a>>> {
    let mut legs: Vec<Option<Leg>> = Vec::new();
    legs.resize_with(survey.job.runs.len(), || None);
    let bores = Bores::new(survey, sizes);
    let bore_of = |section: usize| bores.of(section);
    // The bore of the run before one in a ring, as gas flows there.
    let in_ring = |run: usize| {
        let before = obstacles.before(run)?;
        let bore_of_run = |run: usize| match survey.section_of[run] {
            Some(section) => bore_of(section),
            None => bore(survey, survey.materials[run], survey.given[run]),
        };
        Some(before.and_then(bore_of_run))
    };
    for (section, stretch) in survey.stretches.iter().enumerate() {
        let own = bore_of(section);
        let mut before = stretch.fed_by.and_then(bore_of);
        for &run in survey.runs_of(stretch) {
            let further = obstacles.worth_of_bend(run);
            let before_it = in_ring(run).unwrap_or(before);
            legs[run] = Leg::new(
                survey,
                around,
                obstacles,
                run,
                sizes[section],
                [own, before_it],
                further,
            );
            before = own;
        }
    }
    for &closing in &survey.network.closings {
        let feed = survey.network.feed[closing.from].and_then(|feed| survey.section_of[feed]);
        let before = feed.and_then(bore_of);
        let before = in_ring(closing.run).unwrap_or(before);
        legs[closing.run] = Some(Leg::closing(survey, around, obstacles, closing, before));
    }
    legs
}
