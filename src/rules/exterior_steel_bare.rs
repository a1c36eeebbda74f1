//! Steel outdoors that will rust.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Barrier, Surroundings};

/// Steel outdoors is painted or coated.
pub const RULE: Rule = Rule {
    id: "exterior-steel-bare",
    title: "Steel outdoors is not marked as painted or coated",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let outdoors = |run: usize| look.run(run).surroundings == Surroundings::Outdoors;
    // What goes into the ground must be coated for that.
    let runs = bare_steel(look, |run| outdoors(run) && !is_in_soil(look, run));
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!(
                "Steel outdoors, not marked as painted or coated: {}.",
                look.runs_named(&runs)
            ),
            "Paint it with rust-inhibiting paint (in many places gray or yellow), and check Painted, coated or wrapped for these runs.",
        );
    }
}

/// New steel that lies so and is not marked as coated.
pub fn bare_steel(look: &Look<'_>, lies: impl Fn(usize) -> bool) -> Vec<usize> {
    let steel = look.walk.pipes.iter();
    let steel = steel.filter(|pipe| pipe.is_new_pipe() && pipe.material.rusts());
    steel
        .map(|pipe| pipe.run)
        .filter(|&run| lies(run) && !look.run(run).coated)
        .collect()
}

/// Whether a run lies in the soil or goes into it.
pub fn is_in_soil(look: &Look<'_>, run: usize) -> bool {
    let run = look.run(run);
    let mut passages = run.penetrations.iter();
    run.surroundings == Surroundings::Underground || passages.any(|passage| passage.barrier == Barrier::Ground)
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Material;

    #[test]
    fn bare_steel_outdoors_is_told_once() {
        let found = check(&RULE, 1, |job| {
            (4..=8).for_each(|number| run(job, number).coated = false)
        });
        assert!(
            found[0].what.contains("runs R4, R5, R6, R7 and R8"),
            "{}",
            found[0].what
        );
        check(&RULE, 0, |_| {});
        check(&RULE, 0, |job| {
            run(job, 5).coated = false;
            run(job, 5).material = Some(Material::CopperL);
        });
    }
}
