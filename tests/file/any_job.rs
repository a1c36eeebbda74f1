//! Jobs of every kind that a file can hold, sensible or not, the same for the same seed.

use stubout::job::*;
use stubout::units::{
    Angle, Clocked, Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop, UnitSystem,
};

/// A job of about `size` joints and runs: every key of the file is used by some seed, values typed round or not.
pub fn any_job(seed: u64, size: usize) -> Job {
    let mut dice = Dice(seed);
    let mut job = Job {
        title: title(&mut dice),
        settings: settings(&mut dice),
        gas: Gas {
            fuel: dice.of(&[Fuel::Natural, Fuel::Propane]),
            specific_gravity: dice.maybe(|dice| dice.between(0.05, 5.0)),
            heating_value: dice.maybe(|dice| match dice.below(2) {
                0 => HeatingValue::from_btu_per_ft3(dice.between(1.0, 10_000.0)),
                _ => HeatingValue::from_mj_per_m3(dice.tenths(1, 370)),
            }),
        },
        ..Job::default()
    };
    let spread = dice.of(&[1, 3, 1_000_000]);
    for _ in 0..size {
        let id = JointId(dice.below((spread * size as u64).min(1_000_000_000) + 1) as u32);
        job.joints.insert(joint(&mut dice, id));
    }
    let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for _ in 0..size {
        let (from, to) = (dice.of_maybe(&ids), dice.of_maybe(&ids));
        if let (Some(from), Some(to)) = (from, to)
            && from != to
        {
            let id = RunId(dice.below((spread * size as u64).min(1_000_000_000) + 1) as u32);
            job.runs.insert(run(&mut dice, id, from, to));
        }
    }
    while let (Some(at), 0) = (dice.of_maybe(&ids), dice.below(3)) {
        job.notes.push(Note {
            at,
            text: words(&mut dice),
            words_at: dice.maybe(words_at),
        });
    }
    while dice.below(3) == 0 {
        job.by_hand.extra.push(Extra {
            what: words(&mut dice),
            quantity: dice.tenths(0, 300),
            unit: words(&mut dice),
            note: words(&mut dice),
        });
    }
    while dice.below(3) == 0 {
        let own = OwnStep {
            step: words(&mut dice),
            words: dice.maybe(words),
            after: (0..dice.below(3)).map(|_| words(&mut dice)).collect(),
            left_out: dice.below(2) == 0,
        };
        if job.by_hand.of_step(&own.step).is_none() {
            job.by_hand.order.push(own);
        }
    }
    if dice.below(3) == 0 {
        // Of the others each has something otherwise, or something less.
        let names: Vec<String> = (0..=dice.below(3))
            .map(|at| format!("{at} {}", words(&mut dice)))
            .collect();
        let mut all = names.into_iter().map(|name| {
            let mut drawing = job.drawing();
            drawing.notes.truncate(dice.below(3) as usize);
            drawing.by_hand.extra.truncate(dice.below(3) as usize);
            drawing.runs.retain(|_| dice.below(4) != 0);
            let changed: Vec<Run> = drawing.runs.iter().filter(|_| dice.below(4) == 0).cloned().collect();
            drawing
                .runs
                .extend(changed.into_iter().map(|one| run(&mut dice, one.id, one.from, one.to)));
            let drawing = std::sync::Arc::new(drawing);
            Variant { name, drawing }
        });
        let before: Vec<Variant> = all.by_ref().take(1).collect();
        let after: Vec<Variant> = all.collect();
        job.variants = Variants {
            name: words(&mut dice) + "shown",
            before,
            after,
        };
    }
    job
}

fn title(dice: &mut Dice) -> TitleBlock {
    let mut revisions = Vec::new();
    while dice.below(3) == 0 {
        revisions.push(Revision {
            mark: words(dice),
            date: words(dice),
            what: words(dice),
            by: words(dice),
        });
    }
    TitleBlock {
        job: words(dice),
        site: words(dice),
        parcel: words(dice),
        owner: words(dice),
        firm: words(dice),
        contact: words(dice),
        licence_holder: words(dice),
        licence: words(dice),
        permit: words(dice),
        drawn_by: words(dice),
        checked_by: words(dice),
        drawing: words(dice),
        date: words(dice),
        description: words(dice),
        status: dice.of(&[Status::ForPermit, Status::AsBuilt, Status::Exercise, Status::Study]),
        revisions,
    }
}

fn settings(dice: &mut Dice) -> Settings {
    let usual = Settings::default();
    Settings {
        units: dice.of(&[UnitSystem::Us, UnitSystem::Metric]),
        step: dice.maybe(length).unwrap_or(usual.step),
        material: dice.of(&Material::ALL),
        copper: dice.of(&[CopperJoints::Brazed, CopperJoints::Flared]),
        profile: dice.maybe(words).unwrap_or(usual.profile),
        tables: dice
            .maybe(|dice| OwnTable {
                id: words(dice),
                figures: words(dice),
            })
            .into_iter()
            .collect(),
        method: dice.maybe(|dice| dice.of(&[Method::LongestLength, Method::BranchLength])),
        allowed_drop: dice.maybe(drop_of_pressure),
        altitude: dice.maybe(length),
        datum: dice.maybe(length).unwrap_or_default(),
        datum_name: dice.maybe(words).unwrap_or(usual.datum_name),
        north: dice.of(&[NorthAxis::North, NorthAxis::East, NorthAxis::South, NorthAxis::West]),
    }
}

fn joint(dice: &mut Dice, id: JointId) -> Joint {
    let far = dice.of(&[3, 100, 1_000_000]);
    let step = |dice: &mut Dice| dice.below(2 * far + 1) as i32 - far as i32;
    Joint {
        id,
        at: LatticePoint::new(step(dice), step(dice), step(dice)),
        label: dice.maybe(words),
        placed: dice.maybe(|dice| Placed {
            device: device(dice),
            state: state(dice),
            size: dice.maybe(size),
            salvaged: dice.coin(),
            takes: dice.maybe(length),
            letter: dice.maybe(|dice| Letter(dice.below(800) as u32)),
        }),
        turn: dice.of(&[
            Turn::Elbow,
            Turn::StreetElbow,
            Turn::StreetElbowUpstream,
            Turn::StreetElbowDownstream,
        ]),
        fitting_takes: dice.maybe(length),
        words_at: dice.maybe(words_at),
    }
}

fn device(dice: &mut Dice) -> Device {
    match dice.of(&DeviceKind::ALL) {
        DeviceKind::Supply => Device::Supply(Supply {
            pressure: dice.maybe(gauge),
            meter: dice.maybe(rating),
            regulator: dice.maybe(rating),
            before: SupplyBefore {
                pressure: dice.maybe(gauge),
                meter: dice.maybe(rating),
                regulator: dice.maybe(rating),
            },
        }),
        DeviceKind::Meter => Device::Meter(Meter { rating: rating(dice) }),
        DeviceKind::Regulator => Device::Regulator(Regulator {
            outlet: dice.maybe(gauge),
            allowed_drop: dice.maybe(drop_of_pressure),
            rating: rating(dice),
            vent: [Vent::NotSaid, Vent::Outdoors, Vent::Limiter][dice.below(3) as usize],
        }),
        DeviceKind::Valve => Device::Valve(Valve {
            kind: dice.of(&[
                ValveKind::Ball,
                ValveKind::Plug,
                ValveKind::Gate,
                ValveKind::Globe,
                ValveKind::Key,
            ]),
            rating: rating(dice),
        }),
        DeviceKind::ExcessFlow => Device::ExcessFlow {
            trips: rating(dice).capacity,
            loss: rating(dice),
        },
        DeviceKind::Union => Device::Union,
        DeviceKind::SedimentTrap => Device::SedimentTrap(SedimentTrap {
            depth: dice.maybe(length),
        }),
        DeviceKind::Connector => Device::Connector(Connector {
            length: dice.maybe(length),
            rating: rating(dice),
        }),
        DeviceKind::QuickCoupling => Device::QuickCoupling(QuickCoupling { rating: rating(dice) }),
        DeviceKind::Appliance => Device::Appliance(Appliance {
            name: words(dice),
            class: dice.maybe(words),
            input: dice.maybe(heat),
            least_inlet: dice.maybe(gauge),
            greatest_inlet: dice.maybe(gauge),
            season: dice.of(&[Season::AllYear, Season::Heating, Season::Cooling]),
            start_up: StartUp {
                static_pressure: dice.maybe(gauge),
                working: dice.maybe(gauge),
                lock_up: dice.maybe(gauge),
                clocked: dice
                    .maybe(|dice| Clocked::from_ft3_and_seconds(dice.between(0.01, 90.0), dice.tenths(1, 9_000))),
            },
        }),
        DeviceKind::Cap => Device::Cap(Cap {
            future_input: dice.maybe(heat),
            projection: dice.maybe(length),
        }),
        DeviceKind::TestGauge => Device::TestGauge,
    }
}

fn run(dice: &mut Dice, id: RunId, from: JointId, to: JointId) -> Run {
    let mut penetrations = Vec::new();
    while dice.below(3) == 0 {
        penetrations.push(Penetration {
            barrier: dice.of(&[
                Barrier::ExteriorWall,
                Barrier::InteriorWall,
                Barrier::Foundation,
                Barrier::Floor,
                Barrier::Roof,
                Barrier::Slab,
                Barrier::Ground,
            ]),
            at: dice.maybe(length),
            construction: dice.maybe(words),
            thickness: dice.maybe(length),
            sleeved: dice.coin(),
            seal: dice.of(&[Seal::Open, Seal::Outside, Seal::BothFaces]),
            words_at: dice.maybe(words_at),
        });
    }
    Run {
        id,
        from,
        to,
        length: dice.maybe(length),
        offset: dice.maybe(|dice| MeasuredOffset {
            rise: length(dice),
            roll: length(dice),
            run: dice.maybe(length),
            angle: dice.maybe(|dice| Angle::from_degrees(dice.tenths(0, 360))),
        }),
        material: dice.maybe(|dice| dice.of(&Material::ALL)),
        size: dice.maybe(size),
        replaces: dice.maybe(size),
        state: state(dice),
        surroundings: dice.of(&[
            Surroundings::Indoors,
            Surroundings::Concealed,
            Surroundings::Outdoors,
            Surroundings::Underground,
        ]),
        cover: dice.maybe(length),
        coated: dice.coin(),
        tracer: dice.coin(),
        bonded: dice.coin(),
        jacketed: dice.coin(),
        salvaged: dice.coin(),
        penetrations,
        words_at: dice.maybe(words_at),
    }
}

fn words_at(dice: &mut Dice) -> WordsAt {
    let most = dice.of(&[30.0, WordsAt::FARTHEST_MM]);
    WordsAt::from_mm(dice.between(-most, most), dice.between(-most, most))
}

fn state(dice: &mut Dice) -> State {
    dice.of(&[State::New, State::Existing, State::Removed])
}

fn rating(dice: &mut Dice) -> Rating {
    Rating {
        capacity: dice.maybe(|dice| match dice.below(3) {
            0 => Flow::from_cfh(dice.between(0.0, 1e7)),
            1 => Flow::from_cfh(dice.tenths(0, 10_000)),
            _ => Flow::from_m3h(dice.tenths(0, 1_000)),
        }),
        drop: dice.maybe(drop_of_pressure),
    }
}

fn heat(dice: &mut Dice) -> HeatRate {
    match dice.below(3) {
        0 => HeatRate::from_btuh(dice.between(0.0, 1e9)),
        1 => HeatRate::from_btuh(500.0 * dice.below(1_000) as f64),
        _ => HeatRate::from_kw(dice.tenths(0, 2_000)),
    }
}

fn gauge(dice: &mut Dice) -> GaugePressure {
    match dice.below(4) {
        0 => GaugePressure::from_pa(dice.between(-100_000.0, 1e7)),
        1 => GaugePressure::from_inches_wc(dice.tenths(0, 300)),
        2 => GaugePressure::from_psi(dice.tenths(0, 1_000)),
        _ => GaugePressure::from_pa(10.0 * dice.tenths(0, 10_000)),
    }
}

fn drop_of_pressure(dice: &mut Dice) -> PressureDrop {
    match dice.below(3) {
        0 => PressureDrop::from_pa(dice.between(-1e7, 1e7)),
        1 => PressureDrop::from_inches_wc(dice.tenths(0, 50)),
        _ => PressureDrop::from_psi(dice.tenths(0, 20)),
    }
}

fn length(dice: &mut Dice) -> Length {
    let sign = dice.of(&[-1, 1, 1, 1]);
    let (most, unit) = dice.of(&[
        (800_000_000_000, 1),
        (10_000, 3_175),
        (2_000, 203_200),
        (20_000, 8_000),
        (5, 2_438_400),
    ]);
    Length::from_eighths_of_um(sign * unit * dice.below(most + 1) as i64)
}

fn size(dice: &mut Dice) -> NominalSize {
    match dice.below(2) {
        0 => NominalSize::Inch(1 + dice.below(64) as u16),
        _ => NominalSize::Ehd(1 + dice.below(62) as u16),
    }
}

/// Words that a file must quote well.
fn words(dice: &mut Dice) -> String {
    const PARTS: &[&str] = &[
        "grill", " ", "12'-6\"", "\\", "\n", "\t", "½ in", "(", "]", "//", "/*", "r#\"", "é", "管", "🔥", "\u{0}",
        "\u{202e}", "\u{301}", ": ", ",", "None", "{", "\r\n", "\u{feff}",
    ];
    let mut words = String::new();
    while dice.below(4) != 0 {
        words.push_str(dice.of(PARTS));
    }
    words
}

/// Numbers that look random (the SplitMix64 generator of Steele, Lea and Flood, 2014).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, limit: u64) -> u64 {
        self.next() % limit.max(1)
    }

    fn coin(&mut self) -> bool {
        self.below(2) == 0
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() as f64 / u64::MAX as f64)
    }

    /// A figure with one decimal.
    fn tenths(&mut self, low: u64, high: u64) -> f64 {
        (low * 10 + self.below((high - low) * 10)) as f64 / 10.0
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len() as u64) as usize]
    }

    fn of_maybe<T: Copy>(&mut self, all: &[T]) -> Option<T> {
        all.get(self.below(all.len() as u64) as usize).copied()
    }

    fn maybe<T>(&mut self, make: impl FnOnce(&mut Dice) -> T) -> Option<T> {
        if self.coin() { Some(make(self)) } else { None }
    }
}
