//! What a rated device loses.

use crate::job::{Device, Rating};
use crate::units::{Flow, PressureDrop};

/// The rating of a device in the line; a valve without one is judged by nothing, its loss is that of a fitting.
pub(crate) fn rating(device: &Device) -> Option<&Rating> {
    match device {
        Device::Meter(meter) => Some(&meter.rating),
        Device::Regulator(regulator) => Some(&regulator.rating),
        Device::Connector(connector) => Some(&connector.rating),
        Device::QuickCoupling(coupling) => Some(&coupling.rating),
        Device::Valve(valve) => {
            (valve.rating.capacity.is_some() || valve.rating.drop.is_some()).then_some(&valve.rating)
        }
        Device::Supply(_)
        | Device::Union
        | Device::SedimentTrap(_)
        | Device::Appliance(_)
        | Device::Cap(_)
        | Device::TestGauge => None,
    }
}

/// What it carries, where that is a figure.
pub(crate) fn capacity(rating: &Rating) -> Option<Flow> {
    rating
        .capacity
        .filter(|flow| flow.cfh().is_finite() && flow.cfh() > 0.0)
}

/// Whether a rating tells the loss at any flow.
pub(crate) fn tells_loss(rating: &Rating) -> bool {
    loss(rating, Flow::ZERO).is_some()
}

/// Loss at a flow: the rated one times the square of flow over rated flow, as of any obstacle in turbulent flow.
pub(crate) fn loss(rating: &Rating, flow: Flow) -> Option<PressureDrop> {
    let rated = rating.drop.filter(|drop| drop.pa().is_finite() && drop.pa() >= 0.0)?;
    let share = flow.cfh() / capacity(rating)?.cfh();
    Some(PressureDrop::from_pa(rated.pa() * share * share)).filter(|drop| drop.pa().is_finite())
}
