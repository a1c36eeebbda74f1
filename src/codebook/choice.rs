//! Which table serves a stretch of pipe.
//!
//! A table is made for one inlet pressure. Where none is made for the inlet at hand, one made for a lower inlet serves:
//! the denser gas loses less at the same flow, so its figures are on the safe side. One made for a higher inlet never
//! serves. Tables of a person's own go before the program's: a maker's table governs over the code's.

use super::{CapacityTable, Codebook, Inlet, PipeKind, Profile};
use crate::job::{Fuel, Settings};
use crate::units::{GaugePressure, NominalSize, PressureDrop, Show, UnitSystem, in_units};
use std::cmp::Ordering;

/// Two pressures this near, as a ratio, are one: a pressure typed in kPa or mbar is a rounded one.
const NEAR: f64 = 1e-3;

/// Where the low-pressure tables end.
const TWO_PSI: GaugePressure = GaugePressure::from_psi(2.0);

/// The tables that size a job: a person's own, then those of the families that its profile names. Others never compete.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tables<'a> {
    own: Vec<&'a CapacityTable>,
    families: Vec<&'a CapacityTable>,
    /// The units of what is said of them.
    units: UnitSystem,
}

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
    /// The tables that size a job under a profile: its own and the profile's own that are at hand, then the families that
    /// the profile names.
    pub fn tables_for(&self, profile: &Profile, settings: &Settings) -> Tables<'_> {
        let named = settings.tables.iter().map(|table| table.id.as_str());
        let mut own: Vec<&CapacityTable> = Vec::new();
        for id in named.chain(profile.tables.own.iter().map(String::as_str)) {
            if let Some(table) = self.table(id).filter(|table| table.is_own)
                && !own.iter().any(|known| known.id == table.id)
            {
                own.push(table);
            }
        }
        let families = &profile.tables.families;
        let is_in = |table: &&CapacityTable| table.family().is_some_and(|of| families.iter().any(|name| name == of));
        Tables {
            own,
            families: self.tables().iter().filter(is_in).collect(),
            units: profile.units(settings.units),
        }
    }
}

impl<'a> Tables<'a> {
    /// All of them, a person's own first.
    pub fn iter(&self) -> impl Iterator<Item = &'a CapacityTable> + Clone {
        self.own.iter().chain(&self.families).copied()
    }

    /// Whether one of a person's own has a size of a kind of pipe, in which it is then made.
    pub fn has_size(&self, pipe: PipeKind, size: NominalSize) -> bool {
        let mut own = self.own.iter().filter(|table| table.pipe == pipe);
        own.any(|table| table.column(size).is_some())
    }

    /// The sizes of a kind of pipe in a person's own tables, small to large.
    pub fn own_sizes(&self, pipe: PipeKind) -> Vec<NominalSize> {
        let own = self.own.iter().filter(|table| table.pipe == pipe);
        let mut sizes: Vec<NominalSize> = own.flat_map(|table| table.sizes()).copied().collect();
        sizes.sort();
        sizes.dedup();
        sizes
    }

    /// The table for a fuel and a kind of pipe at an inlet pressure that loses no more than is allowed.
    ///
    /// Of a person's own that serve, else of the families', the one made for this inlet with the largest drop not over the
    /// allowed one. Where there is none, of those made for the nearest lower inlet; the choice then says so. A table that
    /// wants a least supply pressure serves only from that pressure up, and one of a person's own never below the inlet
    /// that it is made for.
    ///
    /// # Errors
    /// When no table serves: which tables there are, and what each of them wants.
    pub fn table_for(
        &self,
        fuel: Fuel,
        pipe: PipeKind,
        inlet: GaugePressure,
        allowed: PressureDrop,
    ) -> Result<TableChoice<'a>, NoTable> {
        if let Some(own) = self.own_for(fuel, pipe, inlet, allowed) {
            return Ok(own);
        }
        let published = of_kind(&self.families, fuel, pipe);
        let passed_over: Vec<&str> = of_kind(&self.own, fuel, pipe).map(|table| &*table.id).collect();
        best(published, inlet, allowed)
            .map(|table| TableChoice {
                table,
                remark: remarks(table, inlet, (&passed_over, self.units)),
            })
            .ok_or_else(|| NoTable(self.none(fuel, pipe, inlet, allowed)))
    }

    /// The table of a person's own that serves, chosen the same way.
    pub fn own_for(
        &self,
        fuel: Fuel,
        pipe: PipeKind,
        inlet: GaugePressure,
        allowed: PressureDrop,
    ) -> Option<TableChoice<'a>> {
        // Of like tables the first that is named counts. Whether a maker's figures hold below the inlet that they are for,
        // nobody knows.
        let own = of_kind(&self.own, fuel, pipe).rev();
        let own = own.filter(|table| match table.inlet {
            Inlet::Below2Psi => true,
            Inlet::Exactly(made) => reaches(inlet.pa(), made.pa()),
        });
        best(own, inlet, allowed).map(|table| TableChoice {
            table,
            remark: remarks(table, inlet, (&[], self.units)),
        })
    }
}

fn of_kind<'s, 'a>(
    tables: &'s [&'a CapacityTable],
    fuel: Fuel,
    pipe: PipeKind,
) -> impl DoubleEndedIterator<Item = &'a CapacityTable> + use<'s, 'a> {
    let tables = tables.iter().copied();
    tables.filter(move |table| table.fuel == fuel && table.pipe == pipe)
}

fn best<'a>(
    tables: impl Iterator<Item = &'a CapacityTable>,
    inlet: GaugePressure,
    allowed: PressureDrop,
) -> Option<&'a CapacityTable> {
    tables
        .filter(|table| serves(table, inlet, allowed))
        .max_by(|a, b| rank(a).partial_cmp(&rank(b)).unwrap_or(Ordering::Equal))
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

/// What must be shown with a choice, where tables of a person's own were passed over.
fn remarks(table: &CapacityTable, inlet: GaugePressure, (passed_over, units): (&[&str], UnitSystem)) -> Option<String> {
    let passed_over = (!passed_over.is_empty()).then(|| {
        let names = passed_over.join(", ");
        format!("none of your own tables is for this inlet and drop ({names}): the published one is used")
    });
    let said: Vec<String> = passed_over.into_iter().chain(remark(table, inlet, units)).collect();
    (!said.is_empty()).then(|| said.join("; "))
}

fn remark(table: &CapacityTable, inlet: GaugePressure, units: UnitSystem) -> Option<String> {
    let shown = |pressure: GaugePressure| pressure.show(units);
    let at_hand = shown(inlet);
    match table.inlet {
        Inlet::Below2Psi if reaches(inlet.pa(), TWO_PSI.pa()) => Some(format!(
            "the table is made for less than {}, used at {at_hand}: on the safe side",
            PressureDrop::from_pa(TWO_PSI.pa()).show(units)
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

impl Tables<'_> {
    /// Why none of them serves.
    fn none(&self, fuel: Fuel, pipe: PipeKind, inlet: GaugePressure, allowed: PressureDrop) -> String {
        let of_kind = self.iter().filter(|table| table.fuel == fuel && table.pipe == pipe);
        let tables: Vec<String> = of_kind.map(|table| wants(table, self.units)).collect();
        let known = match tables.is_empty() {
            true => "the profile names none, and no table of your own is for it".to_owned(),
            false => format!("there are: {}", tables.join("; ")),
        };
        format!(
            "no published table for {} in {} at {} with a drop of {} or less; {known}",
            fuel.name(),
            pipe.name(),
            inlet.show(self.units),
            allowed.show(self.units),
        )
    }
}

/// What a table wants, for one that seeks another.
fn wants(table: &CapacityTable, units: UnitSystem) -> String {
    let least = match table.least_supply {
        Some(least) => format!(", supply at least {}", least.value.show(units)),
        None => String::new(),
    };
    format!("{} ({}{least})", table.id, in_units(&table.title, units))
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

    fn published() -> Tables<'static> {
        let book = Codebook::published();
        book.tables_for(book.default_profile(), &Settings::default())
    }

    #[track_caller]
    fn check(asked: (Fuel, PipeKind, GaugePressure, PressureDrop), id: &str, remark: Option<&str>) {
        let (fuel, pipe, inlet, allowed) = asked;
        let choice = published().table_for(fuel, pipe, inlet, allowed).unwrap();
        assert_eq!((&*choice.table.id, choice.remark.as_deref()), (id, remark));
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
        let book = published();
        let none = book.table_for(Propane, Pe, inches(11.0), PressureDrop::from_inches_wc(0.3));
        assert_eq!(
            none.unwrap_err().to_string(),
            "no published table for propane in polyethylene at 11 in w.c. with a drop of 0.3 in w.c. or less; there are: \
             402.4(35) (polyethylene pipe, propane, inlet 11 in w.c., drop 0.5 in w.c.); \
             402.4(36) (polyethylene pipe, propane, inlet 2 psi, drop 1 psi)"
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
