//! What is bought, how pipe is cut, what is done in turn and what offices ask for, as rows.

use super::row::{Column, Leads, Lines, Row, Table};
use crate::app::desk::{Shown, Takes};
use crate::editor::Part;
use crate::job::{Material, TitleBlock};
use crate::permit_list::{PermitLine, PermitList, Tick};
use crate::rules::Severity;
use crate::sheet::Field;
use crate::study::Place;
use crate::study::words::NONE;
use crate::units::{Show, UnitSystem};
use crate::work::{EDITED, Group, Line, Making, OrderOfWork, Piece, Step};

/// Everything that is bought, kept or taken out.
pub fn take_off(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    // Those of the person's own first: a line that has just been added is in view.
    let (drawn, own) = takes.take_off.lines.split_at(takes.take_off.drawn);
    let row = |line: &Line| {
        let cells = vec![
            line.quantity.show(units),
            line.named(),
            line.size.clone(),
            line.material.to_owned(),
            line.heading(),
            line.mark.map_or_else(String::new, |mark| mark.letter().to_string()),
            line.remark.clone(),
        ];
        let places = line.places.iter().filter_map(|place| part(shown, *place));
        let mark = (line.group == Group::Settle).then_some(Severity::Caution);
        Row {
            aside: "Leads to all of them".to_owned(),
            mark,
            ..Row::new(cells, Leads::Together(places.collect()))
        }
    };
    Table {
        rows: own.iter().chain(drawn).map(row).collect(),
        columns: vec![
            Column::figures("how much"),
            Column::wide("what", 1.0),
            Column::words("size"),
            Column::words("material"),
            Column::words("to do"),
            Column::words("mark"),
            Column::wide("remark", 1.5),
        ],
        lines: Lines::One,
        empty: "Nothing is drawn yet.".to_owned(),
    }
}

/// The steps of the work, with what a person said of them, and at last what was said of steps that are gone.
pub fn order(shown: &Shown, order: &OrderOfWork) -> Table {
    let step = |(at, step): (usize, &Step)| {
        let after = step.after.iter().map(|line| format!(" + {line}"));
        let cells = vec![
            (at + 1).to_string(),
            step.heading.to_owned(),
            format!("{}{}", step.words, after.collect::<String>()),
            match step.left_out {
                true => "left out by hand",
                false => step.basis(),
            }
            .to_owned(),
        ];
        let places = step.places.iter().filter_map(|place| part(shown, *place));
        Row::new(cells, Leads::Together(places.collect()))
    };
    let gone = order.said_of_no_step().map(|words| {
        let cells = ["", "no longer in the order", words.as_str(), EDITED].map(str::to_owned);
        Row {
            mark: Some(Severity::Caution),
            ..Row::new(cells.to_vec(), Leads::Together(Vec::new()))
        }
    });
    Table {
        rows: order.steps.iter().enumerate().map(step).chain(gone).collect(),
        columns: vec![
            Column::figures("no."),
            Column::words("step"),
            Column::wide("what is done", 3.0),
            Column::wide("basis", 1.0),
        ],
        lines: Lines::Two,
        empty: "Nothing new and nothing to be removed is drawn.".to_owned(),
    }
}

/// The items that offices ask for as the list has them: what is missing first.
pub fn permit_lines(list: &PermitList) -> Vec<&PermitLine> {
    let mut lines: Vec<&PermitLine> = list.lines.iter().collect();
    lines.sort_by_key(|line| line.tick != Tick::Missing);
    lines
}

/// Who asks for the item of a line.
fn asked_by(list: &PermitList, line: &PermitLine) -> String {
    match list.asked_by(line)[..] {
        [] => "No source names it: commonly asked, from memory.".to_owned(),
        ref names => format!("Asked by: {}.", names.join("; ")),
    }
}

/// What permit offices ask for, ticked.
pub fn permit(shown: &Shown, list: &PermitList) -> Table {
    let row = |line: &PermitLine| {
        let cells = vec![
            line.tick.name().to_owned(),
            line.item.item.to_owned(),
            format!("{} of {} {}", line.item.asked, line.item.read, line.item.mark),
            match line.field.filter(|_| line.tick == Tick::Missing) {
                Some(field) => format!("{} – {field}", line.words.trim_end_matches('.')),
                None => line.words.clone(),
            },
        ];
        let places = line.places.iter().filter_map(|place| part(shown, *place));
        let places: Vec<Part> = places.collect();
        let leads = match (line.tick, places.is_empty()) {
            (_, true) => Leads::Job,
            (Tick::Missing, false) => Leads::Each(places),
            (Tick::Shown | Tick::NotCalledFor | Tick::ByHand, false) => Leads::Together(places),
        };
        Row {
            mark: (line.tick == Tick::Missing).then_some(Severity::Caution),
            aside: asked_by(list, line),
            ..Row::new(cells, leads)
        }
    };
    Table {
        rows: permit_lines(list).into_iter().map(row).collect(),
        columns: vec![
            Column::words("tick"),
            Column::wide("what is asked", 1.0),
            Column::words("by"),
            Column::wide("where it stands, or what is missing", 1.4),
        ],
        lines: Lines::Two,
        empty: "No list is at hand.".to_owned(),
    }
}

/// The field of the title block in which an item is filled in; of two the first that is empty.
pub fn title_field(line: &PermitLine, title: &TitleBlock) -> Option<Field> {
    Some(match line.item.id {
        "licence" => Field::Licence,
        "address" => Field::Site,
        "description" => Field::Description,
        "date-number" if !title.date.trim().is_empty() => Field::Drawing,
        "date-number" => Field::Date,
        "code" => Field::Code,
        _ => return None,
    })
}

fn part(shown: &Shown, place: Place) -> Option<Part> {
    match place {
        Place::Joint(id) => Some(Part::Joint(id)),
        Place::Run(id) => Some(Part::Run(id)),
        Place::Section(number) => {
            let section = shown.checked.study.sections.get(number.checked_sub(1)?)?;
            Some(Part::Run(shown.job.runs.at(*section.runs.first()?).id))
        }
        Place::Job => None,
    }
}

/// Every piece of new pipe.
pub fn cuts(shown: &Shown, takes: &Takes) -> Table {
    let units = shown.job.settings.units;
    let rows = takes.cuts.pieces.iter().flat_map(|piece: &Piece| {
        let leads = || {
            let runs = piece.runs.iter().map(|&run| Part::Run(shown.job.runs.at(run).id));
            Leads::Together(runs.collect())
        };
        let [from, to] = piece.end_words(units);
        let row = |mark: &str, length: String| {
            let cells = vec![
                mark.to_owned(),
                piece
                    .size
                    .map_or_else(|| NONE.to_owned(), |size| takes.cuts.names.show(piece.material, size)),
                piece.material.short().to_owned(),
                piece.centre_to_centre.show(units),
                from.clone(),
                to.clone(),
                length,
            ];
            Row {
                mark: match piece.making {
                    Making::TooShort(_) | Making::TooLong => Some(Severity::Blocking),
                    _ if !piece.is_known() || piece.is_on_a_male_end() => Some(Severity::Caution),
                    _ => None,
                },
                aside: aside(piece, units),
                ..Row::new(cells, leads())
            }
        };
        let marked = piece.marked(units).into_iter();
        marked.map(|(mark, length)| row(mark, length)).collect::<Vec<_>>()
    });
    let nipples = takes.cuts.nipples.iter().map(|nipple| {
        let [from, to] = nipple.between.clone();
        let cells = vec![
            nipple.mark.clone(),
            nipple.size.map_or_else(|| NONE.to_owned(), |size| size.show(units)),
            Material::Steel40.short().to_owned(),
            String::new(),
            from,
            to,
            nipple.made(units),
        ];
        let at = shown.job.joints.at(nipple.joint).id;
        Row::new(cells, Leads::Together(vec![Part::Joint(at)]))
    });
    Table {
        rows: rows.chain(nipples).collect(),
        columns: vec![
            Column::words("piece"),
            Column::figures("size"),
            Column::words("material"),
            Column::figures("centre to centre"),
            Column::wide("from", 1.0),
            Column::wide("to", 1.0),
            Column::figures("cut"),
        ],
        lines: Lines::One,
        empty: "No new pipe is drawn yet.".to_owned(),
    }
}

/// What is told beside a piece: its offset, and what must be known of its ends.
fn aside(piece: &Piece, units: UnitSystem) -> String {
    let offset = piece.offset.iter().map(|offset| offset.words(units));
    offset.chain(piece.remarks(units)).collect::<Vec<_>>().join("\n")
}
