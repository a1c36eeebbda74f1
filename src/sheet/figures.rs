//! Figures in schedules: bare numbers whose unit stands in the head of their column.

use crate::network::Outlet;
use crate::units::{Flow, GaugePressure, HeatRate, Length, PSI_FROM, PressureDrop, Show, UnitSystem};

/// The units of the columns of a job's schedules.
#[derive(Clone, Copy, Debug)]
pub struct Figures {
    units: UnitSystem,
}

impl Figures {
    /// The figures of a job, in the units of its study.
    pub const fn of(units: UnitSystem) -> Figures {
        Figures { units }
    }

    /// The unit of heat.
    pub const fn heat_head(self) -> &'static str {
        match self.units {
            UnitSystem::Us => "Btu/h",
            UnitSystem::Metric | UnitSystem::MetricKpa => "kW",
        }
    }

    /// The unit of flow.
    pub const fn flow_head(self) -> &'static str {
        match self.units {
            UnitSystem::Us => "cfh",
            UnitSystem::Metric | UnitSystem::MetricKpa => "m³/h",
        }
    }

    /// The unit of length.
    pub const fn length_head(self) -> &'static str {
        match self.units {
            UnitSystem::Us => "ft",
            UnitSystem::Metric | UnitSystem::MetricKpa => "m",
        }
    }

    /// A heat rate.
    pub fn heat(self, heat: HeatRate) -> String {
        bare(&heat.show(self.units))
    }

    /// A flow.
    pub fn flow(self, flow: Flow) -> String {
        bare(&flow.show(self.units))
    }

    /// Loads of one schedule: with a digit more where whole figures would not add up.
    pub fn loads(self, outlets: &[Outlet], total: Flow) -> Loads {
        let shown = |flow: Flow| flow.cfh().round();
        let sum: f64 = outlets.iter().map(|outlet| shown(outlet.flow)).sum();
        let is_finer = self.units == UnitSystem::Us && sum != shown(total);
        Loads {
            figures: self,
            is_finer,
        }
    }

    /// A length along which pipe is sized: feet or meters to a tenth.
    pub fn length(self, length: Length) -> String {
        bare(&self.length_said(length))
    }

    /// A length with its unit, for a sentence.
    pub fn length_said(self, length: Length) -> String {
        length.show_sizing(self.units)
    }

    /// The unit for a column of pressures whose largest is this.
    pub fn pressure(self, largest: GaugePressure) -> PressureUnit {
        match self.units {
            UnitSystem::Metric => PressureUnit::Millibar,
            UnitSystem::MetricKpa => PressureUnit::Kilopascal,
            UnitSystem::Us if largest.psi() >= PSI_FROM => PressureUnit::Psi,
            UnitSystem::Us => PressureUnit::InchesWater,
        }
    }
}

/// How loads of one job are shown.
#[derive(Clone, Copy, Debug)]
pub struct Loads {
    figures: Figures,
    is_finer: bool,
}

impl Loads {
    /// A load.
    pub fn flow(self, flow: Flow) -> String {
        match self.is_finer {
            true => format!("{:.1}", flow.cfh()),
            false => self.figures.flow(flow),
        }
    }
}

/// The unit of a column of pressures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressureUnit {
    /// Inches of water.
    InchesWater,
    /// Pounds per square inch.
    Psi,
    /// Millibar.
    Millibar,
    /// Kilopascals.
    Kilopascal,
}

impl PressureUnit {
    /// As it stands in a head.
    pub const fn head(self) -> &'static str {
        match self {
            PressureUnit::InchesWater => "in w.c.",
            PressureUnit::Psi => "psi",
            PressureUnit::Millibar => "mbar",
            PressureUnit::Kilopascal => "kPa",
        }
    }

    /// A pressure, to a hundredth.
    pub fn figure(self, pressure: PressureDrop) -> String {
        let text = format!("{:.2}", self.number(pressure));
        if text == "-0.00" { "0.00".to_owned() } else { text }
    }

    /// A pressure for a sentence, with its unit: to a hundredth, in kilopascals to a thousandth.
    pub fn said(self, pressure: PressureDrop) -> String {
        let decimals = match self {
            PressureUnit::Kilopascal => 3,
            PressureUnit::InchesWater | PressureUnit::Psi | PressureUnit::Millibar => 2,
        };
        let text = format!("{:.decimals$}", self.number(pressure));
        format!("{} {}", text.trim_end_matches('0').trim_end_matches('.'), self.head())
    }

    /// A pressure as a bare number.
    pub fn number(self, pressure: PressureDrop) -> f64 {
        match self {
            PressureUnit::InchesWater => pressure.inches_wc(),
            PressureUnit::Psi => pressure.psi(),
            PressureUnit::Millibar => pressure.pa() / 100.0,
            PressureUnit::Kilopascal => pressure.pa() / 1e3,
        }
    }

    /// A gauge pressure, to a hundredth.
    pub fn gauge(self, pressure: GaugePressure) -> String {
        self.figure(PressureDrop::from_pa(pressure.pa()))
    }
}

/// A written quantity without its unit.
fn bare(written: &str) -> String {
    written.split(' ').next().unwrap_or_default().to_owned()
}

/// A plain number with no needless zeros, for a sentence.
pub fn plain(number: f64) -> String {
    let text = format!("{number:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_no_units_and_few_decimals() {
        let us = Figures { units: UnitSystem::Us };
        assert_eq!(us.heat(HeatRate::from_btuh(75_000.0)), "75,000");
        assert_eq!(us.flow(Flow::from_cfh(486.2)), "486");
        assert_eq!(us.length(Length::from_feet(63.04)), "63");
        assert_eq!(us.length(Length::from_feet(63.5)), "63.5");
        let metric = Figures {
            units: UnitSystem::Metric,
        };
        assert_eq!(metric.heat(HeatRate::from_kw(22.0)), "22.0");
        assert_eq!(metric.length_said(Length::from_feet(70.0)), "21.34 m");
    }

    #[test]
    fn a_column_of_pressures_has_one_unit() {
        let us = Figures { units: UnitSystem::Us };
        let low = us.pressure(GaugePressure::from_inches_wc(7.0));
        assert_eq!(
            (low.head(), low.gauge(GaugePressure::from_inches_wc(6.789)).as_str()),
            ("in w.c.", "6.79")
        );
        assert_eq!(us.pressure(GaugePressure::from_psi(2.0)), PressureUnit::Psi);
        assert_eq!(low.figure(PressureDrop::from_inches_wc(-0.001)), "0.00");
        let drop = PressureDrop::from_pa(125.0);
        assert_eq!(
            [PressureUnit::Kilopascal, PressureUnit::Millibar].map(|unit| unit.said(drop)),
            ["0.125 kPa", "1.25 mbar"]
        );
    }

    #[test]
    fn plain_numbers() {
        assert_eq!([1.5, 30.0, 0.65].map(plain), ["1.5", "30", "0.65"]);
    }
}
