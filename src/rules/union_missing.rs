//! Appliances that cannot be taken off the pipe.

use super::look::Look;
use super::shutoff_missing::new_appliances;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{DeviceKind, Surroundings};

/// Between the shutoff valve and the appliance rigid pipe can be opened.
pub const RULE: Rule = Rule {
    id: "union-missing",
    title: "No union between an appliance and its shutoff valve",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut bare = Vec::new();
    for joint in new_appliances(look).filter(|&joint| is_rigid(look, joint)) {
        let (valve, union) = (
            look.walk.own(joint, DeviceKind::Valve),
            look.walk.own(joint, DeviceKind::Union),
        );
        match (valve, union) {
            (Some(valve), Some(union)) if look.walk.upstream(valve, DeviceKind::Union) == Some(union) => found.at(
                look.at(joint),
                format!(
                    "{}: its union at {} is upstream of its shutoff valve at {}.",
                    look.outlet_name(joint),
                    look.joint_name(union),
                    look.joint_name(valve)
                ),
                "Put the union downstream of the valve, so that it can be opened with the gas off.",
            ),
            (_, Some(_)) => {}
            (valve, None) => {
                if !is_walled_in(look, joint, valve) {
                    bare.push(joint);
                }
            }
        }
    }
    if !bare.is_empty() {
        found.at_all(
            look.at_each(&bare),
            format!("No union in the rigid pipe ahead of {}.", look.outlets_named(&bare)),
            "Install a union near the appliance, downstream of its shutoff valve.",
        );
    }
}

/// Whether an appliance hangs on rigid pipe that does not come apart by itself, as a connector or a coupling does.
fn is_rigid(look: &Look<'_>, joint: usize) -> bool {
    let rigid = look
        .feed(joint)
        .is_some_and(|run| look.job.material(look.run(run)).is_rigid());
    rigid
        && [DeviceKind::Connector, DeviceKind::QuickCoupling]
            .iter()
            .all(|&kind| look.walk.own(joint, kind).is_none())
}

/// Whether all pipe from the valve to an appliance is concealed, where no union may be: a log lighter behind its masonry.
fn is_walled_in(look: &Look<'_>, appliance: usize, valve: Option<usize>) -> bool {
    let mut at = appliance;
    while Some(at) != valve
        && let (Some(run), Some(above)) = (look.feed(at), look.study.network.upstream(at))
    {
        if look.run(run).surroundings != Surroundings::Concealed {
            return false;
        }
        at = above;
    }
    at != appliance
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, UNION, VALVE, check, clear, put, run};
    use super::RULE;
    use crate::job::{Connector, Device, Job, Material, Surroundings, Valve};

    #[test]
    fn a_union_stands_downstream_of_the_valve() {
        check(&RULE, 0, |_| {});
        check(&RULE, 1, |job| clear(job, UNION));
        let found = check(&RULE, 1, |job| {
            put(job, VALVE, Device::Union);
            put(job, UNION, Device::Valve(Valve::default()));
        });
        assert!(
            found[0].what.contains("upstream of its shutoff valve at J7"),
            "{}",
            found[0].what
        );
    }

    #[test]
    fn none_is_asked_for_where_none_may_be() {
        let conceal = |from: u32| {
            move |job: &mut Job| {
                clear(job, UNION);
                (from..=8).for_each(|id| run(job, id).surroundings = Surroundings::Concealed);
            }
        };
        check(&RULE, 0, conceal(6));
        check(&RULE, 1, conceal(8));
    }

    #[test]
    fn what_comes_apart_by_itself_needs_none() {
        check(&RULE, 0, |job| {
            clear(job, UNION);
            put(job, TRAP, Device::Connector(Connector::default()));
        });
        check(&RULE, 0, |job| {
            clear(job, UNION);
            run(job, 8).material = Some(Material::CopperL);
        });
    }
}
