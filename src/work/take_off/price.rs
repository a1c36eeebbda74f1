//! Prices of one's own, and what a take-off costs by them.

use crate::codebook::{Codebook, SizeNames, list_fault, note_fault};
use crate::job::{Material, State};
use crate::units::{Length, UnitSystem};
use crate::work::{Group, Line, Price, PriceLine, TakeOff};
use std::collections::HashMap;

/// A price list as a person wrote it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PriceList {
    /// What, by its words without case and spaces, and its price with the line it stands in.
    prices: HashMap<String, (usize, f64)>,
    /// Lines that are no price: their numbers, from 1, and what to do.
    pub faults: Vec<(usize, String)>,
}

/// A take-off with prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Priced {
    /// For each line of the take-off its price in whole hundredths; `None` where it has none.
    pub lines: Vec<Option<i64>>,
    /// Everything that has a price, in whole hundredths.
    pub total: i64,
    /// How many lines to be bought have no price.
    pub without: usize,
    /// Lines of the list, by number, that name nothing here.
    pub unused: Vec<usize>,
}

/// The words alone: case, spaces and quotes do not matter.
fn key(text: &str) -> String {
    let plain = text.chars().filter(|letter| !letter.is_whitespace() && *letter != '"');
    plain.flat_map(char::to_lowercase).collect()
}

/// The highest price of one piece: more is a slip of the pen, and the sum of a take-off stays exact.
const HIGHEST: f64 = 1e6;

impl PriceList {
    /// Reads lines of `what;price`, parted by a semicolon or a tab. Empty lines and lines that begin with `#` say nothing.
    ///
    /// A price is a number not less than nothing, for one piece, one foot or metre, one square foot or metre.
    pub fn read(text: &str) -> PriceList {
        let mut list = PriceList::default();
        if let Some(fault) = list_fault(text) {
            list.faults.push(fault);
            return list;
        }
        for (number, line) in text.trim_start_matches('\u{feff}').lines().enumerate() {
            let (number, line) = (number + 1, line.trim());
            if line.is_empty() || line.starts_with('#') {
                continue;
            }
            let fault = match PriceList::line(line) {
                Ok((what, price)) => match list.prices.get(&what) {
                    Some((first, _)) => format!("names the same as line {first}: remove one of them"),
                    None => {
                        list.prices.insert(what, (number, price));
                        continue;
                    }
                },
                // The first line may be the heads of the columns: no figure stands there.
                Err(_) if number == 1 && !line.contains(|letter: char| letter.is_ascii_digit()) => continue,
                Err(fault) => fault,
            };
            if !note_fault(&mut list.faults, number, fault) {
                break;
            }
        }
        list
    }

    fn line(line: &str) -> Result<(String, f64), String> {
        let (what, price) = line
            .rsplit_once([';', '\t'])
            .ok_or_else(|| "write what it is, a semicolon and its price".to_owned())?;
        let price = price.trim().trim_matches('"');
        let number: Option<f64> = price.parse().ok();
        let number = number.filter(|number| (0.0..=HIGHEST).contains(number));
        let number = number.ok_or_else(|| {
            let shown: String = price.chars().take(40).collect();
            format!("`{shown}` is not a price: write a number such as 3.50, at most 1,000,000")
        })?;
        Ok((key(what), number))
    }
}

impl PriceList {
    /// The line and price of the first of some names that is listed.
    fn price(&self, names: [String; 2]) -> Option<&(usize, f64)> {
        names.iter().find_map(|name| self.prices.get(&key(name)))
    }

    /// The prices of pipe alone, by which one way of sizing is held against another: `pipe 3/4" steel;1.85`.
    pub fn of_pipe(&self, book: &Codebook, names: SizeNames) -> Price {
        let mut lines = Vec::new();
        for material in Material::ALL {
            for pipe in book.sizes(material) {
                let name = names.show(material, pipe.size);
                let label = |words: &str| format!("{} {name} {words}", material.comes_as());
                if let Some((_, price)) = self.price([label(material.at_counter()), label(material.short())]) {
                    let per_foot = match names.units() {
                        UnitSystem::Us => *price,
                        UnitSystem::Metric | UnitSystem::MetricKpa => price * Length::from_feet(1.0).metres(),
                    };
                    let size = pipe.size;
                    lines.push(PriceLine {
                        material,
                        size,
                        per_foot,
                    });
                }
            }
        }
        Price::List(lines)
    }
}

impl TakeOff {
    /// What the new lines cost by a list: whole lengths and coils, as they are bought.
    pub fn priced(&self, list: &PriceList, units: UnitSystem) -> Priced {
        let mut used = Vec::new();
        let mut price = |line: &Line| {
            let (number, price) = *list.price([line.label(), line.short_label()])?;
            used.push(number);
            if line.state != State::New {
                return None;
            }
            // A cast ends at the largest number.
            Some((line.quantity.amount(units)? * price * 100.0).round() as i64)
        };
        let lines: Vec<Option<i64>> = self.lines.iter().map(&mut price).collect();
        let pairs = self.lines.iter().zip(&lines);
        let without = pairs
            .filter(|(line, price)| line.group == Group::Buy && price.is_none())
            .count();
        let mut unused: Vec<usize> = list.prices.values().map(|(number, _)| *number).collect();
        unused.retain(|number| !used.contains(number));
        unused.sort_unstable();
        Priced {
            total: lines
                .iter()
                .flatten()
                .fold(0, |sum: i64, price| sum.saturating_add(*price)),
            lines,
            without,
            unused,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::price::*;

    #[test]
    fn prices_of_pipe_are_found_by_the_words_of_the_take_off() {
        let list = PriceList::read("pipe 3/4\" steel;1.85\npipe DN20 steel;2\ntube 1/2\" copper L;4\n");
        let book = Codebook::published();
        let size = crate::units::NominalSize::Inch(12);
        let cost = |units| {
            let price = list.of_pipe(book, SizeNames::nominal(units));
            let cost = price.of(book, Material::Steel40, size, Length::from_feet(10.0));
            cost.map(crate::work::Cost::amount)
        };
        assert_eq!(cost(UnitSystem::Us), Some(18.5));
        assert_eq!(cost(UnitSystem::Metric), Some(6.096), "2 for a metre, 3.048 m");
    }

    #[test]
    fn a_price_list_tells_its_faulty_lines_by_number() {
        let list = PriceList::read(
            "what;price\n# fittings\ncap 3/4\" steel; 1.25\n\nno price here\ntee;-2\nCAP 3/4 Steel\t2\n",
        );
        let numbers: Vec<usize> = list.faults.iter().map(|fault| fault.0).collect();
        assert_eq!(numbers, [5, 6, 7]);
        assert_eq!(list.prices.len(), 1);
    }
}
