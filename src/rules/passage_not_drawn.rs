//! Ways into and out of the building that are not drawn.

use super::look::Look;
use super::pipe::is_outside;
use super::walk::is_pierced;
use super::{Found, Rule, Severity};
use crate::job::State;

/// Where pipe leaves or enters the building it passes through something.
pub const RULE: Rule = Rule {
    id: "passage-not-drawn",
    title: "Pipe enters or leaves the building with no wall drawn",
    severity: Severity::Note,
    basis: "drawings show what pipe passes through: common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    // A run that lies where no other does meets its like at neither end: look only where there are both.
    let outside = look.walk.pipes.iter().filter(|pipe| pipe.is_outside()).count();
    if outside == 0 || outside == look.walk.pipes.len() {
        return;
    }
    let mut joints = Vec::new();
    for pipe in &look.walk.pipes {
        let Some((from, _)) = look.study.network.ends[pipe.run] else {
            continue;
        };
        let Some(before) = look.feed(from) else { continue };
        let (near, far) = (look.run(before), look.run(pipe.run));
        let changes = is_outside(near.surroundings) != is_outside(far.surroundings);
        let new = near.state == State::New || far.state == State::New;
        if changes && new && !is_pierced(near) && !is_pierced(far) {
            joints.push(from);
        }
    }
    joints.sort_unstable();
    joints.dedup();
    if !joints.is_empty() {
        found.at_all(
            look.at_each(&joints),
            format!(
                "Pipe enters or leaves the building at {}, and no run there passes through a wall, floor or slab.",
                look.joints_named(&joints)
            ),
            "Add the penetration to the run that passes through.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Surroundings;

    #[test]
    fn the_wall_belongs_on_one_of_the_two_runs() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, |job| run(job, 4).penetrations.clear());
        check(&RULE, 0, |job| {
            let wall = run(job, 4).penetrations.drain(..).next();
            run(job, 3).penetrations.extend(wall);
        });
    }

    #[test]
    fn pipe_outdoors_goes_into_the_ground_without_a_wall() {
        check(&RULE, 0, |job| run(job, 6).surroundings = Surroundings::Underground);
    }
}
