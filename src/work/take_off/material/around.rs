//! What goes with pipe: through walls, past framing, to ground, against rust.

use super::Gather;
use crate::codebook::{Codebook, Mark};
use crate::job::{Barrier, Device, Joining, Material, Penetration, Run, Seal, State, Surroundings};
use crate::study::{Place, tracer_clause, tracer_gauge, wants_bond, wants_vent_line};
use crate::units::{Length, NominalSize, Show};
use crate::work::{Group, Line, Quantity};
use std::collections::BTreeMap;

/// By how many sizes of pipe a sleeve is larger than what goes through it (topic `sleeve-bore`).
const SLEEVE_OVER: usize = 2;

/// The sleeve for a size: so many sizes of steel pipe larger.
pub(in crate::work) fn sleeve(book: &Codebook, material: Material, size: NominalSize) -> Option<NominalSize> {
    if material.is_corrugated() {
        return None;
    }
    let sizes = book.sizes(Joining::Threaded.material());
    let at = sizes.iter().position(|pipe| pipe.size >= size)?;
    sizes.get(at + SLEEVE_OVER).map(|pipe| pipe.size)
}

impl Gather<'_> {
    pub(super) fn passages(&self, lines: &mut Vec<Line>) {
        let mut sleeves: BTreeMap<(Option<NominalSize>, Option<Length>, Material), Vec<Place>> = BTreeMap::new();
        let mut gaps: BTreeMap<String, (usize, Vec<Place>)> = BTreeMap::new();
        for (at, run) in self.new_runs() {
            for passage in &run.penetrations {
                if passage.sleeved {
                    let key = (self.size(at), passage.thickness, self.job.material(run));
                    sleeves.entry(key).or_default().push(Place::Run(run.id));
                }
                let count = gaps_of(passage);
                if count > 0 {
                    let entry = gaps
                        .entry(self.sized(self.job.material(run), self.size(at)))
                        .or_default();
                    entry.0 += count;
                    entry.1.push(Place::Run(run.id));
                }
            }
        }
        for ((size, thickness, material), places) in sleeves {
            let bore = size.and_then(|size| sleeve(self.book, material, size));
            let long = thickness.map(|thick| thick.show_short(self.units));
            let mut line = Line {
                size: match (bore, &long) {
                    (Some(bore), Some(long)) => format!("{} × {long}", bore.show(self.units)),
                    (Some(bore), None) => bore.show(self.units),
                    (None, Some(long)) => format!("for {} × {long}", self.sized(material, size)),
                    (None, None) => format!("for {}", self.sized(material, size)),
                },
                mark: bore.map(|_| Mark::Derived),
                ..Line::each("pipe sleeve", State::New, places)
            };
            match bore {
                Some(_) => line.add(&format!(
                    "for {}: two pipe sizes larger (a plumbing rule{}, common practice for gas)",
                    self.sized(material, size),
                    self.clause("sleeve-bore")
                )),
                None => {
                    line.group = Group::Settle;
                    line.add("its bore is not known: go by the outside diameter of the tubing");
                }
            }
            match long {
                Some(_) => line.add("as long as the wall is thick"),
                None => {
                    line.group = Group::Settle;
                    line.add("wall thickness not entered: measure it");
                }
            }
            lines.push(line);
        }
        for (size, (count, places)) in gaps {
            lines.push(Line {
                size: format!("for {size}"),
                group: Group::OnSite,
                ..Line::of("gap to be sealed", State::New, Quantity::Count(count), places.clone())
            });
        }
    }

    /// Plates where a nail may reach tubing.
    pub(super) fn plates(&self, lines: &mut Vec<Line>) {
        let soft = |run: &Run| run.surroundings == Surroundings::Concealed && !self.job.material(run).is_rigid();
        let places: Vec<Place> = self
            .new_runs()
            .filter(|(_, run)| soft(run))
            .map(|(at, _)| self.run_place(at))
            .collect();
        if !places.is_empty() {
            lines.push(Line {
                remark: format!(
                    "where a hole or notch is under {} from the edge of framing{}; for tubing, the manufacturer's own",
                    Length::from_inches(1.5).show_short(self.units),
                    self.clause("shield-plates")
                ),
                ..Line::of("strike plate", State::New, Quantity::AsNeeded, places)
            });
        }
    }

    /// Clamp and wire for new corrugated tubing.
    pub(super) fn bonding(&self, lines: &mut Vec<Line>) {
        let tubing = |run: &Run| self.job.material(run).is_corrugated();
        let places: Vec<Place> = self
            .new_runs()
            .filter(|(_, run)| tubing(run) && wants_bond(self.profile(), run))
            .map(|(at, _)| self.run_place(at))
            .collect();
        if places.is_empty() {
            return;
        }
        let mut old = self.job.runs.iter();
        let stands = old.any(|run| run.state == State::Existing && tubing(run) && run.bonded);
        let bond = format!(
            "CSST is bonded with 6 AWG copper{}; the clamp goes on pipe ahead of the tubing",
            self.clause("csst-unbonded")
        );
        let remark = match stands {
            true => {
                format!("{bond}; existing tubing is marked as bonded: find that bond, and buy none if it serves")
            }
            false => bond,
        };
        let group = if stands { Group::Settle } else { Group::Buy };
        let parts = [
            ("bonding clamp", Quantity::Count(1)),
            ("bonding wire, copper, 6 AWG", Quantity::AsNeeded),
        ];
        for (what, quantity) in parts {
            lines.push(Line {
                group,
                remark: remark.clone(),
                ..Line::of(what, State::New, quantity, places.clone())
            });
        }
    }

    /// What leads the vents of line regulators indoors to the outdoors; it is not drawn.
    pub(super) fn vent_lines(&self, lines: &mut Vec<Line>) {
        let joints = 0..self.job.joints.len();
        let places: Vec<Place> = joints
            .filter(|&joint| wants_vent_line(self.job, self.study, joint))
            .map(|joint| self.joint_place(joint))
            .collect();
        if !places.is_empty() {
            lines.push(Line {
                group: Group::Settle,
                remark: "not drawn: size, length and termination as the regulator's manufacturer and the code require"
                    .to_owned(),
                ..Line::of("vent line to the outdoors", State::New, Quantity::AsNeeded, places)
            });
        }
    }

    /// Outside surface of steel outdoors, as for paint.
    pub(super) fn against_rust(&self, lines: &mut Vec<Line>) {
        let (mut area, mut places, mut mark) = (0.0, Vec::new(), None);
        let outdoors = |run: &Run| run.surroundings == Surroundings::Outdoors;
        for (at, run) in self.new_runs().filter(|(_, run)| outdoors(run)) {
            let material = self.job.material(run);
            let pipe = self.size(at).and_then(|size| self.book.pipe(material, size));
            let Some(outside) = pipe.and_then(|pipe| pipe.outside).filter(|_| material.rusts()) else {
                continue;
            };
            let length = self.study.runs[at].length.max(Length::ZERO);
            area += std::f64::consts::PI * outside.value.feet() * length.feet();
            places.push(Place::Run(run.id));
            mark = mark.max(Some(outside.mark));
        }
        if !places.is_empty() {
            lines.push(Line {
                mark,
                remark: "one coat; fittings not measured".to_owned(),
                ..Line::of(
                    "paint or coating, steel pipe outdoors",
                    State::New,
                    Quantity::SquareFeet(area),
                    places,
                )
            });
        }
    }

    /// What keeps steel in the ground from rusting; a riser that is steel outside comes coated.
    pub(super) fn in_the_ground(&self, lines: &mut Vec<Line>) {
        let lies = |run: &Run| {
            let mut passages = run.penetrations.iter();
            run.surroundings == Surroundings::Underground || passages.any(|passage| passage.barrier == Barrier::Ground)
        };
        let steel = self
            .new_runs()
            .filter(|(_, run)| lies(run) && self.job.material(run).rusts());
        let places: Vec<Place> = steel.map(|(at, _)| self.run_place(at)).collect();
        if !places.is_empty() {
            lines.push(Line {
                group: Group::Settle,
                remark: format!(
                    "buy pipe for the ground factory-coated, and wrap its joints and fittings{}; paint is not enough",
                    self.clause("buried-steel-bare")
                ),
                ..Line::of(
                    "pipe wrap and primer, buried steel",
                    State::New,
                    Quantity::AsNeeded,
                    places,
                )
            });
        }
    }

    /// Tees in which a gauge reads the pressure on each side of a new line regulator.
    pub(super) fn gauge_tees(&self, lines: &mut Vec<Line>) {
        let joints = self.job.joints.iter();
        let new = joints.filter(|joint| {
            let placed = joint.placed.as_ref();
            placed.is_some_and(|placed| placed.state == State::New && matches!(placed.device, Device::Regulator(_)))
        });
        let places: Vec<Place> = new.map(|joint| Place::Joint(joint.id)).collect();
        if places.is_empty() {
            return;
        }
        if let Some(clause) = self.book.gauge_tees(self.profile().family) {
            lines.push(Line {
                group: Group::Settle,
                mark: clause.mark,
                remark: format!("not drawn; {} ({})", clause.says, clause.number()),
                ..Line::of(
                    "plugged gauge tee",
                    State::New,
                    Quantity::Count(2 * places.len()),
                    places,
                )
            });
        }
    }

    /// The clause of the code in force, in brackets behind a remark.
    pub(super) fn clause(&self, topic: &str) -> String {
        let clause = self.book.clause_number(topic, self.profile().family);
        clause.map_or_else(String::new, |clause| format!(" ({clause})"))
    }

    pub(super) fn tracer(&self, lines: &mut Vec<Line>) {
        let runs = || {
            self.new_runs()
                .filter(|(_, run)| run.tracer && run.surroundings == Surroundings::Underground)
        };
        let length: Length = runs().map(|(at, _)| self.study.runs[at].length).sum();
        let places: Vec<Place> = runs().map(|(_, run)| Place::Run(run.id)).collect();
        if !places.is_empty() {
            lines.push(Line {
                remark: format!(
                    "{} AWG or larger{}; as long as the pipe: add for the ends above ground",
                    tracer_gauge(self.profile()),
                    tracer_clause(self.book, self.profile()).map_or_else(String::new, |clause| format!(" ({clause})"))
                ),
                ..Line::of("tracer wire", State::New, Quantity::Length(length), places)
            });
        }
    }
}

/// How many gaps around the pipe are to be sealed.
const fn gaps_of(passage: &Penetration) -> usize {
    match passage.seal {
        Seal::Open => 0,
        Seal::Outside => 1,
        Seal::BothFaces => 2,
    }
}
