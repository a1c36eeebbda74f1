//! `stubout changes`: what is different in each job from the job as it was issued.

use super::input::{self, Studied};
use super::{CLEAR, Jobs, table};
use crate::changes::{Change, ChangedPart, Changes, Turn};
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// What is compared.
#[derive(Args)]
pub struct ChangesArguments {
    /// The job as it was issued: its file, or the SVG of its first sheet
    #[arg(value_name = "ISSUED")]
    issued: PathBuf,
    /// Compare with this variant of the issued job; with --variant, two variants of one file are compared
    #[arg(long, value_name = "NAME")]
    issued_variant: Option<String>,
    #[command(flatten)]
    jobs: Jobs,
}

/// Prints what changed in each job.
pub fn run(arguments: &ChangesArguments) -> u8 {
    let jobs = &arguments.jobs;
    // Between two variants of one file it is the shown one that is compared with.
    let is_one_file = jobs.jobs.iter().any(|job| input::is_same(job, &arguments.issued));
    let usual = jobs.variant.as_deref().filter(|_| !is_one_file);
    let issued = input::codebook(jobs)
        .and_then(|book| input::issued(&arguments.issued, &book, arguments.issued_variant.as_deref(), usual));
    let issued = match issued {
        Ok(issued) => issued,
        Err(fault) => return input::report(&fault),
    };
    input::print_each(
        jobs,
        "changes",
        |_, Studied { job, checked, .. }| {
            (
                CLEAR,
                Changes::studied(&issued.job, &issued.checked.study, &job, &checked.study),
            )
        },
        machine,
        say,
    )
}

/// What a turn is called for machines.
const fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Added => "added",
        Turn::TakenAway => "removed",
        Turn::Changed => "changed",
        Turn::Follows => "follows",
    }
}

fn machine(changes: &Changes) -> Value {
    let part = |part: &ChangedPart| match part {
        ChangedPart::Title => json!("title"),
        ChangedPart::Settings => json!("settings"),
        ChangedPart::Run(id) => json!({ "run": id.0 }),
        ChangedPart::Joint(id) => json!({ "joint": id.0 }),
        ChangedPart::Device(id) => json!({ "device_at": id.0 }),
        ChangedPart::Passage(id, at) => json!({ "penetration_of": id.0, "number": at + 1 }),
        ChangedPart::Note(at) => json!({ "note": at + 1 }),
    };
    let change = |change: &Change| {
        json!({
            "turn": turn(change.turn),
            "part": part(&change.part),
            "name": change.name,
            "words": change.words,
        })
    };
    json!({
        "issued": changes.issued.as_ref().map(|issued| &issued.mark),
        "revision": changes.mark,
        "changes": changes.list.iter().map(change).collect::<Vec<_>>(),
    })
}

fn say(changes: &Changes) -> String {
    let mut text = format!("{}\n", changes.heading());
    if changes.list.is_empty() {
        text += "  Nothing drawn or entered has changed.\n";
    }
    let rows: Vec<Vec<String>> = (changes.list.iter())
        .map(|change| vec![change.name.clone(), change.said()])
        .collect();
    if !rows.is_empty() {
        for line in table::columns(&["where", "what"], &rows).lines() {
            text += &format!("  {line}\n");
        }
    }
    text + table::CAUTION + "\n"
}
