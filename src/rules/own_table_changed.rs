//! Jobs sized by a table of somebody's own that has other figures now.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;

/// A table file that was written anew under the same name may size otherwise than it did.
pub const RULE: Rule = Rule {
    id: "own-table-changed",
    title: "A table that the job is sized by has changed",
    severity: Severity::Check,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for own in &look.job.settings.tables {
        let known = look.book.table(&own.id).filter(|table| table.is_own);
        if known.is_some_and(|table| table.as_own() != *own) {
            found.at(
                Place::Job,
                format!(
                    "The table \"{}\" now has other figures than when the job was set to use it; sizes follow the table as it is now.",
                    own.id
                ),
                "Compare the sizes with the last issue, then select the table again in this job.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Checked;
    use super::super::sample::good;
    use super::RULE;
    use crate::codebook::Codebook;

    const TABLE: &str = "id\tTube A\ntitle\tinvented\nfuel\tnatural\npipe\tcsst\ninlet\tunder 2 psi\ndrop\t0.5 in w.c.\nunit\tcfh\n\
                         document\tinvented\n\nlength_ft\tEHD 18\n10\t40\n";

    #[test]
    fn another_figure_is_told_another_title_is_not() {
        let told = |text: &str| {
            let mut book = Codebook::published().clone();
            let used = book.add_table("tube.tsv", TABLE).unwrap();
            let mut book = Codebook::published().clone();
            book.add_table("tube.tsv", text).unwrap();
            let mut job = good();
            job.settings.tables.push(used);
            let checked = Checked::of(&job, &book);
            checked
                .findings
                .iter()
                .filter(|finding| finding.rule == RULE.id)
                .count()
        };
        assert_eq!(told(TABLE), 0);
        assert_eq!(told(&TABLE.replace("title\tinvented", "title\tnewly invented")), 0);
        assert_eq!(told(&TABLE.replace("10\t40", "10\t39")), 1);
        assert_eq!(told(&TABLE.replace("10\t40", "11\t40")), 1);
        assert_eq!(told(&TABLE.replace("EHD 18", "EHD 19")), 1);
        assert_eq!(told(&TABLE.replace("cfh", "MBH")), 1);
    }
}
