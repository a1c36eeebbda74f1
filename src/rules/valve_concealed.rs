//! Valves nobody can reach.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{DeviceKind, Surroundings};

/// A shutoff valve can be reached.
pub const RULE: Rule = Rule {
    id: "valve-concealed",
    title: "A shutoff valve is in a concealed location",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in hidden(look, DeviceKind::Valve) {
        found.at(
            look.at(joint),
            format!(
                "The shutoff valve at {} is where all pipe is concealed.",
                look.joint_name(joint)
            ),
            "Move it where it can be reached, or give it an access panel and say so in a note.",
        );
    }
}

/// New devices of a kind between runs that are all concealed.
pub fn hidden<'a>(look: &Look<'a>, kind: DeviceKind) -> impl Iterator<Item = usize> + use<'a> {
    let look = *look;
    let all = look.walk.all(kind).iter().copied();
    all.filter(move |&joint| {
        let new = look.is_new(joint);
        let mut legs = look.live_legs(joint).peekable();
        new && legs.peek().is_some() && legs.all(|run| run.surroundings == Surroundings::Concealed)
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Surroundings;

    #[test]
    fn where_pipe_leaves_the_wall_a_valve_is_in_reach() {
        check(&RULE, 0, |job| run(job, 5).surroundings = Surroundings::Concealed);
        check(&RULE, 1, |job| {
            run(job, 5).surroundings = Surroundings::Concealed;
            run(job, 6).surroundings = Surroundings::Concealed;
        });
    }
}
