//! Exercises made to order: piping with so many outlets, drawn so that it can be read, with traps set on purpose.

use super::class_set::settle;
use super::dice::Dice;
use super::reading::Reading;
use super::tie::ties;
use crate::codebook::Codebook;
use crate::job::{
    Appliance, Device, Fuel, Job, Joint, JointId, LatticePoint, Material, Method, Placed, Rating, Run, RunId, State,
    Status, Supply, Valve,
};
use crate::sizing::Verdict;
use crate::study::Study;
use crate::units::{Flow, GaugePressure, HeatRate, Length};

/// The fewest and the most outlets.
pub const OUTLETS: (usize, usize) = (5, 25);
/// Beginnings that are tried.
const TRIES: usize = 40;

/// What is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// How many outlets, within [`OUTLETS`].
    pub outlets: usize,
    /// What new pipe is made of.
    pub material: Material,
    /// The gas.
    pub fuel: Fuel,
    /// By which method it is sized.
    pub method: Method,
    /// Which traps are set.
    pub difficulty: Difficulty,
    /// Which exercise: the same number gives the same.
    pub seed: u64,
}

/// Which traps an exercise sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Difficulty {
    /// Loads between columns and lengths between rows, nothing else.
    Easy,
    /// A branch too that another method would size smaller or larger.
    Medium,
    /// Existing pipe too that is over capacity.
    Hard,
}

/// An exercise with its traps, in words for the instructor.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The job.
    pub job: Job,
    /// Each trap and the sections where it is set.
    pub traps: Vec<String>,
}

/// What is put at outlets: name, class of the codebook's list, and input in Btu/h. None asks for a sediment trap.
const APPLIANCES: [(&str, &str, f64); 4] = [
    ("Range", "range", 65_000.0),
    ("Dryer", "clothes dryer", 35_000.0),
    ("Fireplace", "direct-vent fireplace", 40_000.0),
    ("Gas log", "gas log", 80_000.0),
];
/// Steps on paper between tees of the main, and between tees of a branch.
const MAIN: i32 = 7;
const BRANCH: i32 = 6;

/// Makes an exercise.
///
/// # Errors
/// When the number of outlets is none of [`OUTLETS`], or no exercise with all traps was found: what to ask for instead.
pub fn exercise(wanted: Wanted, book: &Codebook) -> Result<Exercise, String> {
    let (fewest, most) = OUTLETS;
    if !(fewest..=most).contains(&wanted.outlets) {
        return Err(format!(
            "an exercise has {fewest} to {most} outlets, not {}",
            wanted.outlets
        ));
    }
    let mut why = String::new();
    for number in 1..=TRIES {
        let mut dice = Dice::new(wanted.seed, number);
        let drawn = drawn(wanted, &mut dice);
        let settled = settle(&drawn, book, &mut dice);
        match settled.and_then(|job| trapped(job, wanted, book)) {
            Ok(exercise) => return Ok(exercise),
            Err(reason) => why = reason,
        }
    }
    Err(format!(
        "no such exercise was found: {why}. Try another seed, fewer outlets or an easier one"
    ))
}

/// Sets the traps and tells them.
fn trapped(mut job: Job, wanted: Wanted, book: &Codebook) -> Result<Exercise, String> {
    if wanted.difficulty == Difficulty::Hard {
        over_capacity(&mut job, book)?;
    }
    rate(&mut job, book);
    let study = Study::of(&job, book);
    if let Some((_, tie)) = ties(&job, book, &study).into_iter().next() {
        return Err(tie);
    }
    let mut between_columns = Vec::new();
    let mut between_rows = Vec::new();
    for section in &study.sections {
        let Some(reading) = Reading::of(&job, book, &study, section) else {
            continue;
        };
        let Some(row) = reading.row(section.design.total()) else {
            continue;
        };
        let sizes = reading.table.sizes().iter();
        let mut carried = sizes.filter_map(|size| reading.capacity(row, *size));
        if carried.all(|capacity| (capacity.cfh() - section.load.flow.cfh()).abs() > 0.5) {
            between_columns.push(section.number);
        }
        if (reading.table.length(row).feet() - section.design.total().feet()).abs() > 0.5 {
            between_rows.push(section.number);
        }
    }
    let mut turned = job.clone();
    turned.settings.method = Some(match wanted.method {
        Method::LongestLength => Method::BranchLength,
        Method::BranchLength => Method::LongestLength,
    });
    let other = Study::of(&turned, book);
    let pairs = study.sections.iter().zip(&other.sections);
    let unlike: Vec<usize> = pairs
        .filter(|(section, other)| section.sizing.needed != other.sizing.needed)
        .map(|(section, _)| section.number)
        .collect();
    let over = study
        .sections
        .iter()
        .filter(|section| section.sizing.verdict == Verdict::TooSmall);
    let over: Vec<usize> = over.map(|section| section.number).collect();
    if between_columns.is_empty() || between_rows.is_empty() {
        return Err("every load or length is in the table itself".to_owned());
    }
    if wanted.difficulty >= Difficulty::Medium && unlike.is_empty() {
        return Err("both methods give the same sizes".to_owned());
    }
    let by_other = match wanted.method {
        Method::LongestLength => "the longest length oversizes the branch",
        Method::BranchLength => "the longest length would give another size",
    };
    let traps = [
        ("load between columns of the table", between_columns),
        ("length between rows of the table", between_rows),
        (by_other, unlike),
        ("existing pipe over capacity", over),
    ];
    let told = traps.into_iter().filter(|(_, sections)| !sections.is_empty());
    let told = told.map(|(trap, sections)| {
        let name = if sections.len() == 1 { "section" } else { "sections" };
        format!("{trap}: {name} {}", crate::units::ranges(sections))
    });
    Ok(Exercise {
        job,
        traps: told.collect(),
    })
}

/// Makes the first section existing, one size too small.
fn over_capacity(job: &mut Job, book: &Codebook) -> Result<(), String> {
    let study = Study::of(job, book);
    let first = study.sections.first().ok_or("nothing is drawn")?;
    let reading = Reading::of(job, book, &study, first).ok_or("no table sizes the main")?;
    let row = reading.row(first.design.total()).ok_or("the way is past the table")?;
    let right = reading.size(row, first.load.flow).ok_or("the load is past the table")?;
    let smaller = reading.smaller(row, right).ok_or("no size is smaller")?;
    for run in &first.runs {
        let id = job.runs.at(*run).id;
        if let Some(run) = job.runs.get_mut(id) {
            run.state = State::Existing;
            run.size = Some(smaller);
        }
    }
    let existing = [first.from].into_iter().chain(
        first
            .runs
            .iter()
            .filter_map(|run| study.network.ends[*run].map(|ends| ends.1)),
    );
    let ids: Vec<JointId> = existing.map(|joint| job.joints.at(joint).id).collect();
    for id in ids.iter().take(ids.len().saturating_sub(1)) {
        if let Some(placed) = job.joints.get_mut(*id).and_then(|joint| joint.placed.as_mut()) {
            placed.state = State::Existing;
        }
    }
    Ok(())
}

/// Rates the meter and the service regulator for the load, with room.
fn rate(job: &mut Job, book: &Codebook) {
    let total = Study::of(job, book).total.flow.cfh();
    let up = |share: f64, step: f64| Some(Flow::from_cfh((total * share / step).ceil() * step));
    for id in job.joints.iter().map(|joint| joint.id).collect::<Vec<_>>() {
        let placed = job.joints.get_mut(id).and_then(|joint| joint.placed.as_mut());
        if let Some(Device::Supply(supply)) = placed.map(|placed| &mut placed.device) {
            let rating = |capacity| Rating { capacity, drop: None };
            supply.meter = Some(rating(up(1.2, 25.0)));
            supply.regulator = Some(rating(up(1.4, 100.0)));
        }
    }
}

/// The piping as it is drawn, with lengths and inputs by chance: a main with branches to both sides in turn, drops up and
/// down from these.
fn drawn(wanted: Wanted, dice: &mut Dice) -> Job {
    let mut pen = Pen::new(wanted, dice);
    let supply = Supply {
        pressure: Some(match wanted.fuel {
            Fuel::Natural => GaugePressure::from_inches_wc(7.0),
            Fuel::Propane => GaugePressure::from_inches_wc(11.0),
        }),
        ..Supply::default()
    };
    let meter = pen.joint((0, 0, 0), Some(Device::Supply(supply)));
    let valve = pen.joint((0, 3, 0), Some(Device::Valve(Valve::default())));
    pen.run(meter, valve, (2.0, 5.0));
    let mut at = valve;
    let mut left = wanted.outlets - 1;
    let mut north = 3;
    let mut side = 1;
    while left > 0 {
        let count = left.min(1 + pen.dice.below(3));
        north += MAIN;
        let tee = pen.joint((0, north, 0), None);
        pen.run(at, tee, (6.0, 16.0));
        pen.branch(tee, (north, side), count);
        (at, left, side) = (tee, left - count, -side);
    }
    pen.end(at, (0, north, 0), (0, 1, 0));
    let mut job = pen.job;
    let seed = wanted.seed;
    job.title.job = format!("Exercise {seed}: {} outlets", wanted.outlets);
    job.title.drawing = format!("EX-{seed}");
    job.title.description = match wanted.method {
        Method::LongestLength => "Size every section by the longest length".to_owned(),
        Method::BranchLength => "Size every section by the branch length".to_owned(),
    };
    job
}

/// Draws joint after joint.
struct Pen<'a> {
    job: Job,
    dice: &'a mut Dice,
    names: [usize; APPLIANCES.len()],
    /// By which inputs are multiplied, so that the material's largest size carries them all.
    share: f64,
}

impl<'a> Pen<'a> {
    fn new(wanted: Wanted, dice: &'a mut Dice) -> Pen<'a> {
        let mut job = Job::default();
        job.settings.material = wanted.material;
        job.settings.method = Some(wanted.method);
        job.settings.step = Length::from_feet(1.0);
        job.gas.fuel = wanted.fuel;
        job.title.status = Status::Exercise;
        let share = match wanted.material {
            Material::Steel40 => 1.0,
            // Their tables end at smaller sizes.
            _ => (12.0 / wanted.outlets as f64).min(1.0),
        };
        Pen {
            job,
            dice,
            names: [0; APPLIANCES.len()],
            share,
        }
    }

    fn joint(&mut self, (east, north, up): (i32, i32, i32), device: Option<Device>) -> JointId {
        let id = self.job.joints.free_id();
        self.job.joints.insert(Joint {
            id,
            at: LatticePoint::new(east, north, up),
            placed: device.map(Placed::new),
            ..Joint::default()
        });
        id
    }

    /// A run of a length in feet between two, in halves.
    fn run(&mut self, from: JointId, to: JointId, (least, most): (f64, f64)) {
        let length = (self.dice.between(least, most) * 2.0).round() / 2.0;
        let id: RunId = self.job.runs.free_id();
        self.job.runs.insert(Run {
            id,
            from,
            to,
            length: Some(Length::from_feet(length)),
            bonded: self.job.settings.material.is_corrugated(),
            ..Run::default()
        });
    }

    /// A branch to one side with so many outlets.
    fn branch(&mut self, tee: JointId, (north, side): (i32, i32), count: usize) {
        let mut at = tee;
        for drop in 1..count {
            let east = side * BRANCH * drop as i32;
            let next = self.joint((east, north, 0), None);
            self.run(at, next, (4.0, 14.0));
            let up = if drop % 2 == 0 { 1 } else { -1 };
            self.end(next, (east, north, 0), (0, 0, up));
            at = next;
        }
        self.end(at, (side * BRANCH * (count as i32 - 1), north, 0), (side, 0, 0));
    }

    /// Pipe with a valve and a union to an appliance.
    fn end(&mut self, from: JointId, (east, north, up): (i32, i32, i32), (e, n, u): (i32, i32, i32)) {
        let far = |steps: i32| (east + e * steps, north + n * steps, up + u * steps);
        let valve = self.joint(far(3), Some(Device::Valve(Valve::default())));
        self.run(from, valve, (3.0, 12.0));
        let union = self.joint(far(4), Some(Device::Union));
        self.run(valve, union, (0.5, 0.5));
        let kind = self.dice.below(APPLIANCES.len());
        let (name, class, input) = APPLIANCES[kind];
        self.names[kind] += 1;
        let name = match self.names[kind] {
            1 => name.to_owned(),
            many => format!("{name} {many}"),
        };
        let step = 1_000.0;
        let input = (input * self.share / step).round().max(1.0) * step;
        let appliance = Appliance {
            name,
            class: Some(class.to_owned()),
            input: Some(HeatRate::from_btuh(input)),
            least_inlet: Some(GaugePressure::from_inches_wc(5.0)),
            ..Appliance::default()
        };
        let end = self.joint(far(6), Some(Device::Appliance(appliance)));
        self.run(union, end, (1.0, 3.0));
    }
}
