//! Regulators that cannot be taken out.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::DeviceKind;
use crate::units::Length;

/// On rigid pipe a union stands within 1 ft of a line regulator, on either side.
pub const RULE: Rule = Rule {
    id: "regulator-union",
    title: "No union within {1 ft} of a line regulator on rigid pipe",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

/// How near a union stands.
fn near() -> Length {
    Length::from_feet(1.0)
}

/// Line regulators that gas reaches, on rigid pipe, old ones too, without a union so near.
pub fn lacking(look: &Look<'_>) -> Vec<usize> {
    let regulators = look.walk.all(DeviceKind::Regulator);
    if regulators.is_empty() {
        return Vec::new();
    }
    let mut has_union = vec![false; look.job.joints.len()];
    for &union in look.walk.all(DeviceKind::Union) {
        if let Some(regulator) = look.walk.upstream(union, DeviceKind::Regulator) {
            has_union[regulator] |= look.distance(union) - look.distance(regulator) <= near();
        }
    }
    let lacks = |&joint: &usize| {
        // A nut comes apart by itself: threaded, brazed and fused pipe does not.
        let rigid = look.live_legs(joint).all(|run| !look.job.joining(run).has_nut());
        let before = look.walk.upstream(joint, DeviceKind::Union);
        let near_before = before.is_some_and(|union| look.distance(joint) - look.distance(union) <= near());
        rigid && look.walk.reaches(joint) && !near_before && !has_union[joint]
    };
    regulators.iter().copied().filter(lacks).collect()
}

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for joint in lacking(look).into_iter().filter(|&joint| look.is_new(joint)) {
        found.at(
            look.at(joint),
            format!(
                "{} is in rigid pipe with no union within {} of it.",
                look.regulator_name(joint),
                look.limit(near())
            ),
            "Install a union within this length, upstream or downstream of the regulator.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{VALVE, check, put, regulator, run, supply};
    use super::RULE;
    use crate::job::{Device, Job, Material};
    use crate::units::{GaugePressure, Length};

    /// The regulator in the place of the valve; the union stands behind it.
    fn place(inches: f64) -> impl Fn(&mut Job) {
        move |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(2.0));
            put(job, VALVE, Device::Regulator(regulator()));
            run(job, 6).length = Some(Length::from_inches(inches));
        }
    }

    #[test]
    fn a_union_behind_it_counts_within_a_foot() {
        check(&RULE, 0, place(12.0));
        check(&RULE, 1, place(12.5));
    }

    #[test]
    fn a_union_before_it_counts_too_and_tubing_needs_none() {
        check(&RULE, 0, |job| {
            place(30.0)(job);
            put(job, 5, Device::Union);
            run(job, 5).length = Some(Length::from_inches(8.0));
        });
        check(&RULE, 0, |job| {
            place(30.0)(job);
            run(job, 5).material = Some(Material::Csst);
        });
    }
}
