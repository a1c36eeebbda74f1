//! Pressure, heat, flow and heating value as a fitter writes them.

use super::exact::roundest;
use super::{Show, UnitSystem, rounded, two_figures};
use crate::units::{Flow, GaugePressure, HeatRate, HeatingValue, PressureDrop};

/// Pressures from here up are written in psi: what reads as 1 psi and more.
pub const PSI_FROM: f64 = 0.995;

/// `psi` is how psi is written: a gauge pressure says that it is one.
fn show_pressure(drop: PressureDrop, units: UnitSystem, psi: &str) -> String {
    let pa = drop.pa();
    match units {
        UnitSystem::Us if drop.psi().abs() >= PSI_FROM => format!("{} {psi}", rounded(drop.psi(), 2)),
        UnitSystem::Us => {
            let inches = drop.inches_wc();
            let decimals = if inches.abs() < 10.0 { 2 } else { 1 };
            format!("{} in w.c.", rounded(inches, decimals))
        }
        // One unit for every pressure of a drawing.
        UnitSystem::Metric => {
            let decimals = match pa.abs() {
                0.0..10.0 => 3,
                10.0..1e3 => 2,
                1e3..1e5 => 1,
                _ => 0,
            };
            format!("{} mbar", rounded(pa / 1e2, decimals))
        }
        UnitSystem::MetricKpa => {
            let decimals = match pa.abs() {
                0.0..100.0 => 4,
                100.0..1e4 => 3,
                1e4..1e5 => 2,
                _ => 1,
            };
            format!("{} kPa", rounded(pa / 1e3, decimals))
        }
    }
}

impl GaugePressure {
    /// The pressure as the trade says it: in kilopascals to two figures, 14 kPa for 2 psi, 3.5 kPa for 14 in w.c.
    #[must_use]
    pub fn as_said(self, units: UnitSystem) -> GaugePressure {
        match units {
            UnitSystem::Us | UnitSystem::Metric => self,
            UnitSystem::MetricKpa => GaugePressure::from_pa(two_figures(self.pa() / 1e3) * 1e3),
        }
    }

    /// Whether it is over a limit of a code, said in whatever unit: 14 kPa is not over 2 psi (common practice, no source).
    pub fn is_over(self, limit: GaugePressure) -> bool {
        const ROUNDING: f64 = 1.02;
        self.pa() > limit.pa() * ROUNDING
    }

    /// A pressure that a rule sets, as the trade says it: `2 psig`, `14 kPa`.
    pub fn show_rule(self, units: UnitSystem) -> String {
        self.as_said(units).show(units)
    }
}

macro_rules! show_pressure {
    ($name:ident, $psi:literal) => {
        impl Show for $name {
            /// Inches of water under 1 psi, psi from there up; millibar or kilopascals in a metric drawing.
            fn show(&self, units: UnitSystem) -> String {
                show_pressure(PressureDrop::from_pa(self.pa()), units, $psi)
            }

            fn exact(&self) -> String {
                let pa = self.pa();
                roundest(
                    &[
                        (self.inches_wc(), "in w.c."),
                        (self.psi(), "psi"),
                        (pa / 1e2, "mbar"),
                        (pa, "Pa"),
                    ],
                    (pa, "Pa"),
                    |again: $name| again.pa().to_bits() == pa.to_bits(),
                )
            }
        }
    };
}
show_pressure!(GaugePressure, "psig");
show_pressure!(PressureDrop, "psi");

impl Show for HeatRate {
    /// Whole Btu/h; kilowatts to one decimal.
    fn show(&self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => format!("{} Btu/h", rounded(self.btuh(), 0)),
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.1} kW", self.kw()),
        }
    }

    fn exact(&self) -> String {
        let held = (self.btuh(), "Btu/h");
        roundest(&[held, (self.kw(), "kW")], held, |again: HeatRate| {
            again.btuh().to_bits() == held.0.to_bits()
        })
    }
}

impl Show for Flow {
    /// Whole cubic feet an hour, one decimal under ten; cubic metres an hour to two decimals.
    fn show(&self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us if self.cfh().abs() < 10.0 => format!("{} cfh", rounded(self.cfh(), 1)),
            UnitSystem::Us => format!("{} cfh", rounded(self.cfh(), 0)),
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.2} m³/h", self.m3h()),
        }
    }

    fn exact(&self) -> String {
        let held = (self.cfh(), "cfh");
        roundest(&[held, (self.m3h(), "m3/h")], held, |again: Flow| {
            again.cfh().to_bits() == held.0.to_bits()
        })
    }
}

impl Show for HeatingValue {
    /// Whole Btu/ft³; MJ/m³ to one decimal.
    fn show(&self, units: UnitSystem) -> String {
        match units {
            UnitSystem::Us => format!("{} Btu/ft³", rounded(self.btu_per_ft3(), 0)),
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.1} MJ/m³", self.mj_per_m3()),
        }
    }

    fn exact(&self) -> String {
        let held = (self.btu_per_ft3(), "Btu/ft3");
        roundest(&[held, (self.mj_per_m3(), "MJ/m3")], held, |again: HeatingValue| {
            again.btu_per_ft3().to_bits() == held.0.to_bits()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Parse;

    #[track_caller]
    fn check<T: Parse + Show>(text: &str, us: &str, metric: &str, exact: &str) {
        let Ok(value) = T::parse(text) else { panic!("{text}") };
        assert_eq!(value.show(UnitSystem::Us), us, "{text}");
        assert_eq!(value.show(UnitSystem::Metric), metric, "{text}");
        assert_eq!(value.exact(), exact, "{text}");
    }

    #[test]
    fn pressures() {
        check::<GaugePressure>("7 in wc", "7 in w.c.", "17.4 mbar", "7 in w.c.");
        check::<GaugePressure>("6.8\" w.c.", "6.8 in w.c.", "16.9 mbar", "6.8 in w.c.");
        check::<GaugePressure>("2 psi", "2 psig", "137.9 mbar", "2 psi");
        check::<GaugePressure>("5 psig", "5 psig", "344.7 mbar", "5 psi");
        check::<GaugePressure>("1.4 psi", "1.4 psig", "96.5 mbar", "1.4 psi");
        check::<PressureDrop>("1 psi", "1 psi", "68.9 mbar", "1 psi");
        check::<GaugePressure>("27 in wc", "27 in w.c.", "67.3 mbar", "27 in w.c.");
        check::<GaugePressure>("20 psi", "20 psig", "1,379 mbar", "20 psi");
        check::<PressureDrop>("2 psi", "2 psi", "137.9 mbar", "2 psi");
        check::<PressureDrop>("0.5 in wc", "0.5 in w.c.", "1.25 mbar", "0.5 in w.c.");
        check::<PressureDrop>("-0.25 in wc", "-0.25 in w.c.", "-0.62 mbar", "-0.25 in w.c.");
        check::<PressureDrop>("125 Pa", "0.5 in w.c.", "1.25 mbar", "125 Pa");
        check::<PressureDrop>("7 mbar", "2.81 in w.c.", "7 mbar", "7 mbar");
        check::<PressureDrop>("1.2345678 Pa", "0 in w.c.", "0.012 mbar", "1.2345678 Pa");
        check::<PressureDrop>("0 Pa", "0 in w.c.", "0 mbar", "0 in w.c.");
    }

    #[test]
    fn kilopascals_have_the_precision_of_millibars() {
        let shown = |text: &str| GaugePressure::parse(text).unwrap().show(UnitSystem::MetricKpa);
        assert_eq!(shown("7 in wc"), "1.744 kPa");
        assert_eq!(shown("2 psi"), "13.79 kPa");
        assert_eq!(shown("50 psi"), "344.7 kPa");
        assert_eq!(shown("0.2 in wc"), "0.0498 kPa");
    }

    #[test]
    fn heat_and_flow() {
        check::<HeatRate>("0 kW", "0 Btu/h", "0.0 kW", "0 Btu/h");
        check::<HeatRate>("75 MBH", "75,000 Btu/h", "22.0 kW", "75,000 Btu/h");
        check::<HeatRate>("22 kW", "75,067 Btu/h", "22.0 kW", "22 kW");
        check::<HeatRate>("1,234,567 Btu/h", "1,234,567 Btu/h", "361.8 kW", "1,234,567 Btu/h");
        check::<Flow>("75 cfh", "75 cfh", "2.12 m³/h", "75 cfh");
        check::<Flow>("2.1 m3/h", "74 cfh", "2.10 m³/h", "2.1 m3/h");
        check::<Flow>("2.25 cfh", "2.2 cfh", "0.06 m³/h", "2.25 cfh");
        check::<HeatingValue>("1000 Btu/ft3", "1,000 Btu/ft³", "37.3 MJ/m³", "1,000 Btu/ft3");
        check::<HeatingValue>("38.5 MJ/m3", "1,033 Btu/ft³", "38.5 MJ/m³", "38.5 MJ/m3");
    }
}
