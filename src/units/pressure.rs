//! Gauge pressure, absolute pressure and pressure drop: three meanings, three types.

use std::ops::{Add, AddAssign, Sub};

/// Pascals in one inch of water column, as the conventional inch of water (NIST SP 811, App. B.8).
pub const PA_PER_INCH_WC: f64 = 249.088_91;
/// Pascals in one pound-force per square inch (NIST SP 811, App. B.8).
pub const PA_PER_PSI: f64 = 6_894.757_293_168_361;
/// Pascals in one standard atmosphere.
pub const PA_PER_ATM: f64 = 101_325.0;

macro_rules! pressure_units {
    ($name:ident) => {
        impl $name {
            /// From pascals.
            pub const fn from_pa(pa: f64) -> $name {
                $name(pa)
            }
            /// From inches of water column.
            pub const fn from_inches_wc(inches: f64) -> $name {
                $name(inches * PA_PER_INCH_WC)
            }
            /// From pounds-force per square inch.
            pub const fn from_psi(psi: f64) -> $name {
                $name(psi * PA_PER_PSI)
            }
            /// Pascals.
            pub const fn pa(self) -> f64 {
                self.0
            }
            /// Inches of water column.
            pub const fn inches_wc(self) -> f64 {
                self.0 / PA_PER_INCH_WC
            }
            /// Pounds-force per square inch.
            pub const fn psi(self) -> f64 {
                self.0 / PA_PER_PSI
            }
        }
    };
}

/// Pressure above the surrounding air.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct GaugePressure(f64);
pressure_units!(GaugePressure);

/// Pressure above vacuum.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct AbsolutePressure(f64);
pressure_units!(AbsolutePressure);

/// A difference of two pressures: a loss when positive.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
pub struct PressureDrop(f64);
pressure_units!(PressureDrop);

impl PressureDrop {
    /// No loss.
    pub const ZERO: PressureDrop = PressureDrop(0.0);
}

impl GaugePressure {
    /// The absolute pressure, in surroundings of `air`.
    pub fn above(self, air: AbsolutePressure) -> AbsolutePressure {
        AbsolutePressure(self.0 + air.0)
    }
}

impl AbsolutePressure {
    /// One standard atmosphere.
    pub const ATMOSPHERE: AbsolutePressure = AbsolutePressure(PA_PER_ATM);

    /// The gauge pressure, in surroundings of `air`.
    pub fn gauge(self, air: AbsolutePressure) -> GaugePressure {
        GaugePressure(self.0 - air.0)
    }
}

impl Sub for GaugePressure {
    type Output = PressureDrop;
    fn sub(self, other: GaugePressure) -> PressureDrop {
        PressureDrop(self.0 - other.0)
    }
}

impl Sub<PressureDrop> for GaugePressure {
    type Output = GaugePressure;
    fn sub(self, drop: PressureDrop) -> GaugePressure {
        GaugePressure(self.0 - drop.0)
    }
}

impl Sub for AbsolutePressure {
    type Output = PressureDrop;
    fn sub(self, other: AbsolutePressure) -> PressureDrop {
        PressureDrop(self.0 - other.0)
    }
}

impl Sub<PressureDrop> for AbsolutePressure {
    type Output = AbsolutePressure;
    fn sub(self, drop: PressureDrop) -> AbsolutePressure {
        AbsolutePressure(self.0 - drop.0)
    }
}

impl Add for PressureDrop {
    type Output = PressureDrop;
    fn add(self, other: PressureDrop) -> PressureDrop {
        PressureDrop(self.0 + other.0)
    }
}

impl AddAssign for PressureDrop {
    fn add_assign(&mut self, other: PressureDrop) {
        self.0 += other.0;
    }
}
