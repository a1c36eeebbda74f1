//! What each pipe carries, seen on the screen while it is drawn: a band behind pipe that is near its capacity, over it, or
//! not judged. Pipe within its capacity has none. Color and stroke tell them apart both; nothing of it is printed.

use super::{Glass, marks};
use crate::desk::Shown;
use crate::drawing::AS_DRAWN;
use crate::editor::Part;
use crate::look;
use crate::sizing::{Origin, Section, Verdict};
use egui::{Align2, Color32, FontId, Painter, Pos2, Shape, Stroke, pos2, vec2};

/// From this share of its capacity on pipe counts as near it: the tool's own choice.
const NEAR: f64 = 0.9;

/// What a band tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Band {
    /// The load is near the capacity.
    Near,
    /// The load is over it.
    Over,
    /// It is not judged.
    Unknown,
}

impl Band {
    const ALL: [Band; 3] = [Band::Over, Band::Near, Band::Unknown];

    fn of(section: &Section) -> Option<Band> {
        match section.sizing.verdict {
            Verdict::TooSmall => Some(Band::Over),
            // Pipe without a load is not drawn to its end yet.
            Verdict::Unknown if section.sizing.origin == Origin::Connector => None,
            Verdict::Unknown => (section.load.flow.cfh() > 0.0).then_some(Band::Unknown),
            Verdict::Carries => {
                let capacity = section.sizing.capacity()?.flow.cfh();
                (section.load.flow.cfh() >= NEAR * capacity).then_some(Band::Near)
            }
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Band::Over => "over capacity",
            Band::Near => "near capacity",
            Band::Unknown => "not judged",
        }
    }

    /// Its line: solid, dashed, or dotted.
    fn line(self, from: Pos2, to: Pos2) -> Vec<Shape> {
        let color = self.color();
        match self {
            Band::Over => vec![Shape::line_segment([from, to], Stroke::new(9.0, color))],
            Band::Near => Shape::dashed_line(&[from, to], Stroke::new(8.0, color), 12.0, 7.0),
            Band::Unknown => Shape::dashed_line(&[from, to], Stroke::new(5.0, color), 3.0, 7.0),
        }
    }

    fn color(self) -> Color32 {
        match self {
            Band::Over => look::OVER,
            Band::Near => look::NEAR,
            Band::Unknown => look::NOT_JUDGED,
        }
    }
}

/// The runs that have a band.
pub fn bands(shown: &Shown) -> Vec<(Part, Band)> {
    let study = &shown.checked.study;
    let runs = shown.job.runs.iter().zip(&study.runs);
    let judged = runs.filter_map(|(run, found)| {
        let section = study.sections.get(found.section?)?;
        Some((Part::Run(run.id), Band::of(section)?))
    });
    judged.collect()
}

/// Paints the bands, to lie behind the drawing.
pub fn paint(painter: &Painter, glass: Glass, shown: &Shown) {
    let bands = bands(shown);
    for (part, band) in &bands {
        if let [from, to] = marks::places(&shown.job, *part)[..] {
            let (from, to) = (glass.point(from), glass.point(to));
            if let Some([from, to]) = marks::seen(painter.clip_rect(), from, to) {
                painter.extend(band.line(from, to));
            }
        }
    }
}

/// Says what the bands and other marks mean, in a line that begins at a place.
pub fn legend(painter: &Painter, mut left: Pos2, shown: &Shown) {
    let bands = bands(shown);
    let used = Band::ALL
        .into_iter()
        .filter(|band| bands.iter().any(|(_, one)| one == band));
    for band in used {
        painter.extend(band.line(left, left + vec2(30.0, 0.0)));
        let at = pos2(left.x + 37.0, left.y);
        let words = painter.text(
            at,
            Align2::LEFT_CENTER,
            band.name(),
            FontId::proportional(13.0),
            look::STROKES,
        );
        left.x = words.max.x + 16.0;
    }
    if shown.job.runs.iter().any(|run| run.given_length().is_none()) {
        let words = format!("{AS_DRAWN} length as drawn, not typed");
        painter.text(
            left,
            Align2::LEFT_CENTER,
            words,
            FontId::proportional(13.0),
            look::STROKES,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::{Job, RunId};
    use crate::units::NominalSize;
    use std::sync::Arc;

    fn kitchen() -> Job {
        crate::file::read(include_str!("../../../examples/patio-kitchen.ron")).unwrap()
    }

    fn of(job: Job) -> Vec<(Part, Band)> {
        bands(&Shown::of(Arc::new(job), Codebook::published(), 0, None))
    }

    #[test]
    fn pipe_over_its_capacity_has_a_band_and_pipe_well_within_has_none() {
        let mut job = kitchen();
        // 280 cfh pass the first runs: 220 is what 1 in carries at 80 ft, by table 402.4(2).
        job.runs.get_mut(RunId(1)).unwrap().size = Some(NominalSize::Inch(16));
        job.runs.get_mut(RunId(2)).unwrap().size = Some(NominalSize::Inch(16));
        let bands = of(job);
        assert!(bands.contains(&(Part::Run(RunId(1)), Band::Over)), "{bands:?}");
        // The furnace: 80 of 95 cfh.
        let furnace = kitchen()
            .runs
            .iter()
            .map(|run| run.id)
            .find(|id| !bands.iter().any(|(part, _)| *part == Part::Run(*id)));
        assert!(furnace.is_some(), "some pipe is well within");
        assert!(!of(kitchen()).iter().any(|(_, band)| *band == Band::Over));
    }
}
