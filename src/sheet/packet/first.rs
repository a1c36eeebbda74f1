//! A first sheet with the whole drawing, and what may stand on it.

use super::Composer;
use super::around::Around;
use super::notice::{self, Lacking, left_out};
use super::together::Together;
use super::worksheet;
use crate::drawing::{Asked, Crowding, Isometric};
use crate::sheet::block::Block;
use crate::sheet::changes::Placed;
use crate::sheet::findings::Found;
use crate::sheet::notes::{self, Ground};
use crate::sheet::{appliances, built, changes, existing, legend, points, revisions, sections, supply};

/// The most findings in the box beside the drawing, and the share of the sheet's height that it may take.
const MOST_FINDINGS: usize = 8;
const FINDINGS_SHARE: f64 = 0.4;
/// At which width that is measured, mm.
const FINDINGS_WIDTH: f64 = 112.0;

/// A first sheet.
pub struct First {
    /// The drawing and what stands around it.
    pub around: Around,
    /// What never stands on a first sheet.
    pub later: Vec<Block>,
    /// How long places for its words were looked for.
    pub effort: usize,
}

impl Composer<'_> {
    /// The first sheet with the whole drawing on it.
    pub fn first_sheet(&self) -> First {
        let effort = self.effort.get();
        let plan = self.first_plan();
        let rooms = self.rooms(&plan);
        let around = self.around((plan.body, &rooms), self.options(), &|drawing| {
            self.blocks(drawing, None).0
        });
        let (_, later) = self.blocks(&around.drawing, None);
        First {
            around,
            later,
            effort: self.effort.get() - effort,
        }
    }

    /// How many findings stand beside the drawing: as many as leave room for it.
    pub fn findings_shown(&self) -> usize {
        let found = Found::of(&self.checked.findings);
        let most = found.blocking().min(MOST_FINDINGS);
        let room = self.first_plan().body.height() * FINDINGS_SHARE;
        let fits = |shown: &usize| {
            let block = found.block(*shown, &self.places);
            block.is_none_or(|block| block.lay(FINDINGS_WIDTH).height() <= room)
        };
        (0..=most).rev().find(fits).unwrap_or(0)
    }

    /// All findings that block, where the first sheet shows fewer.
    pub fn whole_findings(&self) -> Option<Block> {
        let is_told = self.matter.is_for_permit() && self.matter.asked().is_nothing();
        let is_cut = is_told && self.findings_shown() < Found::of(&self.checked.findings).blocking();
        is_cut.then(|| self.all_findings()).flatten()
    }

    /// All findings that block.
    pub fn all_findings(&self) -> Option<Block> {
        let found = Found::of(&self.checked.findings);
        found.block(found.blocking(), &self.places)
    }

    /// What notes are made from, where so many words of the drawing stand nowhere.
    pub fn ground(&self, left_out: usize) -> Ground<'_> {
        Ground {
            job: self.job,
            study: self.study,
            places: &self.places,
            findings: &self.checked.findings,
            book: self.book,
            profile: self.profile,
            crowding: match left_out {
                0 => Crowding::Fits,
                left_out => Crowding::TooDense { left_out },
            },
        }
    }

    /// The blocks that may stand on the first sheet, and those that never do, both in reading order; of a drawing in parts
    /// that is its first part, and `parts` what all have together.
    pub fn blocks(&self, drawing: &Isometric, parts: Option<&Together>) -> (Vec<Block>, Vec<Block>) {
        let mut first = Vec::new();
        let numbered = points::here(&drawing.numbered);
        let used = parts.map_or(drawing.used, |parts| drawing.used.with(parts.used));
        let lacking = parts.map_or(left_out(drawing), |parts| parts.left_out);
        let legend = legend::block(used, self.study);
        // A part has room for it kept.
        if parts.is_none() && lacking > 0 {
            first.push(notice::block(Lacking::Permit, lacking));
        }
        if !self.matter.asked().is_nothing() {
            first.extend(worksheet::blocks(self, lacking));
            first.extend(points::block(&numbered, &self.places));
            first.extend(legend);
            first.sort_by_key(|block| block.which);
            return (first, Vec::new());
        }
        if let Some((own, later)) = self.matter.blocks(self.job, self.study, self.book, &self.places) {
            first.extend(own);
            first.extend(points::block(&numbered, &self.places));
            first.extend(legend);
            first.sort_by_key(|block| block.which);
            return (first, later);
        }
        let shown = match parts {
            Some(parts) if parts.is_brief => 0,
            Some(_) | None => self.findings_shown(),
        };
        first.extend(Found::of(&self.checked.findings).block(shown, &self.places));
        let placed = match parts {
            Some(parts) => Placed::OnSheets(&parts.changes),
            None => Placed::InClouds(&drawing.clouded),
        };
        first.extend(self.since.map(|since| changes::block(since, placed)));
        let (job, study, places, before) = (self.job, self.study, &self.places, self.before);
        let asked = Asked::default();
        first.push(supply::block(
            (job, study),
            self.book,
            self.profile,
            places,
            before,
            asked,
        ));
        first.push(appliances::block(job, study, before, asked));
        first.push(sections::block((study, self.book), before, asked));
        first.extend(before.and_then(|before| existing::block(before, study, places)));
        first.push(notes::block(&self.ground(lacking), &self.title.cut));
        first.extend(built::block(self.job));
        first.extend(revisions::block(self.job));
        first.extend(points::block(&numbered, &self.places));
        first.extend(legend);
        first.sort_by_key(|block| block.which);
        (first, Vec::new())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::drawing::{Symbol, SymbolSet, isometric};
    use crate::job::Job;
    use crate::rules::Checked;
    use crate::sheet::block::Part;
    use crate::sheet::paper::{Orientation, Paper};
    use crate::sheet::tags::Schedule;

    fn legend(used: SymbolSet, paper: Paper) -> Vec<Symbol> {
        let (job, book) = (Job::default(), Codebook::published());
        let checked = Checked::of(&job, book);
        let composer = Composer::new(&job, &checked, book, paper, Orientation::Landscape);
        let plan = composer.first_plan();
        let mut drawing = isometric(&job, &checked.study, plan.body, composer.options());
        drawing.used = used;
        let (first, later) = composer.blocks(&drawing, None);
        assert!(later.iter().all(|block| block.which != Schedule::Legend));
        let parts = first
            .into_iter()
            .filter(|block| block.which == Schedule::Legend)
            .flat_map(|block| block.parts);
        parts
            .flat_map(|part| match part {
                Part::Samples(symbols) => symbols,
                Part::Table(_) | Part::Text(_) | Part::Bars(_) | Part::Blank(..) => Vec::new(),
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
