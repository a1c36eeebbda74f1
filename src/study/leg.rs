//! One run as the march of pressures sees it: what it loses at any flow from any inlet pressure.
//!
//! Straight pipe and the fittings' equivalent lengths lose by Darcy–Weisbach with Colebrook (laminar below Re 2040),
//! with the expansion of the gas above 1.5 psig; corrugated tubing, which has no known bore, by its capacity table;
//! rated devices by the square of the flow; risers by the weight of the gas. A line regulator holds its setting, or
//! passes what is left when that is less.

use super::carrier::roughness;
use super::obstacle::{Measure, Obstacles};
use super::section::Course;
use super::survey::Survey;
use super::{Flowing, Section, device, zone};
use crate::codebook::{CapacityTable, Column};
use crate::gas::{
    Density, FlowingGas, LaminarBranch, Pipe, Roughness, Temperature, air_density, air_pressure, elevation_loss, loss,
};
use crate::job::{Device, Material, Rating};
use crate::units::{
    AbsolutePressure, Flow, GaugePressure, HeatingValue, InsideDiameter, Length, NominalSize, PressureDrop,
};

/// What is the same all along.
pub(super) struct Around<'a> {
    gas: FlowingGas,
    air: AbsolutePressure,
    air_density: Density,
    heating_value: HeatingValue,
    /// For each zone the table from which corrugated tubing loses.
    tubing: Vec<Option<&'a CapacityTable>>,
    /// By what the flow in that table's gas is greater for the same loss.
    tubing_factor: Option<f64>,
}

impl<'a> Around<'a> {
    pub(super) fn of(survey: &Survey<'a>) -> Around<'a> {
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
                .map(|zone| survey.book.csst_loss_table(fuel, zone.inlet))
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
pub(super) struct Leg<'a> {
    line: Line<'a>,
    /// With equivalent lengths.
    length: Length,
    equivalent: Length,
    rise: Length,
    rating: Option<&'a Rating>,
    /// What a line regulator at its end holds.
    setting: Option<GaugePressure>,
}

/// Gas that went along a leg.
pub(super) struct Passed {
    pub(super) flowing: Flowing,
    /// Pressure before the device at its end.
    pub(super) before: GaugePressure,
    /// Pressure behind it.
    pub(super) behind: GaugePressure,
}

impl<'a> Leg<'a> {
    /// A run that gas reaches; `None` for another.
    ///
    /// `size` is its own, `bore_before` that of the run before it, `bends` what bends of tubing add.
    pub(super) fn new(
        survey: &Survey<'a>,
        around: &Around<'a>,
        obstacles: &Obstacles,
        run: usize,
        size: Option<NominalSize>,
        bore_before: Option<InsideDiameter>,
        bends: Length,
    ) -> Option<Leg<'a>> {
        let (from, to) = survey.network.ends[run]?;
        let stretch = &survey.stretches[survey.section_of[run]?];
        let bore = bore(survey, stretch.material, size);
        let equivalent = obstacles.worth_at(survey, run, bore, bore_before, Measure::Lost) + bends;
        let line = match (stretch.course, stretch.material) {
            (Course::Connector, _) => Line::Connector,
            (Course::Pipe, Material::Csst) => Line::Tubing(tubing(survey, around, to, size)),
            (Course::Pipe, material) => Line::Pipe(bore.zip(roughness(material))),
        };
        let device = survey.devices[to];
        Some(Leg {
            line,
            length: survey.lengths[run] + equivalent,
            equivalent,
            rise: survey.elevation[to] - survey.elevation[from],
            rating: device.and_then(device::rating),
            setting: match device {
                Some(Device::Regulator(regulator)) => Some(zone::sensible(regulator.outlet)),
                _ => None,
            },
        })
    }

    /// Whether a device stands at its end that loses nobody knows how much.
    pub(super) fn is_unrated(&self) -> bool {
        self.rating.is_some_and(|rating| !device::tells_loss(rating))
    }

    /// What a line regulator at its end holds.
    pub(super) fn holds(&self) -> Option<GaugePressure> {
        self.setting
    }

    /// Sends a flow along; `None` when its loss is not known.
    pub(super) fn pass(&self, around: &Around, inlet: GaugePressure, flow: Flow) -> Option<Passed> {
        let still = Flowing {
            flow,
            equivalent: self.equivalent,
            friction: PressureDrop::ZERO,
            devices: PressureDrop::ZERO,
            elevation: PressureDrop::ZERO,
            velocity: None,
            reynolds: None,
            from_table: false,
        };
        let flows = flow.cfh() > 0.0;
        let friction = match self.line {
            Line::Connector => still,
            Line::Pipe(Some((bore, roughness))) => {
                let pipe = Pipe {
                    bore,
                    roughness,
                    length: self.length,
                };
                let lost = loss(pipe, &around.gas, flow, inlet, around.air, LaminarBranch::WithLaminar);
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
                let lost = table.estimate_drop(column, self.length, demand, inlet)?;
                Flowing {
                    friction: Some(lost.drop).filter(|drop| drop.pa().is_finite())?,
                    from_table: true,
                    ..still
                }
            }
            Line::Pipe(None) | Line::Tubing(_) if !flows => still,
            Line::Pipe(None) | Line::Tubing(_) => return None,
        };
        let inside = around
            .gas
            .density(GaugePressure::from_pa(inlet.pa().max(0.0)).above(around.air));
        let in_device = self.rating.and_then(|rating| device::loss(rating, flow));
        let flowing = Flowing {
            elevation: elevation_loss(inside, around.air_density, self.rise),
            devices: in_device.unwrap_or_default(),
            ..friction
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
}

/// The bore of a size, where it is known.
pub(super) fn bore(survey: &Survey, material: Material, size: Option<NominalSize>) -> Option<InsideDiameter> {
    let bore = survey.book.inside_diameter(material, size?)?;
    Some(bore.value)
}

fn tubing<'a>(
    survey: &Survey<'a>,
    around: &Around<'a>,
    to: usize,
    size: Option<NominalSize>,
) -> Option<(&'a CapacityTable, Column)> {
    let table = around.tubing[survey.zone_before[to]?]?;
    Some((table, table.column(size?)?))
}

/// The legs of all runs at the sizes on the drawing.
pub(super) fn all<'a>(
    survey: &Survey<'a>,
    around: &Around<'a>,
    obstacles: &Obstacles,
    sections: &[Section],
) -> Vec<Option<Leg<'a>>> {
    let mut legs: Vec<Option<Leg>> = Vec::new();
    legs.resize_with(survey.job.runs.len(), || None);
    let bore_of = |section: &Section| bore(survey, section.material, section.sizing.size);
    for section in sections {
        let mut before = section.fed_by.and_then(|fed_by| bore_of(&sections[fed_by]));
        let mut bends = 0;
        for &run in &section.runs {
            let further = obstacles.worth_of_bend(run, &mut bends);
            legs[run] = Leg::new(survey, around, obstacles, run, section.sizing.size, before, further);
            before = bore_of(section);
        }
    }
    legs
}
