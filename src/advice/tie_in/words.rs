//! A place, and what speaks for it and against it, in plain sentences.

use crate::advice::{Already, Blocked, Fails, LeftOut, PipeBought, TieIn, TieInPlace, TieInStanding, Unjudged};
use crate::study::how_many;
use crate::units::{Flow, Show, UnitSystem};

impl TieInPlace {
    /// "J4", or "R4, 12' from J2": where it is.
    pub fn words(&self, job: &crate::job::Job) -> String {
        match self {
            TieInPlace::Joint(joint) => joint.to_string(),
            TieInPlace::Run { run, along } => {
                let along = along.show(job.settings.units);
                match job.runs.get(*run) {
                    Some(drawn) => format!("{run}, {along} from {}", drawn.from),
                    None => format!("{run}, {along} along it"),
                }
            }
        }
    }
}

impl Blocked {
    /// What is in the way, with the remedy.
    pub fn words(&self) -> String {
        let through = match self {
            Blocked::Joint(joint) => format!("run through {joint}"),
            Blocked::Run(run) => format!("run into {run}"),
            Blocked::Itself => "cross itself".to_owned(),
        };
        format!("Can't draw it along the grid like this: the line would {through}. Take it through places of your own.")
    }
}

impl LeftOut {
    /// Why a run's places were not tried, with the remedy.
    pub fn words(&self) -> &'static str {
        match self {
            LeftOut::TooShort => {
                "is only one grid step long, so only its ends were tried; draw it longer to try along it"
            }
            LeftOut::OverJoint => {
                "runs over a joint that it is not connected to, so only its ends were tried; correct the drawing first"
            }
        }
    }
}

impl TieInStanding {
    /// The word for machines.
    pub const fn key(self) -> &'static str {
        match self {
            TieInStanding::Holds => "within_limits",
            TieInStanding::Before => "over_limit_before",
            TieInStanding::Unknown => "not_judged",
            TieInStanding::Fails => "over_limit",
        }
    }
}

impl Already {
    /// What is over its limit already: "R6 is over capacity already: 65 of 50 cfh."
    pub fn words(&self, units: UnitSystem) -> String {
        let more = if self.worse { ", and worse with the branch" } else { "" };
        match &self.part {
            Fails::Pipe { carried, capacity, .. } | Fails::Device { carried, capacity, .. } => {
                let figures = flow(*carried, *capacity, units);
                format!("{} is over capacity already{more}: {figures}.", self.part.named())
            }
            Fails::Inlet { .. } => format!(
                "Below its minimum inlet pressure already{more}: {}",
                self.part.words(units)
            ),
            Fails::Setting { .. } => format!("Below its setting already{more}: {}", self.part.words(units)),
        }
    }
}

impl Fails {
    /// The part: "R4", "the meter at J1", "Furnace at J4".
    fn named(&self) -> String {
        match self {
            Fails::Pipe { first, further, .. } => match further {
                0 => first.to_string(),
                1 => format!("{first} and the next run downstream"),
                further => format!("{first} and {further} runs downstream"),
            },
            Fails::Device { joint, name, .. } => format!("The {name} at {joint}"),
            Fails::Inlet { joint, name, .. } => named(name, *joint),
            Fails::Setting { joint, .. } => format!("The line regulator at {joint}"),
        }
    }

    /// What would be over its limit: "R4 would carry 171 of 131 cfh."
    pub fn words(&self, units: UnitSystem) -> String {
        let show = |pressure: &Option<crate::units::GaugePressure>| {
            pressure.map_or_else(|| "unknown pressure".to_owned(), |pressure| pressure.show(units))
        };
        match self {
            Fails::Pipe {
                first,
                further,
                carried,
                capacity,
            } => {
                let on = match further {
                    0 => String::new(),
                    1 => " and the next run downstream".to_owned(),
                    further => format!(" and {further} runs downstream"),
                };
                format!(
                    "{first}{on} would be over capacity: {}.",
                    flow(*carried, *capacity, units)
                )
            }
            Fails::Device {
                joint,
                name,
                carried,
                capacity,
            } => format!(
                "The {name} at {joint} would be over its rating: {}.",
                flow(*carried, *capacity, units)
            ),
            Fails::Inlet {
                joint,
                name,
                pressure,
                least,
            } => format!(
                "{} would have {} at its inlet; its rating plate calls for at least {}.",
                named(name, *joint),
                show(pressure),
                show(least)
            ),
            Fails::Setting {
                joint,
                pressure,
                setting,
            } => format!(
                "The line regulator at {joint} would have {} at its outlet; it is set to {}.",
                show(pressure),
                show(setting)
            ),
        }
    }
}

impl Unjudged {
    /// What is not known.
    pub fn words(&self) -> String {
        match self {
            Unjudged::Pipe(run) => format!("The capacity of {run}, or its demand, is not known."),
            Unjudged::NewLine => "No published figure gives a size for the new line.".to_owned(),
            Unjudged::Device { joint, name } => {
                format!("The rated flow of the {name} at {joint}, or its demand, is not known.")
            }
            Unjudged::Inlet(joint) => {
                format!("The pressure at {joint} cannot be computed: a size upstream is not known.")
            }
        }
    }
}

impl TieIn {
    /// What the branch's pipe weighs, in pounds or kilograms (1 lb = 0.45359237 kg); `None` where a weight is not published.
    pub fn shown_weight(&self, units: UnitSystem) -> Option<String> {
        let pounds = self.weight?.amount();
        Some(match units {
            UnitSystem::Us => format!("{pounds:.1} lb"),
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.1} kg", pounds * 0.453_592_37),
        })
    }

    /// The result in a few words for a list; what is over capacity already is named.
    pub fn verdict(&self) -> String {
        let before = || {
            let first = self
                .already
                .iter()
                .find(|part| part.worse == (self.failing_already > 0));
            let named = first.map_or_else(|| "a part".to_owned(), |part| part.part.named());
            match self.over_already {
                0 | 1 => named,
                many => format!("{named} and {} more", many - 1),
            }
        };
        let already = match self.over_already {
            0 => String::new(),
            _ => format!("; over before: {}", before()),
        };
        match self.standing() {
            TieInStanding::Holds => crate::advice::Standing::Holds.name().to_owned(),
            TieInStanding::Before => format!("over before: {}", before()),
            TieInStanding::Unknown => format!("not all judged{already}"),
            TieInStanding::Fails if self.failing > 0 => format!("over capacity after this work{already}"),
            TieInStanding::Fails => format!("over capacity before and after: {}", before()),
        }
    }

    /// What speaks for this place and against it.
    pub fn reasons(&self, units: UnitSystem) -> Vec<String> {
        let mut reasons: Vec<String> = self.fails.iter().map(|part| part.words(units)).collect();
        match self.failing - self.fails.len() {
            0 => {}
            1 => reasons.push("One more part would be over its limit.".to_owned()),
            more => reasons.push(format!("{more} more parts would be over their limits.")),
        }
        reasons.extend(self.already.iter().map(|part| part.words(units)));
        match self.over_already - self.already.len() {
            0 => {}
            1 => reasons.push("One more part is over its limit already.".to_owned()),
            more => reasons.push(format!("{more} more parts are over their limits already.")),
        }
        if let Some(part) = &self.first_unjudged {
            reasons.push(part.words());
            if self.unjudged > 1 {
                reasons.push(format!(
                    "{} parts in all could not be checked against a figure.",
                    self.unjudged
                ));
            }
        }
        if reasons.is_empty() {
            reasons.push("Nothing is over capacity with the branch here.".to_owned());
        }
        if let Some(lowest) = &self.lowest {
            reasons.push(format!(
                "Closest to its minimum: {} has {} at its inlet, {} {} the minimum on its rating plate.",
                named(&lowest.name, lowest.joint),
                lowest.pressure.show(units),
                crate::units::PressureDrop::from_pa(lowest.margin.pa().abs()).show(units),
                if lowest.margin.pa() < 0.0 { "below" } else { "above" },
            ));
        }
        match self.least_unknown {
            0 => {}
            1 => reasons.push("The minimum inlet pressure of one appliance is not entered.".to_owned()),
            many => reasons.push(format!(
                "The minimum inlet pressures of {many} appliances are not entered."
            )),
        }
        if self.no_valve_above {
            reasons.push("No shutoff valve is upstream of this place: give the branch a valve of its own, and ask the supplier to shut off for the work.".to_owned());
        }
        let pipe: Vec<String> = self.pipe.iter().map(|pipe| pipe_words(pipe, units)).collect();
        if !pipe.is_empty() {
            let weight = self
                .shown_weight(units)
                .unwrap_or_else(|| "weight not published".to_owned());
            let fittings = how_many(self.fittings, "more fitting");
            reasons.push(format!("The branch: {}; {weight}; {fittings}.", pipe.join(", ")));
        }
        reasons.extend(self.blocked.map(|blocked| blocked.words()));
        reasons
    }
}

/// "12'-6\" of 3/4\" steel".
fn pipe_words(pipe: &PipeBought, units: UnitSystem) -> String {
    let size = pipe.size_named().unwrap_or_else(|| "size not known,".to_owned());
    format!("{} of {size} {}", pipe.length.show(units), pipe.material.short())
}

fn flow(carried: Flow, capacity: Option<Flow>, units: UnitSystem) -> String {
    let standing = crate::advice::Standing::Fails;
    let held = crate::advice::Held::Flow {
        carried,
        capacity,
        standing,
    };
    held.words(units)
}

fn named(name: &str, joint: crate::job::JointId) -> String {
    match name {
        "" => format!("The appliance at {joint}"),
        name => format!("{name} at {joint}"),
    }
}
