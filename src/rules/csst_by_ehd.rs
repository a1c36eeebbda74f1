//! Corrugated tubing sized by the code's table.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::codebook::CapacityTable;
use crate::sizing::Basis;

/// The code's tables by EHD stand in for those of the tubing's manufacturer, which govern.
pub const RULE: Rule = Rule {
    id: "csst-by-ehd",
    title: "CSST is sized by the code's EHD table",
    severity: Severity::Check,
    basis: "the tubing manufacturer's table comes before the code's; one manufacturer's EHD 18 was read 6 to 40 % below the code tables",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let by_code = |number: &usize| match &look.study.sections[*number].sizing.basis {
        Basis::Table { table, .. } => look.book.table(table).is_some_and(CapacityTable::yields_to_maker),
        Basis::Equation { .. } | Basis::Nothing(_) => false,
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(by_code).collect();
    if !sections.is_empty() {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "The EHD table of the US code (IFGC) sizes CSST in {}. The tubing manufacturer's own table governs and may allow less.",
                look.sections_named(&sections)
            ),
            "Enter the manufacturer's table as a table file of your own and size by it, or check every section against it.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Material;

    #[test]
    fn only_tubing_has_a_maker_whose_table_governs() {
        let found = check(&RULE, 1, |job| run(job, 3).material = Some(Material::Csst));
        assert!(found[0].what.contains("may allow less"), "{}", found[0].what);
        check(&RULE, 0, |_| {});
    }
}
