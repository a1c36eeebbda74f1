//! What a packet is about: the permit, or a study of the job that is no permit drawing.

use super::block::{Block, Part};
use super::existing;
use super::purpose::Purpose;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use super::work::Work;
use crate::advice::{
    Audit, ComparedVariant, ComparedVariants, Outcome, TieIn, TieInPlace, TieInStanding, TieIns, Variant,
};
use crate::codebook::Codebook;
use crate::drawing::strokes::{self, Across};
use crate::drawing::{Asked, Isometric};
use crate::job::{Job, JointId};
use crate::scene::{Group, Outline, PathItem, Stroke};
use crate::study::{Places, Study};
use crate::units::{PressureDrop, Show, UnitSystem};
use crate::work::{QUOTE, Quote, money};

/// What the sheets are about.
#[derive(Clone, Copy, Debug, Default)]
pub enum Matter<'a> {
    /// The permit drawing with all its schedules.
    #[default]
    Permit,
    /// The permit drawing, and after it the sheets to work from.
    Whole(&'a Work),
    /// What the existing system will carry, and variants of the job side by side under their names.
    Carried {
        /// The variants, the job as drawn first.
        variants: &'a [Variant],
        /// In one sentence, which of them is least to buy and do.
        least: &'a str,
    },
    /// The variants of the job side by side.
    Variants(&'a ComparedVariants),
    /// What the job costs a customer.
    Quote(&'a Quote),
    /// Where a new branch is best tied in.
    TieIns(&'a TieIns),
    /// The drawing and its schedules as a worksheet, and after it the working of its key.
    Worksheet(Asked),
}

/// So many places stand in the list of a survey, and of so many the reasons.
const LISTED: usize = 12;
const EXPLAINED: usize = 2;

impl Matter<'_> {
    /// The blocks beside the drawing and those on later sheets; `None` where the permit's own schedules stand there.
    pub(super) fn blocks(
        &self,
        job: &Job,
        study: &Study,
        book: &Codebook,
        places: &Places<'_>,
    ) -> Option<(Vec<Block>, Vec<Block>)> {
        match self {
            Matter::Permit | Matter::Whole(_) | Matter::Worksheet(_) => None,
            Matter::Carried { variants, least } => {
                let mut first: Vec<Block> = existing::whole(job, study, book, places).into_iter().collect();
                first.push(key(
                    "Strokes across pipe: long, heavy and dense, over capacity after this work; shorter, thin and few, within \
                     capacity; the shortest, not judged. A cross: a device over its rating, a regulator below its \
                     setting or an inlet below its minimum.",
                ));
                Some((first, vec![ways(variants, least, study.names.units())]))
            }
            Matter::Variants(found) => {
                let differences = (!found.differences.is_empty()).then(|| take_off_of_variants(found));
                let all = [Some(variants(found)), differences, Some(key(VARIANTS))];
                Some((all.into_iter().flatten().collect(), Vec::new()))
            }
            Matter::Quote(quote) => Some((vec![quoted(quote, study.names.units())], Vec::new())),
            Matter::TieIns(found) => {
                let said = key(
                    "Strokes across pipe and crosses at joints, one for each place that was tried: long and heavy, over capacity with the \
                     branch there; shorter and thin, within capacity; the shortest, not judged. Dashed: the new line to the first \
                     place.",
                );
                Some((vec![survey(found, (job, study), places), said], Vec::new()))
            }
        }
    }

    /// What is asked in place of being said.
    pub(super) fn asked(&self) -> Asked {
        match self {
            Matter::Worksheet(asked) => *asked,
            Matter::Permit
            | Matter::Whole(_)
            | Matter::Carried { .. }
            | Matter::Variants(_)
            | Matter::Quote(_)
            | Matter::TieIns(_) => Asked::default(),
        }
    }

    /// Whether the permit drawing, or a worksheet with its schedules, is among the sheets.
    pub(super) const fn is_for_permit(&self) -> bool {
        matches!(self, Matter::Permit | Matter::Whole(_) | Matter::Worksheet(_))
    }

    /// The same without the sheets to work from.
    pub(super) const fn without_work(self) -> Self {
        match self {
            Matter::Whole(_) => Matter::Permit,
            other => other,
        }
    }

    /// What the sheets to work from are made of, after all others.
    pub(super) fn work(&self) -> Option<&Work> {
        match self {
            Matter::Whole(work) => Some(work),
            Matter::Permit
            | Matter::Carried { .. }
            | Matter::Variants(_)
            | Matter::Quote(_)
            | Matter::TieIns(_)
            | Matter::Worksheet(_) => None,
        }
    }

    /// What its first sheet is for.
    pub(super) const fn purpose(&self) -> Purpose {
        match self {
            Matter::Permit | Matter::Whole(_) => Purpose::Issue,
            Matter::Carried { .. } => Purpose::Study(1),
            Matter::TieIns(_) => Purpose::Study(2),
            Matter::Variants(_) => Purpose::Study(3),
            Matter::Quote(_) => Purpose::Study(4),
            Matter::Worksheet(asked) => Purpose::Worksheet(*asked),
        }
    }

    /// What is drawn over the isometric.
    pub(super) fn over(&self, job: &Job, study: &Study, book: &Codebook, drawing: &Isometric) -> Group {
        let view = &drawing.projection;
        match self {
            Matter::Permit | Matter::Whole(_) | Matter::Variants(_) | Matter::Quote(_) | Matter::Worksheet(_) => {
                Group::new()
            }
            Matter::Carried { .. } => group(&strokes::carried(job, &Audit::beside(job, book, study), view)),
            Matter::TieIns(found) => {
                let mut all = group(&strokes::surveyed(job, &found.rows, view));
                if let Some(best) = found.rows.first() {
                    let mut at = view.point(best.at);
                    for leg in &best.route {
                        let to = view.point(leg.to);
                        let line = Stroke::new(crate::scene::Pen::Wide).dash(crate::scene::Dash::Dashed);
                        all.push(PathItem::stroked(Outline::line(at, to), line));
                        at = to;
                    }
                }
                all
            }
        }
    }
}

fn group(strokes: &[Across]) -> Group {
    strokes.iter().fold(Group::new(), |group, stroke| {
        group.with(PathItem::stroked(
            Outline::line(stroke.from, stroke.to),
            Stroke::new(stroke.pen),
        ))
    })
}

fn key(words: &str) -> Block {
    let not = "A study of the job, not a permit drawing: figures are those of the job as drawn, by its profile's \
               method.";
    Block::new(
        Schedule::Notes,
        "How to read this study",
        vec![Part::Text(vec![Paragraph::new(words), Paragraph::new(not)])],
    )
}

fn ways(variants: &[Variant], least: &str, units: UnitSystem) -> Block {
    let columns = std::iter::once(Column::new("", Set::Words))
        .chain(variants.iter().map(|variant| Column::new(variant.head(), Set::Words)))
        .collect();
    let cells: Vec<_> = variants.iter().map(|variant| variant.outcome.column(units)).collect();
    let rows = Outcome::HEADS.iter().enumerate().map(|(at, head)| Row {
        cells: std::iter::once((*head).to_owned())
            .chain(cells.iter().map(|column| column[at].clone()))
            .collect(),
        ..Row::default()
    });
    let table = Table {
        columns,
        rows: rows.collect(),
    };
    let said = variants.iter().filter(|variant| !variant.said.is_empty());
    let said = std::iter::once(least.to_owned()).chain(said.map(Variant::words));
    let text = said.map(Paragraph::new).collect();
    Block::new(
        Schedule::Study,
        "Fixes compared",
        vec![Part::Table(table), Part::Text(text)],
    )
}

/// How the comparison of variants is read.
const VARIANTS: &str = "The variant that is drawn here is marked with a star; the others have drawings of their own. Each is sized and checked \
    by itself, with the same title block, settings and gas. Prices and hours are those of your own lists.";

/// The names of the variants as heads, the drawn one with a star.
fn heads(found: &ComparedVariants) -> Vec<Column> {
    let name = |variant: &ComparedVariant| match variant.is_shown {
        true => format!("{} *", variant.name),
        false => variant.name.clone(),
    };
    let names = found.variants.iter().map(name);
    std::iter::once(String::new())
        .chain(names)
        .map(|name| Column::new(name, Set::Words))
        .collect()
}

fn variants(found: &ComparedVariants) -> Block {
    let rows = found.rows().into_iter().map(|(head, cells)| Row {
        cells: std::iter::once(head.to_owned()).chain(cells).collect(),
        ..Row::default()
    });
    let table = Table {
        columns: heads(found),
        rows: rows.collect(),
    };
    Block::new(
        Schedule::Study,
        "Variants compared",
        vec![Part::Table(table), Part::Text(vec![Paragraph::new(found.said())])],
    )
}

fn take_off_of_variants(found: &ComparedVariants) -> Block {
    let rows = found.differences.iter().map(|line| {
        let quantity = |quantity: &Option<String>| quantity.clone().unwrap_or_else(|| "–".to_owned());
        let what = format!("{}: {}", line.group.name(), line.label);
        Row {
            cells: std::iter::once(what)
                .chain(line.quantities.iter().map(quantity))
                .collect(),
            ..Row::default()
        }
    });
    let table = Table {
        columns: heads(found),
        rows: rows.collect(),
    };
    Block::new(
        Schedule::TakeOff,
        "Where their take-offs differ",
        vec![Part::Table(table)],
    )
}

/// The quote, shelf by shelf.
fn quoted(quote: &Quote, units: UnitSystem) -> Block {
    let columns = vec![
        Column::new("quantity", Set::Number),
        Column::new("item", Set::Words),
        Column::new("price", Set::Number),
    ];
    let mut rows = Vec::new();
    for lines in quote.lines.chunk_by(|one, other| one.shelf == other.shelf) {
        rows.push(Row {
            cells: vec![String::new(), lines[0].shelf.to_owned()],
            weight: Weight::Heading,
            tag: None,
        });
        rows.extend(lines.iter().map(|line| Row {
            cells: vec![
                line.quantity.show(units),
                line.what.clone(),
                line.price.map_or_else(|| "not priced".to_owned(), money),
            ],
            ..Row::default()
        }));
    }
    rows.extend(quote.sums().into_iter().map(|(head, sum)| Row {
        cells: vec![String::new(), head.to_owned(), sum],
        weight: Weight::Strong,
        tag: None,
    }));
    let said = Part::Text(vec![Paragraph::new(QUOTE)]);
    Block::new(
        Schedule::Study,
        "Quote",
        vec![Part::Table(Table { columns, rows }), said],
    )
}

fn survey(found: &TieIns, (job, study): (&Job, &Study), places: &Places<'_>) -> Block {
    let units = study.names.units();
    let columns = vec![
        Column::new("rank", Set::Number),
        Column::new("tie-in", Set::Words),
        Column::new("result", Set::Words),
        Column::new("new line", Set::Number),
        Column::new("pipe weight", Set::Number),
        Column::new("lowest margin", Set::Words),
    ];
    let row = |(at, row): (usize, &TieIn)| {
        let weight = match row.standing() {
            TieInStanding::Holds | TieInStanding::Before | TieInStanding::Unknown => Weight::Plain,
            TieInStanding::Fails => Weight::Strong,
        };
        let spare = row.lowest.as_ref();
        Row {
            cells: vec![
                (at + 1).to_string(),
                place(&row.place, job, places),
                row.verdict(),
                row.route_length().show(units),
                row.shown_weight(units).unwrap_or_else(|| "–".to_owned()),
                spare.map_or_else(
                    || "–".to_owned(),
                    |lowest| format!("{} {}", margin(lowest.margin, units), lowest.name),
                ),
            ],
            weight,
            tag: None,
        }
    };
    let rows: Vec<Row> = found.rows.iter().take(LISTED).enumerate().map(row).collect();
    let said = format!(
        "{} places tried, {} apart; the best {} are listed.",
        found.rows.len(),
        found.spacing.show(units),
        rows.len()
    );
    let reasons = found.rows.iter().take(EXPLAINED).enumerate();
    let reasons = reasons.map(|(at, row)| Paragraph::new(format!("{}: {}", at + 1, row.reasons(units).join(" "))));
    let text: Vec<Paragraph> = std::iter::once(Paragraph::new(said)).chain(reasons).collect();
    Block::new(
        Schedule::Study,
        "Where to tie in",
        vec![Part::Table(Table { columns, rows }), Part::Text(text)],
    )
}

/// What an inlet has above its least pressure; with a minus what it lacks.
fn margin(margin: PressureDrop, units: UnitSystem) -> String {
    let size = PressureDrop::from_pa(margin.pa().abs()).show(units);
    match margin.pa() < 0.0 {
        true => format!("−{size}"),
        false => size,
    }
}

/// A place by what stands on the drawing.
fn place(place: &TieInPlace, job: &Job, places: &Places<'_>) -> String {
    let called = |joint: JointId| match job.joints.position(joint) {
        Some(joint) => places.joint(joint),
        None => joint.to_string(),
    };
    match place {
        TieInPlace::Joint(joint) => called(*joint),
        TieInPlace::Run { run, along } => {
            let along = along.show(job.settings.units);
            match job.runs.get(*run) {
                Some(drawn) => format!("{along} from {} to {}", called(drawn.from), called(drawn.to)),
                None => along,
            }
        }
    }
}
