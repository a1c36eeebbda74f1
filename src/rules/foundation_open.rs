//! Foundation walls with bare pipe through them.

use super::exterior_wall_open::new_passages;
use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Barrier, Seal};

/// Pipe through a foundation wall lies in a sleeve, and both gaps are closed.
pub const RULE: Rule = Rule {
    id: "foundation-open",
    title: "Pipe passes through a foundation wall without a sleeve or seal",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, at, passage) in new_passages(look, Barrier::Foundation) {
        let missing = match (passage.sleeved, passage.seal == Seal::Open) {
            (false, true) => "no sleeve and no seal are shown",
            (false, false) => "no sleeve is shown",
            (true, true) => "no seal of the gaps is shown",
            (true, false) => continue,
        };
        found.through(at);
        found.at(
            look.on(number),
            format!(
                "Run {} passes through a foundation wall, and {missing}.",
                look.run(number).id
            ),
            "Sleeve the pipe, seal the gaps between pipe and sleeve and between sleeve and wall, and mark both.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Seal};

    #[test]
    fn a_foundation_wants_sleeve_and_seal() {
        let pass = |sleeved, seal| {
            move |job: &mut Job| {
                let passage = &mut run(job, 4).penetrations[0];
                (passage.barrier, passage.sleeved, passage.seal) = (Barrier::Foundation, sleeved, seal);
            }
        };
        check(&RULE, 1, pass(false, Seal::Open));
        check(&RULE, 1, pass(false, Seal::BothFaces));
        check(&RULE, 1, pass(true, Seal::Open));
        check(&RULE, 0, pass(true, Seal::BothFaces));
    }
}
