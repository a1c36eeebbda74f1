//! What is written at a joint: appliance, supply, ratings, tie-in, the person's name for the place.

use crate::drawing::Blank;
use crate::drawing::block::{Lead, Line};
use crate::drawing::layout::Layout;
use crate::fittings::FittingKind;
use crate::job::{Appliance, Device, Placed, State, Supply, Vent};
use crate::network::Outlet;
use crate::units::Show;

/// The lines at a joint; none where the symbol says it all.
pub fn lines(layout: &Layout<'_>, joint: usize, outlet: Option<&Outlet>) -> Vec<Line> {
    let it = layout.job.joints.at(joint);
    let mut lines = Vec::new();
    if let Some(placed) = &it.placed {
        device(layout, placed, outlet, &mut lines);
    }
    lines.extend(named_fittings(layout, joint).map(Line::plain));
    match layout.tie_ins[joint] {
        Some(number) => tie_in(
            layout,
            joint,
            number,
            it.label.as_deref().map_or("", str::trim),
            &mut lines,
        ),
        None => lines.extend(own_label(layout, joint, &lines)),
    }
    lines
}

/// What a person calls the place, where its other lines do not have the same words.
fn own_label(layout: &Layout<'_>, joint: usize, lines: &[Line]) -> Option<Line> {
    let label = layout.job.joints.at(joint).label.as_deref()?.trim();
    let apart = |words: &str| format!(" {} ", words.to_lowercase().replace(',', ""));
    let is_said = lines.iter().any(|line| apart(&line.words).contains(&apart(label)));
    (!label.is_empty() && !is_said).then(|| Line::plain(label))
}

/// The same in short, where the schedules have the rest: of an outlet its letter with its name, of a point of delivery its
/// pressure.
pub fn in_short(layout: &Layout<'_>, joint: usize, outlet: Option<&Outlet>) -> Option<Vec<Line>> {
    let placed = layout.job.joints.at(joint).placed.as_ref()?;
    let mut lines = Vec::new();
    device(layout, placed, outlet, &mut lines);
    let label = own_label(layout, joint, &lines);
    match &placed.device {
        Device::Supply(supply) => {
            let pressure = supply.pressure?.show(layout.study.names.units());
            lines = vec![Line::plain("Point of delivery"), Line::plain(pressure)];
        }
        Device::Appliance(_) if placed.state == State::New && outlet.is_some() => lines.truncate(1),
        _ => return None,
    }
    lines.extend(label);
    Some(lines)
}

fn device(layout: &Layout<'_>, placed: &Placed, outlet: Option<&Outlet>, lines: &mut Vec<Line>) {
    let units = layout.study.names.units();
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
                let name = Supply::regulator_name(layout.study.gas.fuel, supply.pressure);
                plain(format!("with {name}"));
            }
        }
        Device::Meter(meter) => plain(match meter.rating.capacity {
            Some(capacity) => format!("{}, {}", sized("meter"), capacity.show(units)),
            None => sized("meter"),
        }),
        Device::Regulator(regulator) => {
            let outlet = regulator.outlet.map_or("?".to_owned(), |outlet| outlet.show(units));
            plain(format!("{} to {outlet}", sized("regulator")));
            match regulator.vent {
                Vent::NotSaid => {}
                Vent::Outdoors | Vent::Limiter => plain(regulator.vent.name().to_owned()),
            }
        }
        Device::ExcessFlow { trips, .. } => plain(match trips {
            Some(flow) => format!("{}, trips at {}", sized("excess-flow valve"), flow.show(units)),
            None => sized("excess-flow valve"),
        }),
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
    let units = layout.study.names.units();
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
    // Its letter stands before it, and is no name.
    let is_name = |name: &&str| !name.is_empty() && outlet.is_none_or(|outlet| outlet.tag != *name);
    let name = Some(appliance.name.trim()).filter(is_name).unwrap_or("appliance");
    lines.push(lettered(outlet, name.to_owned()));
    let input = match appliance.input {
        Some(input) => input.show(layout.study.names.units()),
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

/// The new fittings at a joint that its symbol or its turn does not name: street elbows, elbows of other angles than 90°,
/// reducers, transitions and risers.
fn named_fittings(layout: &Layout<'_>, joint: usize) -> impl Iterator<Item = String> {
    let here = layout.study.assemblies[joint].fittings.clone();
    let fittings = layout.study.fittings[here].iter();
    let new = fittings.filter(|fitting| fitting.state == State::New);
    // A tie-in names its own fitting.
    let own = layout.study.joints[joint]
        .fitting
        .filter(|_| layout.tie_ins[joint].is_some());
    let own = own.and_then(|at| layout.study.fittings.get(at));
    let names = layout.study.names;
    new.filter(move |fitting| !own.is_some_and(|own| std::ptr::eq(own, *fitting)))
        .filter_map(move |fitting| match fitting.kind {
            FittingKind::Riser | FittingKind::Transition => Some(fitting.kind.noun().to_owned()),
            FittingKind::StreetElbow90 | FittingKind::Elbow45 | FittingKind::ReducingCoupling => {
                let sizes = layout.asked.put(Blank::Sizes, fitting.sizes_named(names));
                Some(format!("{sizes} {}", fitting.kind.noun()).trim().to_owned())
            }
            FittingKind::Elbow90
            | FittingKind::OddElbow(_)
            | FittingKind::Bend
            | FittingKind::Tee
            | FittingKind::SideOutletElbow
            | FittingKind::Cross
            | FittingKind::SideOutletTee
            | FittingKind::ManyWays(_)
            | FittingKind::Coupling
            | FittingKind::TubingFitting
            | FittingKind::Adapter
            | FittingKind::Nipple
            | FittingKind::TrapNipple
            | FittingKind::Cap
            | FittingKind::Plug => None,
        })
}

/// Where new pipe meets existing pipe: its number, what a person calls the place, and the fitting by run × run × branch.
fn tie_in(layout: &Layout<'_>, joint: usize, number: usize, label: &str, lines: &mut Vec<Line>) {
    let name = match label.to_lowercase().as_str() {
        "" | "tie-in" | "tie in" => format!("TIE-IN {number}"),
        _ => format!("TIE-IN {number} {label}"),
    };
    let here = layout.study.joints.get(joint);
    let fitting = here.and_then(|here| layout.study.fittings.get(here.fitting?));
    let mut flag = vec![Line {
        lead: Lead::Flag,
        words: name,
    }];
    flag.extend(fitting.map(|fitting| {
        let sizes = layout
            .asked
            .put(Blank::Sizes, fitting.each_size_named(layout.study.names));
        Line::plain(format!("{sizes} {}", fitting.kind.noun()).trim())
    }));
    lines.splice(0..0, flag);
}
