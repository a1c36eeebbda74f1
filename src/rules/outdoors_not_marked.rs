//! Exterior walls with no outdoors beyond them.

use super::look::Look;
use super::pipe::is_outside;
use super::{Found, Rule, Severity};
use crate::job::{Barrier, Detail, Run, State};

/// On one side of an exterior wall pipe lies outdoors: it is coated, and its valves and appliances are looked at as such.
pub const RULE: Rule = Rule {
    id: "outdoors-not-marked",
    title: "Pipe passes through an exterior wall and is drawn indoors on both sides",
    severity: Severity::Check,
    basis: "coating and shutoffs outdoors are checked by location: common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let through = |run: &Run| {
        run.penetrations
            .iter()
            .any(|passage| passage.barrier == Barrier::ExteriorWall)
    };
    let outside = |run: &Run| is_outside(run.surroundings);
    let mut runs = Vec::new();
    for &at in &look.walk.piercing {
        let run = look.run(at);
        let ends = [run.from, run.to]
            .into_iter()
            .filter_map(|end| look.job.joints.position(end));
        let mut legs = ends.flat_map(|end| look.live_legs(end));
        if run.state == State::New && through(run) && !outside(run) && !legs.any(outside) {
            runs.push(at);
        }
    }
    if !runs.is_empty() {
        found.put_right_in(Detail::Location);
        found.at_all(
            look.on_all(&runs),
            format!(
                "Pipe passes through an exterior wall, but its location is indoors on both sides: {}.",
                look.runs_named(&runs)
            ),
            "Set the location of the pipe outside to outdoors (or underground). If both sides are indoors, draw an interior wall.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Surroundings;

    #[test]
    fn one_side_of_an_exterior_wall_is_outdoors() {
        check(&RULE, 0, |_| {});
        check(&RULE, 0, |job| run(job, 4).surroundings = Surroundings::Indoors);
        let found = check(&RULE, 1, |job| {
            (4..=8).for_each(|id| run(job, id).surroundings = Surroundings::Indoors);
        });
        assert!(found[0].what.contains("R4"), "{}", found[0].what);
    }
}
