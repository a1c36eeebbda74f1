//! Where elevations are written: once for every level at which pipe lies level, first where gas arrives, and at the
//! point of delivery.

use crate::drawing::layout::Layout;
use crate::units::{Length, Show, UnitSystem};
use std::collections::HashSet;

/// For each joint of a whole drawing whether its elevation is written.
pub fn marked(layout: &Layout<'_>) -> Vec<bool> {
    let network = &layout.study.network;
    let mut marked = vec![false; layout.places.len()];
    let mut seen = HashSet::new();
    let rest = 0..layout.places.len();
    for joint in network
        .supply
        .into_iter()
        .chain(network.order.iter().copied())
        .chain(rest)
    {
        let Some(at) = layout.study.joints.get(joint).map(|joint| joint.elevation) else {
            continue;
        };
        let is_start = network.supply == Some(joint);
        let lies_level = layout.legs_at(joint).any(|leg| leg.way.up == 0);
        if (is_start || lies_level) && seen.insert(at) {
            marked[joint] = true;
        }
    }
    marked
}

/// An elevation with its sign: `+8'-0"`.
pub fn words(elevation: Length, units: UnitSystem) -> String {
    let size = elevation.magnitude().show(units);
    match elevation.cmp(&Length::ZERO) {
        std::cmp::Ordering::Less => format!("−{size}"),
        std::cmp::Ordering::Equal => format!("±{size}"),
        std::cmp::Ordering::Greater => format!("+{size}"),
    }
}
