//! Jobs that name a profile nobody has.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;

/// Another profile than the one named was used.
pub const RULE: Rule = Rule {
    id: "profile-unknown",
    title: "The job names a profile that is not loaded",
    severity: Severity::MustFix,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.study.profile_missing {
        let known: Vec<&str> = look
            .book
            .profiles()
            .iter()
            .map(|profile| profile.name.as_str())
            .collect();
        found.at(
            Place::Job,
            format!(
                "The job names the profile \"{}\", which is not loaded; everything was worked out by {}.",
                look.job.settings.profile, look.profile.name
            ),
            format!(
                "Name one of {}, or open the file of the missing one (Your tables and profiles, or --profile).",
                known.join(", ")
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::Checked;
    use super::super::sample::good;
    use super::RULE;
    use crate::codebook::Codebook;

    #[test]
    fn another_profile_is_not_taken_in_silence() {
        let told = |name: &str| {
            let mut job = good();
            name.clone_into(&mut job.settings.profile);
            let checked = Checked::of(&job, Codebook::published());
            checked
                .findings
                .iter()
                .filter(|finding| finding.rule == RULE.id)
                .count()
        };
        assert_eq!(told("atlantis"), 1);
        assert_eq!(told("us-ifgc"), 0);
    }
}
