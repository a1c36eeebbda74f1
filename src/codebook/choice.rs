//! Which table serves a stretch of pipe.
//!
//! A table is made for one inlet pressure. Where none is made for the inlet at hand, one made for a lower inlet serves:
//! the denser gas loses less at the same flow, so its figures are on the safe side. One made for a higher inlet never
//! serves.

use super::{CapacityTable, Codebook, Inlet, PipeKind};
use crate::job::Fuel;
use crate::units::{GaugePressure, PressureDrop, Show, UnitSystem};

/// Two pressures this near, as a ratio, are one: a pressure typed in kPa or mbar is a rounded one.
const NEAR: f64 = 1e-3;

/// Where the low-pressure tables end.
const TWO_PSI: GaugePressure = GaugePressure::from_psi(2.0);

/// The table that serves.
#[derive(Clone, Debug, PartialEq)]
pub struct TableChoice<'a> {
    /// The table.
    pub table: &'a CapacityTable,
    /// What must be shown with the choice: that the table is made for another inlet pressure.
    pub remark: Option<String>,
}

/// Why no table serves: a sentence for the drawing, with the nearest tables.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NoTable(pub String);

impl Codebook {
    /// The published table for a fuel and a kind of pipe at an inlet pressure that loses no more than is allowed.
    ///
    /// Of the tables made for this inlet the one with the largest drop not over the allowed one. Where there is none, of
    /// those made for the nearest lower inlet; the choice then says so. A table that wants a least supply pressure
    /// serves only from that pressure up.
    ///
    /// # Errors
    /// When no published table serves: which tables there are, and what each of them wants.
    pub fn table_for(
        &self,
        fuel: Fuel,
        pipe: PipeKind,
        inlet: GaugePressure,
        allowed: PressureDrop,
    ) -> Result<TableChoice<'_>, NoTable> {
        let printed = || {
            self.tables
                .iter()
                .filter(move |table| table.fuel == fuel && table.pipe == pipe)
        };
        printed()
            .filter(|table| serves(table, inlet, allowed))
            .max_by(|a, b| rank(a).partial_cmp(&rank(b)).unwrap_or(std::cmp::Ordering::Equal))
            .map(|table| TableChoice {
                table,
                remark: remark(table, inlet),
            })
            .ok_or_else(|| NoTable(none(printed(), fuel, pipe, inlet, allowed)))
    }
}

/// Whether a table may be used at an inlet pressure when so much may be lost.
fn serves(table: &CapacityTable, inlet: GaugePressure, allowed: PressureDrop) -> bool {
    let supplied = table
        .least_supply
        .is_none_or(|least| reaches(inlet.pa(), least.value.pa()));
    let made = match table.inlet {
        Inlet::Below2Psi => inlet.pa() > 0.0,
        // The low-pressure equation knows no inlet pressure: propane tables for 11 in w.c. serve a little below too.
        Inlet::Exactly(made) if made < TWO_PSI => inlet.pa() > 0.0,
        Inlet::Exactly(made) => reaches(inlet.pa(), made.pa()),
    };
    made && supplied && reaches(allowed.pa(), table.drop.pa())
}

/// Whether a pressure is not less than another, near enough.
fn reaches(pa: f64, least: f64) -> bool {
    pa >= least * (1.0 - NEAR)
}

/// The better of two tables that serve: the higher inlet, then the larger drop.
fn rank(table: &CapacityTable) -> (f64, f64) {
    let inlet = match table.inlet {
        Inlet::Below2Psi => 0.0,
        Inlet::Exactly(made) => made.pa(),
    };
    (inlet, table.drop.pa())
}

fn remark(table: &CapacityTable, inlet: GaugePressure) -> Option<String> {
    let shown = |pressure: GaugePressure| pressure.show(UnitSystem::Us);
    let at_hand = shown(inlet);
    match table.inlet {
        Inlet::Below2Psi if reaches(inlet.pa(), TWO_PSI.pa()) => Some(format!(
            "the table is made for less than 2 psi, used at {at_hand}: on the safe side"
        )),
        Inlet::Below2Psi => None,
        Inlet::Exactly(made) if (inlet.pa() / made.pa() - 1.0).abs() <= NEAR => None,
        Inlet::Exactly(made) if inlet < TWO_PSI => Some(format!(
            "the table is made for {}, used at {at_hand}: its figures hold for any low pressure",
            shown(made)
        )),
        Inlet::Exactly(made) => Some(format!(
            "the table is made for {}, used at {at_hand}: on the safe side",
            shown(made)
        )),
    }
}

fn none<'a>(
    printed: impl Iterator<Item = &'a CapacityTable>,
    fuel: Fuel,
    pipe: PipeKind,
    inlet: GaugePressure,
    allowed: PressureDrop,
) -> String {
    let tables: Vec<String> = printed.map(wants).collect();
    format!(
        "no published table for {} in {} at {} that loses {} or less; there are: {}",
        fuel.name(),
        pipe.name(),
        inlet.show(UnitSystem::Us),
        allowed.show(UnitSystem::Us),
        tables.join("; ")
    )
}

/// What a table wants, for one that seeks another.
fn wants(table: &CapacityTable) -> String {
    let least = match table.least_supply {
        Some(least) => format!(", supply at least {}", least.value.show(UnitSystem::Us)),
        None => String::new(),
    };
    format!("{} ({}{least})", table.id, table.title)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> GaugePressure {
        GaugePressure::from_inches_wc(value)
    }

    fn psi(value: f64) -> GaugePressure {
        GaugePressure::from_psi(value)
    }

    #[track_caller]
    fn check(asked: (Fuel, PipeKind, GaugePressure, PressureDrop), id: &str, remark: Option<&str>) {
        let (fuel, pipe, inlet, allowed) = asked;
        let choice = Codebook::published().table_for(fuel, pipe, inlet, allowed).unwrap();
        assert_eq!((choice.table.id, choice.remark.as_deref()), (id, remark));
    }

    use Fuel::{Natural, Propane};
    use PipeKind::{Copper, Csst, Pe, Steel};

    #[test]
    fn the_largest_drop_not_over_the_allowed_one_counts() {
        let wc = PressureDrop::from_inches_wc;
        check((Natural, Steel, inches(7.0), wc(0.5)), "402.4(2)", None);
        check((Natural, Steel, inches(7.0), wc(0.45)), "402.4(1)", None);
        check((Natural, Steel, inches(14.0), wc(4.0)), "402.4(3)", None);
        check((Natural, Pe, inches(7.0), wc(1.0)), "402.4(21)", None);
        check((Propane, Csst, inches(11.0), wc(0.5)), "402.4(32)", None);
        check(
            (Natural, Copper, psi(2.0), PressureDrop::from_psi(1.5)),
            "402.4(13)",
            None,
        );
        check(
            (Natural, Steel, psi(2.0), PressureDrop::from_psi(1.0)),
            "402.4(5)",
            None,
        );
    }

    #[test]
    fn a_table_that_wants_more_supply_pressure_is_passed_over() {
        let wc = PressureDrop::from_inches_wc;
        check((Natural, Steel, inches(7.0), wc(3.0)), "402.4(2)", None);
        check((Natural, Steel, inches(8.0), wc(3.0)), "402.4(3)", None);
        check((Natural, Steel, inches(10.0), wc(6.0)), "402.4(3)", None);
        check((Natural, Steel, inches(11.0), wc(6.0)), "402.4(4)", None);
    }

    #[test]
    fn a_pressure_typed_in_other_units_is_the_same_pressure() {
        let kpa = |value: f64| value * 1000.0;
        check(
            (
                Natural,
                Steel,
                GaugePressure::from_pa(kpa(13.79)),
                PressureDrop::from_pa(kpa(6.89)),
            ),
            "402.4(5)",
            None,
        );
        check(
            (
                Propane,
                Steel,
                GaugePressure::from_pa(kpa(2.74)),
                PressureDrop::from_pa(125.0),
            ),
            "402.4(28)",
            None,
        );
    }

    #[test]
    fn a_table_for_a_lower_inlet_serves_and_says_so() {
        check(
            (Natural, Steel, psi(2.5), PressureDrop::from_psi(1.0)),
            "402.4(5)",
            Some("the table is made for 2 psig, used at 2.5 psig: on the safe side"),
        );
        check(
            (Natural, Pe, psi(2.0), PressureDrop::from_inches_wc(0.5)),
            "402.4(21)",
            Some("the table is made for less than 2 psi, used at 2 psig: on the safe side"),
        );
        check(
            (Propane, Steel, inches(10.5), PressureDrop::from_inches_wc(0.5)),
            "402.4(28)",
            Some("the table is made for 11 in w.c., used at 10.5 in w.c.: its figures hold for any low pressure"),
        );
    }

    #[test]
    fn a_table_for_a_higher_inlet_never_serves() {
        let book = Codebook::published();
        let none = book.table_for(Propane, Pe, inches(11.0), PressureDrop::from_inches_wc(0.3));
        assert_eq!(
            none.unwrap_err().to_string(),
            "no published table for propane in polyethylene at 11 in w.c. that loses 0.3 in w.c. or less; there are: \
             402.4(35) (polyethylene pipe, propane, 11 in w.c. at the inlet, 0.5 in w.c. lost); \
             402.4(36) (polyethylene pipe, propane, 2 psi at the inlet, 1 psi lost)"
        );
        for inlet in [f64::NAN, 0.0, -3.0] {
            assert!(
                book.table_for(Natural, Steel, psi(inlet), PressureDrop::from_psi(1.0))
                    .is_err()
            );
        }
        let nan = PressureDrop::from_pa(f64::NAN);
        assert!(book.table_for(Natural, Steel, psi(2.0), nan).is_err());
    }
}
