//! Where new pipe meets pipe that stands: rigid pipe is cut early and plugged, tubing late and made up last.

use super::{Work, step};
use crate::job::{Device, Direction, Joining, Material, Run, State};
use crate::study::Place;
use crate::work::{PRACTICE, Step, cut_ins, put_in};
use std::collections::VecDeque;

impl Work<'_> {
    /// Joints at which new pipe meets pipe that stands, or a supply or device that does.
    fn meets(&self) -> impl Iterator<Item = usize> {
        let is_new = |run: usize| self.job.runs.at(run).state == State::New;
        let meets = self.shut.work.iter().copied();
        meets.filter(move |&joint| self.study.network.legs(joint).any(is_new))
    }

    /// Those of them at which pipe stands, so that it is cut or opened there.
    fn ties(&self) -> impl Iterator<Item = usize> {
        let stands = |run: usize| self.job.runs.at(run).state == State::Existing && !self.study.runs[run].is_hose;
        self.meets()
            .filter(move |&joint| self.study.network.legs(joint).any(stands))
    }

    /// The materials of tubing that stands and stays at a joint; empty where rigid pipe stands there, or none.
    pub(super) fn tubing_at(&self, joint: usize) -> Vec<Material> {
        let mut materials = Vec::new();
        for run in self.study.network.legs(joint).map(|run| self.job.runs.at(run)) {
            let material = self.job.material(run);
            match run.state {
                State::Existing if material.is_rigid() => return Vec::new(),
                State::Existing => materials.push(material),
                State::New | State::Removed => {}
            }
        }
        materials.sort();
        materials.dedup();
        materials
    }

    /// Joints with old pipe at which something is made: what is only taken out there is not joined.
    pub(super) fn made_at(&self) -> Vec<usize> {
        let is_made = |&joint: &usize| {
            let new_run = |run: usize| self.job.runs.at(run).state == State::New;
            self.is_new(joint) || self.study.network.legs(joint).any(new_run)
        };
        self.shut.work.iter().copied().filter(is_made).collect()
    }

    /// Joints of the work at which something is left.
    pub(super) fn left_at(&self) -> Vec<usize> {
        let stays = |&joint: &usize| {
            let mut legs = self.study.network.legs(joint);
            legs.any(|run| self.job.runs.at(run).state != State::Removed)
        };
        self.shut.work.iter().copied().filter(stays).collect()
    }

    fn rigid_ties(&self) -> Vec<usize> {
        self.ties().filter(|&joint| self.tubing_at(joint).is_empty()).collect()
    }

    /// Joints at which new pipe is tied into tubing.
    pub(super) fn tubing_ties(&self) -> Vec<usize> {
        self.ties().filter(|&joint| !self.tubing_at(joint).is_empty()).collect()
    }

    /// Those of them where the tee is put on the new pipe, and the tubing made up to it last.
    pub(super) fn nut_ties(&self) -> Vec<usize> {
        let by_nut = |joint: &usize| {
            let mut tubing = self.tubing_at(*joint).into_iter();
            tubing.all(|material| self.job.settings.copper.joining(material).has_nut())
        };
        self.tubing_ties().into_iter().filter(by_nut).collect()
    }

    /// What is put into pipe that stands, where no new pipe leads.
    pub(super) fn put_in(&self) -> Option<Step> {
        let joints: Vec<usize> = put_in::all(self.job, self.study).iter().map(|it| it.joint).collect();
        if joints.is_empty() {
            return None;
        }
        let words = format!(
            "Open the existing pipe for what is put into it: {}. Take it apart at the nearest joint that comes apart, or cut it and thread it in \
             place; measure the nipples there, for no list has their lengths. A union makes the line up again.",
            self.all_named(&joints)
        );
        step(
            "put-in",
            "Open the existing pipe",
            self.at_each(&joints),
            PRACTICE,
            words,
        )
    }

    /// The names of joints in a row.
    pub(super) fn all_named(&self, joints: &[usize]) -> String {
        let names: Vec<String> = joints.iter().map(|&joint| self.named(joint)).collect();
        names.join(", ")
    }

    pub(super) fn cut_in_rigid(&self) -> Option<Step> {
        let ties = self.rigid_ties();
        if ties.is_empty() {
            return None;
        }
        let words: Vec<String> = ties.iter().map(|&joint| self.tie_in(joint)).collect();
        let mut words = format!("Cut in at {}. ", words.join("; at "));
        let all = cut_ins(self.job, self.study);
        let clause = self
            .book
            .clause_number("union-concealed", self.profile.family)
            .unwrap_or_default();
        let elsewhere = format!(
            "the existing line is concealed there, where no union is allowed ({clause}): cut it where it can be reached."
        );
        for (concealed, how) in [(false, CLOSED_BY_A_UNION), (true, &*elsewhere)] {
            let threaded = all.iter().filter(|cut_in| cut_in.joining == Joining::Threaded);
            let here = threaded.filter(|cut_in| cut_in.concealed == concealed);
            let names: Vec<String> = here.map(|cut_in| self.named(cut_in.joint)).collect();
            if !names.is_empty() {
                words += &format!("At {} {how} ", names.join(", "));
            }
        }
        if !self.shuts_late() {
            words += "Plug or cap the new outlet until the new pipe has been tested.";
        }
        let words = words.trim_end().to_owned();
        step("cut-in", "Cut in", self.at_each(&ties), PRACTICE, words)
    }

    pub(super) fn cut_in_tubing(&self) -> Option<Step> {
        let ties = self.tubing_ties();
        if ties.is_empty() {
            return None;
        }
        let said: Vec<String> = ties.iter().map(|&joint| self.tie_in(joint)).collect();
        let mut words = format!(
            "Only after the new pipe has passed its test, cut the existing tubing at {}.",
            said.join("; at ")
        );
        for material in Material::ALL {
            if ties.iter().any(|&joint| self.tubing_at(joint).contains(&material)) {
                words += match self.job.settings.copper.joining(material) {
                    Joining::Nut => MAKE_UP_CSST,
                    Joining::Brazed => MAKE_UP_BRAZED,
                    Joining::Flared => MAKE_UP_FLARED,
                    Joining::Fused => MAKE_UP_PE,
                    Joining::Threaded => "",
                };
            }
        }
        // The id that steps of this kind have always had, where no other step has it.
        let id = match self.rigid_ties().is_empty() {
            true => "cut-in",
            false => "cut-tubing",
        };
        step(id, "Cut the tubing", self.at_each(&ties), PRACTICE, words)
    }

    pub(super) fn at_each(&self, joints: &[usize]) -> Vec<Place> {
        joints.iter().map(|&joint| self.joint(joint)).collect()
    }

    /// The fittings of tie-ins, by their joints: "the tee for behind the dryer (J8)".
    pub(super) fn tie_fittings(&self, ties: &[usize]) -> String {
        let named = |&joint: &usize| {
            let fitting = self.study.joints[joint]
                .fitting
                .and_then(|at| self.study.fittings.get(at));
            let kind = fitting.map_or("fitting".to_owned(), |fitting| fitting.kind.name());
            format!("the {kind} for {}", self.named(joint))
        };
        ties.iter().map(named).collect::<Vec<_>>().join(", ")
    }

    /// How the new pipe is joined to what stands.
    pub(super) fn closing(&self) -> String {
        let mut words = String::new();
        let tubing = self.nut_ties();
        if !tubing.is_empty() {
            words += &format!(
                " Make up the tubing nuts last, one wrench on the fitting and one on the nut: {} is on the new pipe already.",
                self.tie_fittings(&tubing)
            );
        }
        // An appliance has its own union or connector; a cap is screwed on.
        let is_fixed = |joint: &usize| {
            let stands = |run: usize| self.job.runs.at(run).state == State::Existing && !self.study.runs[run].is_hose;
            let placed = self.job.joints.at(*joint).placed.as_ref();
            let holds = placed.is_some_and(|placed| {
                placed.state == State::Existing && !matches!(placed.device, Device::Appliance(_) | Device::Cap(_))
            });
            holds || self.study.network.legs(*joint).any(stands)
        };
        let rigid = self
            .meets()
            .filter(|joint| self.tubing_at(*joint).is_empty() && is_fixed(joint));
        let new_steel = |&joint: &usize| {
            let mut legs = self.study.network.legs(joint).map(|run| self.job.runs.at(run));
            legs.any(|run| run.state == State::New && self.job.material(run).is_rigid())
        };
        let mut said: Vec<(String, Vec<usize>)> = Vec::new();
        for joint in rigid.filter(new_steel) {
            let how = match self.opening(joint) {
                Opening::Near(union) => format!("is made up last, at {}.", self.named(union)),
                Opening::Beyond(union) => format!(
                    "has its first union beyond a turn, at {}: put a union beside the tie-in, or build this pipe from the tie-in on, make it up at \
                     that union, and check those joints with the gas on.",
                    self.named(union)
                ),
                Opening::Nut => "is built from the tie-in on; the nut of the tubing is made up last.".to_owned(),
                Opening::CappedStub => continue,
                Opening::Nothing => WANTS_A_UNION.to_owned(),
            };
            match said.iter_mut().find(|known| known.0 == how) {
                Some(known) => known.1.push(joint),
                None => said.push((how, vec![joint])),
            }
        }
        for (how, joints) in said {
            words += &format!(" Rigid pipe from {} {how}", self.all_named(&joints));
        }
        words
    }

    /// Where new threaded pipe from a tie-in comes apart before it comes to other pipe that stands.
    fn opening(&self, tie: usize) -> Opening {
        let network = &self.study.network;
        let new = |joint: usize| {
            let legs = network
                .legs(joint)
                .filter(|&run| self.job.runs.at(run).state == State::New);
            let ends = legs.filter_map(|run| network.joints_of[run]);
            ends.map(move |(from, to)| if from == joint { to } else { from })
        };
        let is_cap = |joint: usize| matches!(self.job.joints.at(joint).device(), Some(Device::Cap(_)));
        if new(tie).all(|end| is_cap(end) && new(end).count() == 1) {
            return Opening::CappedStub;
        }
        let place = |joint: usize| self.job.joints.at(joint).at;
        let (mut seen, mut found) = (vec![false; self.job.joints.len()], Opening::Nothing);
        // Each joint with the way by which it was come to as long as there was no turn.
        let mut waiting: VecDeque<(usize, Option<Direction>, bool)> = VecDeque::from([(tie, None, false)]);
        while let Some((joint, way, has_turned)) = waiting.pop_front() {
            if std::mem::replace(&mut seen[joint], true) {
                continue;
            }
            if matches!(self.job.joints.at(joint).device(), Some(Device::Union)) {
                found = found.or(match has_turned {
                    false => Opening::Near(joint),
                    true => Opening::Beyond(joint),
                });
                continue;
            }
            for at in network.legs(joint).filter(|&at| !self.study.runs[at].is_hose) {
                let run = self.job.runs.at(at);
                match (run.state, self.job.joining(run)) {
                    (State::New, Joining::Threaded) => {
                        let Some((from, to)) = network.joints_of[at] else {
                            continue;
                        };
                        let next = if from == joint { to } else { from };
                        let here = place(next) - place(joint);
                        let turns = has_turned || way.is_some_and(|way| !way.is_parallel_to(here));
                        waiting.push_back((next, Some(here), turns));
                    }
                    (State::New, Joining::Nut | Joining::Flared) => found = found.or(Opening::Nut),
                    (State::Existing, Joining::Threaded) if joint != tie => return Opening::Nothing,
                    _ => {}
                }
            }
        }
        found
    }

    /// A tie-in with its fitting and the pipe that meets there.
    fn tie_in(&self, joint: usize) -> String {
        let mut words = self.named(joint);
        let fitting = self.study.joints[joint]
            .fitting
            .and_then(|at| self.study.fittings.get(at));
        if let Some(fitting) = fitting {
            words += &format!(": {} {}", fitting.kind.name(), fitting.sizes_named(self.study.names));
        }
        let legs = || self.study.network.legs(joint).map(|run| self.job.runs.at(run));
        let is_there = fitting.is_some_and(|fitting| fitting.state == State::Existing && fitting.ports.len() > 2);
        if is_there {
            words += ", already there: take the plug out of it";
        } else if legs().any(|run| run.state == State::Existing) {
            words += " into the existing pipe";
        }
        let far = |run: &Run| {
            if run.from == self.job.joints.at(joint).id {
                run.to
            } else {
                run.from
            }
        };
        let new = legs().filter(|run| run.state == State::New);
        let new: Vec<String> = new
            .filter_map(|run| self.job.joints.position(far(run)))
            .map(|at| self.named(at))
            .collect();
        format!("{words}, with the new pipe to {}", new.join(" and "))
    }
}

/// By what new threaded pipe comes apart.
#[derive(Clone, Copy, PartialEq)]
enum Opening {
    /// A union in line with the first run from the tie-in.
    Near(usize),
    /// A union behind a turn: pipe between it and the tie-in cannot be swung into the fitting.
    Beyond(usize),
    /// Tubing begins before any union.
    Nut,
    /// It ends in a cap close by, and is screwed on from the tie-in.
    CappedStub,
    /// Nothing.
    Nothing,
}

impl Opening {
    /// The better of two.
    const fn or(self, other: Opening) -> Opening {
        match (self, other) {
            (Opening::Nothing, other) | (Opening::Beyond(_) | Opening::Nut, other @ Opening::Near(_)) => other,
            (known, _) => known,
        }
    }
}

/// How rigid pipe is closed where no union is drawn.
const WANTS_A_UNION: &str = "has no union drawn in it: pipe between two fixed ends cannot be turned, so put one in near the tie-in where the other \
 end is fixed.";

/// How corrugated tubing is made up.
pub(super) const MAKE_UP_CSST: &str = " Cut CSST square, strip its jacket as the manufacturer's instructions say, and put the manufacturer's own fitting on each end.";
/// How brazed copper is parted.
const MAKE_UP_BRAZED: &str = " Cut copper square and ream it; first check that the pipe is free of gas and open at both ends before it is brazed; a \
 slip coupling makes the line up again.";
/// How flared copper is parted.
const MAKE_UP_FLARED: &str =
    " Cut copper square and ream it, slide the nut on, and flare each end at 45°; make up the nuts last.";
/// How plastic pipe is parted.
const MAKE_UP_PE: &str = " Dig out existing plastic pipe by hand. Static electricity on it can light gas: ground it with a wet soapy cloth before it \
 is cut, as its manufacturer's procedure says. Join it by fusion or with fittings listed for it, by people qualified in that procedure; couplings make the \
 line up again.";

/// How threaded pipe that was cut for a tee is closed again.
const CLOSED_BY_A_UNION: &str = "make the existing line up again with a union beside the tee.";
