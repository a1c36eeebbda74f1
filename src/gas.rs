//! The flow of gas in one pipe.
//!
//! Formulas and the few properties of gas and air that they need: the code equations behind the published tables,
//! Darcy–Weisbach with Colebrook, the weight of gas in a riser, and what temperature does to a pressure test. Nothing
//! here knows a job, a network, a nominal size or a table: diameters, lengths and flows come in, figures go out.
//!
//! Whatever numbers come in, no function panics or loops without end; where the doc names a valid range and the
//! numbers keep to it, no result is NaN.

mod capacity;
mod code_equation;
mod darcy;
mod elevation;
mod flowing_gas;
mod friction;
mod property;
mod roughness;
mod surrounding_air;
mod temperature;
mod test_pressure;

pub use capacity::capacity;
pub use code_equation::{CodeFactors, high_pressure, low_pressure};
pub use darcy::{Loss, Pipe, Stream, expands, incompressible, isothermal, loss};
pub use elevation::elevation_loss;
pub use flowing_gas::{FlowingGas, MassFlow};
pub use friction::{LaminarBranch, friction_factor};
pub use property::{Density, Viscosity};
pub use roughness::Roughness;
pub use surrounding_air::{air_density, air_pressure};
pub use temperature::Temperature;
pub use test_pressure::pressure_at_temperature;
