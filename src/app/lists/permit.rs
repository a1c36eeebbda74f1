//! What permit offices ask for, held against the job.

use super::list::{List, Then};
use super::row::{Column, Leads, Lines, Row, Table};
use crate::codebook::PermitAsk;
use crate::desk::request::Request;
use crate::desk::{Desk, Shown};
use crate::editor::Part;
use crate::job::TitleBlock;
use crate::permit_list::{PermitLine, PermitList, Tick};
use crate::rules::Severity;
use crate::sheet::Field;

/// The list of what is asked.
#[derive(Default)]
pub struct Permit {
    /// As it is shown.
    list: Option<PermitList>,
}

impl List for Permit {
    fn name(&self) -> &'static str {
        "Permit checklist"
    }

    fn tip(&self) -> &'static str {
        "What 23 public requirements ask for (18 local offices, 2 US state rules, a Canadian province and a municipality, a model code), checked \
         against the job. A check mark means that the job has the item, not that it is correct. Point at a row for who asks; a row of what is \
         missing leads to the field"
    }

    fn table(&mut self, desk: &mut Desk) -> Option<Table> {
        let shown = desk.shown();
        let list = PermitList::of(&shown.job, &shown.checked.study, &desk.book());
        let table = table(shown, &list);
        self.list = Some(list);
        Some(table)
    }

    fn choose(&mut self, at: usize, desk: &mut Desk) -> Then {
        let line = self.list.as_ref().and_then(|list| lines(list).into_iter().nth(at));
        let line = line.filter(|line| line.tick == Tick::Missing);
        if let Some(field) = line.and_then(|line| title_field(line, &desk.shown().job.title)) {
            desk.ask(Request::FillIn(field));
        }
        Then::Lead
    }
}

/// The items that offices ask for as the list has them: what is missing first.
fn lines(list: &PermitList) -> Vec<&PermitLine> {
    let mut lines: Vec<&PermitLine> = list.lines.iter().collect();
    lines.sort_by_key(|line| line.tick != Tick::Missing);
    lines
}

/// Who asks for the item of a line.
fn asked_by(list: &PermitList, line: &PermitLine) -> String {
    match list.asked_by(line)[..] {
        [] => "No source names it: commonly asked for, from memory.".to_owned(),
        ref names => format!("Asked by: {}.", names.join("; ")),
    }
}

/// What permit offices ask for, ticked.
fn table(shown: &Shown, list: &PermitList) -> Table {
    let row = |line: &PermitLine| {
        let cells = vec![
            line.tick.name().to_owned(),
            line.item.item.clone(),
            format!("{} of {} {}", line.item.asked, line.item.read, line.item.mark),
            match line.field.filter(|_| line.tick == Tick::Missing) {
                Some(field) => format!("{} – {field}", line.words.trim_end_matches('.')),
                None => line.words.clone(),
            },
        ];
        let places = line.places.iter().filter_map(|place| shown.part_at(*place));
        let places: Vec<Part> = places.collect();
        let leads = match (line.tick, places.is_empty()) {
            (_, true) => Leads::Job,
            (Tick::Missing, false) => Leads::Each(places),
            (Tick::Shown | Tick::NotCalledFor | Tick::ByHand, false) => Leads::Together(places),
        };
        Row {
            mark: (line.tick == Tick::Missing).then_some(Severity::Check),
            aside: asked_by(list, line),
            ..Row::new(cells, leads)
        }
    };
    Table {
        rows: lines(list).into_iter().map(row).collect(),
        columns: vec![
            Column::words("check"),
            Column::wide("what is asked for", 1.0),
            Column::words("by"),
            Column::wide("where it is, or what is missing", 1.4),
        ],
        lines: Lines::Two,
        empty: "No list is available.".to_owned(),
    }
}

/// The field of the title block in which an item is filled in; of two the first that is empty.
fn title_field(line: &PermitLine, title: &TitleBlock) -> Option<Field> {
    Some(match line.item.ask {
        PermitAsk::Licence => Field::Licence,
        PermitAsk::Address => Field::Site,
        PermitAsk::Description => Field::Description,
        PermitAsk::DateNumber if !title.date.trim().is_empty() => Field::Drawing,
        PermitAsk::DateNumber => Field::Date,
        PermitAsk::Code => Field::Code,
        _ => return None,
    })
}
