//! Where everything stands on the sheets of a job.
//!
//! The first sheet has the title block at its lower right, over it the cautions in a strip from edge to edge, and the rest
//! for the drawing with schedules in the white around it; at the left of the title block, or over it where it is as wide as
//! the sheet, is room for the stamp. Every other sheet has a strip 10 mm high along its foot. Each box shares its edges
//! with its neighbours or with the frame.

use super::title_block;
use crate::scene::{Point, Rect};

/// The least width of the room beside the title block that is worth keeping, mm.
const LEAST_BESIDE: f64 = 25.0;

/// The height of the room for a stamp where the title block is as wide as the sheet, mm.
const STAMP_HEIGHT: f64 = 34.0;

/// What stands along the foot of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Foot {
    /// That of a first sheet.
    First {
        /// The cautions.
        cautions: Rect,
        /// The title block.
        title: Rect,
        /// The room at its left, or over it where it is as wide as the sheet and a stamp is asked for.
        beside: Option<Rect>,
    },
    /// That of any other: the title in one strip.
    Later {
        /// The strip.
        strip: Rect,
    },
}

/// Where everything stands on a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The frame.
    pub frame: Rect,
    /// Room for the drawing and schedules.
    pub body: Rect,
    /// Room for a drawing that stands alone.
    pub drawing: Rect,
    /// Where a sheet says boxed that words found no room on its drawing.
    pub notice: Option<Rect>,
    /// What stands along the foot.
    pub foot: Foot,
}

/// The width of the title block in a frame: 180 mm, or all of it where little would be left beside.
pub fn title_width(frame: Rect) -> f64 {
    if frame.width() - title_block::WIDTH < LEAST_BESIDE {
        frame.width()
    } else {
        title_block::WIDTH
    }
}

impl Plan {
    /// A first sheet; `title` and `cautions` are the heights of title block and cautions, mm.
    pub fn first(frame: Rect, title: f64, cautions: f64, has_stamp: bool) -> Plan {
        let Rect { min, max } = frame;
        let left = max.x - title_width(frame);
        let title_top = max.y - title;
        let has_left = left > min.x + 1.0;
        let top = title_top - if has_stamp && !has_left { STAMP_HEIGHT } else { 0.0 };
        let over = top - cautions;
        let beside = match has_left {
            true => Rect::new(Point::new(min.x, top), Point::new(left, max.y)),
            false => Rect::new(Point::new(min.x, top), Point::new(max.x, title_top)),
        };
        Plan {
            frame,
            body: Rect::new(min, Point::new(max.x, over)),
            drawing: Rect::new(min, Point::new(max.x, over)),
            notice: None,
            foot: Foot::First {
                cautions: Rect::new(Point::new(min.x, over), Point::new(max.x, top)),
                title: Rect::new(Point::new(left, title_top), max),
                beside: (has_left || has_stamp).then_some(beside),
            },
        }
    }

    /// Any other sheet; `strip` is the height of the strip along its foot, mm.
    pub fn later(frame: Rect, strip: f64) -> Plan {
        let Rect { min, max } = frame;
        let top = max.y - strip;
        Plan {
            frame,
            body: Rect::new(min, Point::new(max.x, top)),
            drawing: Rect::new(min, Point::new(max.x, top)),
            notice: None,
            foot: Foot::Later {
                strip: Rect::new(Point::new(min.x, top), max),
            },
        }
    }

    /// The same with a strip of that height kept free under the drawing, mm.
    pub fn with_strip_under(self, height: f64) -> Plan {
        let (drawing, _) = self.parted(height);
        Plan { drawing, ..self }
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
        (
            Rect::new(min, Point::new(max.x, top)),
            Rect::new(Point::new(min.x, top), max),
        )
    }
}
