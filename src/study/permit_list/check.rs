//! What a job shows of each item. An item that is not known here is left to the hand.

use super::Tick;
use crate::codebook::Codebook;
use crate::job::{Appliance, Cap, Device, Job, Joint, Material, Run, State, Surroundings};
use crate::study::{Basis, OutletKind, Place, Study, Verdict, test_sheet};
use crate::units::Show;

/// What is said of an item.
pub(super) struct Said {
    pub(super) tick: Tick,
    pub(super) words: String,
    pub(super) places: Vec<Place>,
    pub(super) field: Option<&'static str>,
}

fn said(tick: Tick, field: Option<&'static str>, words: impl Into<String>) -> Said {
    Said {
        tick,
        words: words.into(),
        places: Vec::new(),
        field,
    }
}

/// Of places that must show something: which do, which do not.
struct Sorted {
    shown: Vec<Place>,
    lacking: Vec<Place>,
}

impl Sorted {
    fn of<T>(all: impl Iterator<Item = T>, place: impl Fn(&T) -> Place, shows: impl Fn(&T) -> bool) -> Sorted {
        let (mut shown, mut lacking) = (Vec::new(), Vec::new());
        for part in all {
            let list = if shows(&part) { &mut shown } else { &mut lacking };
            list.push(place(&part));
        }
        Sorted { shown, lacking }
    }

    /// Shown where all show it; missing where one lacks it; `none` where there is nothing at all.
    fn said(self, field: &'static str, by: &str, lacks: &str, none: Said) -> Said {
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
                "the size of each section, on the drawing and in the schedule",
                "no size is known",
                |at| self.study.sections[at].sizing.size.is_some(),
            ),
            "section-load" => self.sections(
                "load and capacity in the schedule of sections",
                "load or capacity is not known",
                |at| {
                    let section = &self.study.sections[at];
                    section.sizing.verdict != Verdict::Unknown && section.sizing.capacity().is_some()
                },
            ),
            "method" => self.sections(
                "table or equation and length in the schedule, allowed drop and specific gravity in the supply table",
                "no table or equation serves",
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
                "arrows of flow on the runs",
                "no gas reaches the run",
                |at, _| self.study.runs[at].way.is_some(),
            ),
            "concealed" => self.runs(
                |run| run.surroundings == Surroundings::Concealed,
                "run: surroundings",
                "runs marked as concealed",
                "",
                |_, _| true,
            ),
            "burial-depth" => self.runs(
                |run| run.surroundings == Surroundings::Underground,
                "run: cover",
                "the cover of buried runs",
                "buried pipe without its cover",
                |_, run| run.cover.is_some(),
            ),
            "tracer" => self.runs(
                |run| run.surroundings == Surroundings::Underground && self.job.material(run) == Material::Pe,
                "run: tracer",
                "tracer wire on buried plastic pipe, in the notes",
                "buried plastic pipe without tracer wire",
                |_, run| run.tracer,
            ),
            "inputs" => self.appliances(
                "the input of each appliance, in the schedule",
                "an appliance without input",
                |appliance| {
                    appliance
                        .input
                        .is_some_and(|input| input.btuh().is_finite() && input.btuh() > 0.0)
                },
            ),
            "appliances" => self.appliances(
                "each appliance with its name, where it stands",
                "an appliance without name",
                |appliance| !appliance.name.trim().is_empty(),
            ),
            "licence" => text(
                &[&title.licence, &title.licence_holder],
                "title: licence or licence_holder",
            ),
            "address" => text(
                &[&title.site, &title.parcel, &title.owner],
                "title: site, parcel or owner",
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
                "The isometric is not to scale and says so, its lengths are as written: an office that asks for a scale wants a plan beside it.",
            ),
            "sheet-size" => said(
                Tick::ByHand,
                None,
                "Choose a paper as large as the office asks for when the sheet is drawn.",
            ),
            "makers-data" => self.makers_data(),
            "distances" => said(
                Tick::ByHand,
                Some("notes"),
                "A job holds no lot: write distances to lines and openings as notes, or hand in a plot plan.",
            ),
            _ => said(
                Tick::ByHand,
                None,
                "This program does not know the item: look yourself.",
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
                "the isometric, with walls, floors and surroundings as drawn",
            ),
            "isometric" => said(Tick::Shown, None, "the title of the sheet"),
            "north" => said(Tick::Shown, Some("settings: north"), "the north arrow of the sheet"),
            _ => said(Tick::Shown, None, "the scale in the title block"),
        }
    }

    fn no_pipe(&self) -> Said {
        said(Tick::Missing, None, "No pipe is drawn.")
    }

    fn nothing(&self, what: &str) -> Said {
        said(Tick::NotCalledFor, None, format!("The job has {what}."))
    }

    fn sections(&self, by: &str, lacks: &str, shows: impl Fn(usize) -> bool) -> Said {
        let place = |&at: &usize| match self.study.sections[at].runs.first() {
            Some(&run) => Place::Run(self.job.runs.at(run).id),
            None => Place::Job,
        };
        let none = said(Tick::Missing, None, "No pipe is drawn that gas reaches.");
        let is_pipe = test_sheet::pipe(self.job, self.study);
        // The flexible line to an appliance is its maker's matter and has no size of the house's.
        let pipes =
            (0..self.study.sections.len()).filter(|&at| self.study.sections[at].runs.iter().all(|&run| is_pipe[run]));
        Sorted::of(pipes, place, |&at| shows(at)).said("run: size", by, lacks, none)
    }

    /// Runs that stay or come.
    fn runs(
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
            true => self.nothing("no such pipe"),
            false => self.no_pipe(),
        };
        Sorted::of(asked, |(_, run)| Place::Run(run.id), |(at, run)| shows(*at, run)).said(field, by, lacks, none)
    }

    fn devices_of(&self, which: impl Fn(&Device) -> bool) -> impl Iterator<Item = &'a Joint> {
        self.job
            .joints
            .iter()
            .filter(move |joint| joint.device().is_some_and(&which))
    }

    fn devices(&self, which: impl Fn(&Device) -> bool, by: &str, lacks: &str) -> Said {
        let places = |joint: &Joint| Place::Joint(joint.id);
        let found: Vec<Place> = self.devices_of(which).map(places).collect();
        match found.is_empty() {
            true => said(Tick::Missing, Some("joint: device"), lacks),
            false => Said {
                places: found,
                ..said(Tick::Shown, Some("joint: device"), format!("{by} on the drawing"))
            },
        }
    }

    fn appliances(&self, by: &str, lacks: &str, shows: impl Fn(&Appliance) -> bool) -> Said {
        let all = self.devices_of(|device| matches!(device, Device::Appliance(_)));
        let shows = |joint: &&Joint| match joint.device() {
            Some(Device::Appliance(appliance)) => shows(appliance),
            _ => false,
        };
        let none = said(Tick::Missing, Some("joint: device"), "No appliance is drawn.");
        Sorted::of(all, |joint| Place::Joint(joint.id), shows).said("appliance", by, lacks, none)
    }

    fn supply(&self) -> Said {
        self.devices(
            |device| matches!(device, Device::Supply(_)),
            "the point of delivery",
            "No point of delivery is drawn.",
        )
    }

    fn pressure(&self) -> Said {
        let all = self.devices_of(|device| matches!(device, Device::Supply(_)));
        let usable = |joint: &&Joint| match joint.device() {
            Some(Device::Supply(supply)) => supply.pressure.pa().is_finite() && supply.pressure.pa() > 0.0,
            _ => false,
        };
        let none = said(
            Tick::Missing,
            Some("supply: pressure"),
            "No point of delivery is drawn.",
        );
        Sorted::of(all, |joint| Place::Joint(joint.id), usable).said(
            "supply: pressure",
            "the delivery pressure, in the title block",
            "the delivery pressure is no usable figure",
            none,
        )
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

    fn regulator_union(&self) -> Said {
        let regulators = self.devices_of(|device| matches!(device, Device::Regulator(_)));
        let near = |joint: &&Joint| {
            let Some(at) = self.job.joints.position(joint.id) else {
                return false;
            };
            let foot = crate::units::Length::from_feet(1.0);
            self.study.network.legs(at).any(|run| {
                let ends = self.job.runs.at(run);
                let other = if ends.from == joint.id { ends.to } else { ends.from };
                let union = self.job.joints.get(other).and_then(Joint::device);
                ends.state != State::Removed && union == Some(&Device::Union) && self.study.runs[run].length <= foot
            })
        };
        let none = self.nothing("no line regulator");
        Sorted::of(regulators, |joint| Place::Joint(joint.id), near).said(
            "joint: device",
            "each line regulator with a union next to it, within 1 ft",
            "a line regulator without a union next to it within 1 ft (asked on rigid pipe)",
            none,
        )
    }

    fn outlets(&self) -> Said {
        let serves_something = |joint: &&Joint| match joint.device() {
            Some(Device::Appliance(appliance)) => !appliance.name.trim().is_empty(),
            Some(Device::Cap(Cap { future_input, .. })) => future_input.is_some(),
            _ => false,
        };
        let joints = self.study.outlets.iter().map(|outlet| self.job.joints.at(outlet.joint));
        let none = said(
            Tick::Missing,
            Some("joint: device"),
            "No outlet is drawn that gas reaches.",
        );
        Sorted::of(joints, |joint| Place::Joint(joint.id), serves_something).said(
            "appliance: name",
            "each outlet with its letter and what it serves, in the schedule",
            "an outlet that does not say what it serves",
            none,
        )
    }

    fn total(&self) -> Said {
        let field = Some("appliance: input");
        let heats = self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance);
        let unknown = heats.clone().filter(|outlet| outlet.heat.is_none());
        let lacking: Vec<Place> = unknown
            .map(|outlet| Place::Joint(self.job.joints.at(outlet.joint).id))
            .collect();
        if heats.count() == 0 {
            return said(Tick::Missing, field, "No appliance is drawn that gas reaches.");
        }
        match lacking.is_empty() {
            true => said(
                Tick::Shown,
                field,
                "the total load, in the title block and under the schedule",
            ),
            false => Said {
                places: lacking,
                ..said(
                    Tick::Missing,
                    field,
                    "The total leaves out an appliance whose input is not known.",
                )
            },
        }
    }

    fn developed(&self) -> Said {
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
                "No outlet is drawn that gas reaches.",
            ),
        }
    }

    fn fittings(&self) -> Said {
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
            (false, true, _) => self.nothing("no fitting: the runs meet in none"),
            (false, false, true) => said(
                Tick::Shown,
                None,
                "the fittings that the drawing implies, where pipe turns and branches; `stubout count` lists them",
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

    fn elevations(&self) -> Said {
        let mut heights = self.study.joints.iter().map(|joint| joint.elevation);
        let first = heights.next();
        match first {
            None => self.no_pipe(),
            Some(first) if heights.all(|height| height == first) => self.nothing("all its pipe at one height"),
            Some(_) if self.job.settings.datum_name.trim().is_empty() => said(
                Tick::Missing,
                Some("settings: datum_name"),
                "Elevations are drawn, but not from what: name their zero.",
            ),
            Some(_) => said(
                Tick::Shown,
                Some("settings: datum_name"),
                format!("elevations above {}", self.job.settings.datum_name.trim()),
            ),
        }
    }

    fn makers_data(&self) -> Said {
        let needs = |placed: &&crate::job::Placed| {
            placed.state == State::New && matches!(placed.device, Device::Appliance(_) | Device::Regulator(_))
        };
        let is_csst = |run: &Run| run.state == State::New && self.job.material(run) == Material::Csst;
        let mut placed = self.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
        match placed.any(|placed| needs(&placed)) || self.job.runs.iter().any(is_csst) {
            true => said(
                Tick::ByHand,
                None,
                "Hand in the makers' data of new appliances, regulators and tubing.",
            ),
            false => self.nothing("no new appliance, regulator or corrugated tubing"),
        }
    }
}

/// Shown when one of some texts is filled in.
fn text(texts: &[&str], field: &'static str) -> Said {
    match texts.iter().map(|text| text.trim()).find(|text| !text.is_empty()) {
        Some(_) => said(Tick::Shown, Some(field), "the title block"),
        None => said(Tick::Missing, Some(field), "The title block leaves it empty."),
    }
}

/// Shown when all of some texts are filled in.
fn every(texts: &[(&str, &str)], field: &'static str) -> Said {
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
            format!("The title block leaves empty: {}.", empty.join(", ")),
        ),
    }
}
