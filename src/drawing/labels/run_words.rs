//! What is written along a run: size and length, and whatever is not usual about it.

use crate::drawing::layout::Layout;
use crate::drawing::{Lettering, planes};
use crate::job::{Run, State, Surroundings};
use crate::study::Origin;
use crate::units::{Length, NominalSize, Show};

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

/// Size, material where it is not the job's, length, cover and angles of a run: `3/4" × 12'-6"`. The length is given
/// apart because several runs in line may share one label.
pub fn words(layout: &Layout<'_>, run: usize, length: Length, lettering: Lettering<'_>) -> String {
    let units = layout.job.settings.units;
    let it = layout.job.runs.at(run);
    let mut words = String::new();
    if it.state == State::Removed {
        words.push_str(if it.salvaged { "SALVAGE " } else { "REMOVE " });
    }
    words.push_str(&size_words(layout, run, it, lettering));
    if let Some(was) = it.replaced() {
        words.push_str(&format!(" (was {})", was.show(units)));
    }
    if let Some(material) = it.material.filter(|material| *material != layout.job.settings.material) {
        words.push(' ');
        words.push_str(material.short());
    }
    words.push_str(" × ");
    words.push_str(&length.show(units));
    if let Some(leg) = &layout.whole().legs[run] {
        for angle in planes::angles(leg.way) {
            words.push_str(&format!(", {}°", (angle * 10.0).round() / 10.0));
        }
    }
    if let Some(cover) = it.cover.filter(|_| it.surroundings == Surroundings::Underground) {
        words.push_str(&format!(", {} cover", cover.show(units)));
    }
    words
}

fn size_words(layout: &Layout<'_>, run: usize, it: &Run, lettering: Lettering<'_>) -> String {
    if lettering == Lettering::SizesBlank && it.state == State::New {
        return "_____".to_owned();
    }
    match size(layout, run) {
        Some(size) => size.show(layout.job.settings.units),
        None => "size ?".to_owned(),
    }
}
