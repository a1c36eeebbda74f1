//! What a job costs a customer, by prices, hours and an hourly rate of the person's own.

use super::spreadsheet::money;
use super::take_off::{Group, Line, PriceList, Quantity, TakeOff};
use crate::units::UnitSystem;

/// What a quote is and is not, in words for sheets and lists.
pub const QUOTE: &str = "By your own lists, for what the drawing shows. Tax, permit fees and markup are in it only where your lists have them.";

/// Money and hours are in whole hundredths.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quote {
    /// What is bought, in the order of the take-off; pipe as whole lengths and coils.
    pub lines: Vec<QuoteLine>,
    /// All material that has a price.
    pub material: i64,
    /// All hours; none where no list of hours is given.
    pub hours: Option<i64>,
    /// What the hours cost, where there is a rate too.
    pub labor: Option<i64>,
    /// How many lines have no price.
    pub without: usize,
}

/// One thing that is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct QuoteLine {
    /// Where a counter keeps it.
    pub shelf: &'static str,
    /// What it is, with size and material.
    pub what: String,
    /// How much of it.
    pub quantity: Quantity,
    /// Its price; `None` where the list has none.
    pub price: Option<i64>,
}

impl Quote {
    /// The quote of a take-off. Hours are counted for all that is bought, made, salvaged and removed, the rate is for one hour.
    pub fn of(
        take_off: &TakeOff,
        prices: &PriceList,
        hours: Option<&PriceList>,
        rate: Option<f64>,
        units: UnitSystem,
    ) -> Quote {
        let priced = take_off.priced(prices, units);
        let is_bought = |line: &Line| matches!(line.group, Group::Buy | Group::Settle);
        let lines = take_off.lines.iter().zip(&priced.lines);
        let lines: Vec<QuoteLine> = lines
            .filter(|(line, _)| is_bought(line))
            .map(|(line, price)| QuoteLine {
                shelf: line.shelf.heading(),
                what: line.label(),
                quantity: line.quantity.clone(),
                price: *price,
            })
            .collect();
        let hours = hours.map(|list| take_off.priced(list, units).total);
        let labor = hours
            .zip(rate)
            .map(|(hours, rate)| (hours as f64 * rate).round() as i64);
        Quote {
            material: lines.iter().filter_map(|line| line.price).fold(0, i64::saturating_add),
            without: lines.iter().filter(|line| line.price.is_none()).count(),
            lines,
            hours,
            labor,
        }
    }

    /// Each sum under its name.
    pub fn sums(&self) -> Vec<(&'static str, String)> {
        let mut sums = vec![("Material", money(self.material))];
        sums.extend(self.hours.map(|hours| ("Hours", money(hours))));
        sums.extend(self.labor.map(|labor| ("Labor", money(labor))));
        sums.push(("Total of what is priced", money(self.total())));
        sums
    }

    /// Material and labor together, as far as they are known.
    pub fn total(&self) -> i64 {
        self.material.saturating_add(self.labor.unwrap_or(0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::Extra;
    use crate::study::Study;
    use crate::work::{CutList, StockPlan};

    #[test]
    fn a_quote_is_material_by_the_list_and_hours_by_the_rate() {
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        job.by_hand.extra.push(Extra {
            what: "Core drilling".to_owned(),
            quantity: 3.0,
            ..Extra::default()
        });
        let book = Codebook::published();
        let study = Study::of(&job, book);
        let cuts = CutList::of(&job, &study, book);
        let stock = StockPlan::of(&cuts, &study, book);
        let take_off = TakeOff::of(&job, &study, book, &cuts, &stock);
        let prices = PriceList::read("core drilling;120.25");
        let hours = PriceList::read("core drilling;1.5");
        let quote = Quote::of(&take_off, &prices, Some(&hours), Some(80.0), UnitSystem::Us);
        assert_eq!(
            (quote.material, quote.hours, quote.labor),
            (36_075, Some(450), Some(36_000))
        );
        assert_eq!(quote.total(), 72_075);
        assert_eq!(quote.without, quote.lines.len() - 1);
        let bare = Quote::of(&take_off, &prices, None, Some(80.0), UnitSystem::Us);
        assert_eq!((bare.hours, bare.labor, bare.total()), (None, None, 36_075));
    }
}
