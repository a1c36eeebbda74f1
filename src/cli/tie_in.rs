//! `stubout tie-in`: every joint and foot of the piping tried as the tie-in of a new branch, ranked, with reasons.

use super::input::{Studied, print_tried};
use super::study_sheet::SheetArguments;
use super::{CLEAR, Jobs, table};
use crate::advice::{NewBranch, Offer, Progress, TieIn, TieInPlace, TieIns};
use crate::codebook::Codebook;
use crate::job::{Job, JointId, LatticePoint, Method};
use crate::network::{Outlet, OutletKind};
use crate::sheet::Matter;
use crate::study::Study;
use crate::units::{Show, UnitSystem};
use clap::Args;
use serde_json::{Value, json};
use std::io::{IsTerminal, Write, stderr};
use std::path::Path;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;

/// So many places are printed unless all are asked for, and of so many the reasons.
const BEST: usize = 10;
const EXPLAINED: usize = 3;

/// Which branch, and how to print.
#[derive(Args)]
pub struct TieInArguments {
    #[command(flatten)]
    jobs: Jobs,
    /// Joint of the new, unconnected branch at which the line to the existing piping ends: J12
    #[arg(long, value_name = "JOINT", value_parser = joint)]
    head: JointId,
    /// A place on the grid that the line runs through, from the head toward the existing piping; may be given again
    #[arg(long, value_name = "EAST,NORTH,UP", value_parser = place, allow_hyphen_values = true)]
    through: Vec<LatticePoint>,
    /// Tap new pipe too, not only existing pipe
    #[arg(long)]
    new_pipe: bool,
    /// Print all places, not only the best ten
    #[arg(long)]
    all: bool,
    #[command(flatten)]
    sheet: SheetArguments,
}

fn joint(text: &str) -> Result<JointId, String> {
    let number = text.trim_start_matches(['J', 'j']).parse();
    number.map(JointId).map_err(|_| "write a joint as J12".to_owned())
}

fn place(text: &str) -> Result<LatticePoint, String> {
    let parts: Vec<i32> = text.split(',').map_while(|part| part.trim().parse().ok()).collect();
    match (parts.as_slice(), text.matches(',').count()) {
        (&[east, north, up], 2) => Ok(LatticePoint::new(east, north, up)),
        _ => Err("write a place as three whole numbers of steps: 4,-2,0".to_owned()),
    }
}

/// A job with the places that are printed.
struct Surveyed {
    job: Job,
    profile: String,
    units: UnitSystem,
    method: Option<Method>,
    head: JointId,
    found: TieIns,
    /// The studies of the job with the branch laid at the places that are printed.
    laid: Vec<(Job, Study)>,
}

/// Prints the best places of each job.
pub fn run(arguments: &TieInArguments) -> u8 {
    print_tried(
        &arguments.jobs,
        "tie-in",
        |book, path, studied| {
            let surveyed = arguments.survey(book, path, studied);
            surveyed
                .map(|surveyed| (CLEAR, surveyed))
                .map_err(|why| format!("{}: {why}", path.display()))
        },
        machine,
        say,
    )
}

impl TieInArguments {
    fn survey(&self, book: &Codebook, path: &Path, studied: Studied) -> Result<Surveyed, String> {
        let Studied { job, checked, .. } = &studied;
        let study = &checked.study;
        let branch = NewBranch {
            head: self.head,
            through: self.through.clone(),
            offer: if self.new_pipe { Offer::AllPipe } else { Offer::Existing },
        };
        let mut found =
            telling(|progress| TieIns::find(job, book, &branch, progress)).map_err(|why| why.to_string())?;
        self.sheet.write(book, path, &studied, Matter::TieIns(&found))?;
        if !self.all {
            found.rows.truncate(BEST);
        }
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let lay = |row: &TieIn| {
            let laid = row.laid(job);
            let study = Study::under(&laid, book, profile);
            (laid, study)
        };
        // Pressures everywhere are told of few places: of all they would be too long a list.
        let laid = found.rows.iter().take(BEST).map(lay).collect();
        Ok(Surveyed {
            method: study.zones.first().map(|zone| zone.method),
            profile: study.profile.clone(),
            units: study.names.units(),
            head: self.head,
            job: job.clone(),
            found,
            laid,
        })
    }
}

/// Works while a line on the terminal tells how far it is.
fn telling<T: Send>(work: impl FnOnce(&Progress) -> T + Send) -> T {
    let progress = Progress::default();
    if !stderr().is_terminal() {
        return work(&progress);
    }
    std::thread::scope(|scope| {
        let (ended, end) = channel::<()>();
        let shown = &progress;
        scope.spawn(move || {
            while end.recv_timeout(Duration::from_millis(200)) == Err(RecvTimeoutError::Timeout) {
                let (done, of) = shown.done_of();
                let _ = write!(stderr(), "\r{done} of {of} places");
            }
            let _ = write!(stderr(), "\r\x1b[2K");
        });
        let result = work(&progress);
        drop(ended);
        result
    })
}

fn method(method: Option<Method>) -> &'static str {
    method.map_or("no method", Method::name)
}

const fn method_key(method: Method) -> &'static str {
    match method {
        Method::LongestLength => "longest_length",
        Method::BranchLength => "branch_length",
    }
}

fn appliances(study: &Study) -> impl Iterator<Item = &Outlet> {
    study
        .outlets
        .iter()
        .filter(|outlet| outlet.kind == OutletKind::Appliance)
}

fn say(surveyed: &Surveyed) -> String {
    let Surveyed { job, found, .. } = surveyed;
    let units = surveyed.units;
    let dash = || "–".to_owned();
    let mut text = format!(
        "Tie-ins for the branch at {}: {} places tried, each {} and each joint, sized by {}, profile {}\n",
        surveyed.head,
        found.places,
        found.spacing.show(units),
        method(surveyed.method),
        surveyed.profile
    );
    let row = |(number, row): (usize, &TieIn)| {
        vec![
            (number + 1).to_string(),
            row.place.words(job),
            row.verdict(),
            row.route_length().show(units),
            row.turns().to_string(),
            row.pipe_length().show(units),
            row.shown_weight(units).unwrap_or_else(dash),
            row.fittings.to_string(),
            row.lowest
                .as_ref()
                .map_or_else(dash, |lowest| lowest.margin.show(units)),
        ]
    };
    let rows: Vec<_> = found.rows.iter().enumerate().map(row).collect();
    text += &table::columns(
        &[
            "",
            "tie-in at",
            "result",
            ">line",
            ">turns",
            ">pipe",
            ">weight",
            ">fittings",
            ">lowest margin",
        ],
        &rows,
    );
    for (number, row) in found.rows.iter().take(EXPLAINED).enumerate() {
        text += &format!("\n{}. {}\n", number + 1, row.place.words(job));
        for reason in row.reasons(units) {
            text += &format!("    {reason}\n");
        }
    }
    if let Some((laid, study)) = surveyed.laid.first() {
        text += "\nAppliances with the first tie-in, at full load (pressures by the flow equation, not measured)\n";
        let row = |outlet: &Outlet| {
            vec![
                laid.joints.at(outlet.joint).id.to_string(),
                outlet.name.clone(),
                outlet.pressure.map_or_else(dash, |pressure| pressure.show(units)),
                outlet.least.map_or_else(dash, |pressure| pressure.show(units)),
            ]
        };
        let rows: Vec<_> = appliances(study).map(row).collect();
        text += &table::columns(&["joint", "appliance", ">inlet", ">min. req'd"], &rows);
    }
    for (run, why) in &found.left_out {
        text += &format!("{run} {}.\n", why.words());
    }
    text += "Walls on the new line are not counted: draw it, then add its penetrations.\n";
    text += &format!("{}\n", table::CAUTION);
    text
}

fn machine(surveyed: &Surveyed) -> Value {
    let Surveyed { job, found, .. } = surveyed;
    let rows: Vec<Value> = found
        .rows
        .iter()
        .enumerate()
        .map(|(number, row)| entry(job, row, surveyed.laid.get(number)))
        .collect();
    let left_out: Vec<Value> = found
        .left_out
        .iter()
        .map(|(run, why)| json!({ "run": run.0, "why": why.words() }))
        .collect();
    json!({
        "profile": surveyed.profile,
        "method": surveyed.method.map(method_key),
        "head": surveyed.head.0,
        "places": found.places,
        "spacing_ft": found.spacing.feet(),
        "left_out": left_out,
        "tie_ins": rows,
    })
}

fn entry(job: &Job, row: &TieIn, laid: Option<&(Job, Study)>) -> Value {
    let place = |at: LatticePoint| json!([at.east, at.north, at.up]);
    let (joint, run, along) = match row.place {
        TieInPlace::Joint(joint) => (Some(joint.0), None, None),
        TieInPlace::Run { run, along } => (None, Some(run.0), Some(along.feet())),
    };
    let line = row
        .route
        .iter()
        .map(|leg| json!({ "to": place(leg.to), "length_ft": leg.length.feet() }));
    let pipe = row.pipe.iter().map(|pipe| {
        json!({
            "material": pipe.material.key(),
            "size": pipe.size.map(|size| size.exact()),
            "length_ft": pipe.length.feet(),
        })
    });
    let lowest = row.lowest.as_ref().map(|lowest| {
        json!({
            "joint": lowest.joint.0,
            "name": lowest.name,
            "inlet_inwc": lowest.pressure.inches_wc(),
            "margin_inwc": lowest.margin.inches_wc(),
        })
    });
    let inlets = laid.map(|(laid, study)| {
        let inlet = |outlet: &Outlet| {
            json!({
                "joint": laid.joints.at(outlet.joint).id.0,
                "name": outlet.name,
                "inlet_inwc": outlet.pressure.map(|pressure| pressure.inches_wc()),
                "min_inwc": outlet.least.map(|pressure| pressure.inches_wc()),
            })
        };
        appliances(study).map(inlet).collect::<Vec<_>>()
    });
    json!({
        "joint": joint,
        "run": run,
        "along_ft": along,
        "at": place(row.at),
        "standing": row.standing().key(),
        "words": row.verdict(),
        "line": line.collect::<Vec<_>>(),
        "line_ft": row.route_length().feet(),
        "turns": row.turns(),
        "blocked": row.blocked.map(|blocked| blocked.words()),
        "pipe": pipe.collect::<Vec<_>>(),
        "weight_lb": row.weight.map(|weight| weight.amount()),
        "fittings": row.fittings,
        "over_limit": row.failing,
        "over_limit_and_worse": row.failing_already,
        "over_limit_before": row.over_already,
        "over_limit_before_words": row.already.iter().map(|part| part.words(job.settings.units)).collect::<Vec<_>>(),
        "not_judged": row.unjudged,
        "lowest": lowest,
        "min_inlet_unknown": row.least_unknown,
        "inlets": inlets,
        "reasons": row.reasons(job.settings.units),
    })
}
