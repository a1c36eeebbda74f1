//! Sheets to work from: the order of work, the test, what is bought and how pipe is cut.

use super::bars::Bar;
use super::block::{Block, Part};
use super::footnotes::Notes;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use super::{built, hand_over, permit, pieces};
use crate::codebook::{Codebook, StockForm};
use crate::drawing::OtherWords;
use crate::job::Job;
use crate::permit_list::PermitList;
use crate::study::words::{NONE, capital};
use crate::study::{Places, Study};
use crate::units::{Show, UnitSystem};
use crate::work::{
    CutList, Group, LeakLog, Line, MEDIUM, Making, NO_NEW_PIPE, OrderLine, OrderOfWork, PRACTICE, Piece, Reading,
    SCOPE, StartUpRecord, Stick, StockGroup, StockPlan, TakeOff, TestSheet, Tools,
};

/// So many columns of readings of the gauge stand beside one another.
const READINGS: usize = 4;

/// What stands for [`PRACTICE`] in the order of work, which says at its end what it means.
const MARK: &str = "*";

/// What the work on a job follows from.
#[derive(Clone, Debug)]
pub struct Work {
    order: OrderOfWork,
    test: TestSheet,
    cuts: CutList,
    stock: StockPlan,
    take_off: TakeOff,
    permit: Option<PermitList>,
    start_up: StartUpRecord,
    leaks: LeakLog,
    tools: Tools,
}

impl Work {
    /// That of a job.
    pub fn of(job: &Job, study: &Study, book: &Codebook) -> Work {
        let cuts = CutList::of(job, study, book);
        let stock = StockPlan::of(&cuts, study, book);
        let test = TestSheet::of(job, study, book);
        let take_off = TakeOff::of(job, study, book, &cuts, &stock);
        Work {
            order: OrderOfWork::of(job, study, book),
            start_up: StartUpRecord::of(job, study),
            leaks: LeakLog::of(job, study, &take_off),
            tools: Tools::of(job, study, book, &cuts, &test),
            test,
            take_off,
            cuts,
            stock,
            permit: None,
        }
    }

    /// The same with the list of what permit offices ask for.
    pub fn with_permit_list(self, job: &Job, study: &Study, book: &Codebook) -> Work {
        Work {
            permit: Some(PermitList::of(job, study, book)),
            ..self
        }
    }

    /// What stands on the drawing of the pieces; `None` where there is no new pipe.
    pub(super) fn pieces(&self, job: &Job, places: &Places<'_>) -> Option<OtherWords> {
        (!self.cuts.pieces.is_empty()).then(|| pieces::words(job, &self.cuts, places))
    }

    /// What stands beside that drawing where there is room, each with what stands elsewhere where there is none. Beside
    /// the drawing the cut list need not say between which joints a piece lies.
    pub(super) fn beside(&self, units: UnitSystem, places: &Places<'_>) -> Vec<[Block; 2]> {
        let cuts = |places| self.cuts(units, places);
        let same = |block: Block| [block.clone(), block];
        vec![
            same(pieces::key()),
            [cuts(None), cuts(Some(places))],
            same(self.stock(units)),
        ]
    }

    /// The other blocks but the test, in the order in which a fitter takes them up.
    pub(super) fn blocks(&self, places: &Places<'_>) -> Vec<Block> {
        let tools = hand_over::tools(&self.tools, places);
        let blocks = [self.order(), self.take_off(places.units())];
        blocks.into_iter().chain(tools).collect()
    }

    /// What is filled in after the test: the leak-check log and the start-up record.
    pub(super) fn records(&self, job: &Job, places: &Places<'_>) -> Vec<Block> {
        let leaks = hand_over::leak_log(&self.leaks, job, places);
        let start_up = hand_over::start_up(&self.start_up, places.units());
        leaks.into_iter().chain(start_up).collect()
    }

    /// The letter and the tag for the owner.
    pub(super) fn owner(&self, job: &Job, study: &Study, places: &Places<'_>) -> Vec<Block> {
        hand_over::owner(job, study, &self.test, places).into_iter().collect()
    }

    /// What permit offices ask for, where it was asked for.
    pub(super) fn permit_list(&self, places: &Places<'_>) -> Option<Block> {
        self.permit.as_ref().map(|list| permit::block(list, places))
    }

    fn order(&self) -> Block {
        let line = |(at, line): (usize, OrderLine<'_>)| {
            let words = match line {
                OrderLine::Step(step) => {
                    let heading = step.heading.trim_end_matches('.');
                    // Most steps begin with what they are called.
                    let said = match step.words.starts_with(heading) {
                        true => step.words.clone(),
                        false => format!("{heading}. {}", step.words),
                    };
                    match step.basis().replace(PRACTICE, MARK).as_str() {
                        MARK => format!("{said}{MARK}"),
                        basis => format!("{said} [{basis}]"),
                    }
                }
                OrderLine::Own(words) => format!("{words} (added by hand)"),
            };
            Row {
                cells: vec![String::new(), (at + 1).to_string(), words],
                ..Row::default()
            }
        };
        let table = Table {
            columns: vec![
                Column::new("", Set::Tick),
                Column::new("", Set::Number),
                Column::new("step", Set::Words),
                Column::new("initials", Set::Word),
                Column::new("date, time", Set::Word),
            ],
            rows: self.order.lines().enumerate().map(line).collect(),
        };
        let mut steps: Vec<Paragraph> = Vec::new();
        if table.rows.is_empty() {
            steps.push(Paragraph::new("Nothing new and nothing to be removed is drawn."));
        }
        if self.order.steps.iter().any(|step| step.basis().contains(PRACTICE)) {
            steps.push(Paragraph::new(PRACTICE).signed(MARK));
        }
        let left_out = self.order.steps.iter().filter(|step| step.left_out);
        let left_out: Vec<&str> = left_out.map(|step| step.heading).collect();
        if !left_out.is_empty() {
            let words = format!("Left out by hand: {}.", left_out.join(", "));
            steps.push(Paragraph::new(words).signed("–"));
        }
        let gone = self.order.said_of_no_step();
        steps.extend(gone.map(|words| Paragraph::new(format!("No longer among the work steps: {words}")).signed("–")));
        let parts = match table.rows.is_empty() {
            true => vec![Part::Text(steps)],
            false => vec![Part::Table(table), Part::Text(steps)],
        };
        Block::new(Schedule::Order, "Work steps", parts)
    }

    /// The pressure test, with lines to be signed.
    pub(super) fn test(&self, job: &Job, places: &Places<'_>) -> Block {
        let (sheet, units) = (&self.test, places.units());
        if sheet.pipe.is_empty() {
            let said = vec![Part::Text(vec![Paragraph::new(NO_NEW_PIPE)])];
            return Block::new(Schedule::Test, "Pressure test", said);
        }
        let mut said = vec![Paragraph::new(SCOPE)];
        let known = sheet.volume.show(units);
        let volume = match sheet.volume.is_known() {
            true => format!("Volume of the tested pipe: {known}."),
            false => format!("Volume of the tested pipe: {known}, plus runs whose inside diameter is not known."),
        };
        said.push(Paragraph::new(format!("Medium: {MEDIUM}. {volume}")));
        said.push(Paragraph::new(match &sheet.demand {
            None => sheet.no_demand().to_owned(),
            Some(demand) => capital(&demand.words(units)),
        }));
        let rows = sheet.readings.len().div_ceil(READINGS);
        let cells = |reading: &Reading| [reading.temperature.words(units), reading.pressure.show(units)];
        let row = |at: usize| Row {
            cells: sheet
                .readings
                .iter()
                .skip(at)
                .step_by(rows.max(1))
                .flat_map(cells)
                .collect(),
            ..Row::default()
        };
        let heads = ["pipe at", "gauge reads"].iter().cycle().take(2 * READINGS);
        let readings = Table {
            columns: heads.map(|head| Column::new(*head, Set::Word)).collect(),
            rows: (0..rows).map(row).collect(),
        };
        // Places closed in the same way stand on one line.
        let mut closed: Vec<(&str, Vec<String>)> = Vec::new();
        for closure in &sheet.closures {
            let place = job.joints.position(closure.joint).map(|at| places.mark(at));
            let words = closure.kind.words();
            match closed.iter_mut().find(|known| known.0 == words) {
                Some(known) => known.1.extend(place),
                None => closed.push((words, place.into_iter().collect())),
            }
        }
        let line = |(words, places): (&str, Vec<String>)| {
            Paragraph::new(format!("{}: {words}", places.join(", "))).signed("–")
        };
        let closures: Vec<Paragraph> = closed.into_iter().map(line).collect();
        let from = sheet.start().map(|start| start.temperature.words(units));
        let explained = Paragraph::new(format!(
            "What temperature alone does to the reading, starting at {} (P1/T1 = P2/T2, absolute):",
            from.unwrap_or_default()
        ));
        let mut parts = vec![Part::Text(said)];
        if !sheet.readings.is_empty() {
            parts.push(Part::Text(vec![explained]));
            parts.push(Part::Table(readings));
        }
        let purge = sheet.purge.in_short(units);
        let purge = vec![Paragraph::new(format!("Purging, once the pipe is connected: {purge}"))];
        if !closures.is_empty() {
            let heading = "Valves, caps and plugs during the test (common practice, no source):";
            parts.extend([Part::Text(vec![Paragraph::new(heading)]), Part::Text(closures)]);
        }
        parts.extend([Part::Text(purge), Part::Table(built::record())]);
        Block::new(Schedule::Test, "Pressure test", parts)
    }

    /// Its lines under what becomes of them; what stands and stays is left out.
    fn take_off(&self, units: UnitSystem) -> Block {
        let columns = vec![
            Column::new("quantity", Set::Number),
            Column::new("item", Set::Words),
            Column::new("size", Set::Words),
            Column::new("material", Set::Word),
            Column::new("remark", Set::Words),
        ];
        let (drawn, own) = self.take_off.lines.split_at(self.take_off.drawn);
        let groups = drawn.chunk_by(|one, other| one.heading() == other.heading());
        let groups = groups.filter(|lines| lines[0].group != Group::Stays);
        let groups = groups.map(|lines| (lines[0].heading(), lines));
        let own = (!own.is_empty()).then_some(("Added by hand".to_owned(), own));
        let groups: Vec<(String, &[Line])> = groups.chain(own).collect();
        let mut notes = Notes::of(
            groups
                .iter()
                .flat_map(|(_, lines)| *lines)
                .map(|line| line.remark.as_str()),
        );
        let mut rows = Vec::new();
        for (heading, lines) in groups {
            rows.push(Row {
                cells: vec![String::new(), heading],
                weight: Weight::Heading,
                tag: None,
            });
            rows.extend(lines.iter().map(|line| Row {
                cells: vec![
                    line.quantity.show(units),
                    line.named(),
                    line.size.clone(),
                    line.material.to_owned(),
                    notes.instead_of(&line.remark),
                ],
                ..Row::default()
            }));
        }
        let said = Paragraph::new(
            "Counted from the drawing: count and measure on site. Existing parts that remain are left \
                            out.",
        );
        let table = Table { columns, rows }.without_empty_columns();
        let parts = vec![
            Part::Table(table),
            Part::Text(notes.paragraphs()),
            Part::Text(vec![said]),
        ];
        Block::new(Schedule::TakeOff, "Take-off", parts)
    }

    fn cuts(&self, units: UnitSystem, places: Option<&Places<'_>>) -> Block {
        let columns = vec![
            Column::new("piece", Set::Word),
            Column::new("size", Set::Word),
            Column::new("from – to", Set::Words),
            Column::new("center\nto center", Set::Number),
            Column::new("take-outs", Set::Words),
            Column::new("cut", Set::Words),
        ];
        let rows = self.cuts.pieces.iter().flat_map(|piece: &Piece| {
            let [from, to] = &piece.ends;
            let less = piece.end_words(units).join("; ");
            let between = places.map(|places| format!("{} – {}", places.mark(from.joint), places.mark(to.joint)));
            let row = |mark: &str, cut: String| Row {
                cells: vec![
                    mark.to_owned(),
                    piece
                        .size
                        .map_or_else(|| NONE.to_owned(), |size| self.cuts.names.show(piece.material, size)),
                    between.clone().unwrap_or_default(),
                    piece.centre_to_centre.show(units),
                    less.clone(),
                    cut,
                ],
                weight: match piece.making {
                    Making::TooShort(_) | Making::TooLong => Weight::Strong,
                    _ if piece.is_on_a_male_end() => Weight::Strong,
                    _ => Weight::Plain,
                },
                tag: None,
            };
            let marked = piece.marked(units).into_iter();
            marked.map(|(mark, cut)| row(mark, cut)).collect::<Vec<_>>()
        });
        let nipples = self.cuts.nipples.iter().map(|nipple| Row {
            cells: vec![
                nipple.mark.clone(),
                nipple.size.map_or_else(|| NONE.to_owned(), |size| size.show(units)),
                places.map_or_else(String::new, |places| places.mark(nipple.joint)),
                String::new(),
                nipple.between.join("; "),
                nipple.made(units),
            ],
            weight: Weight::Plain,
            tag: None,
        });
        let table = Table {
            columns,
            rows: rows.chain(nipples).collect(),
        }
        .without_empty_columns();
        let said = Paragraph::new(
            "Cut length is center to center less the take-outs at both ends. Fitting take-outs are from memory and \
             vary by manufacturer: measure your fittings before you cut. With ? an end must be measured first; \"measure\": \
             both.",
        );
        let offset = |piece: &Piece| {
            let words = format!("An {}.", piece.offset?.words(units));
            Some(Paragraph::new(words).signed(piece.mark.clone()))
        };
        let mut said = vec![said];
        said.extend(self.cuts.pieces.iter().filter_map(offset));
        Block::new(Schedule::Cuts, "Cut list", vec![Part::Table(table), Part::Text(said)])
    }

    fn stock(&self, units: UnitSystem) -> Block {
        let mut parts = Vec::new();
        for group in &self.stock.groups {
            let mut said = Vec::new();
            let kerf = match group.form {
                StockForm::Coil => String::new(),
                StockForm::Stick => {
                    let (kerf, mark) = (group.kerf.value.show(units), group.kerf.mark.letter());
                    format!(", {kerf} ({mark}) for each saw cut")
                }
            };
            said.push(Paragraph::new(format!(
                "{} {}: {} ({}){kerf}{}.",
                self.cuts.names.show(group.material, group.size),
                group.material.short(),
                group.bought(units),
                group.stick.mark.letter(),
                group.fewer().map_or_else(String::new, |words| format!("; {words}")),
            )));
            let stick_words = |stick: &Stick| {
                let part = |&(piece, part): &(usize, usize)| {
                    let piece = &self.cuts.pieces[piece];
                    piece.planned(&piece.parts[part], units)
                };
                let parts: Vec<String> = stick.parts.iter().map(part).collect();
                format!("{}; drop {}", parts.join(" + "), stick.off_cut.show(units))
            };
            match group.form {
                StockForm::Coil => {
                    let sticks = group.sticks.iter().enumerate();
                    said.extend(
                        sticks.map(|(at, stick)| Paragraph::new(stick_words(stick)).signed((at + 1).to_string())),
                    );
                    parts.push(Part::Text(said));
                }
                StockForm::Stick => {
                    parts.push(Part::Text(said));
                    let sticks = group.sticks.iter().enumerate();
                    parts.push(Part::Bars(
                        sticks
                            .map(|(at, stick)| self.bar(at, stick, stick_words(stick), group))
                            .collect(),
                    ));
                }
            }
        }
        if parts.is_empty() {
            let none = Paragraph::new("Nothing is cut from lengths or coils.");
            parts.push(Part::Text(vec![none]));
        }
        Block::new(Schedule::Stock, "Cutting plan", parts)
    }

    fn bar(&self, at: usize, stick: &Stick, words: String, group: &StockGroup) -> Bar {
        let whole = group.stick.value.metres();
        let piece = |&(piece, part): &(usize, usize)| {
            let part = &self.cuts.pieces[piece].parts[part];
            (part.mark.clone(), part.length.metres() / whole)
        };
        Bar {
            sign: (at + 1).to_string(),
            parts: stick.parts.iter().map(piece).collect(),
            words,
        }
    }
}
