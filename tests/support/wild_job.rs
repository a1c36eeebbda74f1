//! Jobs without sense: any graph, any figure. What a person can draw or a file can hold, and worse.
//!
//! Used as a module beside `dice.rs`.
#![allow(dead_code)]

use crate::dice::Dice;
use stubout::job::*;
use stubout::units::*;

/// A job of about so many runs in which nothing need fit.
pub fn wild_job(seed: u64, runs: usize) -> Job {
    let mut dice = Dice::new(seed ^ 0xbad);
    let mut job = Job::default();
    job.settings.units = dice.pick(&[UnitSystem::Us, UnitSystem::Metric]);
    job.settings.profile = dice
        .pick(&["us-ifgc", "metric-equation", "ca-b149", "us-ca", "no such profile"])
        .to_owned();
    job.settings.material = dice.pick(&Material::ALL);
    job.settings.method = dice.pick(&[None, Some(Method::LongestLength), Some(Method::BranchLength)]);
    job.settings.step = length(&mut dice);
    job.settings.datum = length(&mut dice);
    job.settings.altitude = dice.percent(50).then(|| length(&mut dice));
    job.settings.allowed_drop = dice.percent(50).then(|| PressureDrop::from_pa(figure(&mut dice)));
    job.gas = Gas {
        fuel: dice.pick(&[Fuel::Natural, Fuel::Propane]),
        specific_gravity: dice.percent(50).then(|| figure(&mut dice)),
        heating_value: dice
            .percent(50)
            .then(|| HeatingValue::from_btu_per_ft3(figure(&mut dice))),
    };
    let joints = 1 + dice.below(runs + 2);
    for _ in 0..joints {
        let id = JointId(dice.pick(&[dice.clone().below(joints * 2) as u32, 0, u32::MAX]));
        let at = LatticePoint::new(step(&mut dice), step(&mut dice), step(&mut dice));
        let placed = dice.percent(60).then(|| Placed {
            device: device(&mut dice),
            state: state(&mut dice),
            size: dice.percent(30).then(|| size(&mut dice)),
            salvaged: id.0.is_multiple_of(2),
            takes: dice.percent(30).then(|| length(&mut dice)),
            letter: dice.percent(20).then(|| stubout::job::Letter(dice.below(6) as u32)),
        });
        job.joints.insert(Joint {
            id,
            at,
            label: None,
            placed,
            turn: dice.pick(&[Turn::Elbow, Turn::StreetElbow]),
            fitting_takes: dice.percent(20).then(|| length(&mut dice)),
            words_at: None,
        });
    }
    let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for number in 0..runs {
        let mut end = || {
            if dice.percent(97) {
                dice.pick(&ids)
            } else {
                JointId(dice.below(9) as u32)
            }
        };
        let (from, to) = (end(), end());
        let id = RunId(number as u32 * 3);
        job.runs.insert(Run {
            id,
            from,
            to,
            length: dice.percent(50).then(|| length(&mut dice)),
            offset: measured(&mut Dice::new(seed ^ (number as u64) << 8)),
            material: dice.percent(30).then(|| dice.pick(&Material::ALL)),
            size: dice.percent(40).then(|| size(&mut dice)),
            state: state(&mut dice),
            ..Run::default()
        });
    }
    job
}

/// Mostly nothing, else any measures.
fn measured(dice: &mut Dice) -> Option<MeasuredOffset> {
    dice.percent(15).then(|| MeasuredOffset {
        rise: length(dice),
        roll: length(dice),
        run: dice.percent(40).then(|| length(dice)),
        angle: dice
            .percent(60)
            .then(|| Angle::from_degrees(dice.fraction() * 100.0 - 5.0)),
    })
}

fn state(dice: &mut Dice) -> State {
    dice.pick(&[State::New, State::New, State::New, State::Existing, State::Removed])
}

fn step(dice: &mut Dice) -> i32 {
    match dice.below(30) {
        0 => i32::MAX,
        1 => i32::MIN,
        _ => dice.between(-3, 3),
    }
}

fn length(dice: &mut Dice) -> Length {
    match dice.below(12) {
        0 => Length::ZERO,
        1 => Length::from_feet(-12.0),
        2 => Length::from_eighths_of_um(i64::MAX),
        3 => Length::from_eighths_of_um(i64::MIN),
        4 => Length::from_eighths_of_um(1),
        _ => Length::from_inches(dice.fraction() * 500.0),
    }
}

fn figure(dice: &mut Dice) -> f64 {
    match dice.below(14) {
        0 => 0.0,
        1 => -1.0,
        2 => f64::NAN,
        3 => f64::INFINITY,
        4 => f64::NEG_INFINITY,
        5 => f64::MAX,
        6 => f64::MIN_POSITIVE,
        7 => -1e9,
        _ => dice.fraction() * 10f64.powi(dice.between(0, 5)),
    }
}

fn size(dice: &mut Dice) -> NominalSize {
    match dice.below(8) {
        0 => NominalSize::Inch(0),
        1 => NominalSize::Inch(u16::MAX),
        2 => NominalSize::Ehd(0),
        3 => NominalSize::Ehd(dice.pick(&[13, 18, 23, 62, 999])),
        _ => NominalSize::Inch(dice.pick(&[4, 6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64])),
    }
}

fn pressure(dice: &mut Dice) -> GaugePressure {
    match dice.below(3) {
        0 => GaugePressure::from_pa(figure(dice)),
        1 => GaugePressure::from_inches_wc(7.0),
        _ => GaugePressure::from_psi(dice.pick(&[1.0, 2.0, 5.0, 10.0, 60.0])),
    }
}

fn rating(dice: &mut Dice) -> Rating {
    Rating {
        capacity: dice.percent(60).then(|| Flow::from_cfh(figure(dice))),
        drop: dice.percent(60).then(|| PressureDrop::from_pa(figure(dice))),
    }
}

fn device(dice: &mut Dice) -> Device {
    match dice.pick(&DeviceKind::ALL) {
        DeviceKind::Supply => Device::Supply(Supply {
            pressure: dice.percent(85).then(|| pressure(dice)),
            meter: dice.percent(50).then(|| rating(dice)),
            regulator: dice.percent(50).then(|| rating(dice)),
            ..Supply::default()
        }),
        DeviceKind::Meter => Device::Meter(Meter { rating: rating(dice) }),
        DeviceKind::Regulator => Device::Regulator(Regulator {
            outlet: dice.percent(85).then(|| pressure(dice)),
            allowed_drop: dice.percent(50).then(|| PressureDrop::from_pa(figure(dice))),
            rating: rating(dice),
            vent: [Vent::NotSaid, Vent::Outdoors, Vent::Limiter][dice.below(3)],
        }),
        DeviceKind::Valve => Device::Valve(Valve {
            kind: ValveKind::Globe,
            rating: rating(dice),
        }),
        DeviceKind::ExcessFlow => Device::ExcessFlow {
            trips: dice.percent(60).then(|| Flow::from_cfh(figure(dice))),
            loss: rating(dice),
        },
        DeviceKind::Union => Device::Union,
        DeviceKind::SedimentTrap => Device::SedimentTrap(SedimentTrap {
            depth: Some(length(dice)),
        }),
        DeviceKind::Connector => Device::Connector(Connector {
            length: Some(length(dice)),
            rating: rating(dice),
        }),
        DeviceKind::QuickCoupling => Device::QuickCoupling(QuickCoupling { rating: rating(dice) }),
        DeviceKind::Appliance => Device::Appliance(Appliance {
            name: "Thing".to_owned(),
            class: None,
            input: dice.percent(80).then(|| HeatRate::from_btuh(figure(dice))),
            least_inlet: dice.percent(50).then(|| pressure(dice)),
            greatest_inlet: dice.percent(50).then(|| pressure(dice)),
            season: dice.pick(&[Season::AllYear, Season::Heating, Season::Cooling]),
            start_up: stubout::job::StartUp::default(),
        }),
        DeviceKind::Cap => Device::Cap(Cap {
            future_input: dice.percent(50).then(|| HeatRate::from_btuh(figure(dice))),
            projection: Some(length(dice)),
        }),
        DeviceKind::TestGauge => Device::TestGauge,
    }
}
