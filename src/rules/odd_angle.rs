//! Turns that no stock fitting makes.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::fittings::FittingKind;
use crate::job::State;
use crate::units::Angle;

/// Stock elbows turn 90° or 45°.
pub const RULE: Rule = Rule {
    id: "odd-angle",
    title: "A turn is neither 90° nor 45°",
    severity: Severity::Check,
    basis: "ASME B16.3 lists elbows of 90° and 45° (from memory)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for fitting in &look.study.fittings {
        if let (FittingKind::OddElbow(tenths), State::New) = (fitting.kind, fitting.state) {
            found.at(
                look.at(fitting.joint),
                format!(
                    "At {} the line turns {}; stock elbows turn 90° or 45°.",
                    look.joint_name(fitting.joint),
                    look.show(Angle::from_degrees(f64::from(tenths) / 10.0))
                ),
                "Draw the turn with 90° and 45° elbows, or move a joint so that the angle is one of these; for a rolling offset enter rise, roll \
                 and angle.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, joint};
    use super::RULE;
    use crate::job::{Job, Material};

    /// Moves the outdoor part so many steps north, so that the line turns at the bend.
    fn slant(job: &mut Job, north: i32) {
        for number in BEND + 1..=9 {
            joint(job, number).at.north = north;
        }
    }

    #[test]
    fn only_stock_angles_are_quiet() {
        check(&RULE, 1, |job| slant(job, 2));
        check(&RULE, 0, |job| slant(job, 4));
    }

    #[test]
    fn tubing_bends_to_any_angle() {
        check(&RULE, 0, |job| {
            slant(job, 2);
            job.settings.material = Material::Csst;
        });
    }
}
