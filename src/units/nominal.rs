//! The size by which pipe and tube is bought.

use super::Designation;

/// A nominal size. What it means inside (diameter, wall) is the codebook's matter.
///
/// Order is by kind, then by size, so that the sizes of one material sort from small to large.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum NominalSize {
    /// Nominal pipe or tube size in sixteenths of an inch: 3/4 is 12, 1-1/4 is 20.
    Inch(u16),
    /// Equivalent hydraulic diameter of corrugated tubing, a bare number.
    Ehd(u16),
    /// Outside diameter of metric pipe and tube, in tenths of a millimeter: 22 mm is 220.
    Millimeter(u16),
    /// A maker's own name for a size.
    Named(Designation),
}

impl NominalSize {
    /// NPS 1/2, the least outlet of most codes.
    pub const HALF: NominalSize = NominalSize::Inch(8);

    /// The outside diameter of copper tube of this nominal size, as an inch size: 1/8 in more (ASTM B88, from memory; the
    /// tube of the codebook agrees). `None` for sizes that are not nominal inches.
    pub fn outside_of_tube(self) -> Option<NominalSize> {
        match self {
            NominalSize::Inch(sixteenths) => Some(NominalSize::Inch(sixteenths.saturating_add(2))),
            _ => None,
        }
    }

    /// Whether it is an inch size, which is that of a pipe thread or of a fitting made for it.
    pub const fn is_inch(self) -> bool {
        matches!(self, NominalSize::Inch(_))
    }

    /// The DN number that ISO 6708 pairs with an inch size; `None` for other kinds and for inch sizes without a partner.
    pub fn dn(self) -> Option<u16> {
        match self {
            NominalSize::Inch(sixteenths) => DN.iter().find(|pair| pair.0 == sixteenths).map(|pair| pair.1),
            NominalSize::Ehd(_) | NominalSize::Millimeter(_) | NominalSize::Named(_) => None,
        }
    }

    /// The inch size paired with a DN number.
    pub fn from_dn(dn: u16) -> Option<NominalSize> {
        DN.iter()
            .find(|pair| pair.1 == dn)
            .map(|pair| NominalSize::Inch(pair.0))
    }
}

/// Sixteenths of an inch and DN (ISO 6708 with ASME B36.10M; from memory).
const DN: [(u16, u16); 17] = [
    (4, 8),
    (6, 10),
    (8, 15),
    (12, 20),
    (16, 25),
    (20, 32),
    (24, 40),
    (32, 50),
    (40, 65),
    (48, 80),
    (56, 90),
    (64, 100),
    (80, 125),
    (96, 150),
    (128, 200),
    (160, 250),
    (192, 300),
];
