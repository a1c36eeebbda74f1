//! New pipe under the least size.

use super::Look;
use crate::job::{Material, State};
use crate::study::{Found, Rule, Severity};

/// A profile may set the least size of an outlet; pipe that feeds it is not smaller.
pub const RULE: Rule = Rule {
    id: "size-below-least",
    title: "New pipe is smaller than the least size of the profile",
    severity: Severity::Caution,
    basis: "least outlet size of the fuel gas codes, 1/2 in (clause not read); the profile's own figure where it sets one",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(least) = look.profile.least_size else { return };
    let under = |number: &usize| {
        let section = &look.study.sections[*number];
        let new_steel = section.material == Material::Steel40 && section.state == State::New;
        new_steel && section.sizing.size.is_some_and(|size| size < least.value)
    };
    let sections: Vec<usize> = (0..look.study.sections.len()).filter(under).collect();
    if !sections.is_empty() {
        found.at_all(
            look.in_sections(&sections),
            format!(
                "Under the least size of {} ({}) is {}.",
                look.show(least.value),
                look.by_profile(least.mark),
                look.sections_named(&sections)
            ),
            format!("Take {} or more.", look.show(least.value)),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::units::NominalSize;

    #[test]
    fn half_an_inch_is_the_least() {
        let fix = |size| move |job: &mut crate::job::Job| (3..=8).for_each(|number| run(job, number).size = Some(size));
        check(&RULE, 1, fix(NominalSize::Inch(6)));
        check(&RULE, 0, fix(NominalSize::HALF));
        check(&RULE, 0, |job| run(job, 2).size = Some(NominalSize::Inch(6)));
    }
}
