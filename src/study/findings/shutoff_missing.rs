//! Appliances without a shutoff valve of their own.

use super::{Kind, Look};
use crate::study::{Found, Rule, Severity};
use crate::units::Length;

/// A shutoff valve within 6 ft of each appliance, in the same room, for this appliance alone.
pub const RULE: Rule = Rule {
    id: "shutoff-missing",
    title: "No shutoff valve within 6 ft of an appliance, in the same room",
    severity: Severity::Blocking,
    basis: "CPC 2013 1211.5, 1211.8 (NFPA 54-2012); IFGC asks the same, clause not read",
    check,
};

const REACH: f64 = 6.0;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let reach = Length::from_feet(REACH);
    for joint in new_appliances(look) {
        let name = || look.outlet_name(joint);
        let own = look.walk.own(joint, Kind::Valve);
        let away = own.map_or(Length::ZERO, |valve| look.distance(joint) - look.distance(valve));
        let (what, remedy) = match (own, look.walk.upstream(joint, Kind::Valve)) {
            (Some(valve), _) if away > reach => (
                format!(
                    "{}: its shutoff valve at {} is {} of pipe away, more than {}.",
                    name(),
                    look.joint_name(valve),
                    look.show(away),
                    look.show(reach)
                ),
                "Move the valve within this length of the appliance, or add one there.",
            ),
            (Some(valve), _) if !look.walk.one_room(valve, joint) => (
                format!(
                    "{}: its shutoff valve at {} stands on the other side of a wall or floor.",
                    name(),
                    look.joint_name(valve)
                ),
                "Put the valve in the room of the appliance, or outdoors where it stands outdoors.",
            ),
            (Some(_), _) => continue,
            (None, Some(shared)) => (
                format!(
                    "{} has no shutoff valve of its own: the one at {} serves other outlets too.",
                    name(),
                    look.joint_name(shared)
                ),
                "Put a shutoff valve behind the last branching, within 6 ft of the appliance and in its room.",
            ),
            (None, None) => (
                format!("{} has no shutoff valve on the way from the point of delivery.", name()),
                "Put a shutoff valve within 6 ft of the appliance, in its room.",
            ),
        };
        found.at(look.at(joint), what, remedy);
    }
}

/// Appliances that gas reaches and that are new, or newly piped. How old ones are connected is left alone.
pub fn new_appliances<'a>(look: &Look<'a>) -> impl Iterator<Item = usize> + use<'a> {
    let look = *look;
    let all = look.walk.all(Kind::Appliance).iter().copied();
    all.filter(move |&joint| look.walk.reaches(joint) && look.is_new_work(joint))
}

#[cfg(test)]
mod tests {
    use super::super::sample::{TRAP, VALVE, check, clear, extend, put, run};
    use super::RULE;
    use crate::job::{Barrier, Cap, Device, Penetration, Surroundings};
    use crate::units::Length;

    #[test]
    fn a_valve_is_wanted_on_the_way() {
        let found = check(&RULE, 1, |job| clear(job, VALVE));
        assert!(found[0].what.contains("(B) at J9"), "{}", found[0].what);
        check(&RULE, 0, |_| {});
    }

    #[test]
    fn six_feet_are_measured_along_the_pipe() {
        let long = |feet: f64| move |job: &mut crate::job::Job| run(job, 8).length = Some(Length::from_feet(feet));
        check(&RULE, 0, long(5.0));
        check(&RULE, 1, long(5.1));
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
        assert!(found[0].what.contains("the one at J6"), "{}", found[0].what);
    }
}
