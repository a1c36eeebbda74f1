//! Valves nobody can reach.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Device, DeviceKind, Surroundings, ValveKind};

/// A shutoff valve can be reached.
pub const RULE: Rule = Rule {
    id: "valve-concealed",
    title: "A shutoff valve is in a concealed location",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    // A key valve is made for it: its key reaches it through the wall plate (common practice, no source).
    let by_key =
        |joint: usize| matches!(look.device(joint), Some(Device::Valve(valve)) if valve.kind == ValveKind::Key);
    for joint in hidden(look, DeviceKind::Valve).filter(|&joint| !by_key(joint)) {
        found.at(
            look.at(joint),
            format!(
                "The shutoff valve at {} is where all pipe is concealed.",
                look.joint_name(joint)
            ),
            "Move it where it can be reached, or give it an access panel and say so in a note. If it is a key valve, enter \
             that kind.",
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
    use super::super::sample::{VALVE, check, put, run};
    use super::RULE;
    use crate::job::{Device, Surroundings, Valve, ValveKind};

    #[test]
    fn where_pipe_leaves_the_wall_a_valve_is_in_reach() {
        check(&RULE, 0, |job| run(job, 5).surroundings = Surroundings::Concealed);
        check(&RULE, 1, |job| {
            run(job, 5).surroundings = Surroundings::Concealed;
            run(job, 6).surroundings = Surroundings::Concealed;
        });
        check(&RULE, 0, |job| {
            run(job, 5).surroundings = Surroundings::Concealed;
            run(job, 6).surroundings = Surroundings::Concealed;
            let key = Valve {
                kind: ValveKind::Key,
                ..Valve::default()
            };
            put(job, VALVE, Device::Valve(key));
        });
    }
}
