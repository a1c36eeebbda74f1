//! Buried pipe whose cover is held against no figure.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Surroundings;

/// Where the profile has no depth, nobody may take silence for a check.
pub const RULE: Rule = Rule {
    id: "cover-not-judged",
    title: "The profile has no depth against which cover could be held",
    severity: Severity::Check,
    basis: "a limit of this tool: the clause of the code was not read",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.profile.burial.is_some() {
        return;
    }
    let pipes = look.walk.pipes.iter();
    let buried = pipes.filter(|pipe| pipe.is_new() && pipe.surroundings == Surroundings::Underground);
    let runs: Vec<usize> = (buried.map(|pipe| pipe.run))
        .filter(|&run| look.run(run).cover.is_some())
        .collect();
    let Some(least) = runs.iter().filter_map(|&run| look.run(run).cover).min() else {
        return;
    };
    let clause = look
        .profile
        .family
        .and_then(|family| look.book.clause("burial-shallow", family));
    let named = clause.map_or_else(String::new, |clause| format!(", {}", clause.clause));
    found.at_all(
        look.on_all(&runs),
        format!(
            "The cover of {}, down to {}, was not checked: this profile sets no minimum cover.",
            look.runs_named(&runs),
            look.show(least)
        ),
        format!("Check it against the code in force{named}."),
    );
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, check_under, run};
    use super::RULE;
    use crate::codebook::Codebook;
    use crate::job::{Job, Surroundings};
    use crate::units::Length;

    fn buried(job: &mut Job) {
        run(job, 4).surroundings = Surroundings::Underground;
        run(job, 4).cover = Some(Length::from_mm(380.0));
    }

    #[test]
    fn where_no_depth_is_known_nothing_is_passed_over_in_silence() {
        check(&RULE, 0, buried);
        let canada = Codebook::published().profile("ca-b149").unwrap();
        let found = check_under(&RULE, canada, 1, buried);
        assert!(found[0].remedy.contains("6.15.4"), "{}", found[0].remedy);
        check_under(&RULE, canada, 0, |job| {
            run(job, 4).surroundings = Surroundings::Underground
        });
    }
}
