//! Where elevations are written: once for every level at which pipe lies level, first where gas arrives, and at the
//! point of delivery.

use crate::drawing::layout::Layout;
use crate::units::Length;
use std::collections::HashMap;

/// A level at which pipe lies level, or that of the point of delivery.
pub struct Level {
    /// How high it is.
    pub elevation: Length,
    /// The joints on it at which it could be written, in flow order.
    pub joints: Vec<usize>,
}

/// Joints at which one level could be written at most.
const CHOICE: usize = 8;

/// The levels of a whole drawing, each once as it is written.
pub fn levels(layout: &Layout<'_>) -> Vec<Level> {
    let network = &layout.study.network;
    let mut levels: Vec<Level> = Vec::new();
    let units = layout.job.settings.units;
    let mut at: HashMap<String, usize> = HashMap::new();
    let mut seen = vec![false; layout.places.len()];
    let supply = network.supply.into_iter();
    let rest = 0..layout.places.len();
    for joint in supply.chain(network.order.iter().copied()).chain(rest) {
        let Some(elevation) = layout.study.joints.get(joint).map(|joint| joint.elevation) else {
            continue;
        };
        let is_start = network.supply == Some(joint);
        let lies_level = layout.legs_at(joint).any(|leg| leg.way.up == 0);
        if std::mem::replace(&mut seen[joint], true) || !(is_start || lies_level) {
            continue;
        }
        let level = *at.entry(elevation.show_elevation(units)).or_insert_with(|| {
            let joints = Vec::new();
            levels.push(Level { elevation, joints });
            levels.len() - 1
        });
        let joints = &mut levels[level].joints;
        if joints.len() < CHOICE {
            joints.push(joint);
        }
    }
    levels
}
