//! Pressure from the point of delivery to every outlet at full load.
//!
//! Each section flows at its own full load, also where loads of heating and cooling exclude each other, so that a
//! pressure is never overstated. What one run loses is the matter of [`super::leg`].

use super::Flowing;
use super::leg::{Around, Leg};
use super::survey::Survey;
use crate::units::GaugePressure;

/// Pressures and flows all along the tree.
pub(super) struct March {
    /// For each joint the pressure at full load; at a regulator that behind it.
    pub(super) pressure: Vec<Option<GaugePressure>>,
    /// For each joint the pressure before the device on it.
    pub(super) inlet: Vec<Option<GaugePressure>>,
    /// For each run how gas flows in it.
    pub(super) flowing: Vec<Option<Flowing>>,
    /// For each joint how many devices before it lose nobody knows how much.
    pub(super) unrated: Vec<usize>,
}

impl March {
    pub(super) fn down(survey: &Survey, around: &Around, legs: &[Option<Leg>]) -> March {
        let joints = survey.job.joints.len();
        let mut march = March {
            pressure: vec![None; joints],
            inlet: vec![None; joints],
            flowing: vec![None; survey.job.runs.len()],
            unrated: vec![0; joints],
        };
        for &joint in &survey.network.order {
            let (Some(run), Some(upstream)) = (survey.network.feed[joint], survey.network.upstream(joint)) else {
                march.pressure[joint] = survey.zones.first().map(|zone| zone.inlet);
                continue;
            };
            let Some(leg) = &legs[run] else { continue };
            march.unrated[joint] = march.unrated[upstream] + usize::from(leg.is_unrated());
            let flow = survey.loads[joint].flow;
            let passed = march.pressure[upstream].and_then(|inlet| leg.pass(around, inlet, flow));
            let Some(passed) = passed else { continue };
            march.flowing[run] = Some(passed.flowing);
            march.inlet[joint] = Some(passed.before);
            march.pressure[joint] = Some(passed.behind);
        }
        march
    }
}
