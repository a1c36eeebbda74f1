//! `stubout quote`: what a job costs a customer, by lists of one's own.

use super::input::{self, Studied, print_tried};
use super::study_sheet::SheetArguments;
use super::take_off::list_of_own;
use super::{CLEAR, Jobs, TROUBLE, table};
use crate::codebook::Codebook;
use crate::job::TitleBlock;
use crate::sheet::Matter;
use crate::study::how_many;
use crate::units::UnitSystem;
use crate::work::{CutList, PriceList, Quote, StockPlan, TakeOff, money};
use clap::Args;
use serde_json::{Value, json};
use std::path::PathBuf;

/// Which jobs, and by which lists.
#[derive(Args)]
pub struct QuoteArguments {
    #[command(flatten)]
    jobs: Jobs,
    #[command(flatten)]
    sheet: SheetArguments,
    /// Prices of your own: lines of `what;price`, named as take-off names them
    #[arg(long, value_name = "FILE")]
    prices: PathBuf,
    /// Hours of work of your own: lines of `what;hours`, for one piece, foot or meter
    #[arg(long, value_name = "FILE")]
    hours: Option<PathBuf>,
    /// Price of an hour
    #[arg(long, value_name = "PRICE", requires = "hours", value_parser = rate)]
    rate: Option<f64>,
}

/// A price that an hour can have.
fn rate(text: &str) -> Result<f64, String> {
    let rate: Option<f64> = text.parse().ok();
    let rate = rate.filter(|rate| (0.0..=1e6).contains(rate));
    rate.ok_or_else(|| "write a number such as 85 or 92.50".to_owned())
}

/// The quote of one job.
struct Quoted {
    quote: Quote,
    title: TitleBlock,
    units: UnitSystem,
}

/// Prints the quote of each job.
pub fn run(arguments: &QuoteArguments) -> u8 {
    let lists = [Some(arguments.prices.as_path()), arguments.hours.as_deref()].map(list_of_own);
    let [prices, hours] = match lists {
        [Ok(prices), Ok(hours)] => [prices.unwrap_or_default(), hours.unwrap_or_default()],
        [Err(fault), _] | [_, Err(fault)] => return input::report(&fault),
    };
    let faulty = !prices.faults.is_empty() || !hours.faults.is_empty();
    let hours = arguments.hours.is_some().then_some(&hours);
    let code = print_tried(
        &arguments.jobs,
        "quote",
        |book, path, studied| {
            let quoted = Quoted::of(book, &studied, (&prices, hours), arguments.rate);
            arguments
                .sheet
                .write(book, path, &studied, Matter::Quote(&quoted.quote))?;
            Ok((CLEAR, quoted))
        },
        machine,
        say,
    );
    if faulty { TROUBLE } else { code }
}

impl Quoted {
    fn of(
        book: &Codebook,
        studied: &Studied,
        (prices, hours): (&PriceList, Option<&PriceList>),
        rate: Option<f64>,
    ) -> Quoted {
        let Studied { job, checked, .. } = studied;
        let cuts = CutList::of(job, &checked.study, book);
        let stock = StockPlan::of(&cuts, &checked.study, book);
        let take_off = TakeOff::of(job, &checked.study, book, &cuts, &stock);
        let units = job.settings.units;
        Quoted {
            quote: Quote::of(&take_off, prices, hours, rate, units),
            title: job.title.clone(),
            units,
        }
    }
}

fn say(quoted: &Quoted) -> String {
    let Quoted { quote, title, units } = quoted;
    let mut text = String::new();
    for (head, words) in [
        ("For", &title.owner),
        ("At", &title.site),
        ("Work", &title.description),
        ("By", &title.firm),
    ] {
        if !words.trim().is_empty() {
            text += &format!("{head}: {}\n", words.trim());
        }
    }
    let rows: Vec<Vec<String>> = (quote.lines.iter())
        .map(|line| {
            let price = line.price.map_or_else(|| "not priced".to_owned(), money);
            vec![line.quantity.show(*units), line.what.clone(), price]
        })
        .collect();
    text += &format!("\n{}\n", table::columns(&[">quantity", "item", ">price"], &rows));
    for (head, sum) in quote.sums() {
        text += &format!("{head}: {sum}\n");
    }
    if quote.without > 0 {
        text += &format!("Not priced: {}\n", how_many(quote.without, "line"));
    }
    format!("{text}{}\n{}", crate::work::QUOTE, table::closing())
}

fn machine(quoted: &Quoted) -> Value {
    let Quoted { quote, units, .. } = quoted;
    let hundredths = |sum: i64| sum as f64 / 100.0;
    let lines = quote.lines.iter().map(|line| {
        json!({
            "label": line.what,
            "shelf": line.shelf,
            "amount": line.quantity.amount(*units),
            "unit": line.quantity.unit(*units),
            "price": line.price.map(hundredths),
        })
    });
    json!({
        "lines": lines.collect::<Vec<_>>(),
        "material": hundredths(quote.material),
        "hours": quote.hours.map(hundredths),
        "labor": quote.labor.map(hundredths),
        "total": hundredths(quote.total()),
        "lines_without_price": quote.without,
    })
}
