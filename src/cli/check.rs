//! `stubout check`: what was found, and whether something must be mended first.

use super::input::{Studied, print_each};
use super::{CLEAR, Jobs, NOT_READY, table};
use crate::codebook::Codebook;
use crate::rules::{Finding, Severity};
use crate::sheet;
use crate::study::{Place, how_many};
use serde_json::{Value, json};

/// Findings of one job, with names for their places.
struct Checked {
    findings: Vec<(String, Finding)>,
    /// Captions of fields of the title block that have no room for what was typed.
    cut: Vec<&'static str>,
}

/// Checks each job.
pub fn run(jobs: &Jobs) -> u8 {
    print_each(
        jobs,
        "check",
        |book, studied| {
            let code = if studied.checked.is_clear() { CLEAR } else { NOT_READY };
            (code, Checked::of(&studied, book))
        },
        machine,
        say,
    )
}

impl Checked {
    fn of(studied: &Studied, book: &Codebook) -> Checked {
        let cut = sheet::cut_values(&studied.job, &studied.checked, book);
        let named = |finding: &Finding| (place(studied, finding.place), finding.clone());
        Checked {
            findings: studied.checked.findings.iter().map(named).collect(),
            cut: cut.iter().map(|(field, _)| field.caption()).collect(),
        }
    }
}

/// A place in words.
pub fn place(studied: &Studied, place: Place) -> String {
    match place {
        Place::Job => "the job".to_owned(),
        Place::Joint(id) => {
            let label = studied.job.joints.get(id).and_then(|joint| joint.label.clone());
            label.map_or(id.to_string(), |label| format!("{label} ({id})"))
        }
        Place::Run(id) => id.to_string(),
        Place::Section(number) => format!("section {number}"),
    }
}

fn say(checked: &Checked) -> String {
    let mut text = String::new();
    for (place, finding) in &checked.findings {
        // Most sentences name their place themselves.
        let place = match finding.names_its_place() {
            true => String::new(),
            false => format!("{place}: "),
        };
        text += &format!("{:<8}  {place}{}\n", finding.severity.name(), finding.what);
        text += &format!("          {}\n", finding.remedy);
        text += &format!("          [{}; {}]\n", finding.rule, finding.basis);
    }
    if !checked.cut.is_empty() {
        text += &format!(
            "{:<8}  not all of this fits in the title block: {}\n          Shorten it; the notes of the sheets give it in full.\n",
            Severity::Check.name(),
            checked.cut.join(", ")
        );
    }
    let count = |severity| {
        checked
            .findings
            .iter()
            .filter(|(_, finding)| finding.severity == severity)
            .count()
    };
    text += &format!(
        "{}, {}, {}\n{}\n",
        how_many(count(Severity::MustFix), "must-fix finding"),
        how_many(count(Severity::Check), "check"),
        how_many(count(Severity::Note), "note"),
        table::CAUTION
    );
    text
}

fn machine(checked: &Checked) -> Value {
    let findings: Vec<Value> = checked
        .findings
        .iter()
        .map(|(place, finding)| {
            let (kind, number) = match finding.place {
                Place::Job => ("job", None),
                Place::Joint(id) => ("joint", Some(id.0)),
                Place::Run(id) => ("run", Some(id.0)),
                Place::Section(number) => ("section", u32::try_from(number).ok()),
            };
            json!({
                "rule": finding.rule,
                "severity": finding.severity.key(),
                "place": { "kind": kind, "number": number, "name": place },
                "what": finding.what,
                "remedy": finding.remedy,
                "basis": finding.basis,
            })
        })
        .collect();
    json!({ "findings": findings })
}
