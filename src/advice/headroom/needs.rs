//! What pressures a joint must keep, and what has too little already.

use crate::advice::Limiting;
use crate::network::{Outlet, Survey};
use crate::pressure::{Around, Leg, March};
use crate::units::GaugePressure;

/// The line regulators that gas reaches, in flow order, each with what it is set to.
pub fn settings(survey: &Survey, legs: &[Option<Leg>]) -> impl Iterator<Item = (usize, GaugePressure)> {
    let order = survey.network.order.iter();
    order.filter_map(|&joint| Some((joint, legs[survey.network.feed[joint]?].as_ref()?.holds()?)))
}

pub fn is_low(outlet: &Outlet, march: &March) -> bool {
    let had = march.pressure[outlet.joint].zip(outlet.least);
    had.is_some_and(|(had, least)| had < least)
}

/// For each joint what has too little pressure already and hangs on the pressure there.
pub fn short_already(survey: &Survey, legs: &[Option<Leg>], march: &March) -> Vec<Option<Limiting>> {
    let mut short: Vec<Option<Limiting>> = vec![None; survey.job.joints.len()];
    for outlet in survey.outlets.iter().filter(|outlet| is_low(outlet, march)) {
        short[outlet.joint] = Some(Limiting::Inlet(outlet.joint));
    }
    let mut holding = vec![false; survey.job.joints.len()];
    for (joint, setting) in settings(survey, legs) {
        match march.pressure[joint] {
            Some(pressure) if pressure < setting => short[joint] = Some(Limiting::Setting(joint)),
            Some(_) => holding[joint] = true,
            None => {}
        }
    }
    for &joint in survey.network.order.iter().rev() {
        let upstream = survey.network.upstream(joint).filter(|_| !holding[joint]);
        if let (Some(part), Some(upstream)) = (short[joint], upstream) {
            short[upstream].get_or_insert(part);
        }
    }
    // Nor does more flow to a regulator that holds take pressure from what lies behind it.
    for (short, _) in short.iter_mut().zip(holding).filter(|(_, holding)| *holding) {
        *short = None;
    }
    short
}

/// For each joint the least pressure there by which every appliance at it and behind it keeps its least inlet pressure,
/// and every regulator its setting, at the loads of the job; only those that have enough count.
pub struct Needs(Vec<Option<Need>>);

#[derive(Clone, Copy)]
pub struct Need {
    pub pressure: GaugePressure,
    /// What asks for it.
    pub by: Limiting,
}

impl Needs {
    /// What is needed at a joint.
    pub fn at(&self, joint: usize) -> Option<Need> {
        self.0[joint]
    }

    pub fn find(survey: &Survey, around: &Around, legs: &[Option<Leg>], march: &March) -> Needs {
        let mut needs: Vec<Option<Need>> = vec![None; survey.job.joints.len()];
        for outlet in &survey.outlets {
            let enough = march.pressure[outlet.joint].zip(outlet.least);
            if let Some((_, least)) = enough.filter(|(had, least)| had >= least) {
                needs[outlet.joint] = Some(Need {
                    pressure: least,
                    by: Limiting::Inlet(outlet.joint),
                });
            }
        }
        let kept = settings(survey, legs).filter(|(joint, setting)| march.pressure[*joint] >= Some(*setting));
        for (joint, pressure) in kept {
            let by = Limiting::Setting(joint);
            needs[joint] = Some(Need { pressure, by });
        }
        for &joint in survey.network.order.iter().rev() {
            let (Some(need), Some(run), Some(upstream)) =
                (needs[joint], survey.network.feed[joint], survey.network.upstream(joint))
            else {
                continue;
            };
            let (Some(leg), Some(now)) = (&legs[run], march.pressure[upstream]) else {
                continue;
            };
            let sent = leg.sent(around, survey.loads[joint].flow);
            let enough = |inlet: GaugePressure| {
                let passed = leg.pass_sent(around, inlet, &sent);
                passed.is_none_or(|passed| passed.behind >= need.pressure)
            };
            let Some(pressure) = least_inlet(now, enough) else {
                continue;
            };
            if needs[upstream].is_none_or(|other| other.pressure < pressure) {
                needs[upstream] = Some(Need { pressure, by: need.by });
            }
        }
        Needs(needs)
    }
}

/// Below this nobody reckons, Pa: no pressure in a job is less.
const BOTTOM: f64 = -1e9;

/// The least pressure that is enough, to the last figure of the computer, where a greater one is known to be; `None`
/// where any is enough.
fn least_inlet(known: GaugePressure, enough: impl Fn(GaugePressure) -> bool) -> Option<GaugePressure> {
    let enough = |pa: f64| enough(GaugePressure::from_pa(pa));
    let (mut good, mut step) = (known.pa(), 1.0);
    let mut bad = good - step;
    while enough(bad) {
        if bad < BOTTOM {
            return None;
        }
        good = bad;
        step *= 4.0;
        bad -= step;
    }
    for _ in 0..200 {
        let middle = good + (bad - good) / 2.0;
        if middle <= bad || middle >= good {
            break;
        }
        if enough(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(GaugePressure::from_pa(good))
}

#[cfg(test)]
mod tests {
    use super::super::needs::*;

    #[test]
    fn the_least_inlet_is_exact_or_none() {
        let least = least_inlet(GaugePressure::from_pa(1743.0), |inlet| inlet.pa() >= 1234.5);
        assert_eq!(least, Some(GaugePressure::from_pa(1234.5)));
        assert_eq!(least_inlet(GaugePressure::from_pa(5.0), |_| true), None);
    }
}
