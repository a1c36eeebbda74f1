//! Drops that are alike: three or more neighbors on one header, of one way, length and devices, and drawn alike. One of them
//! is lettered in full and names those that it speaks for: for all that is said of them where their sizes are the same too,
//! and then they say nothing; else for the length alone, and each says its own size.

use super::{joint_words, run_words};
use crate::drawing::layout::{Layout, Leg};
use crate::job::{Device, State};
use crate::study::letters;
use crate::units::NominalSize;
use std::collections::HashMap;

/// Alike drops that one stands for, at least.
const LEAST: usize = 3;
/// Of two that are alike none is drawn longer than the other by more than this.
const DRAWN_ALIKE: f64 = 1.5;
/// Runs of a drop at most.
const LONGEST: usize = 40;

/// What a run or joint of a typical drop says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Says {
    /// All, and for which drops that holds: the number of their group.
    ForAll(usize),
    /// Only what is its own: another speaks for its length.
    OwnOnly,
    /// Nothing: another speaks for it.
    Nothing,
}

/// The typical drops of a drawing.
#[derive(Clone, Debug, Default)]
pub struct Typical {
    runs: HashMap<usize, Says>,
    joints: HashMap<usize, Says>,
    /// For each group what it says, with the letters of its outlets.
    members: Vec<String>,
}

impl Typical {
    /// For which drops what holds, in words.
    pub fn members(&self, group: usize) -> &str {
        self.members.get(group).map_or("", String::as_str)
    }

    /// What a run says; `None` for one that is of no typical drop.
    pub fn run(&self, run: usize) -> Option<Says> {
        self.runs.get(&run).copied()
    }

    /// The same of a joint.
    pub fn joint(&self, joint: usize) -> Option<Says> {
        self.joints.get(&joint).copied()
    }
}

/// Pipe from a header to one outlet.
struct Drop {
    /// Where it leaves the header.
    start: usize,
    runs: Vec<usize>,
    /// The joints between.
    joints: Vec<usize>,
    outlet: usize,
    /// The size of each of its runs.
    sizes: Vec<Option<NominalSize>>,
    /// How long each of its runs is drawn, mm.
    drawn: Vec<f64>,
    /// All that must be alike.
    kind: String,
}

/// Finds the typical drops.
pub fn find(layout: &Layout<'_>) -> Typical {
    let drops = drops(layout);
    let mut starting = HashMap::new();
    for (at, drop) in drops.iter().enumerate() {
        starting.entry(drop.start).or_insert(at);
    }
    // Each is linked to the alike one before it on the header; the flow has no circles here, for each looks upstream.
    let before: Vec<Option<usize>> = (drops.iter().enumerate())
        .map(|(at, drop)| {
            let other = *starting.get(&before(layout, drop.start)?)?;
            (other != at && drops[other].is_like(drop)).then_some(other)
        })
        .collect();
    let mut goes_on = vec![false; drops.len()];
    for other in before.iter().flatten() {
        goes_on[*other] = true;
    }
    let mut typical = Typical::default();
    for last in (0..drops.len()).filter(|at| !goes_on[*at]) {
        let chain = std::iter::successors(Some(last), |at| before[*at]).take(drops.len());
        let group: Vec<usize> = chain.collect();
        if group.len() < LEAST {
            continue;
        }
        let ends: Vec<usize> = group.iter().map(|at| drops[*at].outlet).collect();
        let named = letters(layout.study, |outlet| ends.contains(&outlet.joint));
        // All that is said of a run holds for its likes where their sizes are the same too, else its length alone.
        let first = typical.members.len();
        typical
            .members
            .extend([format!(" TYP. {named}"), format!(" ALL {named}")]);
        for at in &group {
            let drop = &drops[*at];
            for (number, run) in drop.runs.iter().enumerate() {
                let size = |at: &usize| drops[*at].sizes.get(number);
                let is_same = group.iter().all(|other| size(other) == size(&last));
                let says = match (*at == last, is_same) {
                    (true, true) => Says::ForAll(first),
                    (true, false) => Says::ForAll(first + 1),
                    (false, true) => Says::Nothing,
                    (false, false) => Says::OwnOnly,
                };
                typical.runs.insert(*run, says);
            }
            let says = if *at == last {
                Says::ForAll(first)
            } else {
                Says::Nothing
            };
            typical.joints.extend(drop.joints.iter().map(|joint| (*joint, says)));
        }
    }
    typical
}

impl Drop {
    /// Whether two are lettered and drawn alike.
    fn is_like(&self, other: &Drop) -> bool {
        let is_near = |(one, other): (&f64, &f64)| one.max(*other) <= DRAWN_ALIKE * one.min(*other);
        self.kind == other.kind && self.drawn.iter().zip(&other.drawn).all(is_near)
    }
}

fn drops(layout: &Layout<'_>) -> Vec<Drop> {
    let joints = (0..layout.places.len()).filter(|joint| layout.legs_at(*joint).count() > 2);
    let leaving = joints.flat_map(|joint| layout.legs_at(joint).filter(move |leg| leg.flows && leg.from == joint));
    leaving.filter_map(|leg| drop_from(layout, leg)).collect()
}

/// The drop that begins with a leg; `None` where it branches, ends without an outlet, or has words of its own.
fn drop_from(layout: &Layout<'_>, first: &Leg) -> Option<Drop> {
    let mut legs = vec![first];
    let outlet = loop {
        let leg = *legs.last()?;
        let mut others = layout.legs_at(leg.to).filter(|other| other.run != leg.run);
        match (others.next(), others.next()) {
            (None, _) => break leg.to,
            (Some(next), None) if next.from == leg.to && legs.len() < LONGEST => legs.push(next),
            _ => return None,
        }
    };
    // The end of a header is no drop: it begins where pipe turns away from it.
    let feed = layout.legs_at(first.from).find(|leg| leg.to == first.from)?;
    let in_line = legs.iter().take_while(|leg| leg.along.dot(feed.along) > 0.999).count();
    let legs = legs.split_off(in_line);
    let start = legs.first()?.from;
    let device = layout.job.joints.at(outlet).placed.as_ref()?;
    let mut kind = match device.device {
        Device::Appliance(_) => device.state.name().to_owned(),
        _ => return None,
    };
    for leg in &legs {
        let run = layout.job.runs.at(leg.run);
        let is_plain = run.words_at.is_none() && run.penetrations.is_empty() && run.state != State::Removed;
        if !is_plain || leg.is_cut() {
            return None;
        }
        let (way, length) = (leg.along, layout.job.true_length(run));
        kind += &format!(
            "|{:.2} {:.2} {:.3} {} {} {:?}",
            way.x,
            way.y,
            length.inches(),
            layout.job.material(run).short(),
            run.state.name(),
            run.surroundings,
        );
    }
    let joints: Vec<usize> = legs.iter().map(|leg| leg.to).filter(|joint| *joint != outlet).collect();
    for joint in &joints {
        let it = layout.job.joints.at(*joint);
        if it.words_at.is_some() || !layout.has(*joint) {
            return None;
        }
        kind += it.placed.as_ref().map_or("/", |placed| placed.device.name());
        for line in joint_words::lines(layout, *joint, None) {
            kind += &line.words;
        }
    }
    Some(Drop {
        start,
        runs: legs.iter().map(|leg| leg.run).collect(),
        sizes: legs.iter().map(|leg| run_words::size(layout, leg.run)).collect(),
        drawn: legs.iter().map(|leg| leg.line.length()).collect(),
        joints,
        outlet,
        kind,
    })
}

/// The place before another on the same straight header at which pipe branches off or turns.
fn before(layout: &Layout<'_>, start: usize) -> Option<usize> {
    let mut leg = layout.legs_at(start).find(|leg| leg.to == start)?;
    for _ in 0..LONGEST {
        if layout.legs_at(leg.from).count() != 2 {
            return Some(leg.from);
        }
        let next = layout.legs_at(leg.from).find(|other| other.to == leg.from)?;
        if next.along.dot(leg.along) < 0.999 {
            return None;
        }
        leg = next;
    }
    None
}
