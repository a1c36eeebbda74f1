//! Which end of a street elbow is its male one, and whether it goes straight into what stands beside it.
//!
//! A street elbow saves the nipple between two fittings that stand close: its male end goes to the side on which a female
//! thread stands so near that no pipe fits between; of two such sides to the nearer one. Else it goes upstream, as street
//! elbows have always been drawn here, and the rules say that pipe is drawn on a male end. Where a person said which end
//! is male, it is that one.

use super::Assemblies;
use crate::codebook::Threaded;
use crate::fittings::{Ends, FittingKind, Owner, Port, PortKind, Takes};
use crate::job::{Device, State, Turn};
use crate::network::Survey;
use crate::units::{Length, NominalSize};

/// How far a street elbow may be drawn from where it comes to stand, inches.
const NEAR_DIRECT: f64 = 0.25;
/// Up to this distance a street elbow is taken as screwed straight into a device, or into what has a length that only its
/// maker knows; common practice, no source.
const NEAR_DEVICE: f64 = 6.0;

/// Gives every street elbow its male end.
pub(super) fn turn(survey: &Survey, all: &mut Assemblies) {
    for joint in 0..all.joints.len() {
        if survey.job.joints.at(joint).turn.is_street() {
            turn_one(survey, all, joint);
        }
    }
}

/// One way out of a street elbow.
struct Side {
    port: usize,
    run: usize,
    /// Whether its male end goes straight in there.
    direct: bool,
    length: Length,
}

fn turn_one(survey: &Survey, all: &mut Assemblies, joint: usize) {
    let here = all.joints[joint].fittings.clone();
    let street = here.filter(|&at| {
        let fitting = &all.fittings[at];
        fitting.kind == FittingKind::StreetElbow90 && fitting.state != State::Removed
    });
    let Some(street) = street.clone().next() else { return };
    // Into a device of the same joint its male end goes already.
    let male = |port: &Port| matches!(port.kind, PortKind::MaleThread | PortKind::Tube | PortKind::FlareNut);
    if all.fittings[street].ports.iter().any(male) {
        return;
    }
    // Only pipe that goes straight into it can give way to it; the way upstream comes first.
    let ports = all.fittings[street].ports.iter().enumerate();
    let runs = ports.filter_map(|(port, it)| match it.takes {
        Takes::Run(run) => {
            let is_female = matches!(it.kind, PortKind::FemaleThread | PortKind::Socket | PortKind::FlareEnd);
            is_female.then_some((port, run))
        }
        Takes::Fitting(_) | Takes::Device | Takes::Nothing => None,
    });
    // Into which another street elbow goes already takes no pipe.
    let taken = |run: usize| {
        let ends = survey.network.joints_of[run]
            .into_iter()
            .flat_map(|(from, to)| [from, to]);
        ends.filter(|&end| end != joint)
            .any(|end| all.joints[end].direct == Some(run))
    };
    let sides: Vec<Side> = runs
        .filter(|&(_, run)| !taken(run))
        .map(|(port, run)| Side {
            port,
            run,
            direct: goes_straight_in(survey, all, joint, (street, port), run),
            length: survey.lengths[run],
        })
        .collect();
    let wished = match survey.job.joints.at(joint).turn {
        Turn::StreetElbowUpstream => sides.iter().find(|side| side.port == 0),
        Turn::StreetElbowDownstream => sides.iter().find(|side| side.port == 1),
        Turn::StreetElbow | Turn::Elbow => None,
    };
    let near = sides.iter().filter(|side| side.direct).min_by_key(|side| side.length);
    let Some(male) = wished.or(near).or(sides.first()) else {
        return;
    };
    let port = &mut all.fittings[street].ports[male.port];
    port.kind = port.kind.mate();
    all.joints[joint].direct = male.direct.then_some(male.run);
}

/// Whether the male end of a street elbow reaches what stands at the other end of a run.
fn goes_straight_in(
    survey: &Survey,
    all: &Assemblies,
    joint: usize,
    (street, port): (usize, usize),
    run: usize,
) -> bool {
    let Some((from, to)) = survey.network.joints_of[run] else {
        return false;
    };
    let beyond = if from == joint { to } else { from };
    let own = all.fittings[street].ports[port];
    let ends = Ends {
        survey,
        fittings: &all.fittings,
        joints: &all.joints,
    };
    let Some((owner, at)) = ends.met(run, beyond) else {
        return false;
    };
    let met = match owner {
        Owner::Fitting(fitting) => all.fittings[fitting].ports[at],
        Owner::Device => all.joints[beyond].device[at],
    };
    let fits = met.kind == own.kind && (met.size == own.size || met.size.is_none() || own.size.is_none());
    let end = ends.at(run, beyond);
    let length = survey.lengths[run];
    let male = male(survey, own.size).unwrap_or_default();
    let near = Length::from_inches(NEAR_DIRECT);
    let rest = length - male - end.take_out();
    // A device is drawn where there is room to draw it, whether its length is measured or not.
    let device = owner == Owner::Device && !matches!(survey.devices[beyond], Some(Device::Union));
    fits && match end.is_known() && !device {
        true => rest.magnitude() <= near,
        false => length <= Length::from_inches(NEAR_DEVICE) && rest + near >= Length::ZERO,
    }
}

/// From the centre of a street elbow to its male end.
fn male(survey: &Survey, size: Option<NominalSize>) -> Option<Length> {
    let size = size?;
    let figure = survey.book.centre_to_end(Threaded::StreetMale, size, size)?;
    Some(figure.value)
}
