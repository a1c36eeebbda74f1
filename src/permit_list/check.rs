//! What a job shows of each item. An item that is not known here is left to the hand.

mod device;
mod pipe;
mod said;

use super::Tick;
use crate::codebook::Codebook;
use crate::job::{Device, Job, Surroundings};
use crate::sizing::{Basis, Verdict};
use crate::study::Study;
pub(super) use said::Said;
use said::{every, said, text};

/// A job that is held against items.
pub(super) struct Look<'a> {
    pub(super) job: &'a Job,
    pub(super) study: &'a Study,
    pub(super) book: &'a Codebook,
}

impl<'a> Look<'a> {
    /// What the job shows of an item, by its id.
    pub(super) fn at(&self, id: &str) -> Said {
        let title = &self.job.title;
        match id {
            "drawing" | "route" | "isometric" | "not-to-scale" => self.drawn(id),
            "sizes" => self.sections(
                "the size of each section, on the drawing and in the section schedule",
                "no size is known",
                |at| self.study.sections[at].sizing.size.is_some(),
            ),
            "section-load" => self.sections(
                "load and capacity in the section schedule",
                "load or capacity is not known",
                |at| {
                    let section = &self.study.sections[at];
                    section.sizing.verdict != Verdict::Unknown && section.sizing.capacity().is_some()
                },
            ),
            "method" => self.sections(
                "table or equation and length in the section schedule, allowable pressure drop and specific gravity in the supply table",
                "no table or equation applies",
                |at| {
                    let basis = &self.study.sections[at].sizing.basis;
                    !matches!(basis, Basis::Nothing(_))
                },
            ),
            "lengths" => self.runs(
                |_| true,
                "run: length",
                "the length of each run",
                "a run has no length",
                |at, _| self.study.runs[at].length > crate::units::Length::ZERO,
            ),
            "material" => self.runs(
                |_| true,
                "settings: material",
                "the material of each run, the job's or its own",
                "",
                |_, _| true,
            ),
            "flow" => self.runs(
                |_| true,
                "run",
                "flow arrows on the runs",
                "no gas reaches the run",
                |at, _| self.study.runs[at].way.is_some(),
            ),
            "concealed" => self.runs(
                |run| run.surroundings == Surroundings::Concealed,
                "run: location",
                "runs marked as concealed",
                "",
                |_, _| true,
            ),
            "burial-depth" => self.runs(
                |run| run.surroundings == Surroundings::Underground,
                "run: cover",
                "the cover of buried runs",
                "buried pipe with no cover entered",
                |_, run| run.cover.is_some(),
            ),
            "tracer" => self.runs(
                |run| run.surroundings == Surroundings::Underground && self.job.material(run).is_plastic(),
                "run: tracer",
                "tracer wire on buried plastic pipe, in the notes",
                "buried plastic pipe with no tracer wire",
                |_, run| run.tracer,
            ),
            "inputs" => self.appliances(
                "the input of each appliance, in the schedule",
                "an appliance with no input",
                |appliance| {
                    appliance
                        .input
                        .is_some_and(|input| input.btuh().is_finite() && input.btuh() > 0.0)
                },
            ),
            "appliances" => self.appliances(
                "each appliance with its name, at its place",
                "an appliance with no name",
                |appliance| !appliance.name.trim().is_empty(),
            ),
            "licence" => text(
                &[&title.licence, &title.licence_holder],
                "title: license or license_holder",
            ),
            "address" => text(
                &[&title.site, &title.parcel, &title.owner],
                "title: job_address, parcel or owner",
            ),
            "description" => text(&[&title.description], "title: description"),
            "date-number" => every(
                &[(&title.date, "date"), (&title.drawing, "drawing number")],
                "title: date and drawing",
            ),
            "supply" => self.supply(),
            "pressure" => self.pressure(),
            "fuel" => said(Tick::Shown, Some("gas: fuel"), "the kind of gas, in the title block"),
            "code" => self.code(),
            "valves" => self.devices(
                |device| matches!(device, Device::Valve(_)),
                "shutoff valves",
                "no shutoff valve is drawn",
            ),
            "sediment-trap" => self.devices(
                |device| matches!(device, Device::SedimentTrap(_)),
                "sediment traps",
                "no sediment trap is drawn",
            ),
            "regulator-union" => self.regulator_union(),
            "outlets" => self.outlets(),
            "total-load" => self.total(),
            "developed-length" => self.developed(),
            "fittings" => self.fittings(),
            "elevations" => self.elevations(),
            "north" => self.drawn(id),
            "scale" => said(
                Tick::ByHand,
                None,
                "The isometric is not to scale and says so; its lengths are as written. An office that asks for a scale wants a plan as well.",
            ),
            "sheet-size" => said(
                Tick::ByHand,
                None,
                "Choose a paper as large as the permit office asks for when you draw the sheet.",
            ),
            "makers-data" => self.makers_data(),
            "distances" => said(
                Tick::ByHand,
                Some("notes"),
                "A job has no lot lines: write distances to lines and openings as notes, or hand in a plot plan.",
            ),
            _ => said(
                Tick::ByHand,
                None,
                "This program does not know the item: check it yourself.",
            ),
        }
    }

    /// What every drawing of some pipe shows.
    fn drawn(&self, id: &str) -> Said {
        if self.job.runs.is_empty() {
            return said(Tick::Missing, None, "No pipe is drawn.");
        }
        match id {
            "drawing" => said(Tick::Shown, None, "the sheet itself"),
            "route" => said(
                Tick::Shown,
                None,
                "the isometric, with walls, floors and locations as drawn",
            ),
            "isometric" => said(Tick::Shown, None, "the title of the sheet"),
            "north" => said(Tick::Shown, Some("settings: north"), "the north arrow of the sheet"),
            _ => said(Tick::Shown, None, "the scale in the title block"),
        }
    }

    fn nothing(&self, what: &str) -> Said {
        said(Tick::NotCalledFor, None, format!("The job has {what}."))
    }

    fn code(&self) -> Said {
        let profile = self.book.profile(&self.study.profile);
        match profile.filter(|profile| !matches!(profile.code.trim(), "" | "none") && !self.study.profile_missing) {
            Some(profile) => {
                let words = format!("{}, {}, in the title block", profile.code, profile.edition);
                said(Tick::Shown, Some("settings: profile"), words)
            }
            None => said(
                Tick::Missing,
                Some("settings: profile"),
                "The job's profile names no code: choose or write one that does.",
            ),
        }
    }
}
