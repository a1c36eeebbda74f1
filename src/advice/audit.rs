//! What stands already, before the work and after it.
//!
//! A job says what is new, what stands and what goes. Leaving the new parts out, and the parts to be removed in, gives
//! the job as it stood; its study beside that of the job tells for each part that stays what it carried and what it
//! will carry. Capacities differ too where the work makes the way longer: the table is then read in another row.

mod both;

use crate::codebook::{Codebook, SizeNames};
use crate::job::{Job, Material, as_it_stood};
use crate::pressure::RatedPart;
use crate::study::Study;
use crate::units::{Flow, GaugePressure, NominalSize, Show, UnitSystem};
use both::Both;

/// Every existing section, every rated device that stays, and the inlet of every appliance, before and after the work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Audit {
    /// Pipe in flow order, then devices, then settings of line regulators, then inlets; parts that gas no longer reaches last of their kind.
    pub rows: Vec<AuditRow>,
}

/// One part before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct AuditRow {
    /// The part.
    pub part: AuditPart,
    /// As it stood; `None` where it was not there, or no gas reached it.
    pub before: Option<Held>,
    /// As it will stand; `None` where no gas will reach it.
    pub after: Option<Held>,
}

/// What is looked at. Runs and joints are positions in `job.runs` and `job.joints`.
#[derive(Clone, Debug, PartialEq)]
pub enum AuditPart {
    /// Existing runs, or new ones in their place, that are in one section before and after: a new tee parts a section, a
    /// removed branch joins two.
    Pipe {
        /// The runs, in flow order.
        runs: Vec<usize>,
        /// Their section in the study of the job.
        section: Option<usize>,
        /// Their material.
        material: Material,
        /// Their size as they stood, where a person said it.
        size: Option<NominalSize>,
        /// The size of the new pipe that takes their place, where it does and is known.
        by: Option<NominalSize>,
    },
    /// A rated device.
    Device {
        /// Its joint.
        joint: usize,
        /// What it is.
        part: RatedPart,
    },
    /// The inlet of an appliance.
    Inlet {
        /// Its joint.
        joint: usize,
        /// The person's name for the appliance.
        name: String,
    },
    /// What a line regulator is set to.
    Setting {
        /// Its joint.
        joint: usize,
    },
}

/// What a part carries or has at full load, against its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// A flow against a capacity or a rating.
    Flow {
        /// What it carries.
        carried: Flow,
        /// What it is good for, where that is published or rated.
        capacity: Option<Flow>,
        /// The judgement.
        standing: Standing,
    },
    /// A pressure against the least one on the rating plate, or that behind a regulator against its setting.
    Pressure {
        /// Pressure at full load, when every size on the way is known.
        found: Option<GaugePressure>,
        /// Least inlet pressure, where the plate says it; the setting.
        least: Option<GaugePressure>,
        /// The judgement.
        standing: Standing,
    },
}

/// Whether a part holds what it must.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Standing {
    /// It was held against a figure and keeps to it.
    Holds,
    /// It does not keep to the figure.
    Fails,
    /// A figure is missing.
    Unknown,
}

impl Standing {
    /// The words on lists, of pipe and devices.
    pub const fn name(self) -> &'static str {
        match self {
            Standing::Holds => "within capacity",
            Standing::Fails => "over capacity",
            Standing::Unknown => "not judged",
        }
    }

    /// The word for machines, of whatever part.
    pub const fn key(self) -> &'static str {
        match self {
            Standing::Holds => "within_limit",
            Standing::Fails => "over_limit",
            Standing::Unknown => "not_judged",
        }
    }
}

impl Held {
    /// The judgement.
    pub const fn standing(&self) -> Standing {
        match self {
            Held::Flow { standing, .. } | Held::Pressure { standing, .. } => *standing,
        }
    }

    /// Figure and limit in the units of a drawing: "95 of 131 cfh", "6.5 in w.c., at least 5 in w.c.".
    pub(crate) fn words(&self, units: UnitSystem) -> String {
        match *self {
            Held::Flow { carried, capacity, .. } => {
                let carried = carried.show(units);
                let Some(capacity) = capacity.map(|capacity| capacity.show(units)) else {
                    return format!("{carried}, capacity not known");
                };
                match (carried.split_once(' '), capacity.split_once(' ')) {
                    (Some((number, unit)), Some((_, same))) if unit == same => format!("{number} of {capacity}"),
                    _ => format!("{carried} of {capacity}"),
                }
            }
            Held::Pressure { found, least, .. } => {
                let found = found.map_or_else(|| "pressure not known".to_owned(), |found| found.show(units));
                match least {
                    Some(least) => format!("{found}, min. {}", least.show(units)),
                    None => format!("{found}, minimum not entered"),
                }
            }
        }
    }
}

impl AuditPart {
    /// The part by name: "R1, R2 1\" steel, 1-1/4\" in its place", "meter at J1", "Furnace".
    pub fn words(&self, job: &Job, names: SizeNames) -> String {
        let joint = |at: usize| job.joints.at(at).id;
        match self {
            AuditPart::Pipe {
                runs,
                material,
                size,
                by,
                ..
            } => {
                let named = |size| names.show(*material, size);
                let size = size.map_or_else(|| "size not entered".to_owned(), named);
                let by = by.map_or_else(String::new, |by| format!(", replaced by {}", named(by)));
                format!("{} {size} {}{by}", runs_named(job, runs), material.short())
            }
            AuditPart::Device { joint: at, part } => format!("{} at {}", part.name(), joint(*at)),
            AuditPart::Inlet { joint: at, name } if name.trim().is_empty() => format!("appliance at {}", joint(*at)),
            AuditPart::Inlet { name, .. } => name.trim().to_owned(),
            AuditPart::Setting { joint: at } => format!("setting of the line regulator at {}", joint(*at)),
        }
    }
}

/// "R1", "R1, R2", "R1 to R9 (5 runs)".
fn runs_named(job: &Job, runs: &[usize]) -> String {
    let id = |run: &usize| job.runs.at(*run).id.to_string();
    match runs {
        [first, .., last] if runs.len() > 3 => format!("{} to {} ({} runs)", id(first), id(last), runs.len()),
        few => few.iter().map(id).collect::<Vec<_>>().join(", "),
    }
}

/// What comes of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AuditResult {
    /// It keeps to its limit.
    Within,
    /// It goes over its limit by this work.
    OverAfter,
    /// It was over its limit and stays so.
    OverBeforeAndAfter,
    /// It was over its limit and is no more.
    Corrected,
    /// A figure is missing.
    NotJudged,
    /// No gas reaches it after this work.
    Disconnected,
}

impl AuditResult {
    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            AuditResult::Within => "within_limit",
            AuditResult::OverAfter => "over_limit_after",
            AuditResult::OverBeforeAndAfter => "over_limit_before_and_after",
            AuditResult::Corrected => "corrected",
            AuditResult::NotJudged => "not_judged",
            AuditResult::Disconnected => "disconnected",
        }
    }
}

impl AuditRow {
    /// Before and after for two columns: "95 of 131 cfh" and "171 of 131 cfh".
    pub fn sides(&self, units: UnitSystem) -> [String; 2] {
        let side = |held: &Option<Held>, none: &str| held.map_or_else(|| none.to_owned(), |held| held.words(units));
        [side(&self.before, "new"), side(&self.after, "no gas")]
    }

    /// What comes of it in a few words.
    pub fn verdict(&self) -> &'static str {
        let [within, by_this, before_too] = match self.part {
            AuditPart::Pipe { .. } | AuditPart::Device { .. } => [
                Standing::Holds.name(),
                "over capacity after this work",
                "over capacity before and after",
            ],
            AuditPart::Inlet { .. } => [
                "above minimum",
                "below minimum after this work",
                "below minimum before and after",
            ],
            AuditPart::Setting { .. } => [
                "at its setting",
                "below its setting after this work",
                "below its setting before and after",
            ],
        };
        match self.result() {
            AuditResult::Within => within,
            AuditResult::OverAfter => by_this,
            AuditResult::OverBeforeAndAfter => before_too,
            AuditResult::Corrected => "corrected",
            AuditResult::NotJudged => Standing::Unknown.name(),
            AuditResult::Disconnected => "disconnected",
        }
    }

    /// What comes of it.
    pub fn result(&self) -> AuditResult {
        let standing = |held: &Option<Held>| held.map(|held| held.standing());
        match (standing(&self.before), standing(&self.after)) {
            (Some(Standing::Fails), Some(Standing::Fails)) => AuditResult::OverBeforeAndAfter,
            (_, Some(Standing::Fails)) => AuditResult::OverAfter,
            (Some(Standing::Fails), Some(Standing::Holds)) => AuditResult::Corrected,
            (_, Some(Standing::Holds)) => AuditResult::Within,
            (_, Some(Standing::Unknown)) => AuditResult::NotJudged,
            (_, None) => AuditResult::Disconnected,
        }
    }

    /// Both sides in a sentence's words: "carried 95 of 131 cfh, will carry 171 of 131 cfh".
    pub fn words(&self, units: UnitSystem) -> String {
        let (had, will_have) = match self.part {
            AuditPart::Pipe { .. } | AuditPart::Device { .. } => ("demand before", "after"),
            AuditPart::Inlet { .. } | AuditPart::Setting { .. } => ("pressure before", "after"),
        };
        let before = match &self.before {
            Some(held) => format!("{had} {}", held.words(units)),
            None => "no gas before".to_owned(),
        };
        let after = match &self.after {
            Some(held) => format!("{will_have} {}", held.words(units)),
            None => "no gas after".to_owned(),
        };
        let separator = match self.part {
            AuditPart::Pipe { .. } | AuditPart::Device { .. } => ",",
            AuditPart::Inlet { .. } | AuditPart::Setting { .. } => ";",
        };
        format!("{before}{separator} {after}")
    }
}

impl Audit {
    /// Looks at a job as it stood and as it will stand, under its own profile.
    pub fn of(job: &Job, book: &Codebook) -> Audit {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        Audit::beside(job, book, &Study::under(job, book, profile))
    }

    /// The same, for one who has the study of the job already.
    pub fn beside(job: &Job, book: &Codebook, after: &Study) -> Audit {
        let old = as_it_stood(job);
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let before = Study::under(&old, book, profile);
        let sides = Both {
            job,
            old: &old,
            before: &before,
            after,
        };
        Audit { rows: sides.rows() }
    }

    /// The rows that fail after the work.
    pub fn failing(&self) -> impl Iterator<Item = &AuditRow> {
        let fails = |row: &&AuditRow| row.after.is_some_and(|held| held.standing() == Standing::Fails);
        self.rows.iter().filter(fails)
    }
}
