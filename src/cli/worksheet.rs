//! `stubout worksheet`: a worksheet of each job for a class, and its key.

use super::draw::PaperName;
use super::input::{self, Studied, for_each, report};
use super::output::{self, Over, Target};
use super::{CLEAR, Jobs, TROUBLE, machine, table};
use crate::codebook::Codebook;
use crate::drawing::{Asked, Blank};
use crate::export::packet;
use crate::export::pdf::PdfInfo;
use crate::export::svg::TextStyle;
use crate::job::Job;
use crate::lesson::class_set;
use crate::rules::Checked;
use crate::scene::Scene;
use crate::sheet::{Matter, Orientation, Packet, compose_about, sizing_steps};
use crate::study::how_many;
use clap::{Args, ValueEnum};
use rayon::prelude::*;
use serde_json::json;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// What to ask, and how to draw it.
#[derive(Args)]
pub struct WorksheetArguments {
    #[command(flatten)]
    jobs: Jobs,
    /// What is blank on the worksheet; sizes leave capacities blank too
    #[arg(long, value_enum, value_delimiter = ',', value_name = "WHAT", default_values_t = [Asks::Sizes, Asks::Findings])]
    blank: Vec<Asks>,
    /// Make a class set: so many different worksheets, with inputs and lengths varied and every load well clear of a limit of its table
    #[arg(long, value_name = "N")]
    set: Option<usize>,
    /// Which class set: the same number gives the same set
    #[arg(long, default_value_t = 1, requires = "set", value_name = "NUMBER")]
    seed: u64,
    /// Draw the sizing step by step, no worksheet: a sheet for each step, with the pipe and the row of the table it reads
    #[arg(long, conflicts_with_all = ["set", "blank"])]
    step_by_step: bool,
    /// Write a file for each worksheet and key of a set, not one with all worksheets and one with all keys
    #[arg(long, requires = "set")]
    separate: bool,
    /// Folder for the sheets; beside each job when not given
    #[arg(long, value_name = "FOLDER")]
    into: Option<PathBuf>,
    /// What to write; may be given several times
    #[arg(long = "as", value_enum, default_values_t = [Format::Pdf])]
    formats: Vec<Format>,
    /// Paper of the sheets
    #[arg(long, value_enum, default_value_t = PaperName::AnsiB)]
    paper: PaperName,
    /// Turn the paper to portrait
    #[arg(long)]
    portrait: bool,
    /// Write over files that this program did not write
    #[arg(long)]
    force: bool,
    /// Dots per inch of the PNG
    #[arg(long, default_value_t = 150.0, value_name = "DPI")]
    dpi: f64,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Asks {
    Sizes,
    SizingLengths,
    Loads,
    Capacities,
    FittingCounts,
    Findings,
    CutLengths,
    Pressures,
}

impl Asks {
    const fn blank(self) -> Blank {
        match self {
            Asks::Sizes => Blank::Sizes,
            Asks::SizingLengths => Blank::SizingLengths,
            Asks::Loads => Blank::Loads,
            Asks::Capacities => Blank::Capacities,
            Asks::FittingCounts => Blank::FittingCounts,
            Asks::Findings => Blank::Findings,
            Asks::CutLengths => Blank::CutLengths,
            Asks::Pressures => Blank::Pressures,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Svg,
    Pdf,
    Png,
}

/// What was written of one job.
struct Made {
    worksheets: usize,
    /// The steps of a sizing that was drawn in their place.
    steps: usize,
    written: Vec<PathBuf>,
    blank: Vec<&'static str>,
    remarks: Vec<String>,
}

/// Draws the worksheet and the key of each job.
pub fn run(arguments: &WorksheetArguments) -> u8 {
    let jobs = &arguments.jobs;
    let book = match input::codebook(jobs) {
        Ok(book) => book,
        Err(fault) => return report(&fault),
    };
    if let Some(folder) = &arguments.into
        && let Err(error) = fs::create_dir_all(folder)
    {
        return report(&format!("{}: can't make this folder: {error}", folder.display()));
    }
    if let Some(fault) = clash(arguments) {
        return report(&fault);
    }
    let results = for_each(jobs, &book, |path, studied| make(arguments, &book, path, &studied));
    let mut code = CLEAR;
    if jobs.json {
        code = machine::print("worksheet", &results, |made| {
            json!({
                "written": made.written.iter().map(|path| path.display().to_string()).collect::<Vec<_>>(),
                "worksheets": made.worksheets,
                "steps": made.steps,
                "blank": made.blank,
                "remarks": made.remarks,
            })
        });
    }
    for (_, result) in &results {
        match result {
            Ok(made) if !jobs.json => code = code.max(table::out(&say(made))),
            Ok(_) => {}
            Err(fault) => {
                code = TROUBLE;
                if !jobs.json {
                    report(fault);
                }
            }
        }
    }
    code
}

/// Why two jobs of a call would write one file.
fn clash(arguments: &WorksheetArguments) -> Option<String> {
    let target = |job: &PathBuf| Target::of(job, arguments.into.as_deref());
    let jobs = &arguments.jobs.jobs;
    jobs.iter().enumerate().find_map(|(at, job)| {
        let other = jobs[..at].iter().find(|other| target(other) == target(job))?;
        Some(format!(
            "{} and {} would write the same sheets; draw them in two calls, into two folders",
            other.display(),
            job.display()
        ))
    })
}

fn make(arguments: &WorksheetArguments, book: &Codebook, path: &Path, studied: &Studied) -> Result<Made, String> {
    let blanks: Vec<Blank> = arguments.blank.iter().map(|asks| asks.blank()).collect();
    let asked = Asked::of(&blanks);
    let target = Target::of(path, arguments.into.as_deref());
    if arguments.step_by_step {
        let (paper, turn) = (arguments.paper.paper(), arguments.orientation());
        let sheets = sizing_steps(&studied.job, &studied.checked, book, paper, turn).sheets;
        return Ok(Made {
            worksheets: 0,
            steps: sheets.len(),
            written: write(arguments, &target, "sizing", &sheets, &studied.job.title.job)?,
            blank: Vec::new(),
            remarks: Vec::new(),
        });
    }
    let packets: Vec<Packet> = match arguments.set {
        None => vec![compose(arguments, book, (&studied.job, &studied.checked), asked)],
        Some(wanted) => {
            let jobs = class_set(&studied.job, book, wanted, arguments.seed)
                .map_err(|why| format!("{}: {why}", path.display()))?;
            let made = jobs.par_iter().map(|job| {
                let checked = Checked::of(job, book);
                compose(arguments, book, (job, &checked), asked)
            });
            made.collect()
        }
    };
    let mut written = Vec::new();
    let blank: Vec<Vec<Scene>> = packets.iter().map(Packet::worksheet).collect();
    let keys: Vec<Vec<Scene>> = packets.iter().map(Packet::key).collect();
    for (name, copies) in [("worksheet", blank), ("key", keys)] {
        let job = &studied.job.title.job;
        if arguments.separate {
            for (at, sheets) in copies.iter().enumerate() {
                let name = format!("{name}-{:02}", at + 1);
                written.extend(write(arguments, &target, &name, sheets, job)?);
            }
        } else {
            written.extend(write(arguments, &target, name, &copies.concat(), job)?);
        }
    }
    // A remark that several worksheets have is made once.
    let mut remarks: Vec<String> = Vec::new();
    for remark in packets.into_iter().flat_map(|packet| packet.remarks) {
        if !remarks.contains(&remark) {
            remarks.push(remark);
        }
    }
    Ok(Made {
        worksheets: arguments.set.unwrap_or(1),
        steps: 0,
        written,
        blank: asked.blanks().map(Blank::name).collect(),
        remarks,
    })
}

fn compose(arguments: &WorksheetArguments, book: &Codebook, (job, checked): (&Job, &Checked), asked: Asked) -> Packet {
    let (paper, turn) = (arguments.paper.paper(), arguments.orientation());
    compose_about(job, checked, book, paper, turn, Matter::Worksheet(asked))
}

impl WorksheetArguments {
    const fn orientation(&self) -> Orientation {
        match self.portrait {
            true => Orientation::Portrait,
            false => Orientation::Landscape,
        }
    }
}

/// Writes sheets in every format that is asked for; gives the paths. No job goes into them.
fn write(
    arguments: &WorksheetArguments,
    target: &Target,
    name: &str,
    sheets: &[Scene],
    job: &str,
) -> Result<Vec<PathBuf>, String> {
    let mut stem: OsString = target.stem.clone();
    stem.push(format!("-{name}"));
    let info = PdfInfo {
        title: format!("{job} {name}").trim().to_owned(),
        author: String::new(),
        subject: "Gas piping exercise, not for permit".to_owned(),
        keywords: Vec::new(),
    };
    let over = Over {
        read: &arguments.jobs.jobs,
        force: arguments.force,
    };
    let mut written = Vec::new();
    for format in &arguments.formats {
        let format = match format {
            Format::Svg => packet::Format::Svg(TextStyle::Outlines),
            Format::Pdf => packet::Format::Pdf,
            Format::Png => packet::Format::Png(arguments.dpi),
        };
        for (name, bytes) in format.files(&stem, sheets, &info, None) {
            let path = target.path(&name);
            let bytes = bytes.map_err(|error| error.to_string())?;
            output::write(&path, &bytes, over)?;
            written.push(path);
        }
    }
    Ok(written)
}

fn say(made: &Made) -> String {
    let mut text = match made.steps {
        0 => format!(
            "{}, blank: {}\n",
            how_many(made.worksheets, "worksheet"),
            made.blank.join(", ")
        ),
        steps => format!("sizing in {}\n", how_many(steps, "step")),
    };
    for remark in &made.remarks {
        text += &format!("  {remark}\n");
    }
    for path in &made.written {
        text += &format!("  wrote {}\n", path.display());
    }
    text + table::CAUTION + "\n"
}
