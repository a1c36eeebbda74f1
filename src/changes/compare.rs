//! What one reading of two jobs tells.

use super::facts::{self, Fact, different, one_line};
use super::reading::{Pairs, Reading};
use super::{Change, ChangedPart, Spot, Turn};
use crate::codebook::SizeNames;
use crate::job::{Device, Direction, Job, Joint, JointId, LatticePoint, Note, Penetration, Placed, Run};
use crate::units::{Length, Show, UnitSystem};
use std::mem::discriminant;

/// All changes, in the order in which they are told.
/// Sizes go by `names`.
pub fn told(issued: &Job, job: &Job, reading: &Reading, names: SizeNames) -> Vec<Change> {
    let both = Both {
        issued,
        job,
        reading,
        names,
    };
    let mut list = Vec::new();
    both.whole(&mut list);
    both.runs(&mut list);
    both.joints(&mut list);
    both.devices(&mut list);
    both.passages(&mut list);
    both.notes(&mut list);
    list
}

/// What a joint is called: by its name, by the appliance on it, or by its id.
pub fn joint_name(job: &Job, id: JointId) -> String {
    let Some(joint) = job.joints.get(id) else {
        return id.to_string();
    };
    let label = joint.label.as_deref().map(one_line).filter(|label| !label.is_empty());
    let appliance = joint.placed.as_ref().and_then(|placed| match &placed.device {
        Device::Appliance(appliance) => Some(one_line(&appliance.name)).filter(|name| !name.is_empty()),
        _ => None,
    });
    label.or(appliance).unwrap_or_else(|| id.to_string())
}

/// What a run is called: by its ends.
pub fn run_name(job: &Job, run: &Run) -> String {
    format!("{}–{}", joint_name(job, run.from), joint_name(job, run.to))
}

/// Where a run lies.
pub fn run_spot(job: &Job, run: &Run, shift: Direction) -> Option<Spot> {
    let at = |id| Some(job.joints.get(id)?.at + shift);
    Some(Spot::Run(at(run.from)?, at(run.to)?))
}

struct Both<'a> {
    issued: &'a Job,
    job: &'a Job,
    reading: &'a Reading,
    names: SizeNames,
}

/// Positions of the issued store that nothing of the job is.
fn gone(found: &[Option<usize>], was: usize) -> impl Iterator<Item = usize> {
    let mut stays = vec![false; was];
    for at in found.iter().flatten() {
        stays[*at] = true;
    }
    (0..was).filter(move |at| !stays[*at])
}

impl<'a> Both<'a> {
    fn units(&self) -> UnitSystem {
        self.names.units()
    }

    /// Joints of the job with what they were.
    fn joint_pairs(&self) -> impl Iterator<Item = (&'a Joint, Option<&'a Joint>)> {
        let (job, issued, found) = (self.job, self.issued, &self.reading.joints);
        (job.joints.iter().zip(found)).map(|(now, was)| (now, was.map(|at| issued.joints.at(at))))
    }

    fn run_pairs(&self) -> impl Iterator<Item = (&'a Run, Option<&'a Run>)> {
        let (job, issued, found) = (self.job, self.issued, &self.reading.runs);
        (job.runs.iter().zip(found)).map(|(now, was)| (now, was.map(|at| issued.runs.at(at))))
    }

    fn joints_gone(&self) -> impl Iterator<Item = &'a Joint> {
        let issued = self.issued;
        gone(&self.reading.joints, issued.joints.len()).map(|at| issued.joints.at(at))
    }

    fn runs_gone(&self) -> impl Iterator<Item = &'a Run> {
        let issued = self.issued;
        gone(&self.reading.runs, issued.runs.len()).map(|at| issued.runs.at(at))
    }

    /// Where a joint of the issued job stands, had it moved with the whole drawing.
    fn stood(&self, joint: &Joint) -> LatticePoint {
        joint.at + self.reading.shift
    }

    /// What a joint that was taken away, or an end of it, was in the issued job.
    fn was(&self, id: JointId) -> Option<&'a Joint> {
        let at = self.job.joints.position(id)?;
        self.reading.joints[at].map(|at| self.issued.joints.at(at))
    }

    fn whole(&self, list: &mut Vec<Change>) {
        let units = self.units();
        let mut tell = |part: ChangedPart, name: &str, was: Vec<Fact>, now: Vec<Fact>| {
            list.extend(different(&was, &now).into_iter().map(|words| Change {
                turn: Turn::Changed,
                part,
                name: name.to_owned(),
                words: vec![words],
                spots: Vec::new(),
            }));
        };
        let title = |job: &Job| facts::title(&job.title);
        tell(ChangedPart::Title, "Title block", title(self.issued), title(self.job));
        let settings = |job: &Job| facts::settings(&job.settings, &job.gas, units);
        tell(ChangedPart::Settings, "Job", settings(self.issued), settings(self.job));
        if !self.reading.shift.is_zero() {
            list.push(Change {
                turn: Turn::Changed,
                part: ChangedPart::Settings,
                name: "Job".to_owned(),
                words: vec![format!("the whole drawing moved {}", way(self.reading.shift))],
                spots: Vec::new(),
            });
        }
    }

    fn runs(&self, list: &mut Vec<Change>) {
        for (now, was) in self.run_pairs() {
            let spot = || run_spot(self.job, now, Direction::default());
            let (turn, words) = match was {
                None => (Turn::Added, vec![pipe(self.job, now, self.names)]),
                Some(was) => (Turn::Changed, self.run(was, now)),
            };
            if !words.is_empty() {
                list.push(Change {
                    turn,
                    part: ChangedPart::Run(now.id),
                    name: run_name(self.job, now),
                    words,
                    spots: spot().into_iter().collect(),
                });
            }
        }
        for was in self.runs_gone() {
            list.push(Change {
                turn: Turn::TakenAway,
                part: ChangedPart::Run(was.id),
                name: run_name(self.issued, was),
                words: vec![pipe(self.issued, was, self.names)],
                spots: run_spot(self.issued, was, self.reading.shift).into_iter().collect(),
            });
        }
    }

    fn run(&self, was: &Run, now: &Run) -> Vec<String> {
        let units = self.units();
        let mut words = Vec::new();
        let ends = [now.from, now.to].map(|id| self.was(id).map(|joint| joint.id));
        let before = [Some(was.from), Some(was.to)];
        if ends != before && ends != [before[1], before[0]] {
            words.push(format!("now connects differently; was {}", run_name(self.issued, was)));
        }
        let [length, now_length] = facts::lengths((self.issued, was), (self.job, now), units);
        words.extend(different(&[length], &[now_length]));
        let facts = |job: &Job, run: &Run| facts::run(run, job.settings.material, self.names);
        words.extend(different(&facts(self.issued, was), &facts(self.job, now)));
        words
    }

    /// Whether the ends of a run are counted the other way round than they were.
    fn is_turned(&self, was: &Run, now: &Run) -> bool {
        let end = |id| self.was(id).map(|joint| joint.id);
        was.to != was.from && (end(now.from) == Some(was.to) || end(now.to) == Some(was.from))
    }

    fn joints(&self, list: &mut Vec<Change>) {
        let mut told_by_pipe = vec![false; self.job.joints.len()];
        for (run, _) in self.run_pairs().filter(|(_, was)| was.is_none()) {
            for at in [run.from, run.to].iter().filter_map(|id| self.job.joints.position(*id)) {
                told_by_pipe[at] = true;
            }
        }
        for (at, (now, was)) in self.joint_pairs().enumerate() {
            let (turn, words) = match was {
                None if is_told(now, told_by_pipe[at]) => (Turn::Added, vec![place(now)]),
                None => continue,
                Some(was) => {
                    let mut words = Vec::new();
                    let moved = now.at - self.stood(was);
                    if !moved.is_zero() {
                        words.push(format!("moved {}", way(moved)));
                    }
                    words.extend(different(
                        &facts::joint(was, self.units()),
                        &facts::joint(now, self.units()),
                    ));
                    (Turn::Changed, words)
                }
            };
            if !words.is_empty() {
                list.push(Change {
                    turn,
                    part: ChangedPart::Joint(now.id),
                    name: joint_name(self.job, now.id),
                    words,
                    spots: vec![Spot::At(now.at)],
                });
            }
        }
        let mut told_by_pipe = vec![false; self.issued.joints.len()];
        for run in self.runs_gone() {
            for at in [run.from, run.to]
                .iter()
                .filter_map(|id| self.issued.joints.position(*id))
            {
                told_by_pipe[at] = true;
            }
        }
        for was in self.joints_gone() {
            let at = self.issued.joints.position(was.id);
            if is_told(was, at.is_some_and(|at| told_by_pipe[at])) {
                list.push(Change {
                    turn: Turn::TakenAway,
                    part: ChangedPart::Joint(was.id),
                    name: joint_name(self.issued, was.id),
                    words: vec![place(was)],
                    spots: vec![Spot::At(self.stood(was))],
                });
            }
        }
    }

    fn devices(&self, list: &mut Vec<Change>) {
        let units = self.units();
        let mut push = |turn: Turn, job: &Job, joint: &Joint, placed: &Placed, at: LatticePoint, words: Vec<String>| {
            if !words.is_empty() {
                list.push(Change {
                    turn,
                    part: ChangedPart::Device(joint.id),
                    name: device_name(job, joint, placed),
                    words,
                    spots: vec![Spot::At(at)],
                });
            }
        };
        for (now, was) in self.joint_pairs() {
            let before = was.and_then(|was| was.placed.as_ref());
            match (before, &now.placed) {
                (None, None) => {}
                (None, Some(placed)) => push(Turn::Added, self.job, now, placed, now.at, vec![thing(placed, units)]),
                (Some(before), None) => {
                    if let Some(was) = was {
                        push(
                            Turn::TakenAway,
                            self.issued,
                            was,
                            before,
                            self.stood(was),
                            vec![thing(before, units)],
                        );
                    }
                }
                (Some(before), Some(placed)) => {
                    let words = if discriminant(&before.device) != discriminant(&placed.device) {
                        vec![format!("{}, was {}", thing(placed, units), thing(before, units))]
                    } else if before == placed {
                        continue;
                    } else {
                        different(&facts::device(before, units), &facts::device(placed, units))
                    };
                    push(Turn::Changed, self.job, now, placed, now.at, words);
                }
            }
        }
        for was in self.joints_gone() {
            if let Some(placed) = &was.placed {
                push(
                    Turn::TakenAway,
                    self.issued,
                    was,
                    placed,
                    self.stood(was),
                    vec![thing(placed, units)],
                );
            }
        }
    }

    /// Passages of runs that stay; those of runs that come or go are told with them.
    fn passages(&self, list: &mut Vec<Change>) {
        let units = self.units();
        for (now, was) in self.run_pairs() {
            let Some(was) = was else { continue };
            if now.penetrations.is_empty() && was.penetrations.is_empty() {
                continue;
            }
            let is_turned = self.is_turned(was, now);
            let whole = self.issued.true_length(was);
            let stood = |passage: &Penetration| match (passage.at, is_turned) {
                (Some(at), true) => Some(whole - at),
                (at, _) => at,
            };
            let facts_was: Vec<Vec<Fact>> = (was.penetrations.iter())
                .map(|passage| facts::passage(passage, stood(passage), units))
                .collect();
            let facts_now: Vec<Vec<Fact>> = (now.penetrations.iter())
                .map(|passage| facts::passage(passage, passage.at, units))
                .collect();
            let mut pairs = Pairs::new(facts_now.len(), facts_was.len());
            let key = |facts: &Vec<Fact>| facts.iter().map(Fact::key).collect::<Vec<_>>().join("\n");
            pairs.by(facts_now.iter().map(key), facts_was.iter().map(key));
            let barriers = |run: &'a Run| run.penetrations.iter().map(|passage| passage.barrier);
            pairs.by(barriers(now), barriers(was));
            let name = |job: &Job, run: &Run, passage: &Penetration| {
                format!("{} on {}", passage.barrier.name(), run_name(job, run))
            };
            for (at, passage) in now.penetrations.iter().enumerate() {
                let (turn, words) = match pairs.found[at] {
                    None => (Turn::Added, vec![passage.barrier.name().to_owned()]),
                    Some(old) => (Turn::Changed, different(&facts_was[old], &facts_now[at])),
                };
                if !words.is_empty() {
                    let place = passage.at;
                    list.push(Change {
                        turn,
                        part: ChangedPart::Passage(now.id, at),
                        name: name(self.job, now, passage),
                        words,
                        spots: on(self.job, now, place, Direction::default()).into_iter().collect(),
                    });
                }
            }
            for at in gone(&pairs.found, was.penetrations.len()) {
                let passage = &was.penetrations[at];
                let spot = on(self.issued, was, passage.at, self.reading.shift);
                list.push(Change {
                    turn: Turn::TakenAway,
                    part: ChangedPart::Passage(was.id, at),
                    name: name(self.issued, was, passage),
                    words: vec![passage.barrier.name().to_owned()],
                    spots: spot.into_iter().collect(),
                });
            }
        }
    }

    fn notes(&self, list: &mut Vec<Change>) {
        let (now, was) = (&self.job.notes, &self.issued.notes);
        let mut pairs = Pairs::new(now.len(), was.len());
        let place = |note: &Note| self.was(note.at).map(|joint| joint.id);
        let text = |note: &Note| note.text.trim().to_owned();
        let old = |note: &Note| self.issued.joints.get(note.at).map(|joint| joint.id);
        pairs.by(
            now.iter().map(|note| (place(note), text(note))),
            was.iter().map(|note| (old(note), text(note))),
        );
        pairs.by(now.iter().map(place), was.iter().map(old));
        pairs.by(now.iter().map(text), was.iter().map(text));
        let quoted = |note: &Note| format!("“{}”", one_line(&note.text));
        for (at, note) in now.iter().enumerate() {
            let (turn, words) = match pairs.found[at].map(|old| &was[old]) {
                None => (Turn::Added, vec![quoted(note)]),
                Some(before) => {
                    let mut words = Vec::new();
                    if text(before) != text(note) {
                        words.push(format!("{}, was {}", quoted(note), quoted(before)));
                    }
                    if old(before) != place(note) {
                        words.push(format!(
                            "now points to this place; it pointed to {}",
                            joint_name(self.issued, before.at)
                        ));
                    }
                    (Turn::Changed, words)
                }
            };
            if !words.is_empty() {
                let joint = self.job.joints.get(note.at);
                list.push(Change {
                    turn,
                    part: ChangedPart::Note(at),
                    name: format!("note at {}", joint_name(self.job, note.at)),
                    words,
                    spots: joint.into_iter().map(|joint| Spot::At(joint.at)).collect(),
                });
            }
        }
        for at in gone(&pairs.found, was.len()) {
            let note = &was[at];
            let joint = self.issued.joints.get(note.at);
            list.push(Change {
                turn: Turn::TakenAway,
                part: ChangedPart::Note(at),
                name: format!("note at {}", joint_name(self.issued, note.at)),
                words: vec![quoted(note)],
                spots: joint.into_iter().map(|joint| Spot::At(self.stood(joint))).collect(),
            });
        }
    }
}

/// Whether a joint that came or went is told by itself: where neither pipe nor what stands on it tells it.
fn is_told(joint: &Joint, by_pipe: bool) -> bool {
    let is_named = joint.label.as_ref().is_some_and(|label| !label.trim().is_empty());
    is_named || !(by_pipe || joint.placed.is_some())
}

fn place(joint: &Joint) -> String {
    match joint.label.as_deref().map(one_line).filter(|label| !label.is_empty()) {
        Some(label) => format!("joint “{label}”"),
        None => "joint".to_owned(),
    }
}

/// "new pipe 3/4\", steel, 12'-6\"".
fn pipe(job: &Job, run: &Run, names: SizeNames) -> String {
    let units = names.units();
    let mut words = format!("{} pipe", run.state.planned());
    if let Some(size) = run.size {
        words += &format!(" {}", names.show(job.material(run), size));
    }
    words += &format!(", {}, {}", job.material(run).short(), job.true_length(run).show(units));
    for passage in &run.penetrations {
        words += &format!(", through {}", passage.barrier.name());
    }
    words
}

/// "new shutoff valve", "existing appliance “Range”, 65,000 Btu/h".
fn thing(placed: &Placed, units: UnitSystem) -> String {
    let words = format!("{} {}", placed.state.planned(), placed.device.name());
    match &placed.device {
        Device::Appliance(appliance) => {
            let name = one_line(&appliance.name);
            let name = if name.is_empty() {
                name
            } else {
                format!(" “{name}”")
            };
            let input = appliance
                .input
                .map_or("input not entered".to_owned(), |input| input.show(units));
            format!("{words}{name}, {input}")
        }
        Device::Regulator(regulator) => match regulator.outlet {
            Some(outlet) => format!("{words} to {}", outlet.show(units)),
            None => format!("{words}, setting not entered"),
        },
        _ => words,
    }
}

fn device_name(job: &Job, joint: &Joint, placed: &Placed) -> String {
    let name = joint_name(job, joint.id);
    match &placed.device {
        Device::Appliance(appliance) if !appliance.name.trim().is_empty() => one_line(&appliance.name),
        device => format!("{} {name}", device.name()),
    }
}

/// "2 east, 1 down": in steps of the lattice.
fn way(way: Direction) -> String {
    let parts = [
        (way.east, "east", "west"),
        (way.north, "north", "south"),
        (way.up, "up", "down"),
    ];
    let said = parts
        .into_iter()
        .filter(|(steps, ..)| *steps != 0)
        .map(|(steps, plus, minus)| {
            let side = if steps > 0 { plus } else { minus };
            format!("{} {side}", steps.unsigned_abs())
        });
    format!("{} (steps as drawn)", said.collect::<Vec<_>>().join(", "))
}

/// The place of a passage on its run.
fn on(job: &Job, run: &Run, at: Option<Length>, shift: Direction) -> Option<Spot> {
    let Some(Spot::Run(from, to)) = run_spot(job, run, shift) else {
        return None;
    };
    let whole = job.true_length(run).inches();
    let share = at.map_or(0.5, |at| if whole > 0.0 { at.inches() / whole } else { 0.5 });
    Some(Spot::On(from, to, share.clamp(0.0, 1.0)))
}
