//! `stubout draw`: the permit sheet of each job, as SVG, PDF, PNG or DXF.

use super::input::{self, Book, Studied, codebook, for_each, report};
use super::output::{self, Over, Target};
use super::{Jobs, TROUBLE, machine, table};
use crate::changes::Changes;
use crate::codebook::Codebook;
use crate::export::packet;
use crate::export::pdf::PdfInfo;
use crate::export::svg::TextStyle;
use crate::file;
use crate::sheet::{self, About, Arrange, Matter, Orientation, Packet, Paper, Turn, Work};
use crate::study::{Study, how_many};
use crate::units::Show;
use clap::{Args, ValueEnum};
use serde_json::json;
use std::collections::HashMap;
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
    /// Add a plan to scale: pipe at its true lengths, seen from above
    #[arg(long)]
    plan: bool,
    /// Add the permit checklist to the work sheets
    #[arg(long, alias = "permit-list", requires = "work")]
    permit_checklist: bool,
    /// Cloud and list what changed since this job was issued: its file, or the SVG of its first sheet
    #[arg(long, value_name = "ISSUED")]
    since: Option<PathBuf>,
    /// Turn the paper to portrait; if neither is given, whichever takes fewer sheets
    #[arg(long, alias = "upright")]
    portrait: bool,
    /// Keep the paper landscape
    #[arg(long, conflicts_with = "portrait")]
    landscape: bool,
    /// Arrange drawn lengths for legibility: always, never, or only where lines cross or labels do not fit
    #[arg(long, value_enum, default_value_t = Arranging::WhenNeeded)]
    arrange: Arranging,
    /// Text in the SVG: as outlines, the same everywhere, or live, to be edited
    #[arg(long, value_enum, default_value_t = Text::Outlines)]
    text: Text,
    /// Do not embed the job in the SVG: else the first sheet's SVG holds it and can be opened like a job
    #[arg(long)]
    bare: bool,
    /// Write sheets over files that this program did not write
    #[arg(long)]
    force: bool,
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

/// Paper by the names that people type.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperName {
    #[value(alias = "letter")]
    AnsiA,
    #[value(alias = "tabloid")]
    AnsiB,
    A4,
    A3,
}

impl PaperName {
    /// The paper.
    pub(super) const fn paper(self) -> Paper {
        match self {
            PaperName::AnsiA => Paper::AnsiA,
            PaperName::AnsiB => Paper::AnsiB,
            PaperName::A4 => Paper::A4,
            PaperName::A3 => Paper::A3,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Arranging {
    Always,
    Never,
    WhenNeeded,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Text {
    Outlines,
    Live,
}

/// What was drawn of one job.
struct Drawn {
    written: Vec<PathBuf>,
    /// Sheets of other sets that lie there under the same name.
    others: Vec<PathBuf>,
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
    let issued = arguments
        .since
        .as_ref()
        .map(|path| input::issued(path, &book, None, arguments.jobs.variant.as_deref()))
        .transpose();
    let issued = match issued {
        Ok(issued) => issued,
        Err(fault) => return report(&fault),
    };
    if let Some(fault) = clash(arguments, &book, issued.as_ref()) {
        return report(&fault);
    }
    let results = for_each(jobs, &book, |path, studied| {
        draw(arguments, &book, path, &studied, issued.as_ref())
    });
    let mut code = super::CLEAR;
    if jobs.json {
        code = machine::print("draw", &results, |drawn| {
            json!({
                "written": drawn.written.iter().map(|path| path.display().to_string()).collect::<Vec<_>>(),
                "sheets": drawn.sheets,
                "others": drawn.others.iter().map(|path| path.display().to_string()).collect::<Vec<_>>(),
                "remarks": drawn.remarks,
                "changes": drawn.changes,
                "must_fix": drawn.must_fix,
            })
        });
    }
    for (_, result) in &results {
        match result {
            Ok(drawn) if !jobs.json => code = code.max(table::out(&say(drawn))),
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

/// Draws a job that the program brings with it, as if its file were the one that the arguments name.
pub fn run_built_in(arguments: &DrawArguments, text: &str) -> u8 {
    let drawn = codebook(&arguments.jobs).and_then(|book| {
        let path = &arguments.jobs.jobs[0];
        let studied = input::studied(path, text.as_bytes(), &book)?;
        draw(arguments, &book, path, &studied, None)
    });
    match drawn {
        Ok(drawn) => table::out(&say(&drawn)),
        Err(fault) => report(&fault),
    }
}

/// Why two jobs of a call would write one file, the sheets of each counted; nothing where each has its own.
fn clash(arguments: &DrawArguments, book: &Book, issued: Option<&Studied>) -> Option<String> {
    let all = &arguments.jobs.jobs;
    let targets: Vec<Target> = all.iter().map(|job| target(arguments, job)).collect();
    let mut stems: HashMap<(&Path, &[u8]), usize> = HashMap::new();
    for target in &targets {
        *stems.entry((&target.folder, plain_stem(target))).or_default() += 1;
    }
    let mut taken: HashMap<PathBuf, usize> = HashMap::new();
    for (at, (job, target)) in all.iter().zip(&targets).enumerate() {
        if stems[&(target.folder.as_path(), plain_stem(target))] < 2 {
            continue;
        }
        // What cannot be read is told where it is drawn; it writes nothing.
        let Ok(studied) = input::study(job, book) else { continue };
        let sheets = Asked::of(arguments, book, &studied, issued)
            .packet(arguments, book, &studied)
            .sheets
            .len();
        for format in &arguments.formats {
            for name in format.of(arguments).names(&target.stem, sheets) {
                let path = target.path(&name);
                if let Some(other) = taken.insert(path.clone(), at).filter(|other| *other != at) {
                    return Some(format!(
                        "{}: {} and {} would both write this sheet; draw them in two calls, into two folders",
                        path.display(),
                        all[other].display(),
                        job.display()
                    ));
                }
            }
        }
    }
    None
}

/// The stem without a number at its end, as sheets have: where those differ no two files have one name.
fn plain_stem(target: &Target) -> &[u8] {
    let stem = target.stem.as_encoded_bytes();
    let end = stem
        .iter()
        .rposition(|byte| !byte.is_ascii_digit())
        .map_or(0, |at| at + 1);
    match &stem[..end] {
        [plain @ .., b'-'] if end < stem.len() => plain,
        _ => stem,
    }
}

/// Where the sheets of a job go.
fn target(arguments: &DrawArguments, job: &Path) -> Target {
    Target::of(job, arguments.into.as_deref())
}

impl Format {
    /// The format with what the arguments say of it.
    fn of(self, arguments: &DrawArguments) -> packet::Format {
        match (self, arguments.text) {
            (Format::Svg, Text::Outlines) => packet::Format::Svg(TextStyle::Outlines),
            (Format::Svg, Text::Live) => packet::Format::Svg(TextStyle::Live),
            (Format::Pdf, _) => packet::Format::Pdf,
            (Format::Png, _) => packet::Format::Png(arguments.dpi),
            (Format::Dxf, _) => packet::Format::Dxf,
        }
    }
}

/// What the sheets of a job are about.
struct Asked {
    work: Option<Work>,
    since: Option<Changes>,
}

impl Asked {
    fn of(arguments: &DrawArguments, book: &Codebook, studied: &Studied, issued: Option<&Studied>) -> Asked {
        let (job, study) = (&studied.job, &studied.checked.study);
        let work = arguments.work.then(|| {
            let work = Work::of(job, study, book);
            match arguments.permit_checklist {
                true => work.with_permit_list(job, study, book),
                false => work,
            }
        });
        let since = issued.map(|issued| Changes::studied(&issued.job, &issued.checked.study, job, study));
        Asked { work, since }
    }

    fn packet(&self, arguments: &DrawArguments, book: &Codebook, studied: &Studied) -> Packet {
        let paper = arguments.paper.paper();
        let turn = match (arguments.portrait, arguments.landscape) {
            (true, _) => Turn::Chosen(Orientation::Portrait),
            (false, true) => Turn::Chosen(Orientation::Landscape),
            (false, false) => Turn::Fewest,
        };
        let about = About {
            matter: self.work.as_ref().map_or(Matter::Permit, Matter::Whole),
            since: self.since.as_ref(),
            arrange: match arguments.arrange {
                Arranging::Always => Arrange::Always,
                Arranging::Never => Arrange::Never,
                Arranging::WhenNeeded => Arrange::WhenNeeded,
            },
        };
        let packet = sheet::compose_about(&studied.job, &studied.checked, book, paper, turn, about);
        if !arguments.plan {
            return packet;
        }
        let orientation = match turn {
            Turn::Chosen(orientation) => orientation,
            Turn::Fewest => Orientation::Landscape,
        };
        let plan = sheet::compose_plan(&studied.job, &studied.checked, book, paper, orientation);
        packet.and(plan)
    }
}

fn draw(
    arguments: &DrawArguments,
    book: &Codebook,
    path: &Path,
    studied: &Studied,
    issued: Option<&Studied>,
) -> Result<Drawn, String> {
    let asked = Asked::of(arguments, book, studied, issued);
    let packet = asked.packet(arguments, book, studied);
    let read: Vec<PathBuf> = arguments.jobs.jobs.iter().chain(&arguments.since).cloned().collect();
    let target = target(arguments, path);
    let title = &studied.job.title;
    let info = PdfInfo {
        title: title.job.clone(),
        author: title.drawn_by.clone(),
        subject: "Gas piping isometric".to_owned(),
        keywords: Vec::new(),
    };
    // A profile of the call may not be there where the job is opened next.
    let carried = (!arguments.bare).then(|| file::element(&studied.own));
    let over = Over {
        read: &read,
        force: arguments.force,
    };
    let mut written = Vec::new();
    for format in &arguments.formats {
        let format = format.of(arguments);
        for (name, bytes) in format.files(&target.stem, &packet.sheets, &info, carried.as_deref()) {
            let path = target.path(&name);
            let bytes = bytes.map_err(|error| error.to_string())?;
            output::write(&path, &bytes, over)?;
            written.push(path);
        }
    }
    let formats = arguments.formats.iter().map(|format| format.of(arguments));
    let others = formats
        .filter(|format| format.is_by_sheet())
        .flat_map(|format| target.others(format.ending(), &written));
    Ok(Drawn {
        others: others.collect(),
        sheets: packet.sheets.len(),
        remarks: packet.remarks,
        changes: asked.since.map(|since| since.list.len()),
        summary: summary(studied),
        must_fix: studied.checked.must_fix().count(),
        written,
    })
}

/// A few lines about a job for the terminal.
fn summary(studied: &Studied) -> String {
    let Studied { job, checked, .. } = studied;
    let study = &checked.study;
    let units = study.names.units();
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
        study.sections.iter().filter(|section| section.is_pipe()).count()
    );
    let figures = sheet::figures::Figures::of(units);
    let sections = study.sections.iter();
    for (length, section) in sections.filter_map(|section| Some((section.sizing_length()?, section))) {
        let size = section
            .sizing
            .size
            .map_or("no size".to_owned(), |size| study.names.show(section.material, size));
        text += &format!(
            "  {:>2}  {size:<7} {:<9} {:>9} of {:<9} sizing length {}\n",
            section.number,
            section.state.name(),
            section.load.flow.show(units),
            section
                .sizing
                .capacity()
                .map_or("–".to_owned(), |capacity| capacity.flow.show(units)),
            figures.length_said(length)
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
            "  NOT READY: {}: see `stubout check`\n",
            how_many(drawn.must_fix, "must-fix finding")
        );
    }
    for path in &drawn.written {
        text += &format!("  wrote {}\n", path.display());
    }
    for path in &drawn.others {
        text += &format!(
            "  {} is there too and is not of this set: it is from an earlier, longer one, or from another job\n",
            path.display()
        );
    }
    text + table::CAUTION + "\n"
}
