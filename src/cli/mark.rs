//! `stubout mark`: answers of students marked by the key of a job, with the likely slip behind each wrong size.

use super::input::{self, report, text};
use super::{Jobs, machine, table};
use crate::codebook::Codebook;
use crate::export::csv;
use crate::job::Job;
use crate::lesson::{Judgment, MarkedPaper, Marker, Paper, Slip, class_set, papers};
use crate::study::Study;
use crate::units::UnitSystem;
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// What is marked, and by what.
#[derive(Args)]
pub struct MarkArguments {
    /// Job file of the worksheet
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// Answers: a first line like `student,1,2,3` (numbers of sections; `worksheet` for that of a class set), then a line
    /// for each student
    #[arg(value_name = "ANSWERS")]
    answers: PathBuf,
    /// The worksheets are of a class set of so many
    #[arg(long, value_name = "N")]
    set: Option<usize>,
    /// Which class set
    #[arg(long, default_value_t = 1, requires = "set", value_name = "NUMBER")]
    seed: u64,
    /// Print the class summary as comma-separated values, for a spreadsheet
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// A profile of local practice of your own
    #[arg(long, value_name = "FILE")]
    profile: Option<PathBuf>,
    /// A capacity table of your own; may be given again
    #[arg(long = "table", value_name = "FILE")]
    tables: Vec<PathBuf>,
    /// Print for machines: one JSON value, described by `stubout schema`
    #[arg(long)]
    json: bool,
}

/// Everything that was marked.
struct Marked {
    units: UnitSystem,
    papers: Vec<MarkedPaper>,
    /// What in the file was not asked: the student and the numbers.
    unasked: Vec<String>,
}

/// Marks the answers of a file.
pub fn run(arguments: &MarkArguments) -> u8 {
    let marked = match mark(arguments) {
        Ok(marked) => marked,
        Err(fault) => return report(&fault),
    };
    if arguments.json {
        let result = (arguments.job.clone(), Ok(marked));
        return machine::print("mark", &[result], machine);
    }
    for words in &marked.unasked {
        report(words);
    }
    match arguments.csv {
        true => table::out(&csv::write(summary(&marked))),
        false => table::out(&say(&marked)),
    }
}

fn mark(arguments: &MarkArguments) -> Result<Marked, String> {
    let jobs = Jobs {
        jobs: vec![arguments.job.clone()],
        profile: arguments.profile.clone(),
        lengths: None,
        tables: arguments.tables.clone(),
        variant: None,
        json: arguments.json,
    };
    let book = input::codebook(&jobs)?;
    let studied = input::study(&arguments.job, &book)?;
    let named = arguments.answers.display();
    let papers = papers(&text(&arguments.answers)?).map_err(|why| format!("{named}, {why}"))?;
    let keys: Vec<Job> = match arguments.set {
        None => vec![studied.job],
        Some(wanted) => class_set(&studied.job, &book, wanted, arguments.seed)
            .map_err(|why| format!("{}: {why}", arguments.job.display()))?,
    };
    let units = keys.first().map_or(UnitSystem::Us, |job| job.settings.units);
    let mut marked = Marked {
        units,
        papers: Vec::with_capacity(papers.len()),
        unasked: Vec::new(),
    };
    for paper in &papers {
        let key = key(paper, &keys, arguments.set.is_some()).map_err(|why| format!("{named}, {why}"))?;
        let (one, unasked) = by(key, &book, paper);
        marked.papers.push(one);
        if !unasked.is_empty() {
            let numbers: Vec<String> = unasked.iter().map(usize::to_string).collect();
            marked.unasked.push(format!(
                "{}: no size is asked for section {}: not marked",
                paper.student,
                numbers.join(", ")
            ));
        }
    }
    Ok(marked)
}

/// The job of a paper.
fn key<'a>(paper: &Paper, keys: &'a [Job], is_set: bool) -> Result<&'a Job, String> {
    let student = &paper.student;
    let number = match (paper.worksheet, is_set) {
        (Some(number), true) => number,
        (None, true) => {
            return Err(format!(
                "{student}: which worksheet of the set is not given; add a column `worksheet`"
            ));
        }
        (None | Some(1), false) => 1,
        (Some(number), false) => {
            return Err(format!(
                "{student}: worksheet {number} is of a class set; mark it with --set and --seed"
            ));
        }
    };
    keys.get(number - 1).ok_or_else(|| {
        format!(
            "{student}: worksheet {number} is not among the {} of this set; check its number",
            keys.len()
        )
    })
}

fn by(job: &Job, book: &Codebook, paper: &Paper) -> (MarkedPaper, Vec<usize>) {
    let study = Study::of(job, book);
    let marker = Marker::of(job, book, &study);
    (marker.mark(paper), marker.unasked(paper))
}

fn say(marked: &Marked) -> String {
    let mut text = String::new();
    for paper in &marked.papers {
        text += &format!("{}: {} of {} right\n", called(paper), paper.right(), paper.judged.len());
        for judged in &paper.judged {
            let said = match &judged.verdict {
                Judgment::Right => continue,
                Judgment::Missing => "no answer".to_owned(),
                Judgment::NoSize => format!("`{}` is not a size of this pipe", judged.answer),
                Judgment::Wrong { words, slips, .. } => {
                    let slips: Vec<String> = slips.iter().map(|slip| slip.words(marked.units)).collect();
                    match slips.is_empty() {
                        true => format!("{words}. No common mistake gives this size"),
                        false => format!("{words}. Likely: {}", slips[..slips.len().min(2)].join("; or ")),
                    }
                }
            };
            text += &format!("  section {}: {said}. Right is {}.\n", judged.section, judged.right);
        }
    }
    if marked.papers.len() > 1 {
        text += &format!("\nClass of {}\n", marked.papers.len());
        for (slip, count) in common(marked) {
            text += &format!("  {count} × {slip}\n");
        }
    }
    text + table::CAUTION + "\n"
}

fn called(paper: &MarkedPaper) -> String {
    match paper.worksheet {
        Some(number) => format!("{} (worksheet {number})", paper.student),
        None => paper.student.clone(),
    }
}

/// How often each slip is likely in the class, the most usual first. A wrong size with several counts for each.
fn common(marked: &Marked) -> Vec<(&'static str, usize)> {
    let mut counts: Vec<(&'static str, usize)> = Vec::new();
    for judged in marked.papers.iter().flat_map(|paper| &paper.judged) {
        for key in keys(&judged.verdict) {
            match counts.iter_mut().find(|known| known.0 == key) {
                Some((_, count)) => *count += 1,
                None => counts.push((key, 1)),
            }
        }
    }
    counts.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    counts
}

/// The kinds of slip of an answer, each once.
fn keys(verdict: &Judgment) -> Vec<&'static str> {
    let Judgment::Wrong { slips, .. } = verdict else {
        return Vec::new();
    };
    let mut keys: Vec<&'static str> = slips.iter().map(Slip::key).collect();
    keys.dedup();
    keys
}

/// A row for each student, and one for the class: how many were right, and section by section what was wrong.
fn summary(marked: &Marked) -> Vec<Vec<String>> {
    let most = marked.papers.iter().map(|paper| paper.judged.len()).max().unwrap_or(0);
    let sections: Vec<usize> = (marked.papers.iter())
        .find(|paper| paper.judged.len() == most)
        .map_or(Vec::new(), |paper| {
            paper.judged.iter().map(|judged| judged.section).collect()
        });
    let head = ["student", "worksheet", "right", "of"].map(str::to_owned);
    let mut rows = vec![
        head.into_iter()
            .chain(sections.iter().map(|number| format!("section {number}")))
            .collect(),
    ];
    for paper in &marked.papers {
        let mut row = vec![
            paper.student.clone(),
            paper.worksheet.map_or(String::new(), |number| number.to_string()),
            paper.right().to_string(),
            paper.judged.len().to_string(),
        ];
        row.extend(paper.judged.iter().map(|judged| match &judged.verdict {
            Judgment::Right => "right".to_owned(),
            Judgment::Missing => "no answer".to_owned(),
            Judgment::NoSize => format!("{}: no size", judged.answer),
            Judgment::Wrong { .. } => match keys(&judged.verdict).as_slice() {
                [] => format!("{}: wrong", judged.answer),
                keys => format!("{}: {}", judged.answer, keys.join(" or ")),
            },
        }));
        rows.push(row);
    }
    let right = |section: &usize| {
        let all = marked.papers.iter().flat_map(|paper| &paper.judged);
        let right = all.filter(|judged| judged.section == *section && judged.verdict == Judgment::Right);
        right.count().to_string()
    };
    let total: usize = marked.papers.iter().map(MarkedPaper::right).sum();
    let asked: usize = marked.papers.iter().map(|paper| paper.judged.len()).sum();
    let class = ["class".to_owned(), String::new(), total.to_string(), asked.to_string()];
    rows.push(class.into_iter().chain(sections.iter().map(right)).collect());
    rows
}

fn machine(marked: &Marked) -> Value {
    let paper = |paper: &MarkedPaper| {
        let judged = paper.judged.iter().map(|judged| {
            let (verdict, words, slips) = match &judged.verdict {
                Judgment::Right => ("right", None, Vec::new()),
                Judgment::Missing => ("missing", None, Vec::new()),
                Judgment::NoSize => ("no_size", None, Vec::new()),
                Judgment::Wrong { words, slips, carries } => {
                    let verdict = if *carries { "larger_than_needed" } else { "too_small" };
                    (
                        verdict,
                        Some(words),
                        slips.iter().map(|slip| slip.words(marked.units)).collect(),
                    )
                }
            };
            json!({
                "section": judged.section,
                "answer": judged.answer,
                "right": judged.right,
                "verdict": verdict,
                "words": words,
                "slips": slips,
                "slip_kinds": keys(&judged.verdict).iter().map(|key| key.replace(' ', "_")).collect::<Vec<_>>(),
            })
        });
        json!({
            "student": paper.student,
            "worksheet": paper.worksheet,
            "right": paper.right(),
            "asked": paper.judged.len(),
            "answers": judged.collect::<Vec<_>>(),
        })
    };
    json!({
        "papers": marked.papers.iter().map(paper).collect::<Vec<_>>(),
        "unasked": marked.unasked,
    })
}
