//! Heat rate of appliances, flow of gas, and the heating value that ties them.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Sub};

/// Btu (International Table) per hour in one kilowatt (NIST SP 811, App. B.8: 1 Btu/h = 0.2930711 W).
pub const BTUH_PER_KW: f64 = 3_412.141_633;
/// Cubic metres per second in one cubic foot per hour.
pub const M3S_PER_CFH: f64 = 7.865_790_72e-6;
/// Btu (International Table) per cubic foot in one megajoule per cubic metre (NIST SP 811, App. B.8: 1 Btu/ft3 =
/// 3.725 895 E+04 J/m3; the figure here is 0.028316846592 m3 over 1,055.05585262 J).
pub const BTU_PER_FT3_PER_MJ_PER_M3: f64 = 26.839_191_993;

/// Heat taken or carried per hour.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct HeatRate(f64);

impl HeatRate {
    /// No heat.
    pub const ZERO: HeatRate = HeatRate(0.0);

    /// From Btu per hour.
    pub const fn from_btuh(btuh: f64) -> HeatRate {
        HeatRate(btuh)
    }

    /// From thousands of Btu per hour.
    pub const fn from_mbh(mbh: f64) -> HeatRate {
        HeatRate(mbh * 1000.0)
    }

    /// From kilowatts.
    pub const fn from_kw(kw: f64) -> HeatRate {
        HeatRate(kw * BTUH_PER_KW)
    }

    /// Btu per hour.
    pub const fn btuh(self) -> f64 {
        self.0
    }

    /// Thousands of Btu per hour.
    pub const fn mbh(self) -> f64 {
        self.0 / 1000.0
    }

    /// Kilowatts.
    pub const fn kw(self) -> f64 {
        self.0 / BTUH_PER_KW
    }

    /// The flow of gas that carries this heat.
    pub fn flow(self, value: HeatingValue) -> Flow {
        Flow(self.0 / value.0)
    }
}

/// Flow of gas, as volume at 60 °F and 30 inHg.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct Flow(f64);

impl Flow {
    /// No flow.
    pub const ZERO: Flow = Flow(0.0);

    /// From cubic feet per hour.
    pub const fn from_cfh(cfh: f64) -> Flow {
        Flow(cfh)
    }

    /// From cubic metres per hour.
    pub const fn from_m3h(m3h: f64) -> Flow {
        Flow(m3h / 3600.0 / M3S_PER_CFH)
    }

    /// Cubic feet per hour.
    pub const fn cfh(self) -> f64 {
        self.0
    }

    /// Cubic metres per hour.
    pub const fn m3h(self) -> f64 {
        self.0 * M3S_PER_CFH * 3600.0
    }

    /// Cubic metres per second.
    pub const fn m3s(self) -> f64 {
        self.0 * M3S_PER_CFH
    }

    /// The heat that this flow carries.
    pub fn heat(self, value: HeatingValue) -> HeatRate {
        HeatRate(self.0 * value.0)
    }
}

/// Gross heat in a volume of gas.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct HeatingValue(f64);

impl HeatingValue {
    /// From Btu per cubic foot.
    pub const fn from_btu_per_ft3(value: f64) -> HeatingValue {
        HeatingValue(value)
    }

    /// From megajoules per cubic metre, the gas measured at the same temperature and pressure.
    pub const fn from_mj_per_m3(value: f64) -> HeatingValue {
        HeatingValue(value * BTU_PER_FT3_PER_MJ_PER_M3)
    }

    /// Btu per cubic foot.
    pub const fn btu_per_ft3(self) -> f64 {
        self.0
    }

    /// Megajoules per cubic metre, the gas measured at the same temperature and pressure.
    pub const fn mj_per_m3(self) -> f64 {
        self.0 / BTU_PER_FT3_PER_MJ_PER_M3
    }
}

macro_rules! additive {
    ($name:ident) => {
        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: $name) {
                self.0 += other.0;
            }
        }
        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }
        impl Sum for $name {
            fn sum<I: Iterator<Item = $name>>(all: I) -> $name {
                all.fold($name(0.0), Add::add)
            }
        }
    };
}
additive!(HeatRate);
additive!(Flow);
