//! Where new pipe meets pipe that stands: rigid pipe is cut early and plugged, tubing late and made up last.

use super::{Work, step};
use crate::job::{Device, Joining, Material, Run, State};
use crate::study::Place;
use crate::work::{PRACTICE, Step, cut_ins};

impl Work<'_> {
    /// Joints at which new pipe meets pipe that stands, or a supply or device that does.
    fn ties(&self) -> impl Iterator<Item = usize> {
        let is_new = |run: usize| self.job.runs.at(run).state == State::New;
        let ties = self.shut.work.iter().copied();
        ties.filter(move |&joint| self.study.network.legs(joint).any(is_new))
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
            let here = all.iter().filter(|cut_in| cut_in.concealed == concealed);
            let names: Vec<String> = here.map(|cut_in| self.named(cut_in.joint)).collect();
            if !names.is_empty() {
                words += &format!("At {} {how} ", names.join(", "));
            }
        }
        words += "Close the new outlet with a plug or cap until the new pipe has been tested.";
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
                words += match material.joining() {
                    Joining::Nut => MAKE_UP_CSST,
                    Joining::Brazed => MAKE_UP_COPPER,
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
        let tubing = self.tubing_ties();
        if !tubing.is_empty() {
            words += &format!(
                " Make up the tubing nuts last, one wrench on the fitting and one on the nut: {} is on the new pipe already.",
                self.tie_fittings(&tubing)
            );
        }
        let rigid = self.rigid_ties();
        let new_steel = |&joint: &usize| {
            let mut legs = self.study.network.legs(joint).map(|run| self.job.runs.at(run));
            legs.any(|run| run.state == State::New && self.job.material(run).is_rigid())
        };
        let rigid = rigid.into_iter().filter(new_steel);
        let (with, without): (Vec<usize>, Vec<usize>) = rigid.partition(|&joint| self.is_opened(joint));
        for (joints, how) in [(with, CLOSED_LAST), (without, WANTS_A_UNION)] {
            if !joints.is_empty() {
                words += &format!(" Rigid pipe from {} {how}", self.all_named(&joints));
            }
        }
        words
    }

    /// Whether new threaded pipe from a tie-in is opened by a union or the nut of tubing before it comes to another one.
    fn is_opened(&self, tie: usize) -> bool {
        let network = &self.study.network;
        let (mut seen, mut waiting, mut opened) = (vec![false; self.job.joints.len()], vec![tie], false);
        while let Some(joint) = waiting.pop() {
            if std::mem::replace(&mut seen[joint], true) {
                continue;
            }
            if matches!(self.job.joints.at(joint).device(), Some(Device::Union)) {
                opened = true;
                continue;
            }
            for at in network.legs(joint).filter(|&at| !self.study.runs[at].is_hose) {
                let run = self.job.runs.at(at);
                match (run.state, self.job.material(run).joining()) {
                    (State::New, Joining::Threaded) => {
                        let ends = network.joints_of[at].map(|(from, to)| [from, to]);
                        waiting.extend(ends.into_iter().flatten());
                    }
                    (State::New, Joining::Nut) => opened = true,
                    (State::Existing, Joining::Threaded) if joint != tie => return false,
                    _ => {}
                }
            }
        }
        opened
    }

    /// A tie-in with its fitting and the pipe that meets there.
    fn tie_in(&self, joint: usize) -> String {
        let mut words = self.named(joint);
        if let Some(fitting) = self.study.joints[joint]
            .fitting
            .and_then(|at| self.study.fittings.get(at))
        {
            words += &format!(": {} {}", fitting.kind.name(), fitting.sizes_named(self.study.names));
        }
        let legs = || self.study.network.legs(joint).map(|run| self.job.runs.at(run));
        if legs().any(|run| run.state == State::Existing) {
            words += ", in the existing pipe";
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
        format!("{words}, for the new pipe to {}", new.join(" and "))
    }
}

/// How rigid pipe is closed.
const CLOSED_LAST: &str = "is closed last, by its union: pipe between two fixed ends cannot be turned.";
/// The same where no union is drawn.
const WANTS_A_UNION: &str = "has no union drawn in it: pipe between two fixed ends cannot be turned, so put one in near the tie-in where the other \
 end is fixed.";

/// How corrugated tubing is made up.
pub(super) const MAKE_UP_CSST: &str =
    " Cut CSST square, strip its jacket as the maker's instructions say, and put the maker's own fitting on each end.";
/// How copper is parted.
const MAKE_UP_COPPER: &str = " Cut copper square and ream it; make up flare nuts last. Where it is brazed, first check that the pipe is free of \
 gas and open at both ends.";
/// How plastic pipe is parted.
const MAKE_UP_PE: &str =
    " Join plastic pipe by fusion or with fittings listed for it, by people qualified in its maker's procedure.";

/// How threaded pipe that was cut for a tee is closed again.
const CLOSED_BY_A_UNION: &str = "close the existing line again with a union beside the tee.";
