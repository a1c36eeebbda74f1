//! Lines to the outdoors that cannot be shut as a whole.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{DeviceKind, State, Surroundings};
use crate::network::OutletKind;
use crate::study::how_many;

/// A line that leaves the building to serve the outdoors can be shut before it parts.
pub const RULE: Rule = Rule {
    id: "outdoor-shutoff",
    title: "A line leaves the building with no shutoff valve ahead of its first tee",
    severity: Severity::Check,
    basis: "common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let leaving = ways_out(look);
    if leaving.is_empty() {
        return;
    }
    let ahead = valve_ahead(look);
    for (joint, run) in leaving {
        let (Some(section), Some((_, next))) = (look.study.runs[run].section, look.study.network.ends[run]) else {
            continue;
        };
        let serves = &look.study.sections[section].serves;
        // One appliance has a shutoff of its own, or another rule asks for it.
        let parts = match serves.len() {
            0 => false,
            1 => look.study.outlets[serves.start].kind == OutletKind::Future,
            _ => true,
        };
        let alone = look.study.network.onward(joint).nth(1).is_none();
        let before = look.walk.kind(joint) == Some(DeviceKind::Valve)
            || (alone && look.walk.own(joint, DeviceKind::Valve).is_some());
        if parts && !before && !ahead[next] {
            let outlets = how_many(serves.len(), "outlet");
            found.at(
                look.at(joint),
                format!(
                    "Run {} leaves the building at {} to serve {outlets} with no shutoff valve ahead of its first tee.",
                    look.run(run).id,
                    look.joint_name(joint)
                ),
                "Install a shutoff valve where the line leaves the building.",
            );
        }
    }
}

/// Joints at which gas leaves the building through new pipe, each with the run by which it does.
fn ways_out(look: &Look<'_>) -> Vec<(usize, usize)> {
    let outside = look.walk.pipes.iter().filter(|pipe| pipe.is_outside());
    let mut ways: Vec<(usize, usize)> = outside
        .filter_map(|pipe| {
            let (from, _) = look.study.network.ends[pipe.run]?;
            let before = look.run(look.feed(from)?);
            let new = pipe.is_new() || before.state == State::New;
            let inside = matches!(before.surroundings, Surroundings::Indoors | Surroundings::Concealed);
            (new && inside).then_some((from, pipe.run))
        })
        .collect();
    ways.sort_unstable();
    ways
}

/// For each joint whether a valve stands there or further on before the line parts.
fn valve_ahead(look: &Look<'_>) -> Vec<bool> {
    let network = &look.study.network;
    let mut ahead = vec![false; look.job.joints.len()];
    for &joint in network.order.iter().rev() {
        let mut onward = network.onward(joint).filter_map(|run| network.ends[run]);
        let further = match (onward.next(), onward.next()) {
            (Some((_, next)), None) => ahead[next],
            _ => false,
        };
        ahead[joint] = further || look.walk.kind(joint) == Some(DeviceKind::Valve);
    }
    ahead
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, VALVE, check, clear, extend, put};
    use super::RULE;
    use crate::job::{Appliance, Device, Job, Valve};

    fn two(job: &mut Job) {
        let end = extend(job, 5, (3, 0, 0));
        put(job, end, Device::Appliance(Appliance::default()));
    }

    #[test]
    fn two_outlets_outdoors_want_one_valve() {
        check(&RULE, 1, two);
        check(&RULE, 0, |job| {
            two(job);
            put(job, BEND, Device::Valve(Valve::default()));
        });
        check(&RULE, 0, |job| {
            two(job);
            put(job, 5, Device::Valve(Valve::default()));
        });
    }

    #[test]
    fn a_single_appliance_is_the_matter_of_its_own_valve() {
        check(&RULE, 0, |job| clear(job, VALVE));
    }
}
