//! `stubout carry`: what stands before and after the work, what can still be added, and ways to mend what fails.

use super::input::{self, Studied, print_tried};
use super::study_sheet::SheetArguments;
use super::{CLEAR, Jobs, NOT_READY, table};
use crate::advice::{Audit, AuditPart, Headroom, Held, Outcome, Spare};
use crate::codebook::Codebook;
use crate::editor::edit::{Fix, Fixes};
use crate::job::Job;
use crate::sheet::Matter;
use crate::study::Study;
use crate::units::{GaugePressure, Show, UnitSystem};
use crate::work::PriceList;
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;
use std::sync::Arc;

/// A job with all that is asked of it.
struct Carried {
    job: Job,
    study: Arc<Study>,
    audit: Audit,
    headroom: Headroom,
    fixes: Fixes,
    /// The way by prices of one's own, where there are any, with what its pipe costs.
    priced: Option<Result<(Fix, f64), String>>,
}

/// Which jobs, and how to print.
#[derive(Args)]
pub struct CarryArguments {
    #[command(flatten)]
    jobs: Jobs,
    #[command(flatten)]
    sheet: SheetArguments,
    /// Prices of pipe by the foot or meter, one `what;price` a line, as take-off takes them: `pipe 3/4" steel;1.85`
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
            let matter = Matter::Carried {
                variants: &carried.fixes.variants(),
                least: &carried.fixes.least(),
            };
            arguments.sheet.write(book, path, &studied, matter)?;
            let fails = carried.audit.failing().next().is_some();
            Ok((if fails { NOT_READY } else { CLEAR }, carried))
        },
        machine,
        say,
    )
}

impl Carried {
    fn of(book: &Codebook, studied: &Studied, prices: Option<&PriceList>) -> Carried {
        let Studied { job, checked, .. } = studied;
        let study = &checked.study;
        let priced = |prices: &PriceList| {
            let price = prices.of_pipe(book, study.names);
            let found = Fixes::priced(job, book, checked, &price).map_err(|why| why.to_string())?;
            Ok((found.0, found.1.amount()))
        };
        Carried {
            audit: Audit::beside(job, book, study),
            headroom: Headroom::of(job, book),
            fixes: Fixes::of(job, book, checked),
            priced: prices.map(priced),
            job: job.clone(),
            study: Arc::clone(study),
        }
    }

    /// Joints at which something could be added, with what is to be said of them.
    fn spares(&self) -> impl Iterator<Item = (usize, &Spare)> {
        let spares = self.headroom.joints.iter().enumerate();
        spares.filter_map(|(joint, spare)| Some((joint, spare.as_ref()?)))
    }
}

/// The name of the way by prices of one's own.
const PRICED: &str = "Larger pipe, lowest price";

fn say(carried: &Carried) -> String {
    let Carried { job, study, .. } = carried;
    let units = study.names.units();
    let has_existing = carried.audit.rows.iter().any(|row| row.before.is_some());
    let mut text = match has_existing {
        true => "Existing parts and new appliances at full load, before and after this work\n".to_owned(),
        false => "No existing pipe on this job. New parts at full load\n".to_owned(),
    };
    let rows: Vec<Vec<String>> = (carried.audit.rows.iter())
        .map(|row| {
            let [before, after] = row.sides(units);
            vec![
                row.part.words(job, study.names),
                before,
                after,
                row.verdict().to_owned(),
            ]
        })
        .collect();
    text += &match rows.as_slice() {
        [] => "none drawn\n".to_owned(),
        rows => table::columns(&["part", ">before", ">after", "result"], rows),
    };
    text += "\nSpare capacity: what can be added at a joint before something goes over its limit\n";
    let rows: Vec<Vec<String>> = (carried.spares())
        .map(|(joint, spare)| {
            let [heat, by] = spare.words(job, study);
            vec![job.joints.at(joint).id.to_string(), heat, by]
        })
        .collect();
    text += &match carried.headroom.loop_run {
        Some(run) => format!("not worked out: run {} closes a loop\n", job.runs.at(run).id),
        None => table::columns(&["joint", ">spare capacity", "first over its limit"], &rows),
    };
    text += &fixes(&carried.fixes, carried.priced.as_ref(), units);
    text += &format!("{}\n", table::CAUTION);
    text
}

/// The ways to fix what is over its limit, least to buy and do first.
fn fixes(fixes: &Fixes, priced: Option<&Result<(Fix, f64), String>>, units: UnitSystem) -> String {
    let column = |name: &str, outcome: &Outcome| {
        let rows = Outcome::HEADS.iter().zip(outcome.column(units));
        let rows: String = rows.map(|(head, cell)| format!("    {head}: {cell}\n")).collect();
        format!("{name}\n{rows}")
    };
    let whole = |name: &str, fix: &Fix| {
        let lines = fix.does.iter().map(String::as_str);
        let verdict = fix.verdict();
        let lines = lines.chain([verdict.as_str(), fix.start.caution()]);
        let lines: String = lines.map(|line| format!("    {line}\n")).collect();
        column(name, &fix.outcome) + &lines
    };
    let mut text = format!("\nFixes, least pipe and work first\n{}\n", fixes.least());
    text += &column("As drawn", &fixes.drawn);
    for fix in fixes.all() {
        text += &whole(&fix.variant().head(), fix);
    }
    // One reason of several is told once.
    let mut told: Vec<(&str, Vec<&str>)> = Vec::new();
    for (remedy, why) in &fixes.not_offered {
        match told.iter_mut().find(|known| known.0 == why.as_str()) {
            Some(known) => known.1.push(remedy.name()),
            None => told.push((why.as_str(), vec![remedy.name()])),
        }
    }
    for (why, names) in told {
        text += &format!("Not offered, as {why}: {}.\n", names.join("; "));
    }
    match priced {
        Some(Ok((fix, cost))) => {
            text += &whole(PRICED, fix);
            text += &format!("    {cost:.2} for the larger pipe, by your prices; {BY_THE_FOOT}.\n");
        }
        Some(Err(why)) => text += &format!("{PRICED}: not offered; {why}.\n"),
        None => {}
    }
    text
}

/// Of what a price of pipe is, and why it is not what the counter asks.
const BY_THE_FOOT: &str = "by the foot as drawn: which whole lengths and coils are bought depends on how all pieces of the job are cut, and the \
 take-off counts those";

fn held(held: &Option<Held>) -> Value {
    match held {
        None => Value::Null,
        Some(Held::Flow {
            carried,
            capacity,
            standing: how,
        }) => json!({
            "demand_cfh": carried.cfh(),
            "capacity_cfh": capacity.map(|capacity| capacity.cfh()),
            "standing": how.key(),
        }),
        Some(Held::Pressure {
            found,
            least,
            standing: how,
        }) => json!({
            "inlet_inwc": found.map(GaugePressure::inches_wc),
            "min_inwc": least.map(GaugePressure::inches_wc),
            "standing": how.key(),
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
            "kind": "section",
            "runs": runs.iter().map(|&run| job.runs.at(run).id.0).collect::<Vec<_>>(),
            "section": section.map(|section| study.sections[section].number),
            "size": size.map(|size| size.exact()),
            "replaced_by": by.map(|by| by.exact()),
        }),
        AuditPart::Device { joint, part } => {
            json!({ "kind": "device", "joint": job.joints.at(*joint).id.0, "device": part.key() })
        }
        AuditPart::Inlet { joint, name } => {
            json!({ "kind": "inlet", "joint": job.joints.at(*joint).id.0, "appliance": name })
        }
        AuditPart::Setting { joint } => {
            json!({ "kind": "setting", "joint": job.joints.at(*joint).id.0 })
        }
    };
    let rows = carried.audit.rows.iter();
    let rows: Vec<Value> = rows
        .map(|row| {
            json!({
                "part": part(&row.part),
                "before": held(&row.before),
                "after": held(&row.after),
                "result": row.result().key(),
            })
        })
        .collect();
    let spares: Vec<Value> = carried
        .spares()
        .map(|(joint, spare)| {
            json!({
                "joint": job.joints.at(joint).id.0,
                "spare_btuh": spare.limit.map(|limit| limit.heat.btuh()),
                "first_over_limit": spare.limit.map(|limit| limit.by.words(job, study)),
                "not_judged": spare.unjudged,
                "over_limit_already": spare.failing.map(|failing| failing.words(job, study)),
            })
        })
        .collect();
    let offered = carried.fixes.ranked.iter().enumerate();
    let offered = offered.map(|(at, fix)| way(fix.start.name(), Some(at + 1), fix));
    let studies = carried.fixes.studies.iter();
    let studies = studies.map(|fix| way(fix.start.name(), None, fix));
    let none = carried.fixes.not_offered.iter();
    let none = none.map(|(remedy, why)| json!({ "name": remedy.name(), "not_offered": why }));
    let remedies: Vec<Value> = offered.chain(studies).chain(none).collect();
    json!({
        "existing": rows,
        "spare_capacity": spares,
        "loop_run": carried.headroom.loop_run.map(|run| carried.job.runs.at(run).id.0),
        "as_drawn": outcome(&carried.fixes.drawn),
        "first_choice": carried.fixes.least(),
        "fixes": remedies,
        "by_your_prices": carried.priced.as_ref().map(|priced| match priced {
            Ok((fix, cost)) => {
                let mut way = way(PRICED, None, fix);
                way["cost"] = json!(cost);
                way
            }
            Err(why) => json!({ "name": PRICED, "not_offered": why }),
        }),
    })
}

/// A way; `rank` counts from 1, least to buy and do first.
fn way(name: &str, rank: Option<usize>, fix: &Fix) -> Value {
    let left = fix.left.iter().map(|left| {
        json!({
            "rule": left.finding.rule,
            "place": left.finding.place.to_string(),
            "what": left.finding.what,
            "its_own": left.is_its_own,
        })
    });
    json!({
        "name": name,
        "rank": rank,
        "for_permit": fix.start.is_for_permit(),
        "whole": fix.is_whole(),
        "within_limits": fix.carries(),
        "does": fix.does,
        "remaining": left.collect::<Vec<_>>(),
        "outcome": outcome(&fix.outcome),
    })
}

/// What a job comes to, for machines.
pub(super) fn outcome(outcome: &Outcome) -> Value {
    let pipe = |pipe: &crate::advice::PipeBought| {
        json!({
            "material": pipe.material.key(),
            "size": pipe.size.map(|size| size.exact()),
            "length_ft": pipe.length.feet(),
        })
    };
    json!({
        "delivery_inwc": outcome.delivered.map(GaugePressure::inches_wc),
        "new_pipe": outcome.pipe.iter().map(pipe).collect::<Vec<_>>(),
        "new_pipe_lb": outcome.pounds,
        "existing_pipe_removed_ft": outcome.goes.feet(),
        "new_fittings": outcome.fittings,
        "new_devices": outcome.devices,
        "sections_over_capacity": outcome.too_small,
        "sections_not_judged": outcome.unjudged,
        "other_parts_over_limit": outcome.failing,
        "closest_to_min_inlet": outcome.lowest.as_ref().map(|lowest| json!({
            "outlet": lowest.name,
            "inlet_inwc": lowest.pressure.inches_wc(),
            "margin_inwc": lowest.margin.inches_wc(),
        })),
        "must_fix_findings": outcome.blocking,
    })
}
