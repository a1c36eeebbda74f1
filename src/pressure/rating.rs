//! What a rated device loses.

use crate::codebook::Fitting;
use crate::job::{Device, Rating, Unrated};
use crate::units::{Flow, PressureDrop};

/// The rating by which a device in the line is judged; none of one that loses what a fitting does, while nothing is typed.
pub(crate) fn rating(device: &Device) -> Option<&Rating> {
    let rating = device.rating()?;
    match device.unrated() {
        Unrated::AsValve(_) => (rating.capacity.is_some() || rating.drop.is_some()).then_some(rating),
        Unrated::Nothing | Unrated::Unknown => Some(rating),
    }
}

/// The fitting by which a device counts whose rating tells no loss.
pub(crate) fn stands_for(device: &Device) -> Option<Fitting> {
    match device.unrated() {
        Unrated::AsValve(kind) if !device.rating().is_some_and(tells_loss) => Some(Fitting::of_valve(kind)),
        Unrated::AsValve(_) | Unrated::Nothing | Unrated::Unknown => None,
    }
}

/// Whether a typed flow is a figure.
pub(crate) fn usable(flow: &Flow) -> bool {
    flow.cfh().is_finite() && flow.cfh() > 0.0
}

/// Whether a rating tells the loss at any flow.
pub(crate) fn tells_loss(rating: &Rating) -> bool {
    loss(rating, Flow::ZERO).is_some()
}

/// Loss at a flow: the rated one times the square of flow over rated flow, as of any obstacle in turbulent flow.
pub(crate) fn loss(rating: &Rating, flow: Flow) -> Option<PressureDrop> {
    let rated = rating.drop.filter(|drop| drop.pa().is_finite() && drop.pa() >= 0.0)?;
    let share = flow.cfh() / rating.capacity.filter(usable)?.cfh();
    Some(PressureDrop::from_pa(rated.pa() * share * share)).filter(|drop| drop.pa().is_finite())
}
