//! What is written at a joint: appliance, supply, ratings, tie-in, the person's name for the place.

use crate::drawing::block::{Lead, Line};
use crate::drawing::layout::Layout;
use crate::fittings::FittingKind;
use crate::job::{Appliance, Device, Placed, State, Supply};
use crate::network::Outlet;
use crate::units::Show;

/// The lines at a joint; none where the symbol says it all.
pub fn lines(layout: &Layout<'_>, joint: usize, outlet: Option<&Outlet>) -> Vec<Line> {
    let it = layout.job.joints.at(joint);
    let mut lines = Vec::new();
    if let Some(placed) = &it.placed {
        device(layout, placed, outlet, &mut lines);
    }
    lines.extend(ends_of_plastic(layout, joint).map(Line::plain));
    if let Some(tie_in) = tie_in(layout, joint) {
        lines.push(Line::plain(tie_in));
    }
    if let Some(label) = it.label.as_ref().filter(|label| !label.trim().is_empty()) {
        lines.push(Line::plain(label.trim()));
    }
    lines
}

fn device(layout: &Layout<'_>, placed: &Placed, outlet: Option<&Outlet>, lines: &mut Vec<Line>) {
    let units = layout.job.settings.units;
    let size = placed.size.map(|size| size.show(units));
    let sized = |name: &str| match &size {
        Some(size) => format!("{size} {name}"),
        None => name.to_owned(),
    };
    let mut plain = |words: String| lines.push(Line::plain(words));
    match &placed.device {
        Device::Supply(supply) => {
            plain("Point of delivery".to_owned());
            plain(supply_words(layout, supply));
            if supply.regulator.is_some() {
                plain("with service regulator".to_owned());
            }
        }
        Device::Meter(meter) => plain(match meter.rating.capacity {
            Some(capacity) => format!("{}, {}", sized("meter"), capacity.show(units)),
            None => sized("meter"),
        }),
        Device::Regulator(regulator) => {
            let outlet = regulator.outlet.map_or("?".to_owned(), |outlet| outlet.show(units));
            plain(format!("{} to {outlet}", sized("regulator")));
        }
        Device::Connector(connector) => match connector.length {
            Some(length) => plain(format!("{} × {}", sized("connector"), length.show(units))),
            None => plain(sized("connector")),
        },
        Device::Appliance(it) => return appliance(layout, it, placed.state, outlet, lines),
        Device::Cap(cap) => {
            if let Some(heat) = cap.future_input {
                let words = format!("future, {}", heat.show(units));
                lines.push(lettered(outlet, words));
            }
            return;
        }
        Device::Valve(_) | Device::Union | Device::SedimentTrap(_) | Device::QuickCoupling(_) | Device::TestGauge => {
            // The symbol says what it is; only a size of its own is news.
            if size.is_some() {
                plain(sized(placed.device.name()));
            }
        }
    }
    if placed.state == State::Removed {
        lines.push(Line::plain(if placed.salvaged { "SALVAGE" } else { "REMOVE" }));
    }
}

fn supply_words(layout: &Layout<'_>, supply: &Supply) -> String {
    let units = layout.job.settings.units;
    let pressure = supply
        .pressure
        .map_or("pressure ?".to_owned(), |pressure| pressure.show(units));
    match supply.meter.as_ref().map(|meter| meter.capacity) {
        Some(Some(capacity)) => format!("{pressure}, {} meter", capacity.show(units)),
        Some(None) => format!("{pressure}, meter"),
        None => pressure,
    }
}

fn appliance(layout: &Layout<'_>, appliance: &Appliance, state: State, outlet: Option<&Outlet>, lines: &mut Vec<Line>) {
    let name = appliance.name.trim();
    let name = if name.is_empty() { "appliance" } else { name };
    lines.push(lettered(outlet, name.to_owned()));
    let input = match appliance.input {
        Some(input) => input.show(layout.job.settings.units),
        None => "input ?".to_owned(),
    };
    lines.push(Line::plain(match state {
        State::New => input,
        State::Existing => format!("{input} existing"),
        State::Removed => format!("{input} REMOVE"),
    }));
}

fn lettered(outlet: Option<&Outlet>, words: String) -> Line {
    let lead = outlet.map_or(Lead::Nothing, |outlet| Lead::Letter(outlet.tag.clone()));
    Line { lead, words }
}

/// The new risers and transition fittings of plastic pipe, by their names.
fn ends_of_plastic(layout: &Layout<'_>, joint: usize) -> impl Iterator<Item = &'static str> {
    let here = layout.study.assemblies[joint].fittings.clone();
    let fittings = layout.study.fittings[here].iter();
    let new = fittings.filter(|fitting| fitting.state == State::New);
    new.filter(|fitting| matches!(fitting.kind, FittingKind::Riser | FittingKind::Transition))
        .map(|fitting| fitting.kind.noun())
}

/// Where new pipe meets existing pipe.
fn tie_in(layout: &Layout<'_>, joint: usize) -> Option<String> {
    let has = |state: State| {
        layout
            .legs_at(joint)
            .any(|leg| layout.job.runs.at(leg.run).state == state)
    };
    if !(has(State::Existing) && has(State::New)) {
        return None;
    }
    let fitting = layout
        .study
        .joints
        .get(joint)?
        .fitting
        .and_then(|at| layout.study.fittings.get(at));
    let Some(fitting) = fitting else {
        return Some("TIE-IN".to_owned());
    };
    Some(format!(
        "TIE-IN: {} {}",
        fitting.each_size_named(layout.study.names),
        fitting.kind.noun()
    ))
}
