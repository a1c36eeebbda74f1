//! Quantities within a sentence, as the notes of tables and profiles have them.

use super::{Show, UnitSystem};
use crate::units::{Flow, HeatRate, Length, Parse, PressureDrop};

/// A sentence whose lengths, pressures and flows stand in braces, in a person's units: `each adds {1.3 ft}` is "each adds
/// 1.3 ft", and "each adds 396 mm" in a metric job. What is in braces and is no such quantity stays as it is written.
pub fn in_units(sentence: &str, units: UnitSystem) -> String {
    let mut said = String::with_capacity(sentence.len());
    let mut rest = sentence;
    while let Some((before, (quantity, after))) = rest
        .split_once('{')
        .and_then(|(before, open)| Some((before, open.split_once('}')?)))
    {
        said.push_str(before);
        said.push_str(&match units {
            UnitSystem::Us => quantity.to_owned(),
            UnitSystem::Metric | UnitSystem::MetricKpa => metric(quantity, units),
        });
        rest = after;
    }
    said.push_str(rest);
    said
}

/// From so many feet on a length of a sentence is told in meters.
const LONG: f64 = 10.0;

fn metric(quantity: &str, units: UnitSystem) -> String {
    let shown = |show: &dyn Show| show.show(units);
    if let Ok(length) = Length::parse(quantity) {
        // A row of a table, or a way along pipe, is no dimension of a drawing.
        match length.feet() < LONG {
            true => length.show_rule(units),
            false => length.show_sizing(units),
        }
    } else if let Ok(pressure) = PressureDrop::parse(quantity) {
        shown(&pressure)
    } else if let Ok(flow) = Flow::parse(quantity) {
        shown(&flow)
    } else if let Ok(heat) = HeatRate::parse(quantity) {
        shown(&heat)
    } else {
        quantity.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_in_braces_are_in_the_units_of_the_job() {
        let note = "four bends; each adds {1.3 ft}, past {2 psi} or {150 cfh} none {of these}, {open";
        assert_eq!(
            in_units(note, UnitSystem::Us),
            "four bends; each adds 1.3 ft, past 2 psi or 150 cfh none of these, {open"
        );
        assert_eq!(
            in_units(note, UnitSystem::Metric),
            "four bends; each adds 400 mm, past 137.9 mbar or 4.25 m³/h none of these, {open"
        );
        assert_eq!(in_units("rows to {175 ft}", UnitSystem::Metric), "rows to 53.34 m");
    }
}
