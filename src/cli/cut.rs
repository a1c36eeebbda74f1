//! `stubout cut`: every piece of new pipe with its cut length, and which stick it is cut from.

use super::input::Studied;
use super::list::{ListArguments, Listed};
use super::{list, table};
use crate::codebook::{Codebook, StockForm};
use crate::fittings::End;
use crate::job::FoundBy;
use crate::units::{Length, Show, UnitSystem};
use crate::work::{CutList, Making, Piece, StockGroup, StockPlan, spreadsheet};
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// A job's pieces and sticks.
struct Cut {
    studied: Studied,
    cuts: CutList,
    stock: StockPlan,
}

/// Under every cut list.
const MEASURE: &str =
    "Fitting take-outs are from memory of ASME B16.3 and vary by manufacturer: measure your fittings before you cut.";

/// Prints the cut list of each job.
pub fn run(arguments: &ListArguments) -> u8 {
    list::print(arguments, "cut", Cut::of)
}

impl Cut {
    fn of(book: &Codebook, studied: Studied) -> Cut {
        let cuts = CutList::of(&studied.job, &studied.checked.study, book);
        let stock = StockPlan::of(&cuts, &studied.checked.study, book);
        Cut { studied, cuts, stock }
    }

    fn units(&self) -> UnitSystem {
        self.studied.job.settings.units
    }

    fn runs(&self, piece: &Piece) -> Vec<u32> {
        piece
            .runs
            .iter()
            .map(|&run| self.studied.job.runs.at(run).id.0)
            .collect()
    }

    fn remarks(&self) -> String {
        let mut text = String::new();
        let mut said: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for piece in &self.cuts.pieces {
            for remark in piece.remarks(self.units()) {
                let marks = said.entry(remark).or_default();
                if marks.last() != Some(&piece.mark.as_str()) {
                    marks.push(&piece.mark);
                }
            }
        }
        for (remark, marks) in said {
            text += &format!("{}: {remark}\n", marks.join(" "));
        }
        for piece in &self.cuts.pieces {
            let units = self.units();
            if let Some(offset) = &piece.offset {
                text += &format!("{}: {}\n", piece.mark, offset.words(units));
            }
            if let Some(between) = piece.coupling {
                text += &format!(
                    "{}: {} couplings between its parts, {} each from pipe to pipe\n",
                    piece.mark,
                    piece.couplings(),
                    between.show(units)
                );
            }
        }
        text
    }

    fn sticks(&self, group: &StockGroup) -> String {
        let units = self.units();
        let kerf = match group.form {
            StockForm::Stick => format!(", kerf {} {}", group.kerf.value.show(units), group.kerf.mark),
            StockForm::Coil => String::new(),
        };
        let mut text = format!(
            "\n{} {}: {} {}{kerf}{}\n",
            self.cuts.names.show(group.material, group.size),
            group.material.name(),
            group.bought(units),
            group.stick.mark,
            group.fewer().map_or_else(String::new, |words| format!("; {words}")),
        );
        for (at, stick) in group.sticks.iter().enumerate() {
            let planned = |&(piece, part): &(usize, usize)| {
                let piece = &self.cuts.pieces[piece];
                piece.planned(&piece.parts[part], units)
            };
            let parts: Vec<String> = stick.parts.iter().map(planned).collect();
            text += &format!(
                "    {}: {}; drop {}\n",
                at + 1,
                parts.join(" + "),
                stick.off_cut.show(units)
            );
        }
        text
    }
}

impl Listed for Cut {
    fn say(&self) -> String {
        let rows = spreadsheet::cuts(&self.studied.job, &self.cuts);
        let mut text = table::columns(&spreadsheet::CUT_HEADS, &rows[1..]);
        text += &self.remarks();
        for group in &self.stock.groups {
            text += &self.sticks(group);
        }
        format!(
            "{text}\nA length marked ? is not final: measure one end first; \"measure\": measure both. Your own lengths go into the job \
             (take_out, fitting_take_out) or into a file (--lengths).\n{MEASURE}\n{}",
            table::closing()
        )
    }

    fn table(&self) -> Vec<Vec<String>> {
        spreadsheet::cuts(&self.studied.job, &self.cuts)
    }

    fn machine(&self) -> Value {
        let piece = |piece: &Piece| {
            let parts = piece.parts.iter();
            // Between two ends that nobody has measured no length is told.
            let told = |length: Length| (!piece.must_be_measured()).then(|| length.inches());
            json!({
                "mark": piece.mark,
                "runs": self.runs(piece),
                "material": piece.material.key(),
                "size": piece.size.map(|size| size.exact()),
                "center_to_center_in": piece.centre_to_centre.inches(),
                "ends": piece.ends.iter().map(|end| self.end(end)).collect::<Vec<_>>(),
                "cut_in": told(piece.cut()),
                "known": piece.is_known(),
                "making": word(piece.making),
                "making_in": figure(piece.making).and_then(told),
                "parts": parts.map(|part| json!({ "mark": part.mark, "length_in": told(part.length) })).collect::<Vec<_>>(),
                "couplings": piece.couplings(),
                "offset": piece.offset.as_ref().map(|offset| json!({
                    "degrees": offset.degrees,
                    "travel_in": offset.travel.inches(),
                    "set_in": offset.set().inches(),
                    "along_in": offset.along.inches(),
                    "rise_in": offset.rise.inches(),
                    "roll_in": offset.roll.inches(),
                    "found_by": match offset.found.by {
                        FoundBy::Drawing => "drawing",
                        FoundBy::Measure => "measure",
                    },
                    "found_degrees": offset.found.degrees,
                    "found_travel_in": offset.found.travel.inches(),
                })),
                "remarks": piece.remarks(self.units()),
            })
        };
        let group = |group: &StockGroup| {
            let sticks = group.sticks.iter().map(|stick| {
                let parts = stick
                    .parts
                    .iter()
                    .map(|&(piece, part)| &self.cuts.pieces[piece].parts[part].mark);
                json!({ "parts": parts.collect::<Vec<_>>(), "drop_in": stick.off_cut.inches() })
            });
            json!({
                "material": group.material.key(),
                "size": group.size.exact(),
                "form": group.form.name(false),
                "stock_length_in": group.stick.value.inches(),
                "mark": group.stick.mark.letter().to_string(),
                "kerf_in": group.kerf.value.inches(),
                "kerf_mark": group.kerf.mark.letter().to_string(),
                "lengths": sticks.collect::<Vec<_>>(),
                "bound": group.bound,
                "proved": group.proved,
            })
        };
        json!({
            "pieces": self.cuts.pieces.iter().map(piece).collect::<Vec<_>>(),
            "nipples": self.cuts.nipples.iter().map(|nipple| json!({
                "mark": nipple.mark,
                "joint": self.studied.job.joints.at(nipple.joint).id.0,
                "size": nipple.size.map(|size| size.exact()),
                "length_in": nipple.length.map(Length::inches),
                "close": nipple.close,
                "between": nipple.between,
            })).collect::<Vec<_>>(),
            "stock": self.stock.groups.iter().map(group).collect::<Vec<_>>(),
        })
    }
}

impl Cut {
    fn end(&self, end: &End) -> Value {
        json!({
            "joint": self.studied.job.joints.at(end.joint).id.0,
            "what": end.what,
            "take_out_in": end.is_known().then(|| end.take_out().inches()),
        })
    }
}

fn word(making: Making) -> &'static str {
    match making {
        Making::Cut => "cut",
        Making::Nipple(_) => "nipple",
        Making::Coil => "coil",
        Making::Direct => "no_pipe",
        Making::TooShort(_) => "too_short",
        Making::TooLong => "too_long",
        Making::NoSize => "no_size",
    }
}

fn figure(making: Making) -> Option<Length> {
    match making {
        Making::Nipple(length) | Making::TooShort(length) => Some(length),
        Making::Cut | Making::Coil | Making::Direct | Making::TooLong | Making::NoSize => None,
    }
}
