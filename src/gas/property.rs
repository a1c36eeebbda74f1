//! Density and viscosity.

/// Mass in a volume of gas.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Density(f64);

impl Density {
    /// From kilograms in a cubic metre.
    pub const fn from_kg_per_m3(kg: f64) -> Density {
        Density(kg)
    }

    /// Kilograms in a cubic metre.
    pub const fn kg_per_m3(self) -> f64 {
        self.0
    }
}

/// Dynamic viscosity of a gas. At the pressures of house piping it does not depend on pressure.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Viscosity(f64);

impl Viscosity {
    /// Natural gas at 15 °C: 11.0 µPa·s. Methane alone has 10.88, a usual mixture 10.90 (CoolProp 8.0.0 and Wilke's
    /// mixing rule in `chemicals` 1.5.2); rounded up.
    pub const NATURAL_GAS: Viscosity = Viscosity(11.0e-6);
    /// Propane at 15 °C: 7.876 µPa·s (CoolProp 8.0.0).
    pub const PROPANE: Viscosity = Viscosity(7.876e-6);

    /// From pascal seconds.
    pub const fn from_pa_s(value: f64) -> Viscosity {
        Viscosity(value)
    }

    /// From centipoise.
    pub const fn from_centipoise(value: f64) -> Viscosity {
        Viscosity(value * 1e-3)
    }

    /// Pascal seconds.
    pub const fn pa_s(self) -> f64 {
        self.0
    }

    /// Centipoise.
    pub const fn centipoise(self) -> f64 {
        self.0 * 1e3
    }
}
