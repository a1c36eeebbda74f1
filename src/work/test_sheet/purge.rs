//! How new pipe is purged.

use crate::codebook::{CodeFamily, Codebook, Marked, Source};
use crate::job::{Fuel, Job, State};
use crate::study::Study;
use crate::units::{GaugePressure, Length, NominalSize, Show, UnitSystem};
use std::collections::BTreeMap;

/// From this working pressure up, pipe is purged outdoors whatever its size (NFPA 54-2012, table 8.3.1).
const OVER: GaugePressure = GaugePressure::from_psi(2.0);

/// The ways of purging pipe that may be purged indoors, to follow a colon.
pub const PURGE_WAYS: &str = "fuel gas to the outdoors; an appliance burner outside a combustion chamber, or a burner made for \
                              purging, with a continuous source of ignition; a listed combustible-gas detector at the outlet, \
                              stopping when it finds gas; or the supplier's written procedures (M). Neither smell nor a person watching takes the place of these.";

/// How gas is let out where purging must go outdoors (NFPA 54-2012 8.3.1, its figures from memory).
fn outdoors(units: UnitSystem) -> String {
    let [near, far] = [10.0, 25.0].map(|feet| Length::from_feet(feet).show_rule(units));
    format!(
        "Push the air out with an inert gas first, then the inert gas with fuel gas. The open end is controlled by a valve, attended, and \
         monitored with a combustible-gas indicator; it is {near} or more from ignition sources and building openings, and {far} \
         from air intakes (M)."
    )
}

/// What is said of gas that is heavier than air, to follow a sentence.
pub const fn sinks(fuel: Fuel) -> &'static str {
    match fuel {
        Fuel::Natural => "",
        Fuel::Propane => " Propane sinks and collects in low places.",
    }
}

/// Whether purged gas must go to the outdoors.
#[derive(Clone, Debug, PartialEq)]
pub struct Purge {
    /// The working pressure over 2 psig of some new pipe, for which all purging goes outdoors.
    pub high: Option<GaugePressure>,
    /// New pipe longer than the published length of its size: size, length, limit.
    pub long: Vec<(NominalSize, Length, Marked<Length>)>,
    /// The code that sets pressure and lengths, where its clause was not read: then nothing is held against them.
    pub unread: Option<&'static str>,
    /// Whether pipe stands that may be purged with the new, and counts too.
    pub meets_old: bool,
    /// Over which length of which size up purging goes outdoors, of all pipe purged together; empty where no pipe there is
    /// so large.
    pub limits: Vec<(NominalSize, Marked<Length>)>,
    /// Where the ways of purging were read.
    pub ways_source: String,
    /// Where those lengths come from.
    pub source: Source,
}

impl Purge {
    /// What the new pipe of a job asks for.
    pub(super) fn of(job: &Job, study: &Study, book: &Codebook, runs: &[usize]) -> Purge {
        let mut lengths: BTreeMap<NominalSize, Length> = BTreeMap::new();
        let mut highest = 0.0_f64;
        for &run in runs {
            let Some(section) = study.runs[run].section.map(|section| &study.sections[section]) else {
                continue;
            };
            let inlet = study.zones.get(section.zone).and_then(|zone| zone.inlet);
            let inlet = inlet.map_or(0.0, GaugePressure::psi);
            highest = highest.max(inlet);
            if let Some(size) = section.sizing.size {
                *lengths.entry(size).or_default() += study.runs[run].length;
            }
        }
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let family = profile.family;
        let unread = family.filter(|&family| book.clause("purge-outdoors", family).is_none());
        if unread.is_some() {
            (highest, lengths) = (0.0, BTreeMap::new());
        }
        let pipe = job.runs.iter().enumerate();
        let mut pipe = pipe.filter(|(at, run)| run.state != State::Removed && !study.runs[*at].is_hose);
        let may_be_limited = |(at, _): (usize, &crate::job::Run)| {
            let size = study.size(job, at);
            size.is_none_or(|size| book.purge_outdoors_over(size).is_some())
        };
        let over = |(size, length): (NominalSize, Length)| {
            let limit = book.purge_outdoors_over(size)?;
            (length > limit.value).then_some((size, length, limit))
        };
        Purge {
            unread: unread.map(CodeFamily::name),
            high: Some(GaugePressure::from_psi(highest)).filter(|high| high.is_over(OVER)),
            long: lengths.into_iter().filter_map(over).collect(),
            limits: match pipe.any(may_be_limited) {
                true => book.purge_limits().to_vec(),
                false => Vec::new(),
            },
            meets_old: job.runs.iter().any(|run| run.state == State::Existing),
            ways_source: book.cited(&["purge-ways"], family),
            source: book.purge_source(),
        }
    }

    /// What existing pipe changes of it, in a sentence; empty where there is none.
    pub fn with_old(&self, units: UnitSystem) -> String {
        if !self.meets_old || self.unread.is_some() {
            return String::new();
        }
        let limit = |(size, limit): &(NominalSize, Marked<Length>)| {
            format!("{} of {}", limit.value.show_rule(units), size.show(units))
        };
        let limits: Vec<String> = self.limits.iter().map(limit).collect();
        match limits.is_empty() {
            true => "No pipe here, existing or new, is so large that its length calls for purging to the outdoors."
                .to_owned(),
            false => format!(
                "Existing pipe purged with it counts too: if more than {} is purged together, purge to the outdoors, with an inert gas \
                 first.",
                limits.join(", ")
            ),
        }
    }

    /// How it is purged, in sentences; what it was held against is [`Purge::source`].
    pub fn words(&self, units: UnitSystem) -> Vec<String> {
        let mut said = Vec::new();
        if let Some(high) = self.high {
            let over = OVER.show_rule(units);
            said.push(format!(
                "Purge to the outdoors: the working pressure of the new pipe is {}, over {over}.",
                high.show(units)
            ));
        }
        for (size, length, limit) in &self.long {
            said.push(format!(
                "Purge to the outdoors: {} of {}, over {} {}.",
                length.show(units),
                size.show(units),
                limit.value.show(units),
                limit.mark
            ));
        }
        said.push(match self.is_outdoors() {
            true => outdoors(units),
            false => format!(
                "{} Ways to purge: {PURGE_WAYS} Source: {}.",
                self.not_outdoors(),
                self.ways_source
            ),
        });
        if self.meets_old && !self.is_outdoors() {
            said.push(self.with_old(units));
        }
        said
    }

    /// The same for a sheet whose work steps list the ways: where all may be used they are not told again.
    pub fn in_short(&self, units: UnitSystem) -> String {
        if self.is_outdoors() {
            return self.words(units).join(" ");
        }
        let said = format!(
            "{} Use one of the ways that the work steps list. Source: {}. {}",
            self.not_outdoors(),
            self.ways_source,
            self.with_old(units)
        );
        said.trim_end().to_owned()
    }

    /// What is said where nothing is known that calls for purging to the outdoors.
    fn not_outdoors(&self) -> String {
        match self.unread {
            Some(code) => format!(
                "{code} sets from which size and pressure up pipe is purged to the outdoors or with an inert gas (not read): look it up."
            ),
            None => "The new pipe is neither so long for its size nor at such a pressure that it must be purged to the outdoors.".to_owned(),
        }
    }

    /// Whether purging must go to the outdoors by pressure or by length.
    pub fn is_outdoors(&self) -> bool {
        self.high.is_some() || !self.long.is_empty()
    }
}
