//! What joins pipe: fittings, devices, and unions where standing pipe is cut.

use super::super::super::fitting::to_tubing;
use super::super::super::{FittingKind, Place};
use super::super::{Group, Line, Quantity};
use super::Gather;
use crate::job::{Device, Placed, Run, State};
use crate::units::NominalSize;
use std::collections::BTreeMap;

/// What is said of a thread beside corrugated tubing: no published text relates the two sizes.
const THREAD: &str =
    "EHD is the size of the tubing; that of the thread is not known: take it from the tubing maker's list";

impl Gather<'_> {
    pub(super) fn fittings(&self, lines: &mut Vec<Line>) {
        let mut counts = self.study.fitting_counts();
        counts.sort_by_key(|count| count.state);
        // New nipples between fittings are told with the other nipples.
        counts.retain(|count| (count.kind, count.state) != (FittingKind::Nipple, State::New));
        for count in counts {
            let places: Vec<Place> = count.joints.iter().map(|&joint| self.joint_place(joint)).collect();
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
                FittingKind::TubingFitting if count.state == State::New && count.sizes.len() > 1 => {
                    line.add("if its maker lists it with this thread, else with a bushing or reducer");
                }
                _ if count.wants_a_thread() && count.state == State::New => {
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
                // Traps and caps are counted among the fittings.
                (Device::SedimentTrap(_) | Device::Cap(_), _) => continue,
                (device, State::Removed) => device.name(),
                (Device::Appliance(_) | Device::Supply(_), State::New | State::Existing) => continue,
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
