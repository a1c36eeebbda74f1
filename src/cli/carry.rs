//! `stubout carry`: what stands before and after the work, what can still be added, and ways to mend what fails.

use super::input::{self, Studied, print_tried};
use super::study_sheet::SheetArguments;
use super::{CLEAR, Jobs, NOT_READY, table};
use crate::codebook::Codebook;
use crate::drawing::sheet::Matter;
use crate::editor::edit::{Remedy, cheapest_larger_pipe};
use crate::job::Job;
use crate::study::{Audit, AuditPart, Headroom, Held, Outcome, PriceList, Spare, Standing, Study};
use crate::units::{GaugePressure, Show};
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// A job with all that is asked of it.
struct Carried {
    job: Job,
    study: Study,
    audit: Audit,
    headroom: Headroom,
    drawn: Outcome,
    remedies: Vec<(Remedy, Result<Outcome, String>)>,
    /// The same by prices of one's own, where there are any, with what the pipe costs.
    priced: Option<Result<(Outcome, f64), String>>,
}

/// Which jobs, and how to print.
#[derive(Args)]
pub struct CarryArguments {
    #[command(flatten)]
    jobs: Jobs,
    #[command(flatten)]
    sheet: SheetArguments,
    /// Prices of pipe for a foot or a metre, one `what;price` a line, as take-off takes them: `pipe 3/4" steel;1.85`
    #[arg(long, value_name = "FILE")]
    prices: Option<PathBuf>,
}

/// Prints it for each job; exit code 1 where something fails after the work.
pub fn run(arguments: &CarryArguments) -> u8 {
    let prices = match arguments.prices.as_ref().map(|path| input::text(path)).transpose() {
        Ok(text) => text.map(|text| PriceList::read(&text)),
        Err(fault) => return input::report(&fault),
    };
    for (number, fault) in prices.iter().flat_map(|prices| &prices.faults) {
        input::report(&format!("line {number} of the prices: {fault}"));
    }
    print_tried(
        &arguments.jobs,
        "carry",
        |book, path, studied| {
            let carried = Carried::of(book, &studied, prices.as_ref());
            arguments
                .sheet
                .write(book, path, &studied, Matter::Carried(&carried.variants()))?;
            let fails = carried.audit.failing().next().is_some();
            Ok((if fails { NOT_READY } else { CLEAR }, carried))
        },
        machine,
        say,
    )
}

impl Carried {
    fn of(book: &Codebook, studied: &Studied, prices: Option<&PriceList>) -> Carried {
        let Studied { job, study } = studied;
        let outcome = |remedy: Remedy| match remedy.adopted(job, book, study) {
            Ok(variant) => Ok(Outcome::of(&variant, book)),
            Err(why) => Err(why.to_string()),
        };
        Carried {
            audit: Audit::beside(job, book, study),
            headroom: Headroom::of(job, book),
            drawn: Outcome::beside(job, book, study),
            remedies: Remedy::ALL
                .into_iter()
                .map(|remedy| (remedy, outcome(remedy)))
                .collect(),
            priced: prices.map(|prices| priced(book, studied, prices)),
            job: job.clone(),
            study: study.clone(),
        }
    }

    /// The job as drawn and with each remedy that is to be had.
    fn variants(&self) -> Vec<(&'static str, Outcome)> {
        let offered = self
            .remedies
            .iter()
            .filter_map(|(remedy, outcome)| Some((remedy.name(), outcome.as_ref().ok()?.clone())));
        std::iter::once(("As drawn", self.drawn.clone()))
            .chain(offered)
            .collect()
    }

    /// Joints at which something could be added, with what is to be said of them.
    fn spares(&self) -> impl Iterator<Item = (usize, &Spare)> {
        let spares = self.headroom.joints.iter().enumerate();
        spares.filter_map(|(joint, spare)| Some((joint, spare.as_ref()?)))
    }
}

/// The name of the way by prices of one's own.
const PRICED: &str = "Larger pipe, least price";

fn priced(book: &Codebook, studied: &Studied, prices: &PriceList) -> Result<(Outcome, f64), String> {
    let Studied { job, study } = studied;
    let price = prices.of_pipe(book, job.settings.units);
    let (step, cost) = cheapest_larger_pipe(job, book, study, &price).map_err(|why| why.to_string())?;
    let mut variant = job.clone();
    step.apply(&mut variant).map_err(|why| why.to_string())?;
    Ok((Outcome::of(&variant, book), cost.amount()))
}

fn say(carried: &Carried) -> String {
    let Carried { job, study, .. } = carried;
    let units = job.settings.units;
    let mut text = "Existing parts at full load, before and after the work\n".to_owned();
    let rows: Vec<Vec<String>> = (carried.audit.rows.iter())
        .map(|row| {
            let [before, after] = row.sides(units);
            vec![row.part.words(job, units), before, after, row.verdict().to_owned()]
        })
        .collect();
    text += &match rows.as_slice() {
        [] => "none is drawn\n".to_owned(),
        rows => table::columns(&["part", ">before", ">after", ""], rows),
    };
    text += "\nWhat can be added at a joint before something fails that holds now\n";
    let rows: Vec<Vec<String>> = (carried.spares())
        .map(|(joint, spare)| {
            let [heat, by] = spare.words(job, study);
            vec![job.joints.at(joint).id.to_string(), heat, by]
        })
        .collect();
    text += &match carried.headroom.loop_run {
        Some(run) => format!("not looked for: run {} closes a loop\n", job.runs.at(run).id),
        None => table::columns(&["joint", ">more", "then fails first"], &rows),
    };
    text += "\nWays to mend what fails, side by side\n";
    for (name, outcome) in carried.variants() {
        text += &format!("{name}\n");
        for (head, cell) in Outcome::HEADS.iter().zip(outcome.column(units)) {
            text += &format!("    {head}: {cell}\n");
        }
    }
    for (remedy, outcome) in &carried.remedies {
        match outcome {
            Ok(_) => text += &format!("{}: {}\n", remedy.name(), remedy.caution()),
            Err(why) => text += &format!("{}: not offered; {why}.\n", remedy.name()),
        }
    }
    match &carried.priced {
        Some(Ok((_, cost))) => text += &format!("{PRICED}: {cost:.2} for the pipe, by your prices.\n"),
        Some(Err(why)) => text += &format!("{PRICED}: not offered; {why}.\n"),
        None => {}
    }
    text += &format!("{}\n", table::CAUTION);
    text
}

fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Holds => "holds",
        Standing::Fails => "fails",
        Standing::Unknown => "not judged",
    }
}

fn held(held: &Option<Held>) -> Value {
    match held {
        None => Value::Null,
        Some(Held::Flow {
            carried,
            capacity,
            standing: how,
        }) => json!({
            "carried_cfh": carried.cfh(),
            "capacity_cfh": capacity.map(|capacity| capacity.cfh()),
            "standing": standing(*how),
        }),
        Some(Held::Pressure {
            found,
            least,
            standing: how,
        }) => json!({
            "inlet_inwc": found.map(GaugePressure::inches_wc),
            "least_inwc": least.map(GaugePressure::inches_wc),
            "standing": standing(*how),
        }),
    }
}

fn machine(carried: &Carried) -> Value {
    let Carried { job, study, .. } = carried;
    let part = |part: &AuditPart| match part {
        AuditPart::Pipe {
            runs,
            section,
            size,
            by,
            ..
        } => json!({
            "runs": runs.iter().map(|&run| job.runs.at(run).id.0).collect::<Vec<_>>(),
            "section": section.map(|section| study.sections[section].number),
            "size": size.map(|size| size.exact()),
            "in_its_place": by.map(|by| by.exact()),
        }),
        AuditPart::Device { joint, name } => json!({ "joint": job.joints.at(*joint).id.0, "device": name }),
        AuditPart::Inlet { joint, name } => json!({ "joint": job.joints.at(*joint).id.0, "appliance": name }),
    };
    let rows = carried.audit.rows.iter();
    let rows: Vec<Value> = rows
        .map(|row| json!({ "part": part(&row.part), "before": held(&row.before), "after": held(&row.after) }))
        .collect();
    let spares: Vec<Value> = carried
        .spares()
        .map(|(joint, spare)| {
            json!({
                "joint": job.joints.at(joint).id.0,
                "more_btuh": spare.limit.map(|limit| limit.heat.btuh()),
                "fails_first": spare.limit.map(|limit| limit.by.words(job, study)),
                "unjudged": spare.unjudged,
                "fails_already": spare.failing.map(|failing| failing.words(job, study)),
            })
        })
        .collect();
    let remedies: Vec<Value> = carried
        .remedies
        .iter()
        .map(|(remedy, outcome)| match outcome {
            Ok(outcome) => json!({ "name": remedy.name(), "outcome": self::outcome(outcome) }),
            Err(why) => json!({ "name": remedy.name(), "not_offered": why }),
        })
        .collect();
    json!({
        "existing": rows,
        "headroom": spares,
        "loop_run": carried.headroom.loop_run.map(|run| carried.job.runs.at(run).id.0),
        "as_drawn": outcome(&carried.drawn),
        "remedies": remedies,
        "by_your_prices": carried.priced.as_ref().map(|priced| match priced {
            Ok((outcome, cost)) => json!({ "name": PRICED, "cost": cost, "outcome": self::outcome(outcome) }),
            Err(why) => json!({ "name": PRICED, "not_offered": why }),
        }),
    })
}

fn outcome(outcome: &Outcome) -> Value {
    let pipe = |pipe: &crate::study::PipeBought| {
        json!({
            "material": pipe.material.name(),
            "size": pipe.size.map(|size| size.exact()),
            "length_ft": pipe.length.feet(),
        })
    };
    json!({
        "delivery_inwc": outcome.delivered.map(GaugePressure::inches_wc),
        "new_pipe": outcome.pipe.iter().map(pipe).collect::<Vec<_>>(),
        "new_pipe_lb": outcome.pounds,
        "old_pipe_that_goes_ft": outcome.goes.feet(),
        "new_fittings": outcome.fittings,
        "new_devices": outcome.devices,
        "sections_too_small": outcome.too_small,
        "sections_not_judged": outcome.unjudged,
        "other_parts_that_fail": outcome.failing,
        "nearest_to_least_inlet": outcome.lowest.as_ref().map(|lowest| json!({
            "outlet": lowest.name,
            "inlet_inwc": lowest.pressure.inches_wc(),
            "margin_inwc": lowest.margin.inches_wc(),
        })),
        "blocking_findings": outcome.blocking,
    })
}
