//! The pressure test on paper: what is tested, how, what temperature alone explains, and what stays to be signed.
//!
//! New pipe alone is tested: existing pipe is shut off and the new pipe closed at the tie-in, so that no test pressure
//! reaches old pipe, appliances, regulators or the supplier's meter. Nothing here says that a test was passed.

mod closure;
mod purge;
mod volume;

pub use closure::Closure;
pub use purge::{PURGE_WAYS, Purge, sinks};
pub use volume::{TestedPipe, Volume, volume_said};

use crate::codebook::{Codebook, Mark, Marked, Profile, TestRule, TestTime};
use crate::gas::{Temperature, air_pressure, pressure_at_temperature};
use crate::job::{Job, RunId};
use crate::study::Study;
use crate::units::{AbsolutePressure, GaugePressure, Length, Show, UnitSystem};

/// What a test is made with.
pub const MEDIUM: &str = "air, nitrogen, carbon dioxide or another inert gas; never oxygen, never fuel gas";

/// What is tested, in a sentence.
pub const SCOPE: &str = "Test new pipe only, capped or plugged at each tie-in: a closed valve alone does not isolate test pressure \
 from gas (common practice, no source).";

/// What stands in the place of a test where no new pipe is drawn.
pub const NO_NEW_PIPE: &str = "No new pipe is drawn, so there is no pressure test here. With the gas on, check each joint that was opened or \
 made for leaks. Ask the permit office if it wants a test.";

/// Lines left empty for those who test and those who look on.
pub const BLANKS: [&str; 8] = [
    "Test pressure applied",
    "Gauge: serial no., range, calibration date",
    "Start: date, time, reading",
    "End: date, time, reading",
    "Pipe temperature: start, end",
    "Leaks found and repaired",
    "Tested by: name, license, signature",
    "Inspector: name, jurisdiction, signature, date",
];

/// What a person fills the pipe with, where it is not what the profile asks for.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Filling {
    /// The reading at the start.
    pub pressure: Option<GaugePressure>,
    /// The temperature at the start.
    pub temperature: Option<Temperature>,
}

/// The test of a job's new pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct TestSheet {
    /// The new pipe, by material and size.
    pub pipe: Vec<TestedPipe>,
    /// What it holds.
    pub volume: Volume,
    /// The greatest working pressure of the zones in which it lies; `None` where no usable one is known.
    pub working: Option<GaugePressure>,
    /// Name of the profile in force.
    pub profile: String,
    /// What the profile asks for; `None` where it sets no test, no working pressure is known, or there is no new pipe.
    pub demand: Option<Demand>,
    /// Pressure of the surrounding air at the height of the site.
    pub air: AbsolutePressure,
    /// The reading at the start, the temperature then, and what temperature alone makes of it; empty without a pressure.
    pub readings: Vec<Reading>,
    /// Valves, caps and plugs during the test.
    pub closures: Vec<Closure>,
    /// How the new pipe is purged.
    pub purge: Purge,
}

/// What a profile asks of a test.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// The least test pressure.
    pub pressure: Marked<GaugePressure>,
    /// The most that the gauge may read at its top.
    pub gauge_top: Marked<GaugePressure>,
    /// How long, in minutes; `None` where the profile's figures give none.
    pub minutes: Option<Marked<f64>>,
    /// Why so long, in a sentence.
    pub why: String,
}

/// What the gauge shows at a temperature when nothing leaks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// The temperature of the test gas.
    pub temperature: Temperature,
    /// The reading that temperature alone explains.
    pub pressure: GaugePressure,
}

impl Demand {
    /// What is asked, for a sentence: "at least 3 psig (F) on a gauge of 15 psig (F) full scale or less, held for …".
    pub fn words(&self, units: UnitSystem) -> String {
        let minutes = match self.minutes {
            Some(minutes) => format!("{} min {}", minutes.value, minutes.mark),
            None => "a time that the profile does not set".to_owned(),
        };
        format!(
            "at least {} {} on a gauge of {} {} full scale or less, held for at least {minutes} ({}).",
            self.pressure.value.show(units),
            self.pressure.mark,
            self.gauge_top.value.show(units),
            self.gauge_top.mark,
            self.why.trim_end_matches('.')
        )
    }
}

impl TestSheet {
    /// The test sheet of a job, filled as its profile asks at 70 °F (20 °C in metric units).
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> TestSheet {
        TestSheet::filled(job, study, book, Filling::default())
    }

    /// The same with another pressure or temperature at the start.
    pub fn filled(job: &Job, study: &Study, book: &Codebook, filling: Filling) -> TestSheet {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let runs = volume::tested_runs(job, study);
        let (pipe, volume) = volume::measured(job, study, book, &runs);
        let working = working_pressure(study, &runs);
        let units = study.names.units();
        let demand = match runs.is_empty() {
            true => None,
            false => demand(profile, working, &volume, units),
        };
        let air = air_pressure(job.settings.altitude.unwrap_or(Length::ZERO));
        let start = filling.pressure.filter(|_| !runs.is_empty());
        let start = start.or(demand.as_ref().map(|demand| demand.pressure.value));
        let usual = match units {
            UnitSystem::Us => Temperature::from_fahrenheit(70.0),
            UnitSystem::Metric | UnitSystem::MetricKpa => Temperature::from_celsius(20.0),
        };
        let at = filling.temperature.filter(is_usable).unwrap_or(usual);
        TestSheet {
            readings: start.map_or(Vec::new(), |start| readings(start, at, air, units)),
            closures: closure::all(job, study, &runs),
            purge: Purge::of(job, study, book, &runs),
            profile: study.profile.clone(),
            pipe,
            volume,
            working,
            demand,
            air,
        }
    }

    /// The reading at the start, with its temperature.
    pub fn start(&self) -> Option<Reading> {
        self.readings.get(self.readings.len() / 2).copied()
    }

    /// Why nothing is asked of the test, where nothing is, with the remedy.
    pub const fn no_demand(&self) -> &'static str {
        match self.working {
            Some(_) => {
                "No test pressure was read for this code: take pressure and time from the code in force, or ask the permit office."
            }
            None => {
                "No working pressure is known, so no test pressure follows: enter the delivery pressure, or ask the permit office."
            }
        }
    }

    /// Runs whose volume is not known.
    pub fn unknown(&self) -> &[RunId] {
        &self.volume.unknown
    }
}

/// How far the table goes to each side, and its steps: 30 °F by 5 (15 °C by 2.5). The published example cools by 30 °F.
const STEPS: i32 = 6;

fn readings(start: GaugePressure, at: Temperature, air: AbsolutePressure, units: UnitSystem) -> Vec<Reading> {
    let step = match units {
        UnitSystem::Us => 5.0 / 1.8,
        UnitSystem::Metric | UnitSystem::MetricKpa => 2.5,
    };
    let kelvins = (-STEPS..=STEPS).map(|steps| at.kelvin() + f64::from(steps) * step);
    kelvins
        .map(|kelvin| {
            let temperature = Temperature::from_kelvin(kelvin);
            Reading {
                temperature,
                pressure: pressure_at_temperature(start, at, temperature, air),
            }
        })
        .collect()
}

/// Temperatures at which a gas is a gas and pipe is filled by people.
fn is_usable(temperature: &Temperature) -> bool {
    (150.0..=500.0).contains(&temperature.kelvin())
}

/// The greatest pressure of the zones in which tested runs lie; of all zones where none is reached.
fn working_pressure(study: &Study, runs: &[usize]) -> Option<GaugePressure> {
    let sections = runs.iter().filter_map(|&run| study.runs[run].section);
    let mut zones: Vec<usize> = sections.map(|section| study.sections[section].zone).collect();
    if zones.is_empty() {
        zones = (0..study.zones.len()).collect();
    }
    let pressures = zones
        .iter()
        .filter_map(|&zone| study.zones.get(zone))
        .filter_map(|zone| Some(zone.inlet?.pa()));
    let usable = pressures.filter(|pa| pa.is_finite() && *pa > 0.0);
    usable.reduce(f64::max).map(GaugePressure::from_pa)
}

fn demand(profile: &Profile, working: Option<GaugePressure>, volume: &Volume, units: UnitSystem) -> Option<Demand> {
    let rule = profile.test.as_ref()?;
    let working = working?;
    let (least, time) = rule.at(working);
    let pressure = pressure(rule, working, least);
    let (minutes, why) = hold(time, volume, units);
    Some(Demand {
        gauge_top: Marked::new(
            GaugePressure::from_pa(pressure.value.pa() * rule.gauge_top.value),
            pressure.mark.max(rule.gauge_top.mark),
        ),
        pressure,
        minutes,
        why,
    })
}

/// So many times the working pressure, but the least at any rate.
fn pressure(rule: &TestRule, working: GaugePressure, least: Marked<GaugePressure>) -> Marked<GaugePressure> {
    let times = GaugePressure::from_pa(working.pa() * rule.multiple.value);
    match times.pa() > least.value.pa() {
        true => Marked::new(times, rule.multiple.mark),
        false => least,
    }
}

fn hold(time: &TestTime, volume: &Volume, units: UnitSystem) -> (Option<Marked<f64>>, String) {
    match time {
        TestTime::Minutes(minutes) => (Some(*minutes), "the profile's time, for any pipe".to_owned()),
        TestTime::ByVolume {
            minutes,
            per_cubic_feet,
            small_minutes,
            small_below_cubic_feet,
        } => {
            let parts = (volume.cubic_feet / per_cubic_feet.value).ceil().max(1.0);
            let long = minutes.value * parts;
            let mark = [minutes.mark, per_cubic_feet.mark, small_below_cubic_feet.mark]
                .into_iter()
                .chain(volume.mark)
                .fold(Mark::Found, Mark::max);
            let small = small_below_cubic_feet.value;
            if volume.is_known() && volume.cubic_feet < small {
                let mark = mark.max(small_minutes.mark);
                let why = format!(
                    "under {} {} of pipe",
                    volume_said(small, units),
                    small_below_cubic_feet.mark
                );
                return (Some(Marked::new(small_minutes.value, mark)), why);
            }
            if !long.is_finite() {
                return (
                    None,
                    "the profile sets no time for this volume: ask the permit office".to_owned(),
                );
            }
            let dwelling = format!(
                "; in a single-family dwelling {} min {}",
                small_minutes.value, small_minutes.mark
            );
            let per = format!(
                "{} min for each {} or part of it",
                minutes.value,
                volume_said(per_cubic_feet.value, units)
            );
            let why = match volume.is_known() {
                true => format!("{per}{dwelling}"),
                false => format!("{per}; the volume of some pipe is not known{dwelling}"),
            };
            (Some(Marked::new(long, mark)), why)
        }
    }
}
