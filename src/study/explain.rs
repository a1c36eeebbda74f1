//! The reason for a size, in words.

use super::Study;
use super::words::capital;
use crate::codebook::{Allowance, CapacityTable, Codebook};
use crate::job::{Job, State};
use crate::network::{DropFrom, Outlet, OutletKind, by_letter};
use crate::pressure::Flowing;
use crate::sizing::{Basis, LengthRule, Origin, Section, SizeCapacity, Verdict};
use crate::units::{Length, NominalSize, PressureDrop, Show, UnitSystem, in_units};
use std::ops::Add;

/// The reason for the size of a section, in sentences under heads of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Reason {
    /// What the section is, and its size.
    pub what: String,
    /// The load, and whose it is.
    pub load: Vec<String>,
    /// The length that sizes it, and the drop that is allowed.
    pub length: Vec<String>,
    /// Table and row, or what stands in their place.
    pub basis: Vec<String>,
    /// What the size and its neighbours carry, small to large: one for each of [`crate::sizing::Sizing::capacities`].
    pub capacities: Vec<String>,
    /// Whether the size carries the load, and what must be said beside it.
    pub verdict: Vec<String>,
    /// The physics beside the method: pressures, losses, velocity.
    pub physics: String,
    /// Notes of the table.
    pub notes: Vec<String>,
}

impl Reason {
    /// All sentences in their order.
    pub fn lines(self) -> Vec<String> {
        let mut lines = vec![self.what];
        for part in [self.load, self.length, self.basis, self.capacities, self.verdict] {
            lines.extend(part);
        }
        lines.push(self.physics);
        lines.extend(self.notes);
        lines
    }
}

/// The reason for the size of a section, a sentence a line: what it is, the load and whose, the length and along which
/// way, table, row, column, neighbour sizes with their source marks, and the physics beside it.
///
/// `section` is a position in `study.sections`; past their end there is nothing to say.
pub fn explain(job: &Job, book: &Codebook, study: &Study, section: usize) -> Vec<String> {
    reason(job, book, study, section).map(Reason::lines).unwrap_or_default()
}

/// The same in parts; `None` past the end of the sections.
pub fn reason(job: &Job, book: &Codebook, study: &Study, section: usize) -> Option<Reason> {
    let section = study.sections.get(section)?;
    let teller = Teller {
        job,
        book,
        study,
        section,
        units: study.names.units(),
    };
    let what = teller.what();
    let load = std::iter::once(teller.load()).chain(teller.left_out()).collect();
    let physics = teller.physics();
    if section.sizing.origin == Origin::Connector {
        return Some(Reason {
            what,
            load,
            length: vec![teller.apart()],
            basis: Vec::new(),
            capacities: Vec::new(),
            verdict: vec![teller.own_rating()],
            physics,
            notes: Vec::new(),
        });
    }
    let mut length = vec![teller.length()];
    length.extend(teller.hose());
    length.extend(teller.fittings());
    length.push(teller.allowed_drop());
    let mut verdict = vec![teller.verdict()];
    verdict.extend(section.sizing.remarks.iter().cloned());
    Some(Reason {
        what,
        load,
        length,
        basis: std::iter::once(teller.basis()).chain(teller.gravity()).collect(),
        capacities: teller.capacities(),
        verdict,
        physics,
        notes: teller.table_notes(),
    })
}

/// By what the losses of [`Reason::physics`] are computed, in a sentence.
pub const FRICTION: &str = "Friction is computed by the Darcy–Weisbach equation with Colebrook's friction factor, over pipe and the \
 equivalent lengths of fittings; that of corrugated tubing is derived from its capacity table.";

/// How many outlets a sentence names before it counts the rest.
const NAMED: usize = 8;

/// Losses that would round to nothing, Pa: half of 0.01 in w.c.
const SMALL: f64 = 0.005 * 249.09;

struct Teller<'a> {
    job: &'a Job,
    book: &'a Codebook,
    study: &'a Study,
    section: &'a Section,
    units: UnitSystem,
}

impl Teller<'_> {
    fn show(&self, quantity: impl Show) -> String {
        quantity.show(self.units)
    }

    /// A length along which pipe is sized.
    fn along(&self, length: Length) -> String {
        length.show_sizing(self.units)
    }

    fn size(&self, size: Option<NominalSize>) -> String {
        let named = |size| self.study.names.show(self.section.material, size);
        size.map_or_else(|| "not known".to_owned(), named)
    }

    /// A joint by the person's own name, the outlet's letter, or its id.
    fn place(&self, joint: usize) -> String {
        if let Some(outlet) = self.study.outlets.iter().find(|outlet| outlet.joint == joint) {
            return format!("outlet {}", outlet.tag);
        }
        let joint = self.job.joints.at(joint);
        joint.label.clone().unwrap_or_else(|| joint.id.to_string())
    }

    fn what(&self) -> String {
        let section = self.section;
        let state = match section.state {
            State::Existing => "existing",
            State::New | State::Removed => "new",
        };
        let origin = match section.sizing.origin {
            Origin::Known => "as read on the pipe",
            Origin::Fixed => "set by hand",
            Origin::Found => "sized by this program",
            Origin::Unknown => "not entered",
            Origin::Connector => {
                return format!(
                    "{} hose or connector, {} from {} to {}: not pipe, so it has no pipe size.",
                    capital(state),
                    self.show(section.measured),
                    self.place(section.from),
                    self.place(section.to),
                );
            }
        };
        format!(
            "Section {}, {state} {}, {} from {} to {}: size {}, {origin}.",
            section.number,
            section.material.name(),
            self.show(section.measured),
            self.place(section.from),
            self.place(section.to),
            self.size(section.sizing.size),
        )
    }

    fn load(&self) -> String {
        let served = by_letter(&self.study.outlets[self.section.serves.clone()]);
        let named = |outlet: &&Outlet| {
            let name = outlet.own_name().unwrap_or(match outlet.kind {
                OutletKind::Appliance => "appliance",
                OutletKind::Future => "capped outlet",
            });
            format!("{} {name}", outlet.tag)
        };
        let mut names: Vec<String> = served.iter().take(NAMED).map(named).collect();
        if served.len() > NAMED {
            names.push(format!("{} more", served.len() - NAMED));
        }
        let whose = if names.is_empty() {
            "no outlet is downstream".to_owned()
        } else {
            names.join(", ")
        };
        let load = self.section.load;
        format!(
            "Load {}, {} at {}: {whose}.",
            self.show(load.flow),
            self.show(load.heat),
            self.show(self.study.gas.heating_value)
        )
    }

    fn left_out(&self) -> Option<String> {
        let left_out = self.section.load.left_out;
        (left_out.btuh() > 0.0).then(|| {
            format!(
                "{} is left out: heating and cooling do not run together; the larger counts.",
                self.show(left_out)
            )
        })
    }

    fn length(&self) -> String {
        let design = &self.section.design;
        let zone = &self.study.zones[self.section.zone];
        let rule = match design.rule {
            LengthRule::Longest => "the longest length of its zone",
            LengthRule::Branch => "the branch length, to its own farthest outlet",
        };
        let way = format!("from {} to {}", self.place(zone.start), self.place(design.to));
        format!("Sizing length {}: {rule}, {way}.", self.along(design.total()))
    }

    /// The hose or connector behind the outlet to which the length goes.
    fn hose(&self) -> Option<String> {
        let to = self.section.design.to;
        let outlet = self.study.outlets.iter().find(|outlet| outlet.joint == to)?;
        let hose = outlet.hose?;
        Some(format!(
            "It ends at {}, where the piping ends: the hose or connector after it ({}) is not pipe and goes by its own rating, {}.",
            self.place(hose.from),
            self.show(hose.length),
            self.rating(hose.connector),
        ))
    }

    /// Why a hose or connector has no length that sizes it.
    fn apart(&self) -> String {
        "Not in any sizing length: piping is sized to its outlet, where the hose or connector of an appliance begins."
            .to_owned()
    }

    /// By what a hose or connector is judged.
    fn own_rating(&self) -> String {
        let mut served = self.study.outlets[self.section.serves.clone()].iter();
        let connector = served.find_map(|outlet| outlet.hose?.connector);
        format!("It goes by its own rating, {}.", self.rating(connector))
    }

    /// The rating of a connector at a joint, in words.
    fn rating(&self, connector: Option<usize>) -> String {
        let mut devices = self.study.devices.iter();
        let rated = connector.and_then(|joint| devices.find(|device| device.joint == joint)?.capacity);
        match rated {
            Some(capacity) => self.show(capacity),
            None => "which is not entered: its manufacturer's table governs".to_owned(),
        }
    }

    fn fittings(&self) -> Option<String> {
        let design = &self.section.design;
        if design.fittings == Length::ZERO && design.row.is_none() {
            return None;
        }
        let row = design.row.map_or_else(String::new, |row| {
            let row = format!("the table row of {} ({})", self.along(row.value), row.mark.words());
            match design.rounding {
                Length::ZERO => format!(" in {row}"),
                up => format!(", {} rounds it up to {row}", self.along(up)),
            }
        });
        let profile = self
            .book
            .profile(&self.study.profile)
            .unwrap_or(self.book.default_profile());
        let mut rules = match profile.fittings {
            Allowance::SectionHas(least) => {
                vec![format!(
                    "turns, tee outlets and valves of every upstream section that has {least} or more"
                )]
            }
            Allowance::Factor(factor) => vec![format!("the length times {factor}")],
            Allowance::Never => Vec::new(),
        };
        if self
            .study
            .sections
            .iter()
            .any(|section| section.material.is_corrugated())
        {
            rules.push("bends of corrugated tubing beyond those in its table".to_owned());
        }
        Some(format!(
            "{} is measured{row}, and {} is added for fittings: {}.",
            self.along(design.measured),
            self.along(design.fittings),
            rules.join("; ")
        ))
    }

    fn allowed_drop(&self) -> String {
        let zone = &self.study.zones[self.section.zone];
        let inlet = zone
            .inlet
            .map_or("the start of the zone".to_owned(), |inlet| self.show(inlet));
        match zone.allowed_drop {
            Some(drop) => {
                let from = match zone.drop_from {
                    DropFrom::Profile(mark) => {
                        format!(
                            "per profile, for {} at {inlet} ({})",
                            self.study.gas.fuel.name(),
                            mark.told()
                        )
                    }
                    DropFrom::Job | DropFrom::Regulator | DropFrom::Nothing(_) => zone.drop_from.words().to_owned(),
                };
                format!("Allowable pressure drop {} from {inlet}: {from}.", self.show(drop))
            }
            None => format!("No pressure drop is allowed from {inlet}: {}.", zone.drop_from.words()),
        }
    }

    fn basis(&self) -> String {
        match &self.section.sizing.basis {
            Basis::Table { table, row } => {
                let printed = self.book.table(table);
                let title = printed.map_or(String::new(), |printed| in_units(&printed.title, self.units));
                let source = printed.map_or(String::new(), CapacityTable::where_read_in_short);
                format!(
                    "Table {table}, {title}: row {}, the first that covers the sizing length ({source}).",
                    self.along(*row)
                )
            }
            Basis::Equation { name, length } => {
                format!(
                    "Computed by the {name} at {}; this program holds no table for it.",
                    self.along(*length)
                )
            }
            Basis::Nothing(reason) => format!("No published capacity: {reason}"),
        }
    }

    fn gravity(&self) -> Option<String> {
        let gravity = self.study.gas.specific_gravity;
        let factor = self.book.gravity_factor(self.study.gas.fuel, gravity)?;
        let table = matches!(self.section.sizing.basis, Basis::Table { .. });
        let listed = factor.listed_gravity.filter(|_| table)?;
        Some(format!(
            "Capacities are multiplied by {:.2} for specific gravity {gravity}, as listed for {listed} ({}).",
            factor.factor.value,
            factor.factor.mark.told()
        ))
    }

    fn capacities(&self) -> Vec<String> {
        let sizing = &self.section.sizing;
        let line = |capacity: &SizeCapacity| {
            let role = match (sizing.needed == Some(capacity.size), sizing.size == Some(capacity.size)) {
                (true, true) => ": the smallest with capacity for the load",
                (true, false) => ": the smallest with capacity for the load, not the size drawn",
                (false, true) => ": the size drawn",
                (false, false) => "",
            };
            let mark = capacity.mark;
            let figure = self.show(capacity.flow);
            format!(
                "{}: capacity {figure} ({}){role}.",
                self.size(Some(capacity.size)),
                mark.told()
            )
        };
        sizing.capacities.iter().map(line).collect()
    }

    fn verdict(&self) -> String {
        let size = self.size(self.section.sizing.size);
        match self.section.sizing.verdict {
            Verdict::Carries => format!("{size} has capacity for the load."),
            Verdict::TooSmall => {
                format!(
                    "{size} is undersized: {} is needed.",
                    self.size(self.section.sizing.needed)
                )
            }
            Verdict::Unknown => "Not judged: the capacity of the size, or the load, is not known.".to_owned(),
        }
    }

    fn physics(&self) -> String {
        let section = self.section;
        let missing = || match self.study.rings.iter().any(|ring| ring.unsolved.is_some()) {
            true => "The pressure here is not known: a size upstream is missing, or a loop was not solved.".to_owned(),
            false => "The pressure here is not known: a size upstream is missing.".to_owned(),
        };
        let runs: Option<Vec<&Flowing>> = section
            .runs
            .iter()
            .map(|&run| self.study.runs[run].flowing.as_ref())
            .collect();
        // In a ring gas may come from the end to which the tree leads.
        let first = section.runs.first().copied();
        let against = first.is_some_and(|run| self.study.runs[run].way != self.study.network.ends[run]);
        let start = if against { section.to } else { section.from };
        let (Some(runs), Some(inlet)) = (runs, self.study.joints[start].pressure) else {
            return missing();
        };
        let sum =
            |part: fn(&Flowing) -> PressureDrop| runs.iter().map(|run| part(run)).fold(PressureDrop::ZERO, Add::add);
        let (friction, devices, height) = (
            sum(|run| run.friction),
            sum(|run| run.devices),
            sum(|run| run.elevation),
        );
        let outlet = inlet - friction - devices - height;
        let friction = self.small(friction);
        let mut parts = vec![match section.sizing.origin == Origin::Connector {
            true => "friction of a hose or connector is not computed, its rating covers it".to_owned(),
            false if section.material.is_corrugated() => {
                format!("{friction} lost by friction, derived from its capacity table")
            }
            false => format!("{friction} lost by friction"),
        }];
        if devices.pa() >= SMALL {
            parts.push(format!(
                "{} lost in valves, regulators or connectors with a rated loss",
                self.small(devices)
            ));
        }
        if height.pa().abs() >= SMALL {
            let word = if height.pa() < 0.0 { "gained" } else { "lost" };
            parts.push(format!(
                "{} {word} by elevation",
                self.small(PressureDrop::from_pa(height.pa().abs()))
            ));
        }
        if let Some(fastest) = runs.iter().filter_map(|run| run.velocity).max_by(f64::total_cmp) {
            parts.push(match self.units {
                UnitSystem::Us => format!("velocity {:.1} ft/s", fastest / 0.3048),
                UnitSystem::Metric | UnitSystem::MetricKpa => format!("velocity {fastest:.1} m/s"),
            });
        }
        let (inlet, outlet) = (self.show(inlet), self.show(outlet));
        format!(
            "At full load gas enters at {inlet} and leaves at {outlet}: {}.",
            parts.join("; ")
        )
    }

    /// A loss, where a very small one must not read as none.
    fn small(&self, drop: PressureDrop) -> String {
        match self.units {
            UnitSystem::Us if (1e-9..SMALL).contains(&drop.pa()) => "less than 0.01 in w.c.".to_owned(),
            _ => self.show(drop),
        }
    }

    fn table_notes(&self) -> Vec<String> {
        let Basis::Table { table, .. } = &self.section.sizing.basis else {
            return Vec::new();
        };
        let notes = self
            .book
            .table(table)
            .map(|table| table.notes.as_slice())
            .unwrap_or_default();
        notes
            .iter()
            .map(|note| format!("Note to table {table}: {}", in_units(note, self.units)))
            .collect()
    }
}
