//! `stubout take-off`: everything that is bought, kept and taken out, with one's own prices.

use super::input::{self, Studied};
use super::list::{ListArguments, Listed};
use super::{list, table};
use crate::codebook::Codebook;
use crate::study::{Place, how_many};
use crate::units::UnitSystem;
use crate::work::{CutList, Line, PriceList, Priced, StockPlan, TakeOff, money, places, spreadsheet};
use clap::Args;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// Which jobs, how to print, and prices.
#[derive(Args)]
pub struct TakeOffArguments {
    #[command(flatten)]
    list: ListArguments,
    /// Prices of your own: lines of `what;price`, named as in the first column of --csv
    #[arg(long, value_name = "FILE")]
    prices: Option<PathBuf>,
}

/// A job's take-off.
struct Taken {
    take_off: TakeOff,
    priced: Option<Priced>,
    units: UnitSystem,
}

/// Prints the take-off of each job.
pub fn run(arguments: &TakeOffArguments) -> u8 {
    let prices = match list_of_own(arguments.prices.as_deref()) {
        Ok(prices) => prices,
        Err(fault) => return input::report(&fault),
    };
    let faulty = prices.as_ref().is_some_and(|list| !list.faults.is_empty());
    let code = list::print(&arguments.list, "take-off", |book, studied| {
        Taken::of(book, &studied, prices.as_ref())
    });
    if faulty { super::TROUBLE } else { code }
}

/// A list of one's own; its faulty lines are told.
pub(super) fn list_of_own(path: Option<&Path>) -> Result<Option<PriceList>, String> {
    let Some(path) = path else { return Ok(None) };
    let list = PriceList::read(&input::text(path)?);
    for (number, fault) in &list.faults {
        input::report(&format!("{}, line {number}: {fault}", path.display()));
    }
    Ok(Some(list))
}

impl Taken {
    fn of(book: &Codebook, studied: &Studied, prices: Option<&PriceList>) -> Taken {
        let Studied { job, checked, .. } = studied;
        let study = &checked.study;
        let cuts = CutList::of(job, study, book);
        let stock = StockPlan::of(&cuts, study, book);
        let take_off = TakeOff::of(job, study, book, &cuts, &stock);
        let units = job.settings.units;
        Taken {
            priced: prices.map(|list| take_off.priced(list, units)),
            take_off,
            units,
        }
    }

    fn price(&self, line: usize) -> Option<i64> {
        self.priced.as_ref().and_then(|priced| priced.lines[line])
    }
}

impl Listed for Taken {
    fn say(&self) -> String {
        let row = |(at, line): (usize, &Line)| {
            let mark = line.mark.map_or(String::new(), |mark| mark.letter().to_string());
            vec![
                line.quantity.show(self.units),
                line.named(),
                line.size.clone(),
                line.material.to_owned(),
                self.price(at).map_or(String::new(), money),
                mark,
                places(line),
                line.remark.clone(),
            ]
        };
        let rows: Vec<_> = self.take_off.lines.iter().enumerate().map(row).collect();
        let heads = [
            ">quantity",
            "item",
            "size",
            "material",
            ">price",
            "mark",
            "at",
            "remark",
        ];
        let columns = table::columns(&heads, &rows);
        let mut printed = columns.lines();
        let mut text = format!("{}\n", printed.next().unwrap_or_default());
        let mut under = String::new();
        for (at, (line, printed)) in self.take_off.lines.iter().zip(printed).enumerate() {
            let heading = match self.take_off.own(at) {
                Some(_) => "Added by hand".to_owned(),
                None => line.heading(),
            };
            if heading != under {
                text += &format!("\n{heading}\n");
                under = heading;
            }
            text += &format!("{printed}\n");
        }
        text.push('\n');
        if let Some(priced) = &self.priced {
            text += &format!("Total of the priced lines: {}\n", money(priced.total));
            if priced.without > 0 {
                text += &format!("No price: {} to buy\n", how_many(priced.without, "line"));
            }
            for number in &priced.unused {
                text += &format!("Line {number} of the prices matches nothing in this job\n");
            }
        }
        format!(
            "{text}Counted from the drawing; measure your fittings and count on site.\n{}",
            table::closing()
        )
    }

    fn table(&self) -> Vec<Vec<String>> {
        spreadsheet::take_off(&self.take_off, self.priced.as_ref(), self.units)
    }

    fn machine(&self) -> Value {
        let entry = |(at, line): (usize, &Line)| {
            let number = |place: &Place| match place {
                Place::Joint(joint) => json!({ "joint": joint.0 }),
                Place::Run(run) => json!({ "run": run.0 }),
                Place::Section(number) => json!({ "section": number }),
                Place::Job => json!({}),
            };
            json!({
                "label": line.label(),
                "what": line.what,
                "size": line.size,
                "made_of": line.material,
                "state": line.state.name(),
                "action": line.group.key(),
                "shelf": line.shelf.key(),
                "amount": line.quantity.amount(self.units),
                "unit": line.quantity.unit(self.units),
                "price": self.price(at).map(|price| price as f64 / 100.0),
                "mark": line.mark.map(|mark| mark.letter().to_string()),
                "places": line.places.iter().map(number).collect::<Vec<_>>(),
                "remark": line.remark,
            })
        };
        let lines: Vec<Value> = self.take_off.lines.iter().enumerate().map(entry).collect();
        let total = self.priced.as_ref().map(|priced| priced.total as f64 / 100.0);
        let unused = self.priced.as_ref().map(|priced| &priced.unused);
        json!({ "lines": lines, "total": total, "unused_price_lines": unused })
    }
}
