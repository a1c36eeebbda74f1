//! `stubout test`: the pressure test of the new pipe, on paper.

use super::input::{Studied, print_each};
use super::{CLEAR, Jobs, table};
use crate::codebook::{Mark, Marked, SizeNames};
use crate::gas::Temperature;
use crate::units::{GaugePressure, Parse, Show, UnitSystem};
use crate::work::{BLANKS, Filling, MEDIUM, NO_NEW_PIPE, SCOPE, TestSheet, TestedPipe, Volume};
use clap::Args;
use serde_json::{Value, json};

/// Which jobs, and what the pipe is filled with.
#[derive(Args)]
pub struct TestArguments {
    #[command(flatten)]
    jobs: Jobs,
    /// Reading at the start, where it is not what the profile asks for: "20 psi"
    #[arg(long, value_name = "PRESSURE", value_parser = pressure)]
    filled_to: Option<GaugePressure>,
    /// Temperature of the pipe at the start: 70F, 21C; a number alone is °F, in a metric job °C
    #[arg(long, value_name = "TEMPERATURE", value_parser = Degrees::read, allow_hyphen_values = true)]
    at: Option<Degrees>,
}

/// A temperature as typed.
#[derive(Clone, Copy)]
struct Degrees {
    number: f64,
    scale: Option<UnitSystem>,
}

impl Degrees {
    fn read(text: &str) -> Result<Degrees, String> {
        let text = text.trim();
        let (number, scale) = match text.chars().last().map(|last| last.to_ascii_uppercase()) {
            Some('F') => (&text[..text.len() - 1], Some(UnitSystem::Us)),
            Some('C') => (&text[..text.len() - 1], Some(UnitSystem::Metric)),
            _ => (text, None),
        };
        match number.trim_end_matches([' ', '°']).parse::<f64>() {
            Ok(number) if (-120.0..=400.0).contains(&number) => Ok(Degrees { number, scale }),
            _ => Err("write the temperature of the pipe: 70F, 21C".to_owned()),
        }
    }

    fn temperature(self, units: UnitSystem) -> Temperature {
        match self.scale.unwrap_or(units) {
            UnitSystem::Us => Temperature::from_fahrenheit(self.number),
            UnitSystem::Metric | UnitSystem::MetricKpa => Temperature::from_celsius(self.number),
        }
    }
}

fn pressure(text: &str) -> Result<GaugePressure, String> {
    let pressure = GaugePressure::parse(text).map_err(|error| error.to_string())?;
    match pressure.pa().is_finite() && pressure.pa() > 0.0 {
        true => Ok(pressure),
        false => Err("write a pressure above zero: 20 psi".to_owned()),
    }
}

/// A test sheet in the units of its job.
struct Tested {
    sheet: TestSheet,
    names: SizeNames,
}

/// Prints the test sheet of each job.
pub fn run(arguments: &TestArguments) -> u8 {
    print_each(
        &arguments.jobs,
        "test",
        |book, Studied { job, checked, .. }| {
            let units = checked.study.names.units();
            let filling = Filling {
                pressure: arguments.filled_to,
                temperature: arguments.at.map(|at| at.temperature(units)),
            };
            let sheet = TestSheet::filled(&job, &checked.study, book, filling);
            let names = checked.study.names;
            (CLEAR, Tested { sheet, names })
        },
        machine,
        say,
    )
}

fn say(Tested { sheet, names }: &Tested) -> String {
    let units = names.units();
    let mut text = "Pressure test of new pipe\n".to_owned();
    if sheet.pipe.is_empty() {
        text += &format!("{NO_NEW_PIPE}\n{}", table::closing());
        return text;
    }
    text += &format!("{SCOPE}\n\nTested pipe\n");
    let held = match units {
        UnitSystem::Us => ">ft³/ft",
        UnitSystem::Metric | UnitSystem::MetricKpa => ">L/m",
    };
    let rows: Vec<Vec<String>> = sheet.pipe.iter().map(|pipe| pipe_row(pipe, *names)).collect();
    text += &table::columns(&["material", "size", ">length", held, "runs"], &rows);
    text += &volume(&sheet.volume, units);
    let working = sheet
        .working
        .map_or("not known".to_owned(), |working| working.show(units));
    text += &format!("\nWorking pressure: {working}\nMedium: {MEDIUM} (fuel gas codes, read)\n");
    match &sheet.demand {
        None => {
            text += &format!("{}\n", sheet.no_demand());
        }
        Some(demand) => {
            text += &format!(
                "Test pressure, at least: {}\n",
                marked(demand.pressure, |it| it.show(units))
            );
            text += &format!(
                "Gauge, full scale at most: {}\n",
                marked(demand.gauge_top, |it| it.show(units))
            );
            let minutes = demand.minutes.map(|minutes| marked(minutes, |it| format!("{it} min")));
            let minutes = minutes.unwrap_or("not known".to_owned());
            text += &format!("Hold at least: {minutes} ({})\n", demand.why);
        }
    }
    if !sheet.readings.is_empty() {
        let air = match units {
            UnitSystem::Us => format!("{:.2} psi", sheet.air.psi()),
            UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.1} kPa", sheet.air.pa() / 1_000.0),
        };
        text += &format!("\nGauge reading if only the temperature changes (P1/T1 = P2/T2, absolute; air {air})\n");
        let start = sheet.start();
        let rows: Vec<Vec<String>> = (sheet.readings.iter())
            .map(|reading| {
                let from_here = if Some(*reading) == start { "start" } else { "" };
                vec![
                    reading.temperature.words(units),
                    reading.pressure.show(units),
                    from_here.to_owned(),
                ]
            })
            .collect();
        text += &table::columns(&[">temperature", ">reading", ""], &rows);
        text += "Measure the temperature of the pipe itself; sun and shade change it within minutes.\n";
    }
    text += "\nValves, caps and plugs during the test (common practice, no source)\n";
    for closure in &sheet.closures {
        text += &format!("  {}: {}\n", closure.joint, closure.kind.words());
    }
    text += &format!(
        "\nPurging\n{}\nChecked against {}.\n",
        sheet.purge.words(units).join("\n"),
        sheet.purge.source.document
    );
    text += "\nTo be filled in and signed\n";
    for blank in BLANKS {
        text += &format!("  {blank}: ____________________\n");
    }
    text += &table::closing();
    text
}

fn pipe_row(pipe: &TestedPipe, names: SizeNames) -> Vec<String> {
    let units = names.units();
    let named = |size| names.show(pipe.material, size);
    let runs: Vec<String> = pipe.runs.iter().map(ToString::to_string).collect();
    vec![
        pipe.material.name().to_owned(),
        pipe.size.map_or("not known".to_owned(), named),
        pipe.length.show(units),
        pipe.per_foot
            .map_or("not known".to_owned(), |held| marked(held, |it| per_length(it, units))),
        runs.join(" "),
    ]
}

/// What a length of pipe holds, of cubic feet in a foot.
fn per_length(cubic_feet: f64, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{cubic_feet:.5}"),
        // 1 ft² is 0.092903 m², and a square meter along a meter holds 1,000 liters.
        UnitSystem::Metric | UnitSystem::MetricKpa => format!("{:.3}", cubic_feet * 92.903_04),
    }
}

fn volume(volume: &Volume, units: UnitSystem) -> String {
    let mark = volume.mark.map(|mark: Mark| format!(" {mark}")).unwrap_or_default();
    let known = format!("{}{mark}", volume.show(units));
    if volume.is_known() {
        return format!("Volume: {known}\n");
    }
    let unknown: Vec<String> = volume.unknown.iter().map(ToString::to_string).collect();
    format!(
        "Volume: {known} plus that of {}, which is not known\n",
        unknown.join(" ")
    )
}

fn marked<T: Copy>(figure: Marked<T>, show: impl Fn(T) -> String) -> String {
    format!("{} {}", show(figure.value), figure.mark)
}

fn fahrenheit(temperature: Temperature) -> f64 {
    temperature.rankine() - Temperature::from_fahrenheit(0.0).rankine()
}

fn machine(Tested { sheet, names }: &Tested) -> Value {
    let figure = |mark: Mark| mark.letter().to_string();
    let pipe = |pipe: &TestedPipe| {
        json!({
            "material": pipe.material.name(),
            "size": pipe.size.map(|size| size.exact()),
            "length_ft": pipe.length.feet(),
            "ft3_per_ft": pipe.per_foot.map(|held| held.value),
            "mark": pipe.per_foot.map(|held| figure(held.mark)),
            "runs": pipe.runs.iter().map(|run| run.0).collect::<Vec<_>>(),
        })
    };
    let long = |(size, length, limit): &(
        crate::units::NominalSize,
        crate::units::Length,
        Marked<crate::units::Length>,
    )| { json!({ "size": size.exact(), "length_ft": length.feet(), "over_ft": limit.value.feet() }) };
    json!({
        "scope": SCOPE,
        "medium": MEDIUM,
        "profile": sheet.profile,
        "pipe": sheet.pipe.iter().map(pipe).collect::<Vec<_>>(),
        "volume_ft3": sheet.volume.cubic_feet,
        "volume_mark": sheet.volume.mark.map(figure),
        "volume_unknown_runs": sheet.volume.unknown.iter().map(|run| run.0).collect::<Vec<_>>(),
        "working_psi": sheet.working.map(GaugePressure::psi),
        "air_psi": sheet.air.psi(),
        "required": sheet.demand.as_ref().map(|demand| json!({
            "pressure_psi": demand.pressure.value.psi(),
            "pressure_mark": figure(demand.pressure.mark),
            "gauge_top_psi": demand.gauge_top.value.psi(),
            "gauge_top_mark": figure(demand.gauge_top.mark),
            "minutes": demand.minutes.map(|minutes| minutes.value),
            "minutes_mark": demand.minutes.map(|minutes| figure(minutes.mark)),
            "why": demand.why,
        })),
        "readings": sheet.readings.iter().map(|reading| json!({
            "temperature_f": fahrenheit(reading.temperature),
            "reading_psi": reading.pressure.psi(),
        })).collect::<Vec<_>>(),
        "closures": sheet.closures.iter().map(|closure| json!({
            "joint": closure.joint.0,
            "what": closure.kind.words(),
        })).collect::<Vec<_>>(),
        "purge": {
            "outdoors": sheet.purge.is_outdoors(),
            "working_over_2_psi": sheet.purge.high.map(GaugePressure::psi),
            "long": sheet.purge.long.iter().map(long).collect::<Vec<_>>(),
            "source": sheet.purge.source.document,
        },
        "to_be_signed": BLANKS,
        "units": if names.units().is_metric() { "metric" } else { "us" },
    })
}
