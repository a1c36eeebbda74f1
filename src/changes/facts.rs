//! What can be told of a part: its facts, each with a name, and how two lists of them differ.
//!
//! Every field of the job is taken here by name, so that a new one is not forgotten.

use crate::codebook::SizeNames;
use crate::job::{
    Detail, Gas, Job, Joint, Material, MeasuredOffset, OwnTable, Penetration, Placed, Rating, Run, Seal, Settings,
    Slot, Status, Surroundings, TitleBlock, TitleField, Vent,
};
use crate::units::{Length, NominalSize, Show, UnitSystem};
use std::fmt::Debug;

/// One thing that is told of a part.
pub struct Fact {
    name: String,
    /// What tells two values apart, however they are rounded in words.
    key: String,
    words: Option<String>,
    /// What is said where nothing is.
    nothing: &'static str,
}

impl Fact {
    fn new(name: &str, value: impl Debug, words: impl Into<String>) -> Fact {
        Fact {
            name: name.to_owned(),
            key: format!("{value:?}"),
            words: Some(words.into()),
            nothing: NOT_SAID,
        }
    }

    fn maybe<T: Debug>(name: &str, value: &Option<T>, words: impl Fn(&T) -> String) -> Fact {
        Fact {
            name: name.to_owned(),
            key: format!("{value:?}"),
            words: value.as_ref().map(words),
            nothing: NOT_SAID,
        }
    }

    /// A field of the details that may be empty.
    fn of<T: Debug>(field: Detail, value: &Option<T>, words: impl Fn(&T) -> String) -> Fact {
        Fact::maybe(&field.in_sentence(), value, words).or(field.empty())
    }

    fn text(name: &str, value: &str) -> Fact {
        Fact {
            name: name.to_owned(),
            key: value.trim().to_owned(),
            words: (!value.trim().is_empty()).then(|| one_line(value)),
            nothing: NOT_SAID,
        }
    }

    fn flag(field: Detail, value: bool) -> Fact {
        Fact::new(&field.in_sentence(), value, if value { "yes" } else { "no" })
    }

    /// What tells its value apart from others.
    pub fn key(&self) -> &str {
        &self.key
    }

    fn or(self, nothing: &'static str) -> Fact {
        Fact { nothing, ..self }
    }
}

const NOT_SAID: &str = "not entered";

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
        let name = match now.name.as_str() {
            "" => String::new(),
            name => format!("{name} "),
        };
        Some(match (&was.words, &now.words) {
            (Some(was), Some(now)) if was == now => format!("{name}{now}, changed by less than is shown here"),
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
    let typed = TitleField::ALL.map(|field| Fact::text(&lower(field.caption()), field.of(title)));
    let status = match title.status {
        Status::ForPermit => "for permit",
        Status::AsBuilt => "as built",
        Status::Exercise => "as an exercise",
        Status::Study => "as a study, not for permit",
    };
    let mut facts = Vec::from(typed);
    facts.push(Fact::new("status", title.status, status));
    facts
}

/// The facts of settings and gas.
pub fn settings(settings: &Settings, gas: &Gas, shown: UnitSystem) -> Vec<Fact> {
    let Settings {
        units,
        step,
        material,
        copper,
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
    vec![
        Fact::new(
            "units",
            units,
            match units {
                UnitSystem::Us => "feet and inches",
                UnitSystem::Metric | UnitSystem::MetricKpa => "metric",
            },
        ),
        Fact::new("grid spacing", step, step.show(shown)),
        Fact::new("pipe material", material, material.name()),
        Fact::new("joints of copper tube", copper, copper.name()),
        Fact::text("profile", profile),
        Fact::maybe("your own tables", &(!tables.is_empty()).then_some(tables), |tables| {
            own_tables(tables)
        })
        .or("none"),
        Fact::of(Detail::Method, method, |method| method.name().to_owned()),
        Fact::of(Detail::AllowedDrop, allowed_drop, |drop| drop.show(shown)),
        Fact::of(Detail::Altitude, altitude, |height| height.show(shown)),
        Fact::new("elevation of grid zero", datum, datum.show(shown)),
        Fact::text("elevations measured from", datum_name),
        Fact::new("north", north, north.name()),
        Fact::new("gas", fuel, fuel.name()),
        Fact::of(Detail::Gravity, specific_gravity, f64::to_string),
        Fact::of(Detail::HeatingValue, heating_value, |value| value.show(shown)),
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
        Fact::text(&Detail::Name.in_sentence(), label.as_deref().unwrap_or_default()),
        Fact::new(&Detail::Turn.in_sentence(), turn, turn.name()),
        Fact::of(Detail::FittingTakes, fitting_takes, |length| length.show(shown)),
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
        Fact::of(Detail::Size, size, named),
        Fact::of(Detail::Material, &own, |material| material.name().to_owned()),
        Fact::new("", its_state, its_state.planned()),
        Fact::of(Detail::Replaces, replaces, named),
        Fact::new(&Detail::Location.in_sentence(), surroundings, lies(*surroundings)),
        Fact::of(Detail::Cover, cover, |cover| cover.show(shown)),
        Fact::flag(Detail::Coated, *coated),
        Fact::flag(Detail::Tracer, *tracer),
        Fact::flag(Detail::Bonded, *bonded),
        Fact::flag(Detail::Jacketed, *jacketed),
        Fact::flag(Detail::Salvage, *salvaged),
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
        Surroundings::Indoors => "exposed indoors",
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
        Fact::new(&Detail::Passes.in_sentence(), through, through.name()),
        Fact {
            key: format!("{place:?}"),
            ..Fact::maybe("at", &at, |at| at.show(shown)).or("halfway")
        },
        Fact::text(
            &Detail::BuiltOf.in_sentence(),
            construction.as_deref().unwrap_or_default(),
        ),
        Fact::of(Detail::Thickness, thickness, |thickness| thickness.show(shown)),
        Fact::flag(Detail::Sleeve, *sleeved),
        Fact::new(&Detail::Seal.in_sentence(), seal, seal_words),
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
        // It is kept for as long as the outlet is there, and told by the drawing itself.
        letter: _,
    } = placed;
    let mut facts = vec![
        Fact::new("", its_state, its_state.planned()),
        Fact::of(Detail::EndSize, size, |size| size.show(shown)),
        Fact::flag(Detail::Salvage, *salvaged),
        Fact::of(Detail::OwnLength, takes, |length| length.show(shown)),
    ];
    let mut device = device.clone();
    let said = device.slots();
    facts.extend(said.into_iter().map(|(field, slot)| said_of(field, &slot, shown)));
    facts
}

/// The fact of one field of a device.
fn said_of(field: Detail, slot: &Slot<'_>, shown: UnitSystem) -> Fact {
    match slot {
        Slot::Flow(it) => Fact::of(field, it, |flow| flow.show(shown)),
        Slot::Drop(it) => Fact::of(field, it, |drop| drop.show(shown)),
        Slot::Pressure(it) => Fact::of(field, it, |pressure| pressure.show(shown)),
        Slot::Heat(it) => Fact::of(field, it, |heat| heat.show(shown)),
        Slot::Length(it) => Fact::of(field, it, |length| length.show(shown)),
        Slot::Clocked(it) => Fact::of(field, it, |clocked| clocked.show(shown)),
        Slot::Words(it) => Fact::text(&field.in_sentence(), it),
        Slot::Class(it) => Fact::text(&field.in_sentence(), it.as_deref().unwrap_or_default()),
        Slot::Valve(it) => Fact::new(&field.in_sentence(), it, it.name()),
        Slot::Vent(it) => Fact::of(field, &(**it != Vent::NotSaid).then_some(it), |vent| {
            vent.name().to_owned()
        }),
        Slot::Season(it) => Fact::new(&field.in_sentence(), it, it.name()),
        Slot::Supplied(it) => Fact::of(field, it, |rating| rated(rating, shown)),
    }
}

fn rated(rating: &Rating, shown: UnitSystem) -> String {
    let flow = rating.capacity.map_or("no rating".to_owned(), |flow| flow.show(shown));
    match rating.drop {
        Some(drop) => format!("{flow} at {}", drop.show(shown)),
        None => flow,
    }
}

/// A name within a sentence.
fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
