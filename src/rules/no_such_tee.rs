//! Three or four ways that meet as in no tee and no cross.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::fittings::FittingKind;
use crate::job::{Device, State};

/// A tee has two ways in line and one square to them, a cross two such pairs.
pub const RULE: Rule = Rule {
    id: "no-such-tee",
    title: "Three or four runs meet at angles that no tee or cross has",
    severity: Severity::Check,
    basis: "ASME B16.3 lists tees and crosses with square outlets and a straight run (from memory)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for fitting in look.study.fittings.iter().filter(|fitting| fitting.state == State::New) {
        let name = look.joint_name(fitting.joint);
        let is_trap = matches!(look.device(fitting.joint), Some(Device::SedimentTrap(_)));
        let (what, remedy) = match fitting.kind {
            FittingKind::SideOutletElbow if is_trap => (
                format!(
                    "At {name} pipe turns sideways above the drip leg of the sediment trap: three openings, each square to the others. No tee has \
                     three square openings."
                ),
                "Bring the gas in from the side and out at the top, or in from above and out at the side, with the drip leg below; or draw an \
                 elbow and a tee with a short run between.",
            ),
            FittingKind::SideOutletElbow => (
                format!("At {name} three runs meet, each square to the others. No tee has three square openings."),
                "Draw a tee and an elbow with a short run between, or use a side-outlet elbow that is listed for gas.",
            ),
            FittingKind::SideOutletTee => (
                format!(
                    "At {name} two outlets of a straight run are square to each other; those of a cross are in line."
                ),
                "Draw two tees with a short run between, or use a side-outlet tee that is listed for gas.",
            ),
            FittingKind::ManyWays(ways @ 3..=4) => (
                format!("At {name} {ways} runs meet at angles that no tee or cross has."),
                "Take the branch off square to a straight run, and turn it with a 45° elbow after the tee.",
            ),
            _ => continue,
        };
        found.at(look.at(fitting.joint), what, remedy);
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, TEE, TRAP, check, extend, joint, put};
    use super::RULE;
    use crate::job::{Cap, Device, Job, Material};

    fn branch(job: &mut Job, from: u32, way: (i32, i32, i32)) {
        let end = extend(job, from, way);
        put(job, end, Device::Cap(Cap::default()));
    }

    /// Turns the pipe from the trap to the fire pit, and lays the pipe that comes to it level.
    fn corner(job: &mut Job) {
        joint(job, TRAP - 1).at = joint(job, TRAP).at;
        joint(job, TRAP - 1).at.north -= 2;
    }

    #[test]
    fn no_tee_has_three_square_ways() {
        check(&RULE, 0, |job| branch(job, BEND, (0, 2, 0)));
        // From the bend at J5 one way comes from the west and one goes down.
        let list = check(&RULE, 1, |job| branch(job, 5, (0, 2, 0)));
        assert!(list[0].what.contains("three square openings"), "{list:?}");
    }

    #[test]
    fn a_trap_in_which_gas_turns_sideways_is_no_tee() {
        let list = check(&RULE, 1, corner);
        assert!(list[0].what.contains("sediment trap"), "{list:?}");
    }

    #[test]
    fn a_cross_lies_in_one_plane() {
        check(&RULE, 0, |job| branch(job, TEE, (0, -2, 0)));
        check(&RULE, 1, |job| branch(job, TEE, (0, 0, -2)));
    }

    #[test]
    fn branches_leave_square() {
        check(&RULE, 1, |job| branch(job, BEND, (2, 2, 0)));
    }

    #[test]
    fn tubing_bends_into_its_tee() {
        check(&RULE, 0, |job| {
            branch(job, 5, (0, 2, 0));
            job.settings.material = Material::Csst;
        });
    }
}
