//! Metric sheets: one unit for each kind of quantity, and no foot, inch or pound in what the tool says itself.

use super::sample::examples;
use super::{PAPERS, whole};
use stubout::codebook::Codebook;
use stubout::job::Job;
use stubout::rules::Checked;
use stubout::scene::Scene;
use stubout::units::UnitSystem;

/// Units that are not those of a metric sheet, or a second one of a kind: lengths of pieces are in mm (ISO 129-1), those
/// along which pipe is sized in m as the rows of capacity tables are, volumes in L.
const OTHER_UNITS: [&str; 20] = [
    "ft", "in", "psi", "psig", "lb", "cfh", "Btu/h", "Btu/ft³", "ft³", "gal", "°F", "w.c.", "Pa", "bar", "cm", "m³",
    "feet", "inches", "W", "MBH",
];

/// The profiles under which metric sheets are looked at, with the unit that pressures are not told in.
const PROFILES: [(&str, &str); 3] = [("us-ifgc", "kPa"), ("metric-equation", "kPa"), ("ca-b149", "mbar")];

/// What is not said by the tool: what a person typed, and the names of published tables, which have their own units.
fn said_by_others(job: &Job) -> Vec<String> {
    let typed = job.joints.iter().filter_map(|joint| joint.label.clone());
    let walls = job.runs.iter().flat_map(|run| &run.penetrations);
    let walls = walls.filter_map(|penetration| penetration.construction.clone());
    let read = Codebook::published()
        .tables()
        .iter()
        .map(|table| table.where_read_in_short());
    let title = [&job.title.description, &job.title.job].map(String::clone);
    let mut all: Vec<String> = typed.chain(walls).chain(read).chain(title).collect();
    // One may be a part of another.
    all.sort_by_key(|words| std::cmp::Reverse(words.len()));
    all
}

/// The words of a sheet in one line, without those of others.
fn own_words(sheet: &Scene, others: &[String]) -> String {
    let mut words = sheet.words().join(" ").replace('\u{a0}', " ");
    for other in others.iter().filter(|other| !other.trim().is_empty()) {
        words = words.replace(other.trim(), "…");
    }
    words
}

fn metric(job: &Job, profile: &str) -> (Job, Checked) {
    let mut job = job.clone();
    job.settings.profile = profile.to_owned();
    job.settings.units = UnitSystem::Metric;
    let checked = Checked::of(&job, Codebook::published());
    (job, checked)
}

/// The first figure with a unit that has no place on a metric sheet.
fn misplaced(words: &str, other: &str) -> Option<String> {
    let words: Vec<&str> = words.split_whitespace().collect();
    // What ends in a comma has no unit behind it.
    let digit = |letter: char| letter.is_ascii_digit();
    let is_figure =
        |word: &str| word.trim_start_matches(['(', '+', '−', '-']).starts_with(digit) && word.ends_with(digit);
    let pair = words.windows(2).find(|pair| {
        let unit = pair[1].trim_end_matches([',', ';', ':', ')']);
        let unit = if unit == "w.c." {
            unit
        } else {
            unit.trim_end_matches('.')
        };
        is_figure(pair[0]) && (unit == other || OTHER_UNITS.contains(&unit))
    });
    let feet = words.iter().find(|word| word.contains("'-"));
    pair.map(|pair| pair.join(" ")).or(feet.map(|word| (*word).to_owned()))
}

#[test]
fn metric_sheets_have_one_unit_for_each_kind_of_quantity() {
    for (name, (job, _)) in &examples() {
        for (profile, other) in PROFILES {
            let case = metric(job, profile);
            let others = said_by_others(&case.0);
            for (number, sheet) in whole(&case, PAPERS[0]).sheets.iter().enumerate() {
                let words = own_words(sheet, &others);
                let found = misplaced(&words, other);
                assert_eq!(found, None, "{name} under {profile}, sheet {}: {words}", number + 1);
            }
        }
    }
}

#[test]
fn metric_levels_have_one_precision_and_zero_its_sign() {
    for (name, (job, _)) in &examples() {
        let case = metric(job, "metric-equation");
        let mut levels = 0;
        for sheet in &whole(&case, PAPERS[0]).sheets {
            for words in sheet.words() {
                // A line of the cutting plan may begin with a plus too.
                let level = words.strip_prefix(['+', '−', '±']);
                let Some(level) = level.filter(|level| level.starts_with(|first: char| first.is_ascii_digit())) else {
                    continue;
                };
                levels += 1;
                let figure = level.strip_suffix(" mm").unwrap_or(level);
                assert!(figure.chars().all(|digit| digit.is_ascii_digit()), "{name}: {words}");
                assert_eq!(figure == "0", words == "±0", "{name}: {words}");
            }
        }
        assert!(levels > 0, "{name}: no level was found");
    }
}

#[test]
fn a_misplaced_unit_is_found() {
    for (words, found) in [
        ("over 70 ft of pipe", true),
        ("at 2 psi.", true),
        ("(0.5 in w.c., F)", true),
        ("8.2 cm, with fittings", true),
        ("8.2 m, with fittings", false),
        ("125 Pa", true),
        ("1'-6\"", true),
        ("70 mm in all, DN 25, in existing pipe", false),
        ("17.4 mbar, 283.2 L", false),
        ("2.12 m³/h of 12 m³/h", false),
    ] {
        assert_eq!(misplaced(words, "kPa").is_some(), found, "{words}");
    }
}
