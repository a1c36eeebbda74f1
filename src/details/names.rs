//! The words in which fields offer their choices.

use crate::job::{
    Barrier, Fuel, Material, NorthAxis, Seal, Season, State, Status, Surroundings, Turn, ValveKind, Vent,
};
use crate::units::UnitSystem;

/// Choices and their words.
pub type Offered<T> = &'static [(T, &'static str)];

/// Whether pipe or a device is there.
pub const STATES: Offered<State> = &[
    (State::New, State::New.planned()),
    (State::Existing, State::Existing.planned()),
    (State::Removed, State::Removed.planned()),
];

/// Where a run lies.
pub const SURROUNDINGS: Offered<Surroundings> = &[
    (Surroundings::Indoors, Surroundings::Indoors.name()),
    (Surroundings::Concealed, Surroundings::Concealed.name()),
    (Surroundings::Outdoors, Surroundings::Outdoors.name()),
    (Surroundings::Underground, Surroundings::Underground.name()),
];

/// How a turn is made.
pub const TURNS: Offered<Turn> = &[
    (Turn::Elbow, Turn::Elbow.name()),
    (Turn::StreetElbow, Turn::StreetElbow.name()),
    (Turn::StreetElbowUpstream, Turn::StreetElbowUpstream.name()),
    (Turn::StreetElbowDownstream, Turn::StreetElbowDownstream.name()),
];

/// How a valve is built.
pub const VALVES: Offered<ValveKind> = &[
    (ValveKind::Ball, ValveKind::Ball.name()),
    (ValveKind::Plug, ValveKind::Plug.name()),
    (ValveKind::Gate, ValveKind::Gate.name()),
    (ValveKind::Globe, ValveKind::Globe.name()),
    (ValveKind::Key, ValveKind::Key.name()),
];

/// Where the vent of a line regulator goes.
pub const VENTS: Offered<Vent> = &[
    (Vent::NotSaid, "not entered"),
    (Vent::Outdoors, Vent::Outdoors.name()),
    (Vent::Limiter, Vent::Limiter.name()),
];

/// When an appliance burns.
pub const SEASONS: Offered<Season> = &[
    (Season::AllYear, Season::AllYear.name()),
    (Season::Heating, Season::Heating.name()),
    (Season::Cooling, Season::Cooling.name()),
];

/// What is passed through.
pub const BARRIERS: Offered<Barrier> = &[
    (Barrier::ExteriorWall, Barrier::ExteriorWall.name()),
    (Barrier::InteriorWall, Barrier::InteriorWall.name()),
    (Barrier::Foundation, Barrier::Foundation.name()),
    (Barrier::Floor, Barrier::Floor.name()),
    (Barrier::Roof, Barrier::Roof.name()),
    (Barrier::Slab, Barrier::Slab.name()),
    (Barrier::Ground, Barrier::Ground.name()),
];

/// How the gap around the pipe is closed.
pub const SEALS: Offered<Seal> = &[
    (Seal::Open, "open, or not entered"),
    (Seal::Outside, "at the outside face"),
    (Seal::BothFaces, "at both faces"),
];

/// Units in which the drawing speaks.
pub const UNITS: Offered<UnitSystem> = &[(UnitSystem::Us, "feet, inches, Btu/h"), (UnitSystem::Metric, "metric")];

/// What burns.
pub const FUELS: Offered<Fuel> = &[
    (Fuel::Natural, Fuel::Natural.name()),
    (Fuel::Propane, Fuel::Propane.name()),
];

/// Which way of the lattice points north.
pub const NORTHS: Offered<NorthAxis> = &[
    (NorthAxis::North, NorthAxis::North.name()),
    (NorthAxis::East, NorthAxis::East.name()),
    (NorthAxis::South, NorthAxis::South.name()),
    (NorthAxis::West, NorthAxis::West.name()),
];

/// What a drawing is issued for.
pub const STATUSES: Offered<Status> = &[
    (Status::ForPermit, "for permit"),
    (Status::AsBuilt, "as built"),
    (Status::Exercise, "exercise"),
    (Status::Study, "study, not for permit"),
];

/// Materials, the first being the job's own, which is `None`.
pub fn materials(of_job: Material) -> Vec<(Option<Material>, String)> {
    let own = (None, format!("per job: {}", of_job.name()));
    let all = Material::ALL
        .into_iter()
        .map(|material| (Some(material), material.name().to_owned()));
    std::iter::once(own).chain(all).collect()
}

/// Choices whose words are made on the spot, as a field takes them.
pub fn borrowed<T: Clone>(offered: &[(T, String)]) -> Vec<(T, &str)> {
    offered
        .iter()
        .map(|(one, words)| (one.clone(), words.as_str()))
        .collect()
}

/// The words of a choice.
pub fn of<T: PartialEq>(offered: &[(T, &'static str)], one: &T) -> &'static str {
    offered.iter().find(|row| row.0 == *one).map_or("", |row| row.1)
}
