//! Pressure from the point of delivery to every outlet at full load.
//!
//! Each section flows at its own full load, also where loads of heating and cooling exclude each other, so that a
//! pressure is never overstated. Straight pipe and the fittings' equivalent lengths lose by Darcy–Weisbach with
//! Colebrook (laminar below Re 2040), with the expansion of the gas above 1.5 psig; corrugated tubing, which has no
//! known bore, by its capacity table; rated devices by the square of the flow; risers by the weight of the gas. A line
//! regulator holds its setting, or passes what is left when that is less.

use super::carrier::roughness;
use super::device;
use super::obstacle::{Bores, Measure, Obstacles};
use super::survey::Survey;
use super::{Flowing, Origin, Section, zone};
use crate::codebook::CapacityTable;
use crate::gas::{
    Density, FlowingGas, LaminarBranch, Pipe, Temperature, air_density, air_pressure, elevation_loss, loss,
};
use crate::job::{Device, Material};
use crate::units::{AbsolutePressure, Flow, GaugePressure, InsideDiameter, Length, PressureDrop};

/// Pressures and flows all along the tree.
pub(super) struct March {
    /// For each joint the pressure at full load; at a regulator that behind it.
    pub(super) pressure: Vec<Option<GaugePressure>>,
    /// For each joint the pressure before the device on it.
    pub(super) inlet: Vec<Option<GaugePressure>>,
    /// For each run how gas flows in it.
    pub(super) flowing: Vec<Option<Flowing>>,
    /// For each joint how many devices before it lose nobody knows how much.
    pub(super) unrated: Vec<usize>,
}

/// What is the same all along.
struct Surroundings<'a> {
    gas: FlowingGas,
    air: AbsolutePressure,
    air_density: Density,
    /// For each zone the table from which corrugated tubing loses.
    tubing: Vec<Option<&'a CapacityTable>>,
    /// By what the flow in that table's gas is greater for the same loss.
    tubing_factor: Option<f64>,
}

impl<'a> Surroundings<'a> {
    fn of(survey: &Survey<'a>) -> Surroundings<'a> {
        let air = air_pressure(survey.job.settings.altitude.unwrap_or_default());
        let fuel = survey.gas.fuel;
        let factor = survey.book.gravity_factor(fuel, survey.gas.specific_gravity);
        Surroundings {
            gas: survey.gas.flowing(),
            air,
            air_density: air_density(Temperature::STANDARD, air),
            tubing: survey
                .zones
                .iter()
                .map(|zone| survey.book.csst_loss_table(fuel, zone.inlet))
                .collect(),
            tubing_factor: factor.map(|factor| 1.0 / factor.factor.value),
        }
    }
}

impl March {
    pub(super) fn down(survey: &Survey, obstacles: &Obstacles, sections: &[Section]) -> March {
        let joints = survey.job.joints.len();
        let mut march = March {
            pressure: vec![None; joints],
            inlet: vec![None; joints],
            flowing: vec![None; survey.job.runs.len()],
            unrated: vec![0; joints],
        };
        let sizes: Vec<_> = sections.iter().map(|section| section.sizing.size).collect();
        let bores = Bores::new(survey, &sizes);
        let around = Surroundings::of(survey);
        let mut bends = 0;
        for &joint in &survey.network.order {
            let (Some(run), Some(upstream)) = (survey.network.feed[joint], survey.network.upstream(joint)) else {
                march.pressure[joint] = survey.zones.first().map(|zone| zone.inlet);
                continue;
            };
            let Some(at) = survey.section_of[run] else { continue };
            let section = &sections[at];
            if section.runs.first() == Some(&run) {
                bends = 0;
            }
            let further_bends = obstacles.worth_of_bend(run, &mut bends);
            let equivalent = obstacles.worth(survey, &bores, run, Measure::Lost) + further_bends;
            let device = survey.devices[joint];
            let rating = device.and_then(device::rating);
            let flow = section.load.flow;
            let in_device = rating.and_then(|rating| device::loss(rating, flow));
            march.unrated[joint] = march.unrated[upstream] + usize::from(rating.is_some() && in_device.is_none());
            let Some(inlet) = march.pressure[upstream] else {
                continue;
            };
            let step = Step {
                inlet,
                flow,
                equivalent,
                length: survey.lengths[run] + equivalent,
            };
            let friction = match section.material {
                // Its loss is in the rating of the device before it.
                _ if section.sizing.origin == Origin::Connector => Some(step.still()),
                Material::Csst => step.in_tubing(survey, &around, section),
                material => step.in_pipe(&around, material, bores.of(at)),
            };
            let Some(friction) = friction else { continue };
            let rise = survey.elevation[joint] - survey.elevation[upstream];
            let inside = around
                .gas
                .density(GaugePressure::from_pa(inlet.pa().max(0.0)).above(around.air));
            let flowing = Flowing {
                elevation: elevation_loss(inside, around.air_density, rise),
                devices: in_device.unwrap_or_default(),
                ..friction
            };
            march.flowing[run] = Some(flowing);
            let before = inlet - flowing.friction - flowing.elevation;
            march.inlet[joint] = Some(before);
            let behind = before - flowing.devices;
            march.pressure[joint] = Some(match device {
                Some(Device::Regulator(regulator)) if zone::sensible(regulator.outlet) < behind => {
                    zone::sensible(regulator.outlet)
                }
                _ => behind,
            });
        }
        march
    }
}

/// One run at its inlet pressure.
struct Step {
    inlet: GaugePressure,
    flow: Flow,
    equivalent: Length,
    /// With equivalent lengths.
    length: Length,
}

impl Step {
    /// What flows where nothing else is known: nothing, without loss.
    fn still(&self) -> Flowing {
        Flowing {
            flow: self.flow,
            equivalent: self.equivalent,
            friction: PressureDrop::ZERO,
            devices: PressureDrop::ZERO,
            elevation: PressureDrop::ZERO,
            velocity: None,
            reynolds: None,
            from_table: false,
        }
    }

    /// Loss in a round pipe; `None` when gas flows and no bore is known.
    fn in_pipe(&self, around: &Surroundings, material: Material, bore: Option<InsideDiameter>) -> Option<Flowing> {
        let (Some(bore), Some(roughness)) = (bore, roughness(material)) else {
            return (self.flow.cfh() <= 0.0).then(|| self.still());
        };
        let pipe = Pipe {
            bore,
            roughness,
            length: self.length,
        };
        let lost = loss(
            pipe,
            &around.gas,
            self.flow,
            self.inlet,
            around.air,
            LaminarBranch::WithLaminar,
        );
        Some(Flowing {
            friction: lost.drop,
            velocity: Some(lost.velocity),
            reynolds: Some(lost.reynolds),
            ..self.still()
        })
    }

    /// Loss in corrugated tubing, by its table; `None` when gas flows and the table has no such size.
    fn in_tubing(&self, survey: &Survey, around: &Surroundings, section: &Section) -> Option<Flowing> {
        if self.flow.cfh() <= 0.0 {
            return Some(self.still());
        }
        let table = around.tubing[section.zone]?;
        let column = table.column(section.sizing.size?)?;
        let demand = table.demand(self.flow.heat(survey.gas.heating_value), survey.gas.heating_value);
        let demand = demand.times(around.tubing_factor?);
        let lost = table.estimate_drop(column, self.length, demand, self.inlet)?;
        if !lost.drop.pa().is_finite() {
            return None;
        }
        Some(Flowing {
            friction: lost.drop,
            from_table: true,
            ..self.still()
        })
    }
}
