//! What is written along a run: size and length, and whatever is not usual about it.

use crate::drawing::layout::Layout;
use crate::drawing::{Blank, planes};
use crate::job::{Offset, Run, State, Surroundings, same_turn, stock_turn};
use crate::sizing::Origin;
use crate::units::{Angle, Length, NominalSize, Show, UnitSystem};

/// The size of a run: that of its section, or as the person gave it.
pub fn size(layout: &Layout<'_>, run: usize) -> Option<NominalSize> {
    let section = layout.study.runs.get(run).and_then(|run| run.section);
    let studied = section
        .and_then(|section| layout.study.sections.get(section))
        .map(|section| section.sizing.size);
    studied.unwrap_or(layout.job.runs.at(run).size)
}

/// Whether a run is part of a flexible connector, of which the words beside the connector speak.
pub fn is_connector(layout: &Layout<'_>, run: usize) -> bool {
    let section = layout.study.runs.get(run).and_then(|run| run.section);
    let section = section.and_then(|section| layout.study.sections.get(section));
    section.is_some_and(|section| section.sizing.origin == Origin::Connector)
}

/// What is written along a run.
pub struct Words {
    /// Its size, with what is to be done to it and its material where that is not the job's: `3/4" copper K`.
    pub size: String,
    /// Its length, with its cover and angles: `12'-6"`.
    pub length: String,
    /// Whether the length is all that is said below it.
    pub is_plain: bool,
}

/// The words of a run. Its length is given apart because several runs in line may share one label; existing pipe says so
/// where that is asked for.
pub fn words(layout: &Layout<'_>, run: usize, length: &str, tells_existing: bool) -> Words {
    let units = layout.job.settings.units;
    let it = layout.job.runs.at(run);
    let mut words = String::new();
    if it.state == State::Removed {
        words.push_str(if it.salvaged { "SALVAGE " } else { "REMOVE " });
    }
    words.push_str(&size_words(layout, run, it));
    if let Some(was) = it.replaced() {
        words.push_str(&format!(" (was {})", was.show(units)));
    }
    if let Some(material) = it.material.filter(|material| *material != layout.job.settings.material) {
        words.push(' ');
        words.push_str(material.short());
    }
    let size = std::mem::replace(&mut words, length.to_owned());
    if tells_existing && it.state == State::Existing {
        words.push_str(" EX.");
    }
    let plain = words.len();
    match (it.measured(), &layout.whole().legs[run]) {
        (Some(Ok(offset)), _) => words.push_str(&measures(&offset, units)),
        (Some(Err(_)) | None, Some(leg)) => {
            for angle in planes::angles(leg.way) {
                words.push_str(&format!(", {}", drawn_angle(angle)));
            }
        }
        (Some(Err(_)) | None, None) => {}
    }
    if let Some(cover) = it.cover.filter(|_| it.surroundings == Surroundings::Underground) {
        words.push_str(&format!(", {} cover", cover.show(units)));
    }
    Words {
        is_plain: words.len() == plain,
        size,
        length: words,
    }
}

/// What was measured of an offset, in place of the angles of a drawing that is not to scale.
fn measures(offset: &Offset, units: UnitSystem) -> String {
    let mut words = format!(", {} offset", Angle::from_degrees(offset.degrees).show(units));
    for (name, side) in [("rise", offset.rise), ("roll", offset.roll)] {
        if side != Length::ZERO {
            words.push_str(&format!(", {name} {}", side.show(units)));
        }
    }
    words
}

/// To a tenth of a degree; finer where that would read like the turn of a stock elbow.
fn drawn_angle(angle: f64) -> String {
    let tenth = (angle * 10.0).round() / 10.0;
    match stock_turn(tenth) {
        Some(stock) if same_turn(tenth, stock) && !same_turn(angle, stock) => format!("{angle:.2}°"),
        Some(_) | None => format!("{tenth}°"),
    }
}

fn size_words(layout: &Layout<'_>, run: usize, it: &Run) -> String {
    let words = match size(layout, run) {
        Some(size) => layout.study.names.show(layout.job.material(it), size),
        None => "size ?".to_owned(),
    };
    match it.state {
        State::New => layout.asked.put(Blank::Sizes, words),
        State::Existing | State::Removed => words,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_angle_is_never_rounded_to_that_of_an_elbow() {
        for (angle, shown) in [
            (45.0, "45°"),
            (44.97, "44.97°"),
            (45.03, "45.03°"),
            (44.94, "44.9°"),
            (26.565, "26.6°"),
        ] {
            assert_eq!(drawn_angle(angle), shown);
        }
    }
}
