//! Buried pipe of unknown depth.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Detail, Surroundings};

/// A drawing says how deep pipe is buried.
pub const RULE: Rule = Rule {
    id: "burial-cover-missing",
    title: "Buried pipe has no depth of cover",
    severity: Severity::Check,
    basis: "asked for by permit offices (depth of buried pipe: 2 of 23 public requirements read)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::Cover);
    let buried = look
        .walk
        .pipes
        .iter()
        .filter(|pipe| pipe.is_new() && pipe.surroundings == Surroundings::Underground);
    let runs: Vec<usize> = buried
        .map(|pipe| pipe.run)
        // What stands upright goes from the trench to grade: it has no cover of its own.
        .filter(|&run| look.run(run).cover.is_none() && !look.is_upright(run))
        .collect();
    if !runs.is_empty() {
        let usual = match &look.profile.burial {
            Some(burial) => format!(
                " Usual: {} ({}).",
                look.limit(burial.usual.value),
                look.by_profile(burial.usual.mark)
            ),
            None => String::new(),
        };
        found.at_all(
            look.on_all(&runs),
            format!(
                "Depth of cover not entered for buried pipe: {}.",
                look.runs_named(&runs)
            ),
            format!("Enter the depth of cover below grade.{usual}"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Surroundings;
    use crate::units::Length;

    #[test]
    fn buried_pipe_wants_a_depth() {
        check(&RULE, 0, |job| run(job, 5).surroundings = Surroundings::Underground);
        check(&RULE, 1, |job| run(job, 4).surroundings = Surroundings::Underground);
        check(&RULE, 0, |job| {
            run(job, 4).surroundings = Surroundings::Underground;
            run(job, 4).cover = Some(Length::from_inches(12.0));
        });
    }
}
