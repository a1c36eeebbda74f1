//! Pressure lost along one pipe by friction, by Darcy–Weisbach.

use super::{FlowingGas, LaminarBranch, MassFlow, Roughness, friction_factor};
use crate::units::{AbsolutePressure, Flow, GaugePressure, InsideDiameter, Length, PressureDrop};
use std::f64::consts::PI;

/// A straight round pipe.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pipe {
    /// Inside diameter, greater than zero.
    pub bore: InsideDiameter,
    /// Roughness of its wall.
    pub roughness: Roughness,
    /// Length, with the equivalent lengths of fittings where they are to count; less than zero counts as zero.
    pub length: Length,
}

/// What a flow loses in a pipe, and how it flows.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Loss {
    /// Pressure lost.
    pub drop: PressureDrop,
    /// Mean velocity at the inlet, m/s.
    pub velocity: f64,
    /// Reynolds number; the same all along the pipe, since mass flow and viscosity are.
    pub reynolds: f64,
    /// Darcy friction factor.
    pub friction_factor: f64,
}

/// Above this inlet pressure, psig, the expansion of the gas along the pipe is reckoned with. The published sizing
/// equations change form at the same pressure.
pub(super) const COMPRESSIBLE_ABOVE: f64 = 1.5;

/// Whether the expansion of gas that enters at this pressure is reckoned with.
pub fn expands(inlet: GaugePressure) -> bool {
    inlet.psi() > COMPRESSIBLE_ABOVE
}

/// Loss of a flow: [`incompressible`] up to 1.5 psig at the inlet, [`isothermal`] above.
///
/// An inlet below the pressure of the surrounding air means that the flow cannot be had at all; it is then reckoned
/// with gas at air pressure, so that figures stay finite.
pub fn loss(
    pipe: Pipe,
    gas: &FlowingGas,
    flow: Flow,
    inlet: GaugePressure,
    air: AbsolutePressure,
    laminar: LaminarBranch,
) -> Loss {
    let stream = Stream::new(pipe, gas, gas.mass_flow(flow), laminar);
    stream.map_or(Loss::default(), |stream| stream.loss(gas, inlet, air))
}

/// Loss of a flow that keeps the density that it has at the inlet.
///
/// `dP = f (L/D) rho V² / 2`, `V = m / (rho A)`, `Re = V D rho / mu`: dP Pa, L and D m, rho kg/m³ at the inlet, V m/s,
/// m kg/s, A m², mu Pa·s (Darcy–Weisbach; f by [`friction_factor`]). Valid while dP is a few per cent of the absolute
/// pressure: at 7 in w.c. it lies 0.07 % below the compressible result for a loss of 0.5 in w.c.
pub fn incompressible(
    pipe: Pipe,
    gas: &FlowingGas,
    flow: MassFlow,
    inlet: AbsolutePressure,
    laminar: LaminarBranch,
) -> Loss {
    let stream = Stream::new(pipe, gas, flow, laminar);
    stream.map_or(Loss::default(), |stream| stream.incompressible(gas, inlet))
}

/// Loss of a flow that expands at constant temperature along the pipe.
///
/// `P1² − P2² = G² (P1/rho1) (f L/D + 2 ln(P1/P2))`: P Pa absolute, G = m/A kg/(m²·s), rho1 kg/m³ at the inlet. The
/// last term is the kinetic one: the gas speeds up as it expands. Exact for an ideal gas in a level pipe (for instance
/// Shapiro, *The Dynamics and Thermodynamics of Compressible Fluid Flow*, 1953, ch. 6; from memory). Agrees with
/// `isothermal_gas` of `fluids` 1.3.1 within 0.01 %.
///
/// Where no outlet pressure satisfies it the pipe cannot pass the flow; the drop is then the whole absolute pressure of
/// the inlet.
pub fn isothermal(
    pipe: Pipe,
    gas: &FlowingGas,
    flow: MassFlow,
    inlet: AbsolutePressure,
    laminar: LaminarBranch,
) -> Loss {
    let stream = Stream::new(pipe, gas, flow, laminar);
    stream.map_or(Loss::default(), |stream| stream.isothermal(gas, inlet))
}

/// A flow of less is none, kg/s: a bubble in a century.
const TRACE: f64 = 1e-15;

/// A flow in a pipe before anything is said of pressure. Its Reynolds number and its friction are the same at any: whoever
/// tries many pressures finds them once.
#[derive(Clone, Copy, Debug)]
pub struct Stream {
    reynolds: f64,
    friction_factor: f64,
    /// f L/D.
    resistance: f64,
    /// Mass flow by the area of the bore, kg/(m²·s).
    flux: f64,
}

impl Stream {
    /// `None` when nothing flows, or no pipe is there to flow in.
    pub fn new(pipe: Pipe, gas: &FlowingGas, flow: MassFlow, laminar: LaminarBranch) -> Option<Stream> {
        let bore = pipe.bore.metres();
        let mass = flow.kg_per_s();
        if !(bore > 0.0 && mass > TRACE && mass.is_finite()) {
            return None;
        }
        let flux = mass / (PI / 4.0 * bore * bore);
        let reynolds = flux * bore / gas.viscosity().pa_s();
        let friction_factor = friction_factor(reynolds, pipe.roughness.metres() / bore, laminar);
        Some(Stream {
            reynolds,
            friction_factor,
            resistance: friction_factor * pipe.length.metres().max(0.0) / bore,
            flux,
        })
    }

    /// What it loses from a pressure on, as [`loss`] has it.
    pub fn loss(&self, gas: &FlowingGas, inlet: GaugePressure, air: AbsolutePressure) -> Loss {
        if expands(inlet) {
            self.isothermal(gas, inlet.above(air))
        } else {
            self.incompressible(gas, GaugePressure::from_pa(inlet.pa().max(0.0)).above(air))
        }
    }

    fn incompressible(&self, gas: &FlowingGas, inlet: AbsolutePressure) -> Loss {
        let Some(velocity) = self.velocity(gas, inlet) else {
            return Loss::default();
        };
        let momentum = self.flux * velocity;
        self.lost(self.resistance * momentum / 2.0, velocity)
    }

    fn isothermal(&self, gas: &FlowingGas, inlet: AbsolutePressure) -> Loss {
        let Some(velocity) = self.velocity(gas, inlet) else {
            return Loss::default();
        };
        let p1 = inlet.pa();
        // With u = (P2/P1)² and c = G²/(rho1 P1): g(u) = 1 − u − c (K − ln u) = 0. Between c, where g is greatest, and 1,
        // where it is −cK, g falls and is concave: Newton from 1 comes down to the root without passing it.
        let c = self.flux * velocity / p1;
        let g = |u: f64| 1.0 - u - c * (self.resistance - libm::log(u));
        if c >= 1.0 || g(c) < 0.0 {
            return self.lost(p1, velocity);
        }
        let mut u = 1.0;
        for _ in 0..60 {
            let step = g(u) / (c / u - 1.0);
            u = (u - step).clamp(c, 1.0);
            if step.abs() <= 1e-15 {
                break;
            }
        }
        // P1 − P2 = P1 (1 − √u), written so that small losses keep their figures.
        self.lost(p1 * (1.0 - u) / (1.0 + u.sqrt()), velocity)
    }

    /// The velocity at the inlet, m/s; `None` where there is no gas.
    fn velocity(&self, gas: &FlowingGas, inlet: AbsolutePressure) -> Option<f64> {
        let density = gas.density(inlet).kg_per_m3();
        (density > 0.0).then_some(self.flux / density)
    }

    fn lost(&self, pa: f64, velocity: f64) -> Loss {
        Loss {
            drop: PressureDrop::from_pa(pa),
            velocity,
            reynolds: self.reynolds,
            friction_factor: self.friction_factor,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Temperature, Viscosity};
    use super::*;

    fn steel(feet: f64) -> Pipe {
        Pipe {
            bore: InsideDiameter::from_inches(0.824),
            roughness: Roughness::STEEL,
            length: Length::from_feet(feet),
        }
    }

    fn natural() -> FlowingGas {
        FlowingGas::new(0.6, Viscosity::NATURAL_GAS, Temperature::STANDARD)
    }

    fn at(psig: f64, cfh: f64, feet: f64) -> Loss {
        let air = AbsolutePressure::ATMOSPHERE;
        let flow = Flow::from_cfh(cfh);
        loss(
            steel(feet),
            &natural(),
            flow,
            GaugePressure::from_psi(psig),
            air,
            LaminarBranch::WithLaminar,
        )
    }

    #[test]
    fn nothing_is_lost_without_flow_or_without_length() {
        assert_eq!(at(0.25, 0.0, 50.0).drop, PressureDrop::ZERO);
        assert_eq!(at(0.25, f64::NAN, 50.0).drop, PressureDrop::ZERO);
        assert_eq!(at(0.25, 100.0, 0.0).drop, PressureDrop::ZERO);
        assert_eq!(at(0.25, 100.0, -5.0).drop, PressureDrop::ZERO);
        assert_eq!(at(5.0, 100.0, 0.0).drop, PressureDrop::ZERO);
    }

    #[test]
    fn the_two_laws_meet_for_small_losses() {
        let (gas, flow) = (natural(), natural().mass_flow(Flow::from_cfh(100.0)));
        let inlet = GaugePressure::from_psi(2.0).above(AbsolutePressure::ATMOSPHERE);
        let plain = incompressible(steel(1.0), &gas, flow, inlet, LaminarBranch::WithLaminar)
            .drop
            .pa();
        let exact = isothermal(steel(1.0), &gas, flow, inlet, LaminarBranch::WithLaminar)
            .drop
            .pa();
        assert!((exact / plain - 1.0).abs() < 1e-4, "{plain} against {exact}");
    }

    #[test]
    fn an_expanding_flow_satisfies_its_own_equation() {
        let (gas, flow) = (natural(), natural().mass_flow(Flow::from_cfh(4000.0)));
        let inlet = GaugePressure::from_psi(10.0).above(AbsolutePressure::ATMOSPHERE);
        let pipe = steel(100.0);
        let found = isothermal(pipe, &gas, flow, inlet, LaminarBranch::WithLaminar);
        let (p1, p2) = (inlet.pa(), (inlet - found.drop).pa());
        let area = PI / 4.0 * pipe.bore.metres().powi(2);
        let flux = flow.kg_per_s() / area;
        let ratio = p1 / gas.density(inlet).kg_per_m3();
        let resistance = found.friction_factor * pipe.length.metres() / pipe.bore.metres();
        let left = p1 * p1 - p2 * p2;
        let right = flux * flux * ratio * (resistance + 2.0 * (p1 / p2).ln());
        assert!(p2 < 0.8 * p1 && p2 > 0.0, "{p1} to {p2}");
        assert!((left / right - 1.0).abs() < 1e-9, "{left} against {right}");
    }

    #[test]
    fn a_pipe_that_cannot_pass_the_flow_spends_all_pressure() {
        let choked = at(2.0, 1e6, 1000.0);
        let inlet = GaugePressure::from_psi(2.0).above(AbsolutePressure::ATMOSPHERE);
        assert!((choked.drop.pa() - inlet.pa()).abs() < 1e-6);
        assert!(at(-14.0, 100.0, 50.0).drop.pa().is_finite());
    }
}
