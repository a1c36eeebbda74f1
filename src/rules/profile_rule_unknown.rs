//! Profiles that switch a rule nobody has.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;

/// A misspelt rule is neither switched off nor given another weight.
pub const RULE: Rule = Rule {
    id: "profile-rule-unknown",
    title: "The profile names a rule that does not exist",
    severity: Severity::Check,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for id in look.profile.rules.keys().filter(|id| super::rule(id).is_none()) {
        found.at(
            Place::Job,
            format!(
                "The profile {} sets a severity for the rule \"{id}\", which does not exist.",
                look.profile.name
            ),
            "Correct the name in the profile: `stubout rules` lists them all.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check_under;
    use super::RULE;
    use crate::codebook::{Codebook, RuleSetting};

    #[test]
    fn a_misspelt_rule_is_told() {
        let mut profile = Codebook::published().default_profile().clone();
        profile.rules.insert("union-mising".to_owned(), RuleSetting::Off);
        check_under(&RULE, &profile, 1, |_| {});
        profile.rules.clear();
        profile.rules.insert("union-missing".to_owned(), RuleSetting::Off);
        check_under(&RULE, &profile, 0, |_| {});
    }
}
