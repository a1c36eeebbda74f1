//! `stubout variants`: the variants of a job side by side.

use super::carry::outcome;
use super::input::{self, print_tried};
use super::study_sheet::SheetArguments;
use super::take_off::list_of_own;
use super::{CLEAR, Jobs, TROUBLE, table};
use crate::advice::{ComparedVariants, OwnLists};
use crate::sheet::Matter;
use crate::work::{PriceList, Priced};
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Which jobs, and how to print.
#[derive(Args)]
pub struct VariantsArguments {
    #[command(flatten)]
    jobs: Jobs,
    #[command(flatten)]
    sheet: SheetArguments,
    /// Prices of your own: lines of `what;price`, named as take-off names them
    #[arg(long, value_name = "FILE")]
    prices: Option<PathBuf>,
    /// Hours of work of your own: lines of `what;hours`, for one piece, foot or meter, named as take-off names them
    #[arg(long, value_name = "FILE")]
    hours: Option<PathBuf>,
}

/// Prints the comparison of each job.
pub fn run(arguments: &VariantsArguments) -> u8 {
    let lists = [arguments.prices.as_deref(), arguments.hours.as_deref()].map(list_of_own);
    let [prices, hours] = match lists {
        [Ok(prices), Ok(hours)] => [prices, hours],
        [Err(fault), _] | [_, Err(fault)] => return input::report(&fault),
    };
    let is_faulty = |list: &Option<PriceList>| list.as_ref().is_some_and(|list| !list.faults.is_empty());
    let faulty = is_faulty(&prices) || is_faulty(&hours);
    let lists = OwnLists {
        prices: prices.as_ref(),
        hours: hours.as_ref(),
    };
    let code = print_tried(
        &arguments.jobs,
        "variants",
        |book, path, studied| {
            let found = ComparedVariants::of(&studied.job, book, lists);
            arguments.sheet.write(book, path, &studied, Matter::Variants(&found))?;
            Ok((CLEAR, found))
        },
        machine,
        say,
    );
    if faulty { TROUBLE } else { code }
}

fn say(found: &ComparedVariants) -> String {
    let names = found.variants.iter().map(|variant| match variant.is_shown {
        true if found.variants.len() > 1 => format!("{} (shown)", variant.name),
        _ => variant.name.clone(),
    });
    let names: Vec<String> = names.collect();
    let heads =
        |first: &'static str| -> Vec<&str> { std::iter::once(first).chain(names.iter().map(String::as_str)).collect() };
    let rows: Vec<Vec<String>> = (found.rows().into_iter())
        .map(|(head, cells)| std::iter::once(head.to_owned()).chain(cells).collect())
        .collect();
    let mut text = table::columns(&heads(""), &rows);
    text += &format!("\n{}\n", found.said());
    if !found.differences.is_empty() {
        let rows: Vec<Vec<String>> = (found.differences.iter())
            .map(|line| {
                let cells = line.quantities.iter();
                let cells = cells.map(|quantity| quantity.clone().unwrap_or_else(|| "–".to_owned()));
                let what = format!("{}: {}", line.group.name(), line.label);
                std::iter::once(what).chain(cells).collect()
            })
            .collect();
        text += &table::columns(&heads("take-off"), &rows);
    }
    format!("{text}{}\n", table::closing())
}

fn machine(found: &ComparedVariants) -> Value {
    let sum = |sum: &Option<Priced>| sum.as_ref().map(|sum| sum.total as f64 / 100.0);
    let without = |sum: &Option<Priced>| sum.as_ref().map(|sum| sum.without);
    let variants = found.variants.iter().map(|variant| {
        json!({
            "name": variant.name,
            "shown": variant.is_shown,
            "outcome": outcome(&variant.outcome),
            "new_pipe_ft": variant.pipe.feet(),
            "penetrations": variant.penetrations,
            "price": sum(&variant.price),
            "lines_without_price": without(&variant.price),
            "hours": sum(&variant.hours),
            "lines_without_hours": without(&variant.hours),
        })
    });
    let lines = found.differences.iter().map(|line| {
        json!({
            "label": line.label,
            "action": line.group.key(),
            "quantities": line.quantities,
        })
    });
    json!({
        "variants": variants.collect::<Vec<_>>(),
        "take_off_differences": lines.collect::<Vec<_>>(),
    })
}
