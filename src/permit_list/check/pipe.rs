//! Items about pipe: sections, runs, lengths, fittings, heights.

use super::said::{Said, Sorted};
use super::{Look, said};
use crate::job::{Run, State};
use crate::permit_list::Tick;
use crate::study::Place;
use crate::units::Show;

impl Look<'_> {
    pub(super) fn no_pipe(&self) -> Said {
        said(Tick::Missing, None, "No pipe is drawn.")
    }

    pub(super) fn sections(&self, by: &str, lacks: &str, shows: impl Fn(usize) -> bool) -> Said {
        let place = |&at: &usize| match self.study.sections[at].runs.first() {
            Some(&run) => Place::Run(self.job.runs.at(run).id),
            None => Place::Job,
        };
        let none = said(Tick::Missing, None, "No pipe is connected to the gas supply.");
        // The flexible line to an appliance is its maker's matter and has no size of the house's.
        let is_pipe = |&at: &usize| {
            self.study.sections[at]
                .runs
                .iter()
                .all(|&run| !self.study.runs[run].is_hose)
        };
        let pipes = (0..self.study.sections.len()).filter(is_pipe);
        Sorted::of(pipes, place, |&at| shows(at)).said("run: size", by, lacks, none)
    }

    /// Runs that stay or come.
    pub(super) fn runs(
        &self,
        which: impl Fn(&Run) -> bool,
        field: &'static str,
        by: &str,
        lacks: &str,
        shows: impl Fn(usize, &Run) -> bool,
    ) -> Said {
        let stay = self
            .job
            .runs
            .iter()
            .enumerate()
            .filter(|(_, run)| run.state != State::Removed);
        let has_pipe = stay.clone().next().is_some();
        let asked = stay.filter(|(_, run)| which(run));
        let none = match has_pipe {
            true => self.nothing("no pipe of this kind"),
            false => self.no_pipe(),
        };
        Sorted::of(asked, |(_, run)| Place::Run(run.id), |(at, run)| shows(*at, run)).said(field, by, lacks, none)
    }

    pub(super) fn developed(&self) -> Said {
        let units = self.job.settings.units;
        let zone = self
            .study
            .zones
            .iter()
            .find_map(|zone| Some((zone.farthest?, zone.longest)));
        match zone {
            Some((joint, longest)) => Said {
                places: vec![Place::Joint(self.job.joints.at(joint).id)],
                ..said(
                    Tick::Shown,
                    Some("run: length"),
                    format!("{} to the farthest outlet, in the supply table", longest.show(units)),
                )
            },
            None => said(
                Tick::Missing,
                Some("joint: device"),
                "No outlet is connected to the gas supply.",
            ),
        }
    }

    pub(super) fn fittings(&self) -> Said {
        let unsized_at = self.study.fittings.iter().filter(|fitting| fitting.sizes.is_empty());
        let lacking: Vec<Place> = unsized_at
            .map(|fitting| Place::Joint(self.job.joints.at(fitting.joint).id))
            .collect();
        match (
            self.job.runs.is_empty(),
            self.study.fittings.is_empty(),
            lacking.is_empty(),
        ) {
            (true, _, _) => self.no_pipe(),
            (false, true, _) => self.nothing("no fitting: no two runs meet in one"),
            (false, false, true) => said(
                Tick::Shown,
                None,
                "the fittings that the drawing implies, where pipe turns and branches",
            ),
            (false, false, false) => Said {
                places: lacking,
                ..said(
                    Tick::Missing,
                    Some("run: size"),
                    "A fitting has an end of unknown size.",
                )
            },
        }
    }

    pub(super) fn elevations(&self) -> Said {
        let mut heights = self.study.joints.iter().map(|joint| joint.elevation);
        let first = heights.next();
        match first {
            None => self.no_pipe(),
            Some(first) if heights.all(|height| height == first) => self.nothing("all its pipe at one elevation"),
            Some(_) if self.job.settings.datum_name.trim().is_empty() => said(
                Tick::Missing,
                Some("settings: elevations_from"),
                "Elevations are drawn, but the zero they are measured from has no name.",
            ),
            Some(_) => said(
                Tick::Shown,
                Some("settings: elevations_from"),
                format!("elevations above {}", self.job.settings.datum_name.trim()),
            ),
        }
    }
}
