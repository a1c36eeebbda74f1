//! The sheets of one job: the drawing with what fits beside it, then the rest.

mod draw;

use super::block::{Block, Laid, Part};
use super::fill::{Choice, Filled};
use super::findings::Found;
use super::notes::{self, Ground};
use super::paper::{Orientation, Paper};
use super::places::Places;
use super::plan::{Arrangement, Needs, Plan, title_width};
use super::pour::{Poured, poured};
use super::tags::Schedule;
use super::text::Paragraph;
use super::title_block::TitleBlock;
use super::{appliances, cautions, points, revisions, sections, supply};
use crate::codebook::{Codebook, Profile};
use crate::drawing::{Crowding, Isometric, Options, first_that_fits, isometric};
use crate::job::Job;
use crate::scene::{Point, Rect, Scene};
use crate::study::Study;

/// Between the edge of the drawing's box and the drawing, mm.
const CLEAR: f64 = 4.0;
/// The most findings in the box beside the drawing.
const MOST_FINDINGS: usize = 8;
/// How many heights of the schedules under the drawing are tried.
const TRIES: usize = 3;
/// How much smaller a drawing may become so that one more schedule stands beside it.
const STILL_LARGE: f64 = 0.97;
/// How much smaller it may become so that one sheet holds everything.
const LARGE_ENOUGH: f64 = 0.7;
/// The least width of a column on a schedule sheet, mm.
const NARROWEST: f64 = 84.0;
/// The greatest width of a column on a schedule sheet, mm.
const WIDEST: f64 = 210.0;

/// The sheets of one job, ready for any export.
#[derive(Clone, Debug, PartialEq)]
pub struct Packet {
    /// The sheets in order: the drawing first, then schedules that did not fit beside it.
    pub sheets: Vec<Scene>,
    /// What should be said to the person who asked: a drawing too dense for its paper.
    pub remarks: Vec<String>,
}

/// Composes the permit sheets of a job. A job without anything in it gives one sheet too.
pub fn compose(job: &Job, study: &Study, book: &Codebook, paper: Paper, orientation: Orientation) -> Packet {
    let composer = Composer::new(job, study, book, paper, orientation);
    let (plan, drawing) = composer.first_sheet();
    let (blocks, later) = composer.blocks(&drawing);
    let (filled, hidden) = composer.filled(&blocks, &composer.choices(&blocks), &plan);
    let left_over = filled.rest.iter().map(|at| blocks[*at].clone());
    let rest: Vec<Block> = composer
        .whole_findings(hidden)
        .into_iter()
        .chain(left_over)
        .chain(later)
        .collect();
    let (columns, poured) = schedule_sheets(&rest, plan.body);
    let of = poured.len() + 1;
    let pointer = pointer(&poured).lay(plan.columns.first().map_or(NARROWEST, |column| column.width()));
    let mut sheets = vec![draw::first(&composer, &plan, &drawing, &filled, &pointer, of)];
    for (number, schedules) in poured.into_iter().enumerate() {
        sheets.push(draw::later(&composer, &plan, schedules, &columns, number + 2, of));
    }
    Packet {
        sheets,
        remarks: composer.remarks(&drawing),
    }
}

/// Everything that the sheets of a job are composed from.
struct Composer<'a> {
    job: &'a Job,
    study: &'a Study,
    book: &'a Codebook,
    profile: &'a Profile,
    paper: Paper,
    orientation: Orientation,
    arrangement: Arrangement,
    places: Places<'a>,
    title: TitleBlock,
}

impl<'a> Composer<'a> {
    fn new(job: &'a Job, study: &'a Study, book: &'a Codebook, paper: Paper, orientation: Orientation) -> Self {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let width = title_width(paper.frame(orientation));
        Composer {
            job,
            study,
            book,
            profile,
            paper,
            orientation,
            arrangement: Arrangement::of(paper, orientation),
            places: Places::of(job, study),
            title: TitleBlock::lay(job, study, profile, width),
        }
    }

    fn plan(&self, schedules: f64) -> Plan {
        Plan::of(self.arrangement, self.paper.frame(self.orientation), self, schedules)
    }

    fn isometric(&self, plan: &Plan) -> Isometric {
        isometric(self.job, self.study, plan.drawing.grown(-CLEAR), Options::default())
    }

    /// The plan of the first sheet and the drawing on it: so much room for schedules under the drawing that as many as
    /// can be stand beside it, but never so much that the drawing suffers.
    fn first_sheet(&self) -> (Plan, Isometric) {
        let heights = self.arrangement.schedule_heights(self.paper.frame(self.orientation));
        let least = heights.first().copied().unwrap_or_default();
        let plan = self.plan(least);
        let drawing = self.isometric(&plan);
        if heights.len() < 2 {
            return (plan, drawing);
        }
        let (blocks, _) = self.blocks(&drawing);
        let choices = self.choices(&blocks);
        let left_over = |height: f64| {
            let (filled, hidden) = self.filled(&blocks, &choices, &self.plan(height));
            filled.rest.len() + hidden
        };
        let mut ways: Vec<(usize, f64)> = heights.into_iter().map(|height| (left_over(height), height)).collect();
        ways.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        ways.dedup_by_key(|way| way.0);
        for (left_over, height) in ways.into_iter().take(TRIES) {
            if height <= least {
                break;
            }
            let plan = self.plan(height);
            let smaller = self.isometric(&plan);
            let least = if left_over == 0 { LARGE_ENOUGH } else { STILL_LARGE };
            let is_worse = smaller.projection.step < drawing.projection.step * least
                || smaller.numbered.len() > drawing.numbered.len()
                || left_out(&smaller) > left_out(&drawing);
            if !is_worse || self.arrangement.drawing_first() {
                return (plan, smaller);
            }
        }
        (plan, drawing)
    }

    /// The blocks that may stand on the first sheet, and those that never do, both in reading order.
    fn blocks(&self, drawing: &Isometric) -> (Vec<Block>, Vec<Block>) {
        let found = Found::of(self.study);
        let (mut first, mut later) = (Vec::new(), Vec::new());
        first.extend(found.block(found.blocking().min(MOST_FINDINGS), &self.places));
        let schedules = if self.arrangement.drawing_first() {
            &mut later
        } else {
            &mut first
        };
        schedules.push(supply::block(
            self.job,
            self.study,
            self.book,
            self.profile,
            &self.places,
        ));
        schedules.push(appliances::block(self.job, self.study));
        schedules.push(sections::block(self.job, self.study, &self.places));
        let ground = Ground {
            job: self.job,
            study: self.study,
            book: self.book,
            profile: self.profile,
            crowding: drawing.crowding,
        };
        schedules.push(notes::block(&ground, &self.title.cut));
        let width = self.arrangement.revision_width(self.paper.frame(self.orientation));
        schedules.extend(revisions::all(self.job, self.arrangement.revision_lines(), width));
        first.extend(points::block(&drawing.numbered, &self.places));
        let symbols: Vec<_> = drawing.used.iter().collect();
        if !symbols.is_empty() {
            first.push(Block::new(Schedule::Legend, "Legend", vec![Part::Samples(symbols)]));
        }
        first.sort_by_key(|block| block.which);
        (first, later)
    }

    /// The blocks in the ways in which the box of findings may be shortened, all findings first.
    fn choices(&self, blocks: &[Block]) -> Vec<Choice> {
        let most = Found::of(self.study).blocking().min(MOST_FINDINGS);
        let frame = self.paper.frame(self.orientation);
        let heights = self.arrangement.schedule_heights(frame);
        let mut widths: Vec<f64> = heights
            .iter()
            .flat_map(|height| self.plan(*height).columns)
            .map(Rect::width)
            .collect();
        widths.sort_by(f64::total_cmp);
        widths.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let pointer = longest_pointer();
        let shown = (0..=most).rev();
        shown
            .map(|shown| Choice::of(&self.with_findings(blocks, shown), &pointer, &widths, frame.height()))
            .collect()
    }

    /// The first sheet's columns filled, with as many findings as leave room for the legend, and how many are left out.
    fn filled(&self, blocks: &[Block], choices: &[Choice], plan: &Plan) -> (Filled, usize) {
        let must = |at: &usize| matches!(blocks[*at].which, Schedule::Findings | Schedule::Legend);
        let mut last = None;
        for (hidden, choice) in choices.iter().enumerate() {
            let mut filled = choice.fill(&plan.columns);
            let is_enough = !filled.rest.iter().any(must);
            filled.rest.retain(|at| blocks[*at].which != Schedule::Findings);
            last = Some((filled, hidden));
            if is_enough {
                break;
            }
        }
        last.unwrap_or((
            Filled {
                columns: Vec::new(),
                rest: (0..blocks.len()).collect(),
            },
            0,
        ))
    }

    /// All findings that block, where the first sheet shows fewer.
    fn whole_findings(&self, hidden: usize) -> Option<Block> {
        let found = Found::of(self.study);
        let all = found.blocking();
        (hidden > 0 || all > MOST_FINDINGS)
            .then(|| found.block(all, &self.places))
            .flatten()
    }

    fn with_findings(&self, blocks: &[Block], most: usize) -> Vec<Block> {
        let found = Found::of(self.study);
        let swapped = blocks.iter().map(|block| match block.which {
            Schedule::Findings => found.block(most, &self.places).unwrap_or(block.clone()),
            _ => block.clone(),
        });
        swapped.collect()
    }

    fn remarks(&self, drawing: &Isometric) -> Vec<String> {
        let left_out = left_out(drawing);
        if left_out == 0 {
            return Vec::new();
        }
        let labels = if left_out == 1 {
            "1 label finds".to_owned()
        } else {
            format!("{left_out} labels find")
        };
        let first = format!("{labels} no place on {}", self.paper.name());
        let larger = [Paper::AnsiB, Paper::A3]
            .into_iter()
            .flat_map(|paper| [Orientation::Landscape, Orientation::Portrait].map(|orientation| (paper, orientation)));
        let larger: Vec<(Paper, Orientation)> = larger.filter(|one| *one != (self.paper, self.orientation)).collect();
        let areas: Vec<Rect> = larger
            .iter()
            .map(|(paper, orientation)| {
                let other = Composer::new(self.job, self.study, self.book, *paper, *orientation);
                let heights = other.arrangement.schedule_heights(paper.frame(*orientation));
                let plan = other.plan(heights.first().copied().unwrap_or_default());
                plan.drawing.grown(-CLEAR)
            })
            .collect();
        vec![
            match first_that_fits(self.job, self.study, &areas, Options::default()).and_then(|at| larger.get(at)) {
                Some((paper, orientation)) => format!("{first}; {} {} has room", paper.name(), orientation.name()),
                None => format!("{first}, nor on any paper known here: part the job into more than one drawing"),
            },
        ]
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

/// How many labels found no place on a drawing.
const fn left_out(drawing: &Isometric) -> usize {
    match drawing.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
    }
}

/// Blocks poured into the number of equal columns that needs the fewest sheets; of equally good ones the widest columns.
fn schedule_sheets(blocks: &[Block], body: Rect) -> (Vec<Rect>, Vec<Poured>) {
    let least = blocks.iter().map(Block::least_width).fold(NARROWEST, f64::max);
    let most = ((body.width() / least).floor() as usize).max(1);
    let fewest = ((body.width() / WIDEST).ceil() as usize).clamp(1, most);
    let mut best: Option<(Vec<Rect>, Vec<Poured>)> = None;
    for count in fewest..=most.min(fewest + 1) {
        let width = body.width() / count as f64;
        let left = |at: usize| Point::new(body.min.x + at as f64 * width, body.min.y);
        let columns: Vec<Rect> = (0..count)
            .map(|at| Rect::sized(left(at), width, body.height()))
            .collect();
        let laid: Vec<Laid> = blocks.iter().map(|block| block.lay(width)).collect();
        let sheets = poured(&laid, &columns);
        if best.as_ref().is_none_or(|best| sheets.len() < best.1.len()) {
            best = Some((columns, sheets));
        }
    }
    best.unwrap_or_default()
}

/// Says on the first sheet where the rest is.
fn pointer(sheets: &[Poured]) -> Block {
    let mut parts: Vec<Schedule> = sheets.iter().flat_map(|sheet| sheet.parts.iter().copied()).collect();
    parts.sort();
    parts.dedup();
    let names: Vec<&str> = parts.iter().map(|part| part.name()).collect();
    let place = match sheets.len() {
        0 | 1 => "sheet 2".to_owned(),
        many => format!("sheets 2 to {}", many + 1),
    };
    Block::new(
        Schedule::Elsewhere,
        "",
        vec![Part::Text(vec![Paragraph::new(format!(
            "On {place}: {}.",
            names.join(", ")
        ))])],
    )
}

/// A pointer with everything in it, to keep room for any.
fn longest_pointer() -> Block {
    let names: Vec<&str> = Schedule::ALL[..7].iter().map(|part| part.name()).collect();
    let words = format!("On sheets 2 to 9,999: {}, revisions.", names.join(", "));
    Block::new(Schedule::Elsewhere, "", vec![Part::Text(vec![Paragraph::new(words)])])
}
