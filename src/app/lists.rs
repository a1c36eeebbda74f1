//! The lists under the paper: what was found, sections, fittings, appliances, what stands, what can be added and ways to
//! mend. Each row leads to its place.

mod changes;
mod grid;
mod own;
mod row;
mod survey;
mod tables;
mod ways;
mod work;

use super::desk::{Desk, Face, Shown, VIEW};
use super::details::field_of;
use super::look;
use crate::app::canvas::Over;
use crate::drawing::strokes;
use crate::editor::Selection;
use crate::job::Job;
use crate::permit_list::{PermitList, Tick};
use crate::sheet::Field;
use egui::Ui;
use grid::Grid;
use own::Own;
use row::{Leads, Row, Table, next};
use survey::Survey;

/// Which list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Tab {
    #[default]
    Found,
    Changes,
    Sections,
    TakeOff,
    Cuts,
    Order,
    Permit,
    Appliances,
    Existing,
    Room,
    Ways,
    TieIn,
}

impl Tab {
    const ALL: [Tab; 12] = [
        Tab::Found,
        Tab::Changes,
        Tab::Sections,
        Tab::TakeOff,
        Tab::Cuts,
        Tab::Order,
        Tab::Permit,
        Tab::Appliances,
        Tab::Existing,
        Tab::Room,
        Tab::Ways,
        Tab::TieIn,
    ];

    const fn name(self) -> &'static str {
        match self {
            Tab::Found => "Found",
            Tab::Changes => "Changes",
            Tab::Sections => "Sections",
            Tab::TakeOff => "Take-off",
            Tab::Cuts => "Cut list",
            Tab::Order => "Order",
            Tab::Permit => "Permit",
            Tab::Appliances => "Appliances",
            Tab::Existing => "Existing",
            Tab::Room => "To spare",
            Tab::Ways => "Mend",
            Tab::TieIn => "Tie-in",
        }
    }

    const fn tip(self) -> &'static str {
        match self {
            Tab::Found => "What the rules found, worst first",
            Tab::Changes => "What is different from the job as it was issued; a row leads to its place",
            Tab::Sections => "Pipe of one load between two branchings: its load, length, size and what it carries",
            Tab::TakeOff => {
                "Everything that is bought, kept or taken out, with lines of your own; a row leads to its places"
            }
            Tab::Cuts => {
                "Every piece of new pipe with its cut length: centre to centre less what its ends take out; the paper shows \
                 their marks. Measure your fittings before you cut"
            }
            Tab::Order => {
                "What is shut, and what is done in turn; a row leads to its places and lets you change its words"
            }
            Tab::Permit => {
                "What 23 public requirements ask for (18 local offices, 2 US state rules, a Canadian province and a \
                 municipality, a model code), ticked by the job: a tick says that the job holds it, not that it is right. \
                 Point at a row for who asks; a row of what is missing leads to the field"
            }
            Tab::Appliances => "Appliances with their pressure at full load",
            Tab::Existing => {
                "What stands, before and after the work. On the paper: dense long strokes, over capacity; a stroke here and \
                 there, within capacity; short strokes, not judged; a cross, a device over its rating or an inlet below its \
                 minimum"
            }
            Tab::Room => "How much more can be added at each joint before something is over its limit",
            Tab::Ways => "Whole ways to fix what is over its limit, least to buy and do first, beside the job as drawn",
            Tab::TieIn => {
                "Every joint and foot of the piping tried as the tie-in of a new branch. On the paper: a long stroke, \
                 the branch puts nothing over capacity there; a shorter one, not all is known; a short one, over capacity"
            }
        }
    }

    /// The list; `None` while it is worked out.
    fn table(self, desk: &mut Desk, survey: &Survey) -> Option<Table> {
        Some(match self {
            Tab::Found => tables::found(desk.shown()),
            Tab::Changes => changes::table(desk.shown()),
            Tab::Sections => tables::sections(desk.shown()),
            Tab::TakeOff => {
                desk.takes()?;
                work::take_off(desk.shown(), desk.takes_by_now()?)
            }
            Tab::Cuts => {
                desk.takes()?;
                work::cuts(desk.shown(), desk.takes_by_now()?)
            }
            Tab::Order => {
                desk.order()?;
                work::order(desk.shown(), desk.order_by_now()?)
            }
            Tab::Permit => work::permit(desk.shown(), &permit(desk)),
            Tab::Appliances => tables::outlets(desk.shown()),
            Tab::Existing => {
                desk.carried()?;
                tables::existing(desk.shown(), desk.carried_by_now()?)
            }
            Tab::Room => {
                desk.carried()?;
                tables::room(desk.shown(), desk.carried_by_now()?)
            }
            Tab::Ways => {
                let units = desk.shown().job.settings.units;
                ways::table(desk.fixes()?, units)
            }
            Tab::TieIn => survey.table(desk.shown())?,
        })
    }

    /// How many rows, where that is worth saying.
    fn count(self, shown: &Shown) -> Option<usize> {
        match self {
            Tab::Found => Some(shown.checked.findings.len()),
            Tab::Changes => shown.changes.as_ref().map(|changes| changes.list.len()),
            Tab::Sections => Some(shown.checked.study.sections.len()),
            Tab::Appliances => Some(shown.checked.study.outlets.len()),
            Tab::TakeOff | Tab::Cuts | Tab::Order | Tab::Permit => None,
            Tab::Existing | Tab::Room | Tab::Ways | Tab::TieIn => None,
        }
    }
}

/// The lists.
#[derive(Default)]
pub struct Lists {
    tab: Tab,
    grid: Grid,
    kept: Option<Kept>,
    survey: Survey,
    own: Own,
    wanted: Option<Job>,
    field: Option<Field>,
    detail: Option<&'static str>,
}

/// The rows of a list, for as long as they serve.
struct Kept {
    of: (Tab, u64, u64),
    table: Table,
    over: Over,
}

impl Lists {
    /// What is to be marked over the drawing.
    pub fn over(&self) -> &Over {
        static NOTHING: Over = Over {
            strokes: Vec::new(),
            way: Vec::new(),
        };
        self.kept.as_ref().map_or(&NOTHING, |kept| &kept.over)
    }

    /// Shows what changed.
    pub fn show_changes(&mut self) {
        self.tab = Tab::Changes;
    }

    /// A variant of the job that is to be opened as a job of its own; it is taken away.
    pub fn take_wanted(&mut self) -> Option<Job> {
        self.wanted.take()
    }

    /// How the canvas is to be lettered for the list that is shown.
    pub fn face(&self) -> Face {
        match self.tab {
            Tab::Cuts => Face::Pieces,
            _ => Face::Usual,
        }
    }

    /// A field of the title block that is to be filled in; it is taken away.
    pub fn take_field(&mut self) -> Option<Field> {
        self.field.take()
    }

    /// A field of the details that is to be filled in; it is taken away.
    pub fn take_detail(&mut self) -> Option<&'static str> {
        self.detail.take()
    }

    /// Takes what is typed and not yet taken: before anything is saved, or done by a command.
    pub fn settle(&mut self, desk: &mut Desk) {
        self.own.settle(desk);
    }

    /// Shows them.
    pub fn ui(&mut self, ui: &mut Ui, desk: &mut Desk) {
        self.own.begin(desk);
        self.show(ui, desk);
        self.own.end(desk);
    }

    fn show(&mut self, ui: &mut Ui, desk: &mut Desk) {
        ui.add_space(2.0);
        if self.tab == Tab::Changes && desk.issued().is_none() {
            self.tab = Tab::Found;
        }
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            let offered = |tab: &Tab| *tab != Tab::Changes || desk.issued().is_some();
            for tab in Tab::ALL.into_iter().filter(offered) {
                let words = match tab.count(desk.shown()) {
                    Some(count) => format!("{} {count}", tab.name()),
                    None => tab.name().to_owned(),
                };
                ui.selectable_value(&mut self.tab, tab, words).on_hover_text(tab.tip());
            }
            if !desk.is_current() {
                let color = look::warning(ui.visuals().dark_mode);
                ui.label(look::strong("Of before the last change: working").color(color));
            }
        });
        let asked = match self.tab {
            Tab::Ways => desk.fixes().and_then(|fixes| ways::offer(ui, fixes)),
            _ => None,
        };
        match asked {
            Some(ways::Asked::Adopt(step)) => desk.attempt(|_| Ok(*step)),
            Some(ways::Asked::Open(step)) => {
                let mut job = desk.job().clone();
                self.wanted = step.apply(&mut job).is_ok().then_some(job);
            }
            None => {}
        }
        match self.tab {
            Tab::Changes => changes::head(ui, desk),
            Tab::TieIn => self.survey.ui(ui, desk),
            Tab::TakeOff => self.own.take_off(ui, desk),
            Tab::Order => self.own.order(ui, desk),
            _ => {}
        }
        let now = (self.tab, desk.shown().revision, self.survey.stamp);
        let kept = match self.kept.take().filter(|kept| kept.of == now) {
            Some(kept) => self.kept.insert(kept),
            None => {
                let Some(table) = self.tab.table(desk, &self.survey) else {
                    ui.label("Working it out…");
                    ui.allocate_space(ui.available_size());
                    return;
                };
                self.grid.renew();
                let over = match (self.tab, desk.carried_by_now()) {
                    (Tab::Existing, Some(carried)) => Over {
                        strokes: strokes::carried(&desk.shown().job, &carried.audit, &VIEW),
                        way: Vec::new(),
                    },
                    (Tab::TieIn, _) => self.survey.over(desk.shown()),
                    _ => Over::default(),
                };
                self.kept.insert(Kept { of: now, table, over })
            }
        };
        if kept.table.rows.is_empty() {
            ui.label(&kept.table.empty);
            // The panel keeps its height.
            ui.allocate_space(ui.available_size());
            return;
        }
        let selection = desk.editor().selection();
        let (tab, survey) = (self.tab, &self.survey);
        let marked = self.own.row(tab, desk).and_then(|at| kept.table.rows.get(at));
        let is_chosen = |row: &Row| match (tab, marked) {
            (Tab::TieIn, _) => survey.is_chosen(row),
            (Tab::Order, _) => marked.is_some_and(|marked| std::ptr::eq(marked, row)),
            (Tab::TakeOff, Some(marked)) => std::ptr::eq(marked, row),
            _ => row.is_of(|part| selection.contains(part)),
        };
        let asked = self.grid.ui(ui, self.tab.name(), &kept.table, is_chosen);
        if let (Tab::TieIn, Some(at)) = (self.tab, asked) {
            self.survey.choose(at, desk);
            return;
        }
        let Some((at, row)) = asked.and_then(|at| Some((at, kept.table.rows.get(at)?))) else {
            return;
        };
        match self.tab {
            Tab::TakeOff => self.own.extra = Some(at).filter(|at| *at < desk.job().by_hand.extra.len()),
            Tab::Order => self.own.choose_step(at, desk),
            Tab::Found => {
                let finding = desk.shown().checked.findings.get(at);
                self.detail = finding.and_then(|finding| field_of(finding.rule));
            }
            Tab::Permit => {
                let list = permit(desk);
                let line = work::permit_lines(&list).into_iter().nth(at);
                let line = line.filter(|line| line.tick == Tick::Missing);
                self.field = line.and_then(|line| work::title_field(line, &desk.shown().job.title));
            }
            _ => {}
        }
        lead(desk, &row.leads);
    }
}

/// What permit offices ask for, held against what is shown.
fn permit(desk: &Desk) -> PermitList {
    let shown = desk.shown();
    PermitList::of(&shown.job, &shown.checked.study, &desk.book())
}

/// Leads to where a row belongs.
fn lead(desk: &mut Desk, leads: &Leads) {
    match leads {
        Leads::Job => desk.editor_mut().select(Selection::none()),
        Leads::Place(at) => desk.seek_place(*at),
        Leads::Each(parts) => {
            if let Some(part) = next(parts, desk.editor().selection().single()) {
                desk.seek(part);
            }
        }
        Leads::Together(parts) => {
            if let Some(first) = parts.first() {
                desk.seek(*first);
                desk.editor_mut().select(parts.iter().copied().collect());
            }
        }
    }
}
