//! What a pipe carries at a given loss, by Darcy–Weisbach.

use super::darcy::expands;
use super::friction::reynolds_at;
use super::{FlowingGas, LaminarBranch, MassFlow, Pipe};
use crate::units::{AbsolutePressure, Flow, GaugePressure, PressureDrop};
use std::f64::consts::PI;

/// The flow that loses so much pressure along a pipe: [`super::loss`] the other way round.
///
/// `Re √f = (D/mu) √B`, `B = f G²`: up to 1.5 psig `B = 2 rho1 dP D/L`; above,
/// `B = ((P1² − P2²) rho1/P1 − 2 G² ln(P1/P2)) D/L`, the kinetic term from the flow found before. D, L m, mu Pa·s,
/// rho1 kg/m³ at the inlet, P Pa absolute, G kg/(m²·s). Colebrook is explicit in `Re √f`, so that nothing is searched.
///
/// Length greater than zero. Agrees with [`super::loss`] within 1e-6 while the drop is less than a third of the
/// absolute inlet pressure; none is carried where the drop is not more than zero.
pub fn capacity(
    pipe: Pipe,
    gas: &FlowingGas,
    inlet: GaugePressure,
    drop: PressureDrop,
    air: AbsolutePressure,
    laminar: LaminarBranch,
) -> Flow {
    let (bore, length) = (pipe.bore.metres(), pipe.length.metres());
    let p1 = GaugePressure::from_pa(inlet.pa().max(0.0)).above(air);
    let density = gas.density(p1).kg_per_m3();
    let lost = drop.pa().min(p1.pa());
    if !(bore > 0.0 && length > 0.0 && density > 0.0 && lost > 0.0) {
        return Flow::ZERO;
    }
    let viscosity = gas.viscosity().pa_s();
    let roughness = pipe.roughness.metres() / bore;
    // G for a pressure term B L/D.
    let flux = |term: f64| {
        let re_root_f = bore / viscosity * (term * bore / length).max(0.0).sqrt();
        reynolds_at(re_root_f, roughness, laminar) * viscosity / bore
    };
    let flux = if expands(inlet) {
        let p2 = (p1.pa() - lost).max(f64::MIN_POSITIVE);
        let term = (p1.pa() * p1.pa() - p2 * p2) * density / p1.pa();
        let kinetic = 2.0 * libm::log(p1.pa() / p2);
        (0..30).fold(flux(term), |g, _| 0.5 * (g + flux(term - kinetic * g * g)))
    } else {
        flux(2.0 * density * lost)
    };
    gas.flow(MassFlow::from_kg_per_s(flux * PI / 4.0 * bore * bore))
}

#[cfg(test)]
mod tests {
    use super::super::{Roughness, Temperature, Viscosity, loss};
    use super::*;
    use crate::units::{InsideDiameter, Length};

    #[track_caller]
    fn check(psig: f64, lost: PressureDrop, inches: f64, feet: f64) {
        let pipe = Pipe {
            bore: InsideDiameter::from_inches(inches),
            roughness: Roughness::STEEL,
            length: Length::from_feet(feet),
        };
        let gas = FlowingGas::new(0.6, Viscosity::NATURAL_GAS, Temperature::STANDARD);
        let (inlet, air) = (GaugePressure::from_psi(psig), AbsolutePressure::ATMOSPHERE);
        let flow = capacity(pipe, &gas, inlet, lost, air, LaminarBranch::WithLaminar);
        let back = loss(pipe, &gas, flow, inlet, air, LaminarBranch::WithLaminar).drop;
        assert!(
            (back.pa() / lost.pa() - 1.0).abs() < 1e-6,
            "{} against {}",
            back.pa(),
            lost.pa()
        );
    }

    #[test]
    fn what_is_carried_loses_what_was_allowed() {
        check(0.25, PressureDrop::from_inches_wc(0.5), 1.049, 60.0);
        check(0.25, PressureDrop::from_inches_wc(0.05), 0.622, 400.0);
        check(2.0, PressureDrop::from_psi(1.0), 0.824, 100.0);
        check(5.0, PressureDrop::from_psi(3.5), 2.067, 50.0);
    }

    #[test]
    fn in_the_gap_of_the_jump_less_is_lost_than_allowed() {
        let pipe = |feet| Pipe {
            bore: InsideDiameter::from_inches(0.622),
            roughness: Roughness::STEEL,
            length: Length::from_feet(feet),
        };
        let gas = FlowingGas::new(0.6, Viscosity::NATURAL_GAS, Temperature::STANDARD);
        let (inlet, air) = (GaugePressure::from_psi(0.25), AbsolutePressure::ATMOSPHERE);
        let allowed = PressureDrop::from_inches_wc(0.5);
        let mut last = Flow::from_cfh(1e9);
        for feet in 1..400 {
            let feet = f64::from(feet);
            let flow = capacity(pipe(feet), &gas, inlet, allowed, air, LaminarBranch::WithLaminar);
            // A hair less than the flow at the jump itself, on the laminar side.
            let less = Flow::from_cfh(flow.cfh() * (1.0 - 1e-9));
            let lost = loss(pipe(feet), &gas, less, inlet, air, LaminarBranch::WithLaminar).drop;
            assert!(lost.pa() <= allowed.pa() * (1.0 + 1e-9), "{feet} ft: {}", lost.pa());
            assert!(flow <= last, "a longer pipe does not carry more: {feet} ft");
            last = flow;
        }
    }
}
