//! What a job shows of each item.

mod device;
mod pipe;
mod said;

use super::Tick;
use crate::codebook::{Codebook, PermitAsk};
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
    /// What the job shows of an item.
    pub(super) fn at(&self, ask: PermitAsk) -> Said {
        let title = &self.job.title;
        match ask {
            PermitAsk::Drawing => self.drawn(None, "the sheet itself"),
            PermitAsk::Route => self.drawn(None, "the isometric, with walls, floors and locations as drawn"),
            PermitAsk::Isometric => self.drawn(None, "the title of the sheet"),
            PermitAsk::NotToScale => self.drawn(None, "the scale in the title block"),
            PermitAsk::North => self.drawn(Some("settings: north"), "the north arrow of the sheet"),
            PermitAsk::Sizes => self.sections(
                "the size of each section, on the drawing and in the section schedule",
                "no size is known",
                |at| self.study.sections[at].sizing.size.is_some(),
            ),
            PermitAsk::SectionLoad => self.sections(
                "load and capacity in the section schedule",
                "load or capacity is not known",
                |at| {
                    let section = &self.study.sections[at];
                    section.sizing.verdict != Verdict::Unknown && section.sizing.capacity().is_some()
                },
            ),
            PermitAsk::Method => self.sections(
                "table or equation and length in the section schedule, allowable pressure drop and specific gravity in the supply table",
                "no table or equation applies",
                |at| {
                    let basis = &self.study.sections[at].sizing.basis;
                    !matches!(basis, Basis::Nothing(_))
                },
            ),
            PermitAsk::Lengths => self.runs(
                |_| true,
                "run: length",
                "the length of each run",
                "a run has no length",
                |at, _| self.study.runs[at].length > crate::units::Length::ZERO,
            ),
            PermitAsk::Material => self.runs(
                |_| true,
                "settings: material",
                "the material of each run",
                "",
                |_, _| true,
            ),
            PermitAsk::Flow => self.runs(
                |_| true,
                "run",
                "flow arrows on the runs",
                "no gas reaches the run",
                |at, _| self.study.runs[at].way.is_some(),
            ),
            PermitAsk::Concealed => self.runs(
                |run| run.surroundings == Surroundings::Concealed,
                "run: location",
                "runs marked as concealed",
                "",
                |_, _| true,
            ),
            PermitAsk::BurialDepth => self.runs(
                |run| run.surroundings == Surroundings::Underground,
                "run: cover",
                "the cover of buried runs",
                "buried pipe with no cover entered",
                |_, run| run.cover.is_some(),
            ),
            PermitAsk::Tracer => self.runs(
                |run| run.surroundings == Surroundings::Underground && self.job.material(run).is_plastic(),
                "run: tracer",
                "tracer wire on buried plastic pipe, in the notes",
                "buried plastic pipe with no tracer wire",
                |_, run| run.tracer,
            ),
            PermitAsk::Inputs => self.appliances(
                "the input of each appliance, in the schedule",
                "an appliance with no input",
                |appliance| {
                    appliance
                        .input
                        .is_some_and(|input| input.btuh().is_finite() && input.btuh() > 0.0)
                },
            ),
            PermitAsk::Appliances => self.appliances(
                "each appliance with its name, at its place",
                "an appliance with no name",
                |appliance| !appliance.name.trim().is_empty(),
            ),
            PermitAsk::Licence => text(
                &[&title.licence, &title.licence_holder],
                "title: license or license_holder",
            ),
            PermitAsk::Address => text(
                &[&title.site, &title.parcel, &title.owner],
                "title: job_address, parcel or owner",
            ),
            PermitAsk::Description => text(&[&title.description], "title: description"),
            PermitAsk::DateNumber => every(
                &[(&title.date, "date"), (&title.drawing, "drawing number")],
                "title: date and drawing",
            ),
            PermitAsk::Supply => self.supply(),
            PermitAsk::Pressure => self.pressure(),
            PermitAsk::Fuel => said(Tick::Shown, Some("gas: fuel"), "the kind of gas, in the title block"),
            PermitAsk::Code => self.code(),
            PermitAsk::Valves => self.devices(
                |device| matches!(device, Device::Valve(_)),
                "shutoff valves",
                "no shutoff valve is drawn",
            ),
            PermitAsk::SedimentTrap => self.devices(
                |device| matches!(device, Device::SedimentTrap(_)),
                "sediment traps",
                "no sediment trap is drawn",
            ),
            PermitAsk::RegulatorUnion => self.regulator_union(),
            PermitAsk::Outlets => self.outlets(),
            PermitAsk::TotalLoad => self.total(),
            PermitAsk::DevelopedLength => self.developed(),
            PermitAsk::Fittings => self.fittings(),
            PermitAsk::Elevations => self.elevations(),
            PermitAsk::Scale => said(
                Tick::ByHand,
                None,
                "The isometric is not to scale and says so; its lengths are as written. An office that asks for a scale wants a plan as well.",
            ),
            PermitAsk::SheetSize => said(
                Tick::ByHand,
                None,
                "Choose a paper as large as the permit office asks for when you draw the sheet; an office that asks for a larger one than this program has gets an enlarged print.",
            ),
            PermitAsk::MakersData => self.makers_data(),
            PermitAsk::Distances => said(
                Tick::ByHand,
                Some("notes"),
                "Lot lines are not drawn: write the distances as notes, or submit a plot plan.",
            ),
        }
    }

    /// What every drawing of some pipe shows.
    fn drawn(&self, field: Option<&'static str>, by: &str) -> Said {
        match self.job.runs.is_empty() {
            true => said(Tick::Missing, None, "No pipe is drawn."),
            false => said(Tick::Shown, field, by),
        }
    }

    fn nothing(&self, what: &str) -> Said {
        said(Tick::NotCalledFor, None, format!("The job has {what}."))
    }

    fn code(&self) -> Said {
        let profile = self.book.profile(&self.study.profile);
        match profile.filter(|profile| !matches!(profile.code.trim(), "" | "none") && !self.study.profile_missing) {
            Some(profile) => {
                let words = format!("{}, in the title block", profile.code_and_edition());
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
