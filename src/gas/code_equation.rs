//! The equations behind the published capacity tables.
//!
//! The published table governs on a permit drawing; these only fill and explain. They are fits to turbulent flow in
//! steel pipe: against Darcy–Weisbach with Colebrook they give 6 % less drop (median of 33 pipes, −15 to +3 %).

use super::{Temperature, Viscosity};

/// The two factors by which a gas enters the code equations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CodeFactors {
    /// Cr, of weight and viscosity.
    pub cr: f64,
    /// Y, of superexpansibility at high pressure.
    pub y: f64,
}

impl CodeFactors {
    /// Natural gas: Cr 0.6094, Y 0.9992 (IFGC 2018, table beside the equations of 402.4; read).
    pub const NATURAL_GAS: CodeFactors = CodeFactors { cr: 0.6094, y: 0.9992 };
    /// Undiluted propane: Cr 1.2462, Y 0.9910 (the same table; read).
    pub const PROPANE: CodeFactors = CodeFactors { cr: 1.2462, y: 0.9910 };

    /// The same gas family with another specific gravity, viscosity or temperature.
    ///
    /// `Cr = 0.00354 S T (Z/S)^0.152`: S specific gravity greater than zero, T °R, Z viscosity cP (IFGC 2018, Appendix
    /// A.4; read). Gives 0.6094 for S 0.60, Z 0.012 and 1.2462 for S 1.50, Z 0.008 at 520 °R. Y stays as it is.
    pub fn with_gas(self, specific_gravity: f64, viscosity: Viscosity, temperature: Temperature) -> CodeFactors {
        let s = specific_gravity;
        let cr = 0.00354 * s * temperature.rankine() * libm::pow(viscosity.centipoise() / s, 0.152);
        CodeFactors { cr, ..self }
    }
}

/// Under 1.5 psig.
///
/// `Q = 2313 D^2.623 (dH / (Cr L))^0.541`: Q cfh at 60 °F and 30 inHg, D inside diameter in, dH drop in w.c., L length
/// with fittings ft (NFPA 54 ch. 6 and IFGC 2018 Appendix A.4; read). Rounded to three figures it gives the published
/// low-pressure steel tables cell for cell; the sister form `D = Q^0.381 / (19.17 (dH/(Cr L))^0.206)` lies 0.6 % above.
///
/// Arguments greater than zero; of a zero length or zero drop the limit is given, which may be infinite.
pub mod low_pressure {
    use super::CodeFactors;
    use crate::units::{Flow, InsideDiameter, Length, PressureDrop};

    const FACTOR: f64 = 2313.0;
    const OF_DIAMETER: f64 = 2.623;
    const OF_GRADIENT: f64 = 0.541;

    /// The flow that a pipe carries at a drop.
    pub fn flow(bore: InsideDiameter, drop: PressureDrop, length: Length, gas: CodeFactors) -> Flow {
        let gradient = drop.inches_wc() / (gas.cr * length.feet());
        Flow::from_cfh(FACTOR * libm::pow(bore.inches(), OF_DIAMETER) * libm::pow(gradient, OF_GRADIENT))
    }

    /// The drop at a flow: `dH = Cr L (Q / (2313 D^2.623))^(1/0.541)`.
    pub fn drop(bore: InsideDiameter, flow: Flow, length: Length, gas: CodeFactors) -> PressureDrop {
        let power = flow.cfh() / (FACTOR * libm::pow(bore.inches(), OF_DIAMETER));
        let gradient = libm::pow(power, 1.0 / OF_GRADIENT);
        PressureDrop::from_inches_wc(gas.cr * length.feet() * gradient)
    }

    /// The least inside diameter for a flow: `D = (Q / (2313 (dH/(Cr L))^0.541))^(1/2.623)`.
    pub fn diameter(flow: Flow, drop: PressureDrop, length: Length, gas: CodeFactors) -> InsideDiameter {
        let gradient = drop.inches_wc() / (gas.cr * length.feet());
        let power = flow.cfh() / (FACTOR * libm::pow(gradient, OF_GRADIENT));
        InsideDiameter::from_inches(libm::pow(power, 1.0 / OF_DIAMETER))
    }
}

/// At 1.5 psig and over.
///
/// `Q = 2237 D^2.623 ((P1² − P2²) Y / (Cr L))^0.541`: P psia, taken as 14.7 + gauge, the rest as at low pressure. The
/// form in D, `D = Q^0.381 / (18.93 ((P1² − P2²) Y/(Cr L))^0.206)`, is read (NFPA 54 ch. 6, IFGC 2018 Appendix A.4);
/// the factor 2237 is from memory and gives the tables that follow the equation within 0.5 %.
///
/// Arguments greater than zero, the outlet below the inlet; else the limit is given, which may be zero or infinite.
pub mod high_pressure {
    use super::CodeFactors;
    use crate::units::{Flow, GaugePressure, InsideDiameter, Length, PressureDrop};

    const FACTOR: f64 = 2237.0;
    const OF_DIAMETER: f64 = 2.623;
    const OF_GRADIENT: f64 = 0.541;
    const ATMOSPHERE: f64 = 14.7;

    /// P1² − P2², psi².
    fn squares(inlet: GaugePressure, drop: PressureDrop) -> f64 {
        let p1 = ATMOSPHERE + inlet.psi();
        let p2 = (p1 - drop.psi()).max(0.0);
        (p1 * p1 - p2 * p2).max(0.0)
    }

    /// The flow that a pipe carries from an inlet pressure at a drop.
    pub fn flow(
        bore: InsideDiameter,
        inlet: GaugePressure,
        drop: PressureDrop,
        length: Length,
        gas: CodeFactors,
    ) -> Flow {
        let gradient = squares(inlet, drop) * gas.y / (gas.cr * length.feet());
        Flow::from_cfh(FACTOR * libm::pow(bore.inches(), OF_DIAMETER) * libm::pow(gradient, OF_GRADIENT))
    }

    /// The drop at a flow, from `P2² = P1² − (Cr L / Y) (Q / (2237 D^2.623))^(1/0.541)`; all of the absolute inlet
    /// pressure when the pipe cannot pass the flow.
    pub fn drop(
        bore: InsideDiameter,
        inlet: GaugePressure,
        flow: Flow,
        length: Length,
        gas: CodeFactors,
    ) -> PressureDrop {
        let power = flow.cfh() / (FACTOR * libm::pow(bore.inches(), OF_DIAMETER));
        let gradient = libm::pow(power, 1.0 / OF_GRADIENT);
        let p1 = ATMOSPHERE + inlet.psi();
        let p2 = (p1 * p1 - gas.cr * length.feet() * gradient / gas.y).max(0.0).sqrt();
        PressureDrop::from_psi(p1 - p2)
    }

    /// The least inside diameter for a flow.
    pub fn diameter(
        flow: Flow,
        inlet: GaugePressure,
        drop: PressureDrop,
        length: Length,
        gas: CodeFactors,
    ) -> InsideDiameter {
        let gradient = squares(inlet, drop) * gas.y / (gas.cr * length.feet());
        let power = flow.cfh() / (FACTOR * libm::pow(gradient, OF_GRADIENT));
        InsideDiameter::from_inches(libm::pow(power, 1.0 / OF_DIAMETER))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Flow, GaugePressure, InsideDiameter, Length, PressureDrop};

    const NATURAL: CodeFactors = CodeFactors::NATURAL_GAS;

    fn low(bore: f64, in_wc: f64, feet: f64) -> f64 {
        let (bore, drop) = (InsideDiameter::from_inches(bore), PressureDrop::from_inches_wc(in_wc));
        low_pressure::flow(bore, drop, Length::from_feet(feet), NATURAL).cfh()
    }

    #[test]
    fn published_low_pressure_cells_come_out() {
        // IFGC 2018 table 402.4(2), Schedule 40 steel, 0.5 in w.c.: 1/2, 3/4, 1 and 2 in at 10, 60, 100, 60 ft.
        for (bore, feet, cell) in [
            (0.622, 10.0, 172.0),
            (0.824, 60.0, 137.0),
            (1.049, 100.0, 195.0),
            (2.067, 60.0, 1520.0),
        ] {
            let found = low(bore, 0.5, feet);
            assert!(
                (found / cell - 1.0).abs() < 0.004,
                "{bore} in, {feet} ft: {found} against {cell}"
            );
        }
    }

    #[test]
    fn flow_drop_and_diameter_are_one_equation() {
        let (bore, length) = (InsideDiameter::from_inches(1.049), Length::from_feet(73.0));
        let drop = PressureDrop::from_inches_wc(0.42);
        let flow = low_pressure::flow(bore, drop, length, NATURAL);
        let back = low_pressure::drop(bore, flow, length, NATURAL);
        assert!((back.inches_wc() / 0.42 - 1.0).abs() < 1e-12);
        let least = low_pressure::diameter(flow, drop, length, NATURAL);
        assert!((least.inches() / 1.049 - 1.0).abs() < 1e-12);

        let (inlet, drop) = (GaugePressure::from_psi(5.0), PressureDrop::from_psi(1.3));
        let flow = high_pressure::flow(bore, inlet, drop, length, NATURAL);
        let back = high_pressure::drop(bore, inlet, flow, length, NATURAL);
        assert!((back.psi() / 1.3 - 1.0).abs() < 1e-12);
        let least = high_pressure::diameter(flow, inlet, drop, length, NATURAL);
        assert!((least.inches() / 1.049 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_forms_with_a_diameter_lie_where_the_codes_put_them() {
        let (drop, length, q): (f64, f64, f64) = (0.5, 60.0, 250.0);
        let printed = q.powf(0.381) / (19.17 * (drop / (0.6094 * length)).powf(0.206));
        let flow = low(printed, drop, length);
        assert!((flow / q - 1.0).abs() < 0.01, "{flow}");

        let (p1, p2): (f64, f64) = (16.7, 15.7);
        let printed = q.powf(0.381) / (18.93 * ((p1 * p1 - p2 * p2) * 0.9992 / (0.6094 * length)).powf(0.206));
        let found = high_pressure::diameter(
            Flow::from_cfh(q),
            GaugePressure::from_psi(2.0),
            PressureDrop::from_psi(1.0),
            Length::from_feet(length),
            NATURAL,
        );
        assert!(
            (found.inches() / printed - 1.0).abs() < 0.005,
            "{} against {printed}",
            found.inches()
        );
    }

    #[test]
    fn the_gas_factor_follows_weight_and_viscosity() {
        let t = Temperature::from_rankine(520.0);
        let natural = NATURAL.with_gas(0.60, Viscosity::from_centipoise(0.012), t);
        let propane = CodeFactors::PROPANE.with_gas(1.50, Viscosity::from_centipoise(0.008), t);
        assert!((natural.cr - 0.6094).abs() < 2e-4, "{}", natural.cr);
        assert!((propane.cr - 1.2462).abs() < 3e-4, "{}", propane.cr);
        assert_eq!(propane.y, 0.9910);
    }

    #[test]
    fn more_than_the_pipe_passes_spends_all_pressure() {
        let bore = InsideDiameter::from_inches(0.622);
        let (inlet, flow) = (GaugePressure::from_psi(2.0), Flow::from_cfh(1e6));
        let drop = high_pressure::drop(bore, inlet, flow, Length::from_feet(100.0), NATURAL);
        assert!((drop.psi() - 16.7).abs() < 1e-9);
    }
}
