//! Corrugated tubing: what its tables include, and a loss estimated from them.
//!
//! No equation and no bore stands behind corrugated tubing, so the loss at a flow can only be read backwards from a
//! capacity table: the length at which the table's own column carries just that flow loses the table's own drop. Between
//! rows the column is followed as a power law; the estimate is marked derived and must be shown so.

use super::{Capacity, CapacityTable, Column, Inlet, Mark, PipeKind, Tables};
use crate::job::Fuel;
use crate::units::{AbsolutePressure, GaugePressure, Length, PressureDrop};
use libm::{log, pow};

/// Bends of 90° and end fittings, together, that every corrugated-tubing table includes: four bends, two ends (notes of
/// the tables).
pub const TURNS_INCLUDED: usize = 6;
/// Feet added for each bend or fitting beyond those included, `L = 1.3 n` (notes of the tables).
pub const EXTRA_PER_TURN: f64 = 1.3;

/// Beyond the long end of a column the loss falls no faster than the flow: a flow so small may be laminar.
const SLOW: f64 = 1.0;
/// Beyond the short end of a column the loss grows at least as fast as the square of the flow.
const FAST: f64 = 2.0;

/// A loss that stands on no equation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DropEstimate {
    /// The loss.
    pub drop: PressureDrop,
    /// How sure it is: derived, or from memory where the table's figures are.
    pub mark: Mark,
    /// Whether the flow is beyond the ends of the column, where even the table says nothing; the estimate is then on the
    /// high side.
    pub beyond_table: bool,
}

impl CapacityTable {
    /// The loss of a flow along tubing, from an inlet pressure, estimated from a column of this table.
    ///
    /// `drop = table drop · L / L(Q)`, where `L(Q)` is the length at which the column carries `Q`, followed between rows
    /// as `ln L` linear in `ln Q`. In a table made for 2 psi and more the difference of the squares of absolute pressure
    /// takes the place of the drop. Length already holds [`EXTRA_PER_TURN`] for turns beyond [`TURNS_INCLUDED`].
    /// `None` for a flow that is no number, and for a capacity of another unit than the table's.
    pub fn estimate_drop(
        &self,
        column: Column,
        length: Length,
        flow: Capacity,
        inlet: GaugePressure,
    ) -> Option<DropEstimate> {
        let amount = flow.amount();
        if self.pipe != PipeKind::Csst || flow.unit() != self.unit || amount.is_nan() || amount < 0.0 {
            return None;
        }
        let points: Vec<Point> = self.rows().filter_map(|row| Point::new(self, row, column)).collect();
        let carried = carried(&points, amount)?;
        let share = match carried.length_feet > 0.0 {
            true => length.feet().max(0.0) / carried.length_feet,
            false => 0.0,
        };
        Some(DropEstimate {
            drop: self.share_of_drop(share, inlet),
            mark: points.iter().map(|point| point.mark).fold(Mark::Derived, Mark::max),
            beyond_table: carried.beyond,
        })
    }

    /// A share of the drop for which the table is made, at another inlet pressure.
    fn share_of_drop(&self, share: f64, inlet: GaugePressure) -> PressureDrop {
        let air = AbsolutePressure::ATMOSPHERE;
        match self.inlet {
            Inlet::Exactly(made) if made >= GaugePressure::from_psi(2.0) => {
                let [from, to] = [made, made - self.drop].map(|gauge| gauge.above(air).pa());
                let start = inlet.above(air).pa().max(0.0);
                let end = (start * start - (from * from - to * to) * share).max(0.0).sqrt();
                PressureDrop::from_pa(start - end)
            }
            Inlet::Below2Psi | Inlet::Exactly(_) => PressureDrop::from_pa(self.drop.pa() * share),
        }
    }
}

impl<'a> Tables<'a> {
    /// The corrugated-tubing tables from which losses at an inlet pressure are best estimated, the first that has a size
    /// counting: a person's own, then the published one. Of those made for this inlet, or the nearest lower, the ones with
    /// the smallest drop come first, whose flows are nearest to everyday ones.
    pub fn csst_loss(&self, fuel: Fuel, inlet: GaugePressure) -> Vec<&'a CapacityTable> {
        let made = |table: &CapacityTable| match table.inlet {
            Inlet::Below2Psi => 0.0,
            Inlet::Exactly(made) if made < GaugePressure::from_psi(2.0) => 0.0,
            Inlet::Exactly(made) => made.pa(),
        };
        let mut tables: Vec<&CapacityTable> = self
            .iter()
            .filter(|table| table.fuel == fuel && table.pipe == PipeKind::Csst)
            .filter(|table| made(table) <= inlet.pa() * 1.001)
            .collect();
        tables.sort_by(|a, b| {
            let by_inlet = made(b).total_cmp(&made(a));
            let own = b.is_own.cmp(&a.is_own);
            own.then(by_inlet).then(a.drop.pa().total_cmp(&b.drop.pa()))
        });
        let published = tables.iter().position(|table| !table.is_own);
        tables.truncate(published.map_or(tables.len(), |first| first + 1));
        tables
    }
}

/// One cell of a column.
#[derive(Clone, Copy)]
struct Point {
    length_feet: f64,
    flow: f64,
    mark: Mark,
}

impl Point {
    fn new(table: &CapacityTable, row: super::Row, column: Column) -> Option<Point> {
        let cell = table.cell(row, column)?;
        Some(Point {
            length_feet: table.length(row).feet(),
            flow: cell.capacity.amount(),
            mark: cell.mark,
        })
    }
}

/// The length at which a column carries a flow.
struct Carried {
    length_feet: f64,
    beyond: bool,
}

/// Follows a column, whose flows fall as its lengths grow, to a flow. A flow of nothing is carried to no end.
fn carried(points: &[Point], flow: f64) -> Option<Carried> {
    let (&[first, second, ..], &[.., before_last, last]) = (points, points) else {
        return None;
    };
    if flow > first.flow {
        return Some(Carried {
            length_feet: first.length_feet * pow(flow / first.flow, -steepness(first, second).max(FAST)),
            beyond: true,
        });
    }
    if flow < last.flow {
        return Some(Carried {
            length_feet: last.length_feet * pow(flow / last.flow, -steepness(before_last, last).min(SLOW)),
            beyond: true,
        });
    }
    let at = points
        .partition_point(|point| point.flow >= flow)
        .clamp(1, points.len() - 1);
    let (above, below) = (points[at - 1], points[at]);
    Some(Carried {
        length_feet: above.length_feet * pow(flow / above.flow, -steepness(above, below)),
        beyond: false,
    })
}

/// By which power of the flow the loss per foot grows between two rows.
fn steepness(above: Point, below: Point) -> f64 {
    let flows = log(above.flow / below.flow);
    match flows > 0.0 {
        true => log(below.length_feet / above.length_feet) / flows,
        false => FAST,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::{CapacityUnit, Codebook};
    use crate::units::NominalSize;

    fn estimate(id: &str, ehd: u16, feet: f64, amount: f64, inlet: GaugePressure) -> Option<DropEstimate> {
        let table = Codebook::published().table(id)?;
        let column = table.column(NominalSize::Ehd(ehd))?;
        table.estimate_drop(
            column,
            Length::from_feet(feet),
            Capacity::new(amount, table.unit),
            inlet,
        )
    }

    const LOW: GaugePressure = GaugePressure::from_inches_wc(7.0);

    #[test]
    fn a_full_cell_loses_the_drop_of_its_table() {
        for row in [10.0, 40.0, 300.0] {
            let table = Codebook::published().table("402.4(17)").unwrap();
            let column = table.column(NominalSize::Ehd(30)).unwrap();
            let cell = table
                .cell(table.row_for(Length::from_feet(row)).unwrap(), column)
                .unwrap();
            let lost = estimate("402.4(17)", 30, row, cell.capacity.amount(), LOW).unwrap();
            assert!((lost.drop.inches_wc() - 6.0).abs() < 1e-6, "{row}: {lost:?}");
            assert!(!lost.beyond_table);
        }
        let lost = estimate("402.4(19)", 18, 100.0, 350.0, GaugePressure::from_psi(5.0)).unwrap();
        assert!((lost.drop.psi() - 3.5).abs() < 1e-6, "{lost:?}");
    }

    #[test]
    fn two_tables_of_one_tubing_estimate_alike() {
        // 402.4(15) from memory and 402.4(17) read: EHD 25, 100 cfh over 60 ft.
        let [half, six] = ["402.4(15)", "402.4(17)"].map(|id| estimate(id, 25, 60.0, 100.0, LOW).unwrap());
        let ratio = half.drop.pa() / six.drop.pa();
        assert!((ratio - 1.0).abs() < 0.25, "{half:?} {six:?}");
        assert_eq!((half.mark, six.mark), (Mark::Memory, Mark::Derived));
    }

    #[test]
    fn beyond_the_column_the_loss_is_estimated_high() {
        let little = estimate("402.4(15)", 18, 300.0, 1.5, LOW).unwrap();
        assert!(little.beyond_table);
        assert!(
            (little.drop.inches_wc() - 0.05).abs() < 1e-9,
            "a tenth of 15 cfh, linear: {little:?}"
        );
        let much = estimate("402.4(15)", 18, 5.0, 230.0, LOW).unwrap();
        assert!(much.beyond_table && much.drop.inches_wc() >= 0.5 * 4.0, "{much:?}");
        assert_eq!(
            estimate("402.4(15)", 18, 50.0, 0.0, LOW).unwrap().drop,
            PressureDrop::ZERO
        );
    }

    #[test]
    fn what_no_table_can_say_is_not_said() {
        assert_eq!(estimate("402.4(15)", 18, 50.0, f64::NAN, LOW), None);
        let steel = Codebook::published().table("402.4(2)").unwrap();
        let column = steel.column(NominalSize::HALF).unwrap();
        let flow = Capacity::new(10.0, CapacityUnit::Cfh);
        assert_eq!(steel.estimate_drop(column, Length::from_feet(10.0), flow, LOW), None);
    }

    #[test]
    fn losses_are_read_from_the_table_with_the_nearest_inlet() {
        let book = Codebook::published();
        let tables = book.tables_for(book.default_profile(), &crate::job::Settings::default());
        let id = |fuel, psi| match tables.csst_loss(fuel, GaugePressure::from_psi(psi))[..] {
            [table] => Some(&*table.id),
            _ => None,
        };
        assert_eq!(id(Fuel::Natural, 0.25), Some("402.4(15)"));
        assert_eq!(id(Fuel::Natural, 3.0), Some("402.4(18)"));
        assert_eq!(id(Fuel::Natural, 5.0), Some("402.4(19)"));
        assert_eq!(id(Fuel::Propane, 0.4), Some("402.4(32)"));
    }

    #[test]
    fn more_than_the_pressure_there_is_cannot_be_lost() {
        let inlet = GaugePressure::from_psi(2.0);
        let lost = estimate("402.4(18)", 13, 1e6, 900.0, inlet).unwrap();
        assert!((lost.drop.psi() - inlet.above(AbsolutePressure::ATMOSPHERE).psi()).abs() < 1e-6);
    }
}
