//! Lengths past the last row of a table.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::codebook::{Equations, PipeKind};
use crate::sizing::{Basis, Section};
use crate::units::Length;
use std::collections::BTreeMap;

/// A table ends with the last row that was read of it; nothing is made up beyond it.
pub const RULE: Rule = Rule {
    id: "past-table",
    title: "The sizing length is past the last row of the table",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut by_table: BTreeMap<&str, (Length, Length, Vec<usize>)> = BTreeMap::new();
    for (number, section) in look.study.sections.iter().enumerate() {
        if let Some((table, last)) = passed(look, section) {
            let entry = by_table.entry(table).or_insert((last, Length::ZERO, Vec::new()));
            entry.1 = entry.1.max(section.design.total());
            entry.2.push(number);
        }
    }
    for (table, (last, longest, sections)) in by_table {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "{} {}, and the sizing length is {} in {}: it has no figure for it.",
                match table {
                    ROWS => "This program has rows of the code's tables only to".to_owned(),
                    table => format!("This program has table {table} only to"),
                },
                look.sizing_length(last),
                look.sizing_length(longest),
                look.sections_named(&sections)
            ),
            "If the table of your code goes farther, read the size there and enter the table as a table file of your own. Otherwise shorten the \
             run, start a new zone with a line regulator, or use a material or pressure whose table goes farther.",
        );
    }
}

/// What is told in the place of a table where none sizes.
const ROWS: &str = "";

/// The table that would serve a section but for its length, and where that table ends.
pub fn passed<'a>(look: &Look<'a>, section: &Section) -> Option<(&'a str, Length)> {
    let Basis::Nothing(_) = section.sizing.basis else {
        return None;
    };
    let zone = &look.study.zones[section.zone];
    let kind = PipeKind::of(section.material);
    // Where the equation sizes, the profile's rows say how far.
    if look.profile.equations == Equations::Always && !section.material.is_corrugated() {
        let last = look.profile.rows.last()?.value;
        return look
            .profile
            .is_past_rows(section.design.total())
            .then_some((ROWS, last));
    }
    let choice = look
        .tables
        .table_for(look.study.gas.fuel, kind, zone.inlet?, zone.allowed_drop?)
        .ok()?;
    let last = choice.table.last_length();
    (section.design.total() > last).then_some((&*choice.table.id, last))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::units::Length;

    #[test]
    fn the_last_row_is_the_end() {
        let long = |feet: f64| move |job: &mut crate::job::Job| run(job, 3).length = Some(Length::from_feet(feet));
        let found = check(&RULE, 1, long(5_000.0));
        assert!(found[0].what.contains("402.4(2)"), "{}", found[0].what);
        check(&RULE, 0, long(500.0));
    }
}
