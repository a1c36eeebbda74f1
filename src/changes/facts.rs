//! What can be told of a part: its facts, each with a name, and how two lists of them differ.
//!
//! Every field of the job is taken here by name, so that a new one is not forgotten.

use crate::codebook::SizeNames;
use crate::job::{
    Appliance, Cap, Connector, Device, Gas, Job, Joint, Material, MeasuredOffset, OwnTable, Penetration, Placed,
    QuickCoupling, Rating, Regulator, Run, Seal, SedimentTrap, Settings, Status, Supply, Surroundings, TitleBlock,
    Valve,
};
use crate::units::{Length, NominalSize, Show, UnitSystem};
use std::fmt::Debug;

/// One thing that is told of a part.
pub struct Fact {
    name: &'static str,
    /// What tells two values apart, however they are rounded in words.
    key: String,
    words: Option<String>,
    /// What is said where nothing is.
    nothing: &'static str,
}

impl Fact {
    fn new(name: &'static str, value: impl Debug, words: impl Into<String>) -> Fact {
        Fact {
            name,
            key: format!("{value:?}"),
            words: Some(words.into()),
            nothing: NOT_SAID,
        }
    }

    fn maybe<T: Debug>(name: &'static str, value: &Option<T>, words: impl Fn(&T) -> String) -> Fact {
        Fact {
            name,
            key: format!("{value:?}"),
            words: value.as_ref().map(words),
            nothing: NOT_SAID,
        }
    }

    fn text(name: &'static str, value: &str) -> Fact {
        Fact {
            name,
            key: value.trim().to_owned(),
            words: (!value.trim().is_empty()).then(|| one_line(value)),
            nothing: NOT_SAID,
        }
    }

    fn flag(name: &'static str, value: bool) -> Fact {
        Fact::new(name, value, if value { "yes" } else { "no" })
    }

    /// What tells its value apart from others.
    pub fn key(&self) -> &str {
        &self.key
    }

    fn or(self, nothing: &'static str) -> Fact {
        Fact { nothing, ..self }
    }
}

const NOT_SAID: &str = "not said";

/// The longest text of a person's that is quoted.
const LONGEST: usize = 60;

/// A text in one line, shortened.
pub fn one_line(words: &str) -> String {
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    match words.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", words[..end].trim_end()),
        None => words,
    }
}

/// What of two lists of one kind of facts is not the same, in words.
pub fn different(was: &[Fact], now: &[Fact]) -> Vec<String> {
    let pair = |now: &Fact| {
        let was = was.iter().find(|was| was.name == now.name)?;
        if was.key == now.key {
            return None;
        }
        let name = match now.name {
            "" => String::new(),
            name => format!("{name} "),
        };
        Some(match (&was.words, &now.words) {
            (Some(was), Some(now)) if was == now => format!("{name}{now}, changed by less than is written here"),
            (Some(was), Some(now)) => format!("{name}{now}, was {was}"),
            (None, Some(words)) => format!("{name}{words}, was {}", was.nothing),
            (Some(was), None) => format!("{name}{}, was {was}", now.nothing),
            (None, None) => return None,
        })
    };
    now.iter().filter_map(pair).collect()
}

/// The facts of the title block, but for the list of issues.
pub fn title(title: &TitleBlock) -> Vec<Fact> {
    let TitleBlock {
        job,
        site,
        parcel,
        owner,
        firm,
        contact,
        licence_holder,
        licence,
        permit,
        drawn_by,
        checked_by,
        drawing,
        date,
        description,
        status,
        revisions: _,
    } = title;
    vec![
        Fact::text("job", job),
        Fact::text("site", site),
        Fact::text("parcel", parcel),
        Fact::text("owner", owner),
        Fact::text("firm", firm),
        Fact::text("contact", contact),
        Fact::text("licence holder", licence_holder),
        Fact::text("licence no.", licence),
        Fact::text("permit no.", permit),
        Fact::text("drawn by", drawn_by),
        Fact::text("checked by", checked_by),
        Fact::text("drawing no.", drawing),
        Fact::text("date", date),
        Fact::text("description of work", description),
        Fact::new(
            "issued",
            status,
            match status {
                Status::ForPermit => "for permit",
                Status::AsBuilt => "as built",
                Status::Exercise => "as an exercise",
                Status::Study => "as a study, not for permit",
            },
        ),
    ]
}

/// The facts of settings and gas.
pub fn settings(settings: &Settings, gas: &Gas, shown: UnitSystem) -> Vec<Fact> {
    let Settings {
        units,
        step,
        material,
        profile,
        tables,
        method,
        allowed_drop,
        altitude,
        datum,
        datum_name,
        north,
    } = settings;
    let Gas {
        fuel,
        specific_gravity,
        heating_value,
    } = gas;
    let as_profile = "as the profile";
    vec![
        Fact::new(
            "units",
            units,
            match units {
                UnitSystem::Us => "feet and inches",
                UnitSystem::Metric => "metric",
            },
        ),
        Fact::new("a step", step, step.show(shown)),
        Fact::new("pipe of the job", material, material.name()),
        Fact::text("profile", profile),
        Fact::maybe("own tables", &(!tables.is_empty()).then_some(tables), |tables| {
            own_tables(tables)
        })
        .or("none"),
        Fact::maybe("method", method, |method| method.name().to_owned()).or(as_profile),
        Fact::maybe("allowed drop", allowed_drop, |drop| drop.show(shown)).or(as_profile),
        Fact::maybe("height above sea level", altitude, |height| height.show(shown)),
        Fact::new("height of the lattice's zero", datum, datum.show(shown)),
        Fact::text("zero of elevations", datum_name),
        Fact::new("north", north, north.name()),
        Fact::new("gas", fuel, fuel.name()),
        Fact::maybe("specific gravity", specific_gravity, f64::to_string).or("the usual figure"),
        Fact::maybe("heating value", heating_value, |value| value.show(shown)).or("the usual figure"),
    ]
}

/// Tables by their names, and the signs that tell whether their figures are the same.
fn own_tables(tables: &[OwnTable]) -> String {
    let named = tables.iter().map(|table| format!("{} ({})", table.id, table.figures));
    one_line(&named.collect::<Vec<_>>().join(", "))
}

/// The facts of a joint itself, but for its place.
pub fn joint(joint: &Joint, shown: UnitSystem) -> Vec<Fact> {
    let Joint {
        id: _,
        at: _,
        label,
        placed: _,
        turn,
        fitting_takes,
        words_at: _,
    } = joint;
    vec![
        Fact::text("name", label.as_deref().unwrap_or_default()),
        Fact::new("turn", turn, turn.name()),
        Fact::maybe("fitting takes out", fitting_takes, |length| length.show(shown)),
    ]
}

/// The lengths of a run before and now. Where neither was typed, steps tell: what follows from the job's step is told there.
pub fn lengths(was: (&Job, &Run), now: (&Job, &Run), shown: UnitSystem) -> [Fact; 2] {
    let steps = |(job, run): (&Job, &Run)| match (job.joints.get(run.from), job.joints.get(run.to)) {
        (Some(from), Some(to)) => (to.at - from.at).steps(),
        _ => 0.0,
    };
    let is_drawn = was.1.given_length().is_none() && now.1.given_length().is_none();
    [was, now].map(|(job, run)| {
        let length = job.true_length(run);
        let key = if is_drawn { steps((job, run)) } else { length.inches() };
        Fact::new("length", key, length.show(shown))
    })
}

/// The facts of a run, but for its length, ends and passages. A material that is the job's is told there.
pub fn run(run: &Run, default: Material, names: SizeNames) -> Vec<Fact> {
    let shown = names.units();
    let Run {
        id: _,
        from: _,
        to: _,
        length: _,
        offset,
        material,
        size,
        replaces,
        state: its_state,
        surroundings,
        cover,
        coated,
        tracer,
        bonded,
        jacketed,
        salvaged,
        penetrations: _,
        words_at: _,
    } = run;
    let own = material.filter(|own| *own != default);
    let named = |size: &NominalSize| names.show(material.unwrap_or(default), *size);
    vec![
        Fact::maybe("offset", offset, |offset| measures(offset, shown)).or("as drawn"),
        Fact::maybe("size", size, named).or("left to be found"),
        Fact::maybe("material", &own, |material| material.name().to_owned()).or("as the job's"),
        Fact::new("", its_state, its_state.planned()),
        Fact::maybe("takes the place of", replaces, named).or("nothing"),
        Fact::new("lies", surroundings, lies(*surroundings)),
        Fact::maybe("cover", cover, |cover| cover.show(shown)),
        Fact::flag("painted, coated or wrapped", *coated),
        Fact::flag("tracer wire", *tracer),
        Fact::flag("bonded", *bonded),
        Fact::flag("arc-resistant jacket", *jacketed),
        Fact::flag("kept for use again", *salvaged),
    ]
}

/// "rise 8\", roll 12\", run 14 7/16\", angle 45°"
fn measures(offset: &MeasuredOffset, shown: UnitSystem) -> String {
    let side = |side: Length| (side != Length::ZERO).then_some(side);
    let lengths = [
        ("rise", side(offset.rise)),
        ("roll", side(offset.roll)),
        ("run", offset.run),
    ];
    let lengths = lengths
        .into_iter()
        .filter_map(|(name, length)| Some(format!("{name} {}", length?.show(shown))));
    let angle = offset.angle.map(|angle| format!("angle {}", angle.show(shown)));
    lengths.chain(angle).collect::<Vec<_>>().join(", ")
}

const fn lies(surroundings: Surroundings) -> &'static str {
    match surroundings {
        Surroundings::Indoors => "indoors",
        Surroundings::Concealed => "concealed",
        Surroundings::Outdoors => "outdoors",
        Surroundings::Underground => "underground",
    }
}

/// The facts of a passage; `at` is how far it is from one same end of its run.
pub fn passage(passage: &Penetration, at: Option<Length>, shown: UnitSystem) -> Vec<Fact> {
    let Penetration {
        barrier: through,
        at: _,
        construction,
        thickness,
        sleeved,
        seal,
        words_at: _,
    } = passage;
    let seal_words = match seal {
        Seal::Open => "open",
        Seal::Outside => "sealed outside",
        Seal::BothFaces => "sealed at both faces",
    };
    // To a sixty-fourth of an inch: it may have been counted from the other end.
    let place = at.map(|at| (at.inches() * 64.0).round());
    vec![
        Fact::new("through", through, through.name()),
        Fact {
            key: format!("{place:?}"),
            ..Fact::maybe("at", &at, |at| at.show(shown)).or("half way")
        },
        Fact::text("built as", construction.as_deref().unwrap_or_default()),
        Fact::maybe("thickness", thickness, |thickness| thickness.show(shown)),
        Fact::flag("sleeve", *sleeved),
        Fact::new("gap", seal, seal_words),
    ]
}

/// The facts of what stands on a joint. Those of two devices of one kind have the same names.
pub fn device(placed: &Placed, shown: UnitSystem) -> Vec<Fact> {
    let Placed {
        device,
        state: its_state,
        size,
        salvaged,
        takes,
    } = placed;
    let mut facts = vec![
        Fact::new("", its_state, its_state.planned()),
        Fact::maybe("size of its ends", size, |size| size.show(shown)).or("that of the pipe"),
        Fact::flag("kept for use again", *salvaged),
        Fact::maybe("measured length", takes, |length| length.show(shown)),
    ];
    let rating = |facts: &mut Vec<Fact>, rating: &Rating| {
        let Rating { capacity, drop } = rating;
        facts.push(Fact::maybe("rated flow", capacity, |flow| flow.show(shown)));
        facts.push(Fact::maybe("drop at the rated flow", drop, |drop| drop.show(shown)));
    };
    let rated = |rating: &Rating| {
        let flow = rating.capacity.map_or("no rating".to_owned(), |flow| flow.show(shown));
        match rating.drop {
            Some(drop) => format!("{flow} at {}", drop.show(shown)),
            None => flow,
        }
    };
    match device {
        Device::Supply(Supply {
            pressure,
            meter,
            regulator,
        }) => {
            facts.push(Fact::maybe("delivery pressure", pressure, |pressure| pressure.show(shown)).or("not given"));
            facts.push(Fact::maybe("meter", meter, rated).or("none"));
            facts.push(Fact::maybe("service regulator", regulator, rated).or("none"));
        }
        Device::Meter(meter) => rating(&mut facts, &meter.rating),
        Device::Regulator(Regulator {
            outlet,
            allowed_drop,
            rating: its_rating,
            vent,
        }) => {
            facts.push(Fact::maybe("outlet pressure", outlet, |outlet| outlet.show(shown)).or("not given"));
            facts.push(
                Fact::maybe("allowed drop behind it", allowed_drop, |drop| drop.show(shown)).or("as the profile"),
            );
            rating(&mut facts, its_rating);
            facts.push(Fact::new("vent", vent, vent.name()).or("not said"));
        }
        Device::Valve(Valve {
            kind,
            rating: its_rating,
        }) => {
            facts.push(Fact::new("built as", kind, kind.name()));
            rating(&mut facts, its_rating);
        }
        Device::SedimentTrap(SedimentTrap { depth }) => {
            facts.push(Fact::maybe("nipple", depth, |depth| depth.show(shown)));
        }
        Device::Connector(Connector {
            length,
            rating: its_rating,
        }) => {
            facts.push(Fact::maybe("length", length, |length| length.show(shown)));
            rating(&mut facts, its_rating);
        }
        Device::QuickCoupling(QuickCoupling { rating: its_rating }) => rating(&mut facts, its_rating),
        Device::Appliance(Appliance {
            name,
            class,
            input,
            least_inlet,
            greatest_inlet,
            season,
        }) => {
            facts.extend([
                Fact::text("name", name),
                Fact::text("class", class.as_deref().unwrap_or_default()),
                Fact::maybe("input", input, |input| input.show(shown)),
                Fact::maybe("least inlet pressure", least_inlet, |inlet| inlet.show(shown)),
                Fact::maybe("greatest inlet pressure", greatest_inlet, |inlet| inlet.show(shown)),
                Fact::new("burns", season, season.name()),
            ]);
        }
        Device::Cap(Cap {
            future_input,
            projection,
        }) => {
            facts.push(Fact::maybe("left for", future_input, |input| input.show(shown)).or("nothing"));
            facts.push(Fact::maybe("stands clear by", projection, |length| length.show(shown)));
        }
        Device::Union | Device::TestGauge => {}
    }
    facts
}
