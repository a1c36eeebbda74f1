//! What is said of an item, and of places that must show something.

use crate::permit_list::Tick;
use crate::study::Place;

/// What is said of an item.
pub(in crate::permit_list) struct Said {
    pub(in crate::permit_list) tick: Tick,
    pub(in crate::permit_list) words: String,
    pub(in crate::permit_list) places: Vec<Place>,
    pub(in crate::permit_list) field: Option<&'static str>,
}

pub(super) fn said(tick: Tick, field: Option<&'static str>, words: impl Into<String>) -> Said {
    Said {
        tick,
        words: words.into(),
        places: Vec::new(),
        field,
    }
}

/// Of places that must show something: which do, which do not.
pub(super) struct Sorted {
    shown: Vec<Place>,
    lacking: Vec<Place>,
}

impl Sorted {
    pub(super) fn of<T>(
        all: impl Iterator<Item = T>,
        place: impl Fn(&T) -> Place,
        shows: impl Fn(&T) -> bool,
    ) -> Sorted {
        let (mut shown, mut lacking) = (Vec::new(), Vec::new());
        for part in all {
            let list = if shows(&part) { &mut shown } else { &mut lacking };
            list.push(place(&part));
        }
        Sorted { shown, lacking }
    }

    /// Shown where all show it; missing where one lacks it; `none` where there is nothing at all.
    pub(super) fn said(self, field: &'static str, by: &str, lacks: &str, none: Said) -> Said {
        let Sorted { shown, lacking } = self;
        match (shown.is_empty(), lacking.is_empty()) {
            (true, true) => none,
            (false, true) => Said {
                places: shown,
                ..said(Tick::Shown, Some(field), by)
            },
            (_, false) => Said {
                words: format!("{lacks} ({} of {})", lacking.len(), lacking.len() + shown.len()),
                places: lacking,
                ..said(Tick::Missing, Some(field), "")
            },
        }
    }
}

/// Shown when one of some texts is filled in.
pub(super) fn text(texts: &[&str], field: &'static str) -> Said {
    match texts.iter().map(|text| text.trim()).find(|text| !text.is_empty()) {
        Some(_) => said(Tick::Shown, Some(field), "the title block"),
        None => said(Tick::Missing, Some(field), "Blank in the title block."),
    }
}

/// Shown when all of some texts are filled in.
pub(super) fn every(texts: &[(&str, &str)], field: &'static str) -> Said {
    let empty: Vec<&str> = texts
        .iter()
        .filter(|(text, _)| text.trim().is_empty())
        .map(|(_, name)| *name)
        .collect();
    match empty.is_empty() {
        true => said(Tick::Shown, Some(field), "the title block, revisions beside it"),
        false => said(
            Tick::Missing,
            Some(field),
            format!("Blank in the title block: {}.", empty.join(", ")),
        ),
    }
}
