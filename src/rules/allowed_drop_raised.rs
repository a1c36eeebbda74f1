//! More drop allowed than the profile does.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::units::{GaugePressure, PressureDrop};

/// A drop set by hand above the profile's wants a reason.
pub const RULE: Rule = Rule {
    id: "allowed-drop-raised",
    title: "The allowable pressure drop is set above the profile's",
    severity: Severity::Check,
    basis: "the profile's allowable pressure drop, with its mark",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for zone in &look.study.zones {
        let Some(inlet) = zone.inlet else { continue };
        let usual = look.profile.allowed_drop(look.study.gas.fuel, inlet);
        if let (Some(set), Some(usual)) = (zone.allowed_drop, usual)
            && set.pa() > usual.value.pa() * (1.0 + ROUNDING)
        {
            found.at(
                look.at(zone.start),
                format!(
                    "Downstream of {} the allowable pressure drop is set to {}; {} is published for {} ({}).",
                    look.joint_name(zone.start),
                    look.show(set),
                    look.show(usual.value),
                    look.show(inlet),
                    look.by_profile(usual.mark)
                ),
                advice(look, zone.allowed_drop.map(|drop| inlet - drop), usual.value),
            );
        }
    }
}

/// Pressures typed in another unit are a little off.
const ROUNDING: f64 = 1e-3;

fn advice(look: &Look<'_>, left: Option<GaugePressure>, usual: PressureDrop) -> String {
    let left = left.map(|left| look.show(left)).unwrap_or_default();
    format!(
        "Go back to {}, or show that the supplier maintains the pressure and that every appliance can run on {left}.",
        look.show(usual)
    )
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::units::PressureDrop;

    #[test]
    fn more_than_the_profile_allows_is_told_and_less_is_not() {
        let set = |inches: f64| {
            move |job: &mut crate::job::Job| job.settings.allowed_drop = Some(PressureDrop::from_inches_wc(inches))
        };
        check(&RULE, 1, set(3.0));
        check(&RULE, 0, set(0.3));
        check(&RULE, 0, set(0.5));
    }
}
