//! New pipe under the least size.

use super::look::Look;
use super::{BY_PROFILE, Found, Rule, Severity};
use crate::job::State;
use crate::units::Flow;

/// A profile may set the least size of an outlet; pipe that feeds it is not smaller.
pub const RULE: Rule = Rule {
    id: "size-below-least",
    title: "New pipe is smaller than the profile's minimum size",
    severity: Severity::Check,
    basis: BY_PROFILE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(least) = look.profile.least_size else { return };
    let under = |number: &usize| {
        let section = &look.study.sections[*number];
        let new_pipe = section.material.is_rigid() && section.state == State::New;
        // Without a published figure another rule blocks the size.
        let judged = section.sizing.capacity().is_some() || section.load.flow <= Flow::ZERO;
        new_pipe && judged && section.sizing.size.is_some_and(|size| size < least.value)
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(under).collect();
    if !sections.is_empty() {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "Under the minimum size of {} ({}): {}.",
                look.show(least.value),
                look.by_profile(least.mark),
                look.sections_named(&sections)
            ),
            format!("Use {} or larger.", look.show(least.value)),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, check, check_under, put, run};
    use super::RULE;
    use crate::codebook::{Codebook, Mark, Marked};
    use crate::job::{Cap, Device, Job};
    use crate::units::NominalSize;

    fn fix(size: NominalSize) -> impl Fn(&mut Job) {
        move |job| (3..=8).for_each(|number| run(job, number).size = Some(size))
    }

    #[test]
    fn the_profile_sets_the_least() {
        let mut profile = Codebook::published().default_profile().clone();
        profile.least_size = Some(Marked::new(NominalSize::Inch(12), Mark::Local));
        check_under(&RULE, &profile, 1, fix(NominalSize::HALF));
        check_under(&RULE, &profile, 0, fix(NominalSize::Inch(12)));
        check_under(&RULE, &profile, 0, |job| run(job, 2).size = Some(NominalSize::HALF));
    }

    #[test]
    fn a_size_without_a_figure_is_the_matter_of_another_rule() {
        check(&RULE, 0, fix(NominalSize::Inch(6)));
        check(&RULE, 1, |job| {
            fix(NominalSize::Inch(6))(job);
            put(job, PIT, Device::Cap(Cap::default()));
        });
    }
}
