//! Joints of more ways than a cross.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::fittings::FittingKind;
use crate::job::State;

/// No stock fitting has more than four ways.
pub const RULE: Rule = Rule {
    id: "many-ways",
    title: "More runs meet than a cross joins",
    severity: Severity::Check,
    basis: "ASME B16.3 lists no fitting with more than four openings (from memory)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for fitting in &look.study.fittings {
        if let (FittingKind::ManyWays(ways @ 5..), State::New) = (fitting.kind, fitting.state) {
            found.at(
                look.at(fitting.joint),
                format!(
                    "{ways} runs meet at {}; a cross joins four.",
                    look.joint_name(fitting.joint)
                ),
                "Use two tees with a short run between, or name the manifold in a note.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TEE, check, extend, put};
    use super::RULE;
    use crate::job::{Cap, Device, Job};

    fn branch(job: &mut Job, way: (i32, i32, i32)) {
        let end = extend(job, TEE, way);
        put(job, end, Device::Cap(Cap::default()));
    }

    #[test]
    fn five_ways_are_too_many_for_one_fitting() {
        check(&RULE, 0, |job| branch(job, (0, 0, -2)));
        check(&RULE, 1, |job| {
            branch(job, (0, 0, -2));
            branch(job, (0, -2, 0));
        });
    }
}
