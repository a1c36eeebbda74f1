//! What joins pipe: fittings, the end fittings of corrugated tubing, devices, and unions where standing pipe is cut.

use super::super::super::fitting::to_tubing;
use super::super::super::{End, FittingKind, Place};
use super::super::{Group, Line, Quantity};
use super::Gather;
use crate::codebook::PipeKind;
use crate::job::{Device, Placed, Run, State};
use crate::units::{NominalSize, Show};
use std::collections::{BTreeMap, HashSet};

/// What is said of a thread beside corrugated tubing: no published text relates the two sizes.
const THREAD: &str =
    "EHD is the size of the tubing; that of the thread is not known: take it from the tubing maker's list";

impl Gather<'_> {
    pub(super) fn fittings(&self, lines: &mut Vec<Line>) {
        let tubing: HashSet<Place> = self.tubing_ends().map(|(_, end)| self.joint_place(end.joint)).collect();
        let mut counts = self.study.fitting_counts();
        counts.sort_by_key(|count| count.state);
        for count in counts {
            let mut places: Vec<Place> = count.joints.iter().map(|&joint| self.joint_place(joint)).collect();
            if (count.kind, count.state) == (FittingKind::Transition, State::New) {
                // Told as the end fitting of the tubing.
                places.retain(|place| !tubing.contains(place));
            }
            if places.is_empty() {
                continue;
            }
            let line = |places| Line {
                size: count.sizes_named(self.units),
                material: count.material.short(),
                ..Line::each(count.kind.name(), count.state, places)
            };
            if count.state == State::Removed {
                let (kept, gone): (Vec<Place>, Vec<Place>) = places.into_iter().partition(|place| self.is_kept(*place));
                for (salvaged, places) in [(true, kept), (false, gone)] {
                    if !places.is_empty() {
                        lines.push(Line {
                            group: Group::gone(salvaged),
                            ..line(places)
                        });
                    }
                }
                continue;
            }
            let mut line = line(places);
            match count.kind {
                FittingKind::TrapNipple => line.add("of the sediment trap: nipple and cap"),
                FittingKind::Bend => {
                    line.add("bent in the tubing, nothing to buy");
                    if count.state == State::New {
                        line.group = Group::OnSite;
                    }
                }
                _ if count.leads_to_tubing() && count.state == State::New => {
                    line.add(THREAD);
                    line.group = Group::Settle;
                }
                _ => {}
            }
            lines.push(line);
        }
    }

    /// Whether all pipe that is taken out at a joint is kept for use again.
    fn is_kept(&self, place: Place) -> bool {
        let Place::Joint(id) = place else { return false };
        let Some(joint) = self.job.joints.position(id) else {
            return false;
        };
        let mut gone = self
            .study
            .network
            .legs(joint)
            .map(|run| self.job.runs.at(run))
            .filter(|run| run.state == State::Removed);
        gone.clone().next().is_some() && gone.all(Run::is_salvaged)
    }

    /// Ends of new corrugated tubing that go into a fitting of the tubing's own, with the size of the tubing.
    fn tubing_ends(&self) -> impl Iterator<Item = (Option<NominalSize>, &End)> {
        let tubing = |piece: &&crate::study::Piece| PipeKind::of(piece.material) == PipeKind::Csst;
        let pieces = self.cuts.pieces.iter().filter(tubing);
        let ends = pieces.flat_map(|piece| piece.ends.iter().map(move |end| (piece.size, end)));
        ends.filter(|(_, end)| !self.is_bare(end.joint) && !self.joins_tubing(end.joint))
    }

    /// Whether pipe ends there and nothing stands there.
    fn is_bare(&self, joint: usize) -> bool {
        self.study.network.legs(joint).count() < 2 && self.job.joints.at(joint).device().is_none()
    }

    /// Whether a reducing coupling of the tubing stands there, which has no thread.
    fn joins_tubing(&self, joint: usize) -> bool {
        let mut here = self.study.joints[joint]
            .fitting
            .into_iter()
            .map(|at| &self.study.fittings[at]);
        here.any(|fitting| {
            let ehd = fitting.sizes.iter().all(|size| matches!(size, NominalSize::Ehd(_)));
            fitting.kind == FittingKind::ReducingCoupling && ehd
        })
    }

    pub(super) fn ends_of_tubing(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(Option<NominalSize>, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for (size, end) in self.tubing_ends() {
            let key = (size, self.thread(end.joint));
            all.entry(key).or_default().push(self.joint_place(end.joint));
        }
        for ((size, thread), places) in all {
            let tube = self.named(size);
            let mut line = Line {
                size: thread.map_or(tube.clone(), |thread| format!("{tube} × {}", thread.show(self.units))),
                material: crate::job::Material::Csst.short(),
                ..Line::each("tubing fitting", State::New, places)
            };
            match thread {
                Some(_) => line.add("if its maker lists it with this thread, else with a bushing or reducer"),
                None => {
                    line.add(THREAD);
                    line.group = Group::Settle;
                }
            }
            lines.push(line);
        }
    }

    /// The thread that tubing meets at a joint, where it is drawn: that of the device, or that of the pipe behind.
    fn thread(&self, joint: usize) -> Option<NominalSize> {
        let own = self
            .job
            .joints
            .at(joint)
            .placed
            .as_ref()
            .filter(|placed| placed.state != State::Removed);
        let runs = self.study.network.legs(joint);
        let standing = runs.filter(|&run| self.job.runs.at(run).state != State::Removed);
        let mut pipe = standing
            .map(|run| self.size(run))
            .filter(|size| !matches!(size, Some(NominalSize::Ehd(_))));
        match (own.and_then(|placed| placed.size), pipe.next(), pipe.next()) {
            (Some(own), _, _) => Some(own),
            // Of a tee any end may be the one.
            (None, Some(size), None) if self.study.network.legs(joint).count() == 2 => size,
            _ => None,
        }
    }

    /// The size of a device: its own, or that of the pipe beside it, which is no tubing if there is other pipe.
    fn device_size(&self, joint: usize, placed: &Placed) -> Option<NominalSize> {
        let feed = self.study.network.feed[joint].into_iter();
        let legs = || {
            feed.clone()
                .chain(self.study.network.legs(joint))
                .filter_map(|run| self.size(run))
        };
        let threaded = legs().find(|size| !matches!(size, NominalSize::Ehd(_)));
        placed.size.or(threaded).or(legs().next())
    }

    /// What stands on joints. Appliances and the point of delivery are no part of what the piping takes.
    pub(super) fn devices(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(State, bool, &'static str, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for (at, joint) in self.job.joints.iter().enumerate() {
            let Some(placed) = &joint.placed else { continue };
            let what = match (&placed.device, placed.state) {
                (device, State::Removed) => device.name(),
                // Traps and caps are counted among the fittings.
                (Device::SedimentTrap(_) | Device::Cap(_) | Device::Appliance(_) | Device::Supply(_), _) => continue,
                (device, State::New | State::Existing) => device.name(),
            };
            let key = (placed.state, placed.is_salvaged(), what, self.device_size(at, placed));
            all.entry(key).or_default().push(Place::Joint(joint.id));
        }
        for ((state, salvaged, what, size), places) in all {
            let mut line = Line {
                group: match state {
                    State::Removed => Group::gone(salvaged),
                    state => Group::of(state),
                },
                size: self.named(size),
                ..Line::each(what, state, places)
            };
            if let Some(tube @ NominalSize::Ehd(_)) = size {
                line.size = to_tubing(tube, self.units);
                if state == State::New {
                    line.group = Group::Settle;
                    line.add(THREAD);
                }
            }
            lines.push(line);
        }
    }

    /// A union for each tee that is cut into standing pipe: threaded pipe cannot be turned into both ends of a tee.
    pub(super) fn unions(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(bool, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for cut_in in &self.cut_ins {
            let entry = all.entry((cut_in.concealed, cut_in.size)).or_default();
            entry.push(self.joint_place(cut_in.joint));
        }
        for ((concealed, size), places) in all {
            let (group, remark) = match concealed {
                false => (Group::Buy, CLOSES),
                true => (Group::Settle, CLOSES_CONCEALED),
            };
            lines.push(Line {
                size: self.named(size),
                material: crate::job::Material::Steel40.short(),
                group,
                remark: remark.to_owned(),
                ..Line::of("union", State::New, Quantity::Count(places.len()), places)
            });
        }
    }
}

/// What a union in standing pipe is for.
const CLOSES: &str = "closes the standing line again beside the tee that is cut in, with nipples as measured; common practice, no source";
/// The same where the line lies in a wall, floor or ceiling.
const CLOSES_CONCEALED: &str = "would close the standing line again beside the tee that is cut in (common practice, no source), but it lies \
     concealed, where neither union nor right-and-left coupling may stand (IRC 2006 G2415.3): part it where it can be \
     reached";
