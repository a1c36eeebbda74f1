//! What stands at an end of a pipe, and how much of the length between centres it takes.
//!
//! Take-out is centre to face less the make-up of the thread, by the codebook. What nobody published, or only a manufacturer
//! knows, takes out nothing and says so: the piece must then be measured. What a person measured comes first.

use super::{Assembly, Fitting, FittingKind, Owner, Port, PortKind, Takes};
use crate::codebook::{Mark, Marked, Threaded};
use crate::job::{Device, Joining};
use crate::network::Survey;
use crate::units::{Length, NominalSize};

/// An end of a piece of pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct End {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// What it goes into: "90° elbow", "shutoff valve", "tubing fitting on tee", "open end".
    pub what: String,
    /// What it takes from the length between centres.
    pub taken: Taken,
}

/// What an end takes from the length between centres.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// Nothing: the length is measured to the end of the pipe.
    Nothing,
    /// Centre to face, less how far the pipe enters.
    Figures {
        /// From the centre to the face.
        centre_to_face: Marked<Length>,
        /// How far the pipe enters.
        make_up: Marked<Length>,
    },
    /// A street elbow's male end, so far from its centre.
    Male(Option<Marked<Length>>),
    /// Nobody published it: counted as nothing, and the reason.
    Unknown(&'static str),
}

impl End {
    /// The take-out; nothing where it is not known.
    pub fn take_out(&self) -> Length {
        match self.taken {
            Taken::Figures {
                centre_to_face,
                make_up,
            } => take_out(centre_to_face.value, make_up.value),
            Taken::Male(Some(length)) => length.value,
            Taken::Nothing | Taken::Male(None) | Taken::Unknown(_) => Length::ZERO,
        }
    }

    /// Whether the take-out is known.
    pub fn is_known(&self) -> bool {
        !matches!(self.taken, Taken::Unknown(_) | Taken::Male(None))
    }
}

/// Take-out: centre to face less make-up.
pub fn take_out(centre_to_face: Length, make_up: Length) -> Length {
    centre_to_face - make_up
}

/// What ends of pipe go into, by the account of what stands at the joints.
pub(crate) struct Ends<'s> {
    pub(crate) survey: &'s Survey<'s>,
    pub(crate) fittings: &'s [Fitting],
    /// In the order of `job.joints`.
    pub(crate) joints: &'s [Assembly],
}

/// A port: whose it is, and which of that owner's.
type At = (Owner, usize);

const MAKERS: &str = "its length is set by the manufacturer: measure it";
const COPPER: &str = "no published figure for copper fittings is at hand: measure the socket";
const FLARED: &str = "flare fittings vary by manufacturer: measure them";
const TUBING: &str = "tubing fittings vary by manufacturer: measure them";
const NO_FIGURE: &str = "no published length of this fitting is at hand: measure it";
const NO_THREAD: &str = "the threads of the tubing fitting are not known: measure it";
const BESIDE: &str = "a fitting is beside the device: measure both";
const PLASTIC: &str = "plastic pipe fittings vary by manufacturer: measure them";

impl Ends<'_> {
    /// The port that a run goes into at a joint; none where it ends open or goes through.
    pub(crate) fn met(&self, run: usize, joint: usize) -> Option<At> {
        met(self.fittings, &self.joints[joint], run)
    }

    /// What the end of a run at a joint goes into.
    pub(crate) fn at(&self, run: usize, joint: usize) -> End {
        let (what, taken) = match self.met(run, joint) {
            Some(met) => (self.words(met, joint), self.taken(met, run, joint)),
            None if self.joints[joint].through => ("goes through".to_owned(), Taken::Nothing),
            None => ("open end".to_owned(), Taken::Nothing),
        };
        End { joint, what, taken }
    }

    fn device(&self, joint: usize) -> Option<&Device> {
        self.survey.devices[joint]
    }

    fn name(&self, owner: Owner, joint: usize) -> String {
        match owner {
            Owner::Fitting(at) => self.fittings[at].kind.name(),
            Owner::Device => self
                .device(joint)
                .map_or_else(String::new, |device| device.name().to_owned()),
        }
    }

    /// What pipe goes into, and what that stands on where it is not what the runs meet in.
    fn words(&self, (owner, _): At, joint: usize) -> String {
        let own = self.name(owner, joint);
        match self.joints[joint].centre {
            Some(centre) if centre != owner => format!("{own} on {}", self.name(centre, joint)),
            _ => own,
        }
    }

    /// The ports from the one that takes a run inward to the one in the centre: the outer port of what lies between, then
    /// the port of the centre.
    fn inward(&self, from: At, joint: usize) -> (Vec<At>, Option<At>) {
        let here = &self.joints[joint];
        let (mut between, mut at) = (Vec::new(), from);
        for _ in 0..=here.fittings.len() + 1 {
            if Some(at.0) == here.centre {
                return (between, Some(at));
            }
            between.push(at);
            let ports = self.ports(at.0, joint);
            // What leads from the centre to a run has two ports.
            let Some(inner) = ports.get(1 - at.1.min(1)) else { break };
            let next = match inner.takes {
                Takes::Fitting(fitting) => Owner::Fitting(fitting),
                Takes::Device => Owner::Device,
                Takes::Run(_) | Takes::Nothing => break,
            };
            let own = match at.0 {
                Owner::Fitting(fitting) => Takes::Fitting(fitting),
                Owner::Device => Takes::Device,
            };
            let Some(port) = self.ports(next, joint).iter().position(|port| port.takes == own) else {
                break;
            };
            at = (next, port);
        }
        (between, None)
    }

    fn ports(&self, owner: Owner, joint: usize) -> &[Port] {
        match owner {
            Owner::Fitting(at) => &self.fittings[at].ports,
            Owner::Device => &self.joints[joint].device,
        }
    }

    fn taken(&self, met: At, run: usize, joint: usize) -> Taken {
        let (between, centre) = self.inward(met, joint);
        let Some(centre) = centre else {
            return Taken::Unknown(NO_FIGURE);
        };
        let kind = self.survey.job.settings.copper.joining(self.survey.materials[run]);
        let at_end = match centre.0 {
            Owner::Fitting(at) => self.fittings[at].kind == FittingKind::Cap,
            Owner::Device => !self.device(joint).is_some_and(Device::stands_in_line),
        };
        // Lengths to appliances and caps are taken to the end of the pipe.
        let own_end = |owner: &Owner| match owner {
            Owner::Fitting(at) => self.fittings[*at].kind.is_end_of_pipe(),
            Owner::Device => false,
        };
        if at_end && between.iter().all(|(owner, _)| own_end(owner)) {
            return Taken::Nothing;
        }
        if let (Owner::Fitting(at), port) = met
            && self.fittings[at].kind == FittingKind::StreetElbow90
            && self.fittings[at].ports[port].kind == PortKind::MaleThread
        {
            return Taken::Male(
                self.fittings[at].ports[port]
                    .size
                    .and_then(|own| self.survey.book.centre_to_end(Threaded::StreetMale, own, own)),
            );
        }
        // A device at the end of its pipe stands where the length ends: nothing is measured to its middle.
        let reckoned = if at_end {
            None
        } else {
            self.reckoned(&between, centre, joint)
        };
        let measured = || self.survey.job.joints.at(joint).fitting_takes;
        match (reckoned, measured()) {
            (Some(taken), _) => taken,
            (None, Some(length)) => Taken::Figures {
                centre_to_face: Marked::new(length, Mark::Local),
                make_up: NOTHING,
            },
            (None, None) => Taken::Unknown(self.why_unknown(&between, centre, joint, kind)),
        }
    }

    /// Why nothing is known of what an end takes out.
    fn why_unknown(&self, between: &[At], centre: At, joint: usize, kind: Joining) -> &'static str {
        let mut owners = between.iter().chain([&centre]).map(|at| at.0);
        if owners
            .clone()
            .any(|owner| owner == Owner::Device && self.length_of(owner, joint).is_none())
        {
            return if between.is_empty() { MAKERS } else { BESIDE };
        }
        match not_threaded(kind) {
            Some(why) => why,
            None => owners.find_map(|owner| self.foreign(owner)).unwrap_or_else(|| {
                let unknown = self.ports(centre.0, joint).iter().any(|port| port.size.is_none());
                if unknown { NO_THREAD } else { NO_FIGURE }
            }),
        }
    }

    /// Why nothing is known of a fitting that is not threaded alone.
    fn foreign(&self, owner: Owner) -> Option<&'static str> {
        let Owner::Fitting(at) = owner else { return None };
        not_threaded(self.survey.job.settings.copper.joining(self.fittings[at].material))
    }

    /// From the centre to the face of the outermost fitting, each thread on the way made up, and the make-up of the pipe.
    fn reckoned(&self, between: &[At], centre: At, joint: usize) -> Option<Taken> {
        let mut face = self.to_face(centre, joint)?;
        let mut port = self.ports(centre.0, joint)[centre.1];
        for &(owner, outer) in between.iter().rev() {
            // Each enters or is entered by the one before; its far face, or a nipple's far end, counts on.
            let (length, make_up) = (self.length_of(owner, joint)?, self.made_up(&port)?);
            face = Marked::new(
                face.value + length.value - make_up.value,
                face.mark.max(length.mark).max(make_up.mark),
            );
            port = *self.ports(owner, joint).get(outer)?;
        }
        Some(Taken::Figures {
            centre_to_face: face,
            make_up: self.made_up(&port)?,
        })
    }

    /// How far what is joined to a port enters it: a thread by its make-up; sockets and nuts are measured to their stop.
    fn made_up(&self, port: &Port) -> Option<Marked<Length>> {
        match port.kind {
            PortKind::FemaleThread | PortKind::MaleThread => self.make_up(port.size?),
            PortKind::TubingNut
            | PortKind::Tubing
            | PortKind::Socket
            | PortKind::Tube
            | PortKind::FlareEnd
            | PortKind::FlareNut
            | PortKind::Fusion
            | PortKind::Plastic
            | PortKind::Connector => Some(NOTHING),
        }
    }

    fn make_up(&self, size: NominalSize) -> Option<Marked<Length>> {
        self.survey.book.make_up(&self.survey.profile.thread_make_up, size)
    }

    /// From the centre of a fitting or device to the face of one of its ends: as the person measured it, else as listed.
    fn to_face(&self, (owner, port): At, joint: usize) -> Option<Marked<Length>> {
        let half = |whole: Marked<Length>| whole.map(|length| length.times(0.5));
        let book = self.survey.book;
        let ports = self.ports(owner, joint);
        let Owner::Fitting(at) = owner else {
            let own = ports[port].size;
            let union = matches!(self.device(joint), Some(Device::Union))
                .then_some(own)
                .flatten();
            let listed = || union.and_then(|own| book.centre_to_end(Threaded::Union, own, own));
            return self.own_device(joint).map(half).or_else(listed);
        };
        if let Some(own) = self.own_fitting(at, port) {
            return Some(own);
        }
        if self.foreign(owner).is_some() {
            return None;
        }
        let own = ports[port].size?;
        let other = || ports.get(1 - port.min(1)).and_then(|port| port.size);
        match self.fittings[at].kind {
            FittingKind::Elbow90 => book.centre_to_end(Threaded::Square, own, other()?),
            FittingKind::StreetElbow90 if ports[port].kind == PortKind::MaleThread => {
                book.centre_to_end(Threaded::StreetMale, own, own)
            }
            FittingKind::StreetElbow90 => book.centre_to_end(Threaded::Square, own, own),
            FittingKind::Elbow45 => book.centre_to_end(Threaded::Elbow45, own, other()?),
            FittingKind::Tee | FittingKind::Cross => {
                // An end goes by its own size and that of the ways that it meets at a right angle.
                let (straight, outlets) = ports.split_at(2.min(ports.len()));
                let met = if port < 2 { outlets } else { straight };
                let sizes: Option<Vec<NominalSize>> = met.iter().map(|port| port.size).collect();
                book.centre_to_end(Threaded::Square, own, sizes?.into_iter().max()?)
            }
            FittingKind::Coupling => book.centre_to_end(Threaded::Coupling, own, other()?),
            FittingKind::ReducingCoupling => book.centre_to_end(Threaded::ReducingCoupling, own, other()?),
            FittingKind::OddElbow(_)
            | FittingKind::Bend
            | FittingKind::SideOutletElbow
            | FittingKind::SideOutletTee
            | FittingKind::ManyWays(_)
            | FittingKind::TubingFitting
            | FittingKind::Adapter
            | FittingKind::Transition
            | FittingKind::Riser
            | FittingKind::Nipple
            | FittingKind::TrapNipple
            | FittingKind::Cap
            | FittingKind::Plug => None,
        }
    }

    /// How long something is that leads from the centre to a run.
    fn length_of(&self, owner: Owner, joint: usize) -> Option<Marked<Length>> {
        if let Owner::Fitting(at) = owner
            && self.fittings[at].kind == FittingKind::Nipple
        {
            let size = self.fittings[at].ports.first()?.size?;
            return self.survey.book.shortest_nipple(self.survey.profile, size);
        }
        let half = self.to_face((owner, 0), joint)?;
        Some(half.map(|half| half.times(2.0)))
    }

    /// The length of a device from end to end, as it was measured: at its place, or once for all.
    fn own_device(&self, joint: usize) -> Option<Marked<Length>> {
        let placed = self.survey.job.joints.at(joint).placed.as_ref()?;
        let name = match &placed.device {
            Device::Valve(valve) => valve.kind.name(),
            device => device.name(),
        };
        let size = self.joints[joint].device.iter().find_map(|port| port.size);
        let listed = || size.and_then(|size| self.survey.book.own_lengths().of(name, &[size]));
        let length = placed.takes.or_else(listed)?;
        Some(Marked::new(length, Mark::Local))
    }

    /// From the middle of a fitting to the face of one of its ends, where a list of one's own has it.
    fn own_fitting(&self, at: usize, port: usize) -> Option<Marked<Length>> {
        let fitting = &self.fittings[at];
        let own = self.survey.book.own_lengths();
        if own.is_empty() {
            return None;
        }
        let name = listed_name(fitting.kind)?;
        let sizes: Vec<Option<NominalSize>> = fitting.ports.iter().map(|port| port.size).collect();
        let length = match fitting.kind {
            FittingKind::Elbow90
            | FittingKind::Elbow45
            | FittingKind::Tee
            | FittingKind::Cross
            | FittingKind::SideOutletElbow
            | FittingKind::SideOutletTee => {
                let is_run = |at: usize| at < 2;
                let branching = sizes.len() > 2;
                let met = sizes.iter().enumerate().filter(|&(other, _)| match branching {
                    true => is_run(other) != is_run(port),
                    false => other != port,
                });
                let met: Option<Vec<NominalSize>> = met.map(|(_, size)| *size).collect();
                let (end, met) = (sizes[port]?, met?.into_iter().max()?);
                match end == met {
                    true => own.of(name, &[end]),
                    false => own.of(name, &[end, met]),
                }
            }
            _ => {
                // Named by what the tube or the larger end is, or by both ends.
                let either = |sizes: &[NominalSize]| {
                    let turned: Vec<NominalSize> = sizes.iter().rev().copied().collect();
                    own.of(name, sizes).or_else(|| own.of(name, &turned))
                };
                let same = fitting.sizes.windows(2).all(|pair| pair[0] == pair[1]);
                let first = fitting.sizes.get(..1).unwrap_or_default();
                let whole = either(&fitting.sizes).or_else(|| {
                    if same || fitting.kind.is_end_of_pipe() {
                        own.of(name, first)
                    } else {
                        None
                    }
                });
                whole.map(|whole| whole.times(0.5))
            }
        };
        length.map(|length| Marked::new(length, Mark::Local))
    }
}

/// Why nothing is published of the lengths of fittings for what is joined so; `None` of threaded ones.
const fn not_threaded(joining: Joining) -> Option<&'static str> {
    match joining {
        Joining::Threaded => None,
        Joining::Brazed => Some(COPPER),
        Joining::Flared => Some(FLARED),
        Joining::Nut => Some(TUBING),
        Joining::Fused => Some(PLASTIC),
    }
}

/// What a list of one's own calls a fitting; `None` of what has no length of its own.
const fn listed_name(kind: FittingKind) -> Option<&'static str> {
    match kind {
        FittingKind::Elbow90 => Some("90° elbow"),
        FittingKind::Elbow45
        | FittingKind::Tee
        | FittingKind::Cross
        | FittingKind::SideOutletElbow
        | FittingKind::SideOutletTee
        | FittingKind::Coupling
        | FittingKind::ReducingCoupling
        | FittingKind::TubingFitting
        | FittingKind::Adapter
        | FittingKind::Transition
        | FittingKind::Riser => Some(kind.noun()),
        FittingKind::StreetElbow90
        | FittingKind::OddElbow(_)
        | FittingKind::Bend
        | FittingKind::ManyWays(_)
        | FittingKind::Nipple
        | FittingKind::TrapNipple
        | FittingKind::Cap
        | FittingKind::Plug => None,
    }
}

/// Nothing enters, and nothing is taken off.
const NOTHING: Marked<Length> = Marked::new(Length::ZERO, Mark::Found);

/// The port that a run goes into.
pub(crate) fn met(fittings: &[Fitting], here: &Assembly, run: usize) -> Option<At> {
    let takes = |port: &Port| port.takes == Takes::Run(run);
    let device = here.device.iter().position(takes).map(|port| (Owner::Device, port));
    device.or_else(|| {
        let mut all = here.fittings.clone();
        all.find_map(|at| {
            let port = fittings[at].ports.iter().position(takes)?;
            Some((Owner::Fitting(at), port))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::super::take_out::*;
    use crate::codebook::OwnLengths;

    /// Whether a line of a list of one's own may name it.
    fn is_known(name: &str) -> bool {
        OwnLengths::read(&format!("{name}; 1/2; 2 in")).len() == 1
    }

    #[test]
    fn a_list_of_ones_own_may_name_whatever_is_asked_for() {
        let kinds = [
            FittingKind::Elbow90,
            FittingKind::Elbow45,
            FittingKind::Tee,
            FittingKind::Cross,
            FittingKind::SideOutletElbow,
            FittingKind::SideOutletTee,
            FittingKind::Coupling,
            FittingKind::ReducingCoupling,
            FittingKind::TubingFitting,
            FittingKind::Adapter,
            FittingKind::Transition,
            FittingKind::Riser,
        ];
        for name in kinds.map(listed_name) {
            assert!(name.is_some_and(is_known), "{name:?}");
        }
        use crate::job::{Connector, Meter, QuickCoupling, Regulator};
        for device in [
            Device::Meter(Meter::default()),
            Device::Regulator(Regulator::default()),
            Device::Union,
            Device::Connector(Connector::default()),
            Device::QuickCoupling(QuickCoupling::default()),
        ] {
            assert!(is_known(device.name()), "{}", device.name());
        }
    }
}
