//! What joins pipe: fittings, devices, and unions where standing pipe is cut.

use super::{DRIP_LEG, Gather, UNION};
use crate::codebook::Mark;
use crate::fittings::{FittingCount, FittingKind, PortKind, Takes, to_tubing};
use crate::job::{Counted, Device, Joining, Placed, Run, State, Surroundings, Vent};
use crate::study::Place;
use crate::units::{Length, NominalSize, Show};
use crate::work::{Group, Line, Quantity};
use std::collections::{BTreeMap, HashSet};

/// What is said of a thread beside corrugated tubing: no published text relates the two sizes.
const THREAD: &str =
    "EHD is the size of the tubing; its thread size is not known: take it from the tubing manufacturer's list";

impl Gather<'_> {
    pub(super) fn fittings(&self, lines: &mut Vec<Line>) {
        let mut counts = self.study.fitting_counts();
        counts.sort_by_key(|count| count.state);
        // New nipples between fittings are told with the other nipples.
        counts.retain(|count| (count.kind, count.state) != (FittingKind::Nipple, State::New));
        for count in counts {
            let places: Vec<Place> = count.joints.iter().map(|&joint| self.joint_place(joint)).collect();
            let line = |places| Line {
                size: count.sizes_named(self.study.names),
                material: match count.kind {
                    FittingKind::Nipple => count.material.at_counter(),
                    _ => self.joining(count.material).of_fittings(),
                },
                ..Line::each(count.name(), count.state, places)
            };
            if count.state == State::Removed {
                let (kept, gone): (Vec<Place>, Vec<Place>) = places.into_iter().partition(|place| self.is_kept(*place));
                for (salvaged, places) in [(true, kept), (false, gone)] {
                    if !places.is_empty() {
                        let mut line = line(places);
                        line.group = Group::gone(salvaged);
                        if count.kind == FittingKind::TrapNipple {
                            DRIP_LEG.clone_into(&mut line.what);
                            line.add("with its cap");
                        }
                        lines.push(line);
                    }
                }
                continue;
            }
            if count.kind == FittingKind::TrapNipple {
                self.drip_legs(&count, lines);
                continue;
            }
            let mut line = line(places);
            if let (FittingKind::Tee, true) = (count.kind, count.wants_a_thread()) {
                line.size = self.tee_named(&count.sizes);
            }
            if count.kind == FittingKind::Adapter && !count.female {
                line.add("male thread");
            }
            if self.joining(count.material) == Joining::Flared
                && let Some(words) = asked_as_flared(count.kind)
            {
                line.add(words);
            }
            if count.kind == FittingKind::Adapter && count.sizes.len() == 1 && count.state == State::New {
                line.add("thread size not known: that of the part that it goes into");
                line.group = Group::Settle;
            }
            match count.kind {
                FittingKind::Bend => {
                    line.add(match count.material.bends() {
                        true => "bent in the tubing, nothing to buy",
                        false => "comes with the anodeless riser; of one without a bend: an elbow, fused (common practice, no source)",
                    });
                    if count.state == State::New {
                        line.group = Group::OnSite;
                    }
                }
                FittingKind::TubingFitting if count.state == State::New && count.sizes.len() > 1 => {
                    line.add("if its manufacturer lists it with this thread, otherwise with a bushing or reducer");
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

    /// A tee with ends that lead to tubing: run, run and branch, each by its thread or by the fitting that it takes.
    fn tee_named(&self, sizes: &[NominalSize]) -> String {
        let end = |size: &NominalSize| match size {
            NominalSize::Inch(_) => size.show(self.units),
            _ => format!("thread of the {} fitting", size.show(self.units)),
        };
        match sizes {
            [one, others @ ..] if others.iter().all(|other| other == one) => {
                format!("threads of the {} fittings", one.show(self.units))
            }
            [one, other, branch] => format!("{} × {}, branch {}", end(one), end(other), end(branch)),
            _ => sizes.iter().map(end).collect::<Vec<_>>().join(" × "),
        }
    }

    /// The nipple below the tee of a sediment trap, with its length, and its cap.
    fn drip_legs(&self, count: &FittingCount, lines: &mut Vec<Line>) {
        let depth = |joint: usize| match self.job.joints.at(joint).placed.as_ref().map(|placed| &placed.device) {
            Some(Device::SedimentTrap(trap)) => trap.depth,
            _ => None,
        };
        let mut all: BTreeMap<Option<Length>, Vec<Place>> = BTreeMap::new();
        for &joint in &count.joints {
            all.entry(depth(joint)).or_default().push(self.joint_place(joint));
        }
        let size = count.sizes_named(self.study.names);
        for (depth, places) in all {
            let long = depth.unwrap_or(Length::from_inches(LEAST_DRIP_LEG));
            let mut nipple = Line {
                size: format!("{size} × {}", long.show_short(self.units)),
                material: count.material.at_counter(),
                ..Line::each(DRIP_LEG, count.state, places)
            };
            if depth.is_none() {
                nipple.mark = Some(Mark::Memory);
                nipple.add(&format!(
                    "length not entered: at least {}, from memory{}",
                    Length::from_inches(LEAST_DRIP_LEG).show_short(self.units),
                    self.clause("trap-nipple")
                ));
            }
            lines.push(nipple);
        }
        let places = count.joints.iter().map(|&joint| self.joint_place(joint)).collect();
        lines.push(Line {
            size,
            material: self.joining(count.material).of_fittings(),
            remark: "of the drip leg".to_owned(),
            ..Line::each(FittingKind::Cap.name(), count.state, places)
        });
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

    /// Flare nuts: one on each end of copper tube that is flared now.
    pub(super) fn flare_nuts(&self, lines: &mut Vec<Line>) {
        let direct: HashSet<usize> = self.study.assemblies.iter().filter_map(|here| here.direct).collect();
        let mut all: BTreeMap<Option<NominalSize>, (usize, Vec<Place>)> = BTreeMap::new();
        let mut put = |size, count, place: &mut dyn Iterator<Item = Place>| {
            let entry = all.entry(size).or_default();
            entry.0 += count;
            entry.1.extend(place);
        };
        for (joint, port) in self.study.joints_to_make(self.job) {
            // A reducer, an adapter or a street elbow has a nut of its own.
            if let (PortKind::FlareEnd, Takes::Run(run)) = (port.kind, port.takes)
                && !direct.contains(&run)
            {
                put(port.size, 1, &mut std::iter::once(self.joint_place(joint)));
            }
        }
        for piece in self.cuts.pieces.iter().filter(|piece| piece.couplings() > 0) {
            if self.joining(piece.material) == Joining::Flared {
                let places = &mut piece.runs.iter().map(|&run| self.run_place(run));
                put(piece.size, 2 * piece.couplings(), places);
            }
        }
        for (size, (count, mut places)) in all {
            places.dedup();
            lines.push(Line {
                size: self.sized(Joining::Flared.material(), size),
                material: Joining::Flared.of_fittings(),
                ..Line::of("flare nut", State::New, Quantity::Count(count), places)
            });
        }
    }

    /// The size of a device: its own, or that of the pipe beside it, which is no tubing if there is other pipe; what stands
    /// has that of the pipe that it was put into.
    fn device_size(&self, joint: usize, placed: &Placed) -> Option<NominalSize> {
        let feed = self.study.network.feed[joint].into_iter();
        let was = |run: usize| match (placed.state, self.job.runs.at(run).state) {
            (State::Existing, State::New) => self.job.runs.at(run).replaced(),
            _ => self.size(run),
        };
        let all = || feed.clone().chain(self.study.network.legs(joint));
        let known = all().any(|run| was(run).is_some());
        let legs = || all().filter_map(|run| if known { was(run) } else { self.size(run) });
        let threaded = legs().find(|size| size.is_inch());
        placed.size.or(threaded).or(legs().next())
    }

    /// What stands on joints. Appliances and the point of delivery are no part of what the piping takes.
    pub(super) fn devices(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(State, bool, Asked, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for (at, joint) in self.job.joints.iter().enumerate() {
            let Some(placed) = &joint.placed else { continue };
            match (placed.device.nature().counted, placed.state) {
                (Counted::AmongFittings, _) | (Counted::OnlyRemoved, State::New | State::Existing) => continue,
                (Counted::Alone, _) | (Counted::OnlyRemoved, State::Removed) => {}
            }
            let asked = self.asked(at, &placed.device);
            let key = (placed.state, placed.is_salvaged(), asked, self.device_size(at, placed));
            all.entry(key).or_default().push(Place::Joint(joint.id));
        }
        for ((state, salvaged, asked, size), places) in all {
            let mut line = Line {
                group: match state {
                    State::Removed => Group::gone(salvaged),
                    state => Group::of(state),
                },
                size: self.named(size),
                remark: asked.remark,
                ..Line::each(asked.what, state, places)
            };
            if let Some(tube) = size.filter(|size| !size.is_inch()) {
                line.size = to_tubing(tube, self.units);
                if state == State::New {
                    line.group = Group::Settle;
                    line.add(THREAD);
                }
            }
            if let Some(length) = asked.length {
                line.size = format!("{} × {}", line.size, length.show(self.units));
            }
            lines.push(line);
        }
    }

    /// A device as it is asked for at a counter.
    fn asked(&self, joint: usize, device: &Device) -> Asked {
        let plain = |what: &str, remark: String| Asked {
            what: what.to_owned(),
            length: None,
            remark,
        };
        match device {
            Device::Valve(valve) => plain(valve.kind.name(), "shutoff valve".to_owned()),
            Device::Regulator(regulator) => {
                let set = regulator
                    .outlet
                    .map(|outlet| format!("set to {}", outlet.show(self.units)));
                let vent = (regulator.vent == Vent::Limiter).then(|| "with its listed vent limiter".to_owned());
                let words: Vec<String> = set.into_iter().chain(vent).collect();
                plain(device.name(), words.join(", "))
            }
            Device::Connector(connector) => Asked {
                what: if self.is_of_a_hose(joint) && self.is_outdoors(joint) {
                    "hose"
                } else {
                    "appliance connector"
                }
                .to_owned(),
                length: connector.length,
                remark: match connector.length {
                    Some(_) => String::new(),
                    None => "its length is not entered".to_owned(),
                },
            },
            other => plain(other.name(), String::new()),
        }
    }

    fn is_outdoors(&self, joint: usize) -> bool {
        let mut legs = self.study.network.legs(joint);
        legs.any(|run| self.job.runs.at(run).surroundings == Surroundings::Outdoors)
    }

    /// Whether a connector begins at a quick-disconnect coupling, as a hose does.
    fn is_of_a_hose(&self, joint: usize) -> bool {
        let network = &self.study.network;
        let hoses = network.legs(joint).filter(|&run| self.study.runs[run].is_hose);
        let mut ends = hoses
            .filter_map(|run| network.joints_of[run])
            .flat_map(|(from, to)| [from, to]);
        ends.any(|end| {
            let placed = self.job.joints.at(end).placed.as_ref();
            placed.is_some_and(|placed| matches!(placed.device, Device::QuickCoupling(_)))
        })
    }

    /// What a union is for where the line lies in a wall, floor or ceiling.
    fn closes_concealed(&self) -> String {
        format!(
            "would make the existing line up again beside the tee that is cut in (common practice, no source), but the line is concealed there, \
             where no union and no right-and-left coupling is allowed{}: cut it where it can be reached",
            self.clause("union-concealed")
        )
    }

    /// A union for each tee that is cut into standing pipe: threaded pipe cannot be turned into both ends of a tee. A tee
    /// that is fused or brazed on cannot be pushed over two fixed ends either.
    pub(super) fn unions(&self, lines: &mut Vec<Line>) {
        let mut all: BTreeMap<(bool, Option<NominalSize>), Vec<Place>> = BTreeMap::new();
        for cut_in in &self.cut_ins {
            let (what, remark) = match cut_in.joining {
                Joining::Threaded | Joining::Flared | Joining::Nut => {
                    let entry = all.entry((cut_in.concealed, cut_in.size)).or_default();
                    entry.push(self.joint_place(cut_in.joint));
                    continue;
                }
                Joining::Brazed => ("slip coupling", CLOSES_COPPER),
                Joining::Fused => ("electrofusion or listed mechanical coupling", CLOSES_PLASTIC),
            };
            let count = closing_couplings(cut_in.joining);
            lines.push(Line {
                size: self.sized(cut_in.material, cut_in.size),
                material: cut_in.joining.of_fittings(),
                remark: remark.to_owned(),
                ..Line::of(
                    what,
                    State::New,
                    Quantity::Count(count),
                    vec![self.joint_place(cut_in.joint)],
                )
            });
        }
        for ((concealed, size), places) in all {
            let (group, remark) = match concealed {
                false => (Group::Buy, CLOSES.to_owned()),
                true => (Group::Settle, self.closes_concealed()),
            };
            lines.push(Line {
                size: self.named(size),
                material: Joining::Threaded.of_fittings(),
                group,
                remark,
                ..Line::of(UNION, State::New, Quantity::Count(places.len()), places)
            });
        }
    }
}

/// How many couplings, or unions, close a standing line again beside a tee that is cut in: a slip coupling moves aside on
/// the tube, plastic pipe wants one at each end of a piece.
pub(super) const fn closing_couplings(joining: Joining) -> usize {
    match joining {
        Joining::Threaded | Joining::Flared | Joining::Nut | Joining::Brazed => 1,
        Joining::Fused => 2,
    }
}

/// By what name a counter keeps a flare fitting that is called otherwise; common practice, no source.
const fn asked_as_flared(kind: FittingKind) -> Option<&'static str> {
    match kind {
        FittingKind::Cap => Some("a flare plug, for the nut on the tube"),
        FittingKind::Plug => Some("a flare cap, with a nut of its own"),
        FittingKind::StreetElbow90 => Some("with a swivel nut as its male end"),
        FittingKind::ReducingCoupling => Some("where it is on a fitting, with a swivel nut of its own"),
        _ => None,
    }
}

/// What is asked for at a counter beside a size.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Asked {
    what: String,
    length: Option<Length>,
    remark: String,
}

/// The least length of a drip leg, inches; NFPA 54, from memory.
const LEAST_DRIP_LEG: f64 = 3.0;

/// What a coupling in standing copper is for.
const CLOSES_COPPER: &str =
    "makes the existing line up again beside the tee that is cut in; common practice, no source";
/// What couplings in standing plastic pipe are for.
const CLOSES_PLASTIC: &str = "make the existing line up again beside the tee that is cut in, with short pieces of pipe as measured; common practice, no source";
/// What a union in standing pipe is for.
const CLOSES: &str = "makes the existing line up again beside the tee that is cut in, with nipples as measured; common practice, no source";
