//! How the runs at a joint stand to each other: what fitting they imply, and how gas turns through it.
//!
//! Only geometry; sizes and materials come later. Pipe to be removed is looked at only where nothing else meets.

use super::Survey;
use crate::job::{Device, Direction, OwnWay, State};

/// One way out of a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Way {
    /// Along a run.
    Run(u32),
    /// What stands on the joint: the nipple of a trap, an appliance, cap, gauge or supply on the side of a line.
    Device,
}

impl Way {
    pub(crate) const fn run(run: usize) -> Way {
        Way::Run(run as u32)
    }

    pub(crate) const fn to_run(self) -> Option<usize> {
        match self {
            Way::Run(run) => Some(run as usize),
            Way::Device => None,
        }
    }
}

/// The fitting implied at a joint.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Meeting {
    /// No run, or the end of one.
    End,
    /// Two runs in line.
    Line([u32; 2]),
    /// Two runs at an angle: by so many degrees the way turns, 90 for a usual elbow.
    Turn([u32; 2], f64),
    /// Three ways: the two of the tee's run, then its outlet.
    Tee([Way; 3]),
    /// Three ways, each square to the others, as in no tee: a corner.
    Corner([Way; 3]),
    /// Four ways: the two of the run, then the two outlets.
    Cross([Way; 4]),
    /// Four ways: the two of the run, then two that are square to it and to each other, as in no cross.
    SideTee([Way; 4]),
    /// More, or three or four as they stand in no fitting.
    Many(Vec<Way>),
}

/// Angles nearer than this are one, in degrees: lattice points are exact.
pub(crate) const SAME: f64 = 0.5;

/// No fitting has more ways than a cross, so more of them are not looked at in pairs.
const MOST_WAYS: usize = 4;

/// Looks at a joint; the runs come with the one that feeds it first, then by id.
pub(crate) fn at(survey: &Survey, joint: usize) -> Meeting {
    look(survey, joint, own_way(survey.devices[joint]))
}

/// A joint as gas goes through it: a gauge stands there for the pressure test only, and takes no way of its own.
pub(crate) fn in_service(survey: &Survey, joint: usize) -> Meeting {
    let device = survey.devices[joint];
    look(
        survey,
        joint,
        match device {
            Some(Device::TestGauge) => OwnWay::None,
            device => own_way(device),
        },
    )
}

/// By how many degrees the way turns from one run to another at a joint; nothing where either has no length.
pub(crate) fn turn(survey: &Survey, joint: usize, from: usize, to: usize) -> f64 {
    let [from, to] = [from, to].map(|run| direction(survey, joint, run));
    from.angle_to(to).map_or(0.0, |between| 180.0 - between)
}

fn look(survey: &Survey, joint: usize, own: OwnWay) -> Meeting {
    let network = &survey.network;
    let standing = |run: &usize| survey.states[*run] != State::Removed;
    let only_removed = !network.legs(joint).any(|run| standing(&run));
    let feed = network.feed[joint];
    let legs = network.legs(joint).filter(|run| only_removed || standing(run));
    let ways = feed.into_iter().chain(legs.filter(|&run| Some(run) != feed));
    among(survey, joint, ways, survey.devices[joint], own)
}

/// How some of the runs at a joint stood to each other and to the device there; the one that feeds it comes first.
pub(crate) fn before(
    survey: &Survey,
    joint: usize,
    ways: impl Iterator<Item = usize> + Clone,
    device: Option<&Device>,
) -> Meeting {
    among(survey, joint, ways, device, own_way(device))
}

fn among(
    survey: &Survey,
    joint: usize,
    ways: impl Iterator<Item = usize> + Clone,
    device: Option<&Device>,
    own: OwnWay,
) -> Meeting {
    let feed = survey.network.feed[joint];
    // The commonest joints by far, without a list.
    let mut three = [None; 3];
    let mut count = 0;
    for run in ways.clone() {
        if let Some(place) = three.get_mut(count) {
            *place = Some(run);
        }
        count += 1;
    }
    match (three, count, own) {
        ([Some(a), Some(b), _], 2, OwnWay::None) => {
            let runs = [a as u32, b as u32];
            match turn(survey, joint, a, b) {
                turn if turn > SAME => Meeting::Turn(runs, turn),
                _ => Meeting::Line(runs),
            }
        }
        (_, 0, _) => Meeting::End,
        (_, 1, OwnWay::None | OwnWay::OnALine) => Meeting::End,
        _ => {
            let mut list: Vec<(Way, Option<Direction>)> = ways
                .map(|run| (Way::run(run), Some(direction(survey, joint, run))))
                .collect();
            if own != OwnWay::None {
                let down = (own == OwnWay::Always).then_some(Direction::new(0, 0, -1));
                // Gas enters at the supply; everywhere else the device is one way out.
                let place = if feed.is_none() && matches!(device, Some(Device::Supply(_))) {
                    0
                } else {
                    list.len()
                };
                list.insert(place, (Way::Device, down));
            }
            // Tubing bends beside the fitting: it comes as it must.
            let bends = list
                .iter()
                .filter_map(|(way, _)| way.to_run())
                .any(|run| survey.materials[run].bends());
            many(list, bends)
        }
    }
}

fn own_way(device: Option<&Device>) -> OwnWay {
    device.map_or(OwnWay::None, |device| device.nature().own_way)
}

/// The way of a run out of a joint.
pub(crate) fn direction(survey: &Survey, joint: usize, run: usize) -> Direction {
    match survey.network.joints_of[run] {
        Some((from, _)) if from == joint => survey.ways[run],
        Some(_) => -survey.ways[run],
        None => Direction::default(),
    }
}

/// Sorts three ways or more. What stands on a joint may stand on any side: on the one that its fitting has for it.
fn many(mut ways: Vec<(Way, Option<Direction>)>, bends: bool) -> Meeting {
    if ways.len() > MOST_WAYS {
        return Meeting::Many(ways.iter().map(|way| way.0).collect());
    }
    let free = ways.iter().position(|(_, direction)| direction.is_none());
    let Some(free) = free.filter(|_| !bends) else {
        return sorted(&ways, bends);
    };
    let taken: Vec<Direction> = ways.iter().filter_map(|way| way.1).collect();
    let opposite = taken.iter().map(|&way| -way);
    let beside = taken.iter().map(|&way| way.square());
    for side in opposite.chain(beside) {
        ways[free].1 = Some(side);
        let fitting = sorted(&ways, false);
        if !matches!(fitting, Meeting::Many(_)) {
            return fitting;
        }
    }
    Meeting::Many(ways.iter().map(|way| way.0).collect())
}

/// The run of the fitting is the pair nearest to a straight line, of equals the first.
fn sorted(ways: &[(Way, Option<Direction>)], comes_as_it_must: bool) -> Meeting {
    let mut run = (0, 1.min(ways.len() - 1));
    let mut widest = -1.0;
    for (a, first) in ways.iter().enumerate() {
        for (b, second) in ways.iter().enumerate().skip(a + 1) {
            let angle = first.1.zip(second.1).and_then(|(first, second)| first.angle_to(second));
            let angle = angle.unwrap_or(0.0);
            if angle > widest + SAME {
                (run, widest) = ((a, b), angle);
            }
        }
    }
    let first = [ways[run.0].0, ways[run.1].0];
    let mut others = ways
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != run.0 && *at != run.1)
        .map(|(_, way)| *way);
    let straight = comes_as_it_must || between(ways[run.0], ways[run.1], 180.0);
    let square = |one, other| comes_as_it_must || between(one, other, 90.0);
    let to_run = |other| square(ways[run.0], other) && square(ways[run.1], other);
    match (ways.len(), others.next(), others.next()) {
        (2, ..) => Meeting::Tee([first[0], first[1], Way::Device]),
        (3, Some(outlet), None) if straight && to_run(outlet) => Meeting::Tee([first[0], first[1], outlet.0]),
        (3, Some(third), None) if to_run(third) && square(ways[run.0], ways[run.1]) => {
            Meeting::Corner([first[0], first[1], third.0])
        }
        (4, Some(one), Some(other)) if straight && to_run(one) && to_run(other) => {
            let outlets = [first[0], first[1], one.0, other.0];
            match (
                comes_as_it_must || between(one, other, 180.0),
                between(one, other, 90.0),
            ) {
                (true, _) => Meeting::Cross(outlets),
                (false, true) => Meeting::SideTee(outlets),
                (false, false) => Meeting::Many(ways.iter().map(|way| way.0).collect()),
            }
        }
        _ => Meeting::Many(ways.iter().map(|way| way.0).collect()),
    }
}

/// Whether two ways leave a joint at so many degrees to each other.
fn between(one: (Way, Option<Direction>), other: (Way, Option<Direction>), degrees: f64) -> bool {
    let angle = one.1.zip(other.1).and_then(|(one, other)| one.angle_to(other));
    angle.is_some_and(|angle| (angle - degrees).abs() <= SAME)
}

/// How gas that enters a fitting by one way leaves by another.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) enum Passage {
    /// Straight on, nothing in its way.
    #[default]
    Straight,
    /// Round a turn.
    Turn,
    /// Straight through a tee or cross.
    ThroughRun,
    /// Through the outlet of a tee or cross.
    ThroughOutlet,
    /// As in no fitting: through an outlet, with a turn beside it where the two ways are not square.
    Beside,
}

impl Meeting {
    /// How gas passes from one way to another.
    pub(crate) fn passage(&self, from: Way, to: Way) -> Passage {
        match self {
            Meeting::End | Meeting::Line(_) => Passage::Straight,
            Meeting::Turn(..) => Passage::Turn,
            Meeting::Tee([a, b, _]) | Meeting::Cross([a, b, _, _]) => {
                let run = [*a, *b];
                // On which side a point of delivery stands nobody says: the longer way counts.
                match from != Way::Device && run.contains(&from) && run.contains(&to) {
                    true => Passage::ThroughRun,
                    false => Passage::ThroughOutlet,
                }
            }
            Meeting::Corner(_) | Meeting::SideTee(_) => Passage::ThroughOutlet,
            Meeting::Many(_) => Passage::Beside,
        }
    }
}
