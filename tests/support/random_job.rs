//! Jobs by chance, each drawable: a tree of pipe whose runs do not overlap in space, nor lie upon each other on paper.
//!
//! Used as a module beside `dice.rs`: `#[path = "support/dice.rs"] mod dice;` and
//! `#[path = "support/random_job.rs"] mod random_job;`. The same seed and number of runs give the same job for ever.
#![allow(dead_code)]

use crate::dice::Dice;
use std::collections::{HashMap, HashSet};
use std::ops::Range;
use stubout::job::*;
use stubout::units::*;

/// A job of so many runs (fewer only where no place is left).
pub fn random_job(seed: u64, runs: usize) -> Job {
    let mut dice = Dice::new(seed ^ 0x5eed);
    let mut job = Job {
        settings: settings(&mut dice),
        gas: gas(&mut dice),
        ..Job::default()
    };
    if seed % 4 == 1 {
        job.settings.copper = CopperJoints::Flared;
    }
    title(&mut job, seed, &mut dice);
    Growth::new(&mut dice).grow(&mut job, runs);
    dress_runs(&mut job, &mut dice);
    dress_joints(&mut job, &mut dice);
    job
}

fn settings(dice: &mut Dice) -> Settings {
    let metric = dice.percent(30);
    let mut settings = Settings {
        material: dice.pick(&[
            Material::Steel40,
            Material::Steel40,
            Material::CopperL,
            Material::Csst,
            Material::CopperK,
        ]),
        method: dice.pick(&[None, Some(Method::LongestLength), Some(Method::BranchLength)]),
        altitude: dice
            .percent(20)
            .then(|| Length::from_feet(f64::from(dice.between(0, 9000)))),
        datum: Length::from_inches(f64::from(dice.between(-40, 40))),
        north: dice.pick(&[NorthAxis::North, NorthAxis::East, NorthAxis::South, NorthAxis::West]),
        ..Settings::default()
    };
    if metric {
        settings.units = UnitSystem::Metric;
        settings.step = Length::from_metres(0.25);
        settings.profile = dice.pick(&["us-ifgc", "metric-equation"]).to_owned();
    } else {
        settings.step = Length::from_feet(dice.pick(&[1.0, 1.0, 2.0, 0.5]));
    }
    settings
}

fn gas(dice: &mut Dice) -> Gas {
    Gas {
        fuel: dice.pick(&[Fuel::Natural, Fuel::Natural, Fuel::Propane]),
        specific_gravity: dice.percent(15).then(|| 0.55 + dice.below(100) as f64 / 100.0),
        heating_value: dice
            .percent(15)
            .then(|| HeatingValue::from_btu_per_ft3(950.0 + dice.below(1600) as f64)),
    }
}

fn title(job: &mut Job, seed: u64, dice: &mut Dice) {
    job.title.job = format!("Test house {seed}");
    job.title.site = format!("{} Nowhere Lane", dice.between(1, 9999));
    job.title.drawing = format!("G-{}", seed % 1000);
    job.title.status = dice.pick(&[Status::ForPermit, Status::AsBuilt, Status::Exercise]);
}

/// Where pipe already is, so that more can grow beside it.
struct Growth<'a> {
    dice: &'a mut Dice,
    /// Places taken, in half steps.
    taken: HashSet<[i32; 3]>,
    /// What is drawn at a place on paper, in half steps.
    paper: HashMap<[i32; 2], Ink>,
}

#[derive(Clone, PartialEq)]
enum Ink {
    Joint,
    /// Runs in these directions.
    Runs(Vec<[i32; 2]>),
}

/// Paper coordinates of a place: along the two directions at right angles in which an isometric drawing lies.
fn on_paper([east, north, up]: [i32; 3]) -> [i32; 2] {
    [east + north, east - north - 2 * up]
}

/// The direction without its sense and length.
fn slope([x, y]: [i32; 2]) -> [i32; 2] {
    let mut divisor = (x.abs(), y.abs());
    while divisor.1 != 0 {
        divisor = (divisor.1, divisor.0 % divisor.1);
    }
    let sense = if (x, y) < (0, 0) { -1 } else { 1 };
    let by = divisor.0.max(1) * sense;
    [x / by, y / by]
}

const SQUARE: [[i32; 3]; 6] = [[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]];
/// None of them along the line of sight, east-south-up.
const SKEW: [[i32; 3]; 8] = [
    [1, 1, 0],
    [1, -1, 0],
    [-1, 1, 0],
    [0, 1, 1],
    [1, 0, 1],
    [-1, 0, 1],
    [1, 1, 1],
    [2, 1, 0],
];

impl<'a> Growth<'a> {
    fn new(dice: &'a mut Dice) -> Growth<'a> {
        Growth {
            dice,
            taken: HashSet::new(),
            paper: HashMap::new(),
        }
    }

    fn grow(mut self, job: &mut Job, runs: usize) {
        let mut legs = vec![0];
        job.joints.insert(Joint {
            id: JointId(1),
            ..Joint::default()
        });
        self.taken.insert([0; 3]);
        self.paper.insert([0; 2], Ink::Joint);
        let skew = self.dice.pick(&[0, 8, 20]);
        let mut failed = 0;
        while job.runs.len() < runs && failed < 40 * runs + 400 {
            // Mostly on from the youngest end, sometimes a branch from anywhere.
            let base = if self.dice.percent(65) {
                legs.len() - 1
            } else {
                self.dice.below(legs.len())
            };
            let most = if self.dice.percent(10) { 4 } else { 3 };
            let most = if base == 0 { 1 } else { most };
            let way = if self.dice.percent(skew) {
                self.dice.pick(&SKEW)
            } else {
                self.dice.pick(&SQUARE)
            };
            let steps = self.dice.between(1, if failed > 200 { 12 } else { 6 });
            let start = job.joints.at(base).at;
            let from = [start.east, start.north, start.up].map(|step| 2 * step);
            if legs[base] >= most || !self.claim(from, way, 2 * steps) {
                failed += 1;
                continue;
            }
            legs[base] += 1;
            legs.push(1);
            let id = JointId(job.joints.len() as u32 + 1);
            let at = start + Direction::new(way[0] * steps, way[1] * steps, way[2] * steps);
            job.joints.insert(Joint {
                id,
                at,
                ..Joint::default()
            });
            let ends = (job.joints.at(base).id, id);
            let (from, to) = if self.dice.percent(50) { ends } else { (ends.1, ends.0) };
            job.runs.insert(Run {
                id: RunId(job.runs.len() as u32 + 1),
                from,
                to,
                ..Run::default()
            });
        }
    }

    /// Takes the places of a run, in half steps, if all are free.
    fn claim(&mut self, from: [i32; 3], way: [i32; 3], halves: i32) -> bool {
        let at = |half: i32| [0, 1, 2].map(|axis| from[axis] + way[axis] * half);
        let line = slope(on_paper(way));
        let free = (1..=halves).all(|half| {
            let place = at(half);
            let clear = match self.paper.get(&on_paper(place)) {
                None => true,
                Some(Ink::Joint) => false,
                Some(Ink::Runs(lines)) => half < halves && !lines.contains(&line),
            };
            clear && !self.taken.contains(&place)
        });
        if free {
            for half in 1..halves {
                self.taken.insert(at(half));
                match self.paper.entry(on_paper(at(half))).or_insert(Ink::Runs(Vec::new())) {
                    Ink::Runs(lines) => lines.push(line),
                    Ink::Joint => {}
                }
            }
            self.taken.insert(at(halves));
            self.paper.insert(on_paper(at(halves)), Ink::Joint);
        }
        free
    }
}

const INCH: [u16; 7] = [6, 8, 12, 16, 20, 24, 32];
const EHD: [u16; 9] = [13, 15, 18, 19, 23, 25, 30, 37, 46];

fn size(dice: &mut Dice, material: Material) -> NominalSize {
    match material {
        Material::Csst => NominalSize::Ehd(dice.pick(&EHD)),
        _ => NominalSize::Inch(dice.pick(&INCH)),
    }
}

fn dress_runs(job: &mut Job, dice: &mut Dice) {
    // The first part of the pipe, that nearest to the supply, is the old house.
    let old = if dice.percent(40) {
        dice.below(job.runs.len().max(1))
    } else {
        0
    };
    let mixed = dice.pick(&[0, 0, 12, 30]);
    let mut ends: HashMap<JointId, usize> = HashMap::new();
    for run in &job.runs {
        *ends.entry(run.from).or_default() += 1;
        *ends.entry(run.to).or_default() += 1;
    }
    let ids: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for (at, id) in ids.into_iter().enumerate() {
        let Some(run) = job.runs.get(id) else { continue };
        let drawn = job.drawn_length(run);
        let leaf = at > 0 && (ends[&run.from] == 1 || ends[&run.to] == 1);
        let own = dice.percent(mixed).then(|| dice.pick(&Material::ALL));
        let material = own.unwrap_or(job.settings.material);
        let state = match (at < old, leaf && dice.percent(8)) {
            (_, true) => State::Removed,
            (true, false) => State::Existing,
            (false, false) => State::New,
        };
        let known = match state {
            State::New => dice.percent(8),
            State::Existing | State::Removed => dice.percent(85),
        };
        let known = known.then(|| size(dice, material));
        let surroundings = match material {
            Material::Pe => Surroundings::Underground,
            _ => dice.pick(&[
                Surroundings::Indoors,
                Surroundings::Indoors,
                Surroundings::Concealed,
                Surroundings::Outdoors,
            ]),
        };
        let length = dice.percent(60).then(|| {
            let inches = (drawn.inches() * (0.4 + 2.6 * dice.fraction()) * 8.0).round().max(8.0) / 8.0;
            Length::from_inches(inches)
        });
        let holes = if dice.percent(12) { dice.between(1, 2) } else { 0 };
        let penetrations = (0..holes).map(|_| penetration(dice, length.unwrap_or(drawn))).collect();
        let Some(run) = job.runs.get_mut(id) else { continue };
        (run.material, run.state, run.size, run.surroundings) = (own, state, known, surroundings);
        (run.length, run.penetrations) = (length, penetrations);
        run.cover =
            (surroundings == Surroundings::Underground).then(|| Length::from_inches(f64::from(dice.between(4, 24))));
        run.salvaged = at % 2 == 0;
        run.jacketed = at % 3 == 0;
        (run.coated, run.tracer, run.bonded) = (dice.percent(50), dice.percent(50), dice.percent(50));
    }
}

fn penetration(dice: &mut Dice, length: Length) -> Penetration {
    Penetration {
        barrier: dice.pick(&[
            Barrier::ExteriorWall,
            Barrier::InteriorWall,
            Barrier::Foundation,
            Barrier::Floor,
            Barrier::Roof,
            Barrier::Slab,
            Barrier::Ground,
        ]),
        at: dice.percent(60).then(|| length.times(dice.fraction())),
        construction: dice.percent(40).then(|| "2x6 frame".to_owned()),
        thickness: dice
            .percent(40)
            .then(|| Length::from_inches(f64::from(dice.between(4, 12)))),
        sleeved: dice.percent(50),
        seal: dice.pick(&[Seal::Open, Seal::Outside, Seal::BothFaces]),
        words_at: None,
    }
}

fn rating(dice: &mut Dice) -> Rating {
    Rating {
        capacity: dice
            .percent(70)
            .then(|| Flow::from_cfh(f64::from(dice.between(40, 800)))),
        drop: dice.percent(50).then(|| PressureDrop::from_inches_wc(dice.fraction())),
    }
}

const NAMES: [&str; 8] = [
    "Furnace",
    "Water heater",
    "Range",
    "Clothes dryer",
    "Built-in grill",
    "Side burner",
    "Fire pit",
    "Patio heater",
];

fn appliance(dice: &mut Dice) -> Device {
    Device::Appliance(Appliance {
        name: dice.pick(&NAMES).to_owned(),
        class: None,
        input: dice
            .percent(92)
            .then(|| HeatRate::from_btuh(f64::from(dice.between(10, 200)) * 1000.0)),
        least_inlet: dice
            .percent(50)
            .then(|| GaugePressure::from_inches_wc(f64::from(dice.between(4, 9)))),
        greatest_inlet: dice.percent(30).then(|| GaugePressure::from_inches_wc(14.0)),
        season: dice.pick(&[
            Season::AllYear,
            Season::AllYear,
            Season::AllYear,
            Season::Heating,
            Season::Cooling,
        ]),
        start_up: stubout::job::StartUp::default(),
    })
}

/// Which of 24 chances put a kind of device into a line.
fn in_line(kind: DeviceKind, high: bool) -> Range<usize> {
    match kind {
        DeviceKind::Valve => 0..3,
        DeviceKind::Union => 3..5,
        DeviceKind::SedimentTrap => 5..6,
        DeviceKind::Meter => 6..7,
        DeviceKind::Connector => 7..8,
        DeviceKind::QuickCoupling => 8..9,
        DeviceKind::TestGauge => 9..10,
        DeviceKind::Regulator if high => 10..11,
        DeviceKind::ExcessFlow => 11..12,
        DeviceKind::Regulator | DeviceKind::Supply | DeviceKind::Appliance | DeviceKind::Cap => 0..0,
    }
}

/// A device of a kind with figures of which a drawing can be made.
fn device_in_line(kind: DeviceKind, propane: bool, dice: &mut Dice) -> Device {
    match kind {
        DeviceKind::Valve => Device::Valve(Valve {
            kind: dice.pick(&[ValveKind::Ball, ValveKind::Plug, ValveKind::Gate, ValveKind::Globe]),
            rating: Rating::default(),
        }),
        DeviceKind::SedimentTrap => Device::SedimentTrap(SedimentTrap {
            depth: Some(Length::from_inches(3.0)),
        }),
        DeviceKind::Meter => Device::Meter(Meter { rating: rating(dice) }),
        DeviceKind::Connector => Device::Connector(Connector {
            length: None,
            rating: rating(dice),
        }),
        DeviceKind::QuickCoupling => Device::QuickCoupling(QuickCoupling { rating: rating(dice) }),
        DeviceKind::Regulator => Device::Regulator(Regulator {
            outlet: Some(GaugePressure::from_inches_wc(if propane { 11.0 } else { 7.0 })),
            allowed_drop: None,
            rating: rating(dice),
            vent: [Vent::NotSaid, Vent::Outdoors, Vent::Limiter][dice.below(3)],
        }),
        DeviceKind::ExcessFlow => Device::ExcessFlow {
            trips: Some(Flow::from_cfh(f64::from(dice.between(100, 900)))),
            loss: rating(dice),
        },
        DeviceKind::Union | DeviceKind::TestGauge | DeviceKind::Supply | DeviceKind::Appliance | DeviceKind::Cap => {
            Device::blank(kind)
        }
    }
}

fn dress_joints(job: &mut Job, dice: &mut Dice) {
    let mut ends: HashMap<JointId, usize> = HashMap::new();
    let mut states: HashMap<JointId, State> = HashMap::new();
    for run in &job.runs {
        for end in [run.from, run.to] {
            *ends.entry(end).or_default() += 1;
            states.insert(end, run.state);
        }
    }
    let high = dice.percent(25);
    let propane = job.gas.fuel == Fuel::Propane;
    let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for (at, id) in ids.into_iter().enumerate() {
        let device = match ends.get(&id).copied().unwrap_or(0) {
            _ if at == 0 => Some(Device::Supply(Supply {
                pressure: Some(match (high, propane) {
                    (true, false) => GaugePressure::from_psi(2.0),
                    (true, true) => GaugePressure::from_psi(10.0),
                    (false, false) => GaugePressure::from_inches_wc(7.0),
                    (false, true) => GaugePressure::from_inches_wc(11.0),
                }),
                meter: dice.percent(60).then(|| rating(dice)),
                regulator: dice.percent(60).then(|| rating(dice)),
                ..Supply::default()
            })),
            0 | 1 => match dice.below(10) {
                0..=6 => Some(appliance(dice)),
                7 | 8 => Some(Device::Cap(Cap {
                    future_input: dice
                        .percent(60)
                        .then(|| HeatRate::from_mbh(f64::from(dice.between(20, 150)))),
                    projection: dice
                        .percent(50)
                        .then(|| Length::from_inches(f64::from(dice.between(1, 6)))),
                })),
                _ => None,
            },
            2 => {
                let at = dice.below(24);
                let kind = DeviceKind::ALL
                    .into_iter()
                    .find(|kind| in_line(*kind, high).contains(&at));
                kind.map(|kind| device_in_line(kind, propane, dice))
            }
            _ => None,
        };
        let Some(joint) = job.joints.get_mut(id) else { continue };
        joint.turn = if dice.percent(15) {
            Turn::StreetElbow
        } else {
            Turn::Elbow
        };
        joint.label = dice.percent(5).then(|| format!("P{at}"));
        joint.placed = device.map(|device| Placed {
            device,
            state: states.get(&id).copied().unwrap_or_default(),
            size: dice.percent(6).then_some(NominalSize::Inch(dice.pick(&[6, 8, 12]))),
            salvaged: at % 2 == 0,
            takes: None,
            letter: None,
        });
    }
}
