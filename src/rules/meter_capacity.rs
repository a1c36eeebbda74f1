//! Meters that are too small.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{DeviceKind, Limit};
use crate::pressure::{DeviceStudy, RatedPart, RatingVerdict};

/// A meter passes the whole load.
pub const RULE: Rule = Rule {
    id: "meter-capacity",
    title: "A meter is over its rated flow",
    severity: Severity::MustFix,
    basis: "the rating of the meter",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in exceeded(look).filter(|device| is_meter(device.part)) {
        found.at(
            look.at(device.joint),
            over(look, device),
            "Have the supplier set a larger meter. Do not connect the new load until it is set.",
        );
    }
}

/// Whether it measures the gas.
const fn is_meter(part: RatedPart) -> bool {
    matches!(part, RatedPart::SupplyMeter | RatedPart::Placed(DeviceKind::Meter))
}

/// Devices that carry more than they are rated for.
pub fn exceeded<'a>(look: &Look<'a>) -> impl Iterator<Item = &'a DeviceStudy> + use<'a> {
    let devices = look.study.devices.iter();
    devices.filter(|device| device.verdict == RatingVerdict::Exceeded && device.part.limit() == Limit::Carries)
}

/// What a device carries against its rating.
pub fn over(look: &Look<'_>, device: &DeviceStudy) -> String {
    let rated = device
        .capacity
        .map_or_else(|| "less".to_owned(), |capacity| look.show(capacity));
    format!(
        "The {} at {} is over its rating: {} at full load, rated for {rated}.",
        device.name(),
        look.joint_name(device.joint),
        look.show(device.flow)
    )
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, supply};
    use super::RULE;
    use crate::job::{Job, Rating};
    use crate::units::Flow;

    #[test]
    fn the_meter_is_held_against_the_whole_load() {
        let rated = |cfh: Option<f64>| {
            move |job: &mut Job| {
                supply(job).meter = Some(Rating {
                    capacity: cfh.map(Flow::from_cfh),
                    drop: None,
                });
            }
        };
        check(&RULE, 1, rated(Some(120.0)));
        check(&RULE, 0, rated(Some(250.0)));
        check(&RULE, 0, rated(None));
    }
}
