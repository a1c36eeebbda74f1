//! What must be said beside figures of some tables.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::codebook::PipeKind;
use crate::sizing::{Basis, Section};
use std::collections::BTreeMap;

/// Some tables have traps, and the figures taken from them carry a word of warning.
pub const RULE: Rule = Rule {
    id: "table-remark",
    title: "A table's figures need an explanation beside them",
    severity: Severity::Note,
    basis: "the tables as checked against their equations; see the codebook's notes on each",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut by_remark: BTreeMap<(&str, String), Vec<usize>> = BTreeMap::new();
    for (number, section) in look.study.sections.iter().enumerate() {
        // The sizing's own remarks tell more than this rule does, but without any there is nothing to look for.
        if section.sizing.remarks.is_empty() {
            continue;
        }
        for (table, remark) in remarks(look, section) {
            by_remark.entry((table, remark)).or_default().push(number);
        }
    }
    for ((table, remark), sections) in by_remark {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "By table {table}, {}: {}.",
                look.sections_named(&sections),
                remark.trim_end_matches('.')
            ),
            "Leave the note on the drawing, so that the permit office can follow the figure.",
        );
    }
}

/// Remarks of the codebook on the table and on the cell from which a section was judged.
fn remarks<'a>(look: &Look<'a>, section: &Section) -> Vec<(&'a str, String)> {
    let Basis::Table { table, row } = &section.sizing.basis else {
        return Vec::new();
    };
    let Some(table) = look.book.table(table) else {
        return Vec::new();
    };
    let zone = &look.study.zones[section.zone];
    let kind = PipeKind::of(section.material);
    let choice = zone
        .inlet
        .zip(zone.allowed_drop)
        .and_then(|(inlet, drop)| look.tables.table_for(look.study.gas.fuel, kind, inlet, drop).ok())
        .and_then(|choice| choice.remark);
    let cell = section
        .sizing
        .size
        .and_then(|size| table.cell(table.row_for(*row)?, table.column(size)?)?.remark)
        .map(str::to_owned);
    choice
        .into_iter()
        .chain(cell)
        .map(|remark| (&*table.id, remark))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run, supply};
    use super::RULE;
    use crate::job::{Fuel, Job};
    use crate::units::{GaugePressure, Length};

    fn propane(feet: f64) -> impl Fn(&mut Job) {
        move |job| {
            job.gas.fuel = Fuel::Propane;
            supply(job).pressure = Some(GaugePressure::from_inches_wc(11.0));
            run(job, 3).length = Some(Length::from_feet(feet));
        }
    }

    #[test]
    fn the_propane_table_is_too_high_from_80_ft() {
        let found = check(&RULE, 1, propane(55.0));
        assert!(found[0].what.contains("402.4(28)"), "{}", found[0].what);
        check(&RULE, 0, propane(10.0));
    }

    #[test]
    fn natural_gas_at_seven_inches_needs_no_word() {
        check(&RULE, 0, |_| {});
    }
}
