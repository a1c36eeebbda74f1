//! The variants of a job side by side: what each comes to, and where their take-offs differ.

use super::Outcome;
use crate::codebook::Codebook;
use crate::job::{Job, State};
use crate::rules::Checked;
use crate::study::how_many;
use crate::units::{Length, Show, UnitSystem};
use crate::work::{CutList, Group, PriceList, Priced, StockPlan, TakeOff, money};

/// Variants of one job, in the order of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparedVariants {
    /// What each comes to.
    pub variants: Vec<ComparedVariant>,
    /// The lines of their take-offs that are not the same in all.
    pub differences: Vec<TakeOffDifference>,
    units: UnitSystem,
}

/// One variant.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparedVariant {
    /// Its name; "As drawn" where the job has no variants.
    pub name: String,
    /// Whether it is the one that is shown.
    pub is_shown: bool,
    /// What it comes to.
    pub outcome: Outcome,
    /// All its new pipe together.
    pub pipe: Length,
    /// Penetrations of its new pipe.
    pub penetrations: usize,
    /// What it costs by a person's own prices, and where such are given.
    pub price: Option<Priced>,
    /// The hours that it takes by a person's own list, in hundredths.
    pub hours: Option<Priced>,
}

/// A line that is not the same in every take-off.
#[derive(Clone, Debug, PartialEq)]
pub struct TakeOffDifference {
    /// The line, as a price list names it.
    pub label: String,
    /// What becomes of it.
    pub group: Group,
    /// How much of it in each variant, in order; `None` where there is none of it.
    pub quantities: Vec<Option<String>>,
}

/// Lists of a person's own by which variants are counted.
#[derive(Clone, Copy, Debug, Default)]
pub struct OwnLists<'a> {
    /// A price for each line, or foot or meter of it.
    pub prices: Option<&'a PriceList>,
    /// The hours that each takes, written in the same way.
    pub hours: Option<&'a PriceList>,
}

impl ComparedVariants {
    /// Studies each variant of a job; a job without variants is the only one.
    pub fn of(job: &Job, book: &Codebook, lists: OwnLists<'_>) -> ComparedVariants {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let units = profile.units(job.settings.units);
        let jobs = job.each_variant();
        let (mut variants, mut take_offs) = (Vec::new(), Vec::new());
        for (at, one) in jobs.iter().enumerate() {
            let checked = Checked::of(one, book);
            let cuts = CutList::of(one, &checked.study, book);
            let stock = StockPlan::of(&cuts, &checked.study, book);
            let take_off = TakeOff::of(one, &checked.study, book, &cuts, &stock);
            let new = || one.runs.iter().filter(|run| run.state == State::New);
            let outcome = Outcome::beside(one, book, &checked);
            variants.push(ComparedVariant {
                name: match job.variants.is_empty() {
                    true => "As drawn".to_owned(),
                    false => one.variants.name.clone(),
                },
                is_shown: at == job.variants.shown(),
                pipe: outcome.pipe.iter().fold(Length::ZERO, |sum, pipe| sum + pipe.length),
                penetrations: new().map(|run| run.penetrations.len()).sum(),
                outcome,
                price: lists.prices.map(|list| take_off.priced(list, units)),
                hours: lists.hours.map(|list| take_off.priced(list, units)),
            });
            take_offs.push(take_off);
        }
        ComparedVariants {
            variants,
            differences: differences(&take_offs, units),
            units,
        }
    }

    /// What is compared, row by row: its name, and what it is in each variant.
    pub fn rows(&self) -> Vec<(&'static str, Vec<String>)> {
        let columns: Vec<Vec<(&'static str, String)>> =
            self.variants.iter().map(|variant| variant.column(self.units)).collect();
        let heads = columns.first().into_iter().flatten().map(|(head, _)| *head);
        let row =
            |(at, head): (usize, &'static str)| (head, columns.iter().map(|column| column[at].1.clone()).collect());
        heads.enumerate().map(row).collect()
    }

    /// In which figures they are the same is not said; in one sentence, how their take-offs differ.
    pub fn said(&self) -> String {
        match (self.variants.len(), self.differences.len()) {
            (0 | 1, _) => "The job is one drawing: it has no variants to compare.".to_owned(),
            (_, 0) => "Their take-offs are the same.".to_owned(),
            (_, many) => format!("Their take-offs differ in {}.", how_many(many, "line")),
        }
    }
}

impl ComparedVariant {
    /// Its figures, each under its name.
    fn column(&self, units: UnitSystem) -> Vec<(&'static str, String)> {
        let by_list = |sum: &Priced| match sum.without {
            0 => money(sum.total),
            many => format!("{}; {} without an entry", money(sum.total), how_many(many, "line")),
        };
        let mut rows: Vec<_> = Outcome::HEADS.into_iter().zip(self.outcome.column(units)).collect();
        rows.insert(2, ("New pipe together", self.pipe.show(units)));
        rows.insert(6, ("Penetrations of new pipe", self.penetrations.to_string()));
        rows.extend(self.price.iter().map(|price| ("Price, by your list", by_list(price))));
        rows.extend(self.hours.iter().map(|hours| ("Hours, by your list", by_list(hours))));
        rows
    }
}

/// The lines that are not the same in all, in the order in which they first stand in one.
fn differences(take_offs: &[TakeOff], units: UnitSystem) -> Vec<TakeOffDifference> {
    let mut all: Vec<TakeOffDifference> = Vec::new();
    for (at, take_off) in take_offs.iter().enumerate() {
        for line in &take_off.lines {
            let label = line.label();
            let known = all
                .iter()
                .position(|known| known.label == label && known.group == line.group);
            let known = known.unwrap_or_else(|| {
                all.push(TakeOffDifference {
                    label,
                    group: line.group,
                    quantities: vec![None; take_offs.len()],
                });
                all.len() - 1
            });
            let shown = line.quantity.show(units);
            let quantity = &mut all[known].quantities[at];
            *quantity = Some(match quantity.take() {
                Some(before) => format!("{before} + {shown}"),
                None => shown,
            });
        }
    }
    all.retain(|line| line.quantities.iter().any(|quantity| *quantity != line.quantities[0]));
    all.sort_by_key(|line| line.group);
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{RunId, Variant, Variants};
    use std::sync::Arc;

    /// The patio kitchen, and the same with its longest new run eleven feet longer and a wall less.
    fn two() -> (Job, RunId) {
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let mut drawing = job.drawing();
        let is_pierced = |run: &&crate::job::Run| run.state == State::New && !run.penetrations.is_empty();
        let id = job.runs.iter().find(is_pierced).unwrap().id;
        let run = drawing.runs.get_mut(id).unwrap();
        run.penetrations.clear();
        run.length = Some(job.true_length(job.runs.get(id).unwrap()) + Length::from_feet(11.0));
        job.variants = Variants {
            name: "Near".to_owned(),
            before: Vec::new(),
            after: vec![Variant {
                name: "Far".to_owned(),
                drawing: Arc::new(drawing),
            }],
        };
        (job, id)
    }

    #[test]
    fn each_figure_is_that_of_the_variant_studied_alone() {
        let (job, id) = two();
        let book = Codebook::published();
        let found = ComparedVariants::of(&job, book, OwnLists::default());
        let [near, far] = &found.variants[..] else {
            panic!("two variants")
        };
        assert_eq!((near.is_shown, far.is_shown), (true, false));
        let plain = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        assert_eq!(near.outcome, Outcome::of(&plain, book));
        assert!((far.pipe.feet() - near.pipe.feet() - 11.0).abs() < 1e-9);
        let gone = plain.runs.get(id).unwrap().penetrations.len();
        assert_eq!(near.penetrations - far.penetrations, gone);
        assert!(!found.differences.is_empty());
        for line in &found.differences {
            assert_ne!(line.quantities[0], line.quantities[1], "{}", line.label);
        }
        let rows = found.rows();
        assert_eq!(rows.len(), Outcome::HEADS.len() + 2);
        assert!(rows.iter().all(|(_, cells)| cells.len() == 2));
    }

    #[test]
    fn prices_and_hours_are_counted_by_lists_of_ones_own() {
        let (mut job, _) = two();
        job.by_hand.extra.push(crate::job::Extra {
            what: "Core drilling".to_owned(),
            quantity: 2.0,
            ..crate::job::Extra::default()
        });
        let lists = [
            PriceList::read("core drilling;150"),
            PriceList::read("core drilling;1.25"),
        ];
        let lists = OwnLists {
            prices: Some(&lists[0]),
            hours: Some(&lists[1]),
        };
        let found = ComparedVariants::of(&job, Codebook::published(), lists);
        let sums = |of: fn(&ComparedVariant) -> &Option<Priced>| -> Vec<i64> {
            found
                .variants
                .iter()
                .filter_map(|variant| Some(of(variant).as_ref()?.total))
                .collect()
        };
        assert_eq!(sums(|variant| &variant.price), [30_000, 0]);
        assert_eq!(sums(|variant| &variant.hours), [250, 0], "two and a half hours");
    }

    #[test]
    fn a_job_without_variants_is_one_column() {
        let found = ComparedVariants::of(&Job::default(), Codebook::published(), OwnLists::default());
        assert_eq!((found.variants.len(), found.differences.len()), (1, 0));
        assert!(found.said().contains("no variants"));
    }
}
