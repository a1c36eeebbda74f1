//! How rough the inside of pipe is.

/// Equivalent sand roughness of a pipe's inside.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Roughness(f64);

impl Roughness {
    /// Commercial steel: 0.0018 in, 0.046 mm (from memory of Moody 1944, *Friction Factors for Pipe Flow*).
    pub const STEEL: Roughness = Roughness(0.0018 * 0.0254);
    /// Drawn copper tube: 0.00006 in, 0.0015 mm, smooth for any use here (from memory of Moody 1944, drawn tubing).
    pub const COPPER: Roughness = Roughness(0.000_06 * 0.0254);
    /// Extruded polyethylene: as drawn tube, 0.0015 mm (from memory, no text found).
    pub const POLYETHYLENE: Roughness = Roughness(0.000_06 * 0.0254);

    /// From metres.
    pub const fn from_metres(metres: f64) -> Roughness {
        Roughness(metres)
    }

    /// Metres.
    pub const fn metres(self) -> f64 {
        self.0
    }
}
