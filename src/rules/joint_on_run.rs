//! Joints that touch a run of which they are no end.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::Axis;

/// A joint within a run looks joined to it. Looked for along the axes only.
pub const RULE: Rule = Rule {
    id: "joint-on-run",
    title: "A joint touches a run without being connected to it",
    severity: Severity::Check,
    basis: "a drawing must show what is connected; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let own = own_axes(look);
    for (number, own) in own.iter().enumerate() {
        let joint = look.joint(number);
        if look.walk.live_legs(number) == 0 && look.walk.kind(number).is_none() {
            continue;
        }
        let through = (0..3)
            .filter(|&axis| !own[axis])
            .find_map(|axis| look.walk.lines.through(look.job, axis, joint.at));
        if let Some(run) = through {
            found.at_all(
                [look.at(number), look.on(run)],
                format!(
                    "{} is on run {} but is not one of its ends: it looks connected and is not.",
                    look.joint_name(number),
                    look.run(run).id
                ),
                "Split the run there if they are connected, or move the joint aside.",
            );
        }
    }
}

/// For each joint the axes along which runs of its own go. Another run on such an axis lies over one of these, which
/// another rule tells.
fn own_axes(look: &Look<'_>) -> Vec<[bool; 3]> {
    let mut own = vec![[false; 3]; look.job.joints.len()];
    for pipe in &look.walk.pipes {
        let Some((from, to)) = look.study.network.joints_of[pipe.run] else {
            continue;
        };
        if let Some(axis) = (look.joint(to).at - look.joint(from).at).axis() {
            for end in [from, to] {
                own[end][axis_number(axis)] = true;
            }
        }
    }
    own
}

const fn axis_number(axis: Axis) -> usize {
    match axis {
        Axis::East => 0,
        Axis::North => 1,
        Axis::Up => 2,
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, check, extend};
    use super::RULE;

    #[test]
    fn an_end_on_a_foreign_run_looks_joined() {
        // R3 goes from (4, 0) to (8, 0) at height 6; the furnace stands at (4, 4).
        let found = check(&RULE, 1, |job| {
            let corner = extend(job, FURNACE, (2, 0, 0));
            extend(job, corner, (0, -4, 0));
        });
        assert!(found[0].what.contains("run R3"), "{}", found[0].what);
        check(&RULE, 0, |job| {
            let corner = extend(job, FURNACE, (2, 0, 0));
            extend(job, corner, (0, -3, 0));
        });
    }
}
