//! The sheets of one job: the drawing with what fits beside it, the same larger where words are left out of it, then the
//! rest.

mod beside;
mod draw;
mod larger;
mod notice;
mod remarks;
mod schedules;
mod working;

use super::about::{About, Arrange};
use super::arranged;
use super::block::{Block, Part};
use super::fill::Filled;
use super::findings::Found;
use super::matter::Matter;
use super::notes::{self, Ground};
use super::paper::{Orientation, Paper};
use super::plan::{Arrangement, Needs, Plan, title_width};
use super::purpose::Purpose;
use super::tags::Schedule;
use super::title_block::TitleBlock;
use super::{appliances, built, cautions, changes, existing, points, revisions, sections, supply};
use crate::changes::Changes;
use crate::codebook::{Codebook, Profile};
use crate::drawing::{Crowding, First, Gone, Homeless, Isometric, Options, isometric};
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::Scene;
use crate::study::{Places, Study};
use beside::MOST_FINDINGS;
use draw::Which;
use larger::Larger;
use notice::Lacking;
use remarks::left_out;
use schedules::{pointer, schedule_sheets};
use std::cell::Cell;
use working::Working;

/// Between the edge of the drawing's box and the drawing, mm.
const CLEAR: f64 = 4.0;
/// After so many tests for free places nothing further is tried for the sheets of a job, only drawn.
const MOST_EFFORT: usize = 24_000_000;

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The sheets in order: the drawing first, the same larger or in parts where its words find no room, then schedules
    /// that did not fit beside it.
    pub sheets: Vec<Scene>,
    /// What stands on each sheet, in few words.
    pub names: Vec<String>,
    /// What each sheet is for.
    pub purposes: Vec<Purpose>,
    /// For each change since the issue the numbers of the clouds that it is in, on the first sheet.
    pub clouded: Vec<Vec<usize>>,
    /// What should be said to the person who asked: a drawing too dense for its paper.
    pub remarks: Vec<String>,
    /// How long places for words were looked for, in tests of one thing against another: the same on every machine.
    pub effort: usize,
}

/// Composes the permit sheets of a job. A job without anything in it gives one sheet too.
pub fn compose(job: &Job, checked: &Checked, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    compose_about(job, checked, book, paper, orientation, About::default())
}

/// Composes sheets about a matter of a job, or about what changed in it.
pub fn compose_about<'a>(
    job: &'a Job,
    checked: &'a Checked,
    book: &'a Codebook,
    paper: Paper,
    orientation: Orientation,
    about: impl Into<About<'a>>,
) -> Packet {
    let About { matter, since, arrange } = about.into();
    let permit = Composer::new(job, checked, book, paper, orientation);
    // The way to a place of a survey is told in steps of the job as it is drawn.
    let how = if matches!(matter, Matter::TieIns(_)) {
        Arrange::Never
    } else {
        arrange
    };
    let arranged = arranged::arranged(&permit, how);
    let since = since.filter(|_| matter.is_for_permit());
    let moved = arranged
        .as_ref()
        .zip(since)
        .map(|(drawn, since)| arranged::moved(since, job, drawn));
    let composer = Composer {
        matter,
        since: moved.as_ref().or(since),
        title: permit.title_for(matter.purpose()),
        drawn: arranged.as_ref().unwrap_or(job),
        is_arranged: arranged.is_some(),
        effort: Cell::new(0),
        ..permit
    };
    let (composer, plan, drawing) = composer.in_room();
    let (blocks, later) = composer.blocks(&drawing);
    let (filled, hidden) = composer.filled(&blocks, &composer.choices(&blocks), &plan);
    let left_over = filled.rest.iter().map(|at| blocks[*at].clone());
    let rest: Vec<Block> = composer
        .whole_findings(hidden)
        .into_iter()
        .chain(left_over)
        .chain(later)
        .collect();
    let work = composer.matter.work().filter(|_| !built::is_built(job));
    let larger: &[(Plan, Isometric)] = composer.larger().map_or(&[], |larger| &larger.sheets);
    let first = schedule_sheets(&rest, plan.body);
    let others = 2 + larger.len();
    let second = others + first.len();
    let working = work.and_then(|work| Working::of(&composer, work, second));
    let mut by_hand: Vec<Block> = work.map_or_else(Vec::new, |work| work.blocks(job.settings.units, &composer.places));
    let found = Found::of(&checked.findings);
    if !by_hand.is_empty() {
        let warned = found.block(found.blocking(), &composer.places);
        by_hand.splice(0..0, warned);
    }
    by_hand.extend(working.iter().flat_map(|working| working.rest.iter().cloned()));
    // The sheets in order: drawing, the same larger where it has no room, its schedules, drawing of the pieces, the other
    // sheets to work from, the test last.
    let mut poured = [first, schedule_sheets(&by_hand, plan.body)];
    // What is signed stands alone, so that it can be handed on.
    let to_sign: Vec<Block> = work.map(|work| work.test(job, &composer.places)).into_iter().collect();
    poured[1].extend(schedule_sheets(&to_sign, plan.body));
    let of_pieces = working.as_ref().map_or(0, |working| working.sheets.len());
    let of = others - 1 + poured.iter().map(Vec::len).sum::<usize>() + of_pieces;
    let parts = poured
        .iter()
        .flatten()
        .flat_map(|(_, sheet)| sheet.parts.iter().copied());
    let all = parts.chain(working.iter().map(|_| Schedule::Pieces)).collect();
    let which = |number, purpose| Which { number, of, purpose };
    let purpose = matter.purpose();
    let drawn = (&plan, &drawing, &filled);
    let mut names = vec!["drawing".to_owned()];
    let elsewhere = pointer((others, of), all);
    let lacking = Lacking::First(composer.larger().map(Larger::told));
    let mut sheets = vec![draw::drawn(&composer, drawn, &elsewhere, lacking, which(1, purpose))];
    for (number, (plan, drawing)) in larger.iter().enumerate() {
        names.push(match larger.len() {
            1 => "drawing, larger".to_owned(),
            parts => format!("drawing, part {} of {parts}", number + 1),
        });
        let which = which(sheets.len() + 1, purpose);
        let drawn = (plan, drawing, &Filled::default());
        sheets.push(draw::drawn(&composer, drawn, &elsewhere, Lacking::Larger, which));
    }
    let [first, last] = poured;
    for (columns, schedules) in first {
        names.push(schedules::names(&schedules.parts));
        let which = which(sheets.len() + 1, purpose);
        sheets.push(draw::later(&composer, &plan, schedules, &columns, which));
    }
    let mut purposes = vec![purpose; sheets.len()];
    let mut remarks = remarks::remarks(&composer, &drawing);
    remarks.extend(composer.since.and_then(changes::remark));
    if composer.matter.work().is_some() && built::is_built(job) {
        remarks.push("no sheets to work from: the drawing is issued as built, and the work is done".to_owned());
    }
    if let Some(working) = &working {
        let parts = last.iter().flat_map(|(_, sheet)| sheet.parts.iter().copied());
        let elsewhere = pointer((second + of_pieces, of), parts.collect());
        for (number, (plan, drawing, filled)) in working.sheets.iter().enumerate() {
            let name = Schedule::Pieces.name();
            names.push(match of_pieces {
                1 => name.to_owned(),
                parts => format!("{name}, part {} of {parts}", number + 1),
            });
            let which = which(second + number, Purpose::Pieces);
            let drawn = (plan, drawing, filled);
            sheets.push(draw::drawn(&composer, drawn, &elsewhere, Lacking::Pieces, which));
            purposes.push(Purpose::Pieces);
        }
        remarks.extend(working.remarks(paper.name()));
    }
    for (columns, schedules) in last {
        names.push(schedules::names(&schedules.parts));
        let which = which(sheets.len() + 1, Purpose::Work);
        sheets.push(draw::later(&composer, &plan, schedules, &columns, which));
    }
    purposes.resize(sheets.len(), Purpose::Work);
    Packet {
        sheets,
        names,
        purposes,
        clouded: drawing.clouded,
        remarks,
        effort: composer.effort.get(),
    }
}

/// Everything that the sheets of a job are composed from.
pub(super) struct Composer<'a> {
    pub(super) job: &'a Job,
    /// The job as it is drawn: with its drawn lengths arranged, or itself.
    drawn: &'a Job,
    is_arranged: bool,
    checked: &'a Checked,
    study: &'a Study,
    book: &'a Codebook,
    profile: &'a Profile,
    paper: Paper,
    orientation: Orientation,
    arrangement: Arrangement,
    places: Places<'a>,
    title: TitleBlock,
    matter: Matter<'a>,
    since: Option<&'a Changes>,
    /// How long places for words were looked for so far.
    effort: Cell<usize>,
    /// Where the drawing of the first sheet leaves words out: `Some`, with the same on sheets of its own where there are
    /// such.
    crowded: Option<Option<Larger>>,
}

impl<'a> Composer<'a> {
    fn new(job: &'a Job, checked: &'a Checked, book: &'a Codebook, paper: Paper, orientation: Orientation) -> Self {
        let study = &checked.study;
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let width = title_width(paper.frame(orientation));
        Composer {
            job,
            drawn: job,
            is_arranged: false,
            checked,
            study,
            book,
            profile,
            paper,
            orientation,
            arrangement: Arrangement::of(paper, orientation),
            places: Places::of(job, study),
            title: TitleBlock::lay(job, checked, profile, width, Purpose::Issue),
            matter: Matter::Permit,
            since: None,
            effort: Cell::new(0),
            crowded: None,
        }
    }

    fn title_for(&self, purpose: Purpose) -> TitleBlock {
        let width = title_width(self.paper.frame(self.orientation));
        TitleBlock::lay(self.job, self.checked, self.profile, width, purpose)
    }

    /// The plan of a first sheet whose drawing has room.
    fn roomy_plan(&self, schedules: f64) -> Plan {
        Plan::of(self.arrangement, self.paper.frame(self.orientation), self, schedules)
    }

    /// The plan of the first sheet.
    fn plan(&self, schedules: f64) -> Plan {
        let plan = self.roomy_plan(schedules);
        match self.crowded {
            Some(_) => {
                let height = notice::height(Lacking::First(None), plan.drawing.width());
                plan.with_notice(height)
            }
            None => plan,
        }
    }

    /// The same permit sheets with another drawing of the job.
    pub(super) fn drawing_of<'b>(&self, drawn: &'b Job) -> Composer<'b>
    where
        'a: 'b,
    {
        Composer {
            drawn,
            is_arranged: true,
            ..Composer::new(self.job, self.checked, self.book, self.paper, self.orientation)
        }
    }

    fn options(&self) -> Options<'a> {
        Options {
            is_arranged: self.is_arranged,
            since: self.since,
            gone: match built::is_built(self.job) && self.matter.is_for_permit() {
                true => Gone::LeftOut,
                false => Gone::Drawn,
            },
            ..Options::default()
        }
    }

    fn isometric(&self, plan: &Plan) -> Isometric {
        let homeless = match self.larger() {
            Some(_) => Homeless::LeftOut,
            None => Homeless::default(),
        };
        let options = Options {
            homeless,
            ..self.options()
        };
        self.draw(plan, options)
    }

    /// Draws on the paper that a plan leaves for it, and counts what that took.
    fn draw(&self, plan: &Plan, options: Options<'_>) -> Isometric {
        let drawing = isometric(self.drawn, self.study, plan.drawing.grown(-CLEAR), options);
        self.effort.set(self.effort.get() + drawing.effort);
        drawing
    }

    /// Whether so much was tried already that what has been found must do: a drawing far too dense for its paper would be
    /// lettered a hundred times.
    fn has_tried_enough(&self) -> bool {
        self.effort.get() > MOST_EFFORT
    }

    /// The first sheet; where its drawing leaves words out, with a notice that says so and, on a permit drawing, with the
    /// drawing again on sheets of its own.
    fn in_room(self) -> (Self, Plan, Isometric) {
        let (plan, drawing) = self.first_sheet();
        if left_out(&drawing) == 0 {
            return (self, plan, drawing);
        }
        let larger = (self.matter.is_for_permit()).then(|| {
            let heights = (self.arrangement).schedule_heights(self.paper.frame(self.orientation));
            let plan = self.roomy_plan(heights.first().copied().unwrap_or_default()).alone();
            let first = First { sheet: 2, letter: 0 };
            Larger::of(&self, &plan, self.options(), first, Lacking::Larger)
        });
        let composer = Composer {
            crowded: Some(larger),
            ..self
        };
        let (plan, drawing) = composer.first_sheet();
        (composer, plan, drawing)
    }

    /// The drawing on sheets of its own, where the first has no room for all its words.
    fn larger(&self) -> Option<&Larger> {
        self.crowded.as_ref().and_then(Option::as_ref)
    }

    /// Whether the words of the drawing find room, here or on sheets of its own.
    fn crowding(&self, drawing: &Isometric) -> Crowding {
        match self.larger().map_or(left_out(drawing), Larger::left_out) {
            0 => Crowding::Fits,
            left_out => Crowding::TooDense { left_out },
        }
    }

    /// The blocks that may stand on the first sheet, and those that never do, both in reading order.
    fn blocks(&self, drawing: &Isometric) -> (Vec<Block>, Vec<Block>) {
        let found = Found::of(&self.checked.findings);
        let (mut first, mut later) = (Vec::new(), Vec::new());
        let (numbered, used) = match self.larger() {
            Some(larger) => (larger.numbered(), drawing.used.with(larger.used())),
            None => (points::here(&drawing.numbered), drawing.used),
        };
        let symbols: Vec<_> = used.iter().collect();
        let legend =
            (!symbols.is_empty()).then(|| Block::new(Schedule::Legend, "Legend", vec![Part::Samples(symbols)]));
        if let Some((mut first, later)) = self.matter.blocks(self.job, self.study, self.book, &self.places) {
            first.extend(points::block(&numbered, &self.places));
            first.extend(legend);
            first.sort_by_key(|block| block.which);
            return (first, later);
        }
        first.extend(found.block(found.blocking().min(MOST_FINDINGS), &self.places));
        let schedules = if self.arrangement.drawing_first() {
            &mut later
        } else {
            &mut first
        };
        schedules.extend(self.since.map(|since| changes::block(since, &drawing.clouded)));
        schedules.push(supply::block(
            self.job,
            self.study,
            self.book,
            self.profile,
            &self.places,
        ));
        schedules.push(appliances::block(self.job, self.study));
        schedules.push(sections::block(self.job, self.study, self.book, &self.places));
        schedules.extend(existing::block(self.job, self.study, self.book, &self.places));
        let ground = Ground {
            job: self.job,
            study: self.study,
            findings: &self.checked.findings,
            book: self.book,
            profile: self.profile,
            crowding: self.crowding(drawing),
        };
        schedules.push(notes::block(&ground, &self.title.cut));
        schedules.extend(built::block(self.job));
        let width = self.arrangement.revision_width(self.paper.frame(self.orientation));
        schedules.extend(revisions::all(self.job, self.arrangement.revision_lines(), width));
        first.extend(points::block(&numbered, &self.places));
        first.extend(legend);
        first.sort_by_key(|block| block.which);
        (first, later)
    }
}

impl Needs for Composer<'_> {
    fn title(&self) -> f64 {
        self.title.height()
    }

    fn cautions(&self, width: f64) -> f64 {
        cautions::block(self.profile, width).lay(width).height()
    }

    fn revisions(&self, width: f64) -> f64 {
        revisions::block(self.job, self.arrangement.revision_lines(), width)
            .lay(width)
            .height()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{Symbol, SymbolSet};

    fn legend(used: SymbolSet, paper: Paper) -> Vec<Symbol> {
        let (job, book) = (Job::default(), Codebook::published());
        let checked = Checked::of(&job, book);
        let composer = Composer::new(&job, &checked, book, paper, Orientation::Landscape);
        let mut drawing = composer.isometric(&composer.plan(0.0));
        drawing.used = used;
        let (first, later) = composer.blocks(&drawing);
        assert!(later.iter().all(|block| block.which != Schedule::Legend));
        let parts = first
            .into_iter()
            .filter(|block| block.which == Schedule::Legend)
            .flat_map(|block| block.parts);
        parts
            .flat_map(|part| match part {
                Part::Samples(symbols) => symbols,
                Part::Table(_) | Part::Pairs(_) | Part::Text(_) => Vec::new(),
            })
            .collect()
    }

    #[test]
    fn the_legend_explains_what_is_drawn_and_nothing_else() {
        for paper in Paper::ALL {
            let mut used = SymbolSet::default();
            assert_eq!(legend(used, paper), []);
            for symbol in [Symbol::Union, Symbol::NewPipe, Symbol::Break] {
                used.insert(symbol);
            }
            assert_eq!(legend(used, paper), [Symbol::NewPipe, Symbol::Union, Symbol::Break]);
        }
    }
}
