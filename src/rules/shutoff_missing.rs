//! Appliances without a shutoff valve of their own.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;
use crate::units::Length;

/// A shutoff valve within 6 ft of each appliance, in the same room, for this appliance alone. Pipe counts, a hose or
/// connector does not: the clauses want the valve at the end of the pipe, before it.
pub const RULE: Rule = Rule {
    id: "shutoff-missing",
    title: "No shutoff valve within {6 ft} of an appliance, in the same room",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

const REACH: f64 = 6.0;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let reach = Length::from_feet(REACH);
    for joint in new_appliances(look) {
        let name = || look.outlet_name(joint);
        let own = look.walk.own(joint, DeviceKind::Valve);
        // A hose is no pipe: what is counted ends where it begins. A valve within the hose is at its end.
        let end = look.pipe_end(joint);
        let away = own.map_or(Length::ZERO, |valve| look.distance(end) - look.distance(valve));
        let (what, remedy) = match (own, look.walk.upstream(joint, DeviceKind::Valve)) {
            (Some(valve), _) if away > reach => (
                match end == joint {
                    true => format!(
                        "{}: its shutoff valve at {} is {} of pipe away, more than {}.",
                        name(),
                        look.joint_name(valve),
                        look.show(away),
                        look.limit(reach)
                    ),
                    false => format!(
                        "{}: its shutoff valve at {} is {} of pipe away from {}, where its connector begins, more than {}.",
                        name(),
                        look.joint_name(valve),
                        look.show(away),
                        look.joint_name(end),
                        look.limit(reach)
                    ),
                },
                "Move the valve within this length of the appliance, or of the end of the pipe where a connector continues."
                    .to_owned(),
            ),
            (Some(valve), _) if !look.walk.one_room(valve, joint) => (
                format!(
                    "{}: its shutoff valve at {} is on the other side of a wall or floor.",
                    name(),
                    look.joint_name(valve)
                ),
                "Put the valve in the room with the appliance, or outdoors if the appliance is outdoors.".to_owned(),
            ),
            (Some(_), _) => continue,
            (None, Some(shared)) => (
                format!(
                    "{} has no shutoff valve of its own; the valve at {} also serves other outlets.",
                    name(),
                    look.joint_name(shared)
                ),
                format!(
                    "Install a shutoff valve after the last tee, within {} of the appliance and in the same room (outdoors, if the appliance is outdoors).",
                    look.limit(reach)
                ),
            ),
            (None, None) => (
                format!("{} has no shutoff valve between it and the point of delivery.", name()),
                format!(
                    "Install a shutoff valve within {} of the appliance, in the same room (outdoors, if the appliance is outdoors).",
                    look.limit(reach)
                ),
            ),
        };
        found.at(look.at(joint), what, remedy);
    }
}

/// Appliances that gas reaches and that are new, or newly piped. How old ones are connected is left alone.
pub fn new_appliances<'a>(look: &Look<'a>) -> impl Iterator<Item = usize> + use<'a> {
    let look = *look;
    let all = look.walk.all(DeviceKind::Appliance).iter().copied();
    all.filter(move |&joint| look.walk.reaches(joint) && look.is_new_work(joint))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, VALVE, check, clear, extend, put, run};
    use super::RULE;
    use crate::job::{Barrier, Cap, Device, Job, Penetration, QuickCoupling, Surroundings};
    use crate::units::Length;

    #[test]
    fn a_valve_is_wanted_on_the_way() {
        let found = check(&RULE, 1, |job| clear(job, VALVE));
        assert!(found[0].what.contains("(B) at J9"), "{}", found[0].what);
        check(&RULE, 0, |_| {});
    }

    /// The wall is in a run before the valve; that the pipe is outdoors is said only of the last run.
    #[test]
    fn a_valve_beyond_the_wall_is_outdoors_with_its_appliance() {
        let inside = |last: u32| {
            move |job: &mut Job| (4..=last).for_each(|id| run(job, id).surroundings = Surroundings::Indoors)
        };
        check(&RULE, 0, inside(7));
        let found = check(&RULE, 1, |job| {
            run(job, 4).penetrations.clear();
            inside(7)(job);
        });
        assert!(found[0].what.contains("other side of a wall"), "{}", found[0].what);
    }

    #[test]
    fn six_feet_are_measured_along_the_pipe() {
        let long = |feet: f64| move |job: &mut crate::job::Job| run(job, 8).length = Some(Length::from_feet(feet));
        check(&RULE, 0, long(5.0));
        check(&RULE, 1, long(5.1));
    }

    /// The hose of an outdoor appliance may be 12 ft long; its valve stands at the end of the pipe, before the coupling
    /// (CPC 2013 1211.1, 1211.3).
    #[test]
    fn a_hose_is_no_pipe_to_the_shutoff() {
        let hosed = |pipe: f64| {
            move |job: &mut crate::job::Job| {
                put(job, TRAP, Device::QuickCoupling(QuickCoupling::default()));
                run(job, 7).length = Some(Length::from_feet(pipe));
                run(job, 8).length = Some(Length::from_feet(12.0));
            }
        };
        // From the valve J6 to the coupling J8 lies 1/2 ft of pipe and what is put in here.
        check(&RULE, 0, hosed(5.5));
        let found = check(&RULE, 1, hosed(5.6));
        assert!(
            found[0].what.contains("from J8, where its connector begins"),
            "{}",
            found[0].what
        );
    }

    #[test]
    fn a_wall_between_parts_them_and_the_ground_line_does_not() {
        let pierce = |barrier| {
            move |job: &mut crate::job::Job| {
                run(job, 8).penetrations.push(Penetration {
                    barrier,
                    ..Penetration::default()
                })
            }
        };
        check(&RULE, 1, pierce(Barrier::InteriorWall));
        check(&RULE, 0, pierce(Barrier::Ground));
    }

    #[test]
    fn so_does_a_change_between_inside_and_outside() {
        check(&RULE, 1, |job| run(job, 8).surroundings = Surroundings::Indoors);
        check(&RULE, 0, |job| run(job, 8).surroundings = Surroundings::Underground);
    }

    #[test]
    fn a_shared_valve_is_not_its_own() {
        let found = check(&RULE, 1, |job| {
            let end = extend(job, TRAP, (0, 2, 0));
            put(job, end, Device::Cap(Cap::default()));
        });
        assert!(found[0].what.contains("the valve at J6"), "{}", found[0].what);
    }
}
