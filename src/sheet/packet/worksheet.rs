//! The sheets of a worksheet: the drawing with its schedules, in which figures are asked; and the working of its key, a set
//! of its own.

use super::draw::{self, Which};
use super::schedules::{self, column_sheets};
use super::{Composer, Packet};
use crate::drawing::Blank;
use crate::scene::{Copy, Scene};
use crate::sheet::block::Block;
use crate::sheet::findings::Found;
use crate::sheet::purpose::Purpose;
use crate::sheet::{appliances, cautions, exercise, notes, sections, supply};

/// What stands beside the drawing of a worksheet, where so many of its words stand nowhere.
pub fn blocks(composer: &Composer<'_>, left_out: usize) -> Vec<Block> {
    let asked = composer.matter.asked();
    let (job, study, places) = (composer.job, composer.study, &composer.places);
    let mut blocks = vec![
        supply::block((job, study), composer.book, composer.profile, places, None, asked),
        appliances::block(job, study, None, asked),
        sections::block((study, composer.book), None, asked),
        notes::of_worksheet(&composer.ground(left_out), &composer.title.cut),
    ];
    if asked.asks(Blank::Findings) {
        blocks.push(Found::of(&composer.checked.findings).asked(places));
    }
    if asked.asks(Blank::FittingCounts) {
        blocks.extend(exercise::fittings(study, asked));
    }
    if asked.asks(Blank::CutLengths) {
        blocks.extend(exercise::cuts(job, study, composer.book, places, asked));
    }
    blocks
}

/// Adds the working of the key.
pub fn working(composer: &Composer<'_>, packet: &mut Packet) {
    let purpose = Purpose::Working;
    let plan = composer.later_plan();
    let blocks = [
        exercise::working(composer.job, composer.study),
        cautions::block(composer.profile),
    ];
    let sheets = column_sheets(&blocks, plan.body);
    let of = sheets.len();
    for (at, (columns, poured)) in sheets.into_iter().enumerate() {
        let number = at + 1;
        let which = Which { number, of, purpose };
        let name = schedules::names(&poured.parts);
        packet.push(draw::later(composer, &plan, poured, &columns, which), name, which);
    }
}

impl Packet {
    /// The sheets of a worksheet with nothing of an answer in them.
    pub fn worksheet(&self) -> Vec<Scene> {
        let sheets = self.sheets.iter().zip(&self.purposes);
        let asking = sheets.filter(|(_, purpose)| matches!(purpose, Purpose::Worksheet(_)));
        asking.map(|(sheet, _)| sheet.copy(Copy::Blank)).collect()
    }

    /// Worksheet and key one after the other: what is printed for a class.
    pub fn for_class(self) -> Packet {
        let (blank, key) = (self.worksheet(), self.key());
        let count = blank.len();
        let names = |what: &'static str, names: &[String]| -> Vec<String> {
            names.iter().map(|name| format!("{what}, {name}")).collect()
        };
        Packet {
            names: [names("worksheet", &self.names[..count]), names("key", &self.names)].concat(),
            purposes: [&self.purposes[..count], &self.purposes].concat(),
            numbers: [&self.numbers[..count], &self.numbers].concat(),
            sheets: blank.into_iter().chain(key).collect(),
            ..self
        }
    }

    /// The sheets of its key: the same with the answers, then the working.
    pub fn key(&self) -> Vec<Scene> {
        self.sheets.iter().map(|sheet| sheet.copy(Copy::Answered)).collect()
    }
}
