//! Existing pipe of which nobody said the size.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::Detail;
use crate::sizing::Origin;
use crate::units::Flow;

/// Old pipe on the way to a load must be known.
pub const RULE: Rule = Rule {
    id: "existing-size-unknown",
    title: "The size of existing pipe is not entered",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let unread = |number: &usize| {
        let section = &look.study.sections[*number];
        section.sizing.origin == Origin::Unknown && section.load.flow > Flow::ZERO
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(unread).collect();
    if !sections.is_empty() {
        found.put_right_in(Detail::Size);
        found.at_all(
            look.in_sections(&sections),
            format!("Existing pipe size not entered: {}.", look.sections_named(&sections)),
            "Field-verify it (outside diameter, or the mark on a fitting) and enter the size.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::State;

    #[test]
    fn old_pipe_wants_a_size_and_new_pipe_none() {
        check(&RULE, 1, |job| run(job, 1).size = None);
        check(&RULE, 0, |job| {
            (run(job, 1).size, run(job, 1).state) = (None, State::New)
        });
    }
}
