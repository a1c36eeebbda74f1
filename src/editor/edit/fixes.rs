//! Whole ways to make a system carry its load: each goes on with whatever else it needs until nothing is over its limit,
//! or says what it cannot fix.
//!
//! One search: a way begins with one [`Remedy`]; then, round by round, whatever is still over its limit gets larger pipe or
//! a larger device, and where that is not enough the new branch another start; then the whole study of the job so changed
//! says what must still be fixed. Ways that come to the same job are told once. Sizes by pressure or by physics are studies:
//! they are never gone on with, nor ranked, nor laid on a job that is for a permit.

use super::remedy::{Change, NoRemedy, Remedy, cheapest_larger_pipe, shutoff_valves};
use crate::advice::{Outcome, Variant};
use crate::codebook::Codebook;
use crate::editor::Step;
use crate::editor::draft::Draft;
use crate::job::{Device, Job, JointId, Material, Run, RunId, State};
use crate::rules::{Checked, Finding, Findings, Severity};
use crate::study::{Place, Study, how_many, wants_bond};
use crate::units::{Length, Show, UnitSystem};
use crate::work::{Cost, Price};
use std::collections::BTreeSet;

/// So often a way is gone on with: each round ends with nothing over its limit that its repairs can help, and a further one is
/// only for what a repair brings with it.
const ROUNDS: usize = 8;

/// The rules that tell of too much load or too little pressure.
const OVER: [&str; 11] = [
    "undersized-existing",
    "undersized-fixed",
    "no-size-carries",
    "past-table",
    "no-published-figure",
    "meter-capacity",
    "regulator-capacity",
    "device-capacity",
    "regulator-setting",
    "regulator-starved",
    "inlet-below-least",
];

/// The rule that asks for a shutoff valve at each appliance that is newly piped.
const SHUTOFF: &str = "shutoff-missing";

/// All ways for a job.
#[derive(Clone, Debug)]
pub struct Fixes {
    /// What the job comes to as drawn.
    pub drawn: Outcome,
    /// The ways, least to buy and do first.
    pub ranked: Vec<Fix>,
    /// Sizes by pressure and by physics, which are not for a permit.
    pub studies: Vec<Fix>,
    /// What is not offered, with the reason.
    pub not_offered: Vec<(Remedy, String)>,
    units: UnitSystem,
}

/// A way.
#[derive(Clone, Debug)]
pub struct Fix {
    /// How it begins.
    pub start: Remedy,
    /// What lays all of it.
    pub step: Step,
    /// What is bought and done, in sentences.
    pub does: Vec<String>,
    /// What must still be fixed when it is laid.
    pub left: Vec<Left>,
    /// What the job comes to with it.
    pub outcome: Outcome,
    /// How many things the gas supplier is asked for.
    supplier: usize,
    /// The delivery pressure that is asked for, where another one is.
    pressure: Option<String>,
}

/// What a way leaves to be fixed.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// The finding.
    pub finding: Finding,
    /// Whether the way should have fixed it, or brings it about; else it is no matter of load or pressure, and stands in the
    /// job as drawn too.
    pub is_its_own: bool,
}

impl Fix {
    /// Whether nothing must be fixed when it is laid.
    pub fn is_whole(&self) -> bool {
        self.left.is_empty()
    }

    /// Whether nothing is over its limit when it is laid, and it brings nothing else to be fixed.
    pub fn carries(&self) -> bool {
        !self.outcome.is_over() && !self.left.iter().any(|left| left.is_its_own)
    }

    /// What it comes to in a sentence.
    pub fn verdict(&self) -> String {
        let told = |own: bool| -> Vec<String> {
            let left = self.left.iter().filter(|left| left.is_its_own == own);
            left.map(|left| left.finding.what.clone()).collect()
        };
        match (self.is_whole(), self.carries()) {
            (_, _) if !self.start.is_for_permit() => {
                let count = self.left.len();
                format!(
                    "A study only, not for permit: {} with it.",
                    how_many(count, "must-fix finding")
                )
            }
            (true, _) => "Nothing is left to fix.".to_owned(),
            (false, true) => {
                let within = match self.outcome.unjudged {
                    0 => "Sizes, pressures and ratings are within their limits".to_owned(),
                    many => format!(
                        "What could be judged is within its limits; {} could not",
                        how_many(many, "section")
                    ),
                };
                format!("{within}. Still to fix, as before this fix: {}", told(false).join(" "))
            }
            (false, false) => format!("It does not fix: {}", told(true).join(" ")),
        }
    }

    /// The way as a column beside others.
    pub fn variant(&self) -> Variant {
        let first = |left: &Left| format!("{} ({})", left.finding.rule, left.finding.place);
        Variant {
            name: self.start.name().to_owned(),
            for_permit: self.start.is_for_permit(),
            outcome: self.outcome.clone(),
            does: self.does.clone(),
            left: self.left.iter().map(first).collect(),
            said: format!("{} {}", self.verdict(), self.start.caution()),
        }
    }

    /// New pipe and the old pipe that goes.
    fn handled(&self) -> Length {
        self.outcome.pipe.iter().map(|pipe| pipe.length).sum::<Length>() + self.outcome.goes
    }

    /// What ranks it: whether it leaves something of its own, how much it leaves, whether it raises the delivery pressure (the
    /// supplier's work, a regulator at every appliance and the test of all old pipe are no feet of pipe), then what is bought and
    /// done: feet of pipe laid and taken out, devices with those that the supplier changes, fittings. That order is the tool's own
    /// choice.
    fn rank(&self) -> (bool, usize, bool, Length, usize, usize) {
        (
            !self.carries(),
            self.left.len(),
            self.pressure.is_some(),
            self.handled(),
            self.outcome.devices + self.supplier,
            self.outcome.fittings,
        )
    }

    /// "A line of its own: 46'-6" of new pipe, 15'-0" of old pipe out, 6 fittings, 3 devices, 2 changes by the gas supplier".
    fn bought(&self, units: UnitSystem) -> String {
        let pipe: Length = self.outcome.pipe.iter().map(|pipe| pipe.length).sum();
        let old = match self.outcome.goes {
            Length::ZERO => "no existing pipe removed".to_owned(),
            goes => format!("{} of existing pipe removed", goes.show(units)),
        };
        let mut all = vec![
            format!("{} of new pipe", pipe.show(units)),
            old,
            how_many(self.outcome.fittings, "fitting"),
            how_many(self.outcome.devices, "device"),
        ];
        if self.supplier > 0 {
            all.push(how_many(self.supplier, "change by the gas supplier"));
        }
        format!("{} ({})", self.start.name(), all.join(", "))
    }
}

impl Fixes {
    /// Finds them.
    pub fn of(job: &Job, book: &Codebook, checked: &Checked) -> Fixes {
        let study = &checked.study;
        let search = Search::new(job, book, &checked.findings);
        let drawn = Outcome::beside(job, book, checked);
        let mut fixes = Fixes {
            ranked: Vec::new(),
            studies: Vec::new(),
            not_offered: Vec::new(),
            units: study.names.units(),
            drawn,
        };
        let mut seen: Vec<(Job, Remedy)> = Vec::new();
        for remedy in Remedy::ALL {
            if remedy.is_for_permit() && !is_over(&fixes.drawn, &checked.findings) {
                let why = "nothing is over its limit".to_owned();
                fixes.not_offered.push((remedy, why));
                continue;
            }
            let found = remedy.changes(job, book, study);
            let ways = found.map(|changes| changes.into_iter().filter_map(|change| search.complete(remedy, change)));
            let best = ways.map(|ways| ways.min_by_key(|(fix, _)| fix.rank()));
            match best {
                Err(why) => fixes.not_offered.push((remedy, why.to_string())),
                Ok(None) => fixes.not_offered.push((remedy, "it cannot be drawn".to_owned())),
                Ok(Some((fix, laid))) => match seen.iter().find(|(same, _)| *same == laid) {
                    Some((_, same)) => {
                        let why = format!("it is the same as \"{}\"", same.name());
                        fixes.not_offered.push((remedy, why));
                    }
                    None if remedy.is_for_permit() => {
                        seen.push((laid, remedy));
                        fixes.ranked.push(fix);
                    }
                    None => fixes.studies.push(fix),
                },
            }
        }
        // Equal ways keep the order of the list.
        fixes.ranked.sort_by_key(Fix::rank);
        fixes
    }

    /// The way of least price by a list of one's own, with what its pipe costs.
    ///
    /// # Errors
    /// As for [`Remedy::changes`].
    pub fn priced(job: &Job, book: &Codebook, checked: &Checked, price: &Price) -> Result<(Fix, Cost), NoRemedy> {
        let (change, cost) = cheapest_larger_pipe(job, book, &checked.study, price)?;
        let search = Search::new(job, book, &checked.findings);
        let none = NoRemedy::NothingToDo("it cannot be drawn");
        let (fix, _) = search.complete(Remedy::LeastLength, change).ok_or(none)?;
        Ok((fix, cost))
    }

    /// All of them, ranked first.
    pub fn all(&self) -> impl Iterator<Item = &Fix> {
        self.ranked.iter().chain(&self.studies)
    }

    /// In one sentence, which way is least to buy and do.
    pub fn least(&self) -> String {
        let Some(first) = self.ranked.first() else {
            return match self.not_offered.iter().any(|(remedy, _)| remedy.is_for_permit()) && !self.drawn.is_over() {
                true => "Nothing is over its limit.".to_owned(),
                false => "No fix was found: see the reasons.".to_owned(),
            };
        };
        let bought = first.bought(self.units);
        if !first.carries() {
            return format!("No single fix clears every problem. Closest: {bought}.");
        }
        let other = self.ranked.iter().find(|fix| fix.pressure.is_none() && fix.carries());
        match (&first.pressure, other) {
            (None, _) => format!("Least pipe and work: {bought}."),
            (Some(pressure), Some(other)) => format!(
                "Least pipe and work: {bought}, if the gas supplier delivers {pressure}. Otherwise: {}.",
                other.bought(self.units)
            ),
            (Some(pressure), None) => {
                format!("Least pipe and work: {bought}, if the gas supplier delivers {pressure}.")
            }
        }
    }

    /// The columns side by side, the job as drawn first.
    pub fn variants(&self) -> Vec<Variant> {
        let drawn = Variant::drawn(self.drawn.clone());
        std::iter::once(drawn).chain(self.all().map(Fix::variant)).collect()
    }
}

/// Whether anything is over its limit.
fn is_over(drawn: &Outcome, findings: &Findings) -> bool {
    let told = |finding: &Finding| finding.severity == Severity::MustFix && OVER.contains(&finding.rule);
    drawn.is_over() || findings.iter().any(told)
}

/// What is asked, and of which job.
struct Search<'a> {
    job: &'a Job,
    book: &'a Codebook,
    /// Rules by which something must be fixed as drawn.
    before: BTreeSet<&'static str>,
}

/// A job on the way, with what was done to it.
#[derive(Clone)]
struct Going {
    job: Job,
    steps: Vec<Step>,
    does: Vec<String>,
}

impl Going {
    /// With one change more; `None` where it does not fit.
    fn with(&self, change: Change) -> Option<Going> {
        let mut next = self.clone();
        change.step.apply(&mut next.job).ok()?;
        next.steps.push(change.step);
        next.does.extend(change.does);
        Some(next)
    }
}

impl<'a> Search<'a> {
    fn new(job: &'a Job, book: &'a Codebook, findings: &Findings) -> Search<'a> {
        let blocking = findings.iter();
        let blocking = blocking.filter(|finding| finding.severity == Severity::MustFix);
        Search {
            job,
            book,
            before: blocking.map(|finding| finding.rule).collect(),
        }
    }

    /// A way gone on with until nothing more helps; with the job so laid. `None` where its first change does not fit.
    fn complete(&self, start: Remedy, first: Change) -> Option<(Fix, Job)> {
        let begun = Going {
            job: self.job.clone(),
            steps: Vec::new(),
            does: Vec::new(),
        };
        let mut going = begun.with(first)?;
        if !start.is_for_permit() {
            return Some(self.told(start, going));
        }
        going = self.repaired(start, going);
        let mut fix = self.with_valves(start, going.clone());
        if !fix.0.carries() && !matches!(start, Remedy::SeparateLine | Remedy::NearerStart) {
            let study = self.figures(&going.job);
            let moved = Remedy::SeparateLine.changes(&going.job, self.book, &study);
            let moved = moved.into_iter().flatten().filter_map(|change| going.with(change));
            for moved in moved {
                let moved = self.with_valves(start, self.repaired(start, moved));
                if moved.0.left.len() < fix.0.left.len() {
                    fix = moved;
                }
            }
        }
        Some(fix)
    }

    /// Larger pipe and larger devices until none of them helps.
    fn repaired(&self, start: Remedy, mut going: Going) -> Going {
        let pipe = match start {
            Remedy::LeastWeight => Remedy::LeastWeight,
            _ => Remedy::LeastLength,
        };
        for _ in 0..ROUNDS {
            let study = self.figures(&going.job);
            let next = [pipe, Remedy::LargerMeter].into_iter().find_map(|repair| {
                let change = repair.changes(&going.job, self.book, &study).ok()?.into_iter().next()?;
                going.with(change)
            });
            match next {
                Some(next) => going = next,
                None => break,
            }
        }
        going
    }

    /// What is said of a job, with what the code asks of what a way lays: a bond for its tubing, and shutoff valves where the
    /// line to an old appliance is laid anew. What else is asked there, as a sediment trap, is told as left.
    fn with_valves(&self, start: Remedy, going: Going) -> (Fix, Job) {
        let going = self.bonded(going);
        let told = self.told(start, going.clone());
        let lacking = told.0.left.iter().map(|left| &left.finding);
        let lacking = lacking.filter(|finding| finding.rule == SHUTOFF && !self.before.contains(SHUTOFF));
        let places = lacking.flat_map(|finding| std::iter::once(&finding.place).chain(&finding.also));
        let appliances: Vec<JointId> = places
            .filter_map(|place| match place {
                Place::Joint(id) => Some(*id),
                Place::Job | Place::Run(_) | Place::Section(_) => None,
            })
            .collect();
        let valves = shutoff_valves(&told.1, self.book, &appliances).ok();
        match valves.and_then(|change| going.with(change)) {
            Some(next) => self.told(start, next),
            None => told,
        }
    }

    /// Tubing that a way lays is marked as bonded, and the bond is among what is done.
    fn bonded(&self, going: Going) -> Going {
        let profile = self.book.profile(&self.job.settings.profile);
        let profile = profile.unwrap_or(self.book.default_profile());
        // New tubing that was drawn without a bond is the drawing's own matter.
        let is_laid = |run: &Run| {
            let was = self.job.runs.get(run.id);
            was.is_none_or(|was| was.state != State::New || was.bonded)
        };
        let tubing = going.job.runs.iter().filter(|run| {
            let unbonded = run.state == State::New && !run.bonded && going.job.material(run) == Material::Csst;
            unbonded && is_laid(run) && wants_bond(profile, run)
        });
        let tubing: Vec<RunId> = tubing.map(|run| run.id).collect();
        if tubing.is_empty() {
            return going;
        }
        let mut draft = Draft::new(&going.job);
        let marked = tubing
            .iter()
            .try_for_each(|&id| draft.change_run(id, |run| run.bonded = true));
        let bonded = marked.and_then(|()| draft.finish("Bond")).map(|step| {
            let named: Vec<String> = tubing.iter().map(ToString::to_string).collect();
            Change {
                step,
                does: vec![format!("Bond the new tubing ({}).", named.join(", "))],
            }
        });
        bonded.ok().and_then(|change| going.with(change)).unwrap_or(going)
    }

    fn figures(&self, job: &Job) -> Study {
        let profile = self.book.profile(&job.settings.profile);
        Study::under(job, self.book, profile.unwrap_or(self.book.default_profile()))
    }

    /// What the study of the job so changed says.
    fn told(&self, start: Remedy, going: Going) -> (Fix, Job) {
        let Going { job, steps, does } = going;
        let checked = Checked::of(&job, self.book);
        let blocking = checked.findings.iter();
        let blocking = blocking.filter(|finding| finding.severity == Severity::MustFix);
        let left = blocking.map(|finding| Left {
            finding: finding.clone(),
            is_its_own: OVER.contains(&finding.rule) || !self.before.contains(finding.rule),
        });
        let [was, is] = [self.job, &job].map(supply);
        let asked = was.zip(is).map_or([false; 3], |(was, is)| {
            [
                was.pressure != is.pressure,
                was.meter != is.meter,
                was.regulator != is.regulator,
            ]
        });
        let delivered = is.and_then(|supply| supply.pressure);
        let fix = Fix {
            start,
            step: Step::merged(start.name(), steps),
            does,
            left: left.collect(),
            outcome: Outcome::beside(&job, self.book, &checked),
            supplier: asked.into_iter().filter(|asked| *asked).count(),
            pressure: delivered
                .filter(|_| asked[0])
                .map(|pressure| pressure.show(checked.study.names.units())),
        };
        (fix, job)
    }
}

/// The point of delivery; of several the first.
fn supply(job: &Job) -> Option<&crate::job::Supply> {
    job.joints.iter().find_map(|joint| match joint.device() {
        Some(Device::Supply(supply)) => Some(supply),
        _ => None,
    })
}
