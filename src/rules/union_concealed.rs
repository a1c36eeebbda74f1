//! Unions in concealed places.

use super::look::Look;
use super::valve_concealed::hidden;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;

/// No union in a concealed place.
pub const RULE: Rule = Rule {
    id: "union-concealed",
    title: "A union is in a concealed location",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in hidden(look, DeviceKind::Union) {
        found.at(
            look.at(joint),
            format!(
                "The union at {} is where all pipe is concealed.",
                look.joint_name(joint)
            ),
            "Move it where it stays exposed, or join the pipe there with a plain coupling.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{UNION, check, joint, run};
    use super::RULE;
    use crate::job::{Job, State, Surroundings};

    fn hide(job: &mut Job) {
        run(job, 6).surroundings = Surroundings::Concealed;
        run(job, 7).surroundings = Surroundings::Concealed;
    }

    #[test]
    fn a_new_union_stays_in_sight() {
        check(&RULE, 1, hide);
        check(&RULE, 0, |job| run(job, 7).surroundings = Surroundings::Concealed);
        check(&RULE, 0, |job| {
            hide(job);
            joint(job, UNION).placed.as_mut().unwrap().state = State::Existing;
        });
    }
}
