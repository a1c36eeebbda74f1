//! Corrugated tubing without bonding.
//!
//! Since 2018 the clause of the IFGC covers only tubing that is not listed with an arc-resistant jacket. The California code
//! that was read (2013) bonds all; what other codes say of jackets was not read, and there a jacket changes nothing.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::study::{spares_jackets, wants_bond};

/// Corrugated tubing is bonded to the grounding electrode system.
pub const RULE: Rule = Rule {
    id: "csst-unbonded",
    title: "CSST is not marked as bonded",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let spares_jackets = spares_jackets(look.profile);
    let tubing = look
        .walk
        .pipes
        .iter()
        .filter(|pipe| pipe.is_new_pipe() && pipe.material.is_corrugated());
    let runs: Vec<usize> = tubing
        .map(|pipe| pipe.run)
        .filter(|&run| !look.run(run).bonded && wants_bond(look.profile, look.run(run)))
        .collect();
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!("CSST, not entered as bonded: {}.", look.runs_named(&runs)),
            match spares_jackets {
                true => {
                    "Bond it to the grounding electrode system with 6 AWG copper or larger and mark the runs as bonded, or mark \
                     them as listed with an arc-resistant jacket."
                }
                false => {
                    "Bond it to the grounding electrode system with 6 AWG copper or larger, and mark the runs as bonded."
                }
            },
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, check_under, run};
    use super::RULE;
    use crate::codebook::Codebook;
    use crate::job::{Job, Material, State};

    #[test]
    fn tubing_is_bonded() {
        let lay =
            |bonded| move |job: &mut Job| (run(job, 3).material, run(job, 3).bonded) = (Some(Material::Csst), bonded);
        check(&RULE, 1, lay(false));
        check(&RULE, 0, lay(true));
        check(&RULE, 0, |job| {
            lay(false)(job);
            run(job, 3).state = State::Existing;
        });
    }

    /// IRC 2018 G2411.2 (IFGC 310.2); CPC 2013 1210.15.2 knows no jacket.
    #[test]
    fn a_listed_jacket_spares_bonding_where_the_code_says_so() {
        let jacketed = |job: &mut Job| {
            let run = run(job, 3);
            (run.material, run.jacketed) = (Some(Material::Csst), true);
        };
        let book = Codebook::published();
        for (profile, expected) in [("us-ifgc", 0), ("us-federal", 0), ("us-ca", 1), ("ca-b149", 1)] {
            check_under(&RULE, book.profile(profile).unwrap(), expected, jacketed);
        }
        let mut older = book.default_profile().clone();
        older.edition = "2015".to_owned();
        check_under(&RULE, &older, 1, jacketed);
    }
}
