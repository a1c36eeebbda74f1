//! The equations behind the tables, written down a second time, and the bores that stand in the heads of the tables.
//!
//! IFGC appendix A.4 and NFPA 54 chapter 6, as flows: low pressure `Q = 2313 D^2.623 (dH/(Cr L))^0.541`, high pressure
//! `Q = K D^2.623 ((P1² − P2²) Y/(Cr L))^0.541`; Q cfh, D in, dH in w.c., L ft, P psia as 14.7 + gauge.

use stubout::codebook::{CapacityTable, Cell, Codebook};
use stubout::units::{Length, NominalSize};

/// Bores of Schedule 40 steel, 1/2 to 4 in (IFGC appendix A, table A.5.1), and 5 in (ASME B36.10M, from memory), for which
/// table (2) alone has a column.
const STEEL: &[f64] = &[0.622, 0.824, 1.049, 1.380, 1.610, 2.067, 2.469, 3.068, 4.026, 5.047];
/// Bores of copper type K, 1/4 to 2 in (IFGC appendix A, table A.5.2).
const COPPER: &[f64] = &[0.305, 0.402, 0.527, 0.652, 0.745, 0.995, 1.245, 1.481, 1.959];
/// Bores of polyethylene, 1/2 to 4 in, in the heads of its tables (IFGC 2018).
const PE: &[f64] = &[0.660, 0.860, 1.077, 1.328, 1.554, 1.943, 2.864, 3.682];

/// What lies behind a table.
#[derive(Clone, Copy)]
pub enum Behind {
    /// Loss in inches of water.
    Low(f64),
    /// Gauge pressures at inlet and outlet, psi.
    High(f64, f64),
}

/// A table that follows an equation.
pub struct Printed {
    pub number: u32,
    pub bores: &'static [f64],
    pub behind: Behind,
    pub gas: Gas,
}

/// The gas of a table: Cr, Y, and MBtu in a cubic foot where cells are MBtu/h.
#[derive(Clone, Copy, PartialEq)]
pub enum Gas {
    Natural,
    Propane,
}

/// The constants that are not the same for cells that were read and cells that were computed.
#[derive(Clone, Copy)]
pub struct Constants {
    /// K of the high-pressure equation.
    pub high: f64,
    /// Heating value of propane behind tables of low and of high pressure, MBtu/ft³.
    pub propane: [f64; 2],
}

/// With these the cells that were not found were computed, as their files say. K is from memory.
pub const AS_COMPUTED: Constants = Constants {
    high: 2237.0,
    propane: [2.488, 2.49],
};

/// These reproduce best the cells that were read: one heating value for every propane table, and K a little higher.
pub const AS_READ: Constants = Constants {
    high: 2239.0,
    propane: [2.488, 2.488],
};

const fn low(number: u32, gas: Gas, bores: &'static [f64], drop: f64) -> Printed {
    let behind = Behind::Low(drop);
    Printed {
        number,
        bores,
        behind,
        gas,
    }
}

const fn high(number: u32, gas: Gas, bores: &'static [f64], inlet: f64, outlet: f64) -> Printed {
    let behind = Behind::High(inlet, outlet);
    Printed {
        number,
        bores,
        behind,
        gas,
    }
}

use Gas::{Natural, Propane};

/// Every table that follows an equation.
pub const TABLES: [Printed; 24] = [
    low(1, Natural, STEEL, 0.3),
    low(2, Natural, STEEL, 0.5),
    low(3, Natural, STEEL, 3.0),
    low(4, Natural, STEEL, 6.0),
    high(6, Natural, STEEL, 3.0, 1.0),
    low(8, Natural, COPPER, 0.3),
    low(9, Natural, COPPER, 0.5),
    low(10, Natural, COPPER, 1.0),
    // 17 in w.c. from an inlet of 2 psi; 27.7 in w.c. to the psi.
    high(11, Natural, COPPER, 2.0, 2.0 - 17.0 / 27.7),
    high(12, Natural, COPPER, 2.0, 1.0),
    high(13, Natural, COPPER, 2.0, 0.5),
    high(14, Natural, COPPER, 5.0, 1.5),
    low(20, Natural, PE, 0.3),
    low(21, Natural, PE, 0.5),
    high(22, Natural, PE, 2.0, 1.0),
    high(25, Propane, STEEL, 10.0, 9.0),
    high(26, Propane, STEEL, 10.0, 7.0),
    high(27, Propane, STEEL, 2.0, 1.0),
    low(28, Propane, STEEL, 0.5),
    high(29, Propane, COPPER, 10.0, 9.0),
    low(30, Propane, COPPER, 0.5),
    high(31, Propane, COPPER, 2.0, 1.0),
    low(35, Propane, PE, 0.5),
    high(36, Propane, PE, 2.0, 1.0),
];

/// Steel tables for 2 and 5 psi that do not follow the equation.
pub const ODD: [Printed; 2] = [high(5, Natural, STEEL, 2.0, 1.0), high(7, Natural, STEEL, 5.0, 1.5)];

impl Printed {
    pub fn table(&self) -> &'static CapacityTable {
        table(self.number)
    }

    /// What the equation gives, in the unit of the table.
    pub fn gives(&self, feet: f64, column: usize, constants: Constants) -> f64 {
        let bore = self.bores[column];
        let (cr, y) = match self.gas {
            Natural => (0.6094, 0.9992),
            Propane => (1.2462, 0.9910),
        };
        let flow = match self.behind {
            Behind::Low(drop) => 2313.0 * bore.powf(2.623) * (drop / (cr * feet)).powf(0.541),
            Behind::High(inlet, outlet) => {
                let squares = (inlet + 14.7).powi(2) - (outlet + 14.7).powi(2);
                constants.high * bore.powf(2.623) * (squares * y / (cr * feet)).powf(0.541)
            }
        };
        match (self.gas, self.behind) {
            (Natural, _) => flow,
            (Propane, Behind::Low(_)) => flow * constants.propane[0],
            (Propane, Behind::High(..)) => flow * constants.propane[1],
        }
    }
}

/// A table of the codebook by the number in the brackets.
pub fn table(number: u32) -> &'static CapacityTable {
    Codebook::published().table(&format!("402.4({number})")).unwrap()
}

/// A number as tables print it: so many figures, but no fraction.
pub fn figures(figures: u32, number: f64) -> f64 {
    let step = 10f64.powf((number.log10().floor() + 1.0 - f64::from(figures)).max(0.0));
    (number / step).round() * step
}

/// Every cell of a table: length in feet, column, size, and the cell.
pub fn cells(table: &CapacityTable) -> impl Iterator<Item = (f64, usize, NominalSize, Option<&Cell>)> {
    table.rows().flat_map(|row| {
        let feet = table.length(row).feet();
        let along = table.along(row).enumerate();
        along.map(move |(column, (size, cell))| (feet, column, size, cell))
    })
}

/// The cell of a length and size that the table must have.
#[track_caller]
pub fn cell(table: &CapacityTable, feet: f64, size: NominalSize) -> &Cell {
    let row = table.row_for(Length::from_feet(feet)).unwrap();
    table.cell(row, table.column(size).unwrap()).unwrap()
}
