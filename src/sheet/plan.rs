//! Where everything stands: one arrangement for each of large and small paper, landscape and portrait.
//!
//! | paper | first sheet | schedule sheets |
//! | --- | --- | --- |
//! | large, landscape | drawing, under it two columns of schedules where it leaves room; column of schedules at the right; cautions, stamp, title block along the foot | the same foot |
//! | large, portrait | drawing; under it two columns of schedules with the stamp; cautions; revisions, title block | the same foot |
//! | small, landscape | column of legend, stamp and revisions at the left; drawing, cautions, title block at the right | cautions; stamp, title block |
//! | small, portrait | drawing; legend beside stamp and revisions; cautions; title block | cautions, title block |
//!
//! Every box shares its edges with its neighbours or with the frame.

use super::paper::{Orientation, Paper};
use super::title_block;
use crate::scene::{Point, Rect};

/// Width of the column of schedules at the right of large paper, and of the wider column under the drawing, mm.
const SIDE: f64 = 140.0;
/// The least height of the foot of large paper, so that a stamp of 90 × 60 mm has room, mm.
const STAMP_HEIGHT: f64 = 66.0;
/// Width of the place of the stamp in the foot of large paper, mm.
const STAMP_WIDTH: f64 = 96.0;
/// Width of the place of stamp and revisions on small portrait paper, mm.
const SMALL_STAMP_WIDTH: f64 = 55.0;

/// By how much the schedules under the drawing grow until all fit, mm.
const GROWTH: f64 = 4.0;

/// The four arrangements.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrangement {
    /// Large paper, long edge below.
    LargeLandscape,
    /// Large paper, short edge below.
    LargePortrait,
    /// Small paper, long edge below.
    SmallLandscape,
    /// Small paper, short edge below.
    SmallPortrait,
}

impl Arrangement {
    /// The arrangement of a paper.
    pub const fn of(paper: Paper, orientation: Orientation) -> Arrangement {
        match (paper, orientation) {
            (Paper::AnsiB | Paper::A3, Orientation::Landscape) => Arrangement::LargeLandscape,
            (Paper::AnsiB | Paper::A3, Orientation::Portrait) => Arrangement::LargePortrait,
            (Paper::AnsiA | Paper::A4, Orientation::Landscape) => Arrangement::SmallLandscape,
            (Paper::AnsiA | Paper::A4, Orientation::Portrait) => Arrangement::SmallPortrait,
        }
    }

    /// Whether the first sheet is for the drawing and what explains it, all schedules standing on later sheets.
    pub const fn drawing_first(self) -> bool {
        matches!(self, Arrangement::SmallLandscape | Arrangement::SmallPortrait)
    }

    /// The heights that the schedules under the drawing may have, mm; the first leaves the drawing all the room there is.
    pub fn schedule_heights(self, frame: Rect) -> Vec<f64> {
        let steps = |least: f64, greatest: f64| {
            let count = ((greatest - least) / GROWTH).floor() as usize;
            (0..=count).map(move |step| least + GROWTH * step as f64)
        };
        match self {
            Arrangement::LargeLandscape => [0.0].into_iter().chain(steps(36.0, 84.0)).collect(),
            Arrangement::LargePortrait => steps(96.0, frame.height() * 0.46).collect(),
            Arrangement::SmallLandscape => vec![0.0],
            Arrangement::SmallPortrait => steps(54.0, 100.0).collect(),
        }
    }

    /// How many lines the revision block has.
    pub const fn revision_lines(self) -> usize {
        match self {
            Arrangement::LargePortrait => 8,
            Arrangement::LargeLandscape | Arrangement::SmallLandscape | Arrangement::SmallPortrait => 2,
        }
    }

    /// The width of the revision block, mm.
    pub fn revision_width(self, frame: Rect) -> f64 {
        match self {
            Arrangement::LargeLandscape => SIDE,
            Arrangement::LargePortrait | Arrangement::SmallLandscape => frame.width() - title_width(frame),
            Arrangement::SmallPortrait => SMALL_STAMP_WIDTH,
        }
    }
}

/// What along the foot of a sheet needs.
pub trait Needs {
    /// Height of the title block, mm.
    fn title(&self) -> f64;
    /// Height of the cautions at a width, mm.
    fn cautions(&self, width: f64) -> f64;
    /// Height of the revision block at a width, mm.
    fn revisions(&self, width: f64) -> f64;
}

/// What stands at the same place on every sheet of a kind.
#[derive(Clone, Debug)]
pub struct Foot {
    /// The title block.
    pub title: Rect,
    /// The cautions.
    pub cautions: Rect,
    /// The space for the stamp.
    pub stamp: Option<Rect>,
    /// The revision block.
    pub revisions: Option<Rect>,
}

/// Where everything stands on the sheets of a job.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The frame.
    pub frame: Rect,
    /// The drawing, on the first sheet.
    pub drawing: Rect,
    /// Where the first sheet says boxed that words found no room on its drawing.
    pub notice: Option<Rect>,
    /// Columns for schedules on the first sheet.
    pub columns: Vec<Rect>,
    /// What else is on the first sheet.
    pub first: Foot,
    /// Room for schedules on later sheets.
    pub body: Rect,
    /// What else is on later sheets.
    pub later: Foot,
}

/// The width of the title block in a frame: 180 mm, or all of it where little would be left beside.
pub fn title_width(frame: Rect) -> f64 {
    if frame.width() - title_block::WIDTH < 25.0 {
        frame.width()
    } else {
        title_block::WIDTH
    }
}

impl Plan {
    /// The plan of an arrangement; `schedules` is the height of those under the drawing, mm.
    pub fn of(arrangement: Arrangement, frame: Rect, needs: &dyn Needs, schedules: f64) -> Plan {
        match arrangement {
            Arrangement::LargeLandscape => large_landscape(frame, needs, schedules),
            Arrangement::LargePortrait => large_portrait(frame, needs, schedules),
            Arrangement::SmallLandscape => small_landscape(frame, needs),
            Arrangement::SmallPortrait => small_portrait(frame, needs, schedules),
        }
    }

    /// A sheet like a later one, with nothing on it but a drawing.
    pub fn alone(self) -> Plan {
        Plan {
            drawing: self.body,
            notice: None,
            columns: Vec::new(),
            first: self.later.clone(),
            ..self
        }
    }

    /// The same with one column of that height across the whole of it, under the drawing, mm.
    pub fn with_column_under(self, height: f64) -> Plan {
        let (drawing, under) = self.parted(height);
        Plan {
            drawing,
            columns: vec![under],
            ..self
        }
    }

    /// The same with a strip of that height for a notice under the drawing, mm.
    pub fn with_notice(self, height: f64) -> Plan {
        let (drawing, under) = self.parted(height);
        Plan {
            drawing,
            notice: Some(under),
            ..self
        }
    }

    /// The room of the drawing parted into a drawing and a strip of that height under it, mm.
    fn parted(&self, height: f64) -> (Rect, Rect) {
        let Rect { min, max } = self.drawing;
        let top = (max.y - height).max(min.y);
        (rect(min.x, min.y, max.x, top), rect(min.x, top, max.x, max.y))
    }
}

fn rect(left: f64, top: f64, right: f64, bottom: f64) -> Rect {
    Rect::new(Point::new(left, top), Point::new(right, bottom))
}

fn large_landscape(frame: Rect, needs: &dyn Needs, schedules: f64) -> Plan {
    let Rect { min, max } = frame;
    let title_left = max.x - title_width(frame);
    let stamp_left = title_left - STAMP_WIDTH;
    let height = needs.title().max(needs.cautions(stamp_left - min.x)).max(STAMP_HEIGHT);
    let foot = max.y - height;
    let side = max.x - SIDE;
    let revisions = foot - needs.revisions(SIDE);
    let top = foot - schedules;
    let middle = (min.x + side) / 2.0;
    let later = Foot {
        title: rect(title_left, foot, max.x, max.y),
        cautions: rect(min.x, foot, stamp_left, max.y),
        stamp: Some(rect(stamp_left, foot, title_left, max.y)),
        revisions: None,
    };
    let mut columns = vec![rect(side, min.y, max.x, revisions)];
    if schedules > 0.0 {
        columns.extend([rect(min.x, top, middle, foot), rect(middle, top, side, foot)]);
    }
    Plan {
        frame,
        drawing: rect(min.x, min.y, side, top),
        notice: None,
        columns,
        first: Foot {
            revisions: Some(rect(side, revisions, max.x, foot)),
            ..later.clone()
        },
        body: rect(min.x, min.y, max.x, foot),
        later,
    }
}

fn large_portrait(frame: Rect, needs: &dyn Needs, schedules: f64) -> Plan {
    let Rect { min, max } = frame;
    let title_left = max.x - title_width(frame);
    let title = max.y - needs.title().max(needs.revisions(title_left - min.x));
    let foot = title - needs.cautions(frame.width());
    let (top, middle, stamp) = (foot - schedules, max.x - SIDE, foot - STAMP_HEIGHT);
    let later = Foot {
        title: rect(title_left, title, max.x, max.y),
        cautions: rect(min.x, foot, max.x, title),
        stamp: None,
        revisions: Some(rect(min.x, title, title_left, max.y)),
    };
    Plan {
        frame,
        drawing: rect(min.x, min.y, max.x, top),
        notice: None,
        columns: vec![rect(min.x, top, middle, stamp), rect(middle, top, max.x, foot)],
        first: Foot {
            stamp: Some(rect(min.x, stamp, middle, foot)),
            ..later.clone()
        },
        body: rect(min.x, min.y, max.x, foot),
        later,
    }
}

fn small_landscape(frame: Rect, needs: &dyn Needs) -> Plan {
    let Rect { min, max } = frame;
    let left = max.x - title_width(frame);
    let title = max.y - needs.title();
    let cautions = title - needs.cautions(max.x - left);
    let revisions = max.y - needs.revisions(left - min.x);
    let strip = title - needs.cautions(frame.width());
    Plan {
        frame,
        drawing: rect(left, min.y, max.x, cautions),
        notice: None,
        columns: vec![rect(min.x, min.y, left, revisions)],
        first: Foot {
            title: rect(left, title, max.x, max.y),
            cautions: rect(left, cautions, max.x, title),
            stamp: None,
            revisions: Some(rect(min.x, revisions, left, max.y)),
        },
        body: rect(min.x, min.y, max.x, strip),
        later: Foot {
            title: rect(left, title, max.x, max.y),
            cautions: rect(min.x, strip, max.x, title),
            stamp: Some(rect(min.x, title, left, max.y)),
            revisions: None,
        },
    }
}

fn small_portrait(frame: Rect, needs: &dyn Needs, schedules: f64) -> Plan {
    let Rect { min, max } = frame;
    let title = max.y - needs.title();
    let cautions = title - needs.cautions(frame.width());
    let top = cautions - schedules;
    let middle = max.x - SMALL_STAMP_WIDTH;
    let revisions = cautions - needs.revisions(SMALL_STAMP_WIDTH);
    let later = Foot {
        title: rect(min.x, title, max.x, max.y),
        cautions: rect(min.x, cautions, max.x, title),
        stamp: None,
        revisions: None,
    };
    Plan {
        frame,
        drawing: rect(min.x, min.y, max.x, top),
        notice: None,
        columns: vec![rect(min.x, top, middle, cautions)],
        first: Foot {
            stamp: Some(rect(middle, top, max.x, revisions)),
            revisions: Some(rect(middle, revisions, max.x, cautions)),
            ..later.clone()
        },
        body: rect(min.x, min.y, max.x, cautions),
        later,
    }
}
