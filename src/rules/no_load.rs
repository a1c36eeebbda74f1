//! New pipe that leads to no load.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::sizing::Origin;
use crate::units::Flow;

/// Pipe without a load has nothing to be sized by.
pub const RULE: Rule = Rule {
    id: "no-load",
    title: "New pipe serves no load, so it cannot be sized",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let idle = |number: &usize| {
        let section = &look.study.sections[*number];
        let open = section.sizing.origin == Origin::Found && section.sizing.size.is_none();
        open && section.load.flow <= Flow::ZERO && section.load.unknown == 0
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(idle).collect();
    if !sections.is_empty() {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "No present or future load is downstream of {}, so no size can be found.",
                look.sections_named(&sections)
            ),
            "Enter the future input at the cap, or set the size of the line by hand.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, TEE, check, extend, put, run};
    use super::RULE;
    use crate::job::{Cap, Device};
    use crate::units::{HeatRate, NominalSize};

    #[test]
    fn a_stub_for_nobody_wants_a_size_by_hand() {
        let stub = |job: &mut crate::job::Job| {
            let end = extend(job, TEE, (0, -3, 0));
            put(job, end, Device::Cap(Cap::default()));
        };
        check(&RULE, 1, stub);
        check(&RULE, 0, |job| {
            stub(job);
            run(job, 9).size = Some(NominalSize::HALF);
        });
        check(&RULE, 0, |job| {
            let future_input = Some(HeatRate::from_mbh(30.0));
            put(
                job,
                PIT,
                Device::Cap(Cap {
                    future_input,
                    projection: None,
                }),
            );
        });
    }
}
