//! `stubout draw`: the permit sheet of each job, as SVG, PDF, PNG or DXF.

use super::input::{self, Studied, codebook, for_each, is_same, report};
use super::{Jobs, TROUBLE, machine, table};
use crate::changes::Changes;
use crate::codebook::Codebook;
use crate::export::packet;
use crate::export::pdf::PdfInfo;
use crate::export::svg::TextStyle;
use crate::file;
use crate::sheet::{self, About, Matter, Orientation, Paper, Work};
use crate::study::{Study, how_many};
use crate::units::Show;
use clap::{Args, ValueEnum};
use serde_json::json;
use std::fs;
use std::path::{Path, PathBuf};

/// How to draw.
#[derive(Args)]
pub struct DrawArguments {
    #[command(flatten)]
    jobs: Jobs,
    /// Folder for the sheets; beside each job when not given
    #[arg(long, value_name = "FOLDER")]
    into: Option<PathBuf>,
    /// What to write; may be given several times
    #[arg(long = "as", value_enum, default_values_t = [Format::Svg, Format::Pdf])]
    formats: Vec<Format>,
    /// Paper of the sheet
    #[arg(long, value_enum, default_value_t = PaperName::AnsiB)]
    paper: PaperName,
    /// Add the work sheets: work steps, pressure test, take-off, cut list, cutting plan
    #[arg(long)]
    work: bool,
    /// Add the permit checklist to the work sheets
    #[arg(long, alias = "permit-list", requires = "work")]
    permit_checklist: bool,
    /// Cloud and list what changed since this job was issued: its file, or the SVG of its first sheet
    #[arg(long, value_name = "ISSUED")]
    since: Option<PathBuf>,
    /// Turn the paper to portrait
    #[arg(long, alias = "upright")]
    portrait: bool,
    /// Text in the SVG: as outlines, the same everywhere, or live, to be edited
    #[arg(long, value_enum, default_value_t = Text::Outlines)]
    text: Text,
    /// Leave the job out of the SVG: without this the first sheet's SVG carries it inside, and can be opened like a job
    #[arg(long)]
    bare: bool,
    /// Dots per inch of the PNG
    #[arg(long, default_value_t = 150.0, value_name = "DPI")]
    dpi: f64,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    Svg,
    Pdf,
    Png,
    Dxf,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperName {
    AnsiA,
    AnsiB,
    A4,
    A3,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Text {
    Outlines,
    Live,
}

/// What was drawn of one job.
struct Drawn {
    written: Vec<PathBuf>,
    sheets: usize,
    remarks: Vec<String>,
    changes: Option<usize>,
    summary: String,
    must_fix: usize,
}

/// Draws each job.
pub fn run(arguments: &DrawArguments) -> u8 {
    let jobs = &arguments.jobs;
    let book = match codebook(jobs) {
        Ok(book) => book,
        Err(fault) => return report(&fault),
    };
    if let Some(folder) = &arguments.into
        && let Err(error) = fs::create_dir_all(folder)
    {
        return report(&format!("{}: can't make this folder: {error}", folder.display()));
    }
    if let Some(twice) = same_name(arguments) {
        return report(&format!(
            "{}: two jobs of this name would write the same sheet; draw them in two calls or without --into",
            twice.display()
        ));
    }
    let issued = arguments
        .since
        .as_ref()
        .map(|path| input::study(path, &book))
        .transpose();
    let issued = match issued {
        Ok(issued) => issued,
        Err(fault) => return report(&fault),
    };
    let results = for_each(jobs, &book, |path, studied| {
        draw(arguments, &book, path, &studied, issued.as_ref())
    });
    if jobs.json {
        machine::print("draw", &results, |drawn| {
            json!({
                "written": drawn.written.iter().map(|path| path.display().to_string()).collect::<Vec<_>>(),
                "sheets": drawn.sheets,
                "remarks": drawn.remarks,
                "changes": drawn.changes,
                "must_fix": drawn.must_fix,
            })
        });
    }
    let mut code = super::CLEAR;
    for (_, result) in &results {
        match result {
            Ok(drawn) if !jobs.json => table::out(&say(drawn)),
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

/// A job whose sheet would take the name of an earlier one's.
fn same_name(arguments: &DrawArguments) -> Option<&PathBuf> {
    let mut names: Vec<PathBuf> = Vec::new();
    arguments.jobs.jobs.iter().find(|job| {
        let name = target(arguments, job);
        let known = names.contains(&name);
        names.push(name);
        known
    })
}

/// Path of the sheets of a job, without an ending.
fn target(arguments: &DrawArguments, job: &Path) -> PathBuf {
    match &arguments.into {
        Some(folder) => folder.join(job.file_stem().unwrap_or(job.as_os_str())),
        None => job.with_extension(""),
    }
}

fn draw(
    arguments: &DrawArguments,
    book: &Codebook,
    path: &Path,
    studied: &Studied,
    issued: Option<&Studied>,
) -> Result<Drawn, String> {
    let paper = match arguments.paper {
        PaperName::AnsiA => Paper::AnsiA,
        PaperName::AnsiB => Paper::AnsiB,
        PaperName::A4 => Paper::A4,
        PaperName::A3 => Paper::A3,
    };
    let orientation = if arguments.portrait {
        Orientation::Portrait
    } else {
        Orientation::Landscape
    };
    let jobs = &arguments.jobs;
    let work = arguments.work.then(|| {
        let work = Work::of(&studied.job, &studied.checked.study, book);
        match arguments.permit_checklist {
            true => work.with_permit_list(&studied.job, &studied.checked.study, book),
            false => work,
        }
    });
    let matter = work.as_ref().map_or(Matter::Permit, Matter::Whole);
    let since =
        issued.map(|issued| Changes::studied(&issued.job, &issued.checked.study, &studied.job, &studied.checked.study));
    let about = About {
        matter,
        since: since.as_ref(),
    };
    let packet = sheet::compose_about(&studied.job, &studied.checked, book, paper, orientation, about);
    let read: Vec<PathBuf> = jobs.jobs.iter().chain(&arguments.since).cloned().collect();
    let target = target(arguments, path);
    let title = &studied.job.title;
    let info = PdfInfo {
        title: title.job.clone(),
        author: title.drawn_by.clone(),
        subject: "Gas piping isometric".to_owned(),
        keywords: Vec::new(),
    };
    let stem = target.file_name().unwrap_or_default();
    let carried = (!arguments.bare).then(|| file::element(&studied.job));
    let mut written = Vec::new();
    for format in &arguments.formats {
        let format = match (format, arguments.text) {
            (Format::Svg, Text::Outlines) => packet::Format::Svg(TextStyle::Outlines),
            (Format::Svg, Text::Live) => packet::Format::Svg(TextStyle::Live),
            (Format::Pdf, _) => packet::Format::Pdf,
            (Format::Png, _) => packet::Format::Png(arguments.dpi),
            (Format::Dxf, _) => packet::Format::Dxf,
        };
        for (name, bytes) in format.files(stem, &packet.sheets, &info, carried.as_deref()) {
            let bytes = bytes.map_err(|error| error.to_string())?;
            write(target.with_file_name(name), &read, &bytes, &mut written)?;
        }
    }
    Ok(Drawn {
        sheets: packet.sheets.len(),
        remarks: packet.remarks,
        changes: since.map(|since| since.list.len()),
        summary: summary(studied),
        must_fix: studied.checked.must_fix().count(),
        written,
    })
}

/// Writes one file, never over a job of this call.
fn write(path: PathBuf, jobs: &[PathBuf], bytes: &[u8], written: &mut Vec<PathBuf>) -> Result<(), String> {
    if jobs.iter().any(|job| is_same(&path, job)) {
        return Err(format!(
            "{}: the sheet would be written over the job; choose a folder with --into",
            path.display()
        ));
    }
    fs::write(&path, bytes).map_err(|error| format!("{}: can't be written: {error}", path.display()))?;
    written.push(path);
    Ok(())
}

/// A few lines about a job for the terminal.
fn summary(studied: &Studied) -> String {
    let Studied { job, checked } = studied;
    let study = &checked.study;
    let units = job.settings.units;
    let name = if job.title.job.is_empty() {
        "Untitled job"
    } else {
        &job.title.job
    };
    let mut text = format!(
        "{name}\n  {} outlets, {} connected ({}), {} sections\n",
        study.outlets.len(),
        study.total.heat.show(units),
        study.total.flow.show(units),
        study.sections.len()
    );
    for section in &study.sections {
        let Some(length) = section.sizing_length() else {
            text += &format!(
                "  {:>2}  {:<17} {:>9}, by its own rating\n",
                section.number,
                "hose or connector",
                section.load.flow.show(units)
            );
            continue;
        };
        let size = section
            .sizing
            .size
            .map_or("no size".to_owned(), |size| study.names.show(section.material, size));
        text += &format!(
            "  {:>2}  {size:<7} {:<9} {:>9} of {:<9} over {}\n",
            section.number,
            section.state.name(),
            section.load.flow.show(units),
            section
                .sizing
                .capacity()
                .map_or("–".to_owned(), |capacity| capacity.flow.show(units)),
            length.show(units)
        );
    }
    if let Some(worst) = worst_outlet(study) {
        text += &worst.pressure.map_or(String::new(), |pressure| {
            format!(
                "  lowest inlet pressure at full load: {} at {} {}\n",
                pressure.show(units),
                worst.tag,
                worst.name
            )
        });
    }
    text
}

fn worst_outlet(study: &Study) -> Option<&crate::network::Outlet> {
    let pressure = |outlet: &&crate::network::Outlet| outlet.pressure.map_or(f64::INFINITY, |pressure| pressure.pa());
    study.outlets.iter().min_by(|a, b| pressure(a).total_cmp(&pressure(b)))
}

fn say(drawn: &Drawn) -> String {
    let mut text = drawn.summary.clone();
    for remark in &drawn.remarks {
        text += &format!("  {remark}\n");
    }
    if drawn.must_fix > 0 {
        text += &format!(
            "  NOT READY: {}; `stubout check` lists them\n",
            how_many(drawn.must_fix, "must-fix finding")
        );
    }
    for path in &drawn.written {
        text += &format!("  wrote {}\n", path.display());
    }
    text + table::CAUTION + "\n"
}
