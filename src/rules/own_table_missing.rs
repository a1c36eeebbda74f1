//! Jobs sized by a table of somebody's own that is not at hand.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;

/// Other figures than those of the table that the job names are not taken in silence.
pub const RULE: Rule = Rule {
    id: "own-table-missing",
    title: "A table that the job is sized by is not loaded",
    severity: Severity::MustFix,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for table in &look.job.settings.tables {
        if look.book.table(&table.id).is_none_or(|known| !known.is_own) {
            found.at(
                Place::Job,
                format!(
                    "The job is sized by your own table \"{}\", which is not loaded; its sections were sized without it.",
                    table.id
                ),
                "Open the table's file (Your tables and profiles, or --table), or remove the table from the job.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::job::OwnTable;

    #[test]
    fn a_table_that_nobody_has_is_told_once_for_each() {
        let named = |id: &str| OwnTable {
            id: id.to_owned(),
            figures: String::new(),
        };
        let found = check(&RULE, 2, |job| {
            job.settings.tables = vec![named("Tube A"), named("402.4(2)")]
        });
        assert!(found[0].what.contains("\"Tube A\""), "{}", found[0].what);
        check(&RULE, 0, |_| {});
    }
}
