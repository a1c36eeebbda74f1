//! Sizes of paper, and the frame that leaves the margins.

use crate::scene::{Point, Rect};

/// The sizes on which a sheet can be drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// ANSI A, 8.5 × 11 in (ANSI/ASME Y14.1).
    AnsiA,
    /// ANSI B, 11 × 17 in (ANSI/ASME Y14.1), the usual one for piping isometrics.
    #[default]
    AnsiB,
    /// ISO A4, 210 × 297 mm (ISO 216).
    A4,
    /// ISO A3, 297 × 420 mm (ISO 216).
    A3,
}

/// Which edge of the paper lies below.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Orientation {
    /// The long edge.
    #[default]
    Landscape,
    /// The short edge.
    Portrait,
}

impl Orientation {
    /// The name in a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            Orientation::Landscape => "landscape",
            Orientation::Portrait => "portrait",
        }
    }

    /// The paper turned round.
    pub const fn other(self) -> Orientation {
        match self {
            Orientation::Landscape => Orientation::Portrait,
            Orientation::Portrait => Orientation::Landscape,
        }
    }
}

/// How the paper is turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// As a person chose.
    Chosen(Orientation),
    /// As needs the fewest sheets of the permit set; landscape where both need as many.
    Fewest,
}

impl From<Orientation> for Turn {
    fn from(orientation: Orientation) -> Turn {
        Turn::Chosen(orientation)
    }
}

/// The margin at the left edge of ISO paper, where sheets are bound, mm (ISO 5457:1999, from memory).
const BINDING: f64 = 20.0;
/// The margin at its other edges, mm (ISO 5457:1999, from memory).
const MARGIN: f64 = 10.0;
/// The margin at all edges of ANSI paper, mm: 0.38 in (ASME Y14.1, from memory).
const ANSI_MARGIN: f64 = 0.38 * 25.4;

impl Paper {
    /// Every size.
    pub const ALL: [Paper; 4] = [Paper::AnsiA, Paper::AnsiB, Paper::A4, Paper::A3];

    /// The name by which paper is bought.
    pub const fn name(self) -> &'static str {
        match self {
            Paper::AnsiA => "ANSI A",
            Paper::AnsiB => "ANSI B",
            Paper::A4 => "A4",
            Paper::A3 => "A3",
        }
    }

    /// Width and height in mm.
    pub const fn size(self, orientation: Orientation) -> (f64, f64) {
        let (short, long) = match self {
            Paper::AnsiA => (8.5 * 25.4, 11.0 * 25.4),
            Paper::AnsiB => (11.0 * 25.4, 17.0 * 25.4),
            Paper::A4 => (210.0, 297.0),
            Paper::A3 => (297.0, 420.0),
        };
        match orientation {
            Orientation::Landscape => (long, short),
            Orientation::Portrait => (short, long),
        }
    }

    /// The frame: the paper less its margins.
    pub fn frame(self, orientation: Orientation) -> Rect {
        let (width, height) = self.size(orientation);
        let (left, others) = match self {
            Paper::AnsiA | Paper::AnsiB => (ANSI_MARGIN, ANSI_MARGIN),
            Paper::A4 | Paper::A3 => (BINDING, MARGIN),
        };
        Rect::new(Point::new(left, others), Point::new(width - others, height - others))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_frame_is_the_drawing_space_of_iso_5457() {
        for (paper, width, height) in [(Paper::A4, 180.0, 277.0), (Paper::A3, 267.0, 400.0)] {
            let frame = paper.frame(Orientation::Portrait);
            assert!((frame.width() - width).abs() < 1e-9 && (frame.height() - height).abs() < 1e-9);
        }
        let b = Paper::AnsiB.size(Orientation::Landscape);
        assert_eq!((b.0 / 25.4, b.1 / 25.4), (17.0, 11.0));
    }
}
