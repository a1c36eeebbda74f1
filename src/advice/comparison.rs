//! What a job comes to, in few figures, so that variants of it can stand side by side.

use crate::codebook::{Codebook, SizeNames};
use crate::job::{Job, Material, State};
use crate::rules::Checked;
use crate::study::{Study, how_many};
use crate::units::{GaugePressure, Length, NominalSize, PressureDrop, Show, UnitSystem};
use std::collections::BTreeMap;

/// What one variant of a job comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// Delivery pressure.
    pub delivered: Option<GaugePressure>,
    /// New pipe by material and size, small to large; a size of `None` is not found.
    pub pipe: Vec<PipeBought>,
    /// What the new pipe weighs, pounds; `None` where for some of it no weight is published.
    pub pounds: Option<f64>,
    /// Existing pipe that goes: removed, or with new pipe in its place.
    pub goes: Length,
    /// New fittings that the drawing implies.
    pub fittings: usize,
    /// New devices, outlets left out.
    pub devices: usize,
    /// Sections whose size does not carry the load, by number.
    pub too_small: Vec<usize>,
    /// Sections that were held against nothing: a figure is missing.
    pub unjudged: usize,
    /// Rated devices that carry more than they are rated for, line regulators below their settings and inlets below their
    /// least, by name.
    pub failing: Vec<String>,
    /// The outlet that is nearest to its least inlet pressure, or farthest below it.
    pub lowest: Option<Lowest>,
    /// Blocking findings.
    pub blocking: usize,
}

/// New pipe of one size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PipeBought {
    /// Its material.
    pub material: Material,
    /// Its size, where it is known.
    pub size: Option<NominalSize>,
    /// How much of it.
    pub length: Length,
    /// By what its size goes.
    pub names: SizeNames,
}

impl PipeBought {
    /// Its size by name: `3/4"`, `7/8" OD`; `None` where it is not known.
    pub fn size_named(&self) -> Option<String> {
        self.size.map(|size| self.names.show(self.material, size))
    }
}

/// The outlet that has least to spare.
#[derive(Clone, Debug, PartialEq)]
pub struct Lowest {
    /// Its name on the drawing, or its letter.
    pub name: String,
    /// Pressure at full load.
    pub pressure: GaugePressure,
    /// What that is above its least inlet pressure; less than nothing below it.
    pub margin: PressureDrop,
}

impl Lowest {
    /// Of the outlets whose pressure and least are known, the one that has least to spare.
    pub fn of(study: &Study) -> Option<Lowest> {
        let known = study.outlets.iter().filter_map(|outlet| {
            Some(Lowest {
                name: outlet.called(),
                pressure: outlet.pressure?,
                margin: outlet.margin?,
            })
        });
        known.min_by(|a, b| a.margin.pa().total_cmp(&b.margin.pa()))
    }

    /// "Furnace 6.75 in w.c., 1.75 in w.c. above".
    pub fn words(&self, units: UnitSystem) -> String {
        let side = if self.margin.pa() < 0.0 { "below" } else { "above" };
        let by = PressureDrop::from_pa(self.margin.pa().abs());
        format!("{} {}, {} {side}", self.name, self.pressure.show(units), by.show(units))
    }
}

impl Outcome {
    /// Studies a job for it.
    pub fn of(job: &Job, book: &Codebook) -> Outcome {
        Outcome::beside(job, book, &Checked::of(job, book))
    }

    /// The same for one who has the study already.
    pub fn beside(job: &Job, book: &Codebook, checked: &Checked) -> Outcome {
        let study = &checked.study;
        let mut bought: BTreeMap<(Material, Option<NominalSize>), Length> = BTreeMap::new();
        let mut goes = Length::ZERO;
        for (at, run) in job.runs.iter().enumerate() {
            let length = job.true_length(run).max(Length::ZERO);
            let section = study.runs[at].section.map(|section| &study.sections[section]);
            if study.runs[at].is_hose {
                continue;
            }
            if run.state == State::New {
                let size = section.map_or(run.size, |section| section.sizing.size);
                *bought.entry((job.material(run), size)).or_default() += length;
            }
            if run.state == State::Removed || run.replaced().is_some() {
                goes += length;
            }
        }
        let weight = |(&(material, size), length): (&(Material, Option<NominalSize>), &Length)| {
            Some(book.pipe(material, size?)?.pounds_per_foot?.value * length.feet())
        };
        let sections = study.sections.iter().filter(|section| section.is_pipe());
        let verdict = |wanted| sections.clone().filter(move |section| section.sizing.verdict == wanted);
        let exceeded = study.devices.iter();
        let exceeded = exceeded.filter(|device| device.verdict == crate::pressure::RatingVerdict::Exceeded);
        let starved = study.devices.iter().filter(|device| device.is_starved());
        let low = study.outlets.iter();
        let low = low.filter(|outlet| outlet.margin.is_some_and(|margin| margin.pa() < 0.0));
        let failing = (exceeded.map(|device| device.name().to_owned()))
            .chain(starved.map(|device| format!("setting of {}", job.joints.at(device.joint).id)))
            .chain(low.map(crate::network::Outlet::called));
        Outcome {
            delivered: study.zones.first().and_then(|zone| zone.inlet),
            pounds: bought.iter().map(weight).sum(),
            goes,
            fittings: study.fittings.iter().filter(|fitting| fitting.is_new_work()).count(),
            devices: new_devices(job),
            too_small: verdict(crate::sizing::Verdict::TooSmall)
                .map(|section| section.number)
                .collect(),
            unjudged: verdict(crate::sizing::Verdict::Unknown)
                .filter(|section| section.load.flow.cfh() > 0.0)
                .count(),
            failing: failing.collect(),
            lowest: Lowest::of(study),
            blocking: checked.must_fix().count(),
            pipe: bought
                .into_iter()
                .map(|((material, size), length)| PipeBought {
                    material,
                    size,
                    length,
                    names: study.names,
                })
                .collect(),
        }
    }

    /// Heads of the rows of [`Outcome::column`].
    pub const HEADS: [&'static str; 9] = [
        "Delivery pressure",
        "New pipe",
        "Weight of new pipe",
        "Existing pipe removed",
        "New parts",
        "Sections over capacity",
        "Other parts over limits",
        "Lowest margin",
        "Must-fix findings",
    ];

    /// Whether any pipe, device, inlet or regulator is over its limit.
    pub fn is_over(&self) -> bool {
        !self.too_small.is_empty() || !self.failing.is_empty()
    }

    /// The variant in words, one for each of the [`Outcome::HEADS`].
    pub fn column(&self, units: UnitSystem) -> [String; 9] {
        let none = || "none found".to_owned();
        let list = |words: Vec<String>| if words.is_empty() { none() } else { words.join(", ") };
        let pipe = |pipe: &PipeBought| {
            let size = pipe.size_named().unwrap_or_else(|| "size not known".to_owned());
            format!("{size} {} {}", pipe.material.short(), pipe.length.show(units))
        };
        let unjudged = match self.unjudged {
            0 => String::new(),
            many => format!("; {many} not judged"),
        };
        [
            self.delivered
                .map_or_else(|| "not known".to_owned(), |delivered| delivered.show(units)),
            match self.pipe.as_slice() {
                [] => "none".to_owned(),
                all => all.iter().map(pipe).collect::<Vec<_>>().join(", "),
            },
            match (self.pounds, units) {
                (None, _) => "not published".to_owned(),
                // The sum of no pipe at all is a negative zero.
                (Some(pounds), _) if pounds.abs() < 0.5 && self.pipe.is_empty() => "none".to_owned(),
                (Some(pounds), UnitSystem::Us) => format!("{pounds:.0} lb"),
                (Some(pounds), UnitSystem::Metric | UnitSystem::MetricKpa) => {
                    format!("{:.0} kg", pounds * KG_PER_POUND)
                }
            },
            match self.goes {
                Length::ZERO => "none".to_owned(),
                goes => goes.show(units),
            },
            format!(
                "{}, {}",
                how_many(self.fittings, "fitting"),
                how_many(self.devices, "device")
            ),
            format!(
                "{}{unjudged}",
                list(self.too_small.iter().map(ToString::to_string).collect())
            ),
            list(self.failing.clone()),
            self.lowest
                .as_ref()
                .map_or_else(|| "not known".to_owned(), |lowest| lowest.words(units)),
            self.blocking.to_string(),
        ]
    }
}

/// A variant of a job as a column beside others.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// Its name.
    pub name: String,
    /// Whether its sizes may stand on a permit drawing.
    pub for_permit: bool,
    /// What it comes to.
    pub outcome: Outcome,
    /// What is bought and done, in sentences.
    pub does: Vec<String>,
    /// What must still be fixed with it, each in a few words.
    pub left: Vec<String>,
    /// What must be known of it, in sentences.
    pub said: String,
}

impl Variant {
    /// The job as it is drawn.
    pub fn drawn(outcome: Outcome) -> Variant {
        Variant {
            name: "As drawn".to_owned(),
            for_permit: true,
            outcome,
            does: Vec::new(),
            left: Vec::new(),
            said: String::new(),
        }
    }

    /// Its name, with a word where its sizes are not for a permit.
    pub fn head(&self) -> String {
        match self.for_permit {
            true => self.name.clone(),
            // Names of such ways say it themselves; on paper it is set in capitals.
            false if self.name.contains(NOT_FOR_PERMIT) => {
                self.name.replace(NOT_FOR_PERMIT, &NOT_FOR_PERMIT.to_uppercase())
            }
            false => format!("{}: {}", self.name, NOT_FOR_PERMIT.to_uppercase()),
        }
    }

    /// What is done and what must be known, in one paragraph.
    pub fn words(&self) -> String {
        let mut words = format!("{}. {}", self.head(), self.does.join(" "));
        words.push(' ');
        words.push_str(&self.said);
        words
    }
}

/// In the names of ways whose sizes are none for a permit.
const NOT_FOR_PERMIT: &str = "not for permit";

/// The international pound, exactly.
const KG_PER_POUND: f64 = 0.453_592_37;

fn new_devices(job: &Job) -> usize {
    use crate::job::Device;
    let placed = job.joints.iter().filter_map(|joint| joint.placed.as_ref());
    let counts = |device: &Device| !matches!(device, Device::Appliance(_) | Device::Supply(_) | Device::Cap(_));
    placed
        .filter(|placed| placed.state == State::New && counts(&placed.device))
        .count()
}
