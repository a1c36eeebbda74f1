//! Street elbows where they are barred.

use super::look::Look;
use super::{BY_PROFILE, Found, Rule, Severity};
use crate::codebook::FittingSwitch;
use crate::fittings::FittingKind;
use crate::job::State;

/// Some codes bar street elbows.
pub const RULE: Rule = Rule {
    id: "street-elbow-barred",
    title: "A street elbow is drawn where the profile prohibits them",
    severity: Severity::MustFix,
    basis: BY_PROFILE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.profile.street_elbows == FittingSwitch::Allowed {
        return;
    }
    let barred = look
        .study
        .fittings
        .iter()
        .filter(|fitting| fitting.kind == FittingKind::StreetElbow90 && fitting.state == State::New);
    let joints: Vec<usize> = barred.map(|fitting| fitting.joint).collect();
    if !joints.is_empty() {
        found.at_all(
            look.at_each(&joints),
            format!(
                "The profile prohibits street elbows; drawn at {}.",
                look.joints_named(&joints)
            ),
            "Turn there with an elbow and a nipple.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, check_under, joint};
    use super::{RULE, Severity};
    use crate::codebook::{Codebook, FittingSwitch};
    use crate::job::{Job, Turn};

    #[test]
    fn only_where_they_are_barred() {
        let street = |job: &mut Job| joint(job, 5).turn = Turn::StreetElbow;
        let mut profile = Codebook::published().default_profile().clone();
        profile.street_elbows = FittingSwitch::Barred;
        let found = check_under(&RULE, &profile, 1, street);
        assert_eq!(
            found[0].severity,
            Severity::MustFix,
            "who bars them wants none, in whatever country"
        );
        check_under(&RULE, &profile, 0, |_| {});
        check(&RULE, 0, street);
    }
}
